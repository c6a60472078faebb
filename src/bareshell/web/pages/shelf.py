"""The shelf: where a thing lies, what jobs want, kit by kit, and what is coming."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime

from starlette.requests import Request
from starlette.responses import Response

from bareshell.app import reading
from bareshell.model.job import SYSTEMS
from bareshell.model.part import NeedState
from bareshell.web.desk import door_of
from bareshell.web.forms import Form
from bareshell.web.links import asked
from bareshell.web.pieces import Figure
from bareshell.web.slices import Slice, part_of
from bareshell.web.twin import PageRouter, page
from bareshell.whole.places import NO_PLACE, lies_in, walking_order
from bareshell.whole.shelf_overview import (
    ComingView,
    HoldingView,
    KitView,
    NeedView,
    ShelfOverview,
)

router = PageRouter()

FEW = 12
MANY_PLACES = 24
"""So many places can be taken in at a glance."""

MEANS = {
    NeedState.NOT_KNOWN: "look for it",
    NeedState.NOT_HERE: "to be ordered",
    NeedState.WRONG: "to be sent back",
    NeedState.SOME_HERE: "short of some",
    NeedState.COMING: "on its way",
    NeedState.HERE: "on the shelf",
    NeedState.USED: "fitted",
}
"""What each state asks of a person, in the order they are looked at."""


@dataclass(frozen=True, slots=True)
class Hit:
    """Something that was looked for, and where it is."""

    kind: str
    id: str
    title: str
    quantity: int
    place: str
    state: str
    words: str


@dataclass(frozen=True, slots=True)
class ShelfShown:
    """What the page makes of the reading."""

    figures: tuple[Figure, ...]
    states: tuple[tuple[str, str, int], ...]
    places: tuple[tuple[str, int], ...]
    coming: tuple[ComingView, ...]
    kits: tuple[KitView, ...]
    find: str
    hits: Slice[Hit] | None


@dataclass(frozen=True, slots=True)
class NeedsList:
    """What jobs want: those that were asked for."""

    made_at: datetime
    seq: int
    car: str
    invented: bool
    needs: tuple[NeedView, ...]


@dataclass(frozen=True, slots=True)
class HoldingsList:
    """What lies on the shelf: what was asked for."""

    made_at: datetime
    seq: int
    car: str
    invented: bool
    holdings: tuple[HoldingView, ...]
    places: tuple[tuple[str, int], ...]


@dataclass(frozen=True, slots=True)
class KitsList:
    """All that each job wants, as one bag."""

    made_at: datetime
    seq: int
    car: str
    invented: bool
    kits: tuple[KitView, ...]


@dataclass(frozen=True, slots=True)
class ListShown:
    """A part of a list, and what was asked for."""

    part: Slice[NeedView] | Slice[HoldingView] | Slice[KitView]
    answers: dict[str, str]
    here: str
    form: Form
    systems: tuple[str, ...] = ()
    states: tuple[tuple[str, str], ...] = ()
    job_title: str = ""


@router.page("/shelf")
def shelf(request: Request, find: str = "", number: int = 1) -> Response:
    """Show the parts desk; with words, where the thing is."""
    overview = reading.shelf(door_of(request))
    find = find.strip()
    shown = ShelfShown(
        figures=_figures(overview),
        states=tuple(_states(overview.needs)),
        places=_places(overview.holdings),
        coming=overview.coming,
        kits=overview.kits[:FEW],
        find=find,
        hits=part_of(tuple(_hits(overview, find)), number) if find else None,
    )
    return page(request, "shelf/all.html", overview, also=shown)


@router.page("/needs")
def needs(
    request: Request,
    state: str = "",
    system: str = "",
    job: str = "",
    find: str = "",
    number: int = 1,
) -> Response:
    """List what jobs want."""
    overview = reading.shelf(door_of(request))
    words = find.strip().casefold()
    found = tuple(
        need
        for need in overview.needs
        if (need.open or state == NeedState.USED or job)
        and state in ("", need.state)
        and system in ("", need.system)
        and job in ("", need.job)
        and words in f"{need.title} {need.size} {need.job_title} {need.bag}".casefold()
    )
    answers = {"state": state, "system": system, "job": job, "find": find.strip()}
    part = part_of(found, number)
    shown = ListShown(
        part=part,
        answers=answers,
        here=asked("/needs", **answers, number=part.number if part.number > 1 else 0),
        form=Form(),
        systems=_systems(need.system for need in overview.needs),
        states=tuple((str(one), f"{one}: {words}") for one, words in MEANS.items()),
        job_title=next((n.job_title for n in overview.needs if n.job == job), "") if job else "",
    )
    listed = NeedsList(overview.made_at, overview.seq, overview.car, overview.invented, found)
    return page(request, "shelf/needs.html", listed, also=shown)


@router.page("/holdings")
def holdings(request: Request, place: str = "", find: str = "", number: int = 1) -> Response:
    """List what lies on the shelf."""
    overview = reading.shelf(door_of(request))
    words = find.strip().casefold()
    found = tuple(
        sorted(
            (
                one
                for one in overview.holdings
                if one.quantity
                and lies_in(one.where, place)
                and words in f"{one.title} {one.size} {one.where} {one.need_title}".casefold()
            ),
            key=lambda one: (walking_order(one.where), one.title),
        )
    )
    part = part_of(found, number)
    answers = {"place": place, "find": find.strip()}
    shown = ListShown(part, answers, asked("/holdings", **answers), Form())
    listed = HoldingsList(
        overview.made_at,
        overview.seq,
        overview.car,
        overview.invented,
        found,
        _places(overview.holdings),
    )
    return page(request, "shelf/holdings.html", listed, also=shown)


@router.page("/shelf/kits")
def kits(request: Request, system: str = "", number: int = 1) -> Response:
    """List all that each job wants, as one bag."""
    overview = reading.shelf(door_of(request))
    found = tuple(kit for kit in overview.kits if system in ("", kit.system))
    shown = ListShown(
        part_of(found, number),
        {"system": system},
        "/shelf/kits",
        Form(),
        systems=_systems(kit.system for kit in overview.kits),
    )
    listed = KitsList(overview.made_at, overview.seq, overview.car, overview.invented, found)
    return page(request, "shelf/kits.html", listed, also=shown)


def _systems(named: Iterable[str]) -> tuple[str, ...]:
    present = set(named)
    return tuple(system for system in SYSTEMS if system in present)


def _states(needs: Sequence[NeedView]) -> Iterable[tuple[str, str, int]]:
    counts = Counter(need.state for need in needs if need.open)
    for state, words in MEANS.items():
        if counts[state]:
            yield str(state), words, counts[state]


def _places(holdings: Sequence[HoldingView]) -> tuple[tuple[str, int], ...]:
    """Each place and how many different things lie there; what has no place comes last.

    Where there are many, a shelf stands for its bins: what is before the comma.
    """
    here = [one.where or NO_PLACE for one in holdings if one.quantity]
    if len(set(here)) > MANY_PLACES:
        here = [place.partition(",")[0] for place in here]
    counts = Counter(here)
    return tuple(sorted(counts.items(), key=lambda pair: walking_order(pair[0])))


def _figures(overview: ShelfOverview) -> tuple[Figure, ...]:
    complete = sum(1 for kit in overview.kits if kit.here == kit.total)
    counts = Counter(need.state for need in overview.needs if need.open)
    late = sum(1 for one in overview.coming if one.overdue_days)
    back = [one.return_days for one in overview.coming if one.return_days is not None]
    due = f"; an old unit goes back in {max(0, min(back))} days" if back else ""
    return (
        Figure(
            str(complete), f"complete, of {len(overview.kits)} jobs that want something", "kits"
        ),
        Figure(str(counts[NeedState.NOT_KNOWN]), "nobody has looked for yet", "lines"),
        Figure(str(counts[NeedState.NOT_HERE]), "looked for and not here", "lines"),
        Figure(str(len(overview.coming)), f"{late or 'none'} of them late{due}", "coming"),
    )


def _hits(overview: ShelfOverview, find: str) -> Iterable[Hit]:
    """Everything of these words: what lies here first, then what is wanted, then what comes."""
    words = find.casefold().split()

    def fits(*said: str) -> bool:
        whole = " ".join(said).casefold()
        return all(word in whole for word in words)

    # What is called so goes before what is only for a thing called so.
    for one in sorted(overview.holdings, key=lambda one: not fits(one.title)):
        if one.quantity and fits(one.title, one.size, one.need_title, one.where, one.condition):
            said = f"away: {one.away}" if one.away else one.size
            yield Hit(
                "holding", one.id, one.title, one.quantity, one.where or NO_PLACE, "here", said
            )
    for need in overview.needs:
        if need.state != NeedState.HERE and fits(need.title, need.size, need.job_title):
            said = f"for {need.job_title}"
            yield Hit("need", need.id, need.title, need.quantity, "", need.state, said)
    for order in overview.coming:
        if fits(order.title, order.supplier, order.job_title):
            due = f"due {order.expected_on.day} {order.expected_on:%b}" if order.expected_on else ""
            said = ", ".join(word for word in (order.supplier, due) if word)
            state = "came wrong" if order.state == "came wrong" else "coming"
            yield Hit("order", order.id, order.title, order.outstanding, "", state, said)
