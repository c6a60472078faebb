"""Does this fit there: a need's specification against what lies on the shelf, field by field.

The word is *fits*, *will not do* or *not known*. Not known is no half fit: it names what to
measure. A near miss is what would be found out too late: threads that start and then jam, a pin
that is right but short, a seat that does not match, the other hand.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date
from enum import StrEnum
from typing import Any

from bareshell.model.spec import HoseSpec, Spec
from bareshell.parts.rules import FieldRule, rules_for
from bareshell.parts.values_meet import AGREES, DIFFERS, UNKNOWN, figure_words, judge

__all__ = ["Fit", "FitLine", "FitWord", "check_fit", "is_female", "nearest_way", "other_way_round"]


class FitWord(StrEnum):
    """What comes of a fit check."""

    FITS = "fits"
    WILL_NOT_DO = "will not do"
    NOT_KNOWN = "not known"


_OF_VERDICT = {AGREES: "agrees", DIFFERS: "differs", UNKNOWN: "not known"}


@dataclass(frozen=True, slots=True)
class FitLine:
    """One field as it was compared.

    Parameters
    ----------
    field, label : str
        The field of the specification, and what a person calls it.
    wanted, found : str
        Both values, as they are read at the bench; empty when not known.
    state : str
        ``agrees``, ``differs`` or ``not known``.
    near_miss : bool
        Whether it would be found out too late.
    words : str
        What is wrong, or what to measure.
    arithmetic, source_id : str
        The sum, and where its rule is from.
    """

    field: str
    label: str
    wanted: str
    found: str
    state: str
    near_miss: bool = False
    words: str = ""
    arithmetic: str = ""
    source_id: str = ""


@dataclass(frozen=True, slots=True)
class Fit:
    """What came of a fit check, line by line."""

    word: FitWord
    lines: tuple[FitLine, ...] = ()

    @property
    def near_misses(self) -> tuple[FitLine, ...]:
        """The lines that would be found out too late."""
        return tuple(line for line in self.lines if line.near_miss)

    @property
    def says(self) -> str:
        """The reason in one sentence, near misses first."""
        wrong = self.word is FitWord.WILL_NOT_DO
        telling = [
            line for line in self.lines if line.state == ("differs" if wrong else "not known")
        ]
        telling.sort(key=lambda line: not line.near_miss)
        return "; ".join(f"{line.label}: {line.words.rstrip('.')}" for line in telling[:3])


def check_fit(wanted: Spec, found: Spec, *, today: date | None = None) -> Fit:
    """Check what lies on the shelf against what is wanted.

    Parameters
    ----------
    wanted : Spec
        What the job wants; a field that is not known there is not compared.
    found : Spec
        What was found; a field that is not known there makes the whole *not known*.
    today : date or None
        The day, for goods that grow old.

    Examples
    --------
    >>> from bareshell.model.spec import PinSpec, UnionSpec
    >>> pin = PinSpec(diameter_m=0.00794, grip_to_hole_m=0.022)
    >>> check_fit(pin, PinSpec(diameter_m=0.00794, grip_to_hole_m=0.018)).says
    'grip, head to hole: 4 mm short'
    >>> check_fit(UnionSpec(thread="M10x1"), UnionSpec(thread="3/8-24 UNF")).says
    'thread: it starts, and jams after about 5 turns'
    >>> check_fit(pin, pin).word.value
    'fits'
    """
    if wanted.kind != found.kind:
        return _of_other_kinds(wanted, found)
    return _checked(wanted, nearest_way(wanted, found), today)


def nearest_way(wanted: Spec, found: Spec) -> Spec:
    """Lay a hose the way round in which it fits best; anything else lies as it does.

    Parameters
    ----------
    wanted, found : Spec
        What the job wants, and what was found.

    Examples
    --------
    >>> nearest_way(HoseSpec(thread_a="M10x1"), HoseSpec(thread_b="M10x1")).thread_a
    'M10x1'
    """
    if not (isinstance(wanted, HoseSpec) and isinstance(found, HoseSpec)):
        return found
    ways = (found, other_way_round(found))
    return max(ways, key=lambda way: _goodness(_checked(wanted, way, None)))


def _goodness(fit: Fit) -> tuple[int, int]:
    order = {FitWord.FITS: 2, FitWord.NOT_KNOWN: 1, FitWord.WILL_NOT_DO: 0}
    return order[fit.word], sum(1 for line in fit.lines if line.state == "agrees")


def other_way_round(hose: HoseSpec) -> HoseSpec:
    """Return a hose with its ends exchanged.

    Examples
    --------
    >>> other_way_round(HoseSpec(thread_a="M10x1")).thread_b
    'M10x1'
    """
    return replace(
        hose,
        end_a=hose.end_b,
        end_b=hose.end_a,
        thread_a=hose.thread_b,
        thread_b=hose.thread_a,
        seat_a=hose.seat_b,
        seat_b=hose.seat_a,
        bore_m=hose.bore_m if hose.bore_b_m is None else hose.bore_b_m,
        bore_b_m=None if hose.bore_b_m is None else hose.bore_m,
    )


def is_female(spec: Spec) -> bool:
    """Whether a part carries the female thread of the pair.

    Examples
    --------
    >>> from bareshell.model.spec import BoltSpec
    >>> is_female(BoltSpec(what="nut")), is_female(BoltSpec())
    (True, False)
    """
    said = str(getattr(spec, "what", "") or "") if spec.kind == "bolt" else ""
    sex = str(getattr(spec, "sex", "") or "")
    return said.casefold().startswith("nut") or sex.casefold() == "female"


def _checked(wanted: Spec, found: Spec, today: date | None) -> Fit:
    lines, compared, female = [], False, is_female(found)
    for rule in rules_for(wanted):
        line = _line(rule, wanted, found, today, female=female)
        if line is not None:
            lines.append(line)
            compared = compared or rule.decides
    return Fit(_word(lines, compared=compared), tuple(lines))


def _line(
    rule: FieldRule, wanted: Spec, found: Spec, today: date | None, *, female: bool
) -> FitLine | None:
    needed, has = _value(wanted, rule.name), _value(found, rule.name)
    if needed is None and (has is None or rule.compare != "not past"):
        return None
    tolerance = getattr(wanted, rule.tolerance) if rule.tolerance else None
    judged = judge(rule, needed, has, tolerance, female=female, today=today)
    return FitLine(
        rule.name,
        rule.label,
        _shown(rule, needed),
        _shown(rule, has),
        _OF_VERDICT[judged.verdict],
        judged.near_miss,
        judged.words,
        judged.arithmetic,
        judged.source_id,
    )


def _value(spec: Spec, name: str) -> Any:  # noqa: ANN401 - any field of any kind
    value = getattr(spec, name)
    return None if value == "" else value


def _shown(rule: FieldRule, value: object) -> str:
    if value is None:
        return ""
    if isinstance(value, int | float):
        return figure_words(rule, value)
    return str(value)


def _word(lines: list[FitLine], *, compared: bool) -> FitWord:
    states = {line.state for line in lines}
    if "differs" in states:
        return FitWord.WILL_NOT_DO
    if "not known" in states or not compared:
        return FitWord.NOT_KNOWN
    return FitWord.FITS


def _of_other_kinds(wanted: Spec, found: Spec) -> Fit:
    if "plain" in (wanted.kind, found.kind):
        words = "it is described in words only: measure it"
        state, word = "not known", FitWord.NOT_KNOWN
    else:
        words = f"a {found.kind} instead of a {wanted.kind}"
        state, word = "differs", FitWord.WILL_NOT_DO
    return Fit(word, (FitLine("kind", "kind", wanted.kind, found.kind, state, words=words),))
