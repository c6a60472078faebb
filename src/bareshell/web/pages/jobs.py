"""The network of jobs: every job by system, how it stands and what it waits for."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from starlette.requests import Request
from starlette.responses import Response

from bareshell.app import reading
from bareshell.model.job import SYSTEMS, JobStatus
from bareshell.web.desk import door_of
from bareshell.web.pieces import Figure
from bareshell.web.twin import PageRouter, page
from bareshell.whole.car_overview import JobView

router = PageRouter()

READY = "ready to begin"
_OPEN = (JobStatus.TO_DO, JobStatus.STARTED)


@dataclass(frozen=True, slots=True)
class Sifted:
    """Which jobs are asked for: any of these may be empty."""

    find: str = ""
    system: str = ""
    state: str = ""
    place: str = ""
    zone: str = ""

    @property
    def narrowed(self) -> bool:
        """Whether only some are asked for, whatever their words."""
        return bool(self.system or self.state or self.place or self.zone)

    @property
    def asked(self) -> bool:
        """Whether anything was asked for at all."""
        return self.narrowed or bool(self.find)

    def admits(self, view: JobView) -> bool:
        """Whether a job is among those asked for."""
        return (
            self.find.casefold() in f"{view.title} {view.id}".casefold()
            and self.system in ("", view.system)
            and self._stands(view)
            and self.place in ("", view.place)
            and (not self.zone or self.zone in view.zones)
        )

    def _stands(self, view: JobView) -> bool:
        if self.state == READY:
            return view.status in _OPEN and not view.waits_for
        return self.state in ("", view.status)


@dataclass(frozen=True, slots=True)
class Drawer:
    """The jobs of one system."""

    system: str
    jobs: tuple[JobView, ...]
    done: int
    total: int
    hours_left: float
    open: bool


@dataclass(frozen=True, slots=True)
class JobsShown:
    """What the page makes of the reading."""

    figures: tuple[Figure, ...]
    drawers: tuple[Drawer, ...]
    sifted: Sifted
    found: int
    systems: tuple[str, ...]
    places: tuple[str, ...]
    zones: tuple[str, ...]
    states: tuple[str, ...] = (READY, *JobStatus)


@router.page("/jobs")
def jobs(
    request: Request,
    find: str = "",
    system: str = "",
    state: str = "",
    place: str = "",
    zone: str = "",
) -> Response:
    """List the jobs by system."""
    listed = reading.jobs(door_of(request))
    sifted = Sifted(find.strip(), system, state, place, zone)
    found = [view for view in listed.jobs if sifted.admits(view)]
    shown = JobsShown(
        figures=_figures(listed.jobs),
        drawers=tuple(_drawers(found, sifted)),
        sifted=sifted,
        found=len(found),
        systems=tuple(s for s in SYSTEMS if any(view.system == s for view in listed.jobs)),
        places=tuple(sorted({view.place for view in listed.jobs})),
        zones=tuple(sorted({zone for view in listed.jobs for zone in view.zones})),
    )
    return page(request, "jobs/all.html", listed, also=shown)


def _drawers(found: Iterable[JobView], sifted: Sifted) -> Iterable[Drawer]:
    by_system: dict[str, list[JobView]] = {}
    for view in found:
        by_system.setdefault(view.system, []).append(view)
    for system, views in by_system.items():
        kept = [view for view in views if view.status != JobStatus.LEFT_OUT]
        left = [view for view in kept if view.status in _OPEN]
        # What can be begun first, then what waits, then what is done or left out.
        views.sort(key=lambda v: (v.status not in _OPEN, bool(v.waits_for), v.status))
        yield Drawer(
            system,
            tuple(views),
            len(kept) - len(left),
            len(kept),
            round(sum(hours_left(view) for view in left), 1),
            sifted.asked,
        )


def hours_left(view: JobView) -> float:
    """Likely hours still in a job, by its estimate or by what was last guessed of it."""
    if view.hours_left is not None:
        return view.hours_left
    return max(0.0, view.hours_likely - view.hours_done)


def _figures(jobs: tuple[JobView, ...]) -> tuple[Figure, ...]:
    kept = [view for view in jobs if view.status != JobStatus.LEFT_OUT]
    left = [view for view in kept if view.status in _OPEN]
    ready = sum(1 for view in left if not view.waits_for)
    started = sum(1 for view in left if view.status == JobStatus.STARTED)
    hours = sum(hours_left(view) for view in left)
    return (
        Figure(str(len(kept) - len(left)), f"done, of {len(kept)} jobs"),
        Figure(str(ready), f"wait for no other job; {started or 'none'} begun"),
        Figure(f"{hours:,.0f}", "likely left by the estimates alone, without your pace", "h"),
        Figure(str(len(jobs) - len(kept)), "left out of this build"),
    )
