"""The kinds of value a build file holds: how each is read, written and named in the guide.

Reading refuses with ``Mismatch``; whoever reads the section says where. Writing gives one
canonical form, and two values are the same when their canonical forms are.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from datetime import UTC, date, datetime, time, tzinfo
from difflib import get_close_matches
from enum import StrEnum
from typing import Any

from bareshell.errors import BadInput, Problem, Severity
from bareshell.io.build_file.lines import Lines, Path

__all__ = [
    "Kind",
    "Mismatch",
    "Plain",
    "Setting",
    "Spot",
    "as_it_is",
    "ident",
    "listed",
    "many_of",
    "nearest",
    "one_of",
    "one_word",
    "ref",
    "refs",
    "shown",
    "text",
    "texts",
    "thread",
]

Plain = str | int | float | bool | datetime | date | time | list[Any] | dict[str, Any]
"""What TOML can hold."""


@dataclass(frozen=True, slots=True)
class Setting:
    """What reading and writing must know of the build: whose clock its times show."""

    zone: tzinfo | None = UTC


@dataclass(frozen=True, slots=True)
class Spot:
    """A place in a file that is being read, and where its problems go."""

    lines: Lines
    path: Path
    words: str
    setting: Setting
    problems: list[Problem]

    def at(self, key: str | int, words: str) -> Spot:
        """Return the place one step further in."""
        said = f"{self.words}, {words}" if self.words else words
        return replace(self, path=(*self.path, key), words=said)

    def say(self, what: str, remedy: str = "", severity: Severity = "stops") -> None:
        """Put down a problem of this place."""
        where = f"line {self.lines.line_of(self.path)}"
        where = f"{where}, {self.words}" if self.words else where
        self.problems.append(Problem(where, what, remedy, severity))


class Mismatch(Exception):
    """A value cannot be taken: what is wrong and what would be right.

    Without words the problems are put down already.
    """

    def __init__(self, what: str = "", remedy: str = "") -> None:
        super().__init__(what)
        self.what = what
        self.remedy = remedy


@dataclass(frozen=True, slots=True)
class Kind:
    """One kind of value.

    Parameters
    ----------
    takes : str
        What a person writes, for the guide.
    read : callable
        Takes a value of the file, or raises ``Mismatch`` or ``BadInput``.
    write : callable
        Gives the canonical form of a value.
    of : str
        The section whose ids it names, if it names any.
    must : bool
        Whether what it names has to be there.
    """

    takes: str
    read: Callable[[object, Spot], Any]
    write: Callable[[Any, Setting], Plain]
    of: str = ""
    must: bool = False


# --- words about values ------------------------------------------------------------------------


def nearest(word: str, known: Iterable[str]) -> str:
    """Return a question naming the known word nearest to a slip, or nothing.

    Examples
    --------
    >>> nearest("suport", ("support", "session"))
    "did you mean 'support'?"
    """
    by_folded = {name.casefold(): name for name in known}
    found = get_close_matches(word.casefold(), by_folded, n=1, cutoff=0.6)
    return f"did you mean '{by_folded[found[0]]}'?" if found else ""


def shown(value: object) -> str:
    """Return a value of the file as a sentence names it, never longer than a line.

    Examples
    --------
    >>> shown("rear"), shown(True), shown([1, 2])
    ("'rear'", 'true', '[1, 2]')
    """
    if isinstance(value, bool):
        return "true" if value else "false"
    words = repr(value) if isinstance(value, str | list | dict) else str(value)
    return words if len(words) <= 60 else f"{words[:57]}..."


def as_it_is(value: Plain, _setting: Setting) -> Plain:
    """Write a value as it is."""
    return value


# --- words -------------------------------------------------------------------------------------


def _read_text(value: object, _spot: Spot) -> str:
    if isinstance(value, str):
        return value
    raise Mismatch(f"{shown(value)} is not words", "put it in quotation marks")


def text(takes: str = "words") -> Kind:
    """Words."""
    return Kind(takes, _read_text, as_it_is)


def ref(of: str, *, must: bool = True) -> Kind:
    """The id of something else in the build."""
    return Kind(f"id of a {of}", _read_text, as_it_is, of, must)


def ident() -> Kind:
    """A short name by which other things are named."""

    def read(value: object, spot: Spot) -> str:
        found = _read_text(value, spot)
        if not found.strip() or not found.isprintable():
            raise Mismatch(f"{shown(found)} is no short name", 'write it as "rear-pipe"')
        return found

    return Kind("short name", read, as_it_is)


def one_word(words: tuple[str, ...], what: str, *, only: bool = True) -> Kind:
    """One word out of a list; without ``only`` another is kept, as a doubt."""

    def read(value: object, spot: Spot) -> str:
        found = _read_text(value, spot)
        if found not in words:
            remedy = nearest(found, words) or f"the words are: {', '.join(words)}"
            if only:
                raise Mismatch(f"{shown(found)} is no {what}", remedy)
            spot.say(f"{shown(found)} is no {what} the pages know", remedy, "doubtful")
        return found

    return Kind("one of: " + " / ".join(words), read, as_it_is)


def thread() -> Kind:
    """A thread; one that no table knows is kept, as a doubt."""

    def read(value: object, spot: Spot) -> str:
        from bareshell.units import parse_thread

        found = _read_text(value, spot)
        try:
            parse_thread(found, "thread")
        except BadInput as error:
            spot.say(error.problem, error.remedy, "doubtful")
        return found

    return Kind('thread, such as "M10x1" or "3/8-24 UNF"', read, as_it_is)


def one_of(words: type[StrEnum]) -> Kind:
    """One word out of a list."""

    def read(value: object, _spot: Spot) -> StrEnum:
        known = [each.value for each in words]
        if value in known:
            return words(value)
        hint = nearest(value, known) if isinstance(value, str) else ""
        raise Mismatch(
            f"{shown(value)} is none of its words", hint or f"the words are: {', '.join(known)}"
        )

    return Kind("one of: " + " / ".join(words), read, lambda value, _setting: str(value.value))


def listed(value: object, example: str) -> list[Any]:
    """Return a value that must be a list; ``example`` shows how one is written."""
    if isinstance(value, list):
        return value
    raise Mismatch(f"{shown(value)} is not a list", f"write it in square brackets: {example}")


def many_of(words: Iterable[str], what: str, *, only: bool = True) -> Kind:
    """Any number of words out of a list; written in the list's own order."""
    known = {str(word): word for word in words}

    def read(value: object, spot: Spot) -> frozenset[str]:
        found = set()
        for each in listed(value, f'["{next(iter(known))}"]'):
            if each not in known:
                hint = nearest(str(each), known) or f"the words are: {', '.join(known)}"
                if only or not isinstance(each, str):
                    raise Mismatch(f"{shown(each)} is no {what}", hint)
                spot.say(f"{shown(each)} is no {what} the pages know", hint, "doubtful")
            found.add(known.get(each, each))
        return frozenset(found)

    def write(value: frozenset[str], _setting: Setting) -> Plain:
        own = [word for word in known if word in value]
        return [*own, *sorted(str(word) for word in value if word not in known)]

    return Kind("list of any of: " + " / ".join(known), read, write)


def _read_texts(value: object, spot: Spot) -> tuple[str, ...]:
    return tuple(_read_text(each, spot) for each in listed(value, '["one", "two"]'))


def texts() -> Kind:
    """A list of words."""
    return Kind("list of words", _read_texts, lambda value, _setting: list(value))


def refs(of: str, *, must: bool = True) -> Kind:
    """A list of ids of other things in the build."""
    takes = f"list of ids of {of}s"
    return Kind(takes, _read_texts, lambda value, _setting: list(value), of, must)
