"""Does it fit, may it stand in: asked of the shelf, and written down when it is used."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime

from bareshell.app.door import Door
from bareshell.app.filled import Fields
from bareshell.app.parts_desk import holding_of, need_of
from bareshell.app.shelving import sent_before
from bareshell.app.written import Pen, Written, filled, new_key, write_down
from bareshell.errors import Refused
from bareshell.model import Build
from bareshell.model.part import Holding, Need
from bareshell.model.standing import need_standings
from bareshell.parts import FitWord
from bareshell.parts.stand_in import StandInWord
from bareshell.whole.fit_answer import (
    Candidate,
    NeedFits,
    ShelfMatches,
    candidate,
    need_fits,
    shelf_matches,
)
from bareshell.whole.garage_time import zone_of
from bareshell.whole.shelf_moves import put_aside
from bareshell.whole.stand_in_answer import TempIds, changes_for_temp


@dataclass(frozen=True, slots=True)
class FitPage:
    """One thing on the shelf held against one need, with everything behind the verdict."""

    made_at: datetime
    seq: int
    car: str
    invented: bool
    need: str
    title: str
    size: str
    missing: int
    relied_on: str
    found: Candidate
    may_use: bool
    may_be_temp: bool


def fits(door: Door, need_id: str) -> NeedFits:
    """Hold one need against the shelf.

    Raises
    ------
    NotFound
        When there is no such need.
    """
    need_of(door, need_id)
    build, now, today = _now(door)
    return need_fits(build, need_id, now, today)


def matches(door: Door) -> ShelfMatches:
    """Hold every need that is not met against everything that is free."""
    build, now, today = _now(door)
    return shelf_matches(build, now, today)


def fit_page(door: Door, need_id: str, holding_id: str) -> FitPage:
    """Hold one thing on the shelf against one need.

    Raises
    ------
    NotFound
        When there is no such need or holding.
    """
    need, holding = need_of(door, need_id), holding_of(door, holding_id)
    build, now, today = _now(door)
    found = candidate(build, need, holding, today)
    whole = need_fits(build, need_id, now, today)
    mine = holding.need == need_id
    return FitPage(
        now,
        build.seq,
        whole.car,
        whole.invented,
        need_id,
        need.title,
        whole.size,
        whole.missing,
        whole.relied_on,
        found,
        may_use=not mine and bool(holding.quantity) and _is_usable(found),
        may_be_temp=not mine and _is_temp(found),
    )


def _is_usable(found: Candidate) -> bool:
    if found.word != FitWord.WILL_NOT_DO:
        return not _is_temp(found)
    return found.stand_in is not None and found.stand_in.word == StandInWord.FITS


def _is_temp(found: Candidate) -> bool:
    return found.stand_in is not None and found.stand_in.word == StandInWord.TEMP


def use(door: Door, need_id: str, holding_id: str, fields: Fields, pen: Pen) -> Written:
    """Put something on the shelf aside for a need that it fits.

    Raises
    ------
    Refused
        When it does not fit, or is a temp at best.
    BadInput
        When so many do not lie there.
    """
    if before := sent_before(door, pen, f"need:{need_id}"):
        return before
    need, holding = need_of(door, need_id), holding_of(door, holding_id)
    build, _, today = _now(door)
    found = candidate(build, need, holding, today)
    if not _is_usable(found):
        raise Refused(
            "fit",
            f"'{holding.title}' does not fit '{need.title}': {_why(found)}",
            "measure again and correct its sizes, or look for another",
        )
    form = filled(door, fields)
    count = form.whole("quantity", "how many")
    form.check()
    count = _missing(build, need, holding) if count is None else count
    stands_in = found.word == FitWord.WILL_NOT_DO and found.stand_in is not None
    note = f"in place of {need.title}: {found.stand_in.says}" if found.stand_in else ""
    part_id = f"{holding_id}.{pen.entry_id[-8:] if pen.entry_id else build.seq + 1}"
    changes = put_aside(build, holding_id, need_id, count, part_id, note if stands_in else "")
    words = [f"{count} x {holding.title} put aside for '{need.title}'."]
    if found.doubt:
        words.append(f"{found.doubt[:1].upper()}{found.doubt[1:]}.")
    elif found.word == FitWord.NOT_KNOWN:
        words.append("Not every size is known: measure it before you fit it.")
    return write_down(door, changes, pen, lambda: words)


def _why(found: Candidate) -> str:
    return found.stand_in.says if found.stand_in else found.says


def _missing(build: Build, need: Need, holding: Holding) -> int:
    here = need_standings(build)[need.id].here
    return max(1, min(holding.quantity, need.quantity - here))


def use_as_temp(door: Door, need_id: str, holding_id: str, fields: Fields, pen: Pen) -> Written:
    """Fit something for the time being: it stands in the register of temps at once.

    Raises
    ------
    Refused
        When it does not do as a temp.
    """
    if before := sent_before(door, pen, f"need:{need_id}"):
        return before
    need, holding = need_of(door, need_id), holding_of(door, holding_id)
    build = door.build()

    def key(kind: str, title: str, taken: object) -> str:
        return new_key(door, kind, title, taken, pen.entry_id)  # type: ignore[arg-type]

    ids = TempIds(
        temp=key("temp", f"{holding.title} for {need.title}", build.temps),
        job=key("job", f"right {need.title}", build.jobs),
        stand_in=key("need", f"stand-in {need.title}", build.needs),
        right=key("need", f"right {need.title}", build.needs),
        holding=key("holding", f"{holding.title} stand-in", build.holdings),
    )
    words = filled(door, fields).text("words")
    changes = changes_for_temp(build, need_id, holding_id, ids, words)

    def said() -> tuple[str, ...]:
        temp = door.build().temps[ids.temp].temp
        gate = door.build().gates[temp.gate].gate.title
        return (
            f"'{temp.title}' stands among the temps: gone before the gate '{gate}'.",
            f"'{need.title}' stays wanted, by a job of its own that ends the temp.",
        )

    return write_down(door, changes, pen, said)


def _now(door: Door) -> tuple[Build, datetime, date]:
    build, now = door.build(), door.now()
    return build, now, now.astimezone(zone_of(build)).date()
