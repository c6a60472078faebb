"""How the demo's owner came to describe the brakes: from the survey, the bench and the pipes."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from datetime import date, datetime, time, timedelta
from typing import Final

from bareshell.demo.brake_built import AS_BUILT, as_built
from bareshell.demo.brake_standard import STANDARD, as_it_left_the_works
from bareshell.demo.days import at
from bareshell.demo.past import end_of
from bareshell.demo.told import OWNER, Book
from bareshell.demo.walk import Session
from bareshell.model import Build
from bareshell.model import changes as c
from bareshell.model.brake import BrakeReading, BrakeSystem, Line, Part, PartKind, ReadingKind, Role
from bareshell.model.job import Job, JobRecord
from bareshell.model.proof import Proof, ProofRecord
from bareshell.model.temp import Gate, GateRecord
from bareshell.model.trust import Stated, Trust
from bareshell.whole.brake_proofs import brake_proofs

SMALLER: Final = "idea-smaller-cylinder"
_PICKED: Final = (
    "un-r13-service",
    "un-r13-circuit",
    "un-r13-adhesion",
    "un-r13-lock-order",
    "uk-mot-service",
    "uk-mot-parking",
    "uk-mot-imbalance",
    "uk-cu-secondary",
)
"""What the owner holds the brakes against: the inspection of the country, and the rules on how
brakes are split that came after the car."""
_MEASURED_LATER: Final = (PartKind.CALIPER, PartKind.DISC)
_BAR: Final = 1e5

_OLD_SHEET: Final = {
    "front_left_n": 1850.0,
    "front_right_n": 1620.0,
    "rear_left_n": 900.0,
    "rear_right_n": 860.0,
    "parking_left_n": 780.0,
    "parking_right_n": 700.0,
    "mass_kg": 862.0,
}


def brake_proofs_of(
    jobs: Iterable[Job], gates: Iterable[Gate], proofs: Iterable[Proof]
) -> tuple[Proof, ...]:
    """Return what the brakes on the car owe in proof, besides what the network owes already."""
    build = Build(
        jobs={job.id: JobRecord(job) for job in jobs},
        gates={gate.id: GateRecord(gate) for gate in gates},
        proofs={proof.id: ProofRecord(proof) for proof in proofs},
    )
    return brake_proofs(as_built(), build)


def tell_brakes(
    book: Book, today: date, sessions: Sequence[Session], owed: Sequence[Proof]
) -> None:
    """Write the brakes down as they became known: what they were, what they are, an idea.

    ``owed`` are the proofs that they owe, once they are described as they are on the car.
    """
    surveyed = end_of(sessions, "brake-survey") + timedelta(hours=21)
    book.tell(surveyed, c.BrakeSystemSet(as_it_left_the_works()))
    book.tell(surveyed + timedelta(minutes=20), c.BrakeReadingTaken(_old_sheet(today)))
    built = as_built()
    decided = end_of(sessions, "brake-calc") + timedelta(days=2, minutes=30)
    book.tell(decided, c.BrakeSystemSet(_before_the_bench(built)))
    for proof in owed:
        book.tell(decided + timedelta(minutes=20), c.ProofSet(proof))
    chosen = decided + timedelta(minutes=12)
    book.tell(chosen, c.YardsticksChosen(_PICKED))
    measured = end_of(sessions, "caliper-bench") + timedelta(minutes=5)
    for part in built.of_kind(*_MEASURED_LATER):
        book.tell(measured, c.BrakePartSet(AS_BUILT, part))
    for line, job in (("pipe-rear", "pipe-under"), ("pipe-front-left", "pipe-bay")):
        laid = end_of(sessions, job) + timedelta(minutes=10)
        book.tell(laid, c.BrakeLineSet(AS_BUILT, built.line(line)))
    held = end_of(sessions, "pipe-rear")
    for number, reading in enumerate(_holds(held), 1):
        written = held + timedelta(minutes=number)
        book.tell(written, c.BrakeReadingTaken(reading))
    thought = at(today - timedelta(days=16), time(22))
    book.tell(thought, c.BrakeSystemSet(_with_a_smaller_cylinder(built)))


def _old_sheet(today: date) -> BrakeReading:
    """Return the sheet of a roller test from long ago that lay in the glove box."""
    long_ago = date(today.year - 38, 6, 14)
    return BrakeReading(
        "sheet-in-the-glove-box",
        ReadingKind.ROLLER,
        at(long_ago, time(11)),
        dict(_OLD_SHEET),
        {"load": "driver only"},
        "a sheet that lay in the glove box; the car as it was then, drums all round",
        "the owner before last",
        STANDARD,
    )


def _before_the_bench(built: BrakeSystem) -> BrakeSystem:
    """Return the brakes as they were first written down, from data sheets and a drawing."""
    return replace(
        built,
        parts=tuple(_from_the_sheet(part) for part in built.parts),
        lines=tuple(_from_the_drawing(line) for line in built.lines),
    )


def _from_the_sheet(part: Part) -> Part:
    if part.kind not in _MEASURED_LATER:
        return part
    figures = {
        name: replace(figure, trust=Trust.DATA_SHEET) if figure.trust is Trust.MEASURED else figure
        for name, figure in part.figures.items()
        if name not in ("wheel_clearance_m", "fluid_m3", "mass_kg")
    }
    return replace(part, figures=figures)


def _from_the_drawing(line: Line) -> Line:
    if line.id not in ("pipe-rear", "pipe-front-left"):
        return line
    length = line.figures["length_m"].value
    guess = Stated(round(length, 1), Trust.ASSUMED, round(length - 0.3, 1), round(length + 0.3, 1))
    return replace(line, figures={**line.figures, "length_m": guess})


def _holds(held: datetime) -> tuple[BrakeReading, ...]:
    """Return the first, short holds of the rear pipes, before the long one overnight."""
    return tuple(
        BrakeReading(
            f"hold-rear-{bar}-bar",
            ReadingKind.HOLD,
            held - timedelta(minutes=back),
            {
                "first_pressure_pa": bar * _BAR,
                "last_pressure_pa": (bar - lost) * _BAR,
                "minutes": minutes,
                "first_temperature_c": 14.0,
                "last_temperature_c": 14.0,
            },
            {"circuit": "master-floating", "joints": "all dry"},
            words,
            OWNER,
        )
        for bar, lost, minutes, back, words in (
            (10, 0.0, 5.0, 25, "every joint wiped first, paper under each"),
            (35, 0.5, 10.0, 12, "the gauge settled in the first minute, then stood"),
        )
    )


def _with_a_smaller_cylinder(built: BrakeSystem) -> BrakeSystem:
    """Return the idea to try: the same brakes behind a cylinder of 11/16 in."""
    parts = tuple(
        replace(
            part,
            figures={**part.figures, "bore_m": Stated(0.0174625, Trust.DATA_SHEET)},
            departure="",
        )
        if part.kind is PartKind.MASTER
        else part
        for part in built.parts
    )
    return replace(
        built,
        id=SMALLER,
        title="Idea: a cylinder of 17.46 mm instead",
        role=Role.IDEA,
        parts=parts,
        note="To see what a lighter pedal would cost in travel. Invented, like the car.",
    )
