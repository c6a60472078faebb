"""How wide words will be, before any browser has seen them.

The widths are those of the common sans-serif metrics (Adobe Core 14 font metrics, Helvetica;
from memory), which the fonts of the page share or undercut. The slab for names is wider and is
taken at a quarter more. An estimate on the wide side only costs a little room.
"""

from __future__ import annotations

from typing import Final

_SLAB_FACTOR: Final = 1.25
_BOLD_FACTOR: Final = 1.08
_OTHER: Final = 600  # accents, signs and scripts that the table does not hold
_WIDTHS: Final[dict[str, int]] = {
    **dict.fromkeys("ijl'|", 222),
    **dict.fromkeys(" .,:;/ft!I\\[]", 278),
    **dict.fromkeys("r-()`{}", 333),
    '"': 355,
    "*": 389,
    **dict.fromkeys("cksvxyzJ", 500),
    **dict.fromkeys("abdeghnopqu0123456789LI?_$#", 556),
    **dict.fromkeys("+<=>~", 584),
    **dict.fromkeys("FTZ", 611),
    **dict.fromkeys("ABEKPSVXY&", 667),
    **dict.fromkeys("wCDHNRU", 722),
    **dict.fromkeys("GOQ", 778),
    **dict.fromkeys("mM", 833),
    "%": 889,
    "W": 944,
    "@": 1015,
    "\N{DEGREE SIGN}": 400,
    "\N{HORIZONTAL ELLIPSIS}": 1000,
}


def text_width(words: str, size: float = 14.0, *, slab: bool = False, bold: bool = False) -> float:
    """How long a line of words is, rather too long than too short.

    Parameters
    ----------
    words : str
        The line.
    size : float
        Size of the letters. [px]
    slab : bool
        The bold slab of names and figures.
    bold : bool
        Bold of the reading face.

    Returns
    -------
    width : float
        Length of the line. [px]

    Examples
    --------
    >>> round(text_width("rear pipe"), 1)
    55.2
    >>> text_width("rear pipe", slab=True) > text_width("rear pipe")
    True
    """
    units = sum(_WIDTHS.get(letter, _OTHER) for letter in words)
    factor = _SLAB_FACTOR if slab else _BOLD_FACTOR if bold else 1.0
    return units / 1000.0 * size * factor


def shortened(
    words: str, room: float, size: float = 14.0, *, slab: bool = False, least: int = 4
) -> str:
    """The words if they fit, else their beginning, else nothing.

    Parameters
    ----------
    words : str
        What one would like to write.
    room : float
        Space along the line. [px]
    size : float
        Size of the letters. [px]
    slab : bool
        The bold slab of names and figures.
    least : int
        A stump shorter than this many letters helps nobody and is left out.

    Examples
    --------
    >>> shortened("loom, engine bay", 200)
    'loom, engine bay'
    >>> shortened("loom, engine bay", 66)
    'loom, e…'
    >>> shortened("loom, engine bay", 20)
    ''
    """
    if text_width(words, size, slab=slab) <= room:
        return words
    for end in range(len(words) - 1, least - 1, -1):
        stump = words[:end].rstrip(" ,;.") + "\N{HORIZONTAL ELLIPSIS}"
        if text_width(stump, size, slab=slab) <= room:
            return stump
    return ""


def wrapped(words: str, room: float, size: float = 14.0, *, slab: bool = False) -> tuple[str, ...]:
    """The words on as many lines as they need; a word too long for a line is shortened.

    Parameters
    ----------
    words : str
        What to write.
    room : float
        Space along each line. [px]
    size : float
        Size of the letters. [px]
    slab : bool
        The bold slab of names and figures.

    Examples
    --------
    >>> wrapped("first move under own power", 120)
    ('first move under', 'own power')
    """
    lines: list[str] = []
    for word in words.split():
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and text_width(longer, size, slab=slab) <= room:
            lines[-1] = longer
        else:
            lines.append(shortened(word, room, size, slab=slab, least=1))
    return tuple(lines)
