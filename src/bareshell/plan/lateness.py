"""How late and how wrong parts come, learned from the owner's own orders.

A share (late or not, wrong or not) is a beta distribution and a delay an exponential one whose
rate is a gamma distribution: both are conjugate, so learning is adding up [S:gelman-2013,
sections 2.4 and 2.6]. A source of parts is believed to be like others of its class until its own
record says otherwise; its own orders are not counted a second time for the class.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

__all__ = [
    "OWN_WEIGHT",
    "PRIOR_WEIGHT",
    "Delay",
    "OrderOutcome",
    "Share",
    "SourceBelief",
    "SourcePrior",
    "late_by",
    "learned",
    "prior_of",
]

PRIOR_WEIGHT = 6.0
"""What is said of a class of sources beforehand weighs as many orders (our own choice)."""

OWN_WEIGHT = 4.0
"""What the class says of one supplier weighs as many of its own orders (our own choice)."""

FARTHEST_DAYS = 4000.0
"""Beyond this a delay is no longer told apart. [days]"""

MOST_TIMES = 6
"""So many times in a row a part may come wrong."""

DELAY_SHAPE = 3.0
"""Weight of what is said of a delay beforehand: as two parts that came late (our own choice)."""


@dataclass(frozen=True, slots=True)
class Share:
    """How often something happens: a beta distribution.

    Parameters
    ----------
    yes, no : float
        How often it happened and did not, prior knowledge counted in. [-]

    Examples
    --------
    >>> Share(2, 6).mean
    0.25
    """

    yes: float
    no: float

    @property
    def mean(self) -> float:
        """The share to go by."""
        return self.yes / (self.yes + self.no)

    def seen(self, yes: float, no: float) -> Share:
        """Add what was seen."""
        return Share(self.yes + yes, self.no + no)

    def weighing(self, weight: float) -> Share:
        """The same share, as sure as so many cases make it."""
        return Share(self.mean * weight, (1.0 - self.mean) * weight)


@dataclass(frozen=True, slots=True)
class Delay:
    """How long the late ones take: exponential, at a rate that is gamma distributed.

    Parameters
    ----------
    shape : float
        How many delays were seen to their end, prior knowledge counted in; above 1. [-]
    days : float
        How many days they took in all. [days]

    Examples
    --------
    >>> Delay(3, 14).mean_days
    7.0
    """

    shape: float
    days: float

    @property
    def mean_days(self) -> float:
        """The delay to go by, in days."""
        return self.days / (self.shape - 1.0)

    @classmethod
    def about(cls, mean_days: float) -> Delay:
        """So long on average, as little sure as prior knowledge is."""
        return cls(DELAY_SHAPE, mean_days * (DELAY_SHAPE - 1.0))

    def seen(self, ended: int, days: float) -> Delay:
        """Add delays: how many have ended, and the days of all, those still running included."""
        return Delay(self.shape + ended, self.days + days)


@dataclass(frozen=True, slots=True)
class SourcePrior:
    """What is said of a class of sources beforehand.

    Parameters
    ----------
    late_share, wrong_share : float
        Share of orders that come late, and of deliveries that cannot be used. [-]
    late_mean_days, lead_days : float
        How late the late ones are, and how long an order takes, on average. [days]
    """

    late_share: float
    late_mean_days: float
    wrong_share: float
    lead_days: float


@dataclass(frozen=True, slots=True)
class OrderOutcome:
    """How one order went, as far as it has gone.

    Parameters
    ----------
    source_class, supplier : str
        Where it came from; the supplier may be empty.
    days_late : float, optional
        How long after the first date given it came, 0 when it was in time; None when no date
        was given, or it has not come. [days]
    overdue_days : float
        How long it has been late without coming. [days]
    deliveries, wrong : int
        How many came, and how many of these could not be used.
    lead_days : float, optional
        From ordering to the first delivery. [days]
    """

    source_class: str
    supplier: str
    days_late: float | None = None
    overdue_days: float = 0.0
    deliveries: int = 0
    wrong: int = 0
    lead_days: float | None = None

    @property
    def tells(self) -> bool:
        """Whether anything is known of it yet."""
        return self.days_late is not None or self.overdue_days > 0 or self.deliveries > 0


@dataclass(frozen=True, slots=True)
class SourceBelief:
    """What is believed of one source.

    Parameters
    ----------
    name : str
        The supplier, or the class where nobody named one; what comes from one name shares its
        luck.
    late, wrong : Share
        How often orders come late, and deliveries cannot be used.
    delay : Delay
        How late the late ones are.
    lead_days : float
        How long an order takes, and its replacement when it came wrong. [days]
    orders, came_late, came_wrong : int
        What of the owner's own record this rests on.
    """

    name: str
    late: Share
    delay: Delay
    wrong: Share
    lead_days: float
    orders: int = 0
    came_late: int = 0
    came_wrong: int = 0


def learned(
    outcomes: Sequence[OrderOutcome], source_class: str, supplier: str, prior: SourcePrior
) -> SourceBelief:
    """Say what is believed of a supplier, or of a class where nobody named one.

    Parameters
    ----------
    outcomes : sequence of OrderOutcome
        The owner's own record, of every source.
    source_class, supplier : str
        Where the part comes from. With an empty class every order counts as of one class.
    prior : SourcePrior
        What is said of the class beforehand.

    Examples
    --------
    >>> prior = SourcePrior(0.2, 4.0, 0.05, 7.0)
    >>> late = [OrderOutcome("general", "an invented shop", days_late=10.0) for _ in range(6)]
    >>> learned(late, "general", "an invented shop", prior).late.mean
    0.68
    >>> learned(late, "general", "another", prior).late.mean
    0.6
    """
    of_class = [o for o in outcomes if source_class in ("", o.source_class)]
    own = [o for o in of_class if supplier and o.supplier == supplier]
    others = [o for o in of_class if not (supplier and o.supplier == supplier)]
    late, delay, wrong, lead = _seen(
        others,
        Share(prior.late_share, 1 - prior.late_share).weighing(PRIOR_WEIGHT),
        Delay.about(prior.late_mean_days),
        Share(prior.wrong_share, 1 - prior.wrong_share).weighing(PRIOR_WEIGHT),
        (PRIOR_WEIGHT, prior.lead_days),
    )
    if supplier:
        late, delay, wrong, lead = _seen(
            own,
            late.weighing(OWN_WEIGHT),
            Delay.about(delay.mean_days),
            wrong.weighing(OWN_WEIGHT),
            (OWN_WEIGHT, lead[1]),
        )
    counted = [o for o in (own if supplier else of_class) if o.tells]
    return SourceBelief(
        supplier or source_class,
        late,
        delay,
        wrong,
        lead[1],
        len(counted),
        sum(_late(o)[0] for o in counted),
        sum(o.wrong for o in counted),
    )


def _late(outcome: OrderOutcome) -> tuple[int, int, float]:
    """Count an order: late, its delay seen to the end, and how long that is so far."""
    if outcome.days_late is not None:
        late = int(outcome.days_late > 0)
        return late, late, outcome.days_late
    return int(outcome.overdue_days > 0), 0, outcome.overdue_days


def _seen(
    outcomes: Sequence[OrderOutcome],
    late: Share,
    delay: Delay,
    wrong: Share,
    lead: tuple[float, float],
) -> tuple[Share, Delay, Share, tuple[float, float]]:
    for outcome in outcomes:
        was_late, ended, days = _late(outcome)
        if outcome.days_late is not None or was_late:
            late = late.seen(was_late, 1 - was_late)
        if was_late:
            # One that has not come yet tells only that it takes longer than this.
            delay = delay.seen(ended, days)
        wrong = wrong.seen(outcome.wrong, outcome.deliveries - outcome.wrong)
        if outcome.lead_days is not None:
            weight, mean = lead
            lead = weight + 1, (weight * mean + outcome.lead_days) / (weight + 1)
    return late, delay, wrong, lead


def late_by(belief: SourceBelief, share: float) -> float:
    """Say within how many days of its date all but the rest of such parts are here and right.

    Parameters
    ----------
    belief : SourceBelief
        Of where it comes from.
    share : float
        0.9 for nine in ten. [-]

    Returns
    -------
    days : float
        0 when so many are in time. A part that comes wrong takes as long again. [days]

    Examples
    --------
    >>> prompt = SourceBelief("a", Share(5, 95), Delay(3, 20), Share(0, 10), 14.0)
    >>> late_by(prompt, 0.9), round(late_by(prompt, 0.98), 1)
    (0.0, 7.1)
    """
    if _beyond(belief, 0.0) <= 1.0 - share:
        return 0.0
    low, high = 0.0, 1.0
    while _beyond(belief, high) > 1.0 - share and high < FARTHEST_DAYS:
        low, high = high, 2 * high
    for _ in range(40):
        middle = (low + high) / 2
        low, high = (middle, high) if _beyond(belief, middle) > 1.0 - share else (low, middle)
    return high


def _beyond(belief: SourceBelief, days: float) -> float:
    """Say which share of such parts is not here and right so many days after its date."""
    late, wrong, delay = belief.late.mean, belief.wrong, belief.delay
    left, so_often = 0.0, 1.0
    for times in range(MOST_TIMES):
        since = days - times * belief.lead_days
        slow = 1.0 if since < 0 else late * (1.0 + since / delay.days) ** -delay.shape
        # The moments of the beta distribution: a source that was wrong once may well be again.
        once_more = so_often * (wrong.yes + times) / (wrong.yes + wrong.no + times)
        left += (so_often - once_more) * slow
        so_often = once_more
    return left + so_often


def prior_of(source_class: str, priors: Mapping[str, SourcePrior]) -> SourcePrior:
    """Find what is said of a class beforehand; the mean of all where the class is not known.

    Examples
    --------
    >>> known = {"a": SourcePrior(0.2, 4, 0.0, 6), "b": SourcePrior(0.4, 8, 0.2, 10)}
    >>> prior_of("", known).lead_days
    8.0
    """
    if source_class in priors:
        return priors[source_class]
    every = list(priors.values())
    count = len(every)
    return SourcePrior(
        sum(p.late_share for p in every) / count,
        sum(p.late_mean_days for p in every) / count,
        sum(p.wrong_share for p in every) / count,
        sum(p.lead_days for p in every) / count,
    )
