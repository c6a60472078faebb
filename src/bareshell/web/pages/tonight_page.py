"""What Tonight's template needs besides the sheet: forms, choices, what came back wrong."""

from __future__ import annotations

from collections.abc import Container, Mapping
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from typing import Final
from urllib.parse import parse_qsl, urlencode
from zoneinfo import ZoneInfo

from bareshell.app.going_back import LeftPage
from bareshell.app.proving_together import limits_of
from bareshell.app.reading import RecordLine
from bareshell.errors import Problem
from bareshell.model import Build
from bareshell.model.proof import Limit
from bareshell.model.session import HelperWork
from bareshell.web.forms import new_entry_id
from bareshell.web.pages.tonight_asked import Asking
from bareshell.web.pages.tonight_view import Evening
from bareshell.web.plan_desk import MovedSince
from bareshell.whole.car_overview import ComingSession
from bareshell.whole.garage_time import zone_of
from bareshell.whole.sheet_parts import MOODS, Ticket, TonightSheet

_WRITTEN_MOST: Final = 8
_PLAIN_LIMITS: Final = (
    "Planning help only: it does not see the car. Hours, waits and figures of the starter network "
    "are common practice, no source; the car's own manual, local law and licensed practice "
    "outrank them."
)
_ALWAYS_THERE: Final = ("", "went", "say", "keep", "why")
"""Forms that are on the page whatever the plan says."""

_SET: Final = {
    "minutes": "how long",
    "people": "who is there",
    "support": "how the car stands",
    "temperature_c": "the warmth in the garage",
    "starts_at": "which session",
    "helper": "what the helper does alone",
}


_MOODS_SAID: Final = ("nothing dirty", "nothing dangerous, I am alone")


@dataclass(frozen=True, slots=True)
class Mishap:
    """A form that could not be taken: where, what is wrong, and what was typed in it.

    Parameters
    ----------
    place : str
        A job, ``fetch``, ``say``, ``keep``, ``went``, or empty for the head of the page.
    problems : tuple of Problem
        What is wrong.
    typed : mapping of str to str
        What the form held, so that nothing has to be typed again.
    status : int
        What the answer says to a program.
    """

    place: str
    problems: tuple[Problem, ...]
    typed: Mapping[str, str] = field(default_factory=dict)
    status: int = 422

    @property
    def words(self) -> str:
        """What was typed by hand, in one line, to be typed again elsewhere."""
        named = {"hours": "hours", "hours_left": "hours left", "words": "words", "where": "where"}
        said = [f"{named[k]} “{v}”" for k, v in self.typed.items() if k in named and v]
        said += [f"figure “{v}”" for k, v in self.typed.items() if k.startswith("figure") and v]
        return ", ".join(said)


@dataclass(frozen=True, slots=True)
class Question:
    """One question about a line, with its choices by number, and what no answer means."""

    number: int
    words: str
    choices: tuple[tuple[str, str], ...]
    otherwise: str = "leave it"


@dataclass(frozen=True, slots=True)
class SayPanel:
    """The one line, and how it was understood once it was read back.

    ``at``, ``read`` and ``tonight`` go out with the form, so that what is kept is what was read.
    """

    line: str = ""
    day: str = ""
    days: tuple[tuple[str, str], ...] = ()
    example: str = ""
    heard: tuple[str, ...] = ()
    left: tuple[str, ...] = ()
    questions: tuple[Question, ...] = ()
    at: str = ""
    read: str = ""
    tonight: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class WrittenLine:
    """Something written down today."""

    clock: str
    words: str
    state: str
    subject: str


@dataclass(frozen=True, slots=True)
class Silent:
    """Something that may have happened while nothing was written down."""

    about: str
    words: str
    choices: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class WayOut:
    """Something that would change an empty session."""

    path: str
    words: str


@dataclass(frozen=True, slots=True)
class Nothing:
    """Why there is nothing to do."""

    head: str
    sentence: str
    ways: tuple[WayOut, ...]


@dataclass(frozen=True, slots=True)
class Also:
    """What the template needs besides the sheet."""

    build: Build
    asking: Asking
    evening: Evening
    session_shown: Mapping[str, str]
    coming: tuple[tuple[str, str], ...]
    say: SayPanel
    written: tuple[WrittenLine, ...]
    nothing: Nothing
    set_words: str
    settle: str
    begin_words: str
    limits: str
    silent: tuple[Silent, ...] = ()
    away: LeftPage | None = None
    why_typed: str = ""
    mishaps: tuple[Mishap, ...] = ()
    moved: MovedSince | None = None

    @property
    def zone(self) -> ZoneInfo:
        """The owner's."""
        return zone_of(self.build)

    @property
    def drawn(self) -> bool:
        """Whether some first move has a cost to be drawn."""
        return any(not one.move.no_odds for one in self.evening.choices)

    @property
    def moods(self) -> tuple[tuple[str, str], ...]:
        """What one may not want of an evening, and how it is said."""
        return tuple(zip(MOODS, _MOODS_SAID, strict=True))

    @property
    def helps(self) -> tuple[str, ...]:
        """What whoever helps may do alone."""
        return tuple(str(one) for one in HelperWork)

    @property
    def stance(self) -> str:
        """The kind of support the car stands on, for its silhouette; empty when not known."""
        support = self.build.supports.get(self.session_shown["support"])
        return str(support.kind) if support else ""

    @property
    def supports(self) -> tuple[tuple[str, str], ...]:
        """Every way the car can stand: its id and what it is called."""
        return tuple((key, support.title) for key, support in self.build.supports.items())

    @property
    def about(self) -> tuple[tuple[str, str], ...]:
        """What a note can be about: the session's jobs first, then what is under way."""
        here = [
            step.ticket for step in self.evening.steps if step.ticket and ":" not in step.ticket.id
        ]
        found = {f"job:{ticket.id}": ticket.title for ticket in here}
        for key, record in self.build.jobs.items():
            if record.state.is_open:
                found.setdefault(f"job:{key}", record.job.title)
        return tuple(found.items())

    @property
    def open_jobs(self) -> tuple[str, ...]:
        """What can be asked about: every job with work left in it."""
        return tuple(r.job.title for r in self.build.jobs.values() if r.state.is_open)

    @property
    def asking_fields(self) -> tuple[tuple[str, str], ...]:
        """The session as it is asked for, as hidden fields of the other small forms."""
        return tuple(parse_qsl(self.asking.query))

    @property
    def unpacked(self) -> str:
        """The address of the same session by the plan's own list."""
        words = [(name, value) for name, value in self.asking_fields if name != "exactly"]
        return f"/tonight?{urlencode(words)}" if words else "/tonight"

    def fresh(self) -> str:
        """A new id for a form, so that it lands once however often it is sent."""
        return new_entry_id()

    def limits_of(self, ticket: Ticket) -> tuple[Limit, ...]:
        """What is read for a ticket's proofs, each quantity once."""
        return limits_of(self.build, tuple(line.id for line in ticket.proves))

    def version(self, subject: str) -> int:
        """The version of a thing that the reader sees."""
        return self.build.versions.get(subject, 0)

    def job_title(self, job: str) -> str:
        """What a job is called."""
        record = self.build.jobs.get(job)
        return record.job.title if record else job

    def wrong_at(self, place: str) -> tuple[Problem, ...]:
        """What is wrong with a form."""
        return tuple(p for m in self.mishaps if m.place == place for p in m.problems)

    @property
    def loose(self) -> tuple[Mishap, ...]:
        """Mishaps whose form is not on the page any more, because the plan has moved on."""
        here = set(_ALWAYS_THERE)
        if self.evening.look_for:
            here.add("fetch")
        if self.silent:
            here.add("silent")
        for step in self.evening.steps:
            if step.ticket is not None:
                here |= {step.ticket.id, f"proof:{step.ticket.id}"}
            if step.move is not None:
                here.add(f"support:{step.move.to_support}")
        return tuple(m for m in self.mishaps if m.place not in here)

    def typed_at(self, place: str) -> dict[str, str]:
        """What was typed in a form that could not be taken; every other field is empty."""
        found = next((m.typed for m in self.mishaps if m.place == place), {})
        return _Typed(found)

    def stop_address(self, job: str) -> str:
        """The address of this page with the form of a job open to be stopped."""
        words = [*self.asking_fields, ("stop", job)]
        return f"/tonight?{urlencode(words)}"


class _Typed(dict[str, str]):
    """Fields of a form; one that was not typed is empty."""

    def __missing__(self, key: str) -> str:
        return ""


def session_shown(sheet: TonightSheet, asking: Asking) -> dict[str, str]:
    """The answers as the form shows them: what was typed, else what the session is taken to be."""
    session = sheet.session
    warmth = session.temperature_c
    taken = {
        "minutes": str(session.minutes),
        "people": str(session.people),
        "support": session.support,
        "temperature": "" if warmth is None else f"{warmth:.0f}".replace("-0", "0"),
        "starts": "",
        "helper": session.helper or str(HelperWork.NOTHING),
    }
    return taken | asking.typed


def coming_choices(coming: tuple[ComingSession, ...], now: datetime) -> tuple[tuple[str, str], ...]:
    """The sessions one can choose among, as they are said."""
    return tuple(
        (one.starts_at.isoformat(), _session_words(one)) for one in coming if one.starts_at > now
    )[:12]


def _session_words(one: ComingSession) -> str:
    hours = f"{one.minutes / 60:.1f}".removesuffix(".0")
    two = ", two people" if one.people > 1 else ""
    return f"{one.starts_at:%a} {one.starts_at.day} {one.starts_at:%b %H:%M}, {hours} h{two}"


def days_back(build: Build, now: datetime) -> tuple[tuple[str, str], ...]:
    """Today and the thirteen days before it, as they are said."""
    today = now.astimezone(zone_of(build)).date()
    named = {0: "today", 1: "yesterday"}
    found = [("", "now")]
    for back in range(1, 14):
        day = today - timedelta(days=back)
        beside = f"{named[back]}, " if back in named else ""
        found.append((day.isoformat(), f"{beside}{day:%A} {day.day} {day:%b}"))
    return tuple(found)


def written_today(
    lines: tuple[RecordLine, ...], work: Container[int], now: datetime, zone: ZoneInfo
) -> tuple[WrittenLine, ...]:
    """What was written down of today's work, the newest first.

    Parameters
    ----------
    lines : tuple of RecordLine
        The newest of the record.
    work : container of int
        The numbers of those entries that tell of work, and not of how the build is laid out.
    now : datetime
        Aware.
    zone : ZoneInfo
        The owner's.
    """
    today = now.astimezone(zone).date()
    found = [
        line
        for line in lines
        if line.seq in work and line.recorded_at.astimezone(zone).date() == today
    ]
    return tuple(
        WrittenLine(
            f"{line.recorded_at.astimezone(zone):%H:%M}", line.words, line.state, line.subject
        )
        for line in found[:_WRITTEN_MOST]
    )


def nothing_words(sheet: TonightSheet | None, build: Build) -> Nothing:
    """Why nothing can be done, and what would change that."""
    ways = [
        WayOut("/shelf", "Look at the shelf: a part that is found or ordered frees what waits"),
        WayOut("/proofs", "Look at the proofs: what is proven frees what would hide it"),
        WayOut("/road-ahead", "Look at the road ahead: when the next job can be done"),
    ]
    if not any(record.state.is_open for record in build.jobs.values()):
        sentence = "No job is left open in this build."
        ways = [WayOut("/jobs", "Look at the jobs, or add one")]
        return Nothing("Nothing left to do", sentence, tuple(ways))
    if sheet is None:
        sentence = (
            "The garage has no evenings yet, so there is no session to plan. Say above how long "
            "you have, or give the garage its usual evenings."
        )
        ways = [WayOut("/add/session", "Give the garage its usual evenings")]
        return Nothing("No session to come", sentence, tuple(ways))
    blocked = sheet.why_not[0] if sheet.why_not else None
    sentence = "No open job can be started in this session as it is."
    if blocked is not None:
        sentence += " Each of those it would like is named with what frees it."
    elif sheet.stranded:
        sentence += " Some jobs can never be reached; they are named below."
    return Nothing("Nothing can be done in this session", sentence, tuple(ways))


def set_words(asking: Asking, sheet: TonightSheet | None) -> str:
    """What the person set, in words; empty when nothing was."""
    if asking.asked is None:
        return ""
    named = sheet.session.overridden if sheet else ()
    return ", ".join(_SET.get(name, name) for name in named)


def begin_words(sheet: TonightSheet) -> str:
    """What the first moves have in common, in a sentence or two."""
    good = sum(move.as_good for move in sheet.begin_with)
    runs = f"{sheet.samples:,} runs of the road ahead" if sheet.samples else "the runs made"
    if len(sheet.begin_with) == 1:
        return "One job can be begun here; there is no choice to weigh."
    if good >= len(sheet.begin_with):
        same = all(move.no_odds for move in sheet.begin_with)
        if same and sheet.samples:
            return (
                f"Any of these is as good: over {runs} the day on the road came out the same, "
                "whichever comes first. Take what suits the evening."
            )
        return f"Any of these is as good: over {runs} no difference shows beyond chance."
    if good > 1:
        names = {2: "two", 3: "three", 4: "four"}.get(good, str(good))
        either = "Either of the first two" if good == 2 else f"Any of the first {names}"
        return f"{either} is as good: over {runs} no difference shows."
    return f"Weighed over {runs}: what each first move costs the day on the road."


def limits(sheet: TonightSheet) -> str:
    """What the page rests on."""
    words = []
    if sheet.invented:
        words.append("Invented demo build.")
    words += [sentence.rstrip(".") + "." for sentence in sheet.assumptions]
    if sheet.promise:
        words.append(sheet.promise.rstrip(".") + ".")
    if sheet.samples:
        how = " by the plain walk, without a compiler" if sheet.engine == "plain" else ""
        words.append(f"Simulated over {sheet.samples:,} runs{how}.")
    words.append(f"Made {sheet.made_at:%d %b %Y %H:%M}, journal number {sheet.seq}.")
    words.append(_PLAIN_LIMITS)
    return " ".join(words)
