"""Parts and fixings: what a job wants, what is on the shelf, what is coming."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date, datetime
from decimal import Decimal
from enum import StrEnum

from bareshell.model.duty import Duty
from bareshell.model.spec import PlainSpec, Spec
from bareshell.model.trust import Trust


@dataclass(frozen=True, slots=True)
class Money:
    """An amount with its currency (ISO 4217 letters).

    Examples
    --------
    >>> Money(Decimal("12.50"), "GBP").amount
    Decimal('12.50')
    """

    amount: Decimal
    currency: str

    def __post_init__(self) -> None:
        """A currency is three capital letters, as ISO 4217 writes it."""
        if len(self.currency) != 3 or not self.currency.isalpha() or not self.currency.isupper():
            raise ValueError(f"currency is {self.currency!r}; it must be three capital letters")


@dataclass(frozen=True, slots=True)
class Guess:
    """What a thing may cost, for all of what is wanted: low and high."""

    low: Money
    high: Money

    def __post_init__(self) -> None:
        """Both ends are in one currency and in order."""
        if self.low.currency != self.high.currency:
            raise ValueError(
                f"a guess is in one currency, not {self.low.currency} and {self.high.currency}"
            )
        if self.low.amount > self.high.amount:
            raise ValueError(f"a guess rises: {self.low.amount} is more than {self.high.amount}")


class NeededTo(StrEnum):
    """Whether a job cannot begin without a part, or only cannot end."""

    START = "to start"
    FINISH = "to finish"


@dataclass(frozen=True, slots=True)
class Need:
    """What a job wants: how many of what, and by when in the job.

    ``bag`` is the kit it is packed in; ``fixing`` says it is a fastener, clip or pin. ``duty`` is
    what it is relied on for, None when nobody said; ``guess`` what it may cost.
    """

    id: str
    title: str
    job: str
    quantity: int = 1
    needed_to: NeededTo = NeededTo.FINISH
    spec: Spec = PlainSpec()
    bag: str = ""
    fixing: bool = False
    mark: str = ""
    note: str = ""
    duty: Duty | None = None
    guess: Guess | None = None

    def __post_init__(self) -> None:
        """A need is for at least one."""
        if self.quantity < 1:
            raise ValueError(f"need {self.id}: quantity is {self.quantity}; it must be 1 or more")


@dataclass(frozen=True, slots=True)
class Holding:
    """What is on the shelf, as measured; ``need`` says what it was put aside for."""

    id: str
    title: str
    quantity: int = 1
    spec: Spec = PlainSpec()
    need: str | None = None
    where: str = ""
    trust: Trust = Trust.ASSUMED
    condition: str = ""
    unlike: bool = False
    away: str = ""
    note: str = ""

    def __post_init__(self) -> None:
        """A holding may be used up, never negative."""
        if self.quantity < 0:
            raise ValueError(f"holding {self.id}: quantity cannot be {self.quantity}")


class SourceClass(StrEnum):
    """Where a part comes from; each class is late and wrong in its own way."""

    GENERAL = "general supplier"
    SPECIALIST = "specialist"
    CLUB = "club or swap"
    REMADE = "remade to order"
    EXCHANGE = "exchange unit"
    SERVICE = "sent away for work"
    OWN = "made by the owner"


@dataclass(frozen=True, slots=True)
class Exchange:
    """An exchange unit: the old one must be back by a date or the deposit is lost.

    Before it goes back the new one is proved on the bench, and the old one photographed and
    measured, each on its day; None: not yet.
    """

    return_by: date | None = None
    deposit: Money | None = None
    returned_on: date | None = None
    proved_on: date | None = None
    photographed_on: date | None = None
    measured_on: date | None = None


@dataclass(frozen=True, slots=True)
class OrderLine:
    """What is coming: ordered when, from whom, expected when (None: nobody knows).

    Parameters
    ----------
    batch : str
        What goes together: one parcel, or one lot counted out for plating.
    sent : str
        The holding that was sent away for work, when this line is its coming back.
    carriage, tax : Money or None
        Carriage of the whole batch, on one of its lines; tax within the two. None: not known.
    paid_on : date or None
        When it was paid.
    return_within_days : int or None
        For how long after it comes the supplier takes a wrong one back. [days]
    sent_back_on : date or None
        When what came wrong went back.
    rate : Money or None
        What one of the price's currency was in another, as it was charged: ``0.86 GBP`` for a
        euro. None: not stated.
    """

    id: str
    title: str
    need: str | None = None
    quantity: int = 1
    supplier: str = ""
    source: SourceClass = SourceClass.GENERAL
    ordered_on: date | None = None
    expected_on: date | None = None
    price: Money | None = None
    exchange: Exchange | None = None
    spec: Spec = PlainSpec()
    note: str = ""
    batch: str = ""
    sent: str = ""
    carriage: Money | None = None
    tax: Money | None = None
    paid_on: date | None = None
    return_within_days: int | None = None
    sent_back_on: date | None = None
    rate: Money | None = None

    def __post_init__(self) -> None:
        """An order is for at least one."""
        if self.quantity < 1:
            raise ValueError(f"order {self.id}: quantity is {self.quantity}; it must be 1 or more")


class GoodsIn(StrEnum):
    """The five outcomes of checking a delivery against the old part and the order."""

    RIGHT = "right"
    WRONG = "wrong"
    SHORT = "short"
    DAMAGED = "damaged"
    UNLIKE = "right but unlike what is on the car"


@dataclass(frozen=True, slots=True)
class Delivery:
    """One delivery on an order line, as checked; ``holding`` is what it became, if usable."""

    at: datetime
    seq: int
    outcome: GoodsIn
    quantity: int
    words: str = ""
    holding: str = ""

    def __lt__(self, other: Delivery) -> bool:
        """Earlier in time; at the same moment, earlier in the journal."""
        return (self.at, self.seq) < (other.at, other.seq)

    @property
    def usable(self) -> int:
        """How many of it can be fitted."""
        return self.quantity if self.outcome not in (GoodsIn.WRONG, GoodsIn.DAMAGED) else 0


@dataclass(frozen=True, slots=True)
class OrderRecord:
    """An order line with its deliveries.

    ``expected_since`` is when its date was last given, ``promised_on`` the first that ever was.
    """

    line: OrderLine
    deliveries: tuple[Delivery, ...] = ()
    cancelled: bool = False
    expected_since: datetime | None = None
    promised_on: date | None = None

    def with_delivery(self, delivery: Delivery) -> OrderRecord:
        """Return the record with one more delivery, put where it happened in time."""
        return replace(self, deliveries=tuple(sorted((*self.deliveries, delivery))))

    @property
    def outstanding(self) -> int:
        """How many are still to come."""
        if self.cancelled:
            return 0
        return max(0, self.line.quantity - sum(d.usable for d in self.deliveries))

    @property
    def is_due(self) -> bool:
        """Whether its date still holds: it was given after the last delivery went wrong."""
        if self.line.expected_on is None:
            return False
        if not self.gone_wrong:
            return True
        return self.expected_since is not None and self.expected_since > self.deliveries[-1].at

    @property
    def gone_wrong(self) -> bool:
        """Whether the last delivery was wrong or damaged and nothing has replaced it."""
        if not self.deliveries or not self.outstanding:
            return False
        return self.deliveries[-1].outcome in (GoodsIn.WRONG, GoodsIn.DAMAGED)


class NeedState(StrEnum):
    """How a need stands. *Not known* is not *missing*: look for it."""

    HERE = "here"
    SOME_HERE = "some here"
    COMING = "coming"
    WRONG = "came wrong"
    NOT_HERE = "not here"
    NOT_KNOWN = "not known"
    USED = "used"
