"""Garage time: what repeats, the days that are not as usual, the sessions to come."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from starlette.requests import Request
from starlette.responses import Response

from bareshell.app import garage_desk, opening, reading
from bareshell.errors import BadInput
from bareshell.web.desk import door_of
from bareshell.web.forms import Form, Sent, answered
from bareshell.web.twin import PageRouter, page
from bareshell.whole.car_overview import PatternView
from bareshell.whole.rule_words import DAYS, rule_words

router = PageRouter()


@dataclass(frozen=True, slots=True)
class PatternLine:
    """A repeating stretch of garage time in words."""

    view: PatternView
    words: str


@dataclass(frozen=True, slots=True)
class SessionsShown:
    """What the list needs besides."""

    patterns: tuple[PatternLine, ...]
    day: Form
    act: Form


@dataclass(frozen=True, slots=True)
class PatternShown:
    """What the form for a repeating session lets one choose from."""

    form: Form
    action: str
    title: str
    days: tuple[tuple[str, str], ...] = tuple(DAYS.items())
    every: tuple[tuple[str, str], ...] = (
        ("1", "every week"),
        ("2", "every second week"),
        ("3", "every third week"),
        ("4", "every fourth week"),
    )
    people: tuple[tuple[str, str], ...] = (("1", "alone"), ("2", "two people"))


@router.page("/car/sessions")
def sessions(request: Request) -> Response:
    """List garage time."""
    return _show(request, Form({"minutes": ("0",)}))


def _show(request: Request, form: Form) -> Response:
    overview = reading.car(door_of(request))
    lines = tuple(PatternLine(view, rule_words(view.rule)) for view in overview.patterns)
    shown = SessionsShown(lines, form, Form())
    return page(request, "car/sessions.html", overview, also=shown, status=form.status)


@router.post("/car/days", response_model=None)
def set_day(request: Request, sent: Sent) -> Response:
    """Write down a day that is not as usual."""
    return answered(
        request,
        sent,
        lambda pen: garage_desk.set_day(door_of(request), sent.fields, pen),
        "/car/sessions",
        lambda form: _show(request, form),
        offers=True,
    )


@router.post("/car/days/{day}/drop", response_model=None)
def drop_day(request: Request, day: str, sent: Sent) -> Response:
    """Let a day be as usual again."""
    try:
        which = date.fromisoformat(day)
    except ValueError as error:
        raise BadInput("day", f"'{day}' is none", "choose one from the list") from error
    return answered(
        request,
        sent,
        lambda pen: garage_desk.drop_day(door_of(request), which, pen),
        "/car/sessions",
        lambda form: _show(request, form),
    )


@router.page("/car/sessions/{pattern_id}")
def pattern(request: Request, pattern_id: str) -> Response:
    """Show a repeating session, to be corrected."""
    laid = garage_desk.lay_pattern(garage_desk.pattern_of(door_of(request), pattern_id))
    return _edit(request, pattern_id, Form(laid))


def _edit(request: Request, pattern_id: str, form: Form) -> Response:
    door = door_of(request)
    shown = PatternShown(
        form.on(opening.version_of(door, f"pattern:{pattern_id}")),
        f"/car/sessions/{pattern_id}",
        garage_desk.pattern_of(door, pattern_id).title,
    )
    return page(request, "car/session.html", reading.car(door), also=shown, status=form.status)


@router.post("/car/sessions/{pattern_id}", response_model=None)
def change(request: Request, pattern_id: str, sent: Sent) -> Response:
    """Correct a repeating session."""
    return answered(
        request,
        sent,
        lambda pen: garage_desk.set_pattern(door_of(request), pattern_id, sent.fields, pen),
        "/car/sessions",
        lambda form: _edit(request, pattern_id, form),
        offers=True,
    )


@router.post("/car/sessions/{pattern_id}/drop", response_model=None)
def drop(request: Request, pattern_id: str, sent: Sent) -> Response:
    """Write down that it is over."""
    door = door_of(request)

    def again(form: Form) -> Response:
        laid = garage_desk.lay_pattern(garage_desk.pattern_of(door, pattern_id))
        return _edit(request, pattern_id, form.laid(laid))

    return answered(
        request,
        sent,
        lambda pen: garage_desk.drop_pattern(door, pattern_id, pen),
        "/car/sessions",
        again,
    )


@router.page("/add/session")
def new(request: Request) -> Response:
    """Show an empty form for a repeating session."""
    return _new(request, Form({"starts": ("19:00",), "minutes": ("150",)}))


def _new(request: Request, form: Form) -> Response:
    shown = PatternShown(form, "/add/session", "")
    overview = reading.car(door_of(request))
    return page(request, "car/session.html", overview, also=shown, status=form.status)


@router.post("/add/session", response_model=None)
def add(request: Request, sent: Sent) -> Response:
    """Add a repeating session."""
    return answered(
        request,
        sent,
        lambda pen: garage_desk.set_pattern(door_of(request), None, sent.fields, pen),
        "/car/sessions",
        lambda form: _new(request, form),
        offers=True,
    )
