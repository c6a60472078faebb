"""What the plan answered, kept while the pages are up, so that a page need not wait twice.

The plan takes its time: a first compile of seconds, then a second or so for each state of the
build. So it works beside the pages, and a page that would have to wait says so instead. An answer
is kept for one state of the journal, one way of asking and one hour.
"""

from __future__ import annotations

import logging
from collections.abc import Callable, Hashable
from contextlib import suppress
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Final, Protocol, TypeVar, cast

from starlette.requests import Request

from bareshell.app.door import Door
from bareshell.app.written import Pen, Written
from bareshell.errors import BareshellError
from bareshell.plan.changed import Changed
from bareshell.web.beside import PATIENCE_S, PROGRAM_PATIENCE_S, Beside, StillWorking
from bareshell.whole.forecast_parts import GroundsOverview, LeversOverview
from bareshell.whole.goods_plan import GoodsPlan
from bareshell.whole.moved import moved_since
from bareshell.whole.parcels import Parcels
from bareshell.whole.road_parts import RoadOverview
from bareshell.whole.sheet_parts import SessionAsked, TonightSheet, WhyNot
from bareshell.whole.trial_parts import TrialOverview
from bareshell.whole.trial_steps import TrialStep

__all__ = [
    "PROGRAM_PATIENCE_S",
    "MovedSince",
    "OwnPlanner",
    "PlanDesk",
    "Planner",
    "StillWorking",
    "plan_desk_of",
]

_log = logging.getLogger("bareshell.web")

_LOOKED: Final = timedelta(days=1)
_READY: Final = "The plan is ready."
_PLAIN: Final = "The plan is ready; there is no compiler here, so it answers from fewer runs."
_Answer = TypeVar("_Answer")


class Planner(Protocol):
    """What the pages ask of the plan."""

    def warm_up(self) -> str:
        """Make the plan ready; say in a word how it walks."""

    def tonight(self, door: Door, asked: SessionAsked | None) -> TonightSheet:
        """Plan the session."""

    def why_not(self, door: Door, asked: SessionAsked | None, job_id: str) -> WhyNot:
        """Say why a job is not in it."""

    def road(self, door: Door) -> RoadOverview:
        """Plan every session to the road."""

    def levers(self, door: Door) -> LeversOverview:
        """Measure what would move the date."""

    def grounds(self, door: Door) -> GroundsOverview:
        """Open the forecast down to what it rests on."""

    def trial(self, door: Door, steps: tuple[TrialStep, ...]) -> TrialOverview:
        """Hold the road of a changed copy against the one there is."""

    def keep(self, door: Door, pen: Pen) -> Written:
        """Keep today's forecast."""

    def keep_if_due(self, door: Door) -> Written | None:
        """Keep today's forecast if none was kept for about a week."""


class OwnPlanner:
    """The plan itself; loaded when first asked, because it is heavy."""

    def warm_up(self) -> str:
        """Compile the walk, or load it from where it was kept."""
        from bareshell.plan.engine import warm_up

        return warm_up()

    def tonight(self, door: Door, asked: SessionAsked | None) -> TonightSheet:
        """See ``app.tonight.tonight``."""
        from bareshell.app.tonight import tonight

        return tonight(door, asked)

    def why_not(self, door: Door, asked: SessionAsked | None, job_id: str) -> WhyNot:
        """See ``app.tonight.why_not``."""
        from bareshell.app.tonight import why_not

        return why_not(door, asked, job_id)

    def road(self, door: Door) -> RoadOverview:
        """See ``app.road.road``."""
        from bareshell.app.road import road

        return road(door)

    def levers(self, door: Door) -> LeversOverview:
        """See ``app.forecasts.levers``."""
        from bareshell.app.forecasts import levers

        return levers(door)

    def grounds(self, door: Door) -> GroundsOverview:
        """See ``app.road.grounds``."""
        from bareshell.app.road import grounds

        return grounds(door)

    def trial(self, door: Door, steps: tuple[TrialStep, ...]) -> TrialOverview:
        """See ``app.trial.trial``."""
        from bareshell.app.trial import trial

        return trial(door, steps)

    def keep(self, door: Door, pen: Pen) -> Written:
        """See ``app.forecasts.keep_forecast``."""
        from bareshell.app.forecasts import keep_forecast

        return keep_forecast(door, pen)

    def keep_if_due(self, door: Door) -> Written | None:
        """See ``app.forecasts.keep_if_due``."""
        from bareshell.app.forecasts import keep_if_due

        return keep_if_due(door)


@dataclass(frozen=True, slots=True)
class _Question:
    """One question about one state of the build, in one hour."""

    journal: int
    hour: datetime
    asked: Hashable


@dataclass(frozen=True, slots=True)
class MovedSince:
    """What changed in the next two weeks since the road was looked at, and when that was."""

    since: datetime
    changed: Changed


class PlanDesk:
    """Asks the plan each question once.

    Parameters
    ----------
    planner : Planner
        Who answers.
    patience_s : float
        How long a page waits. [s]
    """

    def __init__(self, planner: Planner | None = None, patience_s: float = PATIENCE_S) -> None:
        self.patience_s = patience_s
        self._planner: Planner = planner or OwnPlanner()
        self._beside = Beside(2, "the plan")

    def warm_up(self, say: Callable[[str], None], door: Door | None) -> None:
        """Make the plan ready beside the pages, then work out what will be looked at first.

        Parameters
        ----------
        say : callable
            Told in a sentence once the plan is ready, or why it is not.
        door : Door or None
            The build, if there is one yet.
        """

        def warm() -> None:
            try:
                engine = self._planner.warm_up()
            except BareshellError as error:
                say(error.describe())
                return
            say(_PLAIN if engine == "plain" else _READY)
            if door is not None:
                self._asked(door, ("tonight", None), lambda: self._planner.tonight(door, None))
                self._asked(door, ("road",), lambda: self._planner.road(door))

        self._beside.begin(warm)

    def close(self) -> None:
        """Begin nothing more."""
        self._beside.close()

    def tonight(
        self, door: Door, asked: SessionAsked | None, *, wait_s: float | None = None
    ) -> TonightSheet:
        """The session's sheet.

        Raises
        ------
        StillWorking
            When it takes longer than `wait_s`; it goes on being worked out.
        """
        question = ("tonight", asked)
        return self._answer(door, question, lambda: self._planner.tonight(door, asked), wait_s)

    def why_not(
        self, door: Door, asked: SessionAsked | None, job_id: str, *, wait_s: float | None = None
    ) -> WhyNot:
        """Why a job is not in the session; raises as `tonight`."""
        question = ("why not", asked, job_id)
        return self._answer(
            door, question, lambda: self._planner.why_not(door, asked, job_id), wait_s
        )

    def road(self, door: Door, *, wait_s: float | None = None) -> RoadOverview:
        """Every session to the road; raises as `tonight`."""
        return self._answer(door, ("road",), lambda: self._planner.road(door), wait_s)

    def begin_road(self, door: Door) -> None:
        """Begin with the road where somebody looked at it before, so that it is ready soon."""
        if self._looked_at(door) is not None:
            self._asked(door, ("road",), lambda: self._planner.road(door))

    def moved(self, door: Door, *, wait_s: float | None = None) -> MovedSince | None:
        """Say what was done to the next two weeks since the road was last looked at.

        Returns
        -------
        MovedSince or None
            None when nothing was written down since, or nobody had looked.

        Raises
        ------
        StillWorking
            As `tonight` does.
        """
        before = self._looked_at(door)
        if before is None:
            return None
        now = self.road(door, wait_s=wait_s)
        return MovedSince(before.made_at, moved_since(door.build(), before, now))

    def _looked_at(self, door: Door) -> RoadOverview | None:
        """The road as it was last worked out before the newest entry, within a day."""
        latest, now = door.latest(), door.now()

        def before(question: Hashable) -> bool:
            return (
                isinstance(question, _Question)
                and question.asked == ("road",)
                and question.journal < latest
                and now - question.hour < _LOOKED
            )

        return cast("RoadOverview | None", self._beside.newest(before))

    def levers(self, door: Door, *, wait_s: float | None = None) -> LeversOverview:
        """What would move the date; raises as `tonight`."""
        return self._answer(door, ("levers",), lambda: self._planner.levers(door), wait_s)

    def grounds(self, door: Door, *, wait_s: float | None = None) -> GroundsOverview:
        """What the forecast rests on; raises as `tonight`."""
        return self._answer(door, ("grounds",), lambda: self._planner.grounds(door), wait_s)

    def trial(
        self, door: Door, steps: tuple[TrialStep, ...], *, wait_s: float | None = None
    ) -> TrialOverview:
        """Hold the road of a changed copy against the one there is; raises as `tonight`."""
        return self._answer(
            door, ("trial", steps), lambda: self._planner.trial(door, steps), wait_s
        )

    def goods(self, door: Door, order_id: str, *, wait_s: float | None = None) -> GoodsPlan:
        """What the last delivery on an order did to the plan; raises as `tonight`."""
        from bareshell.app.goods_in import goods_plan

        return self._answer(door, ("goods", order_id), lambda: goods_plan(door, order_id), wait_s)

    def parcels(self, door: Door, *, wait_s: float | None = None) -> Parcels:
        """Whether waiting to share the carriage is worth it; raises as `tonight`."""
        from bareshell.app import ordering

        def weigh() -> Parcels:
            return ordering.parcels(door, ordering.wanted_of(door, self._planner.road(door)))

        return self._answer(door, ("parcels",), weigh, wait_s)

    def keep(self, door: Door, pen: Pen) -> Written:
        """Keep today's forecast."""
        return self._planner.keep(door, pen)

    def after_session(self, door: Door) -> None:
        """Keep a forecast beside the pages, now that something was written down, if it is due."""

        def keep() -> None:
            try:
                self._planner.keep_if_due(door)
            except BareshellError:
                _log.exception("no forecast was kept after the session")

        with suppress(RuntimeError):  # the pages are being closed
            self._beside.begin(keep)

    def _answer(
        self, door: Door, asked: Hashable, work: Callable[[], _Answer], wait_s: float | None
    ) -> _Answer:
        patience = self.patience_s if wait_s is None else wait_s
        return self._beside.answer(_question(door, asked), work, patience)

    def _asked(self, door: Door, asked: Hashable, work: Callable[[], object]) -> None:
        self._beside.asked(_question(door, asked), work)


def _question(door: Door, asked: Hashable) -> _Question:
    hour = door.now().replace(minute=0, second=0, microsecond=0)
    return _Question(door.latest(), hour, asked)


def plan_desk_of(request: Request) -> PlanDesk:
    """The plan desk of these pages."""
    desk = getattr(request.app.state, "plan_desk", None)
    if not isinstance(desk, PlanDesk):
        raise TypeError("No plan desk stands here; call Bench.lay_open first.")
    return desk
