"""Two threads that are not the same: what happens when somebody tries.

The dangerous pairs are those that start. Each answer says which it is: drops through, runs on and
holds by its tips, starts and jams, binds in its first turn, or will not start; with the sum behind
it, on basic sizes.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import Final

from bareshell.calc import thread_pairs
from bareshell.calc.thread_crossing import STARTS_AND_IS_WRONG, Crossed, Crossing, cross
from bareshell.units.threads import Thread

__all__ = ["Meeting", "meet"]

_SOURCE: Final = "thread-crossing-practice"


@dataclass(frozen=True, slots=True)
class Meeting:
    """What comes of a male thread in a female one.

    Parameters
    ----------
    agrees : bool
        Whether they are the same thread.
    near_miss : bool
        Whether it starts, or looks right, and is wrong.
    words : str
        What happens, as a clause.
    arithmetic : str
        The sum behind it.
    source_id : str
        Where such a sum is from.
    """

    agrees: bool
    near_miss: bool = False
    words: str = ""
    arithmetic: str = ""
    source_id: str = _SOURCE


_WORDS: Final = {
    Crossed.OTHER_HAND: "it tightens the other way",
    Crossed.TAPERED_LIKE: (
        "one of the two is tapered: it wedges after a few turns, weeps, and can split the boss"
    ),
    Crossed.TAPERED: "one of the two is tapered and the pitch is another",
    Crossed.DROPS_THROUGH: "it drops through, or barely catches",
    Crossed.TOO_LARGE: "it does not start: it is too large",
    Crossed.OTHER_PITCH: "it does not run: the pitch is another",
    Crossed.BINDS: "it may start in a worn or countersunk hole, and binds in its first turn",
    Crossed.JAMS_AT_ONCE: "it starts, and jams within its first turn",
    Crossed.TIPS: "it runs right in and holds by the tips of its thread",
    Crossed.SERIES: "it runs in, and is another series: close in size, not the same",
}


@lru_cache(maxsize=4096)
def meet(male: Thread, female: Thread) -> Meeting:
    """Say what comes of a male thread in a female one.

    [S:thread-crossing-practice]

    Parameters
    ----------
    male, female : Thread
        What goes in, and what it goes into.

    Examples
    --------
    >>> from bareshell.units import known_thread
    >>> meet(known_thread("3/8-24 UNF"), known_thread("M10x1")).words
    'it starts, and jams after about 5 turns'
    >>> meet(known_thread("M12x1.25"), known_thread("1/2-20 UNF")).words
    'it runs right in and holds by the tips of its thread'
    """
    crossing = cross(male, female)
    crossed = crossing.crossed
    if crossed is Crossed.SAME:
        return Meeting(agrees=True)
    near = crossed in STARTS_AND_IS_WRONG or crossed is Crossed.TAPERED_LIKE
    return Meeting(False, near, _told(crossing, male, female), _sum(crossing, male, female))


def _told(crossing: Crossing, male: Thread, female: Thread) -> str:
    if crossing.crossed is Crossed.JAMS:
        return f"it starts, and jams after about {crossing.turns:.0f} turns"
    if crossing.crossed is Crossed.EDGES:
        mine, its = male.form_angle_deg, female.form_angle_deg
        return f"it runs in; flanks of {mine:g} and {its:g} degrees bear on their edges"
    return _WORDS[crossing.crossed]


def _sum(crossing: Crossing, male: Thread, female: Thread) -> str:
    if crossing.crossed is Crossed.OTHER_HAND:
        return f"{male} against {female}"
    if crossing.crossed in (Crossed.TAPERED, Crossed.TAPERED_LIKE):
        return f"{male} in {female}"
    overlap, turns = crossing.overlap, crossing.turns
    step = abs(male.pitch_m - female.pitch_m) * 1000
    depth = f"reaches {max(overlap, 0.0):.0%} of the thread's depth"
    if overlap > 1.0:
        depth = f"is {(male.diameter_m - female.diameter_m) * 1000:.2f} mm larger outside"
    pitches = f"pitch {male.pitch_m * 1000:.4g} against {female.pitch_m * 1000:.4g} mm"
    runs = (
        "" if step < 1e-3 or turns >= thread_pairs.MOST_TURNS else f", play for {turns:.1f} turns"
    )
    return f"{male} in {female}: {depth}; {pitches}{runs}"
