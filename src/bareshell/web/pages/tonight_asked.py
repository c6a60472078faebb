"""The session as a person says it really is: read from the address of the page."""

from __future__ import annotations

from collections.abc import Container, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Final
from urllib.parse import urlencode
from zoneinfo import ZoneInfo

from starlette.datastructures import QueryParams

from bareshell.errors import BadInput, Problem
from bareshell.model.session import HelperWork
from bareshell.units import parse_hours, read_figure
from bareshell.whole.asked import COLDEST_C, LONGEST_MINUTES, SHORTEST_MINUTES, WARMEST_C
from bareshell.whole.car_overview import ComingSession
from bareshell.whole.sheet_parts import MOODS, SessionAsked

MOST_PEOPLE: Final = 2

_ANSWERS: Final = ("minutes", "people", "support", "temperature", "starts", "helper")
_WAS: Final = "was_"


@dataclass(frozen=True, slots=True)
class Asking:
    """What a person set about the session.

    Parameters
    ----------
    typed : dict of str to str
        Each answer that was set, as typed.
    asked : SessionAsked or None
        The same, read; None when nothing was set.
    problems : tuple of Problem
        What could not be read; that answer is left as the record has it.
    query : str
        The address's own words for it, without those that change nothing.
    """

    typed: dict[str, str]
    asked: SessionAsked | None
    problems: tuple[Problem, ...]
    query: str

    @property
    def page(self) -> str:
        """The address of tonight as it is asked for here."""
        return f"/tonight?{self.query}" if self.query else "/tonight"

    @property
    def mood(self) -> frozenset[str]:
        """What is not wanted this evening."""
        return self.asked.mood if self.asked else frozenset()


def comes_from_the_form(query: QueryParams) -> bool:
    """Whether an address still carries what the form showed, to be left out of it."""
    return any(name.startswith(_WAS) for name in query)


def set_answers(query: QueryParams) -> dict[str, str]:
    """Find the answers that differ from what the form showed.

    The form shows what the record has; what a person leaves as it is stays the record's.
    """
    found = {}
    for name in _ANSWERS:
        said = query.get(name, "").strip()
        if said and said != query.get(_WAS + name, "").strip():
            found[name] = said
    return found


def read_asked(
    query: QueryParams,
    zone: ZoneInfo,
    supports: Container[str],
    coming: Sequence[ComingSession] = (),
) -> Asking:
    """Read what was set.

    Parameters
    ----------
    query : QueryParams
        Of the page's address.
    zone : ZoneInfo
        The owner's, in which a start is meant.
    supports : container of str
        The ways in which the car can stand here.
    coming : sequence of ComingSession
        The sessions that one can choose among.
    """
    typed = set_answers(query)
    problems: list[Problem] = []
    moods = tuple(mood for mood in MOODS if mood in query.getlist("mood"))
    starts_at = _start(typed, zone, problems)
    usual = next((one for one in coming if one.starts_at == starts_at), None)
    minutes = _whole(typed, "minutes", "how long", SHORTEST_MINUTES, LONGEST_MINUTES, problems)
    people = _whole(typed, "people", "who is there", 1, MOST_PEOPLE, problems)
    asked = SessionAsked(
        # Another session is as long and as crowded as the record has it, unless said otherwise.
        minutes=minutes or (usual.minutes if usual else None),
        people=people or (usual.people if usual else None),
        support=_support(typed, supports, problems),
        temperature_c=_temperature(typed, problems),
        starts_at=starts_at,
        mood=frozenset(moods),
        helper=_helper(typed, problems),
        exactly=query.get("exactly") == "yes",
    )
    words: list[tuple[str, str]] = [(name, typed[name]) for name in _ANSWERS if name in typed]
    words += [("mood", mood) for mood in moods]
    words += [("exactly", "yes")] if asked.exactly else []
    set_at_all = asked != SessionAsked()
    return Asking(typed, asked if set_at_all else None, tuple(problems), urlencode(words))


def _whole(
    typed: dict[str, str], name: str, field: str, least: int, most: int, problems: list[Problem]
) -> int | None:
    said = typed.get(name)
    if said is None:
        return None
    unit = "min" if name == "minutes" else "people"
    remedy = f"write a whole number from {least} to {most}"
    try:
        if unit == "min":
            figure = parse_hours(said, field, bare="min") * 60
        else:
            figure = read_figure(said, field)
    except BadInput as error:
        problems.extend(error.problems)
        return None
    if not least <= round(figure, 6) <= most or abs(figure - round(figure)) > 1e-6:
        problems.append(Problem(field, f"{said} {unit} will not do", remedy))
        return None
    return round(figure)


def _helper(typed: dict[str, str], problems: list[Problem]) -> HelperWork | None:
    said = typed.get("helper")
    if said is None or said in set(HelperWork):
        return None if said is None else HelperWork(said)
    remedy = f"choose one of: {', '.join(HelperWork)}"
    problems.append(Problem("what the helper does alone", f"'{said}' is none of it", remedy))
    return None


def _support(
    typed: dict[str, str], supports: Container[str], problems: list[Problem]
) -> str | None:
    said = typed.get("support")
    if said is None or said in supports:
        return said
    problems.append(
        Problem("how the car stands", f"'{said}' is no way it stands here", "choose from the list")
    )
    return None


def _temperature(typed: dict[str, str], problems: list[Problem]) -> float | None:
    said = typed.get("temperature")
    if said is None:
        return None
    field = "in the garage"
    try:
        figure = read_figure(said, field)
    except BadInput as error:
        problems.extend(error.problems)
        return None
    if not COLDEST_C <= figure <= WARMEST_C:
        remedy = f"write degrees Celsius from {COLDEST_C:g} to {WARMEST_C:g}"
        problems.append(Problem(field, f"{said} °C is no garage", remedy))
        return None
    return figure


def _start(typed: dict[str, str], zone: ZoneInfo, problems: list[Problem]) -> datetime | None:
    said = typed.get("starts")
    if said is None:
        return None
    try:
        moment = datetime.fromisoformat(said)
    except ValueError:
        problems.append(
            Problem("another start", f"'{said}' is no day with a time", "write 2031-03-05T19:00")
        )
        return None
    return moment.replace(tzinfo=zone) if moment.tzinfo is None else moment
