"""What to fetch for a session: one walk along the shelf, bin after bin.

Each line names how many to take from which place and for which job. What nobody recorded is looked
for; what is not here is said, so that nobody walks twice.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from bareshell.model import Build
from bareshell.model.part import NeedState
from bareshell.model.standing import need_standings
from bareshell.whole.kits import needs_by_job
from bareshell.whole.places import NO_PLACE, walking_order
from bareshell.whole.spec_words import spec_words

__all__ = ["Pick", "PickList", "PickPlace", "pick_list"]


@dataclass(frozen=True, slots=True)
class Pick:
    """So many of one thing, from one place, for one job."""

    need: str
    holding: str
    title: str
    size: str
    count: int
    of: int
    job: str
    job_title: str
    bag: str = ""


@dataclass(frozen=True, slots=True)
class PickPlace:
    """All that is taken from one place."""

    place: str
    picks: tuple[Pick, ...]


@dataclass(frozen=True, slots=True)
class PickList:
    """One walk along the shelf."""

    made_at: datetime
    seq: int
    car: str
    invented: bool
    jobs: tuple[tuple[str, str], ...]
    places: tuple[PickPlace, ...]
    look_for: tuple[Pick, ...]
    not_here: tuple[Pick, ...]
    tools: tuple[str, ...]


def pick_list(build: Build, jobs: Sequence[str], now: datetime) -> PickList:
    """Say what to fetch for some jobs.

    Parameters
    ----------
    build : Build
        The build.
    jobs : sequence of str
        The session's jobs; those the build does not have are passed over.
    now : datetime
        Aware.

    Examples
    --------
    >>> from datetime import UTC
    >>> pick_list(Build(), ["tank"], datetime(2026, 3, 4, tzinfo=UTC)).jobs
    ()
    """
    known = [job for job in dict.fromkeys(jobs) if job in build.jobs]
    standings, wanted = need_standings(build), needs_by_job(build)
    by_place: dict[str, list[Pick]] = {}
    look: list[Pick] = []
    gone: list[Pick] = []
    for job in known:
        for key in wanted.get(job, ()):
            standing, left = standings[key], build.needs[key].quantity
            if standing.state is NeedState.USED:
                continue
            for holding_id in standing.holdings:
                holding = build.holdings[holding_id]
                count = min(left, holding.quantity)
                if count:
                    pick = _pick(build, key, holding_id, count)
                    by_place.setdefault(holding.where or NO_PLACE, []).append(pick)
                    left -= count
            if left:
                unknown = standing.state is NeedState.NOT_KNOWN
                (look if unknown else gone).append(_pick(build, key, "", left))
    return PickList(
        made_at=now,
        seq=build.seq,
        car=build.car_name,
        invented=build.invented,
        jobs=tuple((job, build.jobs[job].job.title) for job in known),
        places=tuple(
            PickPlace(place, tuple(by_place[place]))
            for place in sorted(by_place, key=walking_order)
        ),
        look_for=tuple(look),
        not_here=tuple(gone),
        tools=tuple(dict.fromkeys(tool for job in known for tool in build.jobs[job].job.tools)),
    )


def _pick(build: Build, key: str, holding: str, count: int) -> Pick:
    need = build.needs[key]
    title = build.holdings[holding].title if holding else need.title
    spec = build.holdings[holding].spec if holding else need.spec
    return Pick(
        key,
        holding,
        title,
        spec_words(spec),
        count,
        need.quantity,
        need.job,
        build.jobs[need.job].job.title,
        need.bag,
    )
