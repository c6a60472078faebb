"""What comes of a male thread in a female one: one judgement, for pipe nuts and for bolts.

The sums are those of `thread_pairs`, on basic sizes; what is said of each outcome is for those who
ask. The limits between one outcome and the next are common practice [S:thread-crossing-practice].
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum
from functools import lru_cache
from typing import Final

from bareshell.calc import thread_pairs, threads
from bareshell.units.threads import Thread

__all__ = ["STARTS_AND_IS_WRONG", "Crossed", "Crossing", "cross"]

_BARELY: Final = 0.2
_NEARLY_WHOLE: Final = 0.9
_TOO_LARGE: Final = 1.5
_SAME_PITCH: Final = 0.002
_LIKE_PITCH: Final = 0.12
_SAME_SIZE: Final = 1e-6


class Crossed(StrEnum):
    """What comes of a male thread in a female one."""

    SAME = "the same thread"
    OTHER_HAND = "the other hand"
    TAPERED_LIKE = "one is tapered, of a like pitch"
    TAPERED = "one is tapered, of another pitch"
    DROPS_THROUGH = "drops through, or barely catches"
    TOO_LARGE = "too large to start"
    OTHER_PITCH = "another pitch, and does not run"
    BINDS = "binds in its first turn, where it starts at all"
    JAMS_AT_ONCE = "starts and jams within its first turn"
    JAMS = "starts and jams after some turns"
    TIPS = "runs right in and holds by its tips"
    EDGES = "runs in on the edges of its flanks"
    SERIES = "runs in, and is another series"


STARTS_AND_IS_WRONG: Final = frozenset(
    {
        Crossed.BINDS,
        Crossed.JAMS_AT_ONCE,
        Crossed.JAMS,
        Crossed.TIPS,
        Crossed.EDGES,
        Crossed.SERIES,
    }
)
"""Those that start, and are found out too late."""


@dataclass(frozen=True, slots=True)
class Crossing:
    """How a male and a female thread meet, with the figures behind it.

    Parameters
    ----------
    crossed : Crossed
        What comes of it.
    overlap : float
        How much of the female thread's depth the male one reaches; 1 in its own. [-]
    turns : float
        How far it runs before both flanks touch. [-]
    """

    crossed: Crossed
    overlap: float = 1.0
    turns: float = thread_pairs.MOST_TURNS


def _alike(one: Thread, other: Thread) -> bool:
    """Whether two threads are one, whatever their series is called."""
    return (
        math.isclose(one.diameter_m, other.diameter_m, rel_tol=_SAME_SIZE)
        and math.isclose(one.pitch_m, other.pitch_m, rel_tol=_SAME_SIZE)
        and one.form_angle_deg == other.form_angle_deg
        and one.left_hand == other.left_hand
        and one.tapered == other.tapered
    )


@lru_cache(maxsize=4096)
def cross(male: Thread, female: Thread) -> Crossing:
    """Judge a male thread in a female one.

    Parameters
    ----------
    male, female : Thread
        What goes in, and what it goes into; basic sizes, as their standards have them.

    Examples
    --------
    >>> from bareshell.units import known_thread
    >>> inch, metric = known_thread("3/8-24 UNF"), known_thread("M10x1")
    >>> cross(inch, metric).crossed.value, round(cross(inch, metric).turns)
    ('starts and jams after some turns', 5)
    >>> cross(metric, inch).crossed.value
    'binds in its first turn, where it starts at all'
    """
    if _alike(male, female):
        return Crossing(Crossed.SAME)
    if male.left_hand != female.left_hand:
        return Crossing(Crossed.OTHER_HAND)
    apart = abs(male.pitch_m - female.pitch_m) / female.pitch_m
    if male.tapered != female.tapered:
        like = apart <= _SAME_PITCH
        return Crossing(Crossed.TAPERED_LIKE if like else Crossed.TAPERED)
    overlap, turns = _geometry(male, female)
    return Crossing(_outcome(overlap, turns, apart, male, female), overlap, turns)


def _geometry(male: Thread, female: Thread) -> tuple[float, float]:
    mine, its = threads.FORM_OF[male.system], threads.FORM_OF[female.system]
    overlap = thread_pairs.thread_overlap(male.diameter_m, female.diameter_m, female.pitch_m, its)
    play = thread_pairs.flank_play(
        threads.pitch_diameter(male.diameter_m, male.pitch_m, mine),
        threads.pitch_diameter(female.diameter_m, female.pitch_m, its),
        threads.depths_of(its).flank_angle_rad,
    )
    return overlap, thread_pairs.turns_to_binding(male.pitch_m, female.pitch_m, play)


def _outcome(overlap: float, turns: float, apart: float, male: Thread, female: Thread) -> Crossed:
    if overlap <= _BARELY:
        return Crossed.DROPS_THROUGH
    if overlap > 1.0 + 1e-9 and turns <= 0.0 and apart > _SAME_PITCH:
        binds = overlap <= _TOO_LARGE and apart <= _LIKE_PITCH
        return Crossed.BINDS if binds else Crossed.TOO_LARGE
    if apart <= _SAME_PITCH:
        return _of_one_pitch(overlap, male, female)
    if turns >= female.diameter_m / female.pitch_m:
        return Crossed.TIPS
    if turns >= 1.0:
        return Crossed.JAMS
    return Crossed.JAMS_AT_ONCE if apart <= _LIKE_PITCH or turns > 0.0 else Crossed.OTHER_PITCH


def _of_one_pitch(overlap: float, male: Thread, female: Thread) -> Crossed:
    if overlap > 1.0 + (1.0 - _NEARLY_WHOLE):
        return Crossed.TOO_LARGE
    if overlap < _NEARLY_WHOLE:
        return Crossed.TIPS
    return Crossed.SERIES if male.form_angle_deg == female.form_angle_deg else Crossed.EDGES
