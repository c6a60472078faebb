"""Proofs: what is owed and what stands, the ladder of gates, what must not stay on the car."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import tzinfo

from starlette.requests import Request
from starlette.responses import Response

from bareshell.app import opening, reading
from bareshell.app.opening import KnownTemp
from bareshell.draw.ladder import Rung
from bareshell.model.job import SYSTEMS
from bareshell.model.proof import ProofState
from bareshell.web.desk import door_of, zone_for
from bareshell.web.forms import Form
from bareshell.web.pieces import Figure
from bareshell.web.twin import PageRouter, page
from bareshell.whole.opened import GatePage, every_proof
from bareshell.whole.proofs_overview import GateView, ProofsOverview, ProofView

router = PageRouter()

FEW = 12
"""So many lines may stand on the page with no drawer round them."""

_RUNG_FIELDS = {
    ProofState.COVERED: "covered",
    ProofState.SUBSTITUTED: "substituted",
}


@dataclass(frozen=True, slots=True)
class Sifted:
    """Which proofs are asked for: any of these may be empty."""

    system: str = ""
    state: str = ""
    gate: str = ""
    find: str = ""

    @property
    def narrowed(self) -> bool:
        """Whether only some are asked for, whatever their words."""
        return bool(self.system or self.state or self.gate)

    @property
    def asked(self) -> bool:
        """Whether anything was asked for at all."""
        return self.narrowed or bool(self.find)

    def admits(self, view: ProofView) -> bool:
        """Whether a proof is among those asked for."""
        words = f"{view.title} {view.about} {view.limit} {' '.join(view.made_by)}".casefold()
        return (
            self.system in ("", view.system)
            and self.state in ("", view.state)
            and (not self.gate or self.gate in view.gates)
            and self.find.casefold() in words
        )


@dataclass(frozen=True, slots=True)
class Drawer:
    """Proofs that belong together, shut away until they are wanted."""

    name: str
    proofs: tuple[ProofView, ...]
    state: str = ""
    system: str = ""
    group: str = ""
    open: bool = False


@dataclass(frozen=True, slots=True)
class ProofsShown:
    """What the page makes of the reading."""

    figures: tuple[Figure, ...]
    rungs: tuple[Rung, ...]
    marks: tuple[str, ...]
    next_gates: tuple[GatePage, ...]
    now: tuple[ProofView, ...]
    drawers: tuple[Drawer, ...]
    temps: tuple[KnownTemp, ...]
    sifted: Sifted
    systems: tuple[str, ...]
    gates: tuple[str, ...]
    form: Form
    zone: tzinfo
    states: tuple[str, ...] = tuple(ProofState)


@router.page("/proofs")
def proofs(
    request: Request, system: str = "", state: str = "", gate: str = "", find: str = ""
) -> Response:
    """Show what is owed and what stands."""
    door = door_of(request)
    overview = reading.proofs(door)
    sifted = Sifted(system, state, gate, find.strip())
    every = tuple(every_proof(overview))
    found = tuple(view for view in every if sifted.admits(view))
    next_gates = tuple(opening.gate(door, one.id) for one in overview.gates if one.state == "next")
    shown = ProofsShown(
        figures=_figures(overview, every),
        rungs=rungs(overview),
        marks=_marks(overview),
        next_gates=next_gates,
        now=() if sifted.asked else first_now(next_gates, every),
        drawers=tuple(
            _found(found) if sifted.asked else _drawers(next_gates, every, overview.not_asked)
        ),
        temps=opening.temps(door),
        sifted=sifted,
        systems=tuple(s for s in SYSTEMS if any(view.system == s for view in every)),
        gates=tuple(one.title for one in overview.gates),
        form=Form(),
        zone=zone_for(door),
    )
    return page(request, "proofs/all.html", overview, also=shown)


def wants_hands(view: ProofView) -> bool:
    """Whether something can be done about a proof now."""
    if view.state in (ProofState.FAILED, ProofState.BEGUN):
        return True
    return view.state in (ProofState.OWED, ProofState.SPENT) and view.due


def first_now(next_gates: Sequence[GatePage], every: Sequence[ProofView]) -> tuple[ProofView, ...]:
    """What to show first: what went wrong, what runs, and what the next gates ask for.

    What stands before the very next gate is on the page already; the rest of what could be
    shown now lies in its drawer, unless it is little.
    """
    between = {key for gate in next_gates[:1] for key in (view.id for view in gate.proofs)}
    able = [view for view in every if wants_hands(view) and view.id not in between]
    coming = {gate.gate.title for gate in next_gates}
    pressing = [v for v in able if v.state != ProofState.OWED or coming.intersection(v.gates)]
    return tuple(able if len(able) <= FEW else pressing)


def rungs(overview: ProofsOverview) -> tuple[Rung, ...]:
    """The ladder's rungs, each named so that no two are called the same."""
    titles = [gate.title for gate in overview.gates]
    names = {
        gate.id: gate.title if titles.count(gate.title) == 1 else f"{gate.title} ({gate.id})"
        for gate in overview.gates
    }
    return tuple(_rung(gate, names, overview) for gate in overview.gates)


def _rung(gate: GateView, names: dict[str, str], overview: ProofsOverview) -> Rung:
    counts = {
        _RUNG_FIELDS.get(ProofState(state), state): count for state, count in gate.proof_states
    }
    return Rung(
        name=names[gate.id],
        state=gate.state,
        after=tuple(names[key] for key in gate.after if key in names),
        when=f"{gate.passed_at.day} {gate.passed_at:%b}" if gate.passed_at else "",
        temps=sum(1 for temp in overview.temps if temp.gate == gate.id),
        **counts,
    )


def _marks(overview: ProofsOverview) -> tuple[str, ...]:
    """The marks the ladder uses, for its key."""
    used = {state for gate in overview.gates for state, _ in gate.proof_states}
    return tuple(str(state) for state in ProofState if state in used)


def _figures(overview: ProofsOverview, every: Sequence[ProofView]) -> tuple[Figure, ...]:
    due = sum(1 for view in overview.owed if view.due)
    broken = len(overview.spent) + len(overview.failed)
    buried = len(overview.covered_unproven)
    return (
        Figure(str(len(overview.held)), f"held, of {len(every)} proofs"),
        Figure(str(len(overview.owed)), f"owed; {due or 'none'} can be shown now"),
        Figure(str(buried), "covered, unproven: hidden, never shown to be right")
        if buried
        else Figure(str(broken), "spent or failed: to be shown again"),
        Figure(str(len(overview.temps)), "temps on the car that must not stay"),
    )


def _found(found: Iterable[ProofView]) -> Iterable[Drawer]:
    """What was asked for, by state, every drawer open."""
    by_state: dict[str, list[ProofView]] = {}
    for view in found:
        by_state.setdefault(view.state, []).append(view)
    for state, views in by_state.items():
        yield Drawer(state, tuple(views), state, open=True)


def _drawers(
    next_gates: Sequence[GatePage], every: Sequence[ProofView], not_asked: tuple[ProofView, ...]
) -> Iterable[Drawer]:
    """The rest: what could be shown now too, what waits for work, by system; what stands.

    The figure before each group's name is its place on the page.
    """
    shown = {view.id for view in first_now(next_gates, every)}
    shown |= {view.id for gate in next_gates[:1] for view in gate.proofs}
    rest = [view for view in every if view.id not in shown]
    able = [view for view in rest if wants_hands(view)]
    waits = [
        view
        for view in rest
        if view.state in (ProofState.OWED, ProofState.SPENT) and not wants_hands(view)
    ]
    yield from _by_system(able, "1Can be shown now too")
    yield from _by_system(waits, "2When the work is done")
    for state in (ProofState.SUBSTITUTED, ProofState.HELD):
        good = tuple(view for view in every if view.state == state)
        if good:
            yield Drawer(str(state), good, str(state), group="3Good")
    if not_asked:
        yield Drawer("its work is left out", not_asked, "left-out", group="4Not asked for")


def _by_system(views: Sequence[ProofView], group: str) -> Iterable[Drawer]:
    for system in (*SYSTEMS, ""):
        mine = tuple(view for view in views if view.system == system)
        if mine:
            yield Drawer(system or "of no job", mine, "owed", system, group)
