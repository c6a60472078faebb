"""However a build is used, the door agrees with its journal folded from the start."""

from __future__ import annotations

import tempfile
from datetime import timedelta
from pathlib import Path

from hypothesis import settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, invariant, rule

from bareshell.app.door import Door
from bareshell.errors import BareshellError
from bareshell.model import changes as c
from bareshell.model import fold
from bareshell.model.fold import withdrawn_ids
from bareshell.store import present
from tests.model.histories import BEGAN, DEFINITIONS, happenings


class Use(RuleBasedStateMachine):
    """Anything a person does, in any order; short tails, so that every path is taken."""

    def __init__(self) -> None:
        super().__init__()
        self.place = tempfile.TemporaryDirectory()
        self.hours = 0
        self.before = (present.TAIL_LENGTH, present.SNAPSHOT_EVERY, present.SNAPSHOT_AT_CLOSE)
        present.TAIL_LENGTH, present.SNAPSHOT_EVERY, present.SNAPSHOT_AT_CLOSE = 3, 5, 2
        self.door = self._opened()

    def _opened(self) -> Door:
        return Door.open(
            Path(self.place.name),
            create=True,
            clock=lambda: BEGAN + timedelta(days=900, hours=self.hours),
        )

    @initialize()
    def begin(self) -> None:
        self.door.record(DEFINITIONS)

    @rule(changes=st.lists(happenings(), min_size=1, max_size=4), at=st.integers(0, 20_000))
    def record(self, changes: list[c.Change], at: int) -> None:
        self.hours += 1
        latest = self.door.latest()
        try:
            self.door.record(changes, happened_at=BEGAN + timedelta(hours=at))
        except BareshellError:
            assert self.door.latest() == latest

    @rule(change=happenings(), known=st.integers(0, 3))
    def record_from_afar(self, change: c.Change, known: int) -> None:
        version = self.door.build().versions.get(change.subject, 0)
        try:
            receipt = self.door.record(
                change, base_versions={change.subject: max(0, version - known)}
            )
        except BareshellError:
            return
        assert bool(receipt.to_settle) == (known > 0 and version > 0)

    @rule(data=st.data())
    def take_back(self, data: st.DataObject) -> None:
        entry = data.draw(st.sampled_from(self.door.entries()))
        try:
            self.door.take_back(entry.id)
        except BareshellError:
            return
        assert entry.id in withdrawn_ids(self.door.entries())

    @rule(keep=st.booleans())
    def settle(self, keep: bool) -> None:
        for key in sorted(self.door.build().to_settle)[:1]:
            try:
                self.door.settle(key, keep)
            except BareshellError:
                assert key in self.door.build().to_settle
                return
            assert key not in self.door.build().to_settle

    @rule()
    def open_again(self) -> None:
        self.door.close()
        self.door = self._opened()

    @rule()
    def write_through_another_door(self) -> None:
        with self._opened() as other:
            other.record(c.JobWorked("pipe", 0.5))

    @invariant()
    def the_door_agrees_with_the_journal(self) -> None:
        entries = self.door.entries()
        assert self.door.build() == fold(entries)
        assert self.door.latest() == len(entries)

    def teardown(self) -> None:
        self.door.close()
        present.TAIL_LENGTH, present.SNAPSHOT_EVERY, present.SNAPSHOT_AT_CLOSE = self.before
        self.place.cleanup()


TestUse = Use.TestCase
TestUse.settings = settings(max_examples=40, stateful_step_count=20)
