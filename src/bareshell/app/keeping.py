"""Keeping what goes with the work: a note, a lesson, a photograph."""

from __future__ import annotations

from bareshell.app.door import Door
from bareshell.app.filled import Fields
from bareshell.app.photos import keep_photo
from bareshell.app.written import BEFORE, Pen, Written, filled, write_down
from bareshell.model import Build
from bareshell.model import changes as c
from bareshell.model.note import Lesson, Note

_KINDS = ("job", "proof", "need", "temp", "gate", "departure", "order")


def keep_with(door: Door, fields: Fields, photo: bytes, pen: Pen) -> Written:
    """Keep words, a photograph, or both.

    The fields are ``words``, ``about`` (a subject such as ``job:rear-pipe``) and ``lesson`` when
    the words are to head the job's ticket and the one of its other side.

    Parameters
    ----------
    door : Door
        The build.
    fields : mapping of str to sequence of str
        The form.
    photo : bytes
        The picture as the phone sent it; empty for none.
    pen : Pen
        Who writes.

    Raises
    ------
    BadInput
        When there is nothing to keep, or the picture is none.
    """
    form, build = filled(door, fields), door.build()
    words, about, lesson = form.text("words"), form.text("about"), form.tick("lesson")
    if about and not is_known(build, about):
        form.wrong("about", f"there is no '{about}' in this build", "choose it from the list")
    if not words and not photo:
        form.wrong("note", "there is nothing to keep", "write something, or choose a photograph")
    if lesson and not (words and about.startswith("job:")):
        form.wrong(
            "learned",
            "it needs words and a job",
            "write what was learned, and choose the job it is about",
        )
    form.check()
    if lesson:
        written = _lesson(door, words, about.removeprefix("job:"), pen)
        return _photo(door, photo, about, "", pen, written) if photo else written
    if photo:
        return _photo(door, photo, about, words, pen, None)
    note = Note(_key(door, pen, "note"), door.now(), words, about)
    if (held := _held(door, pen)) is not None:
        return held
    return write_down(door, c.NoteWritten(note), pen, "The note is kept.")


def _lesson(door: Door, words: str, job: str, pen: Pen) -> Written:
    held = _held(door, pen)
    if held is not None:
        return held
    lesson = Lesson(_key(door, pen, "lesson"), door.now(), words, job)
    title = door.build().jobs[job].job.title
    said = f"Learned: it heads the ticket of '{title}' and of its other side from now on."
    return write_down(door, c.LessonLearned(lesson), pen, said)


def _photo(
    door: Door, photo: bytes, about: str, words: str, pen: Pen, before: Written | None
) -> Written:
    key = f"{pen.entry_id}.photo" if pen.entry_id else None
    receipt = keep_photo(door, photo, about, words, photo_id=key, author=pen.author)
    if receipt.repeated:
        return Written((BEFORE,), about or "photo:", repeated=True)
    said = "The photograph is kept, without the place it was taken at."
    return Written((*(before.words if before else ()), said), about or "photo:")


def _held(door: Door, pen: Pen) -> Written | None:
    """Say so when this very form landed before: a note made anew would bear a later time."""
    entry = door.entry(pen.entry_id) if pen.entry_id else None
    return Written((BEFORE,), entry.change.subject, repeated=True) if entry else None


def _key(door: Door, pen: Pen, kind: str) -> str:
    return f"{kind}-{pen.entry_id}" if pen.entry_id else f"{kind}-{door.latest() + 1}"


def is_known(build: Build, about: str) -> bool:
    """Whether the build has such a thing to keep words or a photograph with."""
    kind, _, key = about.partition(":")
    if kind not in _KINDS:
        return False
    return key in getattr(build, f"{kind}s")
