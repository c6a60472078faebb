"""Commissioning the brakes on the car: the order, and holds and pedal tests written down."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from datetime import datetime
from pathlib import Path

from bareshell.app.brake_files import open_brake_file
from bareshell.app.brakes_found import system_of
from bareshell.app.brakes_proofs import as_built
from bareshell.app.brakes_reading import file_head, head_of, kept, proofs_of, readings_of
from bareshell.app.brakes_readings import read_reading
from bareshell.app.door import Door
from bareshell.app.filled import Fields
from bareshell.app.written import BEFORE, Pen, Written, filled, write_down
from bareshell.brakes.joints import Joint, joint_schedule
from bareshell.errors import BadInput, Refused
from bareshell.model import Build
from bareshell.model import changes as c
from bareshell.model.brake import BrakeReading, BrakeSystem, ReadingKind
from bareshell.model.proof import Reading
from bareshell.model.standing import proof_standings
from bareshell.whole.brake_commission import SERIES, CommissioningView, commissioning_view
from bareshell.whole.brake_pedal import PedalTold
from bareshell.whole.brake_proofs import (
    air_proof_id,
    circuit_names,
    joint_proof_id,
    screw_proof_id,
)
from bareshell.whole.brake_words import describe_reading

NIGHT_MINUTES = 480.0
"""So long a hold must stand to prove joints: some weep a drop in eight hours and none in eight
minutes (common practice, no source). [min]"""

__all__ = ["commissioning", "commissioning_of_file", "take_hold", "take_pedal_test"]


def commissioning(door: Door, system_id: str = "", series: str = SERIES) -> CommissioningView:
    """Lay the commissioning of the brakes out, with what the record says is done.

    Parameters
    ----------
    door : Door
        The build.
    system_id : str
        Which brakes; empty for those on the car.
    series : str
        The bedding series whose temperatures are worked out.

    Raises
    ------
    NotFound
        When the build describes no brakes, or there is no such series.
    """
    build = door.build()
    system = system_of(build, system_id)
    return kept(
        door,
        ("commissioning", system.id, series),
        lambda _: commissioning_view(
            system,
            build,
            head_of(build, door.now()),
            readings_of(build, system),
            proofs_of(door, build, system_id),
            series,
        ),
    )


def commissioning_of_file(path: Path, made_at: datetime, series: str = SERIES) -> CommissioningView:
    """Lay the commissioning of a brake file's brakes out, with no record.

    Raises
    ------
    NotFound, BadInput
        When there is no such file or series, or it cannot be read.
    """
    system = open_brake_file(path).system
    return commissioning_view(system, Build(), file_head(system, made_at), series=series)


# --- holds -------------------------------------------------------------------------------------


def take_hold(door: Door, fields: Fields, pen: Pen) -> Written:
    """Write a hold down, and what it showed of each joint's proof.

    The fields are those of a reading, ``wet`` for each joint that was wet (its id), and
    ``prove`` when every joint of the circuit was looked at, dry, and its proof is to be held.

    Parameters
    ----------
    door : Door
        The build.
    fields : mapping of str to sequence of str
        The form.
    pen : Pen
        Who writes.

    Raises
    ------
    BadInput
        When a figure cannot be read, or joints are said to be dry and wet at once.
    NotFound
        When the build does not describe the brakes on the car.
    """
    build = door.build()
    system = as_built(build)
    if before := _sent_before(door, pen):
        return before
    reading = read_reading(door, ReadingKind.HOLD, fields, pen)
    form = filled(door, fields)
    circuit = reading.choices.get("circuit", "")
    joints = _joints(system, circuit, form.every("wet"))
    wet = [one for one in joints if one.id in form.every("wet")]
    dry, prove = reading.choices.get("joints") == "all dry", form.tick("prove")
    if circuit not in circuit_names(system):
        form.wrong("circuit that was held", f"'{circuit}' is none of these", "choose one")
    if wet and dry:
        form.wrong("joints", "they are said to be all dry, and one is ticked as wet", "say which")
    if prove and not dry:
        form.wrong("joints", "only dry ones are proved by a hold", "say that all were dry")
    if prove and reading.figures.get("minutes", 0.0) < NIGHT_MINUTES:
        form.wrong(
            "how long it stood",
            "a joint's own proof asks for a night under pressure",
            f"say that it stood {NIGHT_MINUTES / 60:g} h or more, or leave the proofs as they are",
        )
    form.check()
    if wet:
        named = "; ".join(one.words for one in wet)
        words = f"{reading.words}; wet: {named}" if reading.words else f"wet: {named}"
        reading = replace(reading, choices={**reading.choices, "joints": "one wet"}, words=words)
    failed = tuple(_failed(build, wet))
    held = tuple(_held(build, joints, reading)) if prove else ()
    changes = [c.BrakeReadingTaken(reading), *failed, *held]
    said = _hold_said(reading, wet, len(held))
    return write_down(
        door, changes, Pen(pen.author, pen.entry_id), said, happened_at=min(reading.at, door.now())
    )


def _sent_before(door: Door, pen: Pen) -> Written | None:
    entry = door.entry(pen.entry_id) if pen.entry_id else None
    return Written((BEFORE,), entry.change.subject, repeated=True) if entry else None


def _joints(system: BrakeSystem, circuit: str, wet: Sequence[str]) -> tuple[Joint, ...]:
    every = joint_schedule(system).joints
    unknown = [one for one in wet if one not in {joint.id for joint in every}]
    if unknown:
        raise BadInput("wet", f"there is no joint '{unknown[0]}'", "tick one of the list")
    return tuple(one for one in every if circuit in one.circuits or one.id in wet)


def _failed(build: Build, wet: Sequence[Joint]) -> Iterator[c.ProofFailed]:
    for joint in wet:
        if (key := joint_proof_id(joint.id)) in build.proofs:
            yield c.ProofFailed(key, (), "wet in a hold")


def _held(build: Build, joints: Sequence[Joint], reading: BrakeReading) -> Iterator[c.ProofHeld]:
    """Hold the proof of every joint that is made, can be seen, and is not held already."""
    standings = proof_standings(build)
    pressure = reading.figures.get("first_pressure_pa")
    read = () if pressure is None else (Reading("pressure", pressure / 1e5, "bar"),)
    for joint in joints:
        key = joint_proof_id(joint.id)
        if key not in build.proofs:
            continue
        makers = build.proofs[key].proof.made_by
        made = all(build.jobs[job].state.is_done for job in makers if job in build.jobs)
        if made and not standings[key].hidden and not standings[key].state.is_good:
            yield c.ProofHeld(key, read, "dry in a hold")


def _hold_said(reading: BrakeReading, wet: Sequence[Joint], held: int) -> str:
    said = [f"Pressure hold: {describe_reading(reading)}."]
    if wet:
        said.append("Release the pressure, put it right, hold again.")
    if held:
        said.append(f"{held} joint{'s are' if held != 1 else ' is'} held dry by it.")
    return " ".join(said)


# --- the pedal ---------------------------------------------------------------------------------


def take_pedal_test(door: Door, fields: Fields, pen: Pen) -> Written:
    """Write a pedal test down, and what it showed of air and of the bleed screws.

    The fields are those of a reading, ``air`` for each circuit whose air proof is to be held, and
    ``screws`` when every bleed screw was seen dry after it.

    Raises
    ------
    BadInput
        When a figure cannot be read.
    Refused
        When air is to be written down as gone, and the two pushes say that there is air.
    NotFound
        When the build does not describe the brakes on the car.
    """
    build = door.build()
    system = as_built(build)
    if before := _sent_before(door, pen):
        return before
    reading = read_reading(door, ReadingKind.PEDAL_TEST, fields, pen)
    told = _told(door, reading)
    form = filled(door, fields)
    air = [one for one in form.every("air") if one in circuit_names(system)]
    if air and told.only_air:
        raise Refused(
            "air in the circuits",
            f"{told.words} So no circuit is written down as free of air by this test",
            told.next_step,
        )
    changes: list[c.Change] = [c.BrakeReadingTaken(reading)]
    changes += _free_of_air(build, air, reading)
    if form.tick("screws"):
        changes += _screws(build, system)
    said = f"Pedal test: {describe_reading(reading)}. {told.words} {told.next_step}"
    held = len(changes) - 1
    if held:
        said += f" {held} proof{'s are' if held != 1 else ' is'} held by it."
    return write_down(
        door, changes, Pen(pen.author, pen.entry_id), said, happened_at=min(reading.at, door.now())
    )


def _told(door: Door, reading: BrakeReading) -> PedalTold:
    """Return what a test that is not kept yet tells."""
    build = door.try_out(c.BrakeReadingTaken(reading))
    system = as_built(build)
    view = commissioning_view(system, build, head_of(build, door.now()), readings_of(build, system))
    return next(one for one in view.pedal.tests if one.id == reading.id)


def _free_of_air(
    build: Build, circuits: Sequence[str], reading: BrakeReading
) -> Iterator[c.ProofHeld]:
    figures = reading.figures
    read = tuple(
        Reading(words, figures[name] * 1000.0, "mm")
        for name, words in (
            ("first_travel_m", "travel, light push"),
            ("second_travel_m", "travel, firm push"),
        )
        if name in figures
    )
    for circuit in circuits:
        if (key := air_proof_id(circuit)) in build.proofs:
            yield c.ProofHeld(key, read, "by the pedal at two forces")


def _screws(build: Build, system: BrakeSystem) -> Iterator[c.ProofHeld]:
    standings = proof_standings(build)
    for screw in joint_schedule(system).screws:
        key = screw_proof_id(screw.id)
        if key in build.proofs and not standings[key].state.is_good:
            yield c.ProofHeld(key, (), "seen dry after the pedal test")
