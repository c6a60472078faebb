"""What the margins of the car plan say: of each wheel, each part, each line that needs it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from bareshell.draw.brake_car import BleedMark, PlanFailure, PlanPart
from bareshell.draw.brake_margin import Note, Words
from bareshell.draw.brake_sheet import around
from bareshell.draw.brake_stage import Stage
from bareshell.draw.brake_ways import Ways

_ORDER: Final = ("disc", "drum", "caliper", "wheel cylinder")


def notes_of(
    stage: Stage, ways: Ways, failure: PlanFailure, bleeds: Sequence[BleedMark]
) -> list[Note]:
    """Everything that the margins have to say, not placed yet."""
    notes = [*_wheel_notes(stage, failure, bleeds), *_part_notes(stage, failure, bleeds)]
    return notes + _line_notes(stage, ways, failure)


def _wheel_notes(stage: Stage, failure: PlanFailure, bleeds: Sequence[BleedMark]) -> list[Note]:
    """The words of each wheel in one block: what brakes it, and what it does now."""
    notes = []
    for wheel in dict.fromkeys(part.wheel for part in stage.plan.parts if part.wheel):
        parts = [part for part in stage.plan.parts if part.wheel == wheel and part.name]
        parts.sort(key=lambda part: _ORDER.index(part.kind) if part.kind in _ORDER else 9)
        words: list[Words] = []
        for index, part in enumerate(parts):
            words += _words_of(part, failure, bleeds, head="t-name" if index == 0 else "t-soft")
        bare = wheel in failure.without_brake
        said = "no brake" if bare else failure.wheel_words.get(wheel, "")
        if said:
            words.append(Words(said, "t-name" if bare else "", parts[0].id if parts else ""))
        if words and parts:
            first = parts[0]
            dotted = any(part.by_habit for part in parts)
            side = -1 if wheel.endswith("left") else 1
            box = stage.box(first.id)
            notes.append(Note(stage.places[first.id], tuple(words), box, dotted, side))
    return notes


def _part_notes(stage: Stage, failure: PlanFailure, bleeds: Sequence[BleedMark]) -> list[Note]:
    notes = []
    for part in stage.plan.parts:
        failed = part.id in failure.elements
        if part.wheel or not (part.name or failed):
            continue
        words = _words_of(part, failure, bleeds)
        at = stage.places[part.id]
        notes.append(Note(at, tuple(words), stage.box(part.id), part.by_habit, ox=failed))
    return notes


def _words_of(
    part: PlanPart,
    failure: PlanFailure,
    bleeds: Sequence[BleedMark],
    head: str = "t-name",
) -> list[Words]:
    failed = part.id in failure.elements
    if part.removed:  # one line, so that what was taken off never reads as what is there
        said = " ".join((part.name or part.title, *part.notes))
        return [Words(said, "" if head == "t-soft" else head, part.id)]
    words = [Words(part.name or part.title, "t-ox" if failed else head, part.id)]
    if failed:
        words.append(Words(failure.elements[part.id], "t-ox", part.id))
    words += [Words(note, "t-soft", part.id) for note in part.notes]
    words += [
        Words(mark.said, "", part.id) for mark in bleeds if mark.part == part.id and mark.words
    ]
    return words


def _line_notes(stage: Stage, ways: Ways, failure: PlanFailure) -> list[Note]:
    notes = []
    for line in stage.plan.lines:
        joints = {f"{line.id}-0": "joint ", f"{line.id}-1": "joint ", line.id: ""}
        failed = [element for element in joints if element in failure.elements]
        for element in failed or ([line.id] if line.named else []):
            at = ways.middle_of(element)
            if at is None:
                continue
            words = [Words(line.title, "t-ox" if failed else "t-name", line.id)]
            if failed:
                said = f"{joints[element]}{failure.elements[element]}"
                words.append(Words(said, "t-ox", line.id))
            words += [Words(note, "t-soft", line.id) for note in line.notes]
            reach = around(at, 12.0 if failed else 3.0)
            notes.append(Note(at, tuple(words), reach, ox=bool(failed)))
    return notes
