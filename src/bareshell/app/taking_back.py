"""Whether an entry can be taken back: everything after it is decided again without it."""

from __future__ import annotations

from collections.abc import Sequence

from bareshell.errors import BareshellError, Refused
from bareshell.model import Build, Entry, decide
from bareshell.model.fold import Draft, fold, play, plays, withdrawn_ids
from bareshell.whole.words import describe_entry, on_day


def check_can_be_taken_back(entries: Sequence[Entry], gone: frozenset[str]) -> None:
    """Refuse unless every entry that stands would still stand with others taken back.

    Parameters
    ----------
    entries : sequence of Entry
        The whole journal.
    gone : frozenset of str
        The ids of the entries that are to be out, those already out included.

    Raises
    ------
    Refused
        Naming the first later entry that could not stand.
    """
    now = withdrawn_ids(entries)
    told = fold(entries)
    changed = gone ^ now
    first = min(entry.seq for entry in entries if entry.id in changed)
    draft = Draft()
    for entry, version in plays(entries, draft, gone):
        if version > first or entry.id in changed:
            _check_stands(entries, now, draft.freeze(), entry, told)
        play(draft, entry, version)


def _check_stands(
    entries: Sequence[Entry], now: frozenset[str], build: Build, entry: Entry, told: Build
) -> None:
    try:
        decide(build, entry.change)
    except BareshellError as error:
        # Rules grow stricter with the years: what would be refused today anyway does not
        # stand in the way of taking back something else.
        if entry.id not in now and not _stands_today(entries, now, entry):
            return
        raise Refused(
            "later entries rest on it",
            f"without it this could not stand: {describe_entry(entry, told)} "
            f"({on_day(entry.happened_at)}); {error.message}",
            "take that one back first",
        ) from error


def _stands_today(entries: Sequence[Entry], gone: frozenset[str], asked: Entry) -> bool:
    draft = Draft()
    for entry, version in plays(entries, draft, gone):
        if entry is asked:
            try:
                decide(draft.freeze(), entry.change)
            except BareshellError:
                return False
            return True
        play(draft, entry, version)
    return True
