"""How far a verdict can be trusted: in how many combinations of what is not known it is met.

Every figure that may be off is drawn evenly from the range that is believed of it, all of them
together by a Latin hypercube, and the whole system is held against the yardsticks ten thousand
times at once. What comes out is a share of combinations. It is no chance: nobody knows how likely
each combination is.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Final

from bareshell.brakes.across import Outcome
from bareshell.brakes.figures import Figures, Gathered, InputRange, ranges
from bareshell.brakes.heat_figures import heat_needs, heat_ranges
from bareshell.brakes.needs import Need, needs_of
from bareshell.brakes.prepared import Prepared, prepare
from bareshell.brakes.sensitivity import Orders, Settles, settles
from bareshell.brakes.unknowns import Unknown, grouped
from bareshell.brakes.verdict import Verdict, share_words
from bareshell.calc.values import Value
from bareshell.model.brake import BrakeSystem

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    from bareshell.brakes.answer import Truth

__all__ = [
    "Combinations",
    "First",
    "Trusted",
    "TrustedOutcome",
    "TrustedVerdict",
    "draw",
    "trusted",
    "unknowns_of",
]

COUNT: Final = 10_000
"""How many combinations are drawn."""

LISTED: Final = 6
"""How many inputs are named beside a verdict."""


@dataclass(frozen=True, slots=True)
class Combinations:
    """Combinations of all that is not known exactly.

    Parameters
    ----------
    system : BrakeSystem
        Whose figures they are.
    unknowns : tuple of Unknown
        What was drawn.
    drawn : array
        One row for each combination, one column for each unknown. [SI]
    figures : mapping of str to float or array
        By path, for the solve: what is exact as a number, what was drawn as an array.
    """

    system: BrakeSystem
    unknowns: tuple[Unknown, ...]
    drawn: NDArray[np.float64]
    figures: Figures

    @property
    def count(self) -> int:
        """How many there are."""
        return int(self.drawn.shape[0])

    def some(self, count: int) -> Combinations:
        """Return the first of them: as even a draw, only coarser."""
        figures = {
            path: each if isinstance(each, float) else each[:count]
            for path, each in self.figures.items()
        }
        return Combinations(self.system, self.unknowns, self.drawn[:count], figures)

    def one(self, number: int) -> Mapping[str, float]:
        """Return the figures of one combination, for working it out alone."""
        found = {path: value for path, value in self.figures.items() if isinstance(value, float)}
        for unknown, value in zip(self.unknowns, self.drawn[number], strict=True):
            found |= dict.fromkeys(unknown.paths, float(value))
        return found


@dataclass(frozen=True, slots=True, kw_only=True)
class _Weighed:
    """An answer over all combinations, the worst of them, and what would settle it.

    Parameters
    ----------
    share : float or None
        Of the combinations, the share that meets it; None when not worked out.
    share_said : str
        The same in words: ``in 94 of 100 combinations``.
    worst_number : int or None
        Which combination has the smallest margin.
    worst_margin : float or None
        That margin, in the answer's own unit.
    worst : tuple of (Unknown, float)
        What the inputs that matter most are in that combination. [SI]
    settles : tuple of Settles
        The inputs that leave it open, the one that leaves most first.
    """

    share: float | None = None
    share_said: str = "not worked out"
    worst_number: int | None = None
    worst_margin: float | None = None
    worst: tuple[tuple[Unknown, float], ...] = ()
    settles: tuple[Settles, ...] = ()

    @property
    def is_open(self) -> bool:
        """Whether some combinations meet it and some do not."""
        return self.share is not None and 0.0 < self.share < 1.0

    @property
    def openness(self) -> float:
        """How open it is: 1 where as many meet it as do not, 0 where all or none do. [-]."""
        return 0.0 if self.share is None else 4.0 * self.share * (1.0 - self.share)


@dataclass(frozen=True, slots=True, kw_only=True)
class TrustedVerdict(_Weighed):
    """A verdict over all combinations, the worst of them, and what would settle it.

    Parameters
    ----------
    verdict : Verdict
        With arrays; as it came when it was not worked out.
    """

    verdict: Verdict

    @property
    def topic(self) -> str:
        """What is open, after *whether*."""
        one = self.verdict.yardstick
        return f'"{one.subject}" ({one.family}) is met'


@dataclass(frozen=True, slots=True, kw_only=True)
class TrustedOutcome(_Weighed):
    """One of our own questions over all combinations.

    Parameters
    ----------
    outcome : Outcome
        With arrays; as it came when it was not worked out.
    """

    outcome: Outcome

    @property
    def topic(self) -> str:
        """What is open, after *whether*."""
        return self.outcome.words


@dataclass(frozen=True, slots=True)
class First:
    """An input to measure first, over all answers that are open.

    Parameters
    ----------
    settles : Settles
        What it settles of the answer for which that counts most.
    share : float
        What it settles of each answer, on average; those count more that are more open. [-]
    topic : str
        That answer, after *whether*.
    """

    settles: Settles
    share: float
    topic: str

    @property
    def unknown(self) -> Unknown:
        """Which input."""
        return self.settles.unknown

    @property
    def advice(self) -> str:
        """What to do, and what that would settle."""
        return self.settles.advised(self.topic)


@dataclass(frozen=True, slots=True)
class Trusted:
    """All answers over all combinations.

    Parameters
    ----------
    count : int
        How many combinations were drawn.
    unknowns : int
        How many inputs are not known exactly.
    verdicts : tuple of TrustedVerdict
        In the order of the yardsticks.
    outcomes : tuple of TrustedOutcome
        In the order of the questions.
    measure_first : tuple of First
        The inputs that leave most open over all answers that are open; over all margins when none
        is.
    """

    count: int
    unknowns: int
    verdicts: tuple[TrustedVerdict, ...]
    outcomes: tuple[TrustedOutcome, ...]
    measure_first: tuple[First, ...]


def unknowns_of(
    system: BrakeSystem, gathered: Gathered, hot: Gathered | None = None
) -> tuple[Unknown, ...]:
    """Return what is not known exactly, things that are unknown alike as one.

    Parameters
    ----------
    system : BrakeSystem
        Whose figures they are.
    gathered : Gathered
        From `bareshell.brakes.figures.gather`.
    hot : Gathered, optional
        From `bareshell.brakes.heat_figures.gather_heat`: then how much of their friction the
        linings keep hot is unknown too.

    Examples
    --------
    >>> from bareshell.brakes.examples import small_car
    >>> from bareshell.brakes.figures import gather
    >>> car = small_car()
    >>> found = {each.path: each for each in unknowns_of(car, gather(car))}
    >>> found["caliper-front-left.pad_clearance_m"].paths
    ('caliper-front-left.pad_clearance_m', 'caliper-front-right.pad_clearance_m')
    """
    needs: dict[str, Need] = {need.path: need for need in needs_of(system)}
    listed: list[InputRange] = list(ranges(system, gathered))
    if hot is not None:
        needs |= {need.path: need for need in heat_needs(system)}
        listed += [each for each in heat_ranges(system, hot) if each.path.endswith(_KEPT_HOT)]
    return grouped(listed, needs)


_KEPT_HOT: Final = ".hot_friction_ratio"


def draw(
    system: BrakeSystem,
    gathered: Gathered,
    *,
    hot: Gathered | None = None,
    count: int = COUNT,
    seed: int = 1,
) -> Combinations:
    """Draw combinations of what is not known exactly, evenly from each range.

    A Latin hypercube [S:mckay-1979]: each range is cut into as many pieces as there are
    combinations, and every piece of every range is drawn from once.

    Parameters
    ----------
    system : BrakeSystem
        Whose figures they are.
    gathered : Gathered
        From `bareshell.brakes.figures.gather`.
    hot : Gathered, optional
        As for `unknowns_of`.
    count : int
        How many.
    seed : int
        The same seed draws the same combinations.

    Examples
    --------
    >>> from bareshell.brakes.examples import small_car
    >>> from bareshell.brakes.figures import gather
    >>> car = small_car()
    >>> combinations = draw(car, gather(car), count=100)
    >>> combinations.figures["fluid.air_m3"].shape
    (100,)
    """
    import numpy as np
    from scipy.stats import qmc

    unknowns = unknowns_of(system, gathered, hot)
    figures: dict[str, float | NDArray[np.float64]] = dict(gathered.figures)
    if hot is not None:
        figures |= {path: one for path, one in hot.figures.items() if path.endswith(_KEPT_HOT)}
    if not unknowns:
        return Combinations(system, (), np.empty((count, 0)), figures)
    even = qmc.LatinHypercube(len(unknowns), rng=np.random.default_rng(seed)).random(count)
    low = np.array([each.low for each in unknowns])
    high = np.array([each.high for each in unknowns])
    drawn = low + even * (high - low)
    for place, unknown in enumerate(unknowns):
        column = np.ascontiguousarray(drawn[:, place])
        for path in unknown.paths:
            figures[path] = column
    return Combinations(system, unknowns, drawn, figures)


def trusted(
    combinations: Combinations,
    hold: Callable[[Prepared], Iterable[Verdict]],
    ask: Callable[[Prepared], Iterable[Outcome]] | None = None,
) -> Trusted:
    """Hold all combinations against yardsticks, and find what would settle each verdict.

    Parameters
    ----------
    combinations : Combinations
        From `draw`.
    hold : callable
        Gives the verdicts of a system that was looked over: `held_against` with some yardsticks.
    ask : callable, optional
        Gives answers to questions of our own: `bareshell.brakes.across.outcomes`.

    Returns
    -------
    Trusted
        Shares, worst combinations, and what to measure first.

    Raises
    ------
    BadInput
        When some range holds what cannot be: a lining that would lock by itself.

    Examples
    --------
    >>> from bareshell.brakes.against import held_against
    >>> from bareshell.brakes.examples import small_car
    >>> from bareshell.brakes.figures import gather
    >>> from bareshell.brakes.yardsticks import yardstick
    >>> car = small_car()
    >>> chosen = [yardstick("de-stvzo-service")]
    >>> found = trusted(draw(car, gather(car)), lambda ready: held_against(ready, chosen))
    >>> found.verdicts[0].share_said
    'in 97 of 100 combinations'
    """
    ready = prepare(combinations.system, combinations.figures)
    orders = Orders(combinations.drawn)
    verdicts = tuple(
        TrustedVerdict(verdict=each, **_weighed(combinations, orders, each.margin, each.met))
        for each in hold(ready)
    )
    outcomes = tuple(
        TrustedOutcome(outcome=each, **_weighed(combinations, orders, each.margin, _met(each)))
        for each in (ask(ready) if ask else ())
    )
    first = _first((*verdicts, *outcomes))
    return Trusted(combinations.count, len(combinations.unknowns), verdicts, outcomes, first)


def _met(outcome: Outcome) -> Truth | None:
    import numpy as np

    return None if outcome.margin is None else np.asarray(outcome.margin) >= 0.0


def _weighed(
    combinations: Combinations, orders: Orders, margin: Value | None, met: Truth | None
) -> dict[str, Any]:
    import numpy as np

    if margin is None or met is None:
        return {}
    margins = np.broadcast_to(np.asarray(margin), (combinations.count,))
    found = settles(combinations.unknowns, orders, margins, np.asarray(met))[:LISTED]
    number = int(np.argmin(margins))
    worst = float(margins[number])
    share = float(np.mean(met))
    places = {unknown.path: at for at, unknown in enumerate(combinations.unknowns)}
    drawn = combinations.drawn[number]
    return {
        "share": share,
        "share_said": share_words(share),
        "worst_number": number,
        "worst_margin": worst if np.isfinite(worst) else None,
        "worst": tuple((each.unknown, float(drawn[places[each.unknown.path]])) for each in found),
        "settles": found,
    }


def _first(answers: tuple[TrustedVerdict | TrustedOutcome, ...]) -> tuple[First, ...]:
    """Put together what would settle most over all answers, the more open ones counting more."""
    worked_out = [each for each in answers if each.share is not None]
    counted = [each for each in worked_out if each.is_open] or worked_out
    open_to = {id(each): each.openness or 1.0 for each in counted}
    whole = sum(open_to.values())
    totals: dict[str, float] = {}
    best: dict[str, tuple[float, Settles, str]] = {}
    for each in counted:
        for one in each.settles:
            path, part = one.unknown.path, one.share * open_to[id(each)] / whole
            totals[path] = totals.get(path, 0.0) + part
            if path not in best or part > best[path][0]:
                best[path] = part, one, each.topic
    order = sorted(totals, key=lambda path: -totals[path])
    return tuple(First(best[path][1], totals[path], best[path][2]) for path in order[:LISTED])
