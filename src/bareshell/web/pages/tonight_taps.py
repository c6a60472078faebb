"""What is tapped on Tonight: begun, stopped, done, found, not found, moved, proved, kept."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from http import HTTPStatus
from typing import Annotated
from urllib.parse import urlsplit

from fastapi import APIRouter, Depends, Request
from starlette.datastructures import UploadFile
from starlette.responses import Response

from bareshell.app import garage_desk, jobs_desk, keeping, parts_desk, sessions
from bareshell.app.proving_together import prove_together
from bareshell.app.session_end import end_session
from bareshell.app.written import Pen, Written
from bareshell.errors import BareshellError
from bareshell.web.desk import door_of
from bareshell.web.forms import Form, Sent, SentForm
from bareshell.web.pages.tonight import asking_of, shown
from bareshell.web.pages.tonight_page import Mishap
from bareshell.web.pages.tonight_said import keep_said
from bareshell.web.pages.tonight_view import place_of
from bareshell.web.plan_desk import plan_desk_of
from bareshell.web.twin import done, wants_json

router = APIRouter()


def tapped(
    request: Request,
    sent: SentForm,
    place: str,
    act: Callable[[Pen], Written],
    *,
    at: str = "",
) -> Response:
    """Do one thing and show the session again, planned anew.

    Parameters
    ----------
    request : Request
        What is answered.
    sent : SentForm
        The form.
    place : str
        Where its mishap would stand on the page.
    act : callable
        What is done.
    at : str
        The strip to go back to; empty for the head of the page, where what is said stands.
    """
    try:
        written = act(sent.pen(request))
    except BareshellError as error:
        if wants_json(request):
            raise
        return again(request, sent, place, error)
    to = f"{back_to(sent)}#{at}" if at and not written.to_settle else back_to(sent)
    return done(request, to, written.said, written)


def back_to(sent: SentForm) -> str:
    """The session as it was asked for when the form was sent."""
    return sent.back if urlsplit(sent.back).path == "/tonight" else "/tonight"


def again(request: Request, sent: SentForm, place: str, error: BareshellError) -> Response:
    """Show the page once more: what is wrong beside its form, nothing lost that was typed."""
    form: Form = sent.again(error)
    asking = asking_of(request, urlsplit(back_to(sent)).query)
    mishap = Mishap(place, form.problems, first_values(sent), int(form.status))
    line, day = (_field(sent, "line"), _field(sent, "day")) if place == "say" else ("", "")
    return shown(request, asking, line=line, day=day, mishaps=[mishap])


def first_values(sent: SentForm) -> dict[str, str]:
    """Each field's first value."""
    return {name: values[0] for name, values in sent.fields.items() if values}


def _field(sent: SentForm, name: str) -> str:
    return next(iter(sent.fields.get(name, ())), "").strip()


@router.post("/tonight/start", response_model=None)
def start(request: Request, sent: Sent) -> Response:
    """Write down that a job is begun now."""
    job = _field(sent, "job")
    fields = {"what": ("started",)}
    return tapped(
        request,
        sent,
        job,
        lambda pen: jobs_desk.mark_job(door_of(request), job, fields, pen),
        at=place_of(job),  # the clock on its ticket is the answer
    )


@router.post("/tonight/job", response_model=None)
def stop(request: Request, sent: Sent) -> Response:
    """Write down how a job went: part done with hours left, done, or off again."""
    job = _field(sent, "job")
    return tapped(
        request, sent, job, lambda pen: jobs_desk.mark_job(door_of(request), job, sent.fields, pen)
    )


@router.post("/tonight/proof", response_model=None)
def prove(request: Request, sent: Sent) -> Response:
    """Write down what one look showed of a ticket's proofs."""
    place = f"proof:{_field(sent, 'ticket')}"
    return tapped(
        request, sent, place, lambda pen: prove_together(door_of(request), sent.fields, pen)
    )


@router.post("/tonight/fetch", response_model=None)
def fetch(request: Request, sent: Sent) -> Response:
    """Write down whether something that nobody recorded is here."""
    need = _field(sent, "need")
    desk = parts_desk.need_here if _field(sent, "is") == "here" else parts_desk.need_not_here
    return tapped(request, sent, "fetch", lambda pen: desk(door_of(request), need, {}, pen))


@router.post("/tonight/stands", response_model=None)
def stands(request: Request, sent: Sent) -> Response:
    """Write down that the car was moved; what is off it stays off."""
    door, support = door_of(request), _field(sent, "support")
    placement = door.build().placement
    off = tuple(sorted(placement.off)) if placement else ()
    fields: Mapping[str, tuple[str, ...]] = {"support": (support,), "off": off}
    return tapped(
        request, sent, f"support:{support}", lambda pen: garage_desk.place_car(door, fields, pen)
    )


@router.post("/tonight/went", response_model=None)
def went(request: Request, sent: Sent) -> Response:
    """Write down what is ticked, how the car is left, that the session is over."""
    answer = tapped(
        request, sent, "went", lambda pen: end_session(door_of(request), sent.fields, pen)
    )
    if sent.fields.get("over") and answer.status_code < HTTPStatus.BAD_REQUEST:
        plan_desk_of(request).after_session(door_of(request))
    return answer


@router.post("/tonight/say", response_model=None)
def say(request: Request, sent: Sent) -> Response:
    """Keep the line as it was read back; what it means now must be what it meant then."""
    try:
        written = keep_said(door_of(request), sent, sent.pen(request))
    except BareshellError as error:
        if wants_json(request):
            raise
        return again(request, sent, "say", error)
    plan_desk_of(request).after_session(door_of(request))
    return done(request, back_to(sent), written.said, written)


@router.post("/tonight/silent", response_model=None)
def silent(request: Request, sent: Sent) -> Response:
    """Write down what happened while nothing was written down."""

    def act(pen: Pen) -> Written:
        door = door_of(request)
        questions = sessions.did_this_happen(door, sent.fields.get("planned", ()))
        answers = {
            name.removeprefix("answer:"): int(values[0])
            for name, values in sent.fields.items()
            if name.startswith("answer:") and values and values[0].isdigit()
        }
        ids = [pen.entry_id] if pen.entry_id else None
        receipt = sessions.keep_answers(door, questions, answers, ids, author=pen.author)
        count = len(receipt.entries)
        said = (
            f"{count} {'entry' if count == 1 else 'entries'} written down."
            if count
            else ("Nothing of it changes the record.")
        )
        return Written((said,), "record:silence")

    return tapped(request, sent, "silent", act)


async def photo_sent(request: Request) -> bytes:
    """The photograph that came with a form; empty when none was chosen."""
    found = (await request.form()).get("photo")
    if not isinstance(found, UploadFile):
        return b""
    try:
        return await found.read()
    finally:
        await found.close()


@router.post("/tonight/keep", response_model=None)
def keep(request: Request, sent: Sent, photo: Annotated[bytes, Depends(photo_sent)]) -> Response:
    """Keep a note, a lesson or a photograph."""
    return tapped(
        request,
        sent,
        "keep",
        lambda pen: keeping.keep_with(door_of(request), sent.fields, photo, pen),
    )
