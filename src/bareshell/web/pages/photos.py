"""Photographs: the files themselves, the album by job, and keeping new ones."""

from __future__ import annotations

from collections.abc import Sequence
from contextlib import ExitStack
from dataclasses import dataclass, replace
from itertools import groupby
from pathlib import Path
from typing import Annotated

from fastapi import Depends
from starlette.datastructures import UploadFile
from starlette.requests import Request
from starlette.responses import FileResponse, Response

from bareshell.app import photo_album
from bareshell.app.keeping import is_known
from bareshell.app.photo_album import PhotoSeen, PhotosKept
from bareshell.app.photos import photo_file, thumbnail_file
from bareshell.errors import BadInput, Conflict
from bareshell.web.desk import door_of
from bareshell.web.forms import Form, Sent, SentForm
from bareshell.web.links import page_of
from bareshell.web.slices import Slice, part_of
from bareshell.web.twin import PageRouter, done, page, wants_json

router = PageRouter()

PATH = "/photos"
PART = 24
_KEPT = "private, max-age=31536000, immutable"
"""A photograph never changes: another picture has another id."""


@dataclass(frozen=True, slots=True)
class PhotosTogether:
    """Photographs of one thing that stand together on the page."""

    about: str
    words: str
    photos: tuple[PhotoSeen, ...]


@dataclass(frozen=True, slots=True)
class AlbumShown:
    """Which part of the album is shown, and the form that keeps more."""

    form: Form
    part: Slice[PhotoSeen]
    together: tuple[PhotosTogether, ...]
    jobs: tuple[str, ...]
    said: str = ""


@router.page(PATH)
def photos(request: Request, about: str = "", number: int = 1) -> Response:
    """Show the photographs by what they show."""
    return _show(request, Form({"about": (about if about != "none" else "",)}), about, number)


def _show(
    request: Request, form: Form, about: str = "", number: int = 1, said: str = ""
) -> Response:
    door = door_of(request)
    photo_album.check_is_known(door, about)
    found = photo_album.album(door, about)
    part = part_of(found.photos, number, PART)
    shown = AlbumShown(
        form=form,
        part=part,
        together=tuple(_together(part.items)),
        jobs=tuple(record.job.title for record in door.build().jobs.values()),
        said=said,
    )
    return page(request, "keeping/photos.html", found, also=shown, status=int(form.status))


def _together(photos: Sequence[PhotoSeen]) -> list[PhotosTogether]:
    return [
        PhotosTogether(about, several[0].about_words, several)
        for about, group in groupby(photos, key=lambda photo: photo.about)
        if (several := tuple(group))
    ]


@router.page(PATH + "/{photo_id}/look")
def one(request: Request, photo_id: str) -> Response:
    """Show one photograph as large as the screen takes it."""
    found = photo_album.one_photo(door_of(request), photo_id)
    return page(request, "keeping/photo.html", found)


# --- the files ------------------------------------------------------------------------------------


@router.get(PATH + "/{photo_id}", response_model=None)
def photo(request: Request, photo_id: str) -> Response:
    """Send a photograph."""
    return _sent(*photo_file(door_of(request), photo_id))


@router.get(PATH + "/{photo_id}/small", response_model=None)
def small(request: Request, photo_id: str) -> Response:
    """Send a small copy of a photograph."""
    return _sent(*thumbnail_file(door_of(request), photo_id))


def _sent(path: Path, content_type: str) -> Response:
    return FileResponse(
        path,
        media_type=content_type,
        filename=path.name,
        content_disposition_type="inline",
        headers={"Cache-Control": _KEPT, "Vary": "Cookie"},
    )


# --- keeping --------------------------------------------------------------------------------------


async def photos_sent(request: Request) -> list[UploadFile]:
    """The files that came with a form."""
    found = (await request.form()).getlist("photos")
    return [one for one in found if isinstance(one, UploadFile) and one.filename]


@router.post(PATH, response_model=None)
def keep(
    request: Request, sent: Sent, files: Annotated[list[UploadFile], Depends(photos_sent)]
) -> Response:
    """Keep photographs; one that cannot be kept does not keep the others out."""
    with ExitStack() as open_files:
        photos = []
        for file in files:
            opened = open_files.enter_context(file.file)
            photos.append(photo_album.Sent(file.filename or "the photograph", opened.read))
        try:
            kept = photo_album.keep_photos(door_of(request), sent.fields, photos, sent.pen(request))
        except (BadInput, Conflict) as error:
            if wants_json(request):
                raise
            return _again(request, sent.again(error))
    if kept.problems:
        if not wants_json(request):
            return _again(request, _what_is_left(sent, kept), kept.said)
        if not kept.kept:
            raise BadInput.together(kept.problems)
    to = sent.back or page_of(kept.about) or PATH
    return done(request, to, kept.said, kept)


def _what_is_left(sent: SentForm, kept: PhotosKept) -> Form:
    """The form once more, under its own id: what is kept already is then not kept twice."""
    again = sent.again(BadInput.together(kept.problems))
    return replace(again, entry=sent.entry or again.entry)


def _again(request: Request, form: Form, said: str = "") -> Response:
    about = form.value("about")
    known = is_known(door_of(request).build(), about)
    return _show(request, form, about if known else "", said=said)
