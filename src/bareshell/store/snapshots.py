"""Snapshots: the build as it stood at an entry, so that opening need not fold everything.

They are disposable. One that is damaged, was made by other code or belongs to another journal
is passed over, and the build is made from the entries, which alone are the record.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Callable, Iterator
from contextlib import suppress
from functools import cache
from pathlib import Path

import bareshell.model
from bareshell import __version__
from bareshell.model import FOLD_VERSION, Build
from bareshell.store.journal import Tip
from bareshell.store.packing import pack, unpack, without_collecting

KEPT = 3
"""How many are kept: the newest, and older ones for when an entry reaches back."""

_FAULTS = (OSError, ValueError, TypeError, LookupError, AttributeError)


class Snapshots:
    """The snapshots of one build, in a folder that may be emptied at any time."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder

    def newest_first(
        self, id_at: Callable[[int], str], before: int | None = None
    ) -> Iterator[tuple[Build, Tip]]:
        """Yield those that can be trusted, newest first.

        Parameters
        ----------
        id_at : callable
            Gives the id of the journal's entry with a number, empty when it has none; a
            snapshot whose last entry the journal does not have belongs to another journal.
        before : int or None
            Only those made before the entry with this number.
        """
        for path in self._paths():
            if before is not None and path.name >= _name(before):
                continue
            found = _read(path, id_at)
            if found is not None:
                yield found

    def write(self, build: Build, tip: Tip) -> None:
        """Keep a build; a disk that will not have it is no reason to stop anybody."""
        body = json.dumps(pack(build), ensure_ascii=False, separators=(",", ":")).encode()
        head = {
            "code": code_mark(),
            "seq": tip.seq,
            "id": tip.id,
            "sha256": hashlib.sha256(body).hexdigest(),
        }
        with suppress(OSError):
            self.folder.mkdir(parents=True, exist_ok=True)
            path = self.folder / _name(tip.seq)
            being_written = path.with_suffix(".part")
            being_written.write_bytes(json.dumps(head).encode() + b"\n" + body)
            being_written.replace(path)
            for old in self._paths()[KEPT:]:
                old.unlink()

    def clear(self) -> None:
        """Throw all of them away."""
        for path in self._paths():
            with suppress(OSError):
                path.unlink()

    def _paths(self) -> list[Path]:
        with suppress(OSError):
            return sorted(self.folder.glob("snapshot-*.json"), reverse=True)
        return []


def _name(seq: int) -> str:
    return f"snapshot-{seq:08d}.json"


def _read(path: Path, id_at: Callable[[int], str]) -> tuple[Build, Tip] | None:
    try:
        line, _, body = path.read_bytes().partition(b"\n")
        head = json.loads(line)
        tip = Tip(head["seq"], head["id"])
        if head["code"] != code_mark() or id_at(tip.seq) != tip.id:
            return None
        if hashlib.sha256(body).hexdigest() != head["sha256"]:
            return None
        with without_collecting():
            build = unpack(Build, json.loads(body))
    except _FAULTS:
        return None
    return (build, tip) if build.seq == tip.seq else None


@cache
def code_mark() -> str:
    """Return a mark of the code that makes a build from entries; any change to it changes.

    ``FOLD_VERSION`` says that a fold means something else now; the model's own text says that
    somebody forgot to say so.
    """
    mark = hashlib.sha256(f"{__version__} {FOLD_VERSION}".encode())
    with suppress(OSError, TypeError):
        model = Path(bareshell.model.__path__[0])
        for path in sorted(model.rglob("*.py")):
            mark.update(path.read_bytes())
    return mark.hexdigest()[:16]
