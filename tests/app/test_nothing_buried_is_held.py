"""Whatever is done through the door, a buried unproven joint is never shown as held.

The judge reads the journal's entries alone, in the order in which they happened; it shares
nothing with the reading of standings that it judges.
"""

from __future__ import annotations

import sys
import tempfile
from collections.abc import Callable
from dataclasses import dataclass, field, replace
from datetime import datetime, timedelta
from pathlib import Path

import pytest
from hypothesis import Phase, settings
from hypothesis import strategies as st
from hypothesis.stateful import (
    RuleBasedStateMachine,
    initialize,
    invariant,
    rule,
    run_state_machine_as_test,
)

from bareshell.app.door import Door
from bareshell.errors import BareshellError
from bareshell.model import changes as c
from bareshell.model import decide, standing
from bareshell.model import proof as proofs
from bareshell.model.entry import Entry, Standing
from bareshell.model.fold import withdrawn_ids
from bareshell.model.job import JobStatus
from bareshell.model.proof import Proof, ProofEventKind, ProofState
from bareshell.model.standing import gate_standings, proof_standings
from tests.stories import NOW, small_car_changes

DECIDING = sys.modules[decide.__module__]
JOINT = "rear-joint"
GOOD = {ProofState.HELD, ProofState.SUBSTITUTED}
JOBS = ("rear-pipe", "rear-hose", "hold", "tank", "seam", "wheels-on", "carb")
ON = (c.JobFinished, c.JobDoneBefore)
OFF = (c.JobTakenOff, c.JobNotDone)


@dataclass
class Judged:
    """What the entries say of one joint, read by hand."""

    seen: bool = True
    shown: bool = False
    failed: bool = False
    named: bool = False
    over: set[str] = field(default_factory=set)

    @property
    def buried(self) -> bool:
        """Hidden, never shown, with no substitute by name."""
        return not self.seen and not (self.shown or self.named)

    def spend(self) -> None:
        self.shown = self.named = False

    def take(self, change: c.Change, proof: Proof) -> None:
        """Go on by one entry."""
        made = {*proof.made_by, *((proof.proven_by,) if proof.proven_by else ())}
        key = getattr(change, "job_id", None)
        if isinstance(change, OFF) and key in made:
            self.spend()
        if isinstance(change, c.JobWorked | c.JobFinished) and key in proof.spent_by:
            self.spend()
        if isinstance(change, ON) and key in proof.covered_by:
            self.over.add(str(key))
            self.seen = False
        if isinstance(change, OFF) and key in self.over:
            self.over.discard(str(key))
            if not self.over:
                self.seen, self.named = True, False
        match change:
            case c.ProofHeld():
                self.shown = self.shown or self.seen
                self.failed = False
            case c.ProofBegun() if self.seen:
                self.shown = self.failed = False
            case c.ProofFailed():
                self.spend()
                self.failed = True
            case c.ProofSpent():
                self.spend()
            case c.ProofUncovered():
                self.seen, self.named = True, False
            case c.ProofSubstituted():
                self.named = self.named or not (self.seen or self.shown)


def judged(entries: tuple[Entry, ...], proof: Proof) -> Judged:
    """Read the entries that count, in the order in which they happened."""
    gone = withdrawn_ids(entries)
    settled = {
        e.change.entry_id for e in entries
        if isinstance(e.change, c.Settled) and e.change.keep and e.id not in gone
    }  # fmt: skip
    counted = [
        e for e in entries
        if e.id not in gone and (e.standing is Standing.KEPT or e.id in settled)
    ]  # fmt: skip
    found = Judged()
    for entry in sorted(counted, key=lambda e: (e.happened_at, e.seq)):
        if getattr(entry.change, "proof_id", JOINT) == JOINT:
            found.take(entry.change, proof)
    return found


def _actions() -> st.SearchStrategy[c.Change]:
    job = st.sampled_from(JOBS)
    over = st.sampled_from(["tank", "tank", "seam", "rear-pipe"])
    gate = st.sampled_from(["under-car", "road"])
    return st.one_of(
        *(st.builds(kind, over) for kind in (c.JobFinished, c.JobTakenOff, c.JobNotDone)),
        *(st.builds(kind, job) for kind in (c.JobStarted, c.JobFinished, c.JobDoneBefore)),
        *(st.builds(kind, job) for kind in (c.JobTakenOff, c.JobLeftOut, c.JobTakenIn)),
        st.builds(c.JobWorked, job, st.just(0.5)),
        *(st.just(kind(JOINT)) for kind in (c.ProofBegun, c.ProofHeld, c.ProofHeld)),
        *(st.just(kind(JOINT)) for kind in (c.ProofFailed, c.ProofSpent, c.ProofUncovered)),
        st.just(c.ProofSubstituted(JOINT, "gauge steady 12 h")),
        st.builds(c.TempCleared, st.just("caps")),
        st.builds(c.GatePassed, gate, st.just("owner")),
    )


class Burying(RuleBasedStateMachine):
    """Anything that a person does about one joint, its covers and its gates."""

    def __init__(self) -> None:
        super().__init__()
        self.place = tempfile.TemporaryDirectory()
        self.steps = 0
        self.door = Door.open(
            Path(self.place.name), create=True, clock=lambda: NOW + timedelta(days=900)
        )

    @initialize(half_built=st.booleans(), spent_by=st.booleans())
    def begin(self, half_built: bool, spent_by: bool) -> None:
        self.door.record(small_car_changes())
        if spent_by:
            proof = self.door.build().proofs[JOINT].proof
            self.door.record(c.ProofSet(replace(proof, spent_by=("rear-hose",))))
        if half_built:
            done = [c.JobDoneBefore(key) for key in ("rear-pipe", "rear-hose", "hold", "tank")]
            self.door.record(done, happened_at=NOW - timedelta(days=9))

    def _moment(self, back: int) -> datetime:
        self.steps += 1
        return NOW + timedelta(hours=self.steps * 10 - back * 10, minutes=self.steps)

    def _judged(self) -> Judged:
        return judged(self.door.entries(), self.door.build().proofs[JOINT].proof)

    @rule(changes=st.lists(_actions(), min_size=1, max_size=3), back=st.integers(0, 3))
    def act(self, changes: list[c.Change], back: int) -> None:
        for change in changes:
            was, open_before = self._judged(), self._passed()
            try:
                self.door.record(change, happened_at=self._moment(back))
            except BareshellError:
                continue
            if self._passed() - open_before:
                assert not was.buried, "a gate was passed over a buried unproven joint"

    def _passed(self) -> set[str]:
        return {key for key, each in self.door.build().gates.items() if each.passed}

    @rule(change=_actions(), keep=st.booleans())
    def meet_and_settle(self, change: c.Change, keep: bool) -> None:
        was, open_before = self._judged(), self._passed()
        try:
            receipt = self.door.record(
                change, happened_at=self._moment(0), base_versions={change.subject: 0}
            )
            for key in receipt.to_settle:
                self.door.settle(key, keep)
        except BareshellError:
            return
        if self._passed() - open_before:
            assert not was.buried

    @rule(data=st.data())
    def take_back(self, data: st.DataObject) -> None:
        entries = self.door.entries(after=len(small_car_changes()))
        if not entries:
            return
        entry = data.draw(st.sampled_from(entries))
        try:
            self.door.take_back(entry.id)
        except BareshellError:
            return

    @rule(
        covers=st.sampled_from([(), ("tank",), ("tank", "seam")]),
        gates=st.sampled_from([(), ("under-car",), ("road",)]),
        spent_by=st.sampled_from([(), ("rear-hose",)]),
        made_by=st.sampled_from([(), ("rear-pipe",)]),
    )
    def correct_the_proof(
        self,
        covers: tuple[str, ...],
        gates: tuple[str, ...],
        spent_by: tuple[str, ...],
        made_by: tuple[str, ...],
    ) -> None:
        old = self.door.build().proofs[JOINT].proof
        self._correct(
            c.ProofSet(
                replace(old, covered_by=covers, gates=gates, spent_by=spent_by, made_by=made_by)
            )
        )

    @rule(after=st.sampled_from([(), ("under-car",)]))
    def order_the_gates_anew(self, after: tuple[str, ...]) -> None:
        self._correct(c.GateSet(replace(self.door.build().gates["road"].gate, after=after)))

    @rule()
    def ask_for_it_no_more(self) -> None:
        if self._judged().buried:
            self._correct(c.ProofDropped(JOINT, "not wanted"))

    def _correct(self, change: c.Change) -> None:
        """Correct a definition: nothing comes good by it, no gate forgets what is buried."""
        was, before = self._judged(), self.door.build()
        state = proof_standings(before)[JOINT].state
        named = {key for key, each in gate_standings(before).items() if JOINT in each.proofs}
        try:
            self.door.record(change, happened_at=self._moment(0))
        except BareshellError:
            return
        build = self.door.build()
        assert JOINT in build.proofs
        after = proof_standings(build)[JOINT].state
        assert state in GOOD or after not in GOOD, "a correction alone showed it"
        maker = before.jobs["rear-pipe"].state
        there = maker.is_done or maker.status is JobStatus.STARTED
        if was.buried and (there or not before.proofs[JOINT].proof.made_by):
            still = {key for key, each in gate_standings(build).items() if JOINT in each.proofs}
            assert named <= still, "a correction alone took it from a gate"

    @invariant()
    def nothing_is_shown_as_held_that_is_not(self) -> None:
        if JOINT not in self.door.build().proofs:
            return
        build, truth = self.door.build(), self._judged()
        found = proof_standings(build)[JOINT]
        if found.state is ProofState.HELD:
            assert truth.shown, "shown as held, and was not"
        if found.state is ProofState.SUBSTITUTED:
            assert truth.named, "shown with a substitute that has no name"
        if truth.buried:
            assert found.hidden
            assert found.state in {ProofState.COVERED, ProofState.FAILED}
            asked = build.proofs[JOINT].proof.gates or tuple(build.gates)
            gates = gate_standings(build)
            for key in build.gates:
                if standing.is_asked_for(build, build.proofs[JOINT]) and (
                    key in asked or standing.gates_before(build, key) & {*asked}
                ):
                    assert JOINT in gates[key].proofs, f"not named at the gate {key}"

    def teardown(self) -> None:
        self.door.close()
        self.place.cleanup()


TestBurying = Burying.TestCase
TestBurying.settings = settings(max_examples=60, stateful_step_count=25, deadline=None)


def _held_under_its_cover(old: proofs.ProofStanding, event: proofs.ProofEvent) -> object:
    kind = ProofState.HELD if event.kind is ProofEventKind.HELD else ProofState.BEGUN
    return proofs.ProofStanding(kind, event.at, old.hidden)


def _gates_forget(*_: object) -> bool:
    return False


def _nothing(*_: object) -> None:
    """Check nothing."""


@pytest.mark.parametrize(
    ("room", "name", "broken"),
    [
        (proofs, "_after_proving", _held_under_its_cover),
        (standing, "_stands_at", _gates_forget),
        (DECIDING, "check_proof_corrected", _nothing),
        (DECIDING, "check_proof_dropped", _nothing),
        (DECIDING, "check_gate_corrected", _nothing),
    ],
)
def test_the_judge_sees_each_rule_when_it_is_broken(
    monkeypatch: pytest.MonkeyPatch, room: object, name: str, broken: Callable[..., object]
) -> None:
    monkeypatch.setattr(room, name, broken)
    with pytest.raises((AssertionError, KeyError)):
        run_state_machine_as_test(
            Burying,
            settings=settings(
                max_examples=400, stateful_step_count=25, deadline=None, database=None,
                phases=(Phase.generate,), derandomize=True,
            ),
        )  # fmt: skip
