"""What may stand in for a part that is no bolt and no pin: judged by what differs between the two.

A field that agrees needs no word. Each that differs has a judgement here where a workshop has one:
a hose that is longer, a pipe nut that goes in by an adaptor, a fuse that is smaller. Where it has
none, what the fit check found stands as it is, and only the right one will do. Rules without a
source of their own are common practice [S:trade-practice].
"""

from __future__ import annotations

from collections.abc import Callable
from types import MappingProxyType
from typing import Final

from bareshell.model.duty import Duty, LoadPath
from bareshell.model.spec import CableSpec, HoseSpec, Spec
from bareshell.parts.fit import Fit, FitLine
from bareshell.parts.stand_in_electrics import (
    amps_line,
    area_line,
    colour_line,
    volts_line,
    watts_line,
    wire_length_line,
)
from bareshell.parts.stand_in_parts import Differing, Enough, StandInLine, line, millimetres

__all__ = ["lines_of_kind", "relied_on"]

_PATHS: Final = MappingProxyType(
    {
        "union": LoadPath.FUEL,
        "pipe": LoadPath.FUEL,
        "hose": LoadPath.FUEL,
        "caliper": LoadPath.CALIPER,
        "wheel cylinder": LoadPath.CALIPER,
        "master cylinder": LoadPath.PEDAL,
        "cylinder": LoadPath.PEDAL,
        "rubber": LoadPath.BODY,
        "glass": LoadPath.BODY,
        "goods": LoadPath.BODY,
        "electrical": LoadPath.WIRING,
    }
)
"""What gives way when a part of a kind does, where nobody said: a pipe holds fluid."""


def relied_on(wanted: Spec, duty: Duty | None) -> Duty | None:
    """Say what a part is relied on for: as it was said, or else what its kind is always for.

    Examples
    --------
    >>> from bareshell.model.spec import ElectricalSpec
    >>> relied_on(ElectricalSpec(), None).load_path.value
    'wiring or lamp'
    """
    if (duty is None or duty.load_path is None) and wanted.kind in _PATHS:
        return Duty(_PATHS[wanted.kind], duty.gate if duty else "")
    return duty


def lines_of_kind(wanted: Spec, offered: Spec, fit: Fit) -> list[StandInLine]:
    """Judge every field in which a part differs from the one that is wanted.

    Parameters
    ----------
    wanted, offered : Spec
        The right one, and what lies here, laid the way round in which it fits best.
    fit : Fit
        What the fit check found of the two.
    """
    judged = []
    if wanted.kind in _NEVER and fit.lines and wanted.kind == offered.kind:
        judged.append(line("kind", Enough.MIND, _NEVER[wanted.kind]))
    for one in fit.lines:
        if one.state == "agrees":
            continue
        known = Differing(wanted, offered, one)
        rule = _RULES.get((wanted.kind, one.field))
        found = rule(known) if rule is not None and one.found else None
        judged.append(found or _as_found(one))
    return judged


def _as_found(one: FitLine) -> StandInLine:
    """What the fit check found, where no more is to be said of it."""
    state = Enough.NOT_ENOUGH if one.state == "differs" else Enough.NOT_KNOWN
    return line(
        one.label, state, one.words.rstrip("."), one.arithmetic, one.source_id or "trade-practice"
    )


_OTHER_BRAKE: Final = "another bore, hand or port makes another brake of it: nothing stands in here"
_NEVER: Final = MappingProxyType(
    {
        "caliper": _OTHER_BRAKE,
        "wheel cylinder": _OTHER_BRAKE,
        "master cylinder": "another bore, port or push rod makes another pedal of it: "
        "nothing stands in here",
        "cylinder": "another bore or port makes another pedal of it: nothing stands in here",
    }
)


# --- split pins ------------------------------------------------------------------------------

ONE_SIZE_DOWN: Final = 0.75
"""A split pin of the next size down has at least so much of the right one's diameter. [-]"""


def _split_pin(known: Differing) -> StandInLine:
    mine, its = known.has, known.wants
    if mine > its:
        words = "too thick: never drill the hole out for it, that weakens what it is through"
        return known.says(Enough.NOT_ENOUGH, words, known.line.arithmetic)
    sum_ = f"({millimetres(mine)} / {millimetres(its)})\u00b2 = {(mine / its) ** 2:.0%} of its wire"
    if mine >= ONE_SIZE_DOWN * its:
        words = "thin: it works in its hole and wears through, so look at it each time you pass"
        return known.says(Enough.FOR_NOW, words, sum_)
    words = "too thin: it is shaken through or sheared, and then nothing holds the nut or pin"
    return known.says(Enough.NOT_ENOUGH, words, sum_)


def _legs(known: Differing) -> StandInLine:
    words = f"{millimetres(known.wants - known.has)} short: its legs cannot be bent round"
    return known.says(Enough.NOT_ENOUGH, words, known.line.arithmetic)


# --- pipes and hoses -------------------------------------------------------------------------


def _by_adaptor(known: Differing) -> StandInLine | None:
    if known.line.state != "differs":
        return None
    words = (
        f"never straight in ({known.line.words}); only by an adaptor made for it, "
        f"{known.has} to {known.wants}: one more joint to be proved dry, in reach of a spanner"
    )
    return known.says(
        Enough.FOR_NOW, words, known.line.arithmetic, known.line.source_id or "trade-practice"
    )


def _nut_length(known: Differing) -> StandInLine:
    words = "try it without the pipe: it must go in deeper than the flare, by five turns at least"
    return known.says(Enough.FOR_NOW, words, known.line.arithmetic)


MOST_OVER: Final = 0.15
"""How much longer than wanted a hose with ends may be before it finds something to rub on. [-]"""


def _free_length(known: Differing) -> StandInLine:
    over, sum_ = known.has - known.wants, known.line.arithmetic
    if over < 0:
        words = f"{millimetres(-over)} short: it pulls tight at full droop or full lock"
        return known.says(Enough.NOT_ENOUGH, words, sum_)
    if _is_plain_hose(known.wanted) and _is_plain_hose(known.offered):
        if "bend" in f"{getattr(known.wanted, 'shape', '')}".casefold():
            words = (
                f"{millimetres(over)} more: cut its straight end, its bends come where they were"
            )
            return known.says(Enough.MIND, words, sum_)
        words = f"cut {millimetres(over)} off, square, with a knife"
        return known.says(Enough.FOR_GOOD, words, sum_)
    sum_ = f"{millimetres(over)} over {millimetres(known.wants)} = {over / known.wants:.0%}"
    if over > MOST_OVER * known.wants:
        words = f"{over / known.wants:.0%} too long: it finds something to rub on, or kinks"
        return known.says(Enough.NOT_ENOUGH, words, sum_)
    words = (
        "longer: to lay pipes and brackets by; try it at full lock, full bump and full droop, "
        "and look for what it touches"
    )
    return known.says(Enough.FOR_NOW, words, sum_)


def _is_plain_hose(spec: Spec) -> bool:
    """Whether a hose is cut from a length: no thread or fitting at either end."""
    ends = ("thread_a", "thread_b", "seat_a", "seat_b", "end_a", "end_b")
    return isinstance(spec, HoseSpec) and not any(getattr(spec, name) for name in ends)


def _hose_wall(known: Differing) -> StandInLine | None:
    if known.has < known.wants:
        return None
    words = "thicker: stiffer in a bend, and it wants a larger clip"
    return known.says(Enough.MIND, words, known.line.arithmetic)


def _carries(known: Differing) -> StandInLine:
    words = f"made for {known.has}: {known.wants} swells, hardens or dissolves it"
    return known.says(Enough.NOT_ENOUGH, words)


def _clocking(known: Differing) -> StandInLine:
    words = f"{known.line.words}: tightened so, it stays twisted and works its ends loose"
    return known.says(Enough.NOT_ENOUGH, words, known.line.arithmetic)


def _pipe_wall(known: Differing) -> StandInLine | None:
    if known.has < known.wants:
        return None
    words = "thicker wall, smaller bore: harder to flare, slower to bleed"
    return known.says(Enough.MIND, words, known.line.arithmetic)


def _pipe_length(known: Differing) -> StandInLine:
    short = millimetres(known.wants - known.has)
    words = f"{short} short: a joiner in the middle is one more joint to prove, and to reach"
    return known.says(Enough.NOT_ENOUGH, words, known.line.arithmetic)


_PIPES: Final = ("copper-nickel", "stainless", "steel", "copper")


def _pipe_metal(known: Differing) -> StandInLine | None:
    mine, its = (_metal(str(value)) for value in (known.has, known.wants))
    if not mine or not its:
        return None
    if mine == its:
        return known.says(Enough.FOR_GOOD, f"{mine} by both names")
    if mine == "copper":
        words = "plain copper hardens with shaking and cracks: clips close together do not cure it"
        return known.says(Enough.NOT_ENOUGH, words)
    if mine == "stainless":
        words = "stainless flares badly by hand: a seat that weeps is found only under pressure"
        return known.says(Enough.FOR_NOW, words)
    words = (
        "it does not rust and is softer: clip it closer, and tighten its nuts by its own figure"
        if mine == "copper-nickel"
        else "it rusts where the other did not: coat it before it goes in"
    )
    return known.says(Enough.MIND, words)


def _metal(words: str) -> str:
    plain = words.casefold().replace(" ", "-")
    if "nickel" in plain or "cupro" in plain:
        return "copper-nickel"
    return next((one for one in _PIPES if one in plain), "")


def _flare(known: Differing) -> StandInLine:
    words = "cut it off and flare it anew as the seat asks: shorter by each flare"
    return known.says(Enough.MIND, words)


# --- cylinders -------------------------------------------------------------------------------


def _bore(known: Differing) -> StandInLine:
    share = (known.has / known.wants) ** 2
    sum_ = (
        f"({millimetres(known.has)} / {millimetres(known.wants)})\u00b2 = {share:.0%} of its area"
    )
    if known.wanted.kind in ("master cylinder", "cylinder"):
        words = f"{1 / share:.0%} of the pressure for the same foot, {share:.0%} of the fluid moved"
    else:
        words = f"{share:.0%} of the force for the same pressure, and of the fluid it takes"
    return known.says(
        Enough.NOT_ENOUGH,
        f"{words}: another balance, to be reckoned on the brakes page first",
        sum_,
        "first-principles",
    )


# --- bearings and seals ----------------------------------------------------------------------


def _number(known: Differing) -> StandInLine | None:
    sizes = ("inside_m", "outside_m", "width_m")
    pairs = [(getattr(known.wanted, name), getattr(known.offered, name)) for name in sizes]
    if any(mine is None or its is None for mine, its in pairs):
        words = "another number: measure inside, outside and width, and compare what is behind them"
        return known.says(Enough.NOT_KNOWN, words)
    words = "another number of the same sizes: compare its seals and its clearance, and its load"
    return known.says(Enough.MIND, words)


NARROWEST: Final = 0.7
"""A narrower seal still sits square in its housing from so much of the width. [-]"""


def _seal_width(known: Differing) -> StandInLine:
    if known.has > known.wants:
        words = "wider: measure how deep its housing is, and that it clears what turns behind"
        return known.says(Enough.NOT_KNOWN, words, known.line.arithmetic)
    if known.has < NARROWEST * known.wants:
        words = "too narrow to stay square in its housing"
        return known.says(Enough.NOT_ENOUGH, words, known.line.arithmetic)
    words = "narrower: press it in square, its lip off the old one's groove"
    return known.says(Enough.MIND, words, known.line.arithmetic)


def _lips(known: Differing) -> StandInLine:
    if known.has < known.wants:
        words = "without its second lip dirt reaches the one that seals"
        return known.says(Enough.FOR_NOW, words)
    return known.says(Enough.MIND, "a lip more: grease between them, or it runs dry")


_RUBBERS: Final = (
    ("EPDM", ("epdm",)),
    ("nitrile", ("nitrile", "nbr", "buna")),
    ("fluorocarbon", ("fkm", "fluoro", "fpm")),
    ("silicone", ("silicone", "vmq")),
    ("natural rubber", ("natural",)),
)


def _rubber(words: object) -> str:
    plain = str(words).casefold()
    return next((name for name, marks in _RUBBERS if any(m in plain for m in marks)), "")


def _seal_material(known: Differing) -> StandInLine | None:
    mine, its = _rubber(known.has), _rubber(known.wants)
    if not mine or not its:
        return None
    if mine == its:
        return known.says(Enough.FOR_GOOD, f"{mine} by both names")
    if (its, mine) == ("nitrile", "fluorocarbon"):
        return known.says(
            Enough.MIND, "fluorocarbon takes the oil and more heat; stiff in the cold"
        )
    words = f"{mine} for {its}: what one stands, the other swells in, and that shows only later"
    return known.says(Enough.NOT_ENOUGH, words)


# --- cables ----------------------------------------------------------------------------------

ADJUSTER_M: Final = 0.012
"""Slack that the adjuster of a control cable takes up. [m]"""

LOOPS: Final = 0.15
"""How much longer an outer may be and still lie in a wide bend. [-]"""


def _inner(known: Differing) -> StandInLine | None:
    over = _free_inner(known.offered), _free_inner(known.wanted)
    if over[0] is None or over[1] is None:
        return None
    slack = over[0] - over[1]
    sum_ = (
        f"inner less outer: {millimetres(over[0])} against {millimetres(over[1])}, "
        f"{millimetres(slack)} of slack"
    )
    if slack < -0.002:
        words = "pulls tight: what it works is held half on"
        return known.says(Enough.NOT_ENOUGH, words, sum_)
    if slack > ADJUSTER_M:
        words = f"slack beyond the {millimetres(ADJUSTER_M)} that an adjuster takes up"
        return known.says(Enough.NOT_ENOUGH, words, sum_)
    words = "with the adjuster run out: see that it still lets go fully"
    return known.says(Enough.FOR_NOW, words, sum_)


def _free_inner(spec: Spec) -> float | None:
    if not isinstance(spec, CableSpec) or None in (spec.inner_length_m, spec.outer_length_m):
        return None
    return (spec.inner_length_m or 0.0) - (spec.outer_length_m or 0.0)


def _outer(known: Differing) -> StandInLine:
    over = known.has - known.wants
    sum_ = f"{millimetres(over)} over {millimetres(known.wants)} = {over / known.wants:.0%}"
    if over < 0:
        words = f"{millimetres(-over)} short: it pulls straight and kinks at its ends"
        return known.says(Enough.NOT_ENOUGH, words, known.line.arithmetic)
    if over > LOOPS * known.wants:
        words = "so much longer that it loops tightly: the inner drags"
        return known.says(Enough.NOT_ENOUGH, words, sum_)
    return known.says(Enough.FOR_NOW, "longer: lay it in one wide bend, off the exhaust", sum_)


# --- rubber, glass, goods --------------------------------------------------------------------

_HOLDS_GLASS: Final = ("glass", "screen", "window", "glazing")


def _profile(known: Differing) -> StandInLine:
    both = f"{known.wants} {known.has}".casefold()
    if any(word in both for word in _HOLDS_GLASS):
        words = "another section holds another glass: it leaks, or lets it go"
        return known.says(Enough.NOT_ENOUGH, words)
    words = (
        "another section, unless the two cut ends cover each other: it keeps the worst of the "
        "weather out, and a door may not shut on it"
    )
    return known.says(Enough.FOR_NOW, words)


def _rubber_length(known: Differing) -> StandInLine:
    short, sum_ = known.wants - known.has, known.line.arithmetic
    if known.has < 0.5 * known.wants:
        return known.says(Enough.NOT_ENOUGH, f"{millimetres(short)} short", sum_)
    words = (
        f"{millimetres(short)} short: a second piece, its butt joints glued, the lowest draining"
    )
    return known.says(Enough.FOR_NOW, words, sum_)


def _corners(known: Differing) -> StandInLine:
    words = "corners made another way let water in sooner, and sit less square"
    return known.says(Enough.FOR_NOW, words)


def _tint(known: Differing) -> StandInLine:
    words = "it shows beside the others; how dark it may be is for the law where you drive"
    return known.says(Enough.MIND, words)


def _heater(known: Differing) -> StandInLine:
    words = f"heater {known.has} instead of {known.wants}: leave its wires insulated, and say so"
    return known.says(Enough.FOR_NOW, words)


def _warmer(known: Differing) -> StandInLine:
    words = (
        f"not below {known.line.found}: warm the garage and the metal first, and keep both warm "
        "until it has cured"
    )
    return known.says(Enough.MIND, words)


def _other_goods(known: Differing) -> StandInLine:
    words = (
        f"'{known.has}' against '{known.wants}': read on both what it sticks to, what it is "
        "thinned with and what may go over it"
    )
    return known.says(Enough.NOT_KNOWN, words)


def _past(known: Differing) -> StandInLine:
    words = (
        f"{known.line.words}: never brake fluid, nor what bonds glass or metal; the rest only "
        "after a spot on scrap"
    )
    return known.says(Enough.NOT_ENOUGH, words)


Rule = Callable[[Differing], StandInLine | None]
_BORES: Final = {
    (kind, name): _bore
    for kind in ("caliper", "wheel cylinder", "master cylinder", "cylinder")
    for name in ("bore_m", "piston_m")
}
_RULES: Final[dict[tuple[str, str], Rule]] = {
    ("split pin", "diameter_m"): _split_pin,
    ("split pin", "length_m"): _legs,
    ("union", "thread"): _by_adaptor,
    ("union", "nut_length_m"): _nut_length,
    ("hose", "thread_a"): _by_adaptor,
    ("hose", "thread_b"): _by_adaptor,
    ("hose", "free_length_m"): _free_length,
    ("hose", "wall_m"): _hose_wall,
    ("hose", "carries"): _carries,
    ("hose", "clocking_deg"): _clocking,
    ("pipe", "wall_m"): _pipe_wall,
    ("pipe", "length_m"): _pipe_length,
    ("pipe", "material"): _pipe_metal,
    ("pipe", "flare"): _flare,
    **_BORES,
    ("bearing", "number"): _number,
    ("seal", "width_m"): _seal_width,
    ("seal", "lips"): _lips,
    ("seal", "material"): _seal_material,
    ("cable", "inner_length_m"): _inner,
    ("cable", "outer_length_m"): _outer,
    ("rubber", "profile"): _profile,
    ("rubber", "length_m"): _rubber_length,
    ("rubber", "corners"): _corners,
    ("glass", "tint"): _tint,
    ("glass", "heater"): _heater,
    ("goods", "what"): _other_goods,
    ("goods", "lowest_temperature_c"): _warmer,
    ("goods", "use_by"): _past,
    ("electrical", "amps"): amps_line,
    ("electrical", "area_mm2"): area_line,
    ("electrical", "volts"): volts_line,
    ("electrical", "watts"): watts_line,
    ("electrical", "length_m"): wire_length_line,
    ("electrical", "colour"): colour_line,
}
