"""What the things of a build are called, also those it no longer has."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from contextlib import suppress
from dataclasses import dataclass
from datetime import date, datetime
from typing import Any

from bareshell.model import changes as c
from bareshell.model.brake import BrakeSystem
from bareshell.model.build import Build
from bareshell.model.entry import Entry
from bareshell.proofs.rehearsal import ITEMS


def quoted(title: str) -> str:
    """Put a title in quotes."""
    return f"'{title}'"


_TITLES: dict[str, Callable[[Build, str], str]] = {
    "job": lambda build, key: build.jobs[key].job.title,
    "need": lambda build, key: build.needs[key].title,
    "holding": lambda build, key: build.holdings[key].title,
    "order": lambda build, key: build.orders[key].line.title,
    "proof": lambda build, key: build.proofs[key].proof.title,
    "temp": lambda build, key: build.temps[key].temp.title,
    "gate": lambda build, key: build.gates[key].gate.title,
    "departure": lambda build, key: build.departures[key].title,
    "pattern": lambda build, key: build.patterns[key].title,
    "support": lambda build, key: build.supports[key].title,
    "photo": lambda build, key: build.photos[key].words,
    "brakes": lambda build, key: build.brakes[key].title,
    "brake-part": lambda build, key: _of_brakes(build, key).part(_last(key)).title,
    "brake-line": lambda build, key: _of_brakes(build, key).line(_last(key)).title,
    "brake-reading": lambda build, key: build.brake_readings[key].kind.value,
}
ITEM_WORDS = {item.id: item.title for item in ITEMS}
"""What the items of the rehearsal are called."""

_KINDS = {
    "pattern": "session pattern",
    "brake-part": "brake part",
    "brake-line": "brake line",
    "brake-reading": "brake reading",
}


def _of_brakes(build: Build, key: str) -> BrakeSystem:
    return build.brakes[key.partition("/")[0]]


def _last(key: str) -> str:
    return key.partition("/")[2]


@dataclass(frozen=True, slots=True)
class Names:
    """What things are called: as the build has them, or as they were called while it did."""

    build: Build
    once: Mapping[str, str]

    def title(self, kind: str, key: str) -> str:
        """Return the title of a thing in quotes; its short name when it never had one."""
        find = _TITLES.get(kind)
        found = ""
        if find is not None:
            with suppress(KeyError):
                found = find(self.build, key)
        return quoted(found or self.once.get(f"{kind}:{key}", "") or key)


def name_subject(subject: str, build: Build, once: Mapping[str, str] | None = None) -> str:
    """Name the subject of an entry as a person knows it.

    Examples
    --------
    >>> name_subject("job:bleed", Build())
    "job 'bleed'"
    """
    return subject_of(Names(build, once or {}), subject)


def subject_of(names: Names, subject: str) -> str:
    """Name a subject by names that were looked up once."""
    kind, _, key = subject.partition(":")
    if kind in ("car", "garage", "yardsticks"):
        return f"the {kind}"
    if kind == "placement":
        return "how the car stands"
    if kind == "move":
        start, _, end = key.partition(">")
        return f"the move from {names.title('support', start)} to {names.title('support', end)}"
    if kind == "day":
        return on_day(date.fromisoformat(key))
    if kind == "item":
        return f"item {quoted(ITEM_WORDS.get(key, key))} of the rehearsal"
    if kind == "miles":
        return "the miles run"
    if kind == "forecast":
        return f"the forecast of {key}"
    if kind == "entry":
        return "an entry of the record"
    return f"{_KINDS.get(kind, kind)} {names.title(kind, key)}"


def titles_in(entries: Iterable[Entry]) -> dict[str, str]:
    """Return the latest title of every subject that some entries ever named.

    Examples
    --------
    >>> titles_in([])
    {}
    """
    found = {}
    for entry in entries:
        look = _NAMING.get(type(entry.change))
        if look is not None:
            found[entry.change.subject] = look(entry.change)
    return found


_NAMING: dict[type[c.Change], Callable[[Any], str]] = {
    c.JobSet: lambda change: change.job.title,
    c.NeedSet: lambda change: change.need.title,
    c.HoldingSet: lambda change: change.holding.title,
    c.OrderSet: lambda change: change.line.title,
    c.ProofSet: lambda change: change.proof.title,
    c.TempSet: lambda change: change.temp.title,
    c.GateSet: lambda change: change.gate.title,
    c.DepartureSet: lambda change: change.departure.title,
    c.PatternSet: lambda change: change.pattern.title,
    c.SupportSet: lambda change: change.support.title,
    c.PhotoKept: lambda change: change.photo.words,
    c.BrakeSystemSet: lambda change: change.system.title,
    c.BrakePartSet: lambda change: change.part.title,
    c.BrakeLineSet: lambda change: change.line.title,
}


def on_day(moment: date | datetime) -> str:
    """Write a day as it is said.

    Examples
    --------
    >>> on_day(date(2026, 3, 4))
    '4 Mar 2026'
    """
    return f"{moment.day} {moment:%b %Y}"
