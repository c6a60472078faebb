"""Photographs by what they show, and keeping several at once."""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime

from bareshell.app.door import Door
from bareshell.app.filled import Fields
from bareshell.app.keeping import is_known
from bareshell.app.photos import keep_photo
from bareshell.app.written import Pen, filled, id_for, resolve
from bareshell.errors import BadInput, NotFound, Problem
from bareshell.model import Build
from bareshell.model.note import Photo
from bareshell.whole.garage_time import zone_of
from bareshell.whole.names import name_subject

NOWHERE = "nothing in particular"


@dataclass(frozen=True, slots=True)
class PhotoSeen:
    """A photograph: its id, when it was taken, what it shows, what was said of it."""

    id: str
    at: datetime
    about: str
    about_words: str
    words: str


@dataclass(frozen=True, slots=True)
class PhotosAbout:
    """How many photographs there are of one thing."""

    about: str
    words: str
    count: int


@dataclass(frozen=True, slots=True)
class Album:
    """The photographs of a build, or those of one thing.

    Parameters
    ----------
    about : str
        Whose photographs, such as ``job:rear-pipe``; empty for all.
    about_words : str
        The same in words.
    photos : tuple of PhotoSeen
        What belongs together stands together, the newest first.
    things : tuple of PhotosAbout
        Everything that has photographs, the latest taken first.
    """

    made_at: datetime
    seq: int
    car: str
    invented: bool
    about: str
    about_words: str
    photos: tuple[PhotoSeen, ...]
    things: tuple[PhotosAbout, ...]


@dataclass(frozen=True, slots=True)
class PhotoPage:
    """One photograph, and its neighbours among those of the same thing; empty for none."""

    made_at: datetime
    seq: int
    car: str
    invented: bool
    photo: PhotoSeen
    earlier: str
    later: str


def album(door: Door, about: str = "") -> Album:
    """Read the photographs.

    Parameters
    ----------
    door : Door
        The build.
    about : str
        Only those of this subject; ``none`` for those about nothing; empty for all.
    """
    build = door.build()
    groups = _groups(build)
    wanted = [photos for key, photos in groups if not about or key == _key(about)]
    return Album(
        made_at=door.now(),
        seq=build.seq,
        car=build.car_name,
        invented=build.invented,
        about=about,
        about_words=_words(build, _key(about)) if about else "",
        photos=tuple(_seen(build, photo) for photos in wanted for photo in photos),
        things=tuple(PhotosAbout(key, _words(build, key), len(photos)) for key, photos in groups),
    )


def one_photo(door: Door, photo_id: str) -> PhotoPage:
    """Open one photograph.

    Raises
    ------
    NotFound
        When the build has no such photograph.
    """
    build = door.build()
    photo = build.photos.get(photo_id)
    if photo is None:
        raise NotFound(f"there is no photo '{photo_id}' in this build", "look in the record")
    beside = next(photos for about, photos in _groups(build) if about == photo.about)
    ids = ["", *(one.id for one in beside), ""]
    place = ids.index(photo_id)
    return PhotoPage(
        made_at=door.now(),
        seq=build.seq,
        car=build.car_name,
        invented=build.invented,
        photo=_seen(build, photo),
        earlier=ids[place + 1],
        later=ids[place - 1],
    )


def photos_of(door: Door, about: str) -> tuple[PhotoSeen, ...]:
    """Return the photographs of one thing, the newest first."""
    build = door.build()
    return tuple(
        _seen(build, photo) for key, photos in _groups(build) if key == about for photo in photos
    )


def _key(about: str) -> str:
    return "" if about == "none" else about


def _groups(build: Build) -> list[tuple[str, list[Photo]]]:
    found: dict[str, list[Photo]] = {}
    for photo in sorted(build.photos.values(), key=lambda one: one.at, reverse=True):
        found.setdefault(photo.about, []).append(photo)
    return list(found.items())


def _seen(build: Build, photo: Photo) -> PhotoSeen:
    at = photo.at.astimezone(zone_of(build))
    return PhotoSeen(photo.id, at, photo.about, _words(build, photo.about), photo.words)


def _words(build: Build, about: str) -> str:
    kind, _, key = about.partition(":")
    if kind == "job" and key in build.jobs:
        return build.jobs[key].job.title
    return name_subject(about, build) if about else NOWHERE


# --- keeping --------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Sent:
    """A photograph that was sent: what it is called where it came from, and how to read it."""

    name: str
    read: Callable[[], bytes]


@dataclass(frozen=True, slots=True)
class PhotosKept:
    """What came of several photographs.

    Parameters
    ----------
    words : tuple of str
        Whole sentences for the person.
    about : str
        What they show, as a subject; empty for nothing.
    kept : int
        How many are kept now, those that had been sent before too.
    problems : tuple of Problem
        Those that are not kept, each with why.
    """

    words: tuple[str, ...]
    about: str
    kept: int
    problems: tuple[Problem, ...] = ()

    @property
    def said(self) -> str:
        """All of it as one line."""
        return " ".join(self.words)


def keep_photos(door: Door, fields: Fields, photos: Sequence[Sent], pen: Pen) -> PhotosKept:
    """Keep photographs with the build, each an entry of its own.

    The fields are ``about`` (a subject such as ``job:rear-pipe``) or ``job`` (its title), and
    ``words``. One that cannot be kept does not keep the others out: a phone in a cold garage
    need not send them all again. The same form sent again keeps each of them once.

    Raises
    ------
    BadInput
        When there is none, or the job is not known; nothing was kept.
    """
    form, build = filled(door, fields), door.build()
    words, about = form.text("words"), form.text("about")
    if (title := form.text("job")) and not about:
        titles = {key: record.job.title for key, record in build.jobs.items()}
        key = resolve(form, title, "job", titles, "job")
        about = f"job:{key}"
    if about and not is_known(build, about):
        form.wrong("about", f"there is no '{about}' in this build", "choose it from the list")
    if not photos:
        form.wrong("photographs", "none was chosen", "choose one or more, then press again")
    form.check()
    kept, problems = 0, []
    for photo in photos:
        try:
            _keep(door, photo.read(), about, words, pen)
            kept += 1
        except BadInput as error:
            problems += [Problem(f"'{photo.name}'", one.what, one.remedy) for one in error.problems]
    return PhotosKept(tuple(_told(kept, len(photos))), about, kept, tuple(problems))


def _keep(door: Door, data: bytes, about: str, words: str, pen: Pen) -> None:
    # An id made of the form's and the picture's: what landed of a form that is sent again stays
    # once, and the same picture can be kept again later, after it was taken back.
    key = id_for(pen.entry_id, hashlib.sha256(data).hexdigest())
    keep_photo(door, data, about, words, photo_id=key, author=pen.author)


def _told(kept: int, sent: int) -> Iterable[str]:
    if kept == 1 and sent == 1:
        yield "The photograph is kept, without the place it was taken at."
    elif kept == sent:
        yield f"{kept} photographs are kept, without the place they were taken at."
    elif kept:
        verb = "is" if kept == 1 else "are"
        others = "the other is" if sent - kept == 1 else "the others are"
        yield f"{kept} of {sent} photographs {verb} kept; {others} not."
    else:
        yield "No photograph was kept."


def check_is_known(door: Door, about: str) -> None:
    """Make sure that a thing is there, or was photographed, before its photographs are shown.

    Raises
    ------
    NotFound
        When it is not.
    """
    build = door.build()
    if not about or about == "none" or is_known(build, about):
        return
    if not any(photo.about == about for photo in build.photos.values()):
        raise NotFound(f"there is no '{about}' in this build", "look among the photographs")
