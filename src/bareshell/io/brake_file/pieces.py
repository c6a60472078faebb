"""Parts and lines as tables of a file: reading them with every problem named, and writing them."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from datetime import date
from enum import StrEnum
from typing import Any, TypeVar

from bareshell.brakes.typed import PLAIN, read_stated, stated_text
from bareshell.errors import BadInput
from bareshell.io.brake_file.keys import (
    FITTING_KEYS,
    LINE_KEYS,
    PART_KEYS,
    PORT_KEYS,
    choice_keys,
    figure_keys,
)
from bareshell.io.build_file.figures import tidy_number
from bareshell.io.build_file.kinds import Mismatch, Plain, Spot, nearest, shown
from bareshell.model.brake import Fitting, Line, LineEnd, LineKind, Part, PartKind, Port, Wheel
from bareshell.model.trust import Stated
from bareshell.units import Reading

__all__ = ["UNKNOWN", "Pieces", "write_line", "write_part"]

UNKNOWN = "unknown"
"""What is written for a figure that nobody knows, where a starter would give one."""

Word = TypeVar("Word", bound=StrEnum)


@dataclass(slots=True)
class Pieces:
    """Reads parts and lines, and keeps how their figures were typed.

    Parameters
    ----------
    typed : dict
        By ``part.figure_name``: the value as typed, for a question about its unit.
    """

    typed: dict[str, Reading] = field(default_factory=dict)

    def part(self, table: Mapping[str, object], spot: Spot) -> Part:
        """Read a part.

        Raises
        ------
        Mismatch
            Without words: what is wrong was put down.
        """
        kind = _kind(table, PartKind, spot)
        one = _One(table, spot, self.typed, str(table.get("title") or table.get("id") or ""))
        one.only((*PART_KEYS, *figure_keys(kind), *choice_keys(kind)), kind)
        values: dict[str, Any] = {
            "id": one.ident(),
            "title": one.words("title") or str(table.get("id", "")),
            "kind": kind,
            "wheel": one.wheel(),
            "at_m": one.point("at"),
            "figures": one.figures(kind),
            "choices": one.choices(kind),
            "ports": one.ports(),
            "departure": one.words("departure"),
            "note": one.words("note"),
        }
        return _made(Part, values, one)

    def line(self, table: Mapping[str, object], spot: Spot) -> Line:
        """Read a line.

        Raises
        ------
        Mismatch
            Without words: what is wrong was put down.
        """
        kind = _kind(table, LineKind, spot)
        one = _One(table, spot, self.typed, str(table.get("title") or table.get("id") or ""))
        one.only((*LINE_KEYS, *figure_keys(kind), *choice_keys(kind)), kind)
        values: dict[str, Any] = {
            "id": one.ident(),
            "title": one.words("title") or str(table.get("id", "")),
            "kind": kind,
            "ends": (one.end("from"), one.end("to")),
            "figures": one.figures(kind),
            "choices": one.choices(kind),
            "route_m": one.points("route"),
            "departure": one.words("departure"),
            "note": one.words("note"),
        }
        return _made(Line, values, one)


Piece = TypeVar("Piece", Part, Line)


def _made(cls: type[Piece], values: dict[str, Any], one: _One) -> Piece:
    if not one.good:
        raise Mismatch
    try:
        return cls(**values)
    except ValueError as error:
        one.spot.say(str(error))
        raise Mismatch from error


def _kind(table: Mapping[str, object], kinds: type[Word], spot: Spot) -> Word:
    words = [each.value for each in kinds]
    value = table.get("kind")
    if value in words:
        return kinds(value)
    listed = f"the kinds are: {', '.join(words)}"
    if value is None:
        spot.say("it has no kind", listed)
    else:
        spot.at("kind", "kind").say(
            f"there is no kind {shown(value)}", nearest(str(value), words) or listed
        )
    raise Mismatch


@dataclass(slots=True)
class _One:
    """One table that is being read; ``good`` turns False with the first thing that stops it."""

    table: Mapping[str, object]
    spot: Spot
    typed: dict[str, Reading]
    title: str
    good: bool = True

    def wrong(self, key: str, what: str, remedy: str = "") -> None:
        """Put down that a key cannot be taken."""
        self.spot.at(key, key).say(what, remedy)
        self.good = False

    def only(self, known: Iterable[str], kind: PartKind | LineKind) -> None:
        """Refuse keys that this kind does not have."""
        keys = tuple(known)
        for key in self.table:
            if key not in keys:
                hint = nearest(key, keys) or f"the keys here are: {', '.join(keys)}"
                self.wrong(key, f"a {kind} has no such key", hint)

    def known(self, key: str) -> bool:
        """Whether a key is written and is not said to be unknown."""
        return key in self.table and self.table[key] != UNKNOWN

    def ident(self) -> str:
        value = self.table.get("id")
        if isinstance(value, str) and value.strip() and "." not in value:
            return value
        self.wrong("id", f"{shown(value)} is no short name", 'write it as "rear-pipe"')
        return ""

    def words(self, key: str) -> str:
        value = self.table.get(key, "")
        if isinstance(value, str):
            return value
        self.wrong(key, f"{shown(value)} is not words", "put it in quotation marks")
        return ""

    def wheel(self) -> Wheel | None:
        if not self.known("wheel"):
            return None
        words = [each.value for each in Wheel]
        value = self.table["wheel"]
        if value in words:
            return Wheel(value)
        hint = nearest(str(value), words) or f"the wheels are: {', '.join(words)}"
        self.wrong("wheel", f"{shown(value)} is no wheel", hint)
        return None

    def point(self, key: str) -> tuple[float, float] | None:
        if not self.known(key):
            return None
        found = _point(self.table[key])
        if found is None:
            self.wrong(key, f"{shown(self.table[key])} is no place", f"write it {_PLACE}")
        return found

    def points(self, key: str) -> tuple[tuple[float, float], ...]:
        value = self.table.get(key, [])
        if value == UNKNOWN:
            return ()
        found = [_point(each) for each in value] if isinstance(value, list) else [None]
        if None in found:
            self.wrong(key, f"{shown(value)} is no way", f"write a list of places, each {_PLACE}")
        return tuple(each for each in found if each is not None)

    def figures(self, kind: PartKind | LineKind) -> dict[str, Stated]:
        found: dict[str, Stated] = {}
        for key, its_field in figure_keys(kind).items():
            if not self.known(key):
                continue
            value = self.table[key]
            number = isinstance(value, int | float) and not isinstance(value, bool)
            if not isinstance(value, str) and not (number and its_field.quantity in PLAIN):
                remedy = 'write it in quotation marks with its unit, as in "19.05 mm"'
                self.wrong(key, f"{shown(value)} has no unit" if number else "is no figure", remedy)
                continue
            try:
                typed = read_stated(str(value), its_field, self.title)
            except BadInput as error:
                self.wrong(key, error.problem, error.remedy)
                continue
            found[its_field.name] = typed.stated
            if typed.reading is not None:
                self.typed[f"{self.table.get('id')}.{its_field.name}"] = typed.reading
        return found

    def choices(self, kind: PartKind | LineKind) -> dict[str, str]:
        found: dict[str, str] = {}
        for key, choice in choice_keys(kind).items():
            value = self.table.get(key)
            if value is None or (value == UNKNOWN and UNKNOWN not in choice.options):
                continue
            if isinstance(value, bool):
                value = "yes" if value else "no"
            elif isinstance(value, date):
                value = value.isoformat()
            if not isinstance(value, str):
                self.wrong(key, f"{shown(value)} is not words", "put it in quotation marks")
            elif choice.options and value not in choice.options:
                listed = f"it may be {', '.join(choice.options)}"
                self.wrong(
                    key,
                    f"{choice.words} cannot be {shown(value)}",
                    nearest(value, choice.options) or listed,
                )
            else:
                found[key] = value
        return found

    def ports(self) -> tuple[Port, ...]:
        value = self.table.get("ports", [])
        if not isinstance(value, list) or not all(isinstance(each, dict) for each in value):
            self.wrong(
                "ports", f"{shown(value)} is no list of ports", 'write it as [{ name = "out" }]'
            )
            return ()
        found: list[Port] = []
        for number, table in enumerate(value):
            called = table.get("name")
            words = f"port '{called}'" if isinstance(called, str) else f"port {number + 1}"
            spot = self.spot.at("ports", "ports").at(number, words)
            inner = _One(table, spot, self.typed, self.title)
            inner.keys(PORT_KEYS)
            name, bleeds = inner.words("name"), table.get("bleeds", False)
            top = None if not inner.known("at_top") else table["at_top"]
            if not isinstance(bleeds, bool):
                inner.wrong("bleeds", f"{shown(bleeds)} is neither true nor false")
            elif top is not None and not isinstance(top, bool):
                inner.wrong("at_top", f"{shown(top)} is neither true nor false")
            elif not name or name in {port.name for port in found}:
                if inner.good:
                    said = f"{shown(name)} is no name of its own"
                    inner.wrong("name", said, 'write it as "out", each port another')
            else:
                found.append(Port(name, inner.words("chamber"), bleeds, top, inner.fitting()))
            self.good = self.good and inner.good
        return tuple(found)

    def keys(self, known: Iterable[str]) -> None:
        """Refuse keys of an inner table that it does not have."""
        listed = tuple(known)
        for key in self.table:
            if key not in listed:
                hint = nearest(key, listed) or f"the keys here are: {', '.join(listed)}"
                self.wrong(key, "there is no such key here", hint)

    def fitting(self) -> Fitting:
        read = {key: self.words(key) if self.known(key) else "" for key in FITTING_KEYS}
        if read["thread"]:
            from bareshell.units import parse_thread

            try:
                parse_thread(read["thread"], "thread")
            except BadInput as error:
                self.spot.at("thread", "thread").say(error.problem, error.remedy, "doubtful")
        if read["sex"] not in ("", "male", "female"):
            self.wrong("sex", f"{shown(read['sex'])} is neither male nor female")
        return Fitting(**read)

    def end(self, key: str) -> LineEnd:
        if not self.known(key):
            return LineEnd()
        value = self.table[key]
        if isinstance(value, str):
            value = {"at": value}
        if not isinstance(value, dict):
            self.wrong(key, f"{shown(value)} is no end", _END)
            return LineEnd()
        inner = _One(value, self.spot.at(key, key), self.typed, self.title)
        inner.keys(("at", *FITTING_KEYS))
        part, _, port = inner.words("at").partition(".")
        fitting = inner.fitting()
        self.good = self.good and inner.good
        return LineEnd(part.strip(), port.strip(), fitting)


_PLACE = "in metres behind the front axle and right of the middle, such as [0.12, -0.56]"
_END = 'write the part and its port, such as "master.primary"'


def _point(value: object) -> tuple[float, float] | None:
    if not isinstance(value, list) or len(value) != 2:
        return None
    if not all(isinstance(each, int | float) and not isinstance(each, bool) for each in value):
        return None
    if not all(abs(each) < 100 for each in value):
        return None
    return float(value[0]), float(value[1])


# --- writing -----------------------------------------------------------------------------------


def write_part(part: Part) -> dict[str, Plain]:
    """Return the table of a part; what is not known is left out.

    Parameters
    ----------
    part : Part
        What is written.

    Examples
    --------
    >>> write_part(Part("disc", "front disc", PartKind.DISC, Wheel.FRONT_LEFT))
    {'id': 'disc', 'title': 'front disc', 'kind': 'disc', 'wheel': 'front left'}
    """
    table: dict[str, Plain] = {"id": part.id, "title": part.title, "kind": part.kind.value}
    if part.wheel is not None:
        table["wheel"] = part.wheel.value
    if part.at_m is not None:
        table["at"] = _place(part.at_m)
    table |= _known(part.kind, part.figures, part.choices)
    if part.ports:
        table["ports"] = [_port(port) for port in part.ports]
    return table | _words(part.departure, part.note)


def write_line(line: Line) -> dict[str, Plain]:
    """Return the table of a line; what is not known is left out.

    Parameters
    ----------
    line : Line
        What is written.
    """
    table: dict[str, Plain] = {"id": line.id, "title": line.title, "kind": line.kind.value}
    for key, end in zip(("from", "to"), line.ends, strict=True):
        written = _end(end)
        if written:
            table[key] = written
    if line.route_m:
        table["route"] = [_place(point) for point in line.route_m]
    table |= _known(line.kind, line.figures, line.choices)
    return table | _words(line.departure, line.note)


def _known(
    kind: PartKind | LineKind, figures: Mapping[str, Stated], choices: Mapping[str, str]
) -> dict[str, Plain]:
    table: dict[str, Plain] = {key: choices[key] for key in choice_keys(kind) if key in choices}
    for key, its_field in figure_keys(kind).items():
        if its_field.name not in figures:
            continue
        text = stated_text(figures[its_field.name], its_field)
        plain = its_field.quantity in PLAIN and text.replace(".", "", 1).isdigit()
        table[key] = tidy_number(float(text), 15) if plain else text
    return table


def _words(departure: str, note: str) -> dict[str, Plain]:
    named = {"departure": departure, "note": note}
    return {key: words for key, words in named.items() if words}


def _place(point: tuple[float, float]) -> list[Plain]:
    return [tidy_number(each) for each in point]


def _fitting(fitting: Fitting) -> dict[str, Plain]:
    return {key: getattr(fitting, key) for key in FITTING_KEYS if getattr(fitting, key)}


def _port(port: Port) -> dict[str, Plain]:
    table: dict[str, Plain] = {"name": port.name}
    if port.chamber:
        table["chamber"] = port.chamber
    if port.bleeds:
        table["bleeds"] = True
    if port.at_top is not None:
        table["at_top"] = port.at_top
    return table | _fitting(port.fitting)


def _end(end: LineEnd) -> Plain:
    at = f"{end.part}.{end.port}" if end.port else end.part
    fitting = _fitting(end.fitting)
    if not fitting:
        return at
    return {"at": at, **fitting} if at else fitting
