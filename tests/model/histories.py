"""Any history of a small build: what can be written down about it, in any order."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta

from hypothesis import strategies as st

from bareshell.errors import BareshellError
from bareshell.model import Build, Entry, decide
from bareshell.model import changes as c
from bareshell.model.fold import Draft, play
from bareshell.model.job import Job
from bareshell.model.part import GoodsIn, Holding, Need, OrderLine
from bareshell.model.position import Placement, Support, SupportKind, Wheels
from bareshell.model.proof import Proof, ProofStanding
from bareshell.model.standing import NeedStanding, need_standings, open_temps, proof_standings
from bareshell.model.temp import Gate, Temp

BEGAN = datetime(2026, 1, 1, tzinfo=UTC)
JOBS = ("pipe", "hose", "tank", "seam")

DEFINITIONS: tuple[c.Change, ...] = (
    *(
        c.SupportSet(Support(key, key, SupportKind.STANDS, frozenset(), Wheels.EITHER))
        for key in ("stands", "wheels")
    ),
    *(c.JobSet(Job(key, key.title(), "brakes")) for key in JOBS),
    c.GateSet(Gate("under", "Under", (), ("pipe",), ("tank",))),
    c.NeedSet(Need("union", "Union", "pipe", 2)),
    c.NeedSet(Need("clip", "Clip", "hose")),
    c.OrderSet(OrderLine("o-union", "Unions", "union", 4)),
    c.OrderSet(OrderLine("o-clip", "Clips", "clip", 1)),
    c.ProofSet(Proof("dry", "Dry", made_by=("pipe",), proven_by="hose", covered_by=("tank",))),
    c.ProofSet(Proof("air", "No air", made_by=("pipe",), spent_by=("hose",))),
    c.ProofSet(Proof("seen", "Seen", made_by=("seam",), covered_by=("tank", "hose"))),
    c.TempSet(Temp("rag", "Rag", gate="under", raised_by="pipe", cleared_by="hose")),
)


def happenings() -> st.SearchStrategy[c.Change]:
    """Anything that can happen to the small build."""
    job = st.sampled_from(JOBS)
    proof = st.sampled_from(["dry", "seen", "air"])
    hours = st.sampled_from([None, 0.5, 1.0, 2.0])
    order = st.sampled_from(["o-union", "o-clip"])
    need = st.sampled_from(["union", "clip"])
    return st.one_of(
        st.builds(c.JobStarted, job),
        st.builds(c.JobWorked, job, hours, hours),
        st.builds(c.JobFinished, job, hours),
        st.builds(c.JobTakenOff, job),
        st.builds(c.JobDoneBefore, job),
        st.builds(c.JobNotDone, job),
        st.builds(c.JobLeftOut, job),
        st.builds(c.JobTakenIn, job),
        st.builds(c.ProofBegun, proof),
        st.builds(c.ProofHeld, proof),
        st.builds(c.ProofFailed, proof),
        st.builds(c.ProofSpent, proof),
        st.builds(c.ProofUncovered, proof),
        st.builds(c.ProofSubstituted, proof, st.just("held by other means")),
        st.builds(
            c.GoodsChecked, order, st.sampled_from(list(GoodsIn)), st.integers(1, 3), st.just("")
        ),
        st.builds(c.OrderExpected, order, st.just(date(2026, 2, 1))),
        st.builds(c.OrderCancelled, order),
        st.builds(c.NeedNotHere, need),
        st.builds(
            c.HoldingSet, st.builds(Holding, need.map("h-{}".format), st.just("It"), need=need)
        ),
        st.builds(c.HoldingDropped, need.map("h-{}".format)),
        st.builds(c.TempRaised, st.just("rag")),
        st.builds(c.TempCleared, st.just("rag")),
        st.builds(c.GatePassed, st.just("under"), st.just("the owner")),
        st.builds(c.CarPlaced, st.builds(Placement, st.sampled_from(["stands", "wheels"]))),
    )


@st.composite
def histories(draw: st.DrawFn, most: int = 16) -> list[Entry]:
    """A journal of the small build: each entry was true when it was written down.

    Things are written down in another order than they happened in, and no two happened at the
    same moment.
    """
    wanted = draw(st.lists(happenings(), max_size=most))
    hours = draw(
        st.lists(st.integers(1, 10_000), min_size=len(wanted), max_size=len(wanted), unique=True)
    )
    entries: list[Entry] = []
    draft = Draft()
    moments = [BEGAN] * len(DEFINITIONS) + [BEGAN + timedelta(hours=h) for h in hours]
    for change, at in zip((*DEFINITIONS, *wanted), moments, strict=True):
        try:
            decide(draft.freeze(), change)
        except BareshellError:
            continue
        seq = len(entries) + 1
        written = BEGAN + timedelta(days=600, minutes=seq)
        entry = Entry(seq, f"e{seq}", at, written, "owner", change)
        draft.seq = seq
        play(draft, entry, seq)
        entries.append(entry)
    return entries


@dataclass(frozen=True)
class Stands:
    """How everything stands, without the numbers of the entries that say so."""

    jobs: dict[str, object]
    proofs: dict[str, ProofStanding]
    needs: dict[str, tuple[object, int, int]]
    temps: tuple[str, ...]
    placement: Placement | None
    gates: dict[str, object]
    orders: dict[str, tuple[int, bool]]


def stands(build: Build) -> Stands:
    """Return how everything stands in a build."""

    def need(standing: NeedStanding) -> tuple[object, int, int]:
        return standing.state, standing.here, standing.coming

    return Stands(
        {key: record.state for key, record in build.jobs.items()},
        proof_standings(build),
        {key: need(standing) for key, standing in need_standings(build).items()},
        open_temps(build),
        build.placement,
        {key: record.passed for key, record in build.gates.items()},
        {key: (record.outstanding, record.gone_wrong) for key, record in build.orders.items()},
    )
