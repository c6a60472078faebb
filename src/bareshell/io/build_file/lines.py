"""Where everything stands in a TOML text: the line and the span of each header, key and value.

The text is known to be good TOML when this reads it, so it only looks for where things begin
and end. Two things need it: a problem names its line, and writing into a person's own file
touches the changed values and nothing else. (A library that edits TOML in place was tried: it
moves sections that are not side by side, and takes ten times as long.)
"""

from __future__ import annotations

import re
import tomllib
from bisect import bisect_right
from collections.abc import Mapping
from dataclasses import dataclass, field

__all__ = ["Header", "Key", "Lines", "Path", "find_lines"]

Path = tuple[str | int, ...]
"""Where a value is: ``("job", 3, "ways", 0, "hours")``."""


@dataclass(frozen=True, slots=True)
class Header:
    """A ``[table]`` or ``[[list item]]`` line; ``index`` is its number among the headers."""

    path: Path
    index: int
    start: int
    end: int


@dataclass(frozen=True, slots=True)
class Key:
    """A ``key = value`` line: the header it stands under (-1: none) and its spans."""

    path: Path
    header: int
    start: int
    value_start: int
    value_end: int
    end: int


@dataclass(frozen=True, slots=True)
class Lines:
    """A TOML text with the places of everything in it."""

    text: str
    headers: tuple[Header, ...]
    keys: Mapping[Path, Key]
    offsets: Mapping[Path, int]
    line_starts: tuple[int, ...]

    def line_at(self, offset: int) -> int:
        """Return the number of the line, from 1, in which an offset lies."""
        return bisect_right(self.line_starts, offset)

    def line_of(self, path: Path) -> int:
        """Return the line of a value, or of the nearest thing around it that has one."""
        for length in range(len(path), 0, -1):
            if path[:length] in self.offsets:
                return self.line_at(self.offsets[path[:length]])
        return 1


_BARE_KEY = re.compile(r"[A-Za-z0-9_-]+(?:[ \t]*\.[ \t]*[A-Za-z0-9_-]+)*(?=[ \t]*[=\]])")
_STRING = re.compile(
    r'"""(?:[^\\]|\\.)*?"""(?:"{1,2}(?!"))?'
    r"|'''.*?'''(?:'{1,2}(?!'))?"
    r'|"(?:[^"\\\n]|\\.)*"'
    r"|'[^'\n]*'",
    re.DOTALL,
)
_ANY_KEY = re.compile(
    r"""(?:[A-Za-z0-9_-]+|"(?:[^"\\\n]|\\.)*"|'[^'\n]*')"""
    r"""(?:[ \t]*\.[ \t]*(?:[A-Za-z0-9_-]+|"(?:[^"\\\n]|\\.)*"|'[^'\n]*'))*"""
)
_SCALAR = re.compile(r"[^,\]}#\r\n]+")
_GAP = re.compile(r"(?:[ \t\r\n]+|#[^\n]*)*")
_REST_OF_LINE = re.compile(r"[^\n]*\n?")


def find_lines(text: str) -> Lines:
    r"""Find where everything stands in a good TOML text.

    Parameters
    ----------
    text : str
        It must be good TOML; anything else gives nonsense.

    Examples
    --------
    >>> found = find_lines('[car]\nname = "Kit car"\n')
    >>> found.line_of(("car", "name"))
    2
    """
    return _Finder(text).find()


@dataclass(slots=True)
class _Finder:
    text: str
    pos: int = 0
    headers: list[Header] = field(default_factory=list)
    keys: dict[Path, Key] = field(default_factory=dict)
    offsets: dict[Path, int] = field(default_factory=dict)
    counts: dict[Path, int] = field(default_factory=dict)

    def find(self) -> Lines:
        base: Path = ()
        while True:
            self._skip()
            if self.pos >= len(self.text):
                break
            if self.text[self.pos] == "[":
                base = self._header()
            else:
                self._key_line(base)
        starts = (0, *(at.end() for at in re.finditer("\n", self.text)))
        return Lines(self.text, tuple(self.headers), self.keys, self.offsets, starts)

    def _skip(self) -> None:
        found = _GAP.match(self.text, self.pos)
        self.pos = found.end() if found else self.pos

    def _header(self) -> Path:
        start = self.pos
        many = self.text.startswith("[[", start)
        self.pos += 2 if many else 1
        self._skip()
        parts = self._key()
        path: Path = ()
        for number, part in enumerate(parts):
            path = (*path, part)
            last = number == len(parts) - 1
            if many and last:
                self.counts[path] = self.counts.get(path, 0) + 1
            if path in self.counts:
                path = (*path, self.counts[path] - 1)
        self.pos = self._line_end(self.pos)
        self.headers.append(Header(path, len(self.headers), start, self.pos))
        self.offsets.setdefault(path, start)
        return path

    def _key_line(self, base: Path) -> None:
        start = self.pos
        path = (*base, *self._key())
        self.offsets[path] = start
        self.pos = self.text.index("=", self.pos) + 1
        self._skip()
        value_start = self.pos
        self._value(path)
        value_end = self.pos
        self.pos = self._line_end(self.pos)
        header = len(self.headers) - 1
        self.keys[path] = Key(path, header, start, value_start, value_end, self.pos)

    def _line_end(self, pos: int) -> int:
        found = _REST_OF_LINE.match(self.text, pos)
        return found.end() if found else pos

    def _key(self) -> tuple[str, ...]:
        plain = _BARE_KEY.match(self.text, self.pos)
        if plain is not None:
            self.pos = plain.end()
            return tuple(part.strip() for part in plain[0].split("."))
        quoted = _ANY_KEY.match(self.text, self.pos)
        if quoted is None:
            raise ValueError(f"no key at offset {self.pos}")
        self.pos = quoted.end()
        parts: list[str] = []
        inside: object = tomllib.loads(f"{quoted[0]} = 0")
        while isinstance(inside, dict):
            [(part, inside)] = inside.items()
            parts.append(part)
        return tuple(parts)

    def _value(self, path: Path) -> None:
        first = self.text[self.pos]
        if first == "[":
            self._items(path)
        elif first == "{":
            self._inline(path)
        else:
            found = (_STRING if first in "\"'" else _SCALAR).match(self.text, self.pos)
            if found is None:
                raise ValueError(f"no value at offset {self.pos}")
            self.pos = found.start() + len(found[0].rstrip())

    def _items(self, path: Path) -> None:
        self.pos += 1
        number = 0
        while True:
            self._skip()
            if self.text[self.pos] == "]":
                break
            if self.text[self.pos] == ",":
                self.pos += 1
                continue
            inner = (*path, number)
            self.offsets[inner] = self.pos
            self._value(inner)
            number += 1
        self.pos += 1

    def _inline(self, path: Path) -> None:
        self.pos += 1
        while True:
            self._skip()
            if self.text[self.pos] == "}":
                break
            if self.text[self.pos] == ",":
                self.pos += 1
                continue
            start = self.pos
            inner = (*path, *self._key())
            self.offsets[inner] = start
            self.pos = self.text.index("=", self.pos) + 1
            self._skip()
            self._value(inner)
        self.pos += 1
