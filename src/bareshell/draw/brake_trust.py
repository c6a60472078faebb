"""How far an answer can be trusted: shares of combinations, and which figure unsettles it most."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from bareshell.brakes.verdict import share_words
from bareshell.draw.brake_sheet import LEADING, LETTERS, NARROW, Href, figure, link, listed, sheet
from bareshell.draw.measure import text_width, wrapped
from bareshell.draw.svg import Svg, number, path, rect, text

_LEFT: Final = 2.0
_BAR: Final = 18.0


@dataclass(frozen=True, slots=True)
class Unsettled:
    """One input and how much of the spread of an answer it carries.

    Parameters
    ----------
    id : str
        The figure's path, for the link to where it is entered.
    words : str
        What it is: ``height of the centre of gravity``.
    share : float
        Its part of the spread, 0 to 1. [-]
    range_words : str
        Its range and trust: ``assumed, 0.48 to 0.58 m``.
    advice : str
        What measuring it would do; empty for none.
    whole_share : float or None
        With what it does together with others; None when it was not worked out. [-]
    """

    id: str
    words: str
    share: float
    range_words: str = ""
    advice: str = ""
    whole_share: float | None = None


@dataclass(frozen=True, slots=True)
class Sensitivity:
    """The inputs of an answer, the one that unsettles it most first.

    Parameters
    ----------
    answer : str
        What they unsettle: ``which axle locks first``.
    inputs : tuple of Unsettled
        Largest first.
    measure : str
        The published measure that ranks them.
    """

    answer: str
    inputs: tuple[Unsettled, ...]
    measure: str = ""


@dataclass(frozen=True, slots=True)
class ShareRow:
    """In how many combinations a yardstick is met, and the worst one.

    Parameters
    ----------
    id : str
        For the link to the yardstick.
    words : str
        The yardstick and what it asks.
    share : float
        Of the combinations drawn, the share that meets it, 0 to 1. [-]
    worst : str
        The worst one in words: ``worst 2.6 m/s2``.

    Examples
    --------
    >>> ShareRow("a", "a", 0.94).said
    'in 94 of 100 combinations'
    """

    id: str
    words: str
    share: float
    worst: str = ""

    def __post_init__(self) -> None:
        """A share is a part of something."""
        if not 0.0 <= self.share <= 1.0:
            raise ValueError(f"A share lies between 0 and 1; this one is {self.share}.")

    @property
    def said(self) -> str:
        """The share in words."""
        return share_words(self.share)


def sensitivity_bars(plate: Sensitivity, *, href: Href | None = None, width: float = NARROW) -> Svg:
    """A bar for each input, as long as its part of the spread.

    Parameters
    ----------
    plate : Sensitivity
        The inputs.
    href : callable, optional
        The address where a figure is entered, by its path.
    width : float
        ``NARROW`` or ``WIDE``. [px]

    Returns
    -------
    drawing : Svg
        Needs the page's `definitions`.
    """
    most = max([0.05, *(each.whole_share or each.share for each in plate.inputs)])
    px = (width - 2 * _LEFT - 50.0) / most
    y, drawn = 4.0, []
    for rank, each in enumerate(plate.inputs, 1):
        piece, height = _bar(rank, each, y, px, width, href)
        drawn.append(piece)
        y += height
    return sheet(width, y, sensitivity_sentence(plate), *drawn, linked=href is not None)


def share_strips(
    rows: tuple[ShareRow, ...], *, href: Href | None = None, width: float = NARROW
) -> Svg:
    """A strip of a hundred parts for each yardstick, filled as far as combinations meet it.

    Parameters
    ----------
    rows : tuple of ShareRow
        The yardsticks.
    href : callable, optional
        The address of a yardstick, by its id.
    width : float
        ``NARROW`` or ``WIDE``. [px]

    Returns
    -------
    drawing : Svg
        Needs the page's `definitions`.
    """
    y, drawn = 4.0, []
    for row in rows:
        piece, height = _strip(row, y, width, href)
        drawn.append(piece)
        y += height
    return sheet(width, y, shares_sentence(rows), *drawn, linked=href is not None)


def sensitivity_sentence(plate: Sensitivity) -> str:
    """What the bars show, for those who cannot see them."""
    if not plate.inputs:
        return f"No figure with a range bears on {plate.answer}."
    told = [f"{each.words} {figure(100 * each.share)}" for each in plate.inputs[:4]]
    said = [f"What unsettles {plate.answer}, in parts of 100 of its spread: {listed(told)}."]
    if plate.inputs[0].advice:
        said.append(f"{plate.inputs[0].advice.rstrip('.')}.")
    return " ".join(said)


def shares_sentence(rows: tuple[ShareRow, ...]) -> str:
    """What the strips show, for those who cannot see them."""
    told = [f"{row.words}: met {row.said}{f', {row.worst}' if row.worst else ''}." for row in rows]
    return " ".join(["Combinations of the stated ranges that meet each yardstick.", *told])


def _lines(
    words: str, x: float, y: float, room: float, class_: str | None
) -> tuple[list[Svg], float]:
    slab = class_ == "t-name"
    drawn = []
    for line in wrapped(words, room, LETTERS, slab=slab):
        drawn.append(text(x, y + 13, line, class_))
        y += LEADING
    return drawn, y


def _bar(
    rank: int, each: Unsettled, y: float, px: float, width: float, href: Href | None
) -> tuple[Svg, float]:
    room = width - 2 * _LEFT
    heads, at = _lines(f"{rank}. {each.words}", _LEFT, y, room, "t-name")
    at += 4
    long = max(each.share * px, 1.5)
    whole = (each.whole_share or each.share) * px
    shown = f"{figure(100 * each.share)} of 100"
    after = max(long, whole) + 8
    inside = after + text_width(shown, LETTERS, slab=True) > room
    bars = [
        rect(_LEFT, at, long, _BAR, "box"),
        rect(_LEFT, at, long, _BAR, fill="url(#h-p1)"),
    ]
    if whole > long:
        bars.append(rect(_LEFT + long, at, whole - long, _BAR, "bk-together"))
    said = (
        text(_LEFT + max(long, whole) - 6, at + 14, shown, "t-name halo", "end")
        if inside
        else text(_LEFT + after, at + 14, shown, "t-name")
    )
    below = at + _BAR + 3
    ranges, below = _lines(each.range_words, _LEFT, below, room, "t-soft")
    advice, below = _lines(each.advice, _LEFT, below, room, None)
    hit = rect(0, y - 1, width, below - y + 2, "bk-hit")
    called = ", ".join(word for word in (each.words, each.range_words, each.advice) if word)
    drawn = link(
        href(each.id) if href else None,
        called,
        hit if href else Svg(),
        *heads,
        *bars,
        said,
        *ranges,
        *advice,
    )
    return drawn, below - y + 12


def _strip(row: ShareRow, y: float, width: float, href: Href | None) -> tuple[Svg, float]:
    room = width - 2 * _LEFT
    heads, at = _lines(row.words, _LEFT, y, room, "t-name")
    at += 4
    inner = room - 2
    x = _LEFT + 1
    ticks = "".join(
        f"M{number(x + inner * part / 10)} {number(at + _BAR)}v{7 if part == 5 else 5}"
        for part in range(11)
    )
    filled = inner * row.share
    bars = [
        rect(x, at, inner, _BAR, "box"),
        rect(x, at, filled, _BAR, fill="url(#h-p1)") if filled else Svg(),
        path(ticks, "l-thin"),
        path(f"M{number(x + filled)} {number(at - 3)}v{number(_BAR + 6)}", "l-thick"),
    ]
    worst = f"; {row.worst}" if row.worst else ""
    told, below = _lines(f"met {row.said}{worst}", _LEFT, at + _BAR + 8, room, None)
    hit = rect(0, y - 1, width, below - y + 2, "bk-hit")
    drawn = link(
        href(row.id) if href else None,
        f"{row.words}, met {row.said}{worst}",
        hit if href else Svg(),
        *heads,
        *bars,
        *told,
    )
    return drawn, below - y + 12
