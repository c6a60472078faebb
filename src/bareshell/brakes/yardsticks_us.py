"""Yardsticks of the United States, new and old."""

from __future__ import annotations

from datetime import date
from functools import partial
from typing import Final

from bareshell.brakes.yardstick import (
    FOOT,
    KMH,
    LBF,
    MPH,
    Forces,
    Hold,
    Hot,
    Look,
    Slow,
    Subject,
    Volume,
    Yardstick,
)

__all__ = ["US"]

_MEMORY: Final = "from memory"
_FOOT: Final = Forces(65.0, 500.0)
_LETTER: Final = "The figure was read in an interpretation letter of the agency."

_135 = partial(
    Yardstick,
    family="FMVSS 135",
    jurisdiction="United States",
    source_id="fmvss-135",
    edition="for cars made from 1 September 2000, by choice from 6 March 1995",
    mark=_MEMORY,
    used_from=date(1995, 3, 6),
)

_NEW: Final = (
    _135(
        id="fmvss-135-cold",
        subject=Subject.SERVICE,
        words="70 m from 100 km/h, cold",
        asks=Slow(None, 100 * KMH, 70.0),
        clause="S7.5",
        forces=_FOOT,
        mark="read second-hand",
        note=f"{_LETTER} The lower limit of the pedal force is from memory.",
    ),
    _135(
        id="fmvss-135-high-speed",
        subject=Subject.SERVICE,
        words="0.10 V + 0.0067 V2 metres from four fifths of the top speed",
        asks=Slow(5.76, 160 * KMH, of_top_speed=0.8),
        clause="S7.6.3",
        forces=_FOOT,
    ),
    _135(
        id="fmvss-135-valve",
        subject=Subject.VALVE,
        words="110 m from 100 km/h with a variable proportioning valve failed",
        asks=Slow(None, 100 * KMH, 110.0),
        clause="S7.9",
        forces=_FOOT,
    ),
    _135(
        id="fmvss-135-circuit",
        subject=Subject.CIRCUIT,
        words="168 m from 100 km/h with one circuit failed",
        asks=Slow(None, 100 * KMH, 168.0),
        clause="S7.10.4",
        forces=_FOOT,
    ),
    _135(
        id="fmvss-135-servo",
        subject=Subject.SERVO,
        words="168 m from 100 km/h with the assistance failed",
        asks=Slow(None, 100 * KMH, 168.0),
        clause="S7.11",
        note="The title of the clause was read, its figure is from memory.",
        forces=_FOOT,
    ),
    _135(
        id="fmvss-135-parking",
        subject=Subject.PARKING,
        words="holds the laden car on 20 % for 5 minutes, both ways",
        asks=Hold(0.20, 5.0),
        clause="S7.12",
        load="laden",
        forces=Forces(most_foot_n=500.0, most_hand_n=400.0),
    ),
    _135(
        id="fmvss-135-hot",
        subject=Subject.HOT,
        words="after the heating snubs, 60 % of what was reached cold, with no more pedal force",
        asks=Hot(0.60),
        clause="S7.14",
        load="laden",
        forces=Forces(most_foot_n=500.0),
        mark="read second-hand",
        note=f"{_LETTER} A way by distance, 89 m, is from memory.",
    ),
    _135(
        id="fmvss-135-recovery",
        subject=Subject.RECOVERY,
        words="recovered, 70 to 150 % of what was reached cold",
        asks=Hot(0.70, most_of_cold=1.50),
        clause="S7.16",
        load="laden",
        mark="read second-hand",
        note=f"{_LETTER} Only a test shows how linings recover.",
    ),
    _135(
        id="fmvss-135-reservoir",
        subject=Subject.RESERVOIR,
        words="each compartment holds what its pistons take from new linings to worn ones",
        asks=Volume(),
        clause="S5.4.2",
    ),
    _135(
        id="fmvss-135-lamp",
        subject=Subject.LOOK,
        words="a lamp for low fluid or lost pressure and for the parking brake applied",
        asks=Look(),
        clause="S5.5",
    ),
)

_105 = partial(
    Yardstick,
    family="FMVSS 105",
    jurisdiction="United States",
    source_id="fmvss-105",
    mark=_MEMORY,
)
_LOW: Final = "Recalled with low confidence."

_OLD: Final = (
    _105(
        id="fmvss-105-1968-service",
        subject=Subject.SERVICE,
        words="20 ft/s2 in a stop from 60 mph",
        asks=Slow(20 * FOOT, 60 * MPH, 194 * FOOT),
        clause="as first issued",
        edition="1968 to 1975",
        mark="read second-hand",
        forces=Forces(least_foot_n=15 * LBF),
        used_from=date(1968, 1, 1),
        used_before=date(1976, 1, 1),
        note=(
            "Read in a letter of the agency of 29 April 1970, whose figure for the greatest pedal "
            "force cannot be made out. 194 ft is 20 ft/s2 with no delay."
        ),
    ),
    _105(
        id="fmvss-105-service",
        subject=Subject.SERVICE,
        words="216 ft from 60 mph",
        asks=Slow(None, 60 * MPH, 216 * FOOT),
        clause="S5.1.1",
        edition="1976 to 2000",
        forces=Forces(15 * LBF, 150 * LBF),
        used_from=date(1976, 1, 1),
        used_before=date(2000, 9, 1),
        note=_LOW,
    ),
    _105(
        id="fmvss-105-circuit",
        subject=Subject.CIRCUIT,
        words="456 ft from 60 mph with a part of the brakes failed",
        asks=Slow(None, 60 * MPH, 456 * FOOT),
        clause="S5.1.2",
        edition="1976 to 2000",
        forces=Forces(15 * LBF, 150 * LBF),
        used_from=date(1976, 1, 1),
        used_before=date(2000, 9, 1),
        note=_LOW,
    ),
    _105(
        id="fmvss-105-parking",
        subject=Subject.PARKING,
        words="holds the car on 30 % for 5 minutes, both ways",
        asks=Hold(0.30, 5.0),
        clause="S5.2.1",
        edition="1976 to 2000",
        load="laden",
        forces=Forces(most_foot_n=125 * LBF, most_hand_n=90 * LBF),
        used_from=date(1976, 1, 1),
        used_before=date(2000, 9, 1),
        note="The slope was read in a question put to the agency, the forces are from memory.",
    ),
)

US: Final = _NEW + _OLD
"""The yardsticks of the United States."""
