"""The demo told for several days of the year, and played as the door would play it."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

import pytest

from bareshell.demo import Told, demo_story
from bareshell.model import Build, Entry, Standing, decide, fold
from bareshell.model.changes import Withdrawn
from bareshell.model.fold import Draft, play

DAYS = (
    date(2026, 11, 25),  # a Wednesday, in the cold
    date(2027, 7, 3),  # a Saturday, in the warm
    date(2027, 1, 1),  # just after the lost days of Christmas
    date(2028, 2, 29),
    date(2027, 3, 29),  # the Monday after the clocks went forward
    date(2029, 8, 24),  # a Friday, after the summer holiday
)


@dataclass(frozen=True)
class Played:
    """A told story, its entries and the build they make."""

    today: date
    told: tuple[Told, ...]
    entries: tuple[Entry, ...]
    build: Build


def played(today: date) -> Played:
    """Decide every change on what those before it made, then fold the whole."""
    told = demo_story(today)
    entries: list[Entry] = []
    numbers: dict[str, int] = {}
    draft = Draft()
    for number, one in enumerate(told, 1):
        standing = Standing.TO_SETTLE if one.knew else Standing.KEPT
        base = numbers[one.knew] if one.knew else None
        entry = Entry(
            number,
            one.id,
            one.happened_at,
            one.recorded_at,
            one.author,
            one.change,
            base,
            standing,
        )
        numbers[one.id] = number
        entries.append(entry)
        draft.seq = number
        if isinstance(one.change, Withdrawn):
            draft = Draft.of(fold(entries))
        elif standing is Standing.KEPT:
            decide(draft.freeze(), one.change)
            play(draft, entry, number)
    return Played(today, told, tuple(entries), fold(entries))


@pytest.fixture(scope="session", params=DAYS, ids=str)
def demo(request: pytest.FixtureRequest) -> Played:
    """The demo, made on one day of several."""
    return played(request.param)
