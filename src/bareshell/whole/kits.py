"""Kits: all that one job wants as one bag, and how far that lets it go.

A part is wanted to start or to finish, so a bag need not be complete for the job to begin. What
nobody recorded is *not known*: it is looked for, and counts neither as here nor as missing.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date, datetime

from bareshell.model import Build
from bareshell.model.part import NeededTo, NeedState
from bareshell.model.standing import NeedStanding, need_standings
from bareshell.parts import questions
from bareshell.whole.places import walking_order
from bareshell.whole.spec_words import spec_words

__all__ = ["KitLine", "KitPage", "KitWord", "kit_page", "kit_words", "needs_by_job"]

HAVE = (NeedState.HERE, NeedState.USED)


class KitWord:
    """How a bag stands, from best to worst."""

    COMPLETE = "complete"
    LOOK = "look for"
    TO_FINISH = "enough to start"
    TO_START = "short to start"


@dataclass(frozen=True, slots=True)
class KitLine:
    """One thing in a bag.

    Parameters
    ----------
    need, title, size : str
        What is wanted.
    quantity, here, coming : int
        How many are wanted, lie here, and are on their way.
    state : str
        A word of the parts desk.
    where : str
        The places it lies in.
    expected_on : date or None
        When the last of it is expected; None when nobody knows, or nothing is.
    asks : int
        How many questions stand open before it can be ordered.
    """

    need: str
    title: str
    size: str
    quantity: int
    here: int
    coming: int
    state: str
    where: str = ""
    expected_on: date | None = None
    fixing: bool = False
    asks: int = 0
    version: int | None = None


@dataclass(frozen=True, slots=True)
class KitPage:
    """All that one job wants, in two halves."""

    made_at: datetime
    seq: int
    car: str
    invented: bool
    job: str
    job_title: str
    system: str
    status: str
    bag: str
    word: str
    says: str
    to_start: tuple[KitLine, ...]
    to_finish: tuple[KitLine, ...]
    tools: tuple[str, ...] = ()


def needs_by_job(build: Build) -> Mapping[str, tuple[str, ...]]:
    """Return the needs of each job, in the order they were written down."""
    found: dict[str, list[str]] = {}
    for key, need in build.needs.items():
        found.setdefault(need.job, []).append(key)
    return {job: tuple(keys) for job, keys in found.items()}


def kit_words(build: Build, standings: Mapping[str, NeedStanding] | None = None) -> dict[str, str]:
    """Say how the bag of each open job stands; jobs that want nothing are not among them.

    Parameters
    ----------
    build : Build
        The build.
    standings : mapping or None
        How its needs stand, where that was read already.

    Examples
    --------
    >>> kit_words(Build())
    {}
    """
    standings = need_standings(build) if standings is None else standings
    return {
        job: _word(build, keys, standings)
        for job, keys in needs_by_job(build).items()
        if job in build.jobs and build.jobs[job].state.is_open
    }


def _word(build: Build, keys: Iterable[str], standings: Mapping[str, NeedStanding]) -> str:
    word, unknown = KitWord.COMPLETE, False
    for key in keys:
        state = standings[key].state
        if state is NeedState.NOT_KNOWN:
            unknown = True
        elif state not in HAVE:
            if build.needs[key].needed_to is NeededTo.START:
                return KitWord.TO_START
            word = KitWord.TO_FINISH
    return KitWord.LOOK if unknown and word == KitWord.COMPLETE else word


def kit_page(build: Build, job_id: str, now: datetime) -> KitPage:
    """Lay out the bag of one job, which the build has.

    Parameters
    ----------
    build : Build
        The build.
    job_id : str
        Whose bag it is.
    now : datetime
        Aware.
    """
    standings = need_standings(build)
    keys = needs_by_job(build).get(job_id, ())
    lines = [(build.needs[key].needed_to, _line(build, key, standings[key])) for key in keys]
    lines.sort(key=lambda pair: (_urgency(pair[1]), walking_order(pair[1].where)))
    record, word = build.jobs[job_id], _word(build, keys, standings)
    return KitPage(
        made_at=now,
        seq=build.seq,
        car=build.car_name,
        invented=build.invented,
        job=job_id,
        job_title=record.job.title,
        system=record.job.system,
        status=str(record.state.status),
        bag=next((build.needs[key].bag for key in keys if build.needs[key].bag), ""),
        word=word,
        says=_says([line for _, line in lines], word),
        to_start=tuple(line for to, line in lines if to is NeededTo.START),
        to_finish=tuple(line for to, line in lines if to is NeededTo.FINISH),
        tools=record.job.tools,
    )


_LOOKED_AT = (
    NeedState.WRONG,
    NeedState.NOT_HERE,
    NeedState.SOME_HERE,
    NeedState.COMING,
    NeedState.NOT_KNOWN,
    NeedState.HERE,
    NeedState.USED,
)


def _urgency(line: KitLine) -> int:
    return [state.value for state in _LOOKED_AT].index(line.state)


def _line(build: Build, key: str, standing: NeedStanding) -> KitLine:
    need = build.needs[key]
    places = [build.holdings[h].where for h in standing.holdings]
    days = [build.orders[o].line.expected_on for o in standing.orders]
    known = [day for day in days if day is not None]
    return KitLine(
        key,
        need.title,
        spec_words(need.spec),
        need.quantity,
        standing.here,
        standing.coming,
        standing.state.value,
        ", ".join(dict.fromkeys(place for place in places if place)),
        max(known) if known and len(known) == len(days) else None,
        need.fixing,
        len(questions(need.spec)),
        build.versions.get(f"need:{key}"),
    )


def _says(lines: Iterable[KitLine], word: str) -> str:
    """Say in a sentence what the bag lets one do, and what it waits for."""
    lines = list(lines)
    if not lines:
        return "This job wants nothing."
    short = [one for one in lines if one.state not in (*HAVE, NeedState.NOT_KNOWN)]
    unknown = [one for one in lines if one.state == NeedState.NOT_KNOWN]
    look = f" {len(unknown)} to look for." if unknown else ""
    if word == KitWord.COMPLETE:
        return "Every line of it is here."
    if word == KitWord.LOOK:
        return f"Nothing is known to be missing.{look}"
    days = [one.expected_on for one in short if one.expected_on]
    late = len(days) < len(short)
    last = max(days) if days and not late else None
    when = f", the last of it due {last.day} {last:%b}" if last else ""
    if word == KitWord.TO_FINISH:
        return f"It can begin; {len(short)} short to finish{when}.{look}"
    return f"{len(short)} short{when}: what it wants to start comes first.{look}"
