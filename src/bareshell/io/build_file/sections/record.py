"""What is kept in words: lessons, notes, and the sessions that took place."""

from __future__ import annotations

from bareshell.io.build_file.figures import figure, moment, temperature, whole
from bareshell.io.build_file.kinds import ident, one_of, ref, text
from bareshell.io.build_file.sections.base import Section
from bareshell.io.build_file.shape import Field, Record
from bareshell.model import changes as c
from bareshell.model.looked import Look, MilesReading, Seen
from bareshell.model.note import Lesson, Note
from bareshell.model.session import HeldSession

__all__ = ["RECORD_SECTIONS"]

LESSON = Section(
    "lesson",
    "lesson",
    "Something learned in one job that heads the ticket of its twin.",
    Record(
        Lesson,
        (
            Field("id", "id", ident(), "its short name"),
            Field("at", "at", moment(), "when it was learned"),
            Field("words", "words", text(), "what was learned"),
            Field("job", "job", ref("job"), "in which job"),
        ),
    ),
    lambda build: build.lessons,
    lambda value: str(value.id),
    c.LessonLearned,
    dated="at",
)

NOTE = Section(
    "note",
    "note",
    "Words as they were said.",
    Record(
        Note,
        (
            Field("id", "id", ident(), "its short name"),
            Field("at", "at", moment(), "when they were said"),
            Field("words", "words", text(), "the words"),
            Field("about", "about", text('words, such as "job:rear-pipe"'), "what they are about"),
        ),
    ),
    lambda build: build.notes,
    lambda value: str(value.id),
    c.NoteWritten,
    dated="at",
)

HELD = Section(
    "held",
    "session held",
    "A stretch of garage time that took place.",
    Record(
        HeldSession,
        (
            Field("id", "id", ident(), "its short name"),
            Field("started_at", "started_at", moment(), "when it began"),
            Field("ended_at", "ended_at", moment(), "when it ended"),
            Field("people", "people", whole(least=1), "1 alone, 2 with a helper"),
            Field("temperature", "temperature_c", temperature(), "how warm the bay was"),
            Field("words", "words", text(), "how it went"),
        ),
    ),
    lambda build: build.sessions,
    lambda value: str(value.id),
    c.SessionHeld,
    dated="ended_at",
)

LOOK = Section(
    "look",
    "look",
    "An item of the rehearsal as somebody last saw it.",
    Record(
        Look,
        (
            Field("item", "item", ident(), "the item's short name"),
            Field("at", "at", moment(), "when"),
            Field("seen", "seen", one_of(Seen), "what was seen"),
            Field("by", "by", text(), "who looked"),
            Field("words", "words", text(), "what must be put right"),
        ),
    ),
    lambda build: build.looks,
    lambda value: str(value.item),
    lambda value: c.ItemLookedAt(value.item, value.seen, value.by, value.words),
    dated="at",
)

MILES = Section(
    "miles",
    "reading of the miles",
    "How far the car had run since it went back on the road.",
    Record(
        MilesReading,
        (
            Field("at", "at", moment(), "when it was read"),
            Field("miles", "miles", figure(), "the miles"),
            Field("words", "words", text(), "anything else"),
        ),
    ),
    lambda build: {str(one.at.replace(microsecond=0)): one for one in build.miles},
    lambda value: str(value.at.replace(microsecond=0)),
    lambda value: c.MilesRead(value.miles, value.words),
    dated="at",
)

RECORD_SECTIONS = (LESSON, NOTE, HELD, LOOK, MILES)
"""The sections of what was said and learned."""
