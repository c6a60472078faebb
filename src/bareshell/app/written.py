"""Writing down what a form says: once, by a known hand, on what that hand had seen."""

from __future__ import annotations

import hashlib
import re
import unicodedata
from collections.abc import Callable, Container, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime

from bareshell.app.door import Door
from bareshell.app.filled import Fields, Filled
from bareshell.model.changes import Change
from bareshell.whole.garage_time import zone_of

SETTLE_LATER = "It changed meanwhile, so this is kept aside: settle it on the record."
BEFORE = "This was written down already; it stands once."


@dataclass(frozen=True, slots=True)
class Pen:
    """Who writes, and what they knew when they began.

    Parameters
    ----------
    author : str or None
        None for the door's own author.
    entry_id : str or None
        An id that came with the form, so that a form sent twice lands once.
    base : int or None
        The version of the thing that the form was filled in on; 0 for a thing that nobody had
        touched, None when it does not matter.
    offered : bool
        Whether it is only offered up on a copy: decided in full, and not written down.
    """

    author: str | None = None
    entry_id: str | None = None
    base: int | None = None
    offered: bool = False


@dataclass(frozen=True, slots=True)
class Written:
    """What came of a form.

    Parameters
    ----------
    words : tuple of str
        Whole sentences for the person.
    subject : str
        What it was about, such as ``job:rear-pipe``.
    to_settle : bool
        Whether it waits for a decision, because the thing had changed meanwhile.
    repeated : bool
        Whether it had been sent before.
    offered : tuple of Change
        What would have been written down, had it not been offered on a copy only.
    """

    words: tuple[str, ...]
    subject: str
    to_settle: bool = False
    repeated: bool = False
    offered: tuple[Change, ...] = ()

    @property
    def key(self) -> str:
        """The id of what it was about."""
        return self.subject.partition(":")[2]

    @property
    def said(self) -> str:
        """All of it as one line."""
        return " ".join(self.words)


def filled(door: Door, fields: Fields) -> Filled:
    """Lay a form out to be read with the owner's clock."""
    return Filled(fields, door.now(), zone_of(door.build()))


def write_down(
    door: Door,
    changes: Change | Sequence[Change],
    pen: Pen,
    said: str | Callable[[], Sequence[str]],
    *,
    happened_at: datetime | None = None,
) -> Written:
    """Write changes down and say what came of it.

    Parameters
    ----------
    door : Door
        The build.
    changes : Change or sequence of Change
        What the form says; the first one names the subject.
    pen : Pen
        Who writes.
    said : str or callable
        The sentence, or what makes the sentences once the changes are in.
    happened_at : datetime or None
        When, if not now.

    Raises
    ------
    BareshellError
        When one of them is refused; then none is written.
    """
    listed = (changes,) if isinstance(changes, Change) else tuple(changes)
    subject = listed[0].subject
    if pen.offered:
        door.try_out(listed)
        return Written(
            ("Nothing is written down: it is offered up on a copy.",), subject, offered=listed
        )
    receipt = door.record(
        listed,
        happened_at=happened_at,
        ids=entry_ids(pen.entry_id, len(listed)),
        base_versions={subject: pen.base} if pen.base is not None else None,
        author=pen.author,
    )
    if receipt.to_settle:
        return Written((SETTLE_LATER,), subject, to_settle=True)
    if receipt.repeated and not receipt.entries:
        return Written((BEFORE,), subject, repeated=True)
    return Written((said,) if isinstance(said, str) else tuple(said()), subject)


def said_before(door: Door, subject: str, pen: Pen) -> Written | None:
    """Recognise a form sent twice, where sending it once took the thing itself away."""
    if _made_by(door, subject, pen.entry_id):
        return Written((BEFORE,), subject, repeated=True)
    return None


def entry_ids(entry_id: str | None, count: int) -> list[str] | None:
    """Give each of several changes of one form its own id.

    Examples
    --------
    >>> entry_ids("a1b2", 2)
    ['a1b2', 'a1b2.2']
    """
    if entry_id is None:
        return None
    return [entry_id, *(f"{entry_id}.{number}" for number in range(2, count + 1))]


def id_for(entry_id: str | None, what: str) -> str | None:
    """Make an id for one row of a form that serves many rows, each a thing of its own.

    Examples
    --------
    >>> id_for("a1b2", "here:hose") == id_for("a1b2", "here:hose")
    True
    """
    if entry_id is None:
        return None
    return f"{entry_id[:40]}.{hashlib.sha256(what.encode()).hexdigest()[:12]}"


def slug(title: str) -> str:
    """Make a short name out of what a person calls a thing.

    Examples
    --------
    >>> slug("Rear pipe, n/s (3/16 in)"), slug("Zündung"), slug("!")
    ('rear-pipe-n-s-3-16-in', 'zundung', 'unnamed')
    """
    plain = unicodedata.normalize("NFKD", title).encode("ascii", "ignore").decode().lower()
    return re.sub(r"[^a-z0-9]+", "-", plain).strip("-")[:48].strip("-") or "unnamed"


def new_key(door: Door, kind: str, title: str, taken: Container[str], entry_id: str | None) -> str:
    """Find an id for a new thing; the same form sent again finds the same one.

    Parameters
    ----------
    door : Door
        The build.
    kind : str
        ``job``, ``need``, ``order`` ...: what entries about it are filed under.
    title : str
        What a person calls it.
    taken : container of str
        Ids that are in use.
    entry_id : str or None
        The form's own id.
    """
    name = slug(title)
    number = 1
    while True:
        key = name if number == 1 else f"{name}-{number}"
        if key not in taken or _made_by(door, f"{kind}:{key}", entry_id):
            return key
        number += 1


def _made_by(door: Door, subject: str, entry_id: str | None) -> bool:
    if entry_id is None:
        return False
    return any(entry.id == entry_id for entry in door.entries(subject=subject))


def resolve(form: Filled, said: str, what: str, titles: Mapping[str, str], kind: str) -> str | None:
    """Find the thing that a person named, by its title or its id.

    Parameters
    ----------
    form : Filled
        Where a problem is noted.
    said : str
        What was typed or picked.
    what : str
        The field's name.
    titles : mapping of str to str
        From id to title.
    kind : str
        What it is, for the sentence.
    """
    if said in titles:
        return said
    plain = said.casefold()
    found = [key for key, title in titles.items() if title.casefold() == plain]
    if len(found) == 1:
        return found[0]
    if found:
        form.wrong(what, f"{len(found)} are called '{said}'", f"write its id: {' or '.join(found)}")
        return None
    import difflib

    near = difflib.get_close_matches(said, titles.values(), n=2, cutoff=0.5)
    hint = (
        "did you mean " + " or ".join(f"'{one}'" for one in near) + "?"
        if near
        else (f"choose a {kind} from the list")
    )
    form.wrong(what, f"there is no {kind} '{said}'", hint)
    return None
