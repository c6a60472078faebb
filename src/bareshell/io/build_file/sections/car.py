"""The car, the garage, the ways the car can stand, and garage time."""

from __future__ import annotations

from contextlib import suppress
from datetime import datetime

from bareshell.errors import Refused
from bareshell.io.build_file.facts import PlacementFacts, facts_of_placement
from bareshell.io.build_file.figures import (
    amount,
    clock_time,
    day,
    figures,
    flag,
    moment,
    temperature,
    whole,
)
from bareshell.io.build_file.kinds import (
    Kind,
    Mismatch,
    Spot,
    ident,
    many_of,
    one_of,
    one_word,
    ref,
    shown,
    text,
)
from bareshell.io.build_file.sections.base import Section
from bareshell.io.build_file.shape import Field, Record
from bareshell.model import changes as c
from bareshell.model.build import Build
from bareshell.model.car import OPTIONAL_SYSTEMS, Car, Layout
from bareshell.model.job import SYSTEMS
from bareshell.model.position import (
    BODY_STATES,
    Placement,
    Support,
    SupportKind,
    SupportMove,
    Wheels,
    Zone,
)
from bareshell.model.session import Garage, HelperWork, SessionException, SessionPattern

__all__ = ["CAR_SECTIONS"]

_ANY_SYSTEM = tuple(dict.fromkeys((*OPTIONAL_SYSTEMS, *SYSTEMS)))


def _zone_name() -> Kind:
    def read(value: object, _spot: Spot) -> str:
        from zoneinfo import ZoneInfo

        try:
            return ZoneInfo(str(value)).key
        except (ValueError, OSError, KeyError) as error:
            raise Mismatch(
                f"{shown(value)} is no time zone", 'write a region and city, as in "Europe/London"'
            ) from error

    return Kind('time zone, such as "Europe/London"', read, lambda value, _setting: str(value))


def _currency() -> Kind:
    def read(value: object, _spot: Spot) -> str:
        word = value.strip() if isinstance(value, str) else ""
        if len(word) != 3 or not word.isascii() or not word.isalpha():
            raise Mismatch(f"{shown(value)} is no currency", 'write its letters, such as "GBP"')
        return word.upper()

    return Kind(
        'currency in three letters, such as "GBP"', read, lambda value, _setting: str(value)
    )


def _rule() -> Kind:
    def read(value: object, _spot: Spot) -> str:
        if isinstance(value, str):
            from dateutil.rrule import rrulestr

            with suppress(ValueError, TypeError, AttributeError):
                rrulestr(value, dtstart=datetime(2020, 1, 6))  # noqa: DTZ001 - a local clock
                return value
        raise Mismatch(
            f"{shown(value)} is no rule of how it repeats", 'write it as "FREQ=WEEKLY;BYDAY=MO,WE"'
        )

    return Kind(
        'how it repeats, as RFC 5545 writes it: "FREQ=WEEKLY;BYDAY=MO,WE"',
        read,
        lambda value, _setting: str(value),
    )


CAR = Section(
    "car",
    "car",
    "The car itself and how its owner reads it.",
    Record(
        Car,
        (
            Field("name", "name", text(), "what its owner calls it"),
            Field("layout", "layout", one_of(Layout), "which wheels are driven"),
            Field(
                "systems", "systems", many_of(_ANY_SYSTEM, "system"), "the systems in this build"
            ),
            Field(
                "options",
                "options",
                many_of(("forced induction",), "option", only=False),
                "what only some cars have",
            ),
            Field("invented", "invented", flag(), "true for made-up data; every page says so"),
            Field("zone", "zone", _zone_name(), "the time zone of the garage's clock"),
            Field("currency", "currency", _currency(), "for prices that name none"),
            Field(
                "units",
                "units",
                one_word(("metric", "imperial"), "system of units"),
                "what is shown first",
            ),
            Field("words", "words", text(), "anything else: year, colour, history"),
            Field("budget", "budget", amount(), "what it may cost from here on, all in"),
        ),
    ),
    lambda build: {"car": build.car} if build.car is not None else {},
    lambda _value: "car",
    c.CarDescribed,
    single=True,
)

GARAGE = Section(
    "garage",
    "garage",
    "The bay: how warm it is and what each session loses at both ends.",
    Record(
        Garage,
        (
            Field("heated_to", "heated_to_c", temperature(), "what the heating reaches"),
            Field("heated_nights", "heated_nights", flag(), "whether it stays on until next time"),
            Field(
                "monthly_c",
                "monthly_c",
                figures(12, "degrees Celsius"),
                "how warm an unheated bay is, January first",
            ),
            Field("helper", "helper", one_of(HelperWork), "what a helper may do alone"),
            Field("set_up_minutes", "set_up_minutes", whole(unit="min"), "lost before work begins"),
            Field(
                "clear_up_minutes", "clear_up_minutes", whole(unit="min"), "lost after work ends"
            ),
        ),
    ),
    lambda build: {"garage": build.garage},
    lambda _value: "garage",
    c.GarageDescribed,
    single=True,
)


def _support_left_out(build: Build, key: str) -> tuple[str, c.Change]:
    if len(build.supports) == 1:
        raise Refused("a car stands on something", "it is the last one", "write another one first")
    return f"{SUPPORT.title(build.supports[key])} is no longer there", c.SupportDropped(key)


SUPPORT = Section(
    "support",
    "support",
    "A way the car can stand, and what that opens.",
    Record(
        Support,
        (
            Field("id", "id", ident(), "its short name"),
            Field("title", "title", text(), "what a person calls it"),
            Field("kind", "kind", one_of(SupportKind), "its kind; decides the cautions shown"),
            Field("opens", "opens", many_of(Zone, "zone of the car"), "what can be worked on"),
            Field("wheels", "wheels", one_of(Wheels), "whether the wheels hang or carry the car"),
            Field("level", "level", flag(), "whether it is level enough to measure geometry"),
            Field("rollable", "rollable", flag(), "whether the car can be rolled from it"),
        ),
    ),
    lambda build: build.supports,
    lambda value: str(value.id),
    c.SupportSet,
    left_out=_support_left_out,
)

MOVE = Section(
    "move",
    "move",
    "What it takes to bring the car from one support to another.",
    Record(
        SupportMove,
        (
            Field("from", "from_support", ref("support"), "the support it stands on"),
            Field("to", "to_support", ref("support"), "the support it goes to"),
            Field("minutes", "minutes", whole(unit="min"), "how long that takes"),
            Field("people", "people", whole(least=1), "how many it takes, 1 or 2"),
            Field("off", "off", many_of(BODY_STATES, "body state"), "what must be off for it"),
            Field(
                "not_off",
                "not_off",
                many_of(BODY_STATES, "body state"),
                "what must not be off for it",
            ),
        ),
    ),
    lambda build: build.moves,
    lambda value: f"{value.from_support}>{value.to_support}",
    c.SupportMoveSet,
)


def _placed(build: Build) -> dict[str, Placement]:
    stands = build.placement
    return {"placement": stands} if stands and stands.support in build.supports else {}


PLACEMENT = Section(
    "placement",
    "place where the car stands",
    "How the car was left.",
    Record(
        Placement,
        (
            Field("support", "support", ref("support"), "what it stands on"),
            Field("off", "off", many_of(BODY_STATES, "body state"), "what is off the car"),
        ),
    ),
    _placed,
    lambda _value: "placement",
    c.CarPlaced,
    single=True,
    facts=Record(PlacementFacts, (Field("at", "at", moment(), "since when it stands so"),)),
    facts_of=facts_of_placement,
)


def _session_left_out(build: Build, key: str) -> tuple[str, c.Change]:
    return f"{SESSION.title(build.patterns[key])} is over", c.PatternDropped(key)


SESSION = Section(
    "session",
    "session",
    "A repeating stretch of garage time.",
    Record(
        SessionPattern,
        (
            Field("id", "id", ident(), "its short name"),
            Field("title", "title", text(), "what a person calls it"),
            Field("rule", "rule", _rule(), "on which days"),
            Field("starts", "starts", clock_time(), "when it starts, by the garage's clock"),
            Field("minutes", "minutes", whole(least=1, unit="min"), "set-up and clear-up included"),
            Field("people", "people", whole(least=1), "1 alone, 2 with a helper"),
            Field("first_day", "first_day", day(), "the day from which the rule counts"),
        ),
    ),
    lambda build: build.patterns,
    lambda value: str(value.id),
    c.PatternSet,
    left_out=_session_left_out,
)

EXCEPTION = Section(
    "exception",
    "day",
    "A day that is not as the sessions say.",
    Record(
        SessionException,
        (
            Field("day", "day", day(), "which day"),
            Field("minutes", "minutes", whole(unit="min"), "how long; 0 for no session that day"),
            Field("people", "people", whole(least=1), "how many are there, if not as usual"),
            Field("starts", "starts", clock_time(), "when it starts, if not as usual"),
            Field("words", "words", text(), "why"),
        ),
    ),
    lambda build: {key.isoformat(): value for key, value in build.exceptions.items()},
    lambda value: str(value.day.isoformat()),
    c.ExceptionSet,
)

CAR_SECTIONS = (CAR, GARAGE, SUPPORT, MOVE, PLACEMENT, SESSION, EXCEPTION)
"""The sections about the car, the bay and its hours."""
