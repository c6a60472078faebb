"""Reading a brake file: the brakes of one car as TOML, whole or as what differs from a starter."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any, Literal, cast

from bareshell.brakes.sketch import TRACK_M, WHEELBASE_M, Threads
from bareshell.brakes.starters import STARTERS, starter
from bareshell.errors import BadInput, Problem
from bareshell.io.brake_file.keys import figure_keys
from bareshell.io.brake_file.merge import laid_over
from bareshell.io.brake_file.pieces import Pieces, write_line, write_part
from bareshell.io.build_file.kinds import Mismatch, Plain, Setting, Spot, nearest, shown
from bareshell.io.build_file.lines import Lines, find_lines
from bareshell.io.build_file.read import load
from bareshell.model.brake import BrakeSystem, Field, Line, Part, PartKind, Role
from bareshell.units import Reading

__all__ = ["FORMAT", "TOP_KEYS", "BrakeFile", "read_brake_file"]

FORMAT = 1
"""The format that this bareshell writes; a newer one is not read."""

TOP_KEYS = (
    "format",
    "id",
    "title",
    "role",
    "mark",
    "note",
    "start",
    "driver_on",
    "threads",
    "without",
    "part",
    "line",
)
"""Every key that may stand at the top of a brake file."""

Kind = Literal["part", "line"]


@dataclass(frozen=True, slots=True)
class BrakeFile:
    """A brake file as it was read.

    Parameters
    ----------
    system : BrakeSystem or None
        The brakes; None when something stops them from being read.
    typed : mapping of str to Reading
        By ``part.figure_name``: how a value was typed, for a question about its unit.
    problems : tuple of Problem
        What is wrong or doubtful with the file itself, each with its line.
    lines : mapping of str to int
        The line of the file on which a part or line stands, by its id; 0 when it is a starter's.
    start : str
        The starter it began from, or nothing.
    """

    system: BrakeSystem | None
    typed: Mapping[str, Reading] = field(default_factory=dict)
    problems: tuple[Problem, ...] = ()
    lines: Mapping[str, int] = field(default_factory=dict)
    start: str = ""

    @property
    def stops(self) -> bool:
        """Whether a problem keeps the brakes from being read."""
        return self.system is None or any(each.severity == "stops" for each in self.problems)


def read_brake_file(text: str) -> BrakeFile:
    r"""Read a brake file.

    Parameters
    ----------
    text : str
        The file.

    Returns
    -------
    BrakeFile
        The brakes and every problem; nothing in the file is passed over in silence.

    Raises
    ------
    BadInput
        When it is not TOML at all.

    Examples
    --------
    >>> found = read_brake_file('start = "single line"\n[[part]]\nid = "master"\nbore = "19 mm"\n')
    >>> found.system.part("master").figures["bore_m"].value
    0.019
    >>> found = read_brake_file('start = "single line"\n[[part]]\nid = "master"\nboar = "19 mm"\n')
    >>> print(found.problems[0].describe())
    line 4, part 'master', boar: a master cylinder has no such key. Did you mean 'bore'?
    """
    text = text.removeprefix("\ufeff")
    tables = load(text, "brake file")
    return _Reading(find_lines(text), tables).read()


@dataclass(slots=True)
class _Reading:
    lines: Lines
    tables: Mapping[str, Any]
    problems: list[Problem] = field(default_factory=list)
    pieces: Pieces = field(default_factory=Pieces)
    where: dict[str, int] = field(default_factory=dict)
    good: bool = True

    def spot(self, *path: str | int, words: str = "") -> Spot:
        return Spot(self.lines, path, words, Setting(), self.problems)

    def wrong(self, key: str, what: str, remedy: str = "") -> None:
        self.spot(key, words=key).say(what, remedy)
        self.good = False

    def read(self) -> BrakeFile:
        for name in self.tables:
            if name not in TOP_KEYS:
                hint = nearest(name, TOP_KEYS) or f"its keys are: {', '.join(TOP_KEYS)}"
                self.wrong(name, "there is no such key in a brake file", hint)
        if not self._format():
            return BrakeFile(None, problems=tuple(self.problems))
        base = self._start()
        without = self._without(base)
        parts = self._all("part", base, without)
        lines = self._all("line", base, without)
        system = self._system(
            base, cast("tuple[Part, ...]", parts), cast("tuple[Line, ...]", lines)
        )
        return BrakeFile(
            system,
            self.pieces.typed,
            tuple(self.problems),
            self.where,
            str(self.tables.get("start", "")) if base else "",
        )

    def _format(self) -> bool:
        found = self.tables.get("format", FORMAT)
        if found == FORMAT and not isinstance(found, bool):
            return True
        newer = isinstance(found, int) and found > FORMAT
        said = "a newer format than this bareshell reads" if newer else "no format of a brake file"
        remedy = "install a newer bareshell" if newer else f"write format = {FORMAT}"
        self.wrong("format", f"{shown(found)} is {said}", remedy)
        return False

    def _word(self, key: str, words: tuple[str, ...], default: str) -> str:
        value = self.tables.get(key, default)
        if value in words:
            return str(value)
        hint = nearest(str(value), words) or f"the words are: {', '.join(words)}"
        self.wrong(key, f"{shown(value)} is none of its words", hint)
        return default

    def _text(self, key: str, default: str) -> str:
        value = self.tables.get(key, default)
        if isinstance(value, str):
            return value
        self.wrong(key, f"{shown(value)} is not words", "put it in quotation marks")
        return default

    # --- the starter -------------------------------------------------------------------------

    def _start(self) -> BrakeSystem | None:
        side = self._word("driver_on", ("right", "left"), "right")
        threads = self._word("threads", ("inch", "metric", "unknown"), "unknown")
        if "start" not in self.tables:
            return None
        name = self._word("start", tuple(STARTERS), "")
        if not name:
            return None
        wheelbase, track = (self._of_car(key) for key in ("wheelbase", "front_track"))
        return starter(
            name,
            driver_on="left" if side == "left" else "right",
            wheelbase_m=wheelbase or WHEELBASE_M,
            track_m=track or TRACK_M,
            threads=cast("Threads", "" if threads == "unknown" else threads),
        )

    def _of_car(self, key: str) -> float | None:
        """Return a figure of the car that the starter's drawing is stretched to."""
        from bareshell.brakes.typed import read_stated

        its_field: Field = figure_keys(PartKind.CAR)[key]
        for table in self._tables("part"):
            value = table.get(key)
            if table.get("id") == "car" and isinstance(value, str) and value != "unknown":
                try:
                    return read_stated(value, its_field, "the car").stated.value
                except BadInput:
                    return None
        return None

    def _without(self, base: BrakeSystem | None) -> frozenset[str]:
        value = self.tables.get("without", [])
        if not isinstance(value, list) or not all(isinstance(each, str) for each in value):
            self.wrong("without", f"{shown(value)} is no list of ids", 'write ["valve-rear"]')
            return frozenset()
        known: list[str] = []
        if base is not None:
            known = [*(part.id for part in base.parts), *(line.id for line in base.lines)]
        for each in value:
            if each not in known:
                hint = nearest(each, known) or "it takes away what the starter has"
                self.wrong("without", f"the starter has no part or line '{each}'", hint)
        return frozenset(value)

    # --- parts and lines ---------------------------------------------------------------------

    def _tables(self, name: Kind) -> list[dict[str, Any]]:
        value = self.tables.get(name, [])
        if isinstance(value, list) and all(isinstance(each, dict) for each in value):
            return value
        return []

    def _all(
        self, name: Kind, base: BrakeSystem | None, without: frozenset[str]
    ) -> tuple[Part | Line, ...]:
        value = self.tables.get(name, [])
        if value and not self._tables(name):
            self.wrong(
                name,
                f"there are several {name}s, each under a header of its own",
                f"write each header as [[{name}]], in two brackets",
            )
        made: dict[str, dict[str, Any]] = {
            key: table for key, table in _base_tables(name, base).items() if key not in without
        }
        places: dict[str, tuple[Spot, ...]] = {}
        for number, table in enumerate(self._tables(name)):
            key = table.get("id")
            words = f"{name} '{key}'" if isinstance(key, str) else f"{name} {number + 1}"
            spot = self.spot(name, number, words=words)
            for each in self._named(name, table, made, spot):
                whole = "kind" in table or each not in made
                made[each] = dict(table) if whole else laid_over(made[each], {**table, "id": each})
                places[each] = (*places.get(each, ()), spot)
                self.where[each] = self.lines.line_of(spot.path)
        found: list[Part | Line] = []
        read: Callable[[Mapping[str, object], Spot], Part | Line]
        read = self.pieces.part if name == "part" else self.pieces.line
        for each, table in made.items():
            spot = places[each][-1] if each in places else self.spot(name, words=f"{name} '{each}'")
            try:
                found.append(read(table, spot))
            except Mismatch:
                self.good = False
        return tuple(found)

    def _named(
        self, name: Kind, table: Mapping[str, Any], made: Mapping[str, object], spot: Spot
    ) -> tuple[str, ...]:
        """Return the parts that a table is about; `caliper-front` is both of them."""
        key = table.get("id")
        if not isinstance(key, str):
            spot.say("it has no id", f'write id = "{"master" if name == "part" else "pipe-rear"}"')
            self.good = False
            return ()
        if "kind" in table or key in made:
            return (key,)
        alike = tuple(each for each in made if each.startswith(f"{key}-"))
        if not alike:
            hint = nearest(key, made) or "write its kind too, if it is a new one"
            spot.say(f"there is no {name} '{key}' to begin from", hint)
            self.good = False
        return alike

    def _system(
        self, base: BrakeSystem | None, parts: tuple[Part, ...], lines: tuple[Line, ...]
    ) -> BrakeSystem | None:
        roles = tuple(each.value for each in Role)
        values: dict[str, Any] = {
            "id": self._text("id", "as-built"),
            "title": self._text("title", "As it is on the car"),
            "role": Role(self._word("role", roles, Role.AS_BUILT.value)),
            "mark": self._text("mark", base.mark if base else ""),
            "note": self._text("note", base.note if base else ""),
        }
        if not self.good:
            return None
        if not parts and not lines:
            self.spot(words="brake file").say(
                "there is nothing in it", f"name a starter: {', '.join(STARTERS)}, or write parts"
            )
            return None
        try:
            return BrakeSystem(**values, parts=parts, lines=lines)
        except ValueError as error:
            self.spot(words="brake file").say(str(error))
            return None


def _base_tables(name: Kind, base: BrakeSystem | None) -> dict[str, dict[str, Plain]]:
    if base is None:
        return {}
    if name == "part":
        return {part.id: write_part(part) for part in base.parts}
    return {line.id: write_line(line) for line in base.lines}
