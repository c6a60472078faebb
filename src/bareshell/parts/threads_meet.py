"""Two threads that are not the same: what happens when somebody tries.

The dangerous pairs are those that start. Each answer says which it is: drops through, runs on and
holds by its tips, starts and jams, binds in its first turn, or will not start; with the sum behind
it, on basic sizes.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import Final

from bareshell.calc import thread_pairs, threads
from bareshell.units.threads import Thread

__all__ = ["Meeting", "meet"]

_BARELY: Final = 0.15
_NEARLY_WHOLE: Final = 0.9
_TOO_LARGE: Final = 1.5
_SAME_PITCH: Final = 0.002
_LIKE_PITCH: Final = 0.12
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
    if male == female:
        return Meeting(agrees=True)
    if male.left_hand != female.left_hand:
        return Meeting(
            agrees=False,
            words="it tightens the other way",
            arithmetic=f"{male} against {female}",
        )
    if male.tapered != female.tapered:
        return _tapered(male, female)
    overlap, turns = _geometry(male, female)
    apart = abs(male.pitch_m - female.pitch_m) / female.pitch_m
    full = female.diameter_m / female.pitch_m
    near, words = _told(overlap, turns, apart, full, male, female)
    return Meeting(False, near, words, _sum(male, female, overlap, turns))


def _geometry(male: Thread, female: Thread) -> tuple[float, float]:
    mine, its = threads.FORM_OF[male.system], threads.FORM_OF[female.system]
    overlap = thread_pairs.thread_overlap(male.diameter_m, female.diameter_m, female.pitch_m, its)
    play = thread_pairs.flank_play(
        threads.pitch_diameter(male.diameter_m, male.pitch_m, mine),
        threads.pitch_diameter(female.diameter_m, female.pitch_m, its),
        threads.depths_of(its).flank_angle_rad,
    )
    return overlap, thread_pairs.turns_to_binding(male.pitch_m, female.pitch_m, play)


def _told(
    overlap: float, turns: float, apart: float, full: float, male: Thread, female: Thread
) -> tuple[bool, str]:
    if overlap <= _BARELY:
        return False, "it drops through, or barely catches"
    if overlap > 1.0 + 1e-9 and turns <= 0.0 and apart > _SAME_PITCH:
        if overlap <= _TOO_LARGE and apart <= _LIKE_PITCH:
            return True, "it may start in a worn or countersunk hole, and binds in its first turn"
        return False, "it does not start: it is too large"
    if apart <= _SAME_PITCH:
        return _same_pitch(overlap, male, female)
    if turns >= full:
        return True, "it runs right in and holds by the tips of its thread"
    if turns >= 1.0:
        return True, f"it starts, and jams after about {turns:.0f} turns"
    if apart <= _LIKE_PITCH or turns > 0.0:
        return True, "it starts, and jams within its first turn"
    return False, "it does not run: the pitch is another"


def _same_pitch(overlap: float, male: Thread, female: Thread) -> tuple[bool, str]:
    if overlap > 1.0 + (1.0 - _NEARLY_WHOLE):
        return False, "it does not start: it is too large"
    if overlap < _NEARLY_WHOLE:
        return True, "it runs right in and holds by the tips of its thread"
    mine, its = male.form_angle_deg, female.form_angle_deg
    if mine != its:
        return True, f"it runs in; flanks of {mine:g} and {its:g} degrees bear on their edges"
    return True, "it runs in, and is another series: close in size, not the same"


def _sum(male: Thread, female: Thread, overlap: float, turns: float) -> str:
    step = abs(male.pitch_m - female.pitch_m) * 1000
    depth = f"reaches {max(overlap, 0.0):.0%} of the thread's depth"
    if overlap > 1.0:
        depth = f"is {(male.diameter_m - female.diameter_m) * 1000:.2f} mm larger outside"
    pitches = f"pitch {male.pitch_m * 1000:.4g} against {female.pitch_m * 1000:.4g} mm"
    runs = (
        "" if step < 1e-3 or turns >= thread_pairs.MOST_TURNS else f", play for {turns:.1f} turns"
    )
    return f"{male} in {female}: {depth}; {pitches}{runs}"


def _tapered(male: Thread, female: Thread) -> Meeting:
    like = abs(male.pitch_m - female.pitch_m) / female.pitch_m <= _SAME_PITCH
    words = (
        "one of the two is tapered: it wedges after a few turns, weeps, and can split the boss"
        if like
        else "one of the two is tapered and the pitch is another"
    )
    return Meeting(False, like, words, f"{male} in {female}")
