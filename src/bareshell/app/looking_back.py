"""The car as it stood on a day: with what is known now, or as the record had it then."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime, time, timedelta

from bareshell.app.door import Door
from bareshell.errors import BadInput
from bareshell.whole.car_overview import JobView, SystemCount, car_overview
from bareshell.whole.garage_time import zone_of
from bareshell.whole.opened import every_proof
from bareshell.whole.proofs_overview import GateView, TempView, proofs_overview

DAYS_BEFORE = 28
"""How far back the jobs that had lately been finished go. [day]"""


@dataclass(frozen=True, slots=True)
class AsItStood:
    """The car at the end of a day.

    Parameters
    ----------
    day : date
        The owner's day.
    known : bool
        Whether only what had been written down by then counts.
    entries : int
        The number of the last entry that counts.
    lately : tuple of JobView
        Jobs finished in the four weeks before, the newest first.
    proofs : tuple of (str, int)
        How many proofs stood in each state.
    """

    made_at: datetime
    seq: int
    car: str
    invented: bool
    day: date
    known: bool
    entries: int
    stands_title: str
    off: tuple[str, ...]
    done: int
    total: int
    by_system: tuple[SystemCount, ...]
    lately: tuple[JobView, ...]
    proofs: tuple[tuple[str, int], ...]
    gates: tuple[GateView, ...]
    temps: tuple[TempView, ...]
    departures: tuple[str, ...]


def as_it_stood(door: Door, day: date, *, known: bool = False) -> AsItStood:
    """Look at the car as it stood at the end of a day.

    Parameters
    ----------
    door : Door
        The build.
    day : date
        The owner's day.
    known : bool
        False: with what was written down or corrected since. True: only with what had been
        written down by then.

    Raises
    ------
    BadInput
        When the day is still to come.
    """
    zone = zone_of(door.build())
    if day > door.now().astimezone(zone).date():
        raise BadInput("day", f"{day} is still to come", "choose a day that has been")
    # Midnight by the owner's clock; of today only what has been.
    midnight = datetime.combine(day + timedelta(days=1), time(), zone)
    moment = min(midnight - timedelta(microseconds=1), door.now().astimezone(zone))
    build = door.as_of(moment, known=known)
    car, proofs = car_overview(build, moment), proofs_overview(build, moment)
    counts: dict[str, int] = {}
    for view in every_proof(proofs):
        counts[view.state] = counts.get(view.state, 0) + 1
    since = moment - timedelta(days=DAYS_BEFORE)
    lately = [job for job in car.jobs if job.finished_at and job.finished_at >= since]
    lately.sort(key=lambda job: job.finished_at or moment, reverse=True)
    return AsItStood(
        made_at=door.now(),
        seq=door.latest(),
        car=car.car,
        invented=car.invented,
        day=day,
        known=known,
        entries=build.seq,
        stands_title=car.stands_title,
        off=car.off,
        done=sum(one.done for one in car.by_system),
        total=sum(one.total for one in car.by_system),
        by_system=car.by_system,
        lately=tuple(lately),
        proofs=tuple(counts.items()),
        gates=proofs.gates,
        temps=proofs.temps,
        departures=tuple(one.title for one in car.departures),
    )
