"""The first ten minutes: a few answers make a build, a few taps put it right."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass
from pathlib import Path

from bareshell.app.door import Clock, Door, NewId, Receipt
from bareshell.app.laying import laid
from bareshell.errors import BadInput
from bareshell.trade.answers import read_answers
from bareshell.trade.beginning import first_changes
from bareshell.trade.frontier import corrections, frontier
from bareshell.trade.questions import QUESTIONS, Question

DEFAULT_ZONE = "Europe/London"
"""The clock on the garage wall, until the owner says otherwise."""


@dataclass(frozen=True, slots=True)
class Doubt:
    """One job at the frontier, as it is put before the owner.

    Parameters
    ----------
    job, title, system : str
        Which job.
    taken_for_done : bool
        Whether it is taken for done, unproven; else for still to do.
    """

    job: str
    title: str
    system: str
    taken_for_done: bool


def questions() -> tuple[Question, ...]:
    """Return the questions of the first ten minutes, in their order."""
    return QUESTIONS


def begin(
    folder: Path | str,
    answers: Mapping[str, str | Iterable[str]],
    *,
    zone: str = DEFAULT_ZONE,
    clock: Clock | None = None,
    new_id: NewId | None = None,
    author: str = "owner",
) -> Door:
    """Make a build from the first answers and return its open door.

    Everything enters in one go or not at all.

    Parameters
    ----------
    folder : Path or str
        A new folder, or one without a build.
    answers : mapping of str to str or strings
        By the question's id, as a form or a command line sends them.
    zone : str
        The time zone of the clock on the garage wall (IANA name).
    clock, new_id, author
        As `Door.open` takes them.

    Returns
    -------
    Door
        Open; the caller closes it.

    Raises
    ------
    BadInput
        With every answer that cannot be read; nothing is made.
    Conflict
        When there is a build in the folder already.

    Examples
    --------
    >>> import tempfile
    >>> said = {"name": "the old saloon", "layout": "rear", "standing": "stands"}
    >>> with tempfile.TemporaryDirectory() as folder, begin(folder, said) as door:
    ...     door.build().car.name, len(door.build().gates)
    ('the old saloon', 10)
    """
    read = read_answers(answers)
    _check_zone(zone)
    folder = Path(folder)
    with (
        laid(folder, "name a new folder, or open that build") as beside,
        Door.open(
            beside, clock=clock, new_id=new_id, author=author, create=True, back_up=False
        ) as begun,
    ):
        begun.record(first_changes(read, begun.now(), zone))
    return Door.open(folder, clock=clock, new_id=new_id, author=author)


def _check_zone(zone: str) -> None:
    from zoneinfo import ZoneInfo

    try:
        ZoneInfo(zone)
    except (KeyError, ValueError, OSError):
        raise BadInput(
            "time zone", f"'{zone}' is not known", "give its name, such as Europe/London"
        ) from None


def doubts(door: Door) -> tuple[Doubt, ...]:
    """Return the jobs on which a tap resolves the most doubt, the most telling first."""
    build = door.build()
    return tuple(
        Doubt(key, record.job.title, record.job.system, record.state.is_done)
        for key in frontier(build)
        for record in (build.jobs[key],)
    )


def correct_frontier(
    door: Door, done: Collection[str] = (), not_done: Collection[str] = ()
) -> Receipt:
    """Write down what was tapped, with what follows from it, in one go.

    Parameters
    ----------
    door : Door
        The build.
    done, not_done : collection of str
        The jobs that are done after all, and those that are not.

    Raises
    ------
    NotFound
        When there is no such job.
    BadInput
        When two taps contradict each other, or a job was finished in the record.
    """
    return door.record(corrections(door.build(), done, not_done))
