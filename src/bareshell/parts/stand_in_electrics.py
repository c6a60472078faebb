"""What may stand in on a circuit: a fuse never larger, a wire never thinner, a lamp never hotter.

The fuse protects the wire, so it follows the wire and not what hangs on it. Common practice
[S:trade-practice].
"""

from __future__ import annotations

from typing import Final

from bareshell.parts.rules import is_fuse
from bareshell.parts.stand_in_parts import Differing, Enough, StandInLine, millimetres

__all__ = ["amps_line", "area_line", "colour_line", "volts_line", "watts_line", "wire_length_line"]


def _what(known: Differing) -> str:
    return str(getattr(known.wanted, "what", "") or "").casefold()


def amps_line(known: Differing) -> StandInLine | None:
    """Judge its amps: of a fuse, never more."""
    sum_ = f"{known.has:g} A against {known.wants:g} A = {known.has / known.wants:.0%}"
    if not is_fuse(known.wanted):
        words = "it bears less than the circuit draws: it heats at its contacts"
        return known.says(Enough.NOT_ENOUGH, words, sum_)
    if known.has > known.wants:
        words = "a larger fuse is never the answer: the wire burns before it blows"
        return known.says(Enough.NOT_ENOUGH, words, sum_)
    words = "smaller: it may blow with everything on, and nothing burns for it"
    return known.says(Enough.FOR_NOW, words, sum_)


def area_line(known: Differing) -> StandInLine:
    """Judge a thinner wire."""
    share = known.has / known.wants
    words = "thinner: it drops more volts and heats, and the fuse was chosen for the other"
    sum_ = (
        f"{known.has:g} of {known.wants:g} mm\u00b2 = {share:.0%} of its copper, "
        f"{1 / share:.2g} times its resistance"
    )
    return known.says(Enough.NOT_ENOUGH, words, sum_, "first-principles")


_RATED: Final = ("fuse", "switch", "connector", "cable", "wire", "terminal", "loom")


def volts_line(known: Differing) -> StandInLine:
    """Judge another voltage."""
    sum_ = f"{known.has:g} V against {known.wants:g} V"
    if any(word in _what(known) for word in _RATED) and known.has > known.wants:
        words = "rated for more volts than the car has"
        return known.says(Enough.FOR_GOOD, words, sum_)
    words = "another voltage: a lamp or coil burns out, or does not pull in"
    return known.says(Enough.NOT_ENOUGH, words, sum_)


def watts_line(known: Differing) -> StandInLine:
    """Judge another lamp."""
    sum_ = f"{known.has:g} W against {known.wants:g} W = {known.has / known.wants:.0%}"
    if known.has > known.wants:
        words = "hotter: its holder, lens, wire and switch were made for less"
        return known.says(Enough.NOT_ENOUGH, words, sum_)
    words = "dimmer, and a flasher unit may count it as out: what a lamp must give is law"
    return known.says(Enough.FOR_NOW, words, sum_)


def wire_length_line(known: Differing) -> StandInLine:
    """Judge a wire that is too short."""
    short = millimetres(known.wants - known.has)
    words = f"{short} short: a crimped and sleeved joint, outside the thick of the loom, noted"
    return known.says(Enough.FOR_NOW, words, known.line.arithmetic)


def colour_line(known: Differing) -> StandInLine | None:
    """Judge a wire of another colour; None of anything else."""
    if not any(word in _what(known) for word in ("cable", "wire")):
        return None
    words = f"sleeve both ends {known.wants} and note it: whoever traces it next goes by colour"
    return known.says(Enough.MIND, words)
