"""Bringing a file in: it is read and shown first, then all of it lands or nothing."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import tzinfo
from typing import Annotated

from fastapi import Depends
from starlette.datastructures import UploadFile
from starlette.requests import Request
from starlette.responses import Response

from bareshell.app import bringing_in
from bareshell.app.bringing_in import Looked, RowSeen, SheetSeen
from bareshell.app.exchange import ImportKind, ImportLine
from bareshell.app.sheet_choices import COMMA, DAY_FIRST, FOR_ALL, LEAVE
from bareshell.app.tray import Tray, Waiting
from bareshell.errors import BadInput, Conflict, Problem
from bareshell.io.sheets import Meaning, RowChoice, RowState, SheetKind
from bareshell.io.sheets.desk import USED
from bareshell.model.job import SYSTEMS
from bareshell.web import cookies
from bareshell.web.desk import author_of, door_of, zone_for
from bareshell.web.forms import Form, Sent, SentForm, pairs
from bareshell.web.links import asked
from bareshell.web.pairing import desk_of, is_this_computer
from bareshell.web.pieces import Figure
from bareshell.web.slices import Slice, part_of
from bareshell.web.twin import PageRouter, done, page, wants_json

router = PageRouter()

PATH = "/bring-in"
FEW = 12
"""A sheet of so few rows that wants an answer stands open."""

_COUNTED = {RowState.CORRECTED: "to correct what is there"}

MOST_TOLD = 30
"""How many problems are told one by one at the head of the page."""


@dataclass(frozen=True, slots=True)
class BroughtShown:
    """What the page of a file needs besides: its form, and which rows it shows."""

    path: str
    zone: tzinfo
    form: Form
    figures: tuple[Figure, ...]
    sheets: tuple[SheetForm, ...]
    lines: Slice[ImportLine]
    systems: tuple[tuple[str, str], ...] = pairs(SYSTEMS)
    kinds: tuple[tuple[str, str], ...] = pairs(SheetKind)
    days: tuple[tuple[str, str], ...] = tuple(DAY_FIRST.items())
    commas: tuple[tuple[str, str], ...] = tuple(COMMA.items())
    jobs: tuple[str, ...] = ()
    most_told: int = MOST_TOLD


@dataclass(frozen=True, slots=True)
class RowForm:
    """A row, and what can be done with it: pairs of a value and its words."""

    row: RowSeen
    choices: tuple[tuple[str, str], ...]
    chosen: str


@dataclass(frozen=True, slots=True)
class SheetForm:
    """One sheet of the form.

    Parameters
    ----------
    seen : SheetSeen
        As it was understood.
    rows : Slice
        Those that are shown.
    meanings : tuple of (str, str)
        What a column of such a list can mean.
    for_all : str
        What can be said once for all of its rows; empty for nothing.
    counts : str
        What becomes of its rows, in words.
    duplicates : int
        How many rows are in the build already.
    open : bool
        Whether its drawer stands open.
    """

    seen: SheetSeen
    rows: Slice[RowForm]
    meanings: tuple[tuple[str, str], ...]
    for_all: str
    counts: str
    duplicates: int
    open: bool


def holder_of(request: Request) -> str:
    """Who brings a file: this computer, or a paired phone by its own id."""
    if not is_this_computer(request):
        device = desk_of(request).device(request.cookies.get(cookies.DEVICE, ""))
        if device is not None:
            return device.id
    return "this computer"


# --- choosing a file ------------------------------------------------------------------------------


@router.page(PATH)
def bring_in(request: Request) -> Response:
    """Ask for a file, and list those that wait."""
    return _ask(request, Form())


def _ask(request: Request, form: Form) -> Response:
    context = bringing_in.desk(door_of(request), holder_of(request))
    return page(request, "keeping/bring_in.html", context, also=form, status=int(form.status))


async def file_sent(request: Request) -> UploadFile | None:
    """The file that came with a form; None when none was chosen."""
    found = (await request.form()).get("file")
    return found if isinstance(found, UploadFile) and found.filename else None


@router.post(PATH, response_model=None)
def take(
    request: Request, sent: Sent, file: Annotated[UploadFile | None, Depends(file_sent)]
) -> Response:
    """Take a file into the tray and show what would land of it."""
    try:
        waiting = _taken(request, file)
    except BadInput as error:
        if wants_json(request):
            raise
        return _ask(request, sent.again(error))
    words = "Nothing of it is kept here." if waiting.told else "Nothing landed yet."
    return done(request, _path(waiting), f"'{waiting.name}' was read. {words}")


def _taken(request: Request, file: UploadFile | None) -> Waiting:
    if file is None:
        raise BadInput("file", "none was chosen", "choose the file, then press again")
    with file.file as opened:
        return bringing_in.take(
            door_of(request), holder_of(request), opened, file.size or 0, file.filename or ""
        )


# --- looking at it --------------------------------------------------------------------------------


@router.page(PATH + "/{token}")
def brought(request: Request, token: str, sheet: str = "", part: int = 1) -> Response:
    """Show what would land of a file."""
    return _show(request, _waiting(request, token), sheet, part)


def _waiting(request: Request, token: str) -> Waiting:
    door = door_of(request)
    return Tray(door.folder).find(token, holder_of(request), door.now())


def _path(waiting: Waiting) -> str:
    return f"{PATH}/{waiting.token}"


def _show(
    request: Request,
    waiting: Waiting,
    sheet: str = "",
    part: int = 1,
    problems: tuple[Problem, ...] = (),
    status: int = 200,
) -> Response:
    door = door_of(request)
    found = bringing_in.look(door, waiting)
    form = Form(waiting.answers, problems=problems, status=status)
    shown = BroughtShown(
        path=_path(waiting),
        zone=zone_for(door),
        form=form,
        figures=_figures(found),
        sheets=tuple(_sheets(found, form, sheet, part)),
        lines=part_of(found.lines if found.kind == ImportKind.BUILD_FILE else (), part),
        jobs=tuple(record.job.title for record in door.build().jobs.values()),
    )
    return page(request, "keeping/brought.html", found, also=shown, status=status)


def _figures(found: Looked) -> tuple[Figure, ...]:
    if found.kind == ImportKind.BUILD_FILE:
        return (
            Figure(
                str(found.changes),
                "change would land" if found.changes == 1 else "changes would land",
            ),
            _stops(found),
        )
    kept = [sheet for sheet in found.sheets if not sheet.left_out]

    def count(*states: RowState) -> str:
        return str(sum(sheet.count(state) for sheet in kept for state in states))

    return (
        Figure(count(RowState.NEW), "rows are new"),
        Figure(count(RowState.CORRECTED), "correct what is there"),
        Figure(count(RowState.THERE), "are there already"),
        _stops(found)
        if found.stopped_by
        else Figure(count(RowState.LEFT_OUT, RowState.UNREADABLE), "rows are left out"),
    )


def _stops(found: Looked) -> Figure:
    stops = len(found.stopped_by)
    return Figure(str(stops), "thing stops it" if stops == 1 else "things stop it")


def _sheets(found: Looked, form: Form, sheet: str, part: int) -> Iterator[SheetForm]:
    stopping = [one.key for one in found.sheets if one.stops]
    first = stopping[0] if stopping else found.sheets[0].key if len(found.sheets) == 1 else ""
    opened = sheet or first
    for seen in found.sheets:
        rows = part_of(seen.rows, part if seen.key == sheet else 1)
        alike = form.value(f"{seen.key}.there")
        kind = SheetKind(seen.kind) if seen.kind else None
        used = [one for one in Meaning if kind is None or one in USED[kind]]
        named = {column.meaning for column in seen.columns} - set(used)
        yield SheetForm(
            seen=seen,
            rows=Slice(
                tuple(_row(row, seen.key, form, alike) for row in rows.items),
                rows.number,
                rows.pages,
                rows.total,
                rows.first,
                rows.last,
            ),
            meanings=pairs([*used, *(one for one in named if one is not None)]),
            for_all=FOR_ALL.get(seen.kind, ""),
            counts=_counts(seen),
            duplicates=sum(row.doubled for row in seen.rows),
            open=seen.key == opened or (seen.stops and rows.total <= FEW),
        )


def _counts(seen: SheetSeen) -> str:
    if seen.left_out:
        return "left out"
    told = [
        f"{count} {_COUNTED.get(state, state)}"
        for state in RowState
        if (count := seen.count(state))
    ]
    return ", ".join(told) or "no rows"


def _row(row: RowSeen, key: str, form: Form, alike: str) -> RowForm:
    chosen = form.value(f"{key}.row.{row.number}")
    if not row.doubled:
        return RowForm(row, (), chosen)
    usual = f"as all such rows: {alike}" if alike else "leave what is there"
    choices = [("", usual), *pairs((RowChoice.CORRECT, RowChoice.ADD))]
    if alike:
        choices.append((LEAVE, "leave what is there"))
    return RowForm(row, tuple(choices), chosen)


# --- choosing, letting in, letting go -------------------------------------------------------------


@router.post(PATH + "/{token}", response_model=None)
def look_again(request: Request, token: str, sent: Sent) -> Response:
    """Keep what was chosen and read the file again with it."""
    waiting = bringing_in.choose(door_of(request), _waiting(request, token), sent.fields)
    return done(request, _to(waiting, sent), "Read again with what you chose. Nothing landed yet.")


def _to(waiting: Waiting, sent: SentForm) -> str:
    """The page again, at the sheet and the rows whose button was pressed."""
    then = next(iter(sent.fields.get("then", ())), "")
    sheet, _, part = then.partition(" ")
    if not (sheet.isalnum() and part.isdecimal()):
        return _path(waiting)
    return f"{asked(_path(waiting), sheet=sheet, part=part)}#{sheet}"


@router.post(PATH + "/{token}/land", response_model=None)
def land(request: Request, token: str, sent: Sent) -> Response:
    """Let it land: all of it, or nothing; and nothing else than what was shown."""
    door = door_of(request)
    waiting = before = _waiting(request, token)
    if not waiting.landed:
        waiting = bringing_in.choose(door, waiting, sent.fields)
        if waiting.answers != before.answers:
            words = "You chose something else, so nothing landed yet: look what would land now."
            return done(request, _path(waiting), words)
    mark = next(iter(sent.fields.get("mark", ())), "")
    try:
        waiting, receipt = bringing_in.let_in(door, waiting, mark, author_of(request))
    except (BadInput, Conflict) as error:
        if wants_json(request):
            raise
        said = (
            error.message if isinstance(error, Conflict) else "nothing landed: something stops it"
        )
        problem = Problem("", said, error.remedy if isinstance(error, Conflict) else "")
        return _show(request, waiting, problems=(problem,), status=error.status)
    first, last = waiting.landed
    count = last - first + 1
    entries = f"entry {first}" if count == 1 else f"{count} entries, {first} to {last}"
    words = f"'{waiting.name}' landed: {entries}."
    return done(request, _path(waiting), words if receipt else f"It had landed before: {entries}.")


@router.post(PATH + "/{token}/let-go", response_model=None)
def let_go(request: Request, token: str) -> Response:
    """Put a file away without letting it in."""
    door, waiting = door_of(request), _waiting(request, token)
    Tray(door.folder).let_go(waiting)
    return done(request, PATH, f"'{waiting.name}' is put away. Nothing of it landed.")
