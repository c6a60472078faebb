"""Yardsticks of the international car braking regulations, present and earlier.

Of the present one only title and contents were read: its figures are recalled and agree with their
own arithmetic. What stands as *read* was read in a text that carries the same rule.
"""

from __future__ import annotations

from datetime import date
from functools import partial
from typing import Final

from bareshell.brakes.yardstick import (
    KMH,
    Adhesion,
    Forces,
    Hold,
    Hot,
    LockOrder,
    Look,
    Slow,
    Subject,
    Volume,
    Yardstick,
)

__all__ = ["UN"]

_MEMORY: Final = "from memory"
_FOOT: Final = Forces(65.0, 500.0)
_PARKED: Final = Forces(most_foot_n=500.0, most_hand_n=400.0)

_LEFT: Final = date(2006, 1, 1)  # cars left it about then, after a proposal of 2004 that was read

_h = partial(
    Yardstick,
    family="UN R13-H",
    jurisdiction="United Nations, taken up by the European Union",
    source_id="un-r13-h",
    edition="02 series, in force 12 June 2025; official journal of 13 April 2026",
    mark=_MEMORY,
    used_from=date(1998, 5, 11),  # in force, from memory
)

_PRESENT: Final = (
    _h(
        id="un-r13h-service",
        subject=Subject.SERVICE,
        words="6.43 m/s2 and 70 m from 100 km/h, engine disconnected",
        asks=Slow(6.43, 100 * KMH, 70.0),
        clause="Annex 3, 2.1.1",
        forces=_FOOT,
    ),
    _h(
        id="un-r13h-service-engine",
        subject=Subject.SERVICE,
        words="5.76 m/s2 from four fifths of the top speed, engine connected",
        asks=Slow(5.76, 160 * KMH, of_top_speed=0.8),
        clause="Annex 3, 2.1.1",
        note="The engine helps in the test and is left out here.",
        forces=_FOOT,
    ),
    _h(
        id="un-r13h-hot",
        subject=Subject.HOT,
        words="after fifteen snubs, 75 % of what is prescribed and 60 % of what was reached cold",
        asks=Hot(0.60, 4.82),
        clause="Annex 3, 1.5.2",
        load="laden",
        forces=Forces(most_foot_n=500.0),
    ),
    _h(
        id="un-r13h-recovery",
        subject=Subject.RECOVERY,
        words="after four stops to recover, 70 to 150 % of what was reached cold",
        asks=Hot(0.70, most_of_cold=1.50),
        clause="Annex 3, 1.5.3",
        load="laden",
        note="Only a test shows how linings recover.",
    ),
    _h(
        id="un-r13h-circuit",
        subject=Subject.CIRCUIT,
        words="2.44 m/s2 and 168 m from 100 km/h with a circuit failed",
        asks=Slow(2.44, 100 * KMH, 168.0),
        clause="Annex 3, 2.2",
        forces=_FOOT,
    ),
    _h(
        id="un-r13h-servo",
        subject=Subject.SERVO,
        words="2.44 m/s2 and 168 m from 100 km/h with the servo failed",
        asks=Slow(2.44, 100 * KMH, 168.0),
        clause="Annex 3, 2.2",
        note="The number of the clause is not certain.",
        forces=_FOOT,
    ),
    _h(
        id="un-r13h-parking",
        subject=Subject.PARKING,
        words="holds the laden car on 20 %, both ways",
        asks=Hold(0.20),
        clause="Annex 3, 2.3",
        load="laden",
        forces=_PARKED,
    ),
    _h(
        id="un-r13h-parking-trailer",
        subject=Subject.PARKING,
        words="holds the laden car with an unbraked trailer on 12 %, both ways",
        asks=Hold(0.12, with_trailer=True),
        clause="Annex 3, 2.3",
        load="laden",
        forces=_PARKED,
    ),
    _h(
        id="un-r13h-parking-moving",
        subject=Subject.PARKING_MOVING,
        words="1.5 m/s2 from 30 km/h, in the mean and just before it stands",
        asks=Slow(1.5, 30 * KMH),
        clause="Annex 3, 2.3.6",
        load="laden",
        forces=_PARKED,
    ),
    _h(
        id="un-r13h-lock-order",
        subject=Subject.LOCK_ORDER,
        words="the rear axle uses no more adhesion than the front from 0.15 to 0.80 g",
        asks=LockOrder(0.15, 0.80),
        clause="Annex 5, 3.1 (A)",
    ),
    _h(
        id="un-r13h-adhesion",
        subject=Subject.DISTRIBUTION,
        words="z of 0.1 + 0.7 (k - 0.2) or more while an axle uses a k of 0.2 to 0.8",
        asks=Adhesion(0.70),
        clause="Annex 5, 3.1 (B)",
    ),
    _h(
        id="un-r13h-reservoir",
        subject=Subject.RESERVOIR,
        words="the reservoir holds what new linings take until they are worn",
        asks=Volume(),
        clause="5.2",
    ),
    _h(
        id="un-r13h-level",
        subject=Subject.LOOK,
        words="level seen without opening, a red lamp for low fluid, the fluid marked",
        asks=Look(),
        clause="5.2",
    ),
)

_old = partial(
    Yardstick,
    family="UN R13, for cars before 13-H",
    jurisdiction="United Nations, taken up by European countries",
    source_id="un-r13-rev4",
    edition="revision 4",
    used_from=date(1973, 8, 29),
    used_before=_LEFT,
)

_EARLIER: Final = (
    _old(
        id="un-r13-service",
        subject=Subject.SERVICE,
        words="5.8 m/s2 from 80 km/h, engine disconnected",
        asks=Slow(5.8, 80 * KMH, 0.1 * 80 + 80**2 / 150),
        clause="Annex 4, 2.1",
        mark=_MEMORY,
        forces=Forces(most_foot_n=500.0),
    ),
    _old(
        id="un-r13-circuit",
        subject=Subject.CIRCUIT,
        words="2.9 m/s2 from 80 km/h with a part of the brakes failed",
        asks=Slow(2.9, 80 * KMH, 0.1 * 80 + 2 * 80**2 / 150),
        clause="Annex 4, 2.2",
        mark="read",
        forces=Forces(most_foot_n=500.0, most_hand_n=400.0),
    ),
    _old(
        id="un-r13-servo",
        subject=Subject.SERVO,
        words="2.9 m/s2 from 80 km/h with the servo failed",
        asks=Slow(2.9, 80 * KMH, 0.1 * 80 + 2 * 80**2 / 150),
        clause="Annex 4, 2.2",
        mark=_MEMORY,
        forces=Forces(most_foot_n=500.0),
        note="The figure was read; that a dead servo is held against it is from memory.",
    ),
    _old(
        id="un-r13-hot",
        subject=Subject.HOT,
        words="after fifteen snubs, 80 % of what is prescribed and 60 % of what was reached cold",
        asks=Hot(0.60, 0.8 * 5.8),
        clause="Annex 4, 1.5",
        mark=_MEMORY,
        load="laden",
        forces=Forces(most_foot_n=500.0),
    ),
    _old(
        id="un-r13-parking",
        subject=Subject.PARKING,
        words="holds the laden car on 18 %, both ways",
        asks=Hold(0.18),
        clause="Annex 4, 2.3",
        mark=_MEMORY,
        load="laden",
        forces=_PARKED,
    ),
)

_dir = partial(
    Yardstick,
    family="UN R13, for cars before 13-H",
    jurisdiction="European Community",
    source_id="ec-71-320",
    edition="1971 as amended in 1975 and after",
    used_from=date(1971, 7, 26),
    used_before=_LEFT,
)

_DISTRIBUTION: Final = (
    _dir(
        id="un-r13-adhesion",
        subject=Subject.DISTRIBUTION,
        words="z of 0.1 + 0.85 (k - 0.2) or more while an axle uses a k of 0.2 to 0.8",
        asks=Adhesion(0.85),
        clause="Annex II; Annex 10 of UN R13",
        mark="read second-hand",
        note="Read in the French order of 1955 as amended, which carries the same line.",
    ),
    _dir(
        id="un-r13-lock-order",
        subject=Subject.LOCK_ORDER,
        words=(
            "the rear axle uses no more adhesion than the front from 0.15 to 0.80 g; from 0.30 to "
            "0.45 g it may, within 0.05 of k = z"
        ),
        asks=LockOrder(0.15, 0.80, (0.30, 0.45, 0.05)),
        clause="Annex II; Annex 10 of UN R13",
        mark=_MEMORY,
    ),
    Yardstick(
        id="fr-1955-lock-order",
        family="UN R13, for vehicles other than cars",
        jurisdiction="France",
        subject=Subject.LOCK_ORDER,
        words=(
            "the rear axle uses no more adhesion than the front from 0.15 to 0.30 g, or both stay "
            "within 0.08 of k = z there"
        ),
        asks=LockOrder(0.15, 0.30, or_band=0.08),
        source_id="fr-arrete-1955",
        clause="annex, 3.1.1",
        edition="order of 18 August 1955 as amended",
        mark="read",
        note="Meant for vans and heavier vehicles.",
    ),
)

UN: Final = _PRESENT + _EARLIER + _DISTRIBUTION
"""The international yardsticks."""
