"""Sizes that stand in words, offered as figures: looked at first, taken one by one."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import datetime

from bareshell.app.door import Door
from bareshell.app.filled import Fields
from bareshell.app.shelving import sent_before
from bareshell.app.written import Pen, Written, write_down
from bareshell.errors import BadInput
from bareshell.model import Build
from bareshell.model import changes as c
from bareshell.model.spec import PlainSpec, Spec
from bareshell.model.trust import YOURS
from bareshell.parts.read_words import read_words
from bareshell.whole.spec_words import spec_words


@dataclass(frozen=True, slots=True)
class SizeRead:
    """One thing whose size could be read: what stands there, and what it is read as."""

    kind: str
    id: str
    title: str
    words: str
    read_as: str
    what: str


@dataclass(frozen=True, slots=True)
class SizesRead:
    """Every size in words that could be read as figures; nothing is kept."""

    made_at: datetime
    seq: int
    car: str
    invented: bool
    rows: tuple[SizeRead, ...]
    in_words: int


def sizes(door: Door) -> SizesRead:
    """Read every size that stands in words, of what is wanted and of what lies here."""
    build = door.build()
    rows = []
    plain = 0
    for kind, key, title, spec in _things(build):
        if isinstance(spec, PlainSpec):
            plain += 1
            read = read_words(title, spec.words)
            if read is not None:
                rows.append(SizeRead(kind, key, title, spec.words, read.kind, spec_words(read)))
    car = build.car
    return SizesRead(
        door.now(),
        build.seq,
        car.name if car else "",
        bool(car and car.invented),
        tuple(rows),
        plain,
    )


def _things(build: Build) -> list[tuple[str, str, str, Spec]]:
    wanted = [
        ("need", key, need.title, need.spec)
        for key, need in build.needs.items()
        if need.job in build.jobs and build.jobs[need.job].state.is_open
    ]
    here = [
        ("holding", key, holding.title, holding.spec)
        for key, holding in build.holdings.items()
        if holding.quantity
    ]
    return wanted + here


def take(door: Door, fields: Fields, pen: Pen) -> Written:
    """Take the sizes that were ticked: each as ``need:ID`` or ``holding:ID`` in ``take``.

    The words stay, in the note. How far the sizes are trusted stays as it was: reading words
    measures nothing.

    Raises
    ------
    BadInput
        When nothing is ticked, or a size can be read no longer.
    """
    if before := sent_before(door, pen, "sizes:"):
        return before
    build = door.build()
    changes: list[c.Change] = []
    for said in fields.get("take", ()):
        kind, _, key = said.partition(":")
        thing = (build.needs if kind == "need" else build.holdings).get(key)
        read = (
            read_words(thing.title, thing.spec.words)
            if thing is not None and isinstance(thing.spec, PlainSpec)
            else None
        )
        if thing is None or read is None:
            raise BadInput(said, "its size can be read no longer", "look at the list again")
        words = thing.spec.words if isinstance(thing.spec, PlainSpec) else ""
        note = "; ".join(part for part in (thing.note, words and f"in words: {words}") if part)
        if kind == "need":
            need = build.needs[key]
            changes.append(c.NeedSet(replace(need, spec=read, note=note, mark=YOURS)))
        else:
            changes.append(c.HoldingSet(replace(build.holdings[key], spec=read, note=note)))
    if not changes:
        raise BadInput("sizes", "none is ticked", "tick those that were read right")
    lines = "1 size" if len(changes) == 1 else f"{len(changes)} sizes"
    return write_down(door, changes, pen, f"{lines} taken from words; none was measured by that.")
