"""The folds of what was said of the brakes."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Any

from bareshell.model import changes as c
from bareshell.model.brake import BrakeSystem, Line, LineEnd, Part
from bareshell.model.entry import Entry
from bareshell.model.fold.draft import Draft


def with_part(system: BrakeSystem, part: Part) -> BrakeSystem:
    """Return brakes with a part added, or put in the place of the one of its id.

    Examples
    --------
    >>> from bareshell.model.brake import PartKind
    >>> with_part(BrakeSystem("x", "x"), Part("tee", "tee", PartKind.TEE)).parts[0].id
    'tee'
    """
    parts = tuple(part if old.id == part.id else old for old in system.parts)
    return replace(system, parts=parts if part in parts else (*parts, part))


def with_line(system: BrakeSystem, line: Line) -> BrakeSystem:
    """Return brakes with a line added, or put in the place of the one of its id."""
    lines = tuple(line if old.id == line.id else old for old in system.lines)
    return replace(system, lines=lines if line in lines else (*lines, line))


def without_part(system: BrakeSystem, part_id: str) -> BrakeSystem:
    """Return brakes without a part; the lines that were screwed to it end loose."""
    return replace(
        system,
        parts=tuple(part for part in system.parts if part.id != part_id),
        lines=tuple(_loosened(line, part_id) for line in system.lines),
    )


def without_line(system: BrakeSystem, line_id: str) -> BrakeSystem:
    """Return brakes without a line."""
    return replace(system, lines=tuple(line for line in system.lines if line.id != line_id))


def _loosened(line: Line, part_id: str) -> Line:
    first, last = (
        LineEnd(fitting=end.fitting) if end.part == part_id else end for end in line.ends
    )
    return replace(line, ends=(first, last))


def _system(draft: Draft, change: c.BrakeSystemSet, _entry: Entry) -> None:
    draft.brakes[change.system.id] = change.system


def _system_dropped(draft: Draft, change: c.BrakeSystemDropped, _entry: Entry) -> None:
    draft.brakes.pop(change.system_id, None)


def _reading(draft: Draft, change: c.BrakeReadingTaken, _entry: Entry) -> None:
    draft.brake_readings[change.reading.id] = change.reading


def _yardsticks(draft: Draft, change: c.YardsticksChosen, _entry: Entry) -> None:
    draft.yardsticks = change.ids


Handler = Callable[[Draft, Any, Entry], None]


def _edited(edit: Callable[[BrakeSystem, Any], BrakeSystem]) -> Handler:
    def handle(draft: Draft, change: Any, _entry: Entry) -> None:
        system = draft.brakes.get(change.system_id)
        if system is not None:
            draft.brakes[system.id] = edit(system, change)

    return handle


HANDLERS: dict[type[c.Change], Handler] = {
    c.BrakeSystemSet: _system,
    c.BrakeSystemDropped: _system_dropped,
    c.BrakePartSet: _edited(lambda system, change: with_part(system, change.part)),
    c.BrakePartDropped: _edited(lambda system, change: without_part(system, change.part_id)),
    c.BrakeLineSet: _edited(lambda system, change: with_line(system, change.line)),
    c.BrakeLineDropped: _edited(lambda system, change: without_line(system, change.line_id)),
    c.BrakeReadingTaken: _reading,
    c.YardsticksChosen: _yardsticks,
}
