"""Yardsticks of the United Kingdom's annual inspection and construction rules."""

from __future__ import annotations

from datetime import date
from functools import partial
from typing import Final

from bareshell.brakes.yardstick import Effort, Even, Hold, Look, Subject, Yardstick

__all__ = ["UK"]

_mot = partial(
    Yardstick,
    family="UK annual inspection",
    jurisdiction="United Kingdom",
    source_id="uk-mot-1",
    edition="a copy whose date is not stated; cars and passenger vehicles",
    mark="read",
    load="as tested",
)
_LOCKED: Final = "Taken as met when more than half of the wheels of the system lock on the rollers."
_GRAVE: Final = "Below the figure the defect is major, below half of it dangerous."
_1968: Final = date(1968, 1, 1)

_INSPECTION: Final = (
    _mot(
        id="uk-mot-service-2010",
        subject=Subject.SERVICE,
        words="58 % with one control on four wheels, first used from 1 September 2010",
        asks=Effort(0.58),
        clause="1.2.2",
        used_from=date(2010, 9, 1),
        note=f"{_LOCKED} {_GRAVE}",
    ),
    _mot(
        id="uk-mot-service",
        subject=Subject.SERVICE,
        words="50 % with one control on four wheels, first used before 1 September 2010",
        asks=Effort(0.50),
        clause="1.2.2",
        used_before=date(2010, 9, 1),
        note=f"{_LOCKED} {_GRAVE}",
    ),
    _mot(
        id="uk-mot-first-control",
        subject=Subject.SERVICE,
        words="30 % from the first of two controls, first used before 1968, none working on four "
        "wheels",
        asks=Effort(0.30),
        clause="1.2.2",
        used_before=_1968,
        note=f"{_LOCKED} {_GRAVE}",
    ),
    _mot(
        id="uk-mot-second-control",
        subject=Subject.SECONDARY,
        words="25 % from the second of two controls, first used before 1968, none working on four "
        "wheels",
        asks=Effort(0.25),
        clause="1.2.2",
        used_before=_1968,
        note=f"{_LOCKED} {_GRAVE}",
    ),
    _mot(
        id="uk-mot-1915",
        subject=Subject.LOOK,
        words="one efficient braking system, first used before 1915",
        asks=Look(),
        clause="1.2.2",
        used_before=date(1915, 1, 1),
        note="No figure is asked.",
    ),
    _mot(
        id="uk-mot-secondary",
        subject=Subject.SECONDARY,
        words="25 % from the secondary brake of a single-line system",
        asks=Effort(0.25),
        clause="1.3.2",
        note=f"{_LOCKED} The hand brake is that brake, as a rule, and is then not tested again.",
    ),
    _mot(
        id="uk-mot-parking",
        subject=Subject.PARKING,
        words="16 % from the parking brake of a split system",
        asks=Effort(0.16),
        clause="1.4.2",
        note=(
            f"{_LOCKED} {_GRAVE} Force over weight on the level: it holds a slope of 16.2 %, and "
            "does not show that 20 % is held."
        ),
    ),
    _mot(
        id="uk-mot-gradient",
        subject=Subject.PARKING,
        words="stands on a slope of at most 16 %, as near to it as is found",
        asks=Hold(0.16),
        clause="1.4.1",
        note="A last resort where there is neither roller nor decelerometer.",
    ),
    _mot(
        id="uk-mot-parking-hold",
        subject=Subject.LOOK,
        words="the parking brake holds by direct mechanical action, first used from 1968",
        asks=Look(),
        clause="1.1.6",
        used_from=_1968,
    ),
    _mot(
        id="uk-mot-imbalance",
        subject=Subject.IMBALANCE,
        words="the weaker wheel of an axle pulls 70 % of the stronger",
        asks=Even(0.70),
        clause="1.2.1 (b)",
        note=(
            "At the greatest efforts. Left aside when the weaker wheel locked, or the stronger "
            "reads 40 kgf or less."
        ),
    ),
    _mot(
        id="uk-mot-imbalance-steered",
        subject=Subject.IMBALANCE,
        words="the weaker wheel of a steered axle pulls 50 % of the stronger",
        asks=Even(0.50, steered_only=True),
        clause="1.2.1 (b)",
        note="Below it the defect is dangerous. Left aside as the rule of 70 %.",
    ),
    _mot(
        id="uk-mot-pedal",
        subject=Subject.LOOK,
        words="the pedal does not reach the floor, engine off when there is a servo",
        asks=Look(),
        clause="1.1.2",
    ),
)

_cu = partial(
    Yardstick,
    family="UK construction rules",
    jurisdiction="United Kingdom",
    source_id="uk-cu-1986",
    clause="reg. 18",
    edition="1986 as amended",
    mark="read second-hand",
    load="as tested",
    note="The figures were read for goods vehicles in a summary; the statute's table was not seen.",
)

_CONSTRUCTION: Final = (
    _cu(
        id="uk-cu-service",
        subject=Subject.SERVICE,
        words="50 % from the service brake",
        asks=Effort(0.50, by_locking=False),
    ),
    _cu(
        id="uk-cu-secondary",
        subject=Subject.CIRCUIT,
        words="25 % from the secondary brake: with a part of the brakes failed, or by hand",
        asks=Effort(0.25, by_locking=False),
    ),
    _cu(
        id="uk-cu-parking",
        subject=Subject.PARKING,
        words="16 % from the parking brake",
        asks=Effort(0.16, by_locking=False),
    ),
)

UK: Final = _INSPECTION + _CONSTRUCTION
"""The yardsticks of the United Kingdom."""
