"""The hours that are offered when a job is stopped."""

from __future__ import annotations

from datetime import timedelta

import pytest

from bareshell.model import changes as c
from bareshell.whole.stretch import begun_at, stretch_hours
from tests.whole.said.invented_builds import AT, kept, small_build

SMALL = small_build()


def test_a_stop_offers_the_hours_since_the_start_to_five_minutes() -> None:
    started = AT - timedelta(hours=1, minutes=17)
    build = kept([(started, c.JobStarted("fuse-box"))], SMALL)
    assert begun_at(build, "fuse-box", AT) == started
    assert stretch_hours(build, "fuse-box", AT) == pytest.approx(1.25)


def test_nothing_is_offered_of_a_stretch_that_is_over_forgotten_or_was_never_begun() -> None:
    build = kept([(AT - timedelta(hours=1, minutes=17), c.JobStarted("fuse-box"))], SMALL)
    stopped = kept([(AT - timedelta(minutes=5), c.JobWorked("fuse-box", 1.2))], build)
    assert stretch_hours(stopped, "fuse-box", AT) is None
    assert stretch_hours(SMALL, "fuse-box", AT) is None
    assert stretch_hours(build, "fuse-box", AT + timedelta(days=1)) is None
    assert stretch_hours(build, "fuse-box", AT - timedelta(days=1)) is None
    assert stretch_hours(build, "no-such", AT) is None
