"""Every need against every holding at once: what on the shelf fits what is wanted.

Two thousand needs and three thousand holdings are six million pairs. They are never all looked at:
within a kind, the most telling field a need has decides first (words by their distinct values,
sizes by halving on the shelf laid out by size), and only the pairs that are left go on to the next
field. Each decision is `values_meet.outcome`, the same as for
a single pair.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING, Any, Final

from bareshell.model.spec import HoseSpec, Spec
from bareshell.parts.fit import FitWord, is_female, other_way_round
from bareshell.parts.rules import FieldRule, rules_for
from bareshell.parts.values_meet import AGREES, DIFFERS, UNKNOWN, allowance, outcome

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Numbers = NDArray[np.int64]
    Codes = NDArray[np.int8]

__all__ = ["Matches", "match_all"]

_AT_ONCE: Final = 4096
"""So many needs are marked against the shelf at once, to bound what that takes of memory."""

_SLACK: Final = 1e-9
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
    import numpy as np

    # What is wanted often is asked of the shelf once.
    shelf = _by_kind(found)
    groups: dict[tuple[str, tuple[FieldRule, ...]], list[Spec]] = {}
    for spec in dict.fromkeys(wanted):
        groups.setdefault((spec.kind, rules_for(spec)), []).append(spec)
    none: tuple[tuple[int, ...], tuple[int, ...]] = ((), ())
    answers: dict[Spec, tuple[tuple[int, ...], tuple[int, ...]]] = {}
    for (kind, rules), specs in groups.items():
        if kind not in shelf:
            continue
        numbers = np.array([number for number, _ in shelf[kind]], dtype=np.int64)
        for start in range(0, len(specs), _AT_ONCE):
            some = specs[start : start + _AT_ONCE]
            answers |= _answers(rules, some, [spec for _, spec in shelf[kind]], numbers, today)
    told = [answers.get(spec, none) for spec in wanted]
    return Matches(tuple(fits for fits, _ in told), tuple(may for _, may in told))


def _by_kind(specs: Sequence[Spec]) -> dict[str, list[tuple[int, Spec]]]:
    kinds: dict[str, list[tuple[int, Spec]]] = {}
    for number, spec in enumerate(specs):
        kinds.setdefault(spec.kind, []).append((number, spec))
    return kinds


def _answers(
    rules: tuple[FieldRule, ...],
    wanted: Sequence[Spec],
    found: Sequence[Spec],
    numbers: Numbers,
    today: date | None,
) -> Iterable[tuple[Spec, tuple[tuple[int, ...], tuple[int, ...]]]]:
    """Yield for each need of a kind the numbers of what fits it and of what may."""
    import numpy as np

    fits = np.zeros((len(wanted), len(found)), dtype=bool)
    may = np.zeros_like(fits)
    ways: list[Sequence[Spec]] = [found]
    if isinstance(wanted[0], HoseSpec):
        ways.append([other_way_round(spec) for spec in found if isinstance(spec, HoseSpec)])
    for way in ways:
        mine, its, verdict = _Desk(rules, wanted, way, today).pairs()
        sure = verdict == AGREES
        fits[mine[sure], its[sure]] = True
        may[mine[~sure], its[~sure]] = True
    may &= ~fits
    return zip(wanted, zip(_rows(fits, numbers), _rows(may, numbers), strict=True), strict=True)


def _rows(marked: NDArray[np.bool_], numbers: Numbers) -> Iterable[tuple[int, ...]]:
    """Yield the numbers that are marked, row by row."""
    import numpy as np

    rows, columns = np.nonzero(marked)
    ends = np.searchsorted(rows, np.arange(len(marked)), side="right").tolist()
    listed, start = numbers[columns].tolist(), 0
    for end in ends:
        yield tuple(listed[start:end])
        start = end


class _Desk:
    """The needs and holdings of one kind, side by side."""

    def __init__(
        self,
        rules: tuple[FieldRule, ...],
        wanted: Sequence[Spec],
        found: Sequence[Spec],
        today: date | None,
    ) -> None:
        self.rules = [rule for rule in rules if rule.decides]
        self.dated = [rule.name for rule in rules if rule.compare == "not past"]
        self.wanted, self.found, self.today = wanted, found, today
        self.female = [is_female(spec) for spec in found]

    def pairs(self) -> tuple[Numbers, Numbers, Codes]:
        """Return the pairs that fit or may, and which of the two."""
        import numpy as np

        mine, its, verdict = self._by_first_field()
        for rule in self.rules:
            if not len(mine):
                break
            if all(_value(spec, rule.name) is None for spec in self.wanted):
                continue  # nobody asks for it
            codes = self._codes(rule, mine, its)
            keep = codes != DIFFERS
            mine, its = mine[keep], its[keep]
            verdict = np.minimum(verdict[keep], codes[keep])
        return mine, its, verdict

    def _by_first_field(self) -> tuple[Numbers, Numbers, Codes]:
        """Pair each need with what agrees with it in the first field that the need has."""
        import numpy as np

        first: dict[str, list[int]] = {}
        for number, spec in enumerate(self.wanted):
            rule = next((r for r in self.rules if _value(spec, r.name) is not None), None)
            if rule is not None:
                first.setdefault(rule.name, []).append(number)
        mine: list[Numbers] = [np.zeros(0, dtype=np.int64)]
        its: list[Numbers] = [np.zeros(0, dtype=np.int64)]
        for rule in self.rules:
            if rule.name in first:
                figures = rule.compare in _OF_FIGURES
                pairs = self._near_in_size if figures else self._alike_in_words
                for left, right in pairs(rule, first[rule.name]):
                    mine.append(left)
                    its.append(right)
        left, right = np.concatenate(mine), np.concatenate(its)
        fresh = self._not_past()[right]
        left, right = left[fresh], right[fresh]
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

    def _near_in_size(self, rule: FieldRule, needs: list[int]) -> Iterable[tuple[Numbers, Numbers]]:
        """Pair needs with what agrees in a figure: by halving, on the shelf laid out by size."""
        import numpy as np

        has = self._figures(self.found, rule.name)
        order = np.argsort(has)[: int(np.count_nonzero(~np.isnan(has)))]
        sizes = has[order]
        specs = [self.wanted[number] for number in needs]
        wanted = self._figures(specs, rule.name)
        allowed = np.array([allowance(rule, _tolerance(spec, rule)) for spec in specs])
        # A hair wide: what lies on the edge is decided below, as for a single pair.
        reach = allowed + 2.0 * _SLACK + 1e-9 * np.abs(wanted)
        low = np.searchsorted(sizes, wanted - reach)
        high = np.searchsorted(sizes, wanted + reach, side="right")
        if rule.compare == "at most":
            low[:] = 0
        elif rule.compare == "at least":
            high[:] = len(sizes)
        counts = high - low
        left = np.repeat(np.arange(len(needs)), counts)
        starts = np.cumsum(counts) - counts
        right = order[np.arange(len(left)) - np.repeat(starts - low, counts)]
        agrees = _figures_agree(rule, wanted[left], has[right], allowed[left])
        yield np.array(needs, dtype=np.int64)[left[agrees]], right[agrees]

    def _alike_in_words(
        self, rule: FieldRule, needs: list[int]
    ) -> Iterable[tuple[Numbers, Numbers]]:
        """Pair needs with what agrees in words, each word that is wanted once."""
        import numpy as np

        texts, codes = self._texts(self.found, rule.name, sexed=rule.compare == "thread")
        groups: dict[str, list[int]] = {}
        for number in needs:
            groups.setdefault(str(_value(self.wanted[number], rule.name)), []).append(number)
        for value, numbers in groups.items():
            table = [
                outcome(rule, value, text, 0.0, female=female) == AGREES for text, female in texts
            ]
            agreeing = np.flatnonzero(np.array([*table, False])[codes])
            group = np.array(numbers, dtype=np.int64)
            yield np.repeat(group, len(agreeing)), np.tile(agreeing, len(group))

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

    by = has - wanted
    if rule.compare == "equal":
        agrees: NDArray[np.bool_] = has == wanted
        return agrees
    enough = by >= -allowed - _SLACK if rule.compare != "at most" else np.ones(len(by), dtype=bool)
    no_more = by <= allowed + _SLACK if rule.compare != "at least" else np.ones(len(by), dtype=bool)
    return enough & no_more & ~np.isnan(by)
