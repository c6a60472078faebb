"""A size written in words, read as figures: ``Bolts M8 x 25 8.8 hex nyloc``.

Lists and counts come in words. What can be read without guessing is offered as figures, to be
looked at before it is taken; what cannot be read stays words. A trade name, or a number that could
mean two things, is never turned into a size.
"""

from __future__ import annotations

import re
from typing import Final

from bareshell.calc.strength import strength_of
from bareshell.errors import BadInput
from bareshell.model.spec import (
    BearingSpec,
    BoltSpec,
    PinSpec,
    SealSpec,
    Spec,
    SplitPinSpec,
    UnionSpec,
)
from bareshell.units import known_thread, parse_length
from bareshell.units.thread_tables import METRIC_PITCHES_MM

__all__ = ["read_words"]

_X: Final = r"\s*(?:x|\u00d7|by|\*)\s*"
_SIZE: Final = r"\d+[ -]\d+/\d+|\d+/\d+|\d+(?:[.,]\d+)?"
_METRIC: Final = re.compile(
    rf"\bm(\d+(?:\.\d+)?)(?:{_X}(\d+(?:\.\d+)?))?(?:{_X}(\d+(?:\.\d+)?))?(?:\s*mm)?", re.IGNORECASE
)
_INCH: Final = re.compile(
    rf"\b(no\.?\s*\d+|\d+[ -]\d+/\d+|\d+/\d+|\d+)\s*(?:-|{_X})?\s*(\d{{2}})?\s*(?:tpi\s*)?"
    rf"(unf|unc|unef|bsf|bsw|bsb|bsc|bsp|npt|ba|whit(?:worth)?)\b"
    rf"(?:{_X}(\d+[ -]\d+/\d+|\d+/\d+|\d+(?:\.\d+)?)\s*(mm|in\b|\")?)?",
    re.IGNORECASE,
)
_GRADE: Final = re.compile(
    r"\b([4569]\.[68]|8\.8|10\.9|12\.9|a[24][ -]?[5-8]0|(?:grade|gr\.?)\s*[258])\b", re.IGNORECASE
)
_PIN_SIZES: Final = re.compile(rf"({_SIZE}){_X}({_SIZE})\s*(mm|in\b|\")?", re.IGNORECASE)
_THREE: Final = re.compile(
    r"(\d+(?:\.\d+)?)" + _X + r"(\d+(?:\.\d+)?)" + _X + r"(\d+(?:\.\d+)?)", re.IGNORECASE
)
_BEARING: Final = re.compile(
    r"\b(6[0-9]{3}|3[02][0-9]{3})(?:[ -]?(?:2rs|zz|z|rs))?\b", re.IGNORECASE
)
_HEADS: Final = (
    ("countersunk", r"countersunk|csk"),
    ("socket cap", r"socket|cap\s*head|allen"),
    ("pan", r"pan\s*head|\bpan\b"),
    ("hexagon", r"\bhex(?:agon)?\b"),
)
_LOCKS: Final = (
    ("nyloc", r"ny\s*-?loc|nylon"),
    ("self-locking", r"self[ -]?lock|distorted"),
    ("castle and split pin", r"castle"),
    ("spring washer", r"spring washer"),
)


def read_words(title: str, words: str = "") -> Spec | None:
    """Read a size in words; None when nothing can be read without guessing.

    Parameters
    ----------
    title, words : str
        What it is called, and what is said of its size.

    Examples
    --------
    >>> bolt = read_words("Set screws M8 x 25", "8.8, hex")
    >>> bolt.thread, bolt.length_m, bolt.grade, bolt.what, bolt.head
    ('M8', 0.025, '8.8', 'set screw', 'hexagon')
    >>> read_words("Trim clips", "grey") is None
    True
    """
    text = f"{title}, {words}"
    plain = text.casefold()
    if re.search(r"split\s*pin|cotter\s*pin", plain):
        return _split_pin(text)
    if re.search(r"clevis|\bpins?\b", plain) and not re.search(r"spigot|roll pin", plain):
        return _pin(text)
    if re.search(r"union|pipe nut|tube nut", plain):
        return _union(text)
    if "bearing" in plain:
        return _bearing(text)
    if re.search(r"\bseals?\b|washers?\b", plain) and _THREE.search(text):
        return _seal(text, plain)
    if re.search(r"\b(?:bolt|screw|stud|nut|nyloc)s?\b|setscrews?", plain):
        return _bolt(text, plain)
    return None


def _length(said: str, unit: str | None) -> float | None:
    mark = "in" if unit in ('"', "in") or "/" in said else "mm"
    try:
        return parse_length(f"{said} {mark}", "length")
    except BadInput:
        return None


def _thread(text: str) -> tuple[str | None, float | None]:
    """The thread, and the length that is written behind it."""
    if match := _METRIC.search(text):
        size, second, third = match.groups()
        pitches = METRIC_PITCHES_MM.get(float(size), ())
        if third is not None and second is not None:
            return _known(f"M{size}x{second}"), _length(third, "mm")
        if second is None:
            return _known(f"M{size}"), None
        if float(second) in pitches:
            return _known(f"M{size}x{second}"), None
        return _known(f"M{size}"), _length(second, "mm")
    if match := _INCH.search(text):
        size, count, series, length, unit = match.groups()
        name = f"{size}-{count} {series}" if count else f"{size} {series}"
        behind = _length(length, unit or "in") if length else None
        name = name.upper().replace("WHITWORTH", "BSW").replace("WHIT", "BSW")
        return _known(name.replace("NO", "No")), behind
    return None, None


def _known(name: str) -> str | None:
    return name if known_thread(name) is not None else None


def _first(table: tuple[tuple[str, str], ...], plain: str) -> str | None:
    return next((word for word, pattern in table if re.search(pattern, plain)), None)


def _grade(text: str) -> str | None:
    match = _GRADE.search(text)
    if match is None:
        return None
    try:
        return strength_of(match[0], 0.008).grade.removeprefix("grade ")
    except BadInput:
        return None


def _bolt(text: str, plain: str) -> BoltSpec | None:
    thread, length = _thread(text)
    if thread is None:
        return None
    what = None
    for word, pattern in (
        ("set screw", r"set\s*screw|setscrew"),
        ("stud", r"\bstuds?\b"),
        ("nut", r"\bnuts?\b|nylocs?\b"),
        ("bolt", r"\bbolts?\b"),
        ("screw", r"\bscrews?\b"),
    ):
        if re.search(pattern, plain):
            what = word
            break
    if what == "nut" and re.search(r"\b(?:bolts?|screws?)\b", plain):
        what = "bolt"  # with its nut
    return BoltSpec(
        thread=thread,
        length_m=None if what == "nut" else length,
        head=_first(_HEADS, plain),
        grade=_grade(text),
        lock=_first(_LOCKS, plain),
        what=what,
    )


def _pin(text: str) -> PinSpec | None:
    match = _PIN_SIZES.search(text)
    if match is None:
        return None
    size, grip, unit = match.groups()
    inches = "/" in size or "/" in grip or unit in ('"', "in")
    mark = "in" if inches else "mm"
    to_hole = re.search(r"to (?:the )?hole|\bgrip\b", text, re.IGNORECASE)
    # Without these words the second figure may be the pin's whole length.
    return PinSpec(
        diameter_m=_length(size, mark), grip_to_hole_m=_length(grip, mark) if to_hole else None
    )


def _split_pin(text: str) -> SplitPinSpec | None:
    pin = _pin(f"{text}, grip")
    return SplitPinSpec(diameter_m=pin.diameter_m, length_m=pin.grip_to_hole_m) if pin else None


def _union(text: str) -> UnionSpec | None:
    thread, _ = _thread(text)
    if thread is None:
        return None
    sexes = re.findall(r"\b(male|female)\b", text, re.IGNORECASE)
    sex = sexes[0].casefold() if len(sexes) == 1 else None
    return UnionSpec(thread=thread, sex=sex)


def _bearing(text: str) -> BearingSpec | None:
    number, sizes = _BEARING.search(text), _THREE.search(text)
    if number is None and sizes is None:
        return None
    inside, outside, width = (
        (_length(one, "mm") for one in sizes.groups()) if sizes else (None,) * 3
    )
    return BearingSpec(
        number=number[0] if number else None, inside_m=inside, outside_m=outside, width_m=width
    )


def _seal(text: str, plain: str) -> SealSpec | None:
    sizes = _THREE.search(text)
    if sizes is None:
        return None
    one, two, three = (float(each) for each in sizes.groups())
    if not one < two or three >= two:
        return None  # another order than inside, outside, width: a guess
    material = next((m for m in ("copper", "aluminium", "nitrile", "viton") if m in plain), None)
    return SealSpec(
        inside_m=one / 1000, outside_m=two / 1000, width_m=three / 1000, material=material
    )
