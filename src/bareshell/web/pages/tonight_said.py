"""The one line at the end of a session: read back first, then kept."""

from __future__ import annotations

import hashlib
import re
from collections.abc import Sequence
from dataclasses import replace
from datetime import UTC, date, datetime, time, timedelta

from bareshell.app.door import Door
from bareshell.app.sessions import keep_line, preview_line, session_told
from bareshell.app.written import BEFORE, SETTLE_LATER, Pen, Written
from bareshell.errors import BadInput, BareshellError, Conflict, Problem
from bareshell.model import Build
from bareshell.web.forms import SentForm
from bareshell.web.pages.tonight_page import Mishap, Question, SayPanel, days_back
from bareshell.whole.garage_time import sessions_between, zone_of
from bareshell.whole.said.results import Understood
from bareshell.whole.spent_said import spent_by_work

_ANSWER = re.compile(r"answer-\d{1,3}")

EVENING = time(21)
"""When a line about a day with no session is taken to have been said."""


def panel_of(
    door: Door, line: str, day: str, tonight: Sequence[str], example: str = ""
) -> tuple[SayPanel, list[Mishap]]:
    """The panel with a line as it was understood, or empty.

    Parameters
    ----------
    door : Door
        The build.
    line : str
        As typed; empty for an empty panel.
    day : str
        The day it is about, as the panel names it; empty for now.
    tonight : sequence of str
        The session's jobs.
    example : str
        What could be typed.
    """
    build, now = door.build(), door.now()
    empty = SayPanel(line=line.strip(), day=day, days=days_back(build, now), example=example)
    if not line.strip():
        return empty, []
    try:
        at = moment_on(build, day, now)
        understood = preview_line(door, line, tonight, at)
    except BareshellError as error:
        problems = error.problems if isinstance(error, BadInput) else ()
        problems = problems or (Problem("the line", error.message, error.remedy),)
        return empty, [Mishap("say", problems, status=error.status)]
    questions = tuple(
        Question(
            number,
            asked.question,
            tuple((str(n), choice.label) for n, choice in enumerate(asked.choices)),
            "leave it as a note" if asked.words else "leave it",
        )
        for number, asked in enumerate(understood.asked)
    )
    panel = replace(
        empty,
        heard=tuple(one.sentence for one in understood.heard),
        left=understood.left,
        questions=questions,
        at=at.isoformat(),
        read=reading_mark(understood),
        tonight=tuple(tonight),
    )
    return panel, []


def moment_on(build: Build, day: str, now: datetime) -> datetime:
    """When what is told of a day happened: at the end of its session, else in its evening.

    Parameters
    ----------
    build : Build
        With the pattern of the garage's sessions.
    day : str
        ISO 8601, or empty for now.
    now : datetime
        Aware.

    Raises
    ------
    BadInput
        When it is no day, or one to come.
    """
    if not day:
        return now
    try:
        named = date.fromisoformat(day)
    except ValueError:
        raise BadInput("when", f"'{day}' is no day", "choose one from the list") from None
    zone = zone_of(build)
    if named > now.astimezone(zone).date():
        raise BadInput("when", "that day is still to come", "tell it once it is over")
    first = datetime.combine(named, time(), zone).astimezone(UTC)
    slots = sessions_between(build, first, first + timedelta(hours=24))
    if slots:
        last = slots[-1]
        return min(now, first + timedelta(minutes=last.start_minute + last.minutes))
    return min(now, datetime.combine(named, EVENING, zone).astimezone(UTC))


def reading_mark(understood: Understood) -> str:
    """A mark of how a line was understood: what is kept must be what was read back."""
    words = [one.sentence for one in understood.heard]
    words += [f"?{asked.question}" for asked in understood.asked]
    words += [f"-{left}" for left in understood.left]
    return hashlib.blake2s("\n".join(words).encode(errors="replace"), digest_size=8).hexdigest()


def keep_said(door: Door, sent: SentForm, pen: Pen) -> Written:
    """Keep a line as it was read back.

    The form brings the line, the moment it was about, the session's jobs, the mark of how it
    was understood and an answer to each question.

    Parameters
    ----------
    door : Door
        The build.
    sent : SentForm
        The form.
    pen : Pen
        Who writes.

    Raises
    ------
    BadInput
        When there is no line.
    Conflict
        When the build has changed so that the line would mean something else now.
    """
    line = _said(sent, "line")
    if not line:
        raise BadInput("the line", "it is empty", "write how it went")
    if pen.entry_id and door.entry(pen.entry_id) is not None:
        return Written((BEFORE,), "record:line", repeated=True)
    at = _at(door, sent)
    understood = preview_line(door, line, sent.fields.get("tonight", ()), at)
    if _said(sent, "read") and _said(sent, "read") != reading_mark(understood):
        raise Conflict(
            "the line",
            "would be understood otherwise now, because the build has changed since it was read",
            "look at how it is read now, then press again",
        )
    answers = {
        int(name.removeprefix("answer-")): int(values[0])
        for name, values in sent.fields.items()
        if _ANSWER.fullmatch(name) and values and values[0].isdigit()
    }
    ids = [pen.entry_id] if pen.entry_id else None
    before = door.build()
    receipt = keep_line(door, understood, ids, answers=answers, author=pen.author)
    settled = understood.answered(answers)
    said = [one.sentence.rstrip(".") + "." for one in settled.heard]
    said += spent_by_work(before, door.build())
    said += session_told(door, receipt)
    notes = len(settled.left) + sum(bool(asked.words) for asked in settled.asked)
    if notes:
        said.append(f"{notes} {'part is' if notes == 1 else 'parts are'} kept as a note.")
    if receipt.to_settle:
        said.append(SETTLE_LATER)
    return Written(tuple(said), "record:line", to_settle=bool(receipt.to_settle))


def _said(sent: SentForm, name: str) -> str:
    return next(iter(sent.fields.get(name, ())), "").strip()


def _at(door: Door, sent: SentForm) -> datetime:
    """The moment that the line was read back for; a moment to come is no time for a record."""
    now = door.now()
    said = _said(sent, "at")
    if not said:
        return moment_on(door.build(), _said(sent, "day"), now)
    try:
        at = datetime.fromisoformat(said)
    except ValueError:
        raise BadInput("when", f"'{said}' is no moment", "read the line back again") from None
    if at.tzinfo is None:
        raise BadInput("when", f"'{said}' has no time zone", "read the line back again")
    return min(at, now)
