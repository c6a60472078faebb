"""Changes to needs, holdings and orders."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import ClassVar

from bareshell.model.changes.base import Change, register
from bareshell.model.part import GoodsIn, Holding, Need, OrderLine


@register
@dataclass(frozen=True, slots=True)
class NeedSet(Change):
    """A job wants something; added or corrected."""

    KIND: ClassVar[str] = "need-set"
    VERSION: ClassVar[int] = 3

    need: Need

    @property
    def subject(self) -> str:
        """See ``Change.subject``."""
        return f"need:{self.need.id}"


@register
@dataclass(frozen=True, slots=True)
class NeedDropped(Change):
    """A job does not want it after all."""

    KIND: ClassVar[str] = "need-dropped"

    need_id: str

    @property
    def subject(self) -> str:
        """See ``Change.subject``."""
        return f"need:{self.need_id}"


@register
@dataclass(frozen=True, slots=True)
class NeedNotHere(Change):
    """It was looked for and is not here."""

    KIND: ClassVar[str] = "need-not-here"

    need_id: str
    words: str = ""

    @property
    def subject(self) -> str:
        """See ``Change.subject``."""
        return f"need:{self.need_id}"


@register
@dataclass(frozen=True, slots=True)
class HoldingSet(Change):
    """Something is on the shelf; recorded or corrected, quantity included."""

    KIND: ClassVar[str] = "holding-set"
    VERSION: ClassVar[int] = 2

    holding: Holding

    @property
    def subject(self) -> str:
        """See ``Change.subject``."""
        return f"holding:{self.holding.id}"


@register
@dataclass(frozen=True, slots=True)
class HoldingDropped(Change):
    """It is no longer on the shelf."""

    KIND: ClassVar[str] = "holding-dropped"

    holding_id: str
    words: str = ""

    @property
    def subject(self) -> str:
        """See ``Change.subject``."""
        return f"holding:{self.holding_id}"


@register
@dataclass(frozen=True, slots=True)
class OrderSet(Change):
    """Something was ordered; recorded or corrected."""

    KIND: ClassVar[str] = "order-set"
    VERSION: ClassVar[int] = 3

    line: OrderLine

    @property
    def subject(self) -> str:
        """See ``Change.subject``."""
        return f"order:{self.line.id}"


@register
@dataclass(frozen=True, slots=True)
class OrderExpected(Change):
    """A new date on which an order is expected; None when nobody knows."""

    KIND: ClassVar[str] = "order-expected"

    order_id: str
    expected_on: date | None
    words: str = ""

    @property
    def subject(self) -> str:
        """See ``Change.subject``."""
        return f"order:{self.order_id}"


@register
@dataclass(frozen=True, slots=True)
class OrderCancelled(Change):
    """An order was cancelled."""

    KIND: ClassVar[str] = "order-cancelled"

    order_id: str
    words: str = ""

    @property
    def subject(self) -> str:
        """See ``Change.subject``."""
        return f"order:{self.order_id}"


@register
@dataclass(frozen=True, slots=True)
class GoodsChecked(Change):
    """A delivery was checked against the old part and the order. A usable one becomes a holding.

    ``holding`` names that holding when it had a name already (in a build file); otherwise it
    is named for the order and the entry.
    """

    KIND: ClassVar[str] = "goods-checked"

    order_id: str
    outcome: GoodsIn
    quantity: int
    where: str = ""
    words: str = ""
    holding: str = ""

    @property
    def subject(self) -> str:
        """See ``Change.subject``."""
        return f"order:{self.order_id}"


@register
@dataclass(frozen=True, slots=True)
class ExchangeReturned(Change):
    """The old unit went back."""

    KIND: ClassVar[str] = "exchange-returned"

    order_id: str
    returned_on: date

    @property
    def subject(self) -> str:
        """See ``Change.subject``."""
        return f"order:{self.order_id}"
