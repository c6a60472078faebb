"""Putting the record right from a form, and finding whose history is meant."""

from __future__ import annotations

from bareshell.app.door import Door
from bareshell.app.filled import Fields
from bareshell.app.written import BEFORE, Pen, Written, filled
from bareshell.errors import NotFound
from bareshell.model import Build, Entry
from bareshell.whole.names import name_subject
from bareshell.whole.words import describe_entry


def take_back(door: Door, number: int, fields: Fields, pen: Pen) -> Written:
    """Take back the entry with a number: the build is made again without it.

    Raises
    ------
    NotFound, Refused
        When there is no such entry, or a later one could not stand without it; it is named.
    """
    entry = _entry(door, number)
    said = describe_entry(entry, door.build())
    words = filled(door, fields).text("words")
    receipt = door.take_back(entry.id, words, as_id=pen.entry_id, author=pen.author)
    subject = entry.change.subject
    if receipt.repeated:
        return Written((BEFORE,), subject, repeated=True)
    return Written((f"Taken back: {said}.",), subject)


def settle(door: Door, number: int, fields: Fields, pen: Pen) -> Written:
    """Keep the entry with a number, which met another change, or set it aside.

    The fields are ``what``, which is ``keep`` or ``aside``, and ``words``.
    """
    entry, form = _entry(door, number), filled(door, fields)
    what, words = form.text("what"), form.text("words")
    if what not in {"keep", "aside"}:
        form.wrong("what to do", "nothing is chosen", "keep it, or set it aside")
    form.check()
    said = describe_entry(entry, door.build()).removesuffix(" (to settle)")
    receipt = door.settle(entry.id, what == "keep", words, as_id=pen.entry_id, author=pen.author)
    subject = entry.change.subject
    if receipt.repeated:
        return Written((BEFORE,), subject, repeated=True)
    done = "Kept" if what == "keep" else "Set aside"
    return Written((f"{done}: {said}.",), subject)


def subject_words(door: Door, subject: str) -> str:
    """Name a subject as a person knows it."""
    return name_subject(subject, door.build())


def subjects_called(door: Door, find: str, most: int) -> tuple[tuple[str, str], ...]:
    """Find the things whose names have these words in them, for their history.

    Returns
    -------
    tuple of (str, str)
        The subject, such as ``job:rear-pipe``, and its name.
    """
    words = find.casefold().split()
    if not words:
        return ()
    build = door.build()
    found = []
    for subject, title in _titles(build):
        if all(word in title.casefold() for word in words):
            found.append((subject, name_subject(subject, build)))
            if len(found) == most:
                break
    return tuple(found)


def _titles(build: Build) -> list[tuple[str, str]]:
    """Name everything that has a title, by its subject."""
    return [
        *((f"job:{key}", record.job.title) for key, record in build.jobs.items()),
        *((f"proof:{key}", record.proof.title) for key, record in build.proofs.items()),
        *((f"temp:{key}", record.temp.title) for key, record in build.temps.items()),
        *((f"gate:{key}", record.gate.title) for key, record in build.gates.items()),
        *((f"need:{key}", need.title) for key, need in build.needs.items()),
        *((f"holding:{key}", holding.title) for key, holding in build.holdings.items()),
        *((f"order:{key}", record.line.title) for key, record in build.orders.items()),
        *((f"departure:{key}", one.title) for key, one in build.departures.items()),
        *((f"brakes:{key}", one.title) for key, one in build.brakes.items()),
        *(
            (f"brake-part:{key}/{part.id}", part.title)
            for key, one in build.brakes.items()
            for part in one.parts
        ),
        *((f"pattern:{key}", one.title) for key, one in build.patterns.items()),
        *((f"support:{key}", one.title) for key, one in build.supports.items()),
    ]


def _entry(door: Door, number: int) -> Entry:
    found = door.entries(after=number - 1, limit=1)
    if not found or found[0].seq != number:
        raise NotFound(f"there is no entry {number}", "read the numbers on the record")
    return found[0]
