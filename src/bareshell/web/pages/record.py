"""The record: every entry in words, what waits to be settled, the car as it stood on a day."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from starlette.requests import Request
from starlette.responses import Response

from bareshell.app import opening, reading, record_desk
from bareshell.app.filled import Filled
from bareshell.app.looking_back import AsItStood, as_it_stood
from bareshell.app.reading import RecordLine
from bareshell.errors import BadInput, Problem
from bareshell.web.desk import door_of, zone_for
from bareshell.web.forms import Form, Sent, answered
from bareshell.web.twin import PageRouter, page

router = PageRouter()

MOST_NAMED = 20


@dataclass(frozen=True, slots=True)
class Day:
    """What was written down of one day of the owner's."""

    day: date
    lines: tuple[RecordLine, ...]


@dataclass(frozen=True, slots=True)
class RecordShown:
    """What the page makes of a stretch of the record."""

    days: tuple[Day, ...]
    before: int | None
    about_words: str
    find: str
    named: tuple[tuple[str, str], ...]
    unsettled: Form
    today: str
    problems: tuple[Problem, ...] = ()


@dataclass(frozen=True, slots=True)
class EntryShown:
    """The forms that put an entry right."""

    back: Form
    settle: Form


@dataclass(frozen=True, slots=True)
class StoodShown:
    """The day before and the day after, and the marks of what stood."""

    earlier: str
    later: str
    today: str


@router.page("/record")
def record(
    request: Request, before: int | None = None, about: str = "", find: str = ""
) -> Response:
    """Show a stretch of the record, newest first."""
    return _show(request, before, about, find)


def _show(
    request: Request,
    before: int | None = None,
    about: str = "",
    find: str = "",
    problems: tuple[Problem, ...] = (),
) -> Response:
    door = door_of(request)
    found = reading.record(door, before=before, about=about or None)
    shown = RecordShown(
        days=tuple(_by_day(found.lines)),
        before=before,
        about_words=record_desk.subject_words(door, about) if about else "",
        find=find.strip(),
        named=record_desk.subjects_called(door, find, MOST_NAMED) if find.strip() else (),
        unsettled=Form(),
        today=door.now().astimezone(zone_for(door)).date().isoformat(),
        problems=problems,
    )
    status = 422 if problems else 200
    return page(request, "record/all.html", found, also=shown, status=status)


def _by_day(lines: Iterable[RecordLine]) -> Iterable[Day]:
    """By the day on which each entry was written, which is the order of the record."""
    days: dict[date, list[RecordLine]] = {}
    for line in lines:
        days.setdefault(line.recorded_at.date(), []).append(line)
    for day, of_day in days.items():
        yield Day(day, tuple(of_day))


@router.page("/record/as-it-stood")
def stood(request: Request, day: str = "", known: str = "") -> Response:
    """Show the car as it stood at the end of a day."""
    door = door_of(request)
    form = Filled({"day": [day]}, door.now(), zone_for(door))
    asked = form.day("day", "day", towards="past")
    try:
        if asked is None and not day:
            form.wrong("day", "none is named", "choose a day that has been")
        form.check()
        found = as_it_stood(door, asked or form.today, known=bool(known))
    except BadInput as error:
        return _show(request, problems=error.problems)
    return page(request, "record/stood.html", found, also=_around(found, form.today))


def _around(found: AsItStood, today: date) -> StoodShown:
    one = date.resolution
    later = found.day + one
    return StoodShown(
        earlier=(found.day - one).isoformat() if found.day > date.min else "",
        later=later.isoformat() if later <= today else "",
        today=today.isoformat(),
    )


@router.page("/record/{number}")
def entry(request: Request, number: int) -> Response:
    """Show one entry, with what it met."""
    return _entry(request, number, Form(), Form())


def _entry(request: Request, number: int, back: Form, settle: Form) -> Response:
    found = opening.entry(door_of(request), number)
    status = max(back.status, settle.status)
    shown = EntryShown(back, settle)
    return page(request, "record/entry.html", found, also=shown, status=status)


@router.post("/record/{number}/take-back", response_model=None)
def take_back(request: Request, number: int, sent: Sent) -> Response:
    """Take an entry back; the build is made again without it."""
    return answered(
        request,
        sent,
        lambda pen: record_desk.take_back(door_of(request), number, sent.fields, pen),
        f"/record/{number}",
        lambda form: _entry(request, number, form, Form()),
    )


@router.post("/record/{number}/settle", response_model=None)
def settle(request: Request, number: int, sent: Sent) -> Response:
    """Keep an entry that met another change, or set it aside."""
    return answered(
        request,
        sent,
        lambda pen: record_desk.settle(door_of(request), number, sent.fields, pen),
        f"/record/{number}",
        lambda form: _entry(request, number, Form(), form),
    )
