"""What is known of fittings: which flare goes on which seat, which threads nearly fit, how tight.

Words are the trade's. A fitting that is not known is a question; nothing here fills it in.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Final, Literal

from bareshell.calc.thread_crossing import STARTS_AND_IS_WRONG, Crossed, Crossing, cross
from bareshell.model.trust import COMMON_PRACTICE, Stated
from bareshell.sources import Mark
from bareshell.units import Thread, known_thread

__all__ = [
    "FLARE_ON_SEAT",
    "ThreadMeeting",
    "Torque",
    "flare_word",
    "meet",
    "same_thread",
    "seat_word",
    "torque_of_nut",
    "usual_threads",
]

FLARE_ON_SEAT: Final[Mapping[str, str]] = MappingProxyType(
    {"double 45 degree": "45 degree", "convex single": "convex"}
)
"""The seat that each flare is made for: the 45 degree double flare [S:sae-j533] and the convex one
[S:iso-4038]."""

_FLARES: Final = MappingProxyType(
    {
        "double": "double 45 degree",
        "double flare": "double 45 degree",
        "double 45": "double 45 degree",
        "inverted": "double 45 degree",
        "convex": "convex single",
        "bubble": "convex single",
        "iso": "convex single",
        "din": "convex single",
        "single": "single 45 degree",
        "single 45": "single 45 degree",
        "none": "",
    }
)
_SEATS: Final = MappingProxyType(
    {
        "45": "45 degree",
        "45 deg": "45 degree",
        "inverted": "45 degree",
        "bubble": "convex",
        "convex single": "convex",
        "copper washer": "washer",
        "washers": "washer",
        "banjo bolt": "banjo",
    }
)


def flare_word(written: str) -> str:
    """Return a flare by the word the tables use.

    Examples
    --------
    >>> flare_word("bubble"), flare_word("double 45 degree")
    ('convex single', 'double 45 degree')
    """
    plain = " ".join(written.casefold().split())
    return _FLARES.get(plain, plain)


def seat_word(written: str) -> str:
    """Return a seat by the word the tables use.

    Examples
    --------
    >>> seat_word("copper washer")
    'washer'
    """
    plain = " ".join(written.casefold().split())
    return _SEATS.get(plain, plain)


def same_thread(one: str, other: str) -> bool:
    """Whether two designations name one thread, however they are written.

    Examples
    --------
    >>> same_thread("M10x1", "m10 x 1.0"), same_thread("3/8-24 UNF", "M10x1")
    (True, False)
    """
    first, second = known_thread(one), known_thread(other)
    if first is None or second is None:
        return "".join(one.casefold().split()) == "".join(other.casefold().split())
    return cross(first, second).crossed is Crossed.SAME


Fits = Literal["agree", "starts and strips", "does not go"]


@dataclass(frozen=True, slots=True)
class ThreadMeeting:
    """What happens when a male thread is screwed into a female one.

    Parameters
    ----------
    fits : {"agree", "starts and strips", "does not go"}
        What happens.
    words : str
        The same to a person, with the figures that tell the two apart; empty when they agree.
    """

    fits: Fits
    words: str = ""


def meet(male: Thread, female: Thread) -> ThreadMeeting:
    """Say what happens when a male thread is screwed into a female one.

    Parameters
    ----------
    male, female : Thread
        The two; basic sizes, as their standards have them.

    Examples
    --------
    >>> from bareshell.units import parse_thread
    >>> nut, port = parse_thread("M10x1", "nut"), parse_thread("3/8-24 UNF", "port")
    >>> meet(nut, nut).fits
    'agree'
    >>> meet(parse_thread("3/8-24 UNF", "nut"), parse_thread("M10x1", "port")).fits
    'starts and strips'
    """
    crossing = cross(male, female)
    crossed = crossing.crossed
    if crossed is Crossed.SAME:
        return ThreadMeeting("agree")
    told = (
        f"{male} is {male.diameter_m * 1e3:.2f} mm with {male.threads_per_inch:.1f} to the inch, "
        f"{female} is {female.diameter_m * 1e3:.2f} mm with {female.threads_per_inch:.1f}"
    )
    if crossed is Crossed.OTHER_HAND:
        return ThreadMeeting("does not go", f"one is left-handed: {told}")
    if crossed in (Crossed.TAPERED, Crossed.TAPERED_LIKE):
        return ThreadMeeting("does not go", f"{told}; one of them is tapered")
    if crossed not in STARTS_AND_IS_WRONG:
        return ThreadMeeting("does not go", told)
    return ThreadMeeting("starts and strips", f"{told}: {_how(crossing)}, then strips")


def _how(crossing: Crossing) -> str:
    match crossing.crossed:
        case Crossed.TIPS:
            return "it runs all the way on the tips of its threads"
        case Crossed.EDGES:
            return "it runs all the way on the edges of its flanks"
        case Crossed.SERIES:
            return "it runs all the way and sits loose, being another series"
        case Crossed.JAMS if crossing.turns >= _ABOUT_ONE:
            return f"it runs in some {crossing.turns:.0f} turns by hand"
        case _:
            return "it starts, with a lead or without, for about a turn"


_ABOUT_ONE: Final = 1.5


# Pipe diameter -> threads of its nuts. Which is usual is common practice, no source; the pairs of
# 3/16 with 3/8-24 and 1/4 with 7/16-20 are read [S:nut-torque-manual, p. 33].
_USUAL: Final = (
    (0.00475, ("3/8-24 UNF", "M10x1", "7/16-20 UNF", "7/16-24 UNS", "M12x1", "1/2-20 UNF")),
    (0.00635, ("7/16-20 UNF", "M12x1", "7/16-24 UNS", "1/2-20 UNF", "9/16-18 UNF", "M14x1.5")),
    (0.008, ("1/2-20 UNF", "M14x1.5", "9/16-18 UNF", "5/8-18 UNF", "M16x1.5")),
)
_SAME_PIPE_M: Final = 0.0003


def usual_threads(pipe_diameter_m: float) -> tuple[str, ...]:
    """Return the threads that nuts of a pipe usually have; none for an unusual pipe.

    Parameters
    ----------
    pipe_diameter_m : float
        Outside diameter of the pipe. [m]

    Examples
    --------
    >>> "3/8-24 UNF" in usual_threads(0.00476), usual_threads(0.0055)
    (True, ())
    """
    for size, threads in _USUAL:
        if abs(pipe_diameter_m - size) <= _SAME_PIPE_M:
            return threads
    return ()


@dataclass(frozen=True, slots=True)
class Torque:
    """How tight a joint is to be, and where that is from.

    Parameters
    ----------
    low_nm, high_nm : float
        The range. [N.m]
    how : {"given", "published", "computed"}
        Whether it was given for this car, is published for such a nut, or was worked out of that.
    source_id : str
        The source; empty for one that was given.
    mark : str
        How far it was read, or how far it can be trusted.
    words : str
        What to know with it.
    """

    low_nm: float
    high_nm: float
    how: Literal["given", "published", "computed"]
    source_id: str
    mark: Mark | str
    words: str = ""


@dataclass(frozen=True, slots=True)
class _Row:
    thread: str
    pipe_m: float | None
    low_nm: float
    high_nm: float
    source_id: str
    mark: Mark
    words: str = ""


_INDUSTRIAL: Final = "published for an industrial engine; the car's or part's own figure rules"
_TORQUES: Final = (
    _Row("3/8-24 UNF", 0.00475, 9.0, 13.0, "nut-torque-manual", "read", _INDUSTRIAL),
    _Row("7/16-20 UNF", 0.00635, 12.0, 20.0, "nut-torque-manual", "read", _INDUSTRIAL),
    _Row("1/2-20 UNF", None, 15.0, 25.0, "nut-torque-manual", "read", _INDUSTRIAL),
    _Row(
        "M10x1",
        0.00475,
        12.0,
        18.0,
        "trade-practice",
        "from memory",
        "the car's or part's own figure rules",
    ),
)

NON_FERROUS: Final = frozenset({"copper", "copper-nickel"})


def torque_of_nut(
    thread: str, pipe_diameter_m: float | None, material: str, given: Stated | None
) -> Torque | None:
    """Return how tight a pipe's nut is to be; None when only its maker can say.

    Halved for a pipe that is not steel. [S:nut-torque-manual, p. 33]

    Parameters
    ----------
    thread : str
        The nut's thread, as the trade writes it.
    pipe_diameter_m : float or None
        Outside diameter of the pipe; None when it is not known. [m]
    material : str
        Of the pipe; empty or ``unknown`` when it is not known.
    given : Stated or None
        The figure that the car's or part's maker gives; it rules over everything published.

    Examples
    --------
    >>> torque_of_nut("3/8-24 UNF", 0.00476, "steel", None).high_nm
    13.0
    >>> torque_of_nut("3/8-24 UNF", 0.00476, "copper-nickel", None).high_nm
    6.5
    >>> torque_of_nut("M12x1", 0.00476, "steel", None) is None
    True
    """
    if given is not None:
        low = given.value if given.low is None else given.low
        high = given.value if given.high is None else given.high
        return Torque(low, high, "given", "", str(given.trust))
    for row in _TORQUES:
        same = bool(thread) and same_thread(row.thread, thread)
        right_pipe = (
            row.pipe_m is None
            or pipe_diameter_m is None
            or abs(pipe_diameter_m - row.pipe_m) <= _SAME_PIPE_M
        )
        if same and right_pipe:
            return _for_material(row, material)
    return None


def _for_material(row: _Row, material: str) -> Torque:
    if material in NON_FERROUS:
        words = f"half of the figure for steel, {row.low_nm:g} to {row.high_nm:g} N.m; {row.words}"
        half = row.low_nm / 2, row.high_nm / 2
        return Torque(*half, "computed", row.source_id, row.mark, words)
    words = row.words
    if material not in ("steel", "stainless"):
        words = f"for steel: half of it for copper or copper-nickel; {words}"
    return Torque(row.low_nm, row.high_nm, "published", row.source_id, row.mark, words)


SCREW_WORDS: Final = (
    "the caliper's or cylinder's own figure: bleed screws are hollow and snap easily "
    f"({COMMON_PRACTICE})"
)
HOSE_WORDS: Final = f"the hose's own figure, on a new washer each time ({COMMON_PRACTICE})"
