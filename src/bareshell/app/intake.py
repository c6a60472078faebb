"""Taking changes in: each one is decided on the build that the ones before it have made."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta

from bareshell.errors import BadInput, Conflict
from bareshell.model import Build, Entry, Standing, decide
from bareshell.model.bounds import check_bounds
from bareshell.model.changes import Change, Settled, Withdrawn
from bareshell.model.fold import Draft, play
from bareshell.store.journal import Row, row_of
from bareshell.store.wire import as_kept, kind_in_words

_ID = re.compile(r"[A-Za-z0-9][A-Za-z0-9._:-]{0,79}")
AHEAD = timedelta(days=1)
"""How far ahead of this machine's clock a thing may have happened; clocks differ."""


@dataclass(frozen=True, slots=True)
class Said:
    """One thing that somebody wrote down, before it is decided.

    ``happened_at`` is None when it is happening now.
    """

    id: str
    change: Change
    happened_at: datetime | None = None


@dataclass(slots=True)
class Taken:
    """What came of taking changes in."""

    build: Build
    entries: list[Entry] = field(default_factory=list)
    rows: list[Row] = field(default_factory=list)
    repeated: list[str] = field(default_factory=list)
    to_settle: list[str] = field(default_factory=list)


def take_in(
    build: Build,
    said: Sequence[Said],
    *,
    known: Mapping[str, Entry],
    base_versions: Mapping[str, int],
    author: str,
    now: datetime,
) -> Taken:
    """Decide changes one after the other, each on what the ones before it made.

    Parameters
    ----------
    build : Build
        The build as it stands; it is not touched.
    said : sequence of Said
        In the order they are to enter.
    known : mapping of str to Entry
        Those of their ids that the journal holds already.
    base_versions : mapping of str to int
        For subjects, the version that the writer knew. Where the subject has moved since, the
        entry is kept to be settled and not folded.
    author, now : str, datetime
        Who writes, and when.

    Raises
    ------
    BareshellError
        When one of them is refused; then none enters.
    """
    draft = Draft.of(build)
    taken = Taken(draft.freeze())
    seen = dict(known)
    for one in said:
        happened_at = _happened(one, now)
        if checked_id(one.id) in seen:
            check_is_the_same(one, seen[one.id])
            taken.repeated.append(one.id)
            continue
        entry, body = _judged(taken.build, build, one, happened_at, base_versions, author, now)
        seen[one.id] = entry
        draft.seq = entry.seq
        if entry.standing is Standing.TO_SETTLE:
            draft.to_settle.add(entry.id)
            taken.to_settle.append(entry.id)
        else:
            play(draft, entry, entry.seq)
        taken.entries.append(entry)
        taken.rows.append(row_of(entry, body))
        # Freezing copies no mapping: it is a view of the draft as it now is, so three
        # thousand changes are decided without three thousand copies.
        taken.build = draft.freeze()
    return taken


def _judged(
    present: Build,
    before: Build,
    one: Said,
    happened_at: datetime,
    base_versions: Mapping[str, int],
    author: str,
    now: datetime,
) -> tuple[Entry, str]:
    if isinstance(one.change, Withdrawn | Settled):
        raise BadInput(
            "entry",
            f"'{kind_in_words(one.change.KIND)}' is not written down like other changes",
            "take the entry back, or settle it",
        )
    try:
        body, change = as_kept(one.change)
    except BadInput:
        check_bounds(one.change)  # says more of what is wrong with it
        raise
    base = base_versions.get(change.subject)
    # Against the build before this call: what the same writer just did is no surprise to it.
    moved = base is not None and before.versions.get(change.subject, 0) != base
    if not moved:
        decide(present, change, happened_at)
    standing = Standing.TO_SETTLE if moved else Standing.KEPT
    seq = present.seq + 1
    return Entry(seq, one.id, happened_at, now, author, change, base, standing), body


def checked_id(key: str) -> str:
    """Return an id that may name an entry.

    Raises
    ------
    BadInput
        When it may not.
    """
    if not _ID.fullmatch(key):
        raise BadInput(
            "id of the entry",
            f"{key!r} cannot be one",
            "use up to 80 letters, figures, points, colons and dashes",
        )
    return key


def _happened(one: Said, now: datetime) -> datetime:
    if one.happened_at is None:
        return now
    if one.happened_at.tzinfo is None:
        raise BadInput(
            "when it happened",
            f"{one.happened_at:%Y-%m-%d %H:%M} has no time zone",
            "give it with one, such as 2026-03-04T19:05+00:00",
        )
    if one.happened_at > now + AHEAD:
        raise BadInput(
            "when it happened",
            f"{one.happened_at:%d %b %Y} is still to come",
            "give the day on which it did happen; plans are kept elsewhere",
        )
    return one.happened_at.astimezone(UTC)


def check_is_the_same(one: Said, held: Entry) -> None:
    """Check that an id which is in the journal was sent again for the same fact.

    Raises
    ------
    Conflict
        When it now names another fact, or another time.
    """
    other_time = one.happened_at is not None and one.happened_at != held.happened_at
    if as_kept(one.change)[1] != held.change or other_time:
        raise Conflict(
            f"entry '{one.id}'",
            "was written down already, saying something else",
            "give the new entry an id of its own",
        )
