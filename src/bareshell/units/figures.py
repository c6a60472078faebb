"""Read the figures people write: decimals, fractions of an inch, mixed numbers, grouped digits."""

from __future__ import annotations

import re

from bareshell.errors import BadInput

__all__ = ["FIGURE", "LONGEST", "read_figure", "tidy"]

LONGEST = 120
"""No honest entry of one quantity is longer than this many characters."""

_VULGAR = {
    "½": "1/2",
    "¼": "1/4",
    "¾": "3/4",
    "⅛": "1/8",
    "⅜": "3/8",
    "⅝": "5/8",
    "⅞": "7/8",
    "⅓": "1/3",
    "⅔": "2/3",
}

_SAME_AS = str.maketrans(
    {
        "\u00a0": " ",  # the spaces that print between a figure and its unit
        "\u2009": " ",
        "\u202f": " ",
        "−": "-",
        "–": "-",
        "\u2011": "-",
        "⁄": "/",
        "″": '"',
        "“": '"',
        "”": '"',
        "′": "'",
        "‘": "'",
        "’": "'",
        "²": "2",
        "³": "3",
        "º": "°",
        "˚": "°",
        "·": ".",
        "⋅": ".",
        "×": "x",
        "µ": "u",
        "μ": "u",
    }
)

# A mixed number, a fraction, or a decimal; digits may be grouped in threes by spaces.
FIGURE = (
    r"[+-]?(?:"
    r"\d+[ -]\d+/\d+"
    r"|\d+/\d+"
    r"|\d{1,3}(?: \d{3})+(?:[.,]\d+)?(?![\d/.,])"
    r"|(?:\d[\d.,]*|[.,]\d+)(?:[eE][+-]?\d+)?"
    r")"
)

_GROUPED_BY_SPACES = re.compile(r"\d{1,3}(?: \d{3})+(?:[.,]\d+)?")
_MIXED = re.compile(r"(?:(\d+)[ -])?(\d+)/(\d+)")
_GROUPED_BY_COMMAS = re.compile(r"\d{1,3}(?:,\d{3}){2,}(?:\.\d+)?|\d{1,3},\d{3}\.\d+")
_DECIMAL = re.compile(r"(?:\d+(?:[.,]\d*)?|[.,]\d+)(?:[eE][+-]?\d+)?")
_ONE_COMMA_THREE_DIGITS = re.compile(r"[1-9]\d{0,2},\d{3}")


def tidy(text: str, field: str) -> str:
    """Bring what was typed into plain characters, with single spaces.

    Parameters
    ----------
    text : str
        As typed or pasted.
    field : str
        The field's name, for the error.

    Returns
    -------
    str
        The same in plain characters.

    Raises
    ------
    BadInput
        When nothing was given, or far too much.

    Examples
    --------
    >>> tidy(" 1½″ ", "bore")
    '1 1/2"'
    """
    for vulgar, plain in _VULGAR.items():
        text = text.replace(vulgar, f" {plain}")
    plain = " ".join(text.translate(_SAME_AS).replace("''", '"').split())
    if not plain:
        raise BadInput(field, "nothing was given", "write a value, or leave it as not known")
    if len(plain) > LONGEST:
        raise BadInput(
            field, f"{len(plain)} characters are too many for one value", "write only the value"
        )
    return plain


def read_figure(text: str, field: str) -> float:
    """Read one figure with no unit.

    Parameters
    ----------
    text : str
        Such as ``"19.05"``, ``"3/4"``, ``"1 1/2"``, ``"1-1/2"``, ``"1½"``, ``"12,5"``.
    field : str
        The field's name, for the error.

    Returns
    -------
    float
        The figure.

    Raises
    ------
    BadInput
        When it is no figure, or could be two: ``1,500`` is one and a half in one country and
        fifteen hundred in another.

    Examples
    --------
    >>> read_figure("1 1/2", "stroke"), read_figure("12,5", "stroke"), read_figure("-3", "toe")
    (1.5, 12.5, -3.0)
    """
    typed = tidy(text, field)
    negative = typed.startswith("-")
    plain = typed.lstrip("+-").strip()
    mixed = _MIXED.fullmatch(plain)
    value = _mixed(mixed, typed, field) if mixed else _decimal(plain, typed, field)
    return -value if negative else value


def _mixed(match: re.Match[str], typed: str, field: str) -> float:
    whole, top, bottom = (int(part or 0) for part in match.groups())
    if bottom == 0:
        raise BadInput(field, f"'{typed}' divides by zero", "write a fraction such as 3/4")
    if match[1] and top >= bottom:
        raise BadInput(
            field,
            f"in '{typed}' the fraction is one or more by itself",
            "write a mixed number such as 1 1/2",
        )
    return whole + top / bottom


def _decimal(plain: str, typed: str, field: str) -> float:
    ungrouped = plain.replace(" ", "") if _GROUPED_BY_SPACES.fullmatch(plain) else plain
    if _ONE_COMMA_THREE_DIGITS.fullmatch(ungrouped):
        point, none = ungrouped.replace(",", "."), ungrouped.replace(",", "")
        raise BadInput(field, f"'{typed}' could be {point} or {none}", f"write {point} or {none}")
    if _GROUPED_BY_COMMAS.fullmatch(ungrouped):
        ungrouped = ungrouped.replace(",", "")
    if not _DECIMAL.fullmatch(ungrouped):
        raise BadInput(
            field, f"'{typed}' is no number", "write a figure such as 19.05, 3/4 or 1 1/2"
        )
    value = float(ungrouped.replace(",", "."))
    if value == float("inf"):
        raise BadInput(field, f"'{typed}' is beyond all measure", "write the figure as measured")
    return value
