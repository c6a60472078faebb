"""One field against one field: the same judgement whether one pair is looked at or six million.

`judge` explains, `agrees` only decides; both go through the same comparisons, so a list and the
page that opens from it can never disagree.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import date
from functools import lru_cache
from typing import Final, Literal, cast

from bareshell.calc.strength import Strength, strength_of
from bareshell.errors import BadInput
from bareshell.parts.rules import FieldRule
from bareshell.parts.threads_meet import Meeting, meet
from bareshell.units import known_thread, parse_length, parse_mass, parse_volume

__all__ = [
    "AGREES",
    "DIFFERS",
    "UNKNOWN",
    "Verdict",
    "allowance",
    "figure_words",
    "in_words",
    "judge",
    "outcome",
]

Verdict = Literal[0, 1, 2]
DIFFERS: Final = 0
UNKNOWN: Final = 1
AGREES: Final = 2

_SLACK: Final = 1e-9
"""So that 19.5 within half of 20 is not lost to the last digit of a float."""

_MEASURES: Final = (("volume", parse_volume), ("mass", parse_mass), ("length", parse_length))

_COUNT: Final = re.compile(r"(\d+)\s*(?:x\s)?\s*([a-z][a-z ]*?)s?")
"""So many of something: two sheets, 3 x tube."""

# Seats and flares that belong together; other words are compared as they stand.
_SEATS: Final = (
    ("banjo", r"banjo"),
    ("flat, with a washer", r"flat|washer|crush|gasket"),
    ("37 degree cone", r"37|jic|\ban\b"),
    ("double flare, 45 degrees", r"double|concave|inverted|sae|\b45\b|funnel"),
    ("bubble flare", r"bubble|convex|\bdin\b|\biso\b"),
    ("cone", r"cone|conical|60"),
    ("ball", r"\bball|olive|nipple"),
)


@dataclass(frozen=True, slots=True)
class Judged:
    """What came of one field.

    Parameters
    ----------
    verdict : int
        0 differs, 1 not known, 2 agrees.
    words : str
        Why, as a clause; empty where it agrees and nothing need be said.
    near_miss : bool
        Whether it is the kind of difference that is found out too late.
    arithmetic : str
        The sum, where there is one.
    source_id : str
        Where the rule is from.
    """

    verdict: Verdict
    words: str = ""
    near_miss: bool = False
    arithmetic: str = ""
    source_id: str = ""


def allowance(rule: FieldRule, tolerance: float | None) -> float:
    """How far a size may be off: the tolerance, or else how closely it is read.

    Examples
    --------
    >>> from bareshell.parts.rules import RULES
    >>> allowance(RULES["pin"][0], None), allowance(RULES["pin"][0], 0.0001)
    (5e-05, 0.0001)
    """
    return rule.read_to_m if tolerance is None else tolerance


def in_words(text: str) -> str:
    """Bring words to one spelling: case, spaces and a closing point do not matter.

    Examples
    --------
    >>> in_words("  Flat  head. ")
    'flat head'
    """
    return " ".join(text.casefold().replace("-", " ").split()).rstrip(".")


def figure_words(rule: FieldRule, value: float) -> str:
    """Say a figure as it is read at the bench.

    Examples
    --------
    >>> from bareshell.parts.rules import RULES
    >>> figure_words(RULES["pin"][0], 0.00794)
    '7.94 mm'
    """
    if rule.name.endswith("_m"):
        return f"{value * 1000:.5g} mm"
    unit = {"clocking_deg": " deg", "lowest_temperature_c": " \N{DEGREE SIGN}C"}
    return f"{value:g}{unit.get(rule.name, '')}"


@lru_cache(maxsize=4096)
def _seat(words: str) -> str:
    plain = in_words(words)
    found = [name for name, pattern in _SEATS if re.search(pattern, plain)]
    return found[0] if len(found) == 1 else ""


def outcome(
    rule: FieldRule, wanted: object, found: object, allowed: float, *, female: bool = False
) -> Verdict:
    """Decide one field; ``wanted`` and ``found`` are both known.

    Parameters
    ----------
    rule : FieldRule
        How it is compared.
    wanted, found : object
        Both values.
    allowed : float
        How far a size may be off.
    female : bool
        Whether what was found is the female thread of the two.
    """
    match rule.compare:
        case "size" | "at least" | "at most":
            return _outcome_of_figures(rule, cast("float", wanted), cast("float", found), allowed)
        case "equal":
            return AGREES if wanted == found else DIFFERS
        case "noted" | "not past":
            return AGREES
        case _:
            return _outcome_of_words(rule, str(wanted), str(found), female=female)


def _outcome_of_figures(rule: FieldRule, wanted: float, found: float, allowed: float) -> Verdict:
    by = found - wanted
    enough = rule.compare == "at most" or by >= -allowed - _SLACK
    no_more = rule.compare == "at least" or by <= allowed + _SLACK
    return AGREES if enough and no_more else DIFFERS


def _outcome_of_words(rule: FieldRule, wanted: str, found: str, *, female: bool) -> Verdict:
    same = in_words(wanted) == in_words(found)
    match rule.compare:
        case "thread":
            met = _met(wanted, found, female=female)
            if met is None:
                return AGREES if same else UNKNOWN
            return AGREES if met.agrees else DIFFERS
        case "seat":
            mine, its = _seat(wanted), _seat(found)
            if same or (mine and mine == its):
                return AGREES
            return DIFFERS if mine and its else UNKNOWN
        case "grade":
            return AGREES if same else _outcome_of_grades(wanted, found)
        case "choice":
            return AGREES if same else DIFFERS
        case "amount":
            return AGREES if same else _outcome_of_amounts(wanted, found)
        case _:
            return AGREES if same else UNKNOWN


@lru_cache(maxsize=4096)
def _met(wanted: str, found: str, *, female: bool) -> Meeting | None:
    needed, have = known_thread(wanted), known_thread(found)
    if needed is None or have is None:
        return None
    return meet(needed, have) if female else meet(have, needed)


@lru_cache(maxsize=1024)
def _amount(text: str) -> tuple[str, float] | None:
    """Read how much there is, and in what it is measured; None when it is no amount."""
    for measure, parse in _MEASURES:
        try:
            return measure, parse(text, "amount")
        except BadInput:
            continue
    count = re.fullmatch(
        r"\s*(\d+)\s*(?:x|\N{MULTIPLICATION SIGN})?\s*([a-z][a-z ]*?)s?\s*", text, re.IGNORECASE
    )
    return (count[2].casefold(), float(count[1])) if count else None


def _outcome_of_amounts(wanted: str, found: str) -> Verdict:
    mine, its = _amount(wanted), _amount(found)
    if mine is None or its is None or mine[0] != its[0]:
        return UNKNOWN
    return AGREES if its[1] >= mine[1] - _SLACK else DIFFERS


@lru_cache(maxsize=1024)
def _strength(grade: str) -> Strength | None:
    try:
        return strength_of(grade, 0.01)
    except BadInput:
        return None


def _outcome_of_grades(wanted: str, found: str) -> Verdict:
    mine, its = _strength(wanted), _strength(found)
    if mine is None or its is None:
        return UNKNOWN
    return AGREES if mine == its else DIFFERS


def _told_grades(wanted: str, found: str) -> Judged:
    mine, its = _strength(wanted), _strength(found)
    if mine is None or its is None:
        odd = wanted if mine is None else found
        return Judged(UNKNOWN, f"'{odd}' promises no strength that is known here: read the head")
    proofs = f"proof {its.proof_pa / 1e6:.0f} against {mine.proof_pa / 1e6:.0f} MPa"
    if its.stainless != mine.stainless:
        return Judged(DIFFERS, "one of the two is stainless", True, proofs, its.source_id)
    words = "weaker than wanted" if its.proof_pa < mine.proof_pa else "stronger than wanted"
    return Judged(DIFFERS, words, its.proof_pa < mine.proof_pa, proofs, its.source_id)


def judge(
    rule: FieldRule,
    wanted: object,
    found: object,
    tolerance: float | None,
    *,
    female: bool = False,
    today: date | None = None,
) -> Judged:
    """Judge one field and say why.

    Parameters
    ----------
    rule : FieldRule
        How it is compared.
    wanted, found : object
        Both values; None is not known.
    tolerance : float or None
        What was allowed, if anybody said.
    female : bool
        Whether what was found is the female thread of the two.
    today : date or None
        The day on which something may be past its use.

    Examples
    --------
    >>> from bareshell.parts.rules import RULES
    >>> judge(RULES["pin"][1], 0.022, 0.018, None).words
    '4 mm short'
    """
    if rule.compare == "not past":
        return _not_past(found, today)
    if wanted is None or rule.compare == "noted":
        differs = wanted is not None and found is not None and wanted != found
        return Judged(AGREES, "another one" if differs else "")
    if found is None:
        return Judged(UNKNOWN, rule.ask or "measure it")
    allowed = allowance(rule, tolerance)
    verdict = outcome(rule, wanted, found, allowed, female=female)
    if isinstance(wanted, int | float) and isinstance(found, int | float):
        return _told_figure(rule, verdict, wanted, found, tolerance)
    return _told_words(rule, verdict, str(wanted), str(found), female=female)


def _not_past(found: object, today: date | None) -> Judged:
    if not isinstance(found, date) or today is None or found >= today:
        return Judged(AGREES)
    return Judged(
        DIFFERS,
        f"past its day by {(today - found).days} days",
        near_miss=True,
        source_id="trade-practice",
    )


def _told_figure(
    rule: FieldRule, verdict: Verdict, wanted: float, found: float, tolerance: float | None
) -> Judged:
    allowed = allowance(rule, tolerance)
    by = found - wanted
    size = figure_words(rule, abs(by))
    if rule.compare in ("equal", "at most"):
        words = "" if verdict == AGREES else f"{found:g} instead of {wanted:g}"
        return Judged(verdict, words)
    how = "so much is allowed" if tolerance is not None else "as closely as it is read"
    arithmetic = f"off by {size}; {figure_words(rule, allowed)} allowed, {how}"
    if rule.compare == "at least":
        arithmetic = f"{figure_words(rule, found)} of {figure_words(rule, wanted)} wanted"
    source = "" if tolerance is not None else "trade-practice"
    if verdict == AGREES:
        return Judged(AGREES, "", arithmetic=arithmetic, source_id=source)
    long = "length" in rule.name or "grip" in rule.name or rule.compare == "at least"
    less, more = ("short", "too long") if long else ("too small", "too large")
    # Off by no more than a tenth: looked at alone, it passes for the right one.
    near = abs(by) <= 0.1 * abs(wanted) or (long and by < 0)
    return Judged(DIFFERS, f"{size} {less if by < 0 else more}", near, arithmetic, source)


def _told_words(
    rule: FieldRule, verdict: Verdict, wanted: str, found: str, *, female: bool
) -> Judged:
    if verdict == AGREES:
        return Judged(AGREES)
    if rule.compare == "thread":
        met = _met(wanted, found, female=female)
        if met is None:
            odd = found if known_thread(found) is None else wanted
            return Judged(UNKNOWN, f"'{odd}' cannot be read as a thread: count it again")
        return Judged(DIFFERS, met.words, met.near_miss, met.arithmetic, met.source_id)
    if rule.compare == "grade":
        return _told_grades(wanted, found)
    if verdict == UNKNOWN:
        return Judged(UNKNOWN, f"'{found}' against '{wanted}': put the two side by side")
    if rule.compare == "seat":
        words = "the thread may take it, the seat does not: it weeps, or cuts the flare"
        return Judged(DIFFERS, words, near_miss=True, source_id="trade-practice")
    if rule.compare == "amount":
        return Judged(DIFFERS, f"{found} of {wanted} wanted", near_miss=True)
    near = rule.name in {"hand", "bleed_place", "fluid_base", "sex"}
    return Judged(DIFFERS, f"{found} instead of {wanted}", near)
