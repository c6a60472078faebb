"""Keeping photographs with the build, and showing them again."""

from __future__ import annotations

import os
from datetime import UTC, datetime
from pathlib import Path
from zoneinfo import ZoneInfo

from bareshell.app.door import CACHE_FOLDER, Door, Receipt
from bareshell.app.photo_files import PHOTOS_FOLDER, THUMBNAILS_FOLDER, is_plain_name
from bareshell.errors import Conflict, Damaged, NotFound
from bareshell.model.changes import PhotoKept
from bareshell.model.note import Photo
from bareshell.store.faults import in_words
from bareshell.store.files import whole

CONTENT_TYPES = {".jpg": "image/jpeg", ".png": "image/png"}


def keep_photo(
    door: Door,
    data: bytes,
    about: str = "",
    words: str = "",
    happened_at: datetime | None = None,
    *,
    photo_id: str | None = None,
    author: str | None = None,
) -> Receipt:
    """Keep a photograph with the build.

    It is stripped of the place it was taken at and turned upright. The file is on the disk in
    full before the record says so; when the record is not taken, the file goes again.

    Parameters
    ----------
    door : Door
        The build.
    data : bytes
        The picture as the phone sent it.
    about : str
        What it shows, as a subject: ``job:rear-pipe``; empty for nothing yet.
    words : str
        What the person says about it.
    happened_at : datetime or None
        When it was taken; None for what the camera says, or else now.
    photo_id : str or None
        Made by the sender, for the photo and its entry. Sent twice, it is kept once.
    author : str or None
        Who sent it.

    Returns
    -------
    Receipt
        Its one entry is a ``PhotoKept``.

    Raises
    ------
    BadInput
        When it is no picture, or too large.
    NoRoom
        When the disk is full; nothing was kept.
    """
    from bareshell.io.photos import clean

    if photo_id is not None and (held := door.entry(photo_id)) is not None:
        # Before anything is decoded: another release of the picture library may pack the same
        # picture otherwise, and the phone only wants to know that it arrived.
        if not isinstance(held.change, PhotoKept):
            raise Conflict(f"entry '{photo_id}'", "is no photo", "send it under an id of its own")
        return Receipt((), (photo_id,))
    picture = clean(data)
    key = photo_id or os.urandom(16).hex()
    at = happened_at or _taken(door, picture.taken_at)
    name = f"{at.astimezone(UTC):%Y-%m-%d}-{picture.sha256[:16]}.{picture.ending}"
    path = door.folder / PHOTOS_FOLDER / name
    was_there = path.exists()
    if not was_there:
        with in_words("the photo was not kept"):
            path.parent.mkdir(exist_ok=True)
            with whole(path) as beside:
                beside.write_bytes(picture.data)
    photo = Photo(key, at, name, picture.sha256, about, words)
    try:
        return door.record(PhotoKept(photo), happened_at=at, ids=[key], author=author)
    except BaseException:
        if not was_there:
            path.unlink(missing_ok=True)
        raise


def photo_file(door: Door, photo_id: str) -> tuple[Path, str]:
    """Return a photograph's file and its content type.

    Raises
    ------
    NotFound
        When there is no such photo.
    Damaged
        When its file is gone.
    """
    photo = door.build().photos.get(photo_id)
    if photo is None:
        raise NotFound(f"there is no photo '{photo_id}' in this build", "look in the record")
    path = door.folder / PHOTOS_FOLDER / photo.file
    kind = CONTENT_TYPES.get(path.suffix)
    if kind is None or not is_plain_name(photo.file) or not path.is_file():
        raise Damaged(
            f"the file of the photo '{photo.words or photo.id}' is not there",
            "put it back from an archive",
        )
    return path, kind


def thumbnail_file(door: Door, photo_id: str) -> tuple[Path, str]:
    """Return the file of a small copy of a photograph and its content type; made when first asked.

    Raises
    ------
    NotFound, Damaged
        As ``photo_file``.
    """
    from bareshell.io.photos import thumbnail

    path, _ = photo_file(door, photo_id)
    small = door.folder / CACHE_FOLDER / THUMBNAILS_FOLDER / f"{path.stem}.jpg"
    if not small.exists():
        with in_words("no small copy of the photo was made"):
            small.parent.mkdir(parents=True, exist_ok=True)
            with whole(small) as beside:
                beside.write_bytes(thumbnail(path.read_bytes()))
    return small, "image/jpeg"


def _taken(door: Door, camera: datetime | None) -> datetime:
    """Return when a picture was taken: by the camera's clock, unless that cannot be."""
    now = door.now()
    if camera is None:
        return now
    if camera.tzinfo is None:
        car = door.build().car
        camera = camera.replace(tzinfo=ZoneInfo(car.zone if car else "UTC"))
    return camera.astimezone(UTC) if camera <= now else now
