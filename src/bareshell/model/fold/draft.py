"""The build while it is being folded: the same fields, mutable, copied once per fold."""

from __future__ import annotations

from dataclasses import dataclass, field, fields
from datetime import date, datetime

from bareshell.model.brake import BrakeReading, BrakeSystem
from bareshell.model.build import Build
from bareshell.model.car import Car
from bareshell.model.forecast import IssuedForecast
from bareshell.model.job import JobRecord
from bareshell.model.looked import Look, MilesReading
from bareshell.model.note import Lesson, Note, Photo
from bareshell.model.part import Holding, Need, OrderRecord
from bareshell.model.position import Placement, Support, SupportMove
from bareshell.model.proof import ProofRecord
from bareshell.model.session import Garage, HeldSession, SessionException, SessionPattern
from bareshell.model.temp import Departure, GateRecord, TempRecord


@dataclass(slots=True)
class Draft:
    """A build under construction.

    Copying it once per fold, not once per change, is what lets a journal of twenty thousand
    entries open while a person waits.
    """

    car: Car | None = None
    garage: Garage = field(default_factory=Garage)
    heated_since: datetime | None = None
    supports: dict[str, Support] = field(default_factory=dict)
    moves: dict[str, SupportMove] = field(default_factory=dict)
    placements: list[tuple[datetime, int, Placement]] = field(default_factory=list)
    jobs: dict[str, JobRecord] = field(default_factory=dict)
    needs: dict[str, Need] = field(default_factory=dict)
    not_here: dict[str, datetime] = field(default_factory=dict)
    holdings: dict[str, Holding] = field(default_factory=dict)
    holding_times: dict[str, datetime] = field(default_factory=dict)
    orders: dict[str, OrderRecord] = field(default_factory=dict)
    proofs: dict[str, ProofRecord] = field(default_factory=dict)
    temps: dict[str, TempRecord] = field(default_factory=dict)
    gates: dict[str, GateRecord] = field(default_factory=dict)
    departures: dict[str, Departure] = field(default_factory=dict)
    brakes: dict[str, BrakeSystem] = field(default_factory=dict)
    brake_readings: dict[str, BrakeReading] = field(default_factory=dict)
    yardsticks: tuple[str, ...] | None = None
    patterns: dict[str, SessionPattern] = field(default_factory=dict)
    exceptions: dict[date, SessionException] = field(default_factory=dict)
    sessions: dict[str, HeldSession] = field(default_factory=dict)
    notes: dict[str, Note] = field(default_factory=dict)
    lessons: dict[str, Lesson] = field(default_factory=dict)
    photos: dict[str, Photo] = field(default_factory=dict)
    forecasts: dict[str, IssuedForecast] = field(default_factory=dict)
    looks: dict[str, Look] = field(default_factory=dict)
    miles: list[MilesReading] = field(default_factory=list)
    versions: dict[str, int] = field(default_factory=dict)
    to_settle: set[str] = field(default_factory=set)
    seq: int = 0

    @classmethod
    def of(cls, build: Build) -> Draft:
        """Copy a build into a draft."""
        draft = cls()
        for spec in fields(Build):
            value = getattr(build, spec.name)
            kind = type(getattr(draft, spec.name))
            setattr(draft, spec.name, kind(value) if kind in (dict, list, set) else value)
        return draft

    def freeze(self) -> Build:
        """Return the draft as a build."""
        values = {spec.name: getattr(self, spec.name) for spec in fields(Build)}
        values["placements"] = tuple(self.placements)
        values["miles"] = tuple(self.miles)
        values["to_settle"] = frozenset(self.to_settle)
        return Build(**values)
