"""The build: the ONE model of the car, as it stands after folding the journal."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date, datetime

from bareshell.model.brake import BrakeReading, BrakeSystem
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


@dataclass(frozen=True, slots=True)
class Build:
    """One car being put back together, read-only.

    Every mapping is from id to thing (a move's id is ``from>to``). ``seq`` is the
    number of the last entry folded in;
    ``versions`` gives for each subject the number of the entry that last touched it;
    ``heated_since`` says from when on the bay was heated, None when it is not;
    ``yardsticks`` holds those that were chosen, None when nobody chose;
    ``to_settle`` holds the ids of entries that wait for a decision.
    """

    car: Car | None = None
    garage: Garage = Garage()
    heated_since: datetime | None = None
    supports: Mapping[str, Support] = field(default_factory=dict)
    moves: Mapping[str, SupportMove] = field(default_factory=dict)
    placements: tuple[tuple[datetime, int, Placement], ...] = ()
    jobs: Mapping[str, JobRecord] = field(default_factory=dict)
    needs: Mapping[str, Need] = field(default_factory=dict)
    not_here: Mapping[str, datetime] = field(default_factory=dict)
    holdings: Mapping[str, Holding] = field(default_factory=dict)
    holding_times: Mapping[str, datetime] = field(default_factory=dict)
    orders: Mapping[str, OrderRecord] = field(default_factory=dict)
    proofs: Mapping[str, ProofRecord] = field(default_factory=dict)
    temps: Mapping[str, TempRecord] = field(default_factory=dict)
    gates: Mapping[str, GateRecord] = field(default_factory=dict)
    departures: Mapping[str, Departure] = field(default_factory=dict)
    brakes: Mapping[str, BrakeSystem] = field(default_factory=dict)
    brake_readings: Mapping[str, BrakeReading] = field(default_factory=dict)
    yardsticks: tuple[str, ...] | None = None
    patterns: Mapping[str, SessionPattern] = field(default_factory=dict)
    exceptions: Mapping[date, SessionException] = field(default_factory=dict)
    sessions: Mapping[str, HeldSession] = field(default_factory=dict)
    notes: Mapping[str, Note] = field(default_factory=dict)
    lessons: Mapping[str, Lesson] = field(default_factory=dict)
    photos: Mapping[str, Photo] = field(default_factory=dict)
    forecasts: Mapping[str, IssuedForecast] = field(default_factory=dict)
    looks: Mapping[str, Look] = field(default_factory=dict)
    miles: tuple[MilesReading, ...] = ()
    versions: Mapping[str, int] = field(default_factory=dict)
    to_settle: frozenset[str] = frozenset()
    seq: int = 0

    @property
    def car_name(self) -> str:
        """What the owner calls the car; empty when nobody said."""
        return self.car.name if self.car else ""

    @property
    def invented(self) -> bool:
        """Whether the car is an invented one; every page says so."""
        return bool(self.car and self.car.invented)

    @property
    def placement(self) -> Placement | None:
        """How the car stands now, or None when nobody said."""
        return self.placements[-1][2] if self.placements else None
