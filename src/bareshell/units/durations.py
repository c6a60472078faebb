"""Read how long something took or has to wait, the way it is said: 2h30, 90 min, half an hour."""

from __future__ import annotations

import re

from bareshell.errors import BadInput
from bareshell.units.figures import FIGURE, read_figure, tidy

__all__ = ["parse_hours"]

_HOURS_IN = {
    "s": 1 / 3600,
    "min": 1 / 60,
    "h": 1.0,
    "day": 24.0,
    "week": 168.0,
    "fortnight": 336.0,
}

_NAMES = {
    "s": ("s", "sec", "secs", "second", "seconds"),
    "min": ("min", "mins", "minute", "minutes", "m"),
    "h": ("h", "hr", "hrs", "hour", "hours"),
    "day": ("d", "day", "days"),
    "week": ("w", "wk", "wks", "week", "weeks"),
    "fortnight": ("fortnight", "fortnights"),
}

_UNIT = {name: unit for unit, names in _NAMES.items() for name in names}

_ONE_TO_NINETEEN = (
    "one two three four five six seven eight nine ten eleven twelve thirteen fourteen "
    "fifteen sixteen seventeen eighteen nineteen"
)
_SMALL = dict(zip(_ONE_TO_NINETEEN.split(), range(1, 20), strict=True))
_TENS = {"twenty": 20, "thirty": 30, "forty": 40, "fifty": 50}

_CLOCK = re.compile(r"(\d{1,3}):([0-5]\d)")
_PART = re.compile(rf"\s*(?:,|and\b|&)?\s*({FIGURE})\s*([a-z]+)?\.?")
_TIMES = r"(?:s|secs?|seconds?|mins?|minutes?|h|hrs?|hours?|days?|weeks?|fortnights?)"
_SHARES = {"half": "0.5", "quarter": "0.25", "three quarters": "0.75"}
_EXAMPLE = "write it as 2.5 h, 2h30, 90 min or an hour and a half"


def parse_hours(text: str, field: str, *, bare: str | None = None, days: bool = False) -> float:
    """Read a length of time.

    Parameters
    ----------
    text : str
        Such as ``"2.5 h"``, ``"2h30"``, ``"90 min"``, ``"1:30"``, ``"an hour and a half"``.
    field : str
        The field's name, for the error.
    bare : {"h", "min"}, optional
        The unit printed beside the field, taken when the entry has none.
    days : bool
        Whether a day and a week may be written, as for a wait by the clock. A day of *work* has
        no fixed length, so for hours worked they are refused.

    Returns
    -------
    float
        The time. [h]

    Raises
    ------
    BadInput
        When it cannot be read, has no unit, or is a day of work.

    Examples
    --------
    >>> [parse_hours(entry, "time taken") for entry in ("2.5 h", "2h30", "90 min", "1:30")]
    [2.5, 2.5, 1.5, 1.5]
    >>> parse_hours("an hour and a half", "time taken"), parse_hours("half an hour", "time taken")
    (1.5, 0.5)
    >>> parse_hours("2 days", "wait for the sealer", days=True)
    48.0
    """
    typed = tidy(text, field)
    clock = _CLOCK.fullmatch(typed)
    if clock:
        return int(clock[1]) + int(clock[2]) / 60
    hours = 0.0
    last: str | None = None
    rest = _in_figures(typed.casefold())
    while rest:
        part = _PART.match(rest)
        if part is None:
            raise BadInput(field, f"'{typed}' is no length of time", _EXAMPLE)
        unit = _unit_of(part[2], last, typed, field, bare if rest == part[0] else None, days=days)
        if last is not None and _HOURS_IN[unit] >= _HOURS_IN[last]:
            raise BadInput(field, f"in '{typed}' the parts do not go down in size", _EXAMPLE)
        figure = read_figure(part[1], field)
        if figure < 0:
            raise BadInput(field, f"'{typed}' is below zero", _EXAMPLE)
        hours += figure * _HOURS_IN[unit]
        last, rest = unit, rest[part.end() :].strip()
    return hours


def _unit_of(
    name: str | None,
    last: str | None,
    typed: str,
    field: str,
    bare: str | None,
    *,
    days: bool,
) -> str:
    if name is None:
        if last == "h":
            return "min"  # 2h30
        if bare is not None and last is None:
            return bare
        raise BadInput(field, f"'{typed}' has no unit of time", _EXAMPLE)
    if name.startswith(("month", "year")):
        raise BadInput(field, f"a {name.rstrip('s')} has no fixed length", "write days or weeks")
    unit = _UNIT.get(name)
    if unit is None:
        raise BadInput(field, f"'{name}' in '{typed}' is no unit of time", _EXAMPLE)
    if _HOURS_IN[unit] >= 24 and not days:
        raise BadInput(
            field, f"in '{typed}', a {unit} of work has no fixed length", "write it in hours"
        )
    return unit


def _in_figures(words: str) -> str:
    """Turn number words and halves into figures, so that one grammar reads the rest.

    >>> _in_figures("an hour and a half"), _in_figures("two and a half hours")
    ('1.5 hour', '2.5 hours')
    >>> _in_figures("three quarters of an hour"), _in_figures("an hour and twenty-five minutes")
    ('0.75 hour', '1 hour and 25 minutes')
    """
    text = re.sub(r"(?<=[a-z])-(?=[a-z])", " ", words)
    text = re.sub(r"\ba couple of\b", "2", text)
    for share, figure in _SHARES.items():
        text = re.sub(rf"^(?:an? )?{share} (?:of )?(?:an? )?(?={_TIMES}\b)", f"{figure} ", text)
    for ten, value in _TENS.items():
        for small, more in list(_SMALL.items())[:9]:
            text = re.sub(rf"\b{ten} {small}\b", str(value + more), text)
        text = re.sub(rf"\b{ten}\b", str(value), text)
    for small, value in _SMALL.items():
        text = re.sub(rf"\b{small}\b", str(value), text)
    text = re.sub(rf"\ban? (?={_TIMES}\b)", "1 ", text)
    for share, figure in reversed(_SHARES.items()):
        and_a = rf"and (?:a )?{share.replace('three', '3')}"
        text = re.sub(rf"(\d+) ({_TIMES}) {and_a}$", rf"\1{figure[1:]} \2", text)
        text = re.sub(rf"(\d+) {and_a} ({_TIMES})\b", rf"\1{figure[1:]} \2", text)
    return text
