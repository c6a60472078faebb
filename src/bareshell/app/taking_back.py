"""Whether an entry can be taken back: everything after it is decided again without it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from bareshell.errors import BareshellError, Refused
from bareshell.model import Build, Entry, decide
from bareshell.model.fold import Draft, fold, play, plays, withdrawn_ids
from bareshell.whole.names import on_day, titles_in
from bareshell.whole.words import describe_entry


def check_can_be_taken_back(base: Build, entries: Sequence[Entry], gone: frozenset[str]) -> None:
    """Refuse unless every entry that stands would still stand with others taken back.

    Parameters
    ----------
    base : Build
        The build before these entries; none of them speaks of anything earlier.
    entries : sequence of Entry
        All from there to the last.
    gone : frozenset of str
        The ids of the entries that are to be out, those already out included.

    Raises
    ------
    Refused
        Naming the first later entry that could not stand.
    """
    now = withdrawn_ids(entries)
    told = fold(entries, base)
    changed = gone ^ now
    first = min(entry.seq for entry in entries if entry.id in changed)
    draft = Draft.of(base)
    for entry, version in plays(entries, draft, gone):
        if version > first or entry.id in changed:
            _check_stands(_Now(base, entries, now, told), draft.freeze(), entry)
        play(draft, entry, version)


@dataclass(frozen=True, slots=True)
class _Now:
    """The record as it is today: what is out of it, and the build it makes."""

    base: Build
    entries: Sequence[Entry]
    gone: frozenset[str]
    build: Build


def _check_stands(now: _Now, build: Build, entry: Entry) -> None:
    try:
        decide(build, entry.change)
    except BareshellError as error:
        # Rules grow stricter with the years: what would be refused today anyway does not
        # stand in the way of taking back something else.
        if entry.id not in now.gone and not _stands_today(now, entry):
            return
        said = describe_entry(entry, now.build, titles_in(now.entries))
        raise Refused(
            "later entries rest on it",
            f"without it this could not stand: {said} ({on_day(entry.happened_at)}); "
            f"{error.message}",
            "take that one back first",
        ) from error


def _stands_today(now: _Now, asked: Entry) -> bool:
    draft = Draft.of(now.base)
    for entry, version in plays(now.entries, draft, now.gone):
        if entry is asked:
            try:
                decide(draft.freeze(), entry.change)
            except BareshellError:
                return False
            return True
        play(draft, entry, version)
    return True
