"""Holding forecasts against what came, so that the owner sees whether to believe them.

One car has one finish, so what is scored is everything that was foretold on the way: the hours of
each job, the day of each part, the gates. A forecast is a spread of values; it is good when what
came lies under its eighth tenth eight times in ten (coverage), and better the closer it lies
(pinball loss for a single quantile, the continuous ranked probability score for the whole spread;
both are proper: saying what one believes scores best) [S:gneiting-raftery-2007, sections 4.2 and
6.1].
"""

from __future__ import annotations

from bisect import bisect
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from math import sqrt

__all__ = ["SHARES", "Coverage", "Scored", "crps", "pinball", "scored"]

SHARES = (0.5, 0.8, 0.95)
"""The quantiles that are told and scored."""

TOO_FEW = 10
"""Below so many cases nothing is said about whether to believe it."""


def pinball(said: float, share: float, came: float) -> float:
    """Score one quantile: what it costs to be on either side of it.

    Also called quantile score or check loss [S:gneiting-raftery-2007, section 6.1, equation 40].

    Parameters
    ----------
    said : float
        The value under which what comes was to lie in this share of cases.
    share : float
        From 0 to 1. [-]
    came : float
        What came; same unit as `said`.

    Returns
    -------
    loss : float
        0 at best; same unit as `said`.

    Examples
    --------
    >>> round(pinball(10.0, 0.8, 15.0), 6), round(pinball(10.0, 0.8, 5.0), 6)
    (4.0, 1.0)
    """
    return (came - said) * share if came >= said else (said - came) * (1.0 - share)


def crps(futures: Sequence[float], came: float) -> float:
    """Score a whole spread that is given as equally likely values.

    The mean distance of the values from what came, less half their mean distance from one
    another [S:gneiting-raftery-2007, section 4.2, equation 21].

    Parameters
    ----------
    futures : sequence of float
        At least one, in any order.
    came : float
        What came; same unit.

    Returns
    -------
    score : float
        0 at best; same unit. For a single value it is the distance.

    Examples
    --------
    >>> crps([3.0], 5.0), crps([0.0, 2.0], 1.0)
    (2.0, 0.5)
    """
    ordered = sorted(futures)
    count = len(ordered)
    off = sum(abs(value - came) for value in ordered) / count
    # Sum over all pairs of |x - y|, from the order of the values.
    apart = sum((2 * at - count + 1) * value for at, value in enumerate(ordered))
    return off - apart / (count * count)


@dataclass(frozen=True, slots=True)
class Coverage:
    """How often what came lay under a quantile.

    Parameters
    ----------
    share : float
        How often it was to. [-]
    under, cases : int
        How often it did, of how many.
    held_share : float, optional
        How often it was to, where the values told come in lumps (a part is in time or it is
        not): then more than `share` may lie at or under the quantile. [-]
    """

    share: float
    under: int
    cases: int
    held_share: float | None = None

    @property
    def _held(self) -> float:
        return self.share if self.held_share is None else self.held_share

    @property
    def expected(self) -> float:
        """How often it was to, as a count."""
        return self._held * self.cases

    @property
    def give_or_take(self) -> float:
        """Two standard deviations of that count, if the forecasts are right (binomial)."""
        return 2.0 * sqrt(self._held * (1.0 - self._held) * self.cases)

    @property
    def word(self) -> str:
        """What that says of the forecasts.

        Examples
        --------
        >>> [Coverage(0.8, n, 50).word for n in (25, 40, 50)]
        ['too hopeful', 'as often as said', 'too cautious']
        >>> Coverage(0.8, 3, 4).word
        'too few to tell'
        """
        if self.cases < TOO_FEW:
            return "too few to tell"
        off = self.under - self.expected
        if abs(off) <= self.give_or_take:
            return "as often as said"
        return "too hopeful" if off < 0 else "too cautious"


@dataclass(frozen=True, slots=True)
class Scored:
    """How a kind of forecast has done.

    Parameters
    ----------
    what, unit : str
        What was foretold, and in which unit its scores are: ``"hours of a job"``, ``"h"``.
    coverages : tuple of Coverage
        For each of `SHARES`.
    pinballs : tuple of float
        Mean pinball loss for each of `SHARES`.
    crps : float
        Mean score of the whole spread.
    plain_crps : float, optional
        The same had nothing been learned; None when there is nothing to compare with.
    cases : int
        How many were scored.
    """

    what: str
    unit: str
    coverages: tuple[Coverage, ...]
    pinballs: tuple[float, ...]
    crps: float
    plain_crps: float | None
    cases: int

    @property
    def skill(self) -> float | None:
        """What learning has taken off the score, as a share of it; below 0 when it added."""
        if self.plain_crps is None or self.plain_crps <= 0:
            return None
        return 1.0 - self.crps / self.plain_crps

    @property
    def sentence(self) -> str:
        """The same in plain words.

        Examples
        --------
        >>> told = Scored("hours of a job", "h", (Coverage(0.8, 41, 50),), (0.3,), 0.4, 0.5, 50)
        >>> told.sentence
        'Of 50 forecasts of the hours of a job, 41 kept under what was said for eight in ten; 40
        were to, give or take 6: as often as said. What was learned takes 20 in 100 off the
        error.'
        """
        if not self.cases:
            return f"No forecast of the {self.what} can be held against what came yet."
        eight = next(c for c in self.coverages if c.share == 0.8)
        told = (
            f"Of {self.cases} forecasts of the {self.what}, {eight.under} kept under what was "
            f"said for eight in ten; {eight.expected:.0f} were to, give or take "
            f"{eight.give_or_take:.0f}: {eight.word}."
        )
        if self.skill is None or self.cases < TOO_FEW:
            return told
        saved = round(100 * self.skill)
        if saved >= 1:
            return f"{told} What was learned takes {saved} in 100 off the error."
        return f"{told} What was learned takes nothing off the error so far."


def scored(
    what: str,
    unit: str,
    cases: Iterable[tuple[Sequence[float], float]],
    plain: Iterable[Sequence[float]] | None = None,
) -> Scored:
    """Score forecasts that are given as equally likely values.

    Parameters
    ----------
    what, unit : str
        As `Scored` has them.
    cases : iterable of (sequence of float, float)
        For each: the values that were foretold, and what came.
    plain : iterable of sequence of float, optional
        For each the values that would have been foretold with nothing learned.

    Examples
    --------
    >>> scored("hours of a job", "h", [([1.0, 2.0, 3.0, 4.0], 2.5)]).coverages[1].under
    1
    """
    listed = [(sorted(futures), came) for futures, came in cases]
    count = len(listed)
    coverages, losses = [], []
    for share in SHARES:
        said = [(_quantile(futures, share), came) for futures, came in listed]
        under = sum(came <= value for value, came in said)
        held = _mean([bisect(f, v) / len(f) for (f, _), (v, _) in zip(listed, said, strict=True)])
        coverages.append(Coverage(share, under, count, held if count else None))
        losses.append(_mean([pinball(value, share, came) for value, came in said]))
    without = None
    if plain is not None and count:
        pairs = zip(plain, listed, strict=True)
        without = _mean([crps(futures, came) for futures, (_, came) in pairs])
    return Scored(
        what,
        unit,
        tuple(coverages),
        tuple(losses),
        _mean([crps(futures, came) for futures, came in listed]),
        without,
        count,
    )


def _quantile(ordered: Sequence[float], share: float) -> float:
    """Take the smallest value that this share of them does not pass."""
    return ordered[min(len(ordered) - 1, max(0, int(share * len(ordered) - 1e-9)))]


def _mean(values: Sequence[float]) -> float:
    return sum(values) / len(values) if values else 0.0
