"""A form as a person filled it in, read field by field.

What is wrong is collected and said in one go, each with the name that stands beside its field,
so that a form is mended once and not again and again. An empty field is *not said*; it is never
quietly taken for something else.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from datetime import UTC, date, datetime, time, tzinfo
from enum import StrEnum
from typing import TypeVar

from bareshell.errors import BadInput, Problem
from bareshell.units import parse_date, parse_hours, parse_moment, parse_temperature_c, read_figure
from bareshell.units.dates import Towards

Fields = Mapping[str, Sequence[str]]
"""What came from a form: each field's values by its name."""

_Word = TypeVar("_Word", bound=StrEnum)
_Read = TypeVar("_Read")

LONGEST = 4000
"""Letters that one field may have."""


class Filled:
    """A filled-in form.

    Parameters
    ----------
    fields : mapping of str to sequence of str
        Every field's values by its name.
    now : datetime
        Aware; what "yesterday" counts from.
    zone : tzinfo
        The owner's own, in which days and times are meant.

    Examples
    --------
    >>> form = Filled({"title": ["Bleed the brakes"], "hours": ["1:30"]})
    >>> form.text("title", "what it is called"), form.hours("hours", "hours")
    ('Bleed the brakes', 1.5)
    >>> form.check()
    """

    def __init__(
        self,
        fields: Fields,
        now: datetime = datetime(2000, 1, 1, tzinfo=UTC),
        zone: tzinfo = UTC,
    ) -> None:
        self._fields = fields
        self._now = now
        self._zone = zone
        self._problems: list[Problem] = []

    # --- what is wrong -----------------------------------------------------------------------

    def wrong(self, what: str, problem: str, remedy: str = "") -> None:
        """Note something that is wrong with a field."""
        self._problems.append(Problem(what, problem, remedy))

    def check(self) -> None:
        """Stop when anything was wrong.

        Raises
        ------
        BadInput
            With every problem, in the order of the fields that were read.
        """
        if self._problems:
            raise BadInput.together(self._problems)

    def attempt(self, read: Callable[[], _Read], otherwise: _Read) -> _Read:
        """Read something; note what is wrong with it and go on with a stand-in."""
        try:
            return read()
        except BadInput as error:
            self._problems.extend(error.problems)
            return otherwise

    def make(self, what: str, build: Callable[[], _Read]) -> _Read:
        """Make something that checks itself, once all of its fields could be read.

        Raises
        ------
        BadInput
            With every problem so far, or with its own.
        """
        self.check()
        try:
            return build()
        except ValueError as error:
            raise BadInput(what, str(error), "correct it and send it again") from error

    # --- words -------------------------------------------------------------------------------

    def has(self, name: str) -> bool:
        """Whether anything was said in a field."""
        return bool(self.text(name))

    def text(self, name: str, needed: str = "") -> str:
        """Read one line or several; ``needed`` names the field when it may not be empty."""
        said = "\n".join(line.rstrip() for line in self._first(name).strip().splitlines())
        if needed and not said:
            self.wrong(needed, "it is empty", "write something")
        if len(said) > LONGEST:
            self.wrong(needed or name, f"{len(said)} letters are too many", "keep it shorter")
            return said[:LONGEST]
        return said

    def lines(self, name: str) -> tuple[str, ...]:
        """Read lines, one thing each; empty ones are dropped."""
        return tuple(line.strip() for line in self.text(name).splitlines() if line.strip())

    def every(self, name: str) -> tuple[str, ...]:
        """Read every value of a field that may be there several times; empty ones are dropped."""
        return tuple(value.strip() for value in self._fields.get(name, ()) if value.strip())

    def tick(self, name: str) -> bool:
        """Whether a box is ticked."""
        return bool(self.every(name))

    def choice(self, name: str, what: str, words: type[_Word], otherwise: _Word) -> _Word:
        """Read one of a set of words; an empty field is ``otherwise``."""
        said = self.text(name)
        return self._word(said, what, words) or otherwise

    def among(self, name: str, what: str, words: type[_Word]) -> frozenset[_Word]:
        """Read any number of words of a set."""
        found = (self._word(said, what, words) for said in self.every(name))
        return frozenset(word for word in found if word is not None)

    def _word(self, said: str, what: str, words: type[_Word]) -> _Word | None:
        if not said:
            return None
        try:
            return words(said)
        except ValueError:
            self.wrong(what, f"'{said}' is none of its words", f"choose {_either(words)}")
            return None

    # --- figures -----------------------------------------------------------------------------

    def figure(self, name: str, what: str) -> float | None:
        """Read a figure with no unit of its own."""
        said = self.text(name)
        return self.attempt(lambda: read_figure(said, what), None) if said else None

    def whole(self, name: str, what: str, least: int = 0, most: int = 100_000) -> int | None:
        """Read a whole number within bounds."""
        figure = self.figure(name, what)
        if figure is None:
            return None
        if figure != int(figure) or not least <= figure <= most:
            self.wrong(
                what,
                f"{figure:g} will not do",
                f"write a whole number from {least} to {most}",
            )
            return None
        return int(figure)

    def hours(self, name: str, what: str, *, clock: bool = False) -> float | None:
        """Read hours worked, or with ``clock`` hours that pass by the clock: a bare figure is h."""
        said = self.text(name)
        if not said:
            return None
        return self.attempt(lambda: parse_hours(said, what, bare="h", days=clock), None)

    def temperature_c(self, name: str, what: str) -> float | None:
        """Read a temperature; a bare figure is degrees Celsius."""
        said = self.text(name)
        if not said:
            return None
        bare = said.lstrip("-\N{MINUS SIGN}").replace(".", "", 1).replace(",", "", 1).isdigit()
        full = f"{said} C" if bare else said
        return self.attempt(lambda: parse_temperature_c(full, what), None)

    # --- times -------------------------------------------------------------------------------

    @property
    def today(self) -> date:
        """The owner's day."""
        return self._now.astimezone(self._zone).date()

    def day(self, name: str, what: str, towards: Towards = "future") -> date | None:
        """Read a day."""
        said = self.text(name)
        if not said:
            return None
        return self.attempt(lambda: parse_date(said, what, today=self.today, towards=towards), None)

    def clock(self, name: str, what: str) -> time | None:
        """Read a time of day."""
        said = self.text(name)
        if not said:
            return None
        try:
            return time.fromisoformat(said)  # what a browser's own clock field sends
        except ValueError:
            moment = self.attempt(lambda: self._moment(said, what), None)
            return moment.astimezone(self._zone).time() if moment else None

    def moment(self, name: str, what: str) -> datetime | None:
        """Read when something happened; an empty field is *now*, which is None."""
        said = self.text(name)
        return self.attempt(lambda: self._moment(said, what), None) if said else None

    def _moment(self, said: str, what: str) -> datetime:
        return parse_moment(said, what, now=self._now, zone=self._zone)

    def _first(self, name: str) -> str:
        values = self._fields.get(name, ())
        return values[0] if values else ""


def _either(words: type[StrEnum]) -> str:
    *most, last = (f"'{word}'" for word in words)
    return f"{', '.join(most)} or {last}" if most else last
