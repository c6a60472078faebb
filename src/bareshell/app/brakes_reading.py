"""What a person can look at of the brakes: each answer as one frozen value.

An answer hangs on the record alone, so it is kept until the record goes on. A brake file gives the
same answers without any build.
"""

from __future__ import annotations

import threading
from collections import OrderedDict
from collections.abc import Callable, Hashable, Sequence
from datetime import datetime
from pathlib import Path
from typing import Final, TypeVar, cast

from bareshell.app.brake_files import open_brake_file
from bareshell.app.brakes_found import system_of, thing_of, with_role
from bareshell.app.door import Door
from bareshell.brakes.yardstick import Yardstick
from bareshell.brakes.yardsticks import YARDSTICKS
from bareshell.model import Build
from bareshell.model.brake import BrakeReading, BrakeSystem, Role
from bareshell.units.show import IMPERIAL, METRIC, Preference
from bareshell.whole.brake_check import Asked, BrakeCheck, Head, brake_check
from bareshell.whole.brake_circuit import CircuitView, ThingView, circuit_view, thing_view
from bareshell.whole.brake_compare import CompareView, compare_view
from bareshell.whole.brake_others import others_of
from bareshell.whole.brake_owed import Standing, standings_of
from bareshell.whole.brake_park import ParkAsked, ParkView, park_view
from bareshell.whole.brake_parts import SystemName
from bareshell.whole.brake_spent import vented_blanks
from bareshell.whole.brake_workshop import BleedView, JointsView, bleed_view, joints_view

T = TypeVar("T")

MOST_KEPT: Final = 64


class _Kept:
    """Answers by what they hang on, the ones asked for least lately thrown away."""

    def __init__(self) -> None:
        self._lock = threading.Lock()
        self._answers: OrderedDict[Hashable, object] = OrderedDict()

    def get(self, key: Hashable, make: Callable[[], T]) -> T:
        """Return the answer to a key, worked out if nobody has asked before."""
        with self._lock:
            if key in self._answers:
                self._answers.move_to_end(key)
                return cast("T", self._answers[key])
        made = make()
        with self._lock:
            self._answers[key] = made
            while len(self._answers) > MOST_KEPT:
                self._answers.popitem(last=False)
        return made


_KEPT: Final = _Kept()


def kept(door: Door, key: tuple[Hashable, ...], make: Callable[[Build], T]) -> T:
    """Return what hangs on the record as it stands and on a key; worked out once for each."""
    build = door.build()
    return _KEPT.get((str(door.folder), build.seq, *key), lambda: make(build))


def preference_of(build: Build) -> Preference:
    """Return the units that the owner reads."""
    return IMPERIAL if build.car is not None and build.car.units == "imperial" else METRIC


def head_of(build: Build, made_at: datetime) -> Head:
    """Say whose brakes they are."""
    return Head(
        made_at=made_at,
        seq=build.seq,
        car=build.car_name,
        invented=build.invented,
        systems=tuple(
            SystemName(one.id, one.title, one.role.value) for one in build.brakes.values()
        ),
        preference=preference_of(build),
    )


def file_head(system: BrakeSystem, made_at: datetime) -> Head:
    """Say whose brakes they are, when there is only a brake file."""
    name = SystemName(system.id, system.title, system.role.value)
    return Head(made_at=made_at, systems=(name,))


def picked(build: Build) -> tuple[Yardstick, ...] | None:
    """Return the yardsticks that were chosen; None when nobody chose any.

    One that this bareshell does not know any more is passed over here and said on its own page.
    """
    if build.yardsticks is None:
        return None
    return tuple(YARDSTICKS[name] for name in build.yardsticks if name in YARDSTICKS)


def check(door: Door, system_id: str = "", asked: Asked = Asked()) -> BrakeCheck:  # noqa: B008
    """Check the brakes of a build.

    Raises
    ------
    NotFound
        When the build describes none, or there is no such failure.
    """
    return kept(
        door,
        ("check", system_id, asked),
        lambda build: checked(
            system_of(build, system_id), head_of(build, door.now()), asked, picked(build)
        ),
    )


def checked(
    system: BrakeSystem, head: Head, asked: Asked, yardsticks: tuple[Yardstick, ...] | None
) -> BrakeCheck:
    """Check brakes, subjects that the circuit alone does not answer included."""
    return brake_check(system, head, asked, yardsticks, others_of(system))


def check_file(
    path: Path,
    made_at: datetime,
    asked: Asked = Asked(),  # noqa: B008
    yardsticks: tuple[Yardstick, ...] | None = None,
) -> BrakeCheck:
    """Check the brakes of a brake file, with no build.

    Raises
    ------
    NotFound, BadInput
        When there is no such file, or it cannot be read.
    """
    system = open_brake_file(path).system
    return checked(system, file_head(system, made_at), asked, yardsticks)


def circuit(door: Door, system_id: str = "") -> CircuitView:
    """List every part and line of brakes, and how much of each is known.

    Raises
    ------
    NotFound
        When the build describes none.
    """
    return kept(
        door,
        ("circuit", system_id),
        lambda build: circuit_view(
            system_of(build, system_id),
            head_of(build, door.now()),
            {key: one.title for key, one in build.departures.items()},
        ),
    )


def thing(door: Door, system_id: str, thing_id: str) -> ThingView:
    """Open one part or line of brakes up.

    Raises
    ------
    NotFound
        When there is none of that id.
    """
    build = door.build()
    system = system_of(build, system_id)
    return thing_view(thing_of(system, thing_id), system, head_of(build, door.now()))


def comparison(door: Door, system_id: str = "", other_id: str = "") -> CompareView | None:
    """Put brakes beside others: those named, else the standard ones.

    Returns
    -------
    CompareView or None
        None when there are no others to put beside them.

    Raises
    ------
    NotFound
        When the build describes none, or not those named.
    """
    build = door.build()
    system = system_of(build, system_id)
    other = system_of(build, other_id) if other_id else _beside(build, system)
    if other is None:
        return None
    return kept(
        door,
        ("compare", system.id, other.id),
        lambda _: compare_view(
            system,
            other,
            head_of(build, door.now()),
            {key: one.title for key, one in build.departures.items()},
        ),
    )


def _beside(build: Build, system: BrakeSystem) -> BrakeSystem | None:
    """Return what brakes are held beside: the standard ones; for those, what is on the car."""
    wanted = Role.AS_BUILT if system.role is not Role.AS_BUILT else Role.STANDARD
    found = with_role(build, wanted)
    return found if found is not None and found.id != system.id else None


def comparison_of_files(path: Path, other: Path, made_at: datetime) -> CompareView:
    """Put the brakes of one brake file beside those of another.

    Raises
    ------
    NotFound, BadInput
        When there is no such file, or one cannot be read.
    """
    system, beside = open_brake_file(path).system, open_brake_file(other).system
    return compare_view(system, beside, file_head(system, made_at), {})


def readings_of(build: Build, system: BrakeSystem) -> tuple[BrakeReading, ...]:
    """Return what was read off these brakes, newest first.

    A reading that names none was read off those that are on the car.
    """
    mine = [
        one
        for one in build.brake_readings.values()
        if one.system == system.id or (not one.system and system.role is Role.AS_BUILT)
    ]
    return tuple(sorted(mine, key=lambda one: one.at, reverse=True))


def park(
    door: Door,
    system_id: str = "",
    asked: ParkAsked = ParkAsked(),  # noqa: B008
) -> ParkView:
    """Work out what the parking brake holds.

    Raises
    ------
    NotFound
        When the build describes no brakes.
    """
    build = door.build()
    system = system_of(build, system_id)
    return kept(
        door,
        ("park", system.id, asked),
        lambda _: park_view(
            system, head_of(build, door.now()), asked, picked(build), readings_of(build, system)
        ),
    )


def joints(door: Door, system_id: str = "") -> JointsView:
    """List every joint, pipe and hose, and what to cut and buy.

    Raises
    ------
    NotFound
        When the build describes no brakes.
    """
    return kept(
        door,
        ("joints", system_id),
        lambda build: joints_view(
            system_of(build, system_id),
            head_of(build, door.now()),
            proofs_of(door, build, system_id),
        ),
    )


def proofs_of(door: Door, build: Build, system_id: str = "") -> tuple[Standing, ...]:
    """Say how the joints and screws of the brakes on the car stand; nothing of other brakes."""
    system = system_of(build, system_id)
    return standings_of(system, build, door.now()) if system.role is Role.AS_BUILT else ()


def bleed(door: Door, system_id: str = "", vented: Sequence[str] = ()) -> BleedView:
    """Plan the bleeding.

    Parameters
    ----------
    door : Door
        The build.
    system_id : str
        Which brakes; empty for those on the car.
    vented : sequence of str
        Blanks whose leg was vented at its far end, besides those that the proofs say were.

    Raises
    ------
    NotFound
        When the build describes no brakes.
    """
    build = door.build()
    system = system_of(build, system_id)
    every = {*vented, *(vented_blanks(system, build) if system.role is Role.AS_BUILT else ())}
    return kept(
        door,
        ("bleed", system.id, tuple(sorted(every))),
        lambda _: bleed_view(
            system,
            head_of(build, door.now()),
            readings_of(build, system),
            tuple(sorted(every)),
            standings=proofs_of(door, build, system_id),
        ),
    )
