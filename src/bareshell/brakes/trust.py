"""How far a verdict can be trusted: in how many combinations of what is not known it is met.

Every figure that may be off is drawn evenly from the range that is believed of it, all of them
together by a Latin hypercube, and the whole system is held against the yardsticks ten thousand
times at once. What comes out is a share of combinations. It is no chance: nobody knows how likely
each combination is.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from bareshell.brakes.figures import Figures, Gathered, ranges
from bareshell.brakes.needs import needs_of
from bareshell.brakes.prepared import Prepared, prepare
from bareshell.brakes.sensitivity import Orders, Settles, settles
from bareshell.brakes.unknowns import Unknown, grouped
from bareshell.brakes.verdict import Verdict, share_words
from bareshell.model.brake import BrakeSystem

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

__all__ = ["Combinations", "Trusted", "TrustedVerdict", "draw", "trusted", "unknowns_of"]

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

    def one(self, number: int) -> Mapping[str, float]:
        """Return the figures of one combination, for working it out alone."""
        found = {path: value for path, value in self.figures.items() if isinstance(value, float)}
        for unknown, value in zip(self.unknowns, self.drawn[number], strict=True):
            found |= dict.fromkeys(unknown.paths, float(value))
        return found


@dataclass(frozen=True, slots=True)
class TrustedVerdict:
    """A verdict over all combinations, the worst of them, and what would settle it.

    Parameters
    ----------
    verdict : Verdict
        With arrays; as it came when it was not worked out.
    share : float or None
        Of the combinations, the share that meets it; None when not worked out.
    share_said : str
        The same in words: ``in 94 of 100 combinations``.
    worst_margin : float or None
        The smallest margin, in the verdict's own unit.
    worst : tuple of (Unknown, float)
        What the inputs that matter most are in that combination. [SI]
    settles : tuple of Settles
        The inputs that leave it open, the one that leaves most first.
    """

    verdict: Verdict
    share: float | None
    share_said: str
    worst_margin: float | None
    worst: tuple[tuple[Unknown, float], ...]
    settles: tuple[Settles, ...]

    @property
    def is_open(self) -> bool:
        """Whether some combinations meet it and some do not."""
        return self.share is not None and 0.0 < self.share < 1.0


@dataclass(frozen=True, slots=True)
class Trusted:
    """All verdicts over all combinations.

    Parameters
    ----------
    count : int
        How many combinations were drawn.
    unknowns : int
        How many inputs are not known exactly.
    verdicts : tuple of TrustedVerdict
        In the order of the yardsticks.
    measure_first : tuple of Settles
        The inputs that leave most open over all verdicts that are open; over all margins when
        none is.
    """

    count: int
    unknowns: int
    verdicts: tuple[TrustedVerdict, ...]
    measure_first: tuple[Settles, ...]


def unknowns_of(system: BrakeSystem, gathered: Gathered) -> tuple[Unknown, ...]:
    """Return what is not known exactly, things that are unknown alike as one.

    Examples
    --------
    >>> from bareshell.brakes.examples import small_car
    >>> from bareshell.brakes.figures import gather
    >>> car = small_car()
    >>> found = {each.path: each for each in unknowns_of(car, gather(car))}
    >>> found["caliper-front-left.pad_clearance_m"].paths
    ('caliper-front-left.pad_clearance_m', 'caliper-front-right.pad_clearance_m')
    """
    needs = {need.path: need for need in needs_of(system)}
    return grouped(ranges(system, gathered), needs)


def draw(
    system: BrakeSystem, gathered: Gathered, *, count: int = COUNT, seed: int = 1
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

    unknowns = unknowns_of(system, gathered)
    figures: dict[str, float | NDArray[np.float64]] = dict(gathered.figures)
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


def trusted(combinations: Combinations, hold: Callable[[Prepared], Iterable[Verdict]]) -> Trusted:
    """Hold all combinations against yardsticks, and find what would settle each verdict.

    Parameters
    ----------
    combinations : Combinations
        From `draw`.
    hold : callable
        Gives the verdicts of a system that was looked over: `held_against` with some yardsticks.

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
    verdicts = tuple(hold(prepare(combinations.system, combinations.figures)))
    orders = Orders(combinations.drawn)
    each = tuple(_of_verdict(combinations, orders, verdict) for verdict in verdicts)
    return Trusted(combinations.count, len(combinations.unknowns), each, _first(each))


def _of_verdict(combinations: Combinations, orders: Orders, verdict: Verdict) -> TrustedVerdict:
    import numpy as np

    if verdict.margin is None or verdict.share is None:
        return TrustedVerdict(verdict, None, "not worked out", None, (), ())
    margin = np.broadcast_to(np.asarray(verdict.margin), (combinations.count,))
    found = settles(combinations.unknowns, orders, margin, np.asarray(verdict.met))
    number = int(np.argmin(margin))
    worst = float(margin[number])
    places = {unknown.path: at for at, unknown in enumerate(combinations.unknowns)}
    told = tuple(
        (each.unknown, float(combinations.drawn[number, places[each.unknown.path]]))
        for each in found[:LISTED]
    )
    return TrustedVerdict(
        verdict,
        verdict.share,
        share_words(verdict.share),
        worst if np.isfinite(worst) else None,
        told,
        found[:LISTED],
    )


def _first(verdicts: tuple[TrustedVerdict, ...]) -> tuple[Settles, ...]:
    """Put together what would settle most over all verdicts that are open."""
    worked_out = [each for each in verdicts if each.share is not None]
    counted = [each for each in worked_out if each.is_open] or worked_out
    totals: dict[str, float] = {}
    best: dict[str, Settles] = {}
    for each in counted:
        for one in each.settles:
            path = one.unknown.path
            totals[path] = totals.get(path, 0.0) + one.share / len(counted)
            if path not in best or one.share > best[path].share:
                best[path] = one
    order = sorted(totals, key=lambda path: -totals[path])
    return tuple(best[path].shared(totals[path]) for path in order[:LISTED])
