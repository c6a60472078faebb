"""Reading a build file: every value checked, every problem with its line."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import tzinfo
from typing import Any

from bareshell.errors import BadInput, Problem
from bareshell.io.build_file.kinds import Mismatch, Setting, Spot, nearest, shown
from bareshell.io.build_file.lines import Lines, find_lines
from bareshell.io.build_file.sections import BY_NAME, SECTIONS, Section

__all__ = ["FORMAT", "LARGEST", "Item", "Parsed", "load", "read_build_file"]

FORMAT = 1
"""The format that this bareshell writes; a newer one is not read."""

LARGEST = 5_000_000
"""A build file is typed by a person: more characters than this are something else."""

TOP_KEYS = ("format", "complete")


@dataclass(frozen=True, slots=True)
class Item:
    """One thing of the file: its definition, what it says happened, and where it stands."""

    section: Section
    key: str
    value: Any
    facts: Any
    line: int

    @property
    def place(self) -> tuple[str, str]:
        """Its section and its id."""
        return self.section.name, self.key

    @property
    def where(self) -> str:
        """The place, as a problem names it."""
        return f"line {self.line}, {self.section.title(self.value)}"


@dataclass(frozen=True, slots=True)
class Parsed:
    """A build file as it was read.

    Parameters
    ----------
    items : tuple of Item
        Everything that could be read, in the order of the sections.
    complete : frozenset of str
        The sections that say they hold all there is.
    problems : tuple of Problem
        What is wrong or doubtful, each with its line.
    """

    items: tuple[Item, ...] = ()
    complete: frozenset[str] = frozenset()
    problems: tuple[Problem, ...] = ()

    def of(self, section: str) -> dict[str, Item]:
        """Return the items of one section by id."""
        return {item.key: item for item in self.items if item.section.name == section}

    @property
    def stops(self) -> bool:
        """Whether a problem keeps the file from being taken."""
        return any(problem.severity == "stops" for problem in self.problems)


def load(text: str, what: str = "build file") -> dict[str, Any]:
    """Read the TOML of a file that a person may have typed.

    Parameters
    ----------
    text : str
        The file.
    what : str
        What it is, for the error.

    Raises
    ------
    BadInput
        When it is not TOML; the line is named.
    """
    if len(text) > LARGEST:
        raise BadInput(what, f"{len(text):,} characters are too many", f"a {what} is far smaller")
    try:
        return tomllib.loads(text)
    except (tomllib.TOMLDecodeError, RecursionError) as error:
        place = re.search(r"\(at (?:line (\d+), column (\d+)|end of document)\)", str(error))
        line = (place[1] if place else None) or len(text.splitlines())
        why = re.sub(r"\s*\(at .*\)$", "", str(error)) or "brackets inside brackets without end"
        raise BadInput(
            f"{what}, line {line}",
            f"it cannot be read from here on ({why[0].lower()}{why[1:]})",
            "look at this line and the one before it for a missing quotation mark, bracket or "
            "equals sign",
        ) from error


def read_build_file(text: str, *, zone: tzinfo | None = None) -> Parsed:
    r"""Read a build file.

    Parameters
    ----------
    text : str
        The file.
    zone : tzinfo or None
        For times that carry none, when the file's own car has no zone either.

    Returns
    -------
    Parsed
        What it says, and its problems; nothing in it is passed over in silence.

    Raises
    ------
    BadInput
        When it is not TOML at all.

    Examples
    --------
    >>> parsed = read_build_file('[[job]]\nid = "bleed"\ntitel = "Bleed"\nsystem = "brakes"\n')
    >>> print(parsed.problems[0].describe())
    line 3, job 'bleed', titel: there is no such key here. Did you mean 'title'?
    """
    text = text.removeprefix("\ufeff")
    tables = load(text)
    lines = find_lines(text)
    reading = _Reading(lines, Setting(zone))
    reading.read(tables)
    return Parsed(tuple(reading.items), frozenset(reading.complete), tuple(reading.problems))


@dataclass(slots=True)
class _Reading:
    lines: Lines
    setting: Setting
    items: list[Item] = field(default_factory=list)
    complete: set[str] = field(default_factory=set)
    problems: list[Problem] = field(default_factory=list)

    def spot(self, *path: str | int, words: str = "") -> Spot:
        return Spot(self.lines, path, words, self.setting, self.problems)

    def read(self, tables: Mapping[str, Any]) -> None:
        for name in tables:
            if name not in BY_NAME and name not in TOP_KEYS:
                known = (*BY_NAME, *TOP_KEYS)
                hint = nearest(name, known) or f"its sections are: {', '.join(BY_NAME)}"
                self.spot(name, words=name).say("there is no such section", hint)
        if self._newer(tables.get("format", FORMAT)):
            return
        self._read_complete(tables.get("complete", False))
        for section in SECTIONS:
            if section.name in tables:
                self._section(section, tables[section.name])
                if section.name == "car" and self.items:
                    self._use_zone_of(self.items[0])

    def _newer(self, found: object) -> bool:
        if found == FORMAT and not isinstance(found, bool):
            return False
        newer = isinstance(found, int) and found > FORMAT
        what = (
            f"{shown(found)} is a newer format than this bareshell reads"
            if newer
            else (f"{shown(found)} is no format of a build file")
        )
        remedy = "install a newer bareshell" if newer else f"write format = {FORMAT}"
        self.spot("format", words="format").say(what, remedy)
        return True

    def _read_complete(self, found: object) -> None:
        spot = self.spot("complete", words="complete")
        if isinstance(found, bool):
            self.complete.update(BY_NAME if found else ())
            return
        for name in found if isinstance(found, list) else [found]:
            if name in BY_NAME:
                self.complete.add(name)
            else:
                hint = nearest(str(name), BY_NAME)
                spot.say(
                    f"{shown(name)} is no section", hint or 'write true or a list such as ["job"]'
                )

    def _use_zone_of(self, car: Item) -> None:
        from zoneinfo import ZoneInfo

        self.setting = Setting(ZoneInfo(car.value.zone))

    def _section(self, section: Section, found: object) -> None:
        if section.single:
            if isinstance(found, dict):
                self._item(section, found, self.spot(section.name, words=section.what))
            else:
                self.spot(section.name, words=section.name).say(
                    "there is one of it, written once", f"write its header as [{section.name}]"
                )
            return
        if not isinstance(found, list) or not all(isinstance(each, dict) for each in found):
            self.spot(section.name, words=section.name).say(
                "there may be several, each under a header of its own",
                f"write each header as [[{section.name}]], in two brackets",
            )
            return
        for number, table in enumerate(found):
            words = _called(section, table, number)
            self._item(section, table, self.spot(section.name, number, words=words))

    def _item(self, section: Section, table: dict[str, object], spot: Spot) -> None:
        own = {key: value for key, value in table.items() if key in section.record.keys}
        facts = {
            key: value
            for key, value in table.items()
            if section.facts and key in section.facts.keys
        }
        unknown = {key: value for key, value in table.items() if key not in section.keys}
        good = True
        value: object = None
        for key in unknown:
            hint = nearest(key, section.keys) or f"the keys here are: {', '.join(section.keys)}"
            spot.at(key, key).say("there is no such key here", hint)
        try:
            value = section.record.read(own, spot)
        except Mismatch:
            good = False
        stated: object = None
        if section.facts is not None:
            try:
                stated = section.facts.read(facts, spot)
            except Mismatch:
                good = False
        if good:
            self._put(section, value, stated, spot)

    def _put(self, section: Section, value: object, stated: object, spot: Spot) -> None:
        key = section.key_of(value)
        line = self.lines.line_of(spot.path)
        for item in self.items:
            if item.section is section and item.key == key:
                spot.say(
                    f"it is there twice: line {item.line} has another of the same name",
                    "give one of them another name or take it out",
                )
                return
        self.items.append(Item(section, key, value, stated, line))


def _called(section: Section, table: Mapping[str, object], number: int) -> str:
    """Return what an item is called before it is known to be good."""
    for key in ("id", "title", "day"):
        if table.get(key):
            return f"{section.what} '{table[key]}'"
    return f"{section.what} {number + 1}"
