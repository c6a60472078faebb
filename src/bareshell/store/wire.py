"""The wire form: a change as JSON and back, for ever.

Writing is done here by hand, field by field, so that the same change always makes the same
bytes and no default is left unsaid (a default that changes later must not change the past).
Reading is pydantic's, strictly: a figure written as a word is refused, not guessed.

A kind of change is never removed and its meaning never altered. When its shape must change,
its ``VERSION`` goes up and an up-caster here turns the old body into the new one.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping
from dataclasses import fields, is_dataclass
from datetime import UTC, date, datetime, time
from decimal import Decimal
from enum import Enum
from typing import TYPE_CHECKING, Any

from bareshell.errors import BadInput, Damaged
from bareshell.model.changes import CHANGES, Change, Unread
from bareshell.store.garage_lifts import lift_garage, lift_garage_nights, lift_job, lift_move
from bareshell.store.part_lifts import (
    lift_car,
    lift_duty,
    lift_holding,
    lift_need,
    lift_order,
    lift_rate,
)
from bareshell.store.proof_lifts import lift_proof, lift_proof_fixings

if TYPE_CHECKING:
    from pydantic import TypeAdapter, ValidationError

Body = dict[str, Any]
UpCaster = Callable[[Body], Body]

UP_CASTERS: dict[tuple[str, int], UpCaster] = {
    ("car-described", 1): lift_car,
    ("need-set", 1): lift_need,
    ("need-set", 2): lift_duty,
    ("holding-set", 1): lift_holding,
    ("order-set", 1): lift_order,
    ("order-set", 2): lift_rate,
    ("proof-set", 1): lift_proof,
    ("proof-set", 2): lift_proof_fixings,
    ("garage-described", 1): lift_garage,
    ("garage-described", 2): lift_garage_nights,
    ("job-set", 1): lift_job,
    ("support-move-set", 1): lift_move,
}
"""From (kind, version) to the function that makes a body of the next version of it."""


def up_casts(kind: str, from_version: int) -> Callable[[UpCaster], UpCaster]:
    """Register a function that lifts a body of ``kind`` by one version."""

    def put(caster: UpCaster) -> UpCaster:
        UP_CASTERS[kind, from_version] = caster
        return caster

    return put


# --- writing ---------------------------------------------------------------------------------


def to_plain(value: object) -> object:
    """Turn a model value into what JSON can hold; the same value gives the same form always.

    Examples
    --------
    >>> from bareshell.model.trust import ThreePoint
    >>> to_plain(ThreePoint(1, 2, 4))
    {'optimistic_hours': 1, 'likely_hours': 2, 'pessimistic_hours': 4}
    """
    if isinstance(value, Enum):
        return value.value
    if value is None or isinstance(value, str | int | float):
        return value
    if is_dataclass(value):
        return {spec.name: to_plain(getattr(value, spec.name)) for spec in fields(value)}
    if isinstance(value, tuple | list):
        return [to_plain(item) for item in value]
    if isinstance(value, frozenset | set):
        # A set has no order of its own; sorted, it reads the same in every process.
        return sorted((to_plain(item) for item in value), key=str)
    if isinstance(value, Mapping):
        return {str(to_plain(key)): to_plain(item) for key, item in value.items()}
    if isinstance(value, datetime | date | time):
        return value.isoformat()
    if isinstance(value, Decimal):
        return str(value)
    raise TypeError(f"{type(value).__name__} has no wire form")


def encode(change: Change) -> str:
    """Write a change as one line of JSON.

    Raises
    ------
    BadInput
        When a figure is infinite or not a number, which JSON cannot hold.

    Examples
    --------
    >>> from bareshell.model.changes import JobStarted
    >>> encode(JobStarted("bleed"))
    '{"job_id":"bleed"}'
    """
    try:
        return json.dumps(
            to_plain(change), ensure_ascii=False, allow_nan=False, separators=(",", ":")
        )
    except ValueError as error:
        raise BadInput(
            kind_in_words(change.KIND),
            "a figure in it is infinite or not a number",
            "give a figure",
        ) from error


def written(moment: datetime) -> str:
    """Write a moment as UTC in a fixed width, so that text order is time order.

    Examples
    --------
    >>> written(datetime(2026, 3, 4, 19, 5, tzinfo=UTC))
    '2026-03-04T19:05:00.000000Z'
    """
    return moment.astimezone(UTC).replace(tzinfo=None).isoformat(timespec="microseconds") + "Z"


def moment(text: str) -> datetime:
    """Read what ``written`` wrote.

    Raises
    ------
    Damaged
        When it is no moment, or has no time zone.
    """
    try:
        found = datetime.fromisoformat(text)
    except ValueError as error:
        raise Damaged(f"the journal holds a time that is none: '{text}'") from error
    if found.tzinfo is None:
        raise Damaged(f"the journal holds a time without a zone: '{text}'")
    return found.astimezone(UTC)


# --- reading ---------------------------------------------------------------------------------


_ADAPTERS: dict[type[Change], TypeAdapter[Change]] = {}


def _adapter(cls: type[Change]) -> TypeAdapter[Change]:
    # Built when first met: a command that reads ten entries pays for the kinds among them only.
    found = _ADAPTERS.get(cls)
    if found is None:
        from pydantic import TypeAdapter

        found = _ADAPTERS[cls] = TypeAdapter(cls)
    return found


def decode(kind: str, version: int, about: str, body: str) -> Change:
    """Read a change from its journal form.

    A kind or version that this bareshell does not know comes back as ``Unread``.

    Raises
    ------
    Damaged
        When the body is not what a change of that kind and version looks like.
    """
    cls = CHANGES.get(kind)
    if cls is None or version > cls.VERSION:
        return Unread(kind, version, about, body)
    try:
        if version < cls.VERSION:
            body = lifted(kind, version, cls.VERSION, body)
        return _adapter(cls).validate_json(body, strict=True)
    except ValueError as error:
        raise Damaged(
            f"an entry ({kind_in_words(kind)}) cannot be read: {_first_fault(error)}",
            "open the newest backup that reads",
        ) from error


def lifted(kind: str, version: int, to: int, body: str) -> str:
    """Lift a body from an old version of its kind to a newer one, a version at a time."""
    plain = json.loads(body)
    for step in range(version, to):
        caster = UP_CASTERS.get((kind, step))
        if caster is None:
            raise Damaged(
                f"nothing reads version {step} of {kind_in_words(kind)}",
                "install the bareshell that wrote it",
            )
        plain = caster(plain)
    return json.dumps(plain)


def as_kept(change: Change) -> tuple[str, Change]:
    """Return the JSON of a change and the change as anyone will read it back.

    What is folded is what was written, to the last type; a value of the wrong type is caught
    here, before it can enter the journal.

    Raises
    ------
    BadInput
        Naming the field that cannot be kept.
    """
    if CHANGES.get(change.KIND) is not type(change):
        raise BadInput(
            "entry", f"{kind_in_words(change.KIND)} is no kind of change that can be kept"
        )
    body = encode(change)
    try:
        return body, _adapter(type(change)).validate_json(body, strict=True)
    except ValueError as error:
        raise BadInput(kind_in_words(change.KIND), _first_fault(error)) from error


def kind_in_words(kind: str) -> str:
    """Return a wire name as words: ``job-set`` becomes ``job set``."""
    return kind.replace("-", " ")


def _first_fault(error: ValueError | ValidationError) -> str:
    from pydantic import ValidationError

    if not isinstance(error, ValidationError):
        return str(error)
    fault = error.errors(include_url=False, include_context=False)[0]
    where = ", ".join(str(part).replace("_", " ") for part in fault["loc"])
    return f"{where}: {fault['msg']}" if where else str(fault["msg"])
