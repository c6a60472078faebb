"""Yardsticks of the German road licensing rule."""

from __future__ import annotations

from functools import partial
from typing import Final

from bareshell.brakes.yardstick import KMH, Hold, Look, Slow, Subject, Yardstick

__all__ = ["DE"]

_rule = partial(
    Yardstick,
    family="StVZO s.41",
    jurisdiction="Germany",
    source_id="de-stvzo-41",
    edition="2012, public text of March 2022",
    mark="read",
    load="laden",
)

DE: Final = (
    _rule(
        id="de-stvzo-service",
        subject=Subject.SERVICE,
        words="5.0 m/s2, mean fully developed",
        asks=Slow(5.0),
        clause="s.41 (4)",
        note=(
            "The mean may be taken from the speed after 0.6 s of response and build-up, and the "
            "distance from there to rest."
        ),
    ),
    _rule(
        id="de-stvzo-service-slow",
        subject=Subject.SERVICE,
        words="3.5 m/s2 for a vehicle that does no more than 25 km/h",
        asks=Slow(3.5, 25 * KMH),
        clause="s.41 (4)",
    ),
    _rule(
        id="de-stvzo-circuit",
        subject=Subject.CIRCUIT,
        words="44 % of that, 2.2 m/s2, with a part failed, and without leaving its track",
        asks=Slow(0.44 * 5.0),
        clause="s.41 (4a)",
        note="Side pull is shown beside the failure; whether the car keeps its track is not shown.",
    ),
    _rule(
        id="de-stvzo-parking",
        subject=Subject.PARKING,
        words="holds by mechanical means alone on the steepest slope that the car climbs",
        asks=Hold(None),
        clause="s.41 (5)",
        note="Say which slope that is.",
    ),
    _rule(
        id="de-stvzo-parking-moving",
        subject=Subject.PARKING_MOVING,
        words="1.5 m/s2 in the mean",
        asks=Slow(1.5),
        clause="s.41 (5)",
    ),
    _rule(
        id="de-stvzo-layout",
        subject=Subject.LOOK,
        words="two independent systems, or one system with two independent controls",
        asks=Look(),
        clause="s.41 (1)",
        note="See every single failure: with each, something is left that slows the car.",
    ),
)
"""The yardsticks of Germany."""
