"""Every need against every holding at once: what on the shelf fits what is wanted.

Two thousand needs and three thousand holdings are six million pairs. They are never all looked at:
within a kind, the most telling field a need has decides first, by its distinct values, and only the
pairs that are left go on to the next field. Each decision is `values_meet.outcome`, the same as for
a single pair.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING, Any, Final

from bareshell.model.spec import HoseSpec, Spec
from bareshell.parts.fit import FitWord, is_female, other_way_round
from bareshell.parts.rules import RULES, FieldRule
from bareshell.parts.values_meet import AGREES, DIFFERS, UNKNOWN, allowance, outcome

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Numbers = NDArray[np.int64]
    Codes = NDArray[np.int8]

__all__ = ["Matches", "match_all"]

_OF_FIGURES: Final = frozenset({"size", "at least", "at most", "equal"})


@dataclass(frozen=True, slots=True)
class Matches:
    """Which holdings fit which needs, or may.

    Parameters
    ----------
    fits : tuple of tuple of int
        For each need, the numbers of the holdings that fit it.
    may_fit : tuple of tuple of int
        For each need, those that agree as far as they are known, in its most telling field at
        least, and want measuring.
    """

    fits: tuple[tuple[int, ...], ...]
    may_fit: tuple[tuple[int, ...], ...]

    def word(self, need: int, holding: int) -> FitWord | None:
        """Return the word for one pair; None where it is not among those that fit or may."""
        if holding in self.fits[need]:
            return FitWord.FITS
        return FitWord.NOT_KNOWN if holding in self.may_fit[need] else None


def match_all(
    wanted: Sequence[Spec], found: Sequence[Spec], *, today: date | None = None
) -> Matches:
    """Hold every need against every holding.

    Parameters
    ----------
    wanted, found : sequence of Spec
        What jobs want, and what lies on the shelf.
    today : date or None
        The day, for goods that grow old.

    Examples
    --------
    >>> from bareshell.model.spec import BoltSpec
    >>> shelf = [BoltSpec(thread="M8", length_m=0.020), BoltSpec(thread="M10x1"), BoltSpec()]
    >>> found = match_all([BoltSpec(thread="M8x1.25", length_m=0.020)], shelf)
    >>> found.fits, found.may_fit
    (((0,),), ((),))
    """
    fits: list[list[int]] = [[] for _ in wanted]
    may: list[list[int]] = [[] for _ in wanted]
    shelf = _by_kind(found)
    for kind, needs in _by_kind(wanted).items():
        if kind not in shelf:
            continue
        pairs = _pairs_of(kind, wanted, needs, found, shelf[kind], today)
        for need, holding, word in pairs:
            (fits if word == AGREES else may)[need].append(holding)
    return Matches(
        tuple(tuple(sorted(set(each))) for each in fits),
        tuple(tuple(sorted(set(m) - set(f))) for m, f in zip(may, fits, strict=True)),
    )


def _by_kind(specs: Sequence[Spec]) -> dict[str, list[int]]:
    kinds: dict[str, list[int]] = {}
    for number, spec in enumerate(specs):
        kinds.setdefault(spec.kind, []).append(number)
    return kinds


def _pairs_of(
    kind: str,
    wanted: Sequence[Spec],
    needs: list[int],
    found: Sequence[Spec],
    holdings: list[int],
    today: date | None,
) -> Iterable[tuple[int, int, int]]:
    """Yield need, holding and verdict of each pair that fits or may."""
    ways: list[Sequence[Spec]] = [[found[h] for h in holdings]]
    if kind == HoseSpec().kind:
        ways.append([other_way_round(spec) for spec in ways[0] if isinstance(spec, HoseSpec)])
    for way in ways:
        mine, its, verdict = _Desk(kind, [wanted[n] for n in needs], way, today).pairs()
        for n, h, word in zip(mine.tolist(), its.tolist(), verdict.tolist(), strict=True):
            yield needs[n], holdings[h], word


class _Desk:
    """The needs and holdings of one kind, side by side."""

    def __init__(
        self, kind: str, wanted: Sequence[Spec], found: Sequence[Spec], today: date | None
    ) -> None:
        self.rules = [rule for rule in RULES[kind] if rule.decides]
        self.dated = [rule.name for rule in RULES[kind] if rule.compare == "not past"]
        self.wanted, self.found, self.today = wanted, found, today
        self.female = [is_female(spec) for spec in found]

    def pairs(self) -> tuple[Numbers, Numbers, Codes]:
        """Return the pairs that fit or may, and which of the two."""
        import numpy as np

        mine, its, verdict = self._by_first_field()
        for rule in self.rules:
            if not len(mine):
                break
            codes = self._codes(rule, mine, its)
            keep = codes != DIFFERS
            mine, its = mine[keep], its[keep]
            verdict = np.minimum(verdict[keep], codes[keep])
        return mine, its, verdict

    def _by_first_field(self) -> tuple[Numbers, Numbers, Codes]:
        """Pair each need with what agrees with it in the first field that the need has."""
        import numpy as np

        groups: dict[tuple[str, Any, Any], list[int]] = {}
        for number, spec in enumerate(self.wanted):
            rule = next((r for r in self.rules if _value(spec, r.name) is not None), None)
            if rule is not None:
                key = (rule.name, _value(spec, rule.name), _tolerance(spec, rule))
                groups.setdefault(key, []).append(number)
        fresh = self._not_past()
        mine: list[Numbers] = []
        its: list[Numbers] = []
        by_name = {rule.name: rule for rule in self.rules}
        for (name, value, tolerance), numbers in groups.items():
            agreeing = self._agreeing(by_name[name], value, tolerance)
            agreeing = agreeing[fresh[agreeing]]
            mine.append(np.repeat(np.array(numbers, dtype=np.int64), len(agreeing)))
            its.append(np.tile(agreeing, len(numbers)))
        none = np.zeros(0, dtype=np.int64)
        left = np.concatenate(mine) if mine else none
        right = np.concatenate(its) if its else none
        return left, right, np.full(len(left), AGREES, dtype=np.int8)

    def _not_past(self) -> NDArray[np.bool_]:
        import numpy as np

        fresh = np.ones(len(self.found), dtype=bool)
        if self.today is not None:
            for name in self.dated:
                for number, spec in enumerate(self.found):
                    day = getattr(spec, name)
                    fresh[number] &= day is None or day >= self.today
        return fresh

    def _agreeing(self, rule: FieldRule, value: object, tolerance: float | None) -> Numbers:
        import numpy as np

        if rule.compare in _OF_FIGURES:
            has = self._figures(self.found, rule.name)
            allowed = allowance(rule, tolerance)
            wanted = np.full(len(has), value, dtype=np.float64)
            agrees = _figures_agree(rule, wanted, has, np.full(len(has), allowed))
        else:
            texts, codes = self._texts(self.found, rule.name, sexed=rule.compare == "thread")
            table = [
                outcome(rule, value, text, 0.0, female=female) == AGREES for text, female in texts
            ]
            agrees = np.array([*table, False])[codes]
        return np.flatnonzero(agrees)

    def _codes(self, rule: FieldRule, mine: Numbers, its: Numbers) -> Codes:
        """The verdict of one field for pairs; a need that does not ask agrees with all."""
        import numpy as np

        if rule.compare in _OF_FIGURES:
            wanted = self._figures(self.wanted, rule.name)[mine]
            has = self._figures(self.found, rule.name)[its]
            tolerances = [_tolerance(spec, rule) for spec in self.wanted]
            allowed = np.array([allowance(rule, each) for each in tolerances])[mine]
            agrees = _figures_agree(rule, wanted, has, allowed)
            codes = np.where(agrees, AGREES, DIFFERS).astype(np.int8)
            codes[np.isnan(has)] = UNKNOWN
            codes[np.isnan(wanted)] = AGREES
            return codes
        needs, need_numbers = self._texts(self.wanted, rule.name)
        texts, numbers = self._texts(self.found, rule.name, sexed=rule.compare == "thread")
        table = np.full((len(needs) + 1, len(texts) + 1), AGREES, dtype=np.int8)
        for row, (value, _) in enumerate(needs):
            for column, (text, female) in enumerate(texts):
                table[row, column] = outcome(rule, value, text, 0.0, female=female)
        table[:-1, -1] = UNKNOWN
        answers: Codes = table[need_numbers[mine], numbers[its]]
        return answers

    def _figures(self, specs: Sequence[Spec], name: str) -> NDArray[np.float64]:
        import numpy as np

        values = [getattr(spec, name) for spec in specs]
        return np.array([np.nan if each is None else each for each in values], dtype=np.float64)

    def _texts(
        self, specs: Sequence[Spec], name: str, *, sexed: bool = False
    ) -> tuple[list[tuple[str, bool]], Numbers]:
        """The distinct words of a field and each part's number among them; -1 for not known."""
        import numpy as np

        numbers: dict[tuple[str, bool], int] = {}
        codes = []
        for at, spec in enumerate(specs):
            value = _value(spec, name)
            if value is None:
                codes.append(-1)
            else:
                key = (str(value), sexed and self.female[at])
                codes.append(numbers.setdefault(key, len(numbers)))
        return list(numbers), np.array(codes, dtype=np.int64)


def _value(spec: Spec, name: str) -> Any:  # noqa: ANN401 - any field of any kind
    value = getattr(spec, name)
    return None if value == "" else value


def _tolerance(spec: Spec, rule: FieldRule) -> float | None:
    return getattr(spec, rule.tolerance) if rule.tolerance else None


def _figures_agree(
    rule: FieldRule,
    wanted: NDArray[np.float64],
    has: NDArray[np.float64],
    allowed: NDArray[np.float64],
) -> NDArray[np.bool_]:
    """The same comparisons as `values_meet.outcome`, for many; a test holds them together."""
    import numpy as np

    slack = 1e-9
    by = has - wanted
    if rule.compare == "equal":
        agrees: NDArray[np.bool_] = has == wanted
        return agrees
    enough = by >= -allowed - slack if rule.compare != "at most" else np.ones(len(by), dtype=bool)
    no_more = by <= allowed + slack if rule.compare != "at least" else np.ones(len(by), dtype=bool)
    return enough & no_more & ~np.isnan(by)
