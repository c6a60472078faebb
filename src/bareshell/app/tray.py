"""The tray: files that were brought to the pages and wait to be let in, with what was chosen.

They lie in the build's own cache folder, so a restart of the pages loses neither the file nor a
choice. Each is found by a long random name, and only by whoever brought it; a week after it was
last touched it is swept out.
"""

from __future__ import annotations

import json
import re
import secrets
import threading
from collections.abc import Iterator, Mapping
from contextlib import contextmanager, suppress
from dataclasses import dataclass, field, replace
from datetime import datetime, timedelta
from pathlib import Path
from typing import Any

from bareshell.app.door import CACHE_FOLDER
from bareshell.errors import NotFound
from bareshell.store.faults import in_words
from bareshell.store.files import whole

Answers = Mapping[str, tuple[str, ...]]
"""What a person chose, as the form sends it."""

FOLDER = "bring-in"
KEPT_FOR = timedelta(days=7)
MOST_EACH = 8
"""How many files of one person wait at a time; the one touched longest ago goes first."""

_TOKEN = re.compile(r"[A-Za-z0-9_-]{20,64}")
_FAULTS = (KeyError, TypeError, ValueError, AttributeError)

_turn = threading.Lock()
"""Held while a file is let in, so that two presses land it once."""


@dataclass(frozen=True, slots=True)
class Waiting:
    """A file in the tray.

    Parameters
    ----------
    token : str
        Its long random name.
    holder : str
        Who brought it: this computer, or a paired phone.
    name : str
        What the file is called.
    kind : str
        What it turned out to be.
    touched_at : datetime
        When it was brought, or something was last chosen.
    answers : mapping of str to tuple of str
        What was chosen.
    told : str
        For an archive, which is not kept here: what it holds, in words.
    landed : tuple of int
        The numbers of its first and last entry, once it is in the record.
    """

    token: str
    holder: str
    name: str
    kind: str
    touched_at: datetime
    answers: Answers = field(default_factory=dict)
    told: str = ""
    landed: tuple[int, ...] = ()


class Tray:
    """The tray of one build.

    Parameters
    ----------
    build : Path
        The build's folder.
    """

    def __init__(self, build: Path) -> None:
        self._folder = build / CACHE_FOLDER / FOLDER

    def put(
        self,
        holder: str,
        name: str,
        kind: str,
        data: bytes,
        now: datetime,
        *,
        answers: Answers | None = None,
        told: str = "",
    ) -> Waiting:
        """Put a file in.

        Raises
        ------
        NoRoom
            When the disk is full.
        """
        self._sweep(holder, now)
        new = Waiting(secrets.token_urlsafe(24), holder, name, kind, now, answers or {}, told)
        with in_words(f"'{name}' was not taken in"):
            self._folder.mkdir(parents=True, exist_ok=True)
            with whole(self._data(new.token)) as beside:
                beside.write_bytes(data)
        return self.keep(new)

    def find(self, token: str, holder: str, now: datetime) -> Waiting:
        """Find a file again.

        Raises
        ------
        NotFound
            When it is no longer there, or somebody else brought it.
        """
        found = self._read(token) if _TOKEN.fullmatch(token) else None
        if found is None or found.holder != holder or now - found.touched_at > KEPT_FOR:
            raise NotFound(
                "this file does not wait here any more", "bring it in again; nothing of it landed"
            )
        return found

    def data(self, waiting: Waiting) -> bytes:
        """Return what is in a file.

        Raises
        ------
        NotFound
            When it was swept out meanwhile.
        """
        try:
            return self._data(waiting.token).read_bytes()
        except FileNotFoundError:
            raise NotFound("this file does not wait here any more", "bring it in again") from None

    def keep(self, waiting: Waiting) -> Waiting:
        """Keep what was chosen."""
        told = {
            "holder": waiting.holder,
            "name": waiting.name,
            "kind": waiting.kind,
            "touched_at": waiting.touched_at.isoformat(),
            "answers": {key: list(values) for key, values in waiting.answers.items()},
            "told": waiting.told,
            "landed": list(waiting.landed),
        }
        with (
            in_words(f"what was chosen for '{waiting.name}' was not kept"),
            whole(self._told(waiting.token)) as beside,
        ):
            beside.write_text(json.dumps(told), encoding="ascii")
        return waiting

    def let_go(self, waiting: Waiting) -> None:
        """Put a file away: nothing of it stays."""
        self._drop(waiting.token)

    def landed(self, waiting: Waiting, first: int, last: int) -> Waiting:
        """Note that a file is in the record; the file itself goes, so that it lands once."""
        done = self.keep(replace(waiting, answers={}, landed=(first, last)))
        with suppress(OSError):
            self._data(waiting.token).unlink()
        return done

    @contextmanager
    def alone(self) -> Iterator[None]:
        """Hold the tray while a file is let in."""
        with _turn:
            yield

    def waiting(self, holder: str, now: datetime) -> tuple[Waiting, ...]:
        """Return what somebody brought and has not let in yet, the newest first."""
        found = [one for one in self._all() if one.holder == holder and not one.landed]
        fresh = [one for one in found if now - one.touched_at <= KEPT_FOR and not one.told]
        return tuple(sorted(fresh, key=lambda one: one.touched_at, reverse=True))

    # --- on the disk -------------------------------------------------------------------------

    def _sweep(self, holder: str, now: datetime) -> None:
        every = list(self._all())
        old = [one for one in every if now - one.touched_at > KEPT_FOR]
        mine = [one for one in every if one.holder == holder and one not in old]
        mine.sort(key=lambda one: (not one.landed, one.touched_at))
        for one in (*old, *mine[: max(0, len(mine) - MOST_EACH + 1)]):
            self._drop(one.token)

    def _all(self) -> Iterator[Waiting]:
        for path in self._folder.glob("*.json"):
            found = self._read(path.stem)
            if found is not None:
                yield found

    def _read(self, token: str) -> Waiting | None:
        """Read one; what cannot be read is as good as not there: the cache may go at any time."""
        try:
            told = json.loads(self._told(token).read_text(encoding="ascii"))
            return _waiting(token, told)
        except (OSError, *_FAULTS):
            return None

    def _drop(self, token: str) -> None:
        for path in (self._data(token), self._told(token)):
            with suppress(OSError):
                path.unlink()

    def _data(self, token: str) -> Path:
        return self._folder / f"{token}.file"

    def _told(self, token: str) -> Path:
        return self._folder / f"{token}.json"


def _waiting(token: str, told: dict[str, Any]) -> Waiting:
    return Waiting(
        token,
        str(told["holder"]),
        str(told["name"]),
        str(told["kind"]),
        datetime.fromisoformat(told["touched_at"]),
        {str(key): tuple(map(str, values)) for key, values in told["answers"].items()},
        str(told["told"]),
        tuple(int(number) for number in told["landed"]),
    )
