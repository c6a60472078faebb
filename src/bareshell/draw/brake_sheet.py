"""What every brake picture stands on: two widths, links, lines of words, and room for labels.

A narrow picture is drawn for a phone and for a column of a page; a wide one for paper, for a file
and for a screen with room. Letters keep their size: a wide picture shows more, not larger.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from typing import Final

from bareshell.draw.measure import text_width, wrapped
from bareshell.draw.svg import Svg, element, joined, number, rect, text

NARROW: Final = 380.0
WIDE: Final = 760.0
LETTERS: Final = 14.5
LEADING: Final = 17.0

Href = Callable[[str], str]
"""The address where a part, a line or a failure is looked at or changed, by its id."""

Point = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Box:
    """A piece of the drawing that is taken, from its upper left to its lower right, in pixels."""

    left: float
    top: float
    right: float
    bottom: float

    def meets(self, other: Box, gap: float = 0.0) -> bool:
        """Whether two boxes lie over each other, or closer than a gap.

        Examples
        --------
        >>> Box(0, 0, 10, 10).meets(Box(11, 0, 20, 10)), Box(0, 0, 10, 10).meets(Box(9, 9, 20, 20))
        (False, True)
        """
        return (
            self.left < other.right + gap
            and other.left < self.right + gap
            and self.top < other.bottom + gap
            and other.top < self.bottom + gap
        )

    def holds(self, other: Box) -> bool:
        """Whether the other lies wholly inside."""
        return (
            self.left <= other.left
            and self.top <= other.top
            and self.right >= other.right
            and self.bottom >= other.bottom
        )


def around(at: Point, reach: float) -> Box:
    """A square about a point."""
    return Box(at[0] - reach, at[1] - reach, at[0] + reach, at[1] + reach)


def words_box(
    x: float, y: float, words: str, anchor: str | None = None, *, slab: bool = False
) -> Box:
    """The room that a line of words takes, as `bareshell.draw.measure` reckons it.

    Parameters
    ----------
    x, y : float
        As for `bareshell.draw.svg.text`. [px]
    words : str
        The line.
    anchor : {'middle', 'end'}, optional
        Which point of the line stands at x.
    slab : bool
        The bold slab of names and figures.

    Examples
    --------
    >>> words_box(100, 20, "ab", "end").right
    100.0
    """
    width = text_width(words, LETTERS, slab=slab)
    left = x - width * {"middle": 0.5, "end": 1.0}.get(anchor or "", 0.0)
    return Box(left, y - 12.0, left + width, y + 4.0)


def spread(
    wanted: Sequence[float], rooms: Sequence[float], low: float, high: float
) -> tuple[float, ...]:
    """Middles of things in a row, none over another, each as near as can be to where it belongs.

    Their order is kept. When they do not fit between the ends they stand from ``low`` on without
    gaps and run over ``high``.

    Parameters
    ----------
    wanted : sequence of float
        Where each middle would like to be, in the order they shall stand. [px]
    rooms : sequence of float
        Room that each takes along the row, its gap included. [px]
    low, high : float
        The ends of the row. [px]

    Notes
    -----
    Least sum of squares under an order: isotonic regression by pooling adjacent violators
    (Barlow, Bartholomew, Bremner, Brunk 1972; from memory), then held between the ends.

    Examples
    --------
    >>> spread([10, 11, 50], [8, 8, 8], 0, 100)
    (6.5, 14.5, 50.0)
    """
    starts, total = [], 0.0
    for room in rooms:
        starts.append(total + room / 2)
        total += room
    pools: list[list[float]] = []  # mean and count
    for want, start in zip(wanted, starts, strict=True):
        pools.append([want - start, 1.0])
        while len(pools) > 1 and pools[-2][0] > pools[-1][0]:
            mean, count = pools.pop()
            before = pools[-1]
            before[0] = (before[0] * before[1] + mean * count) / (before[1] + count)
            before[1] += count
    shifts = [mean for mean, count in pools for _ in range(int(count))]
    last = max(low, high - total)
    return tuple(
        start + min(max(shift, low), last) for start, shift in zip(starts, shifts, strict=True)
    )


def sheet(width: float, height: float, label: str, *children: Svg, linked: bool = False) -> Svg:
    """A whole brake picture.

    Parameters
    ----------
    width, height : float
        Its own space. [px]
    label : str
        A full sentence with the result.
    *children : Svg
        What is drawn.
    linked : bool
        Whether links stand inside; then it is announced as a group whose links can be reached,
        where a plain picture is announced as one image.
    """
    return element(
        "svg",
        *children,
        class_="narrow bk" if width <= NARROW else "bk bk-wide",
        viewBox=f"0 0 {number(width)} {number(height)}",
        role="group" if linked else "img",
        aria_label=label,
    )


def link(address: str | None, label: str, *children: Svg) -> Svg:
    """Pieces that lead to an address, or just the pieces when there is none.

    Parameters
    ----------
    address : str or None
        Where it leads.
    label : str
        What the link is called by those who cannot see it.
    *children : Svg
        What is drawn; the piece of class ``bk-hit`` shows where the keyboard is.
    """
    if address is None:
        return joined(*children)
    return element("a", *children, href=address, class_="bk-link", aria_label=label)


def lines_of(
    words: Iterable[str], x: float, y: float, room: float, class_: str | None = "t-soft"
) -> tuple[Svg, float]:
    """Sentences beneath a picture, each on as many lines as it needs.

    Parameters
    ----------
    words : iterable of str
        The sentences.
    x, y : float
        Where the first line starts. [px]
    room : float
        Length of a line. [px]
    class_ : str or None
        Class of the style sheet.

    Returns
    -------
    drawing : Svg
        The lines.
    below : float
        Where the next line would start. [px]
    """
    drawn = []
    for sentence in words:
        for line in wrapped(sentence, room, LETTERS):
            drawn.append(text(x, y, line, class_))
            y += LEADING
    return joined(*drawn), y


def listed(words: Sequence[str]) -> str:
    """Words with commas and a last "and".

    Examples
    --------
    >>> listed(["a", "b", "c"]), listed(["a"])
    ('a, b and c', 'a')
    """
    return " and ".join([", ".join(words[:-1]), words[-1]] if len(words) > 1 else list(words))


def figure(value: float, places: int = 0) -> str:
    """A number as it is written in a picture, without a zero that is not one.

    Examples
    --------
    >>> figure(5.94, 1), figure(-0.01, 1), figure(1234.4)
    ('5.9', '0.0', '1234')
    """
    shown = f"{value:.{places}f}"
    return shown.removeprefix("-") if float(shown) == 0 else shown


def ground(box: Box, class_: str = "f-sheet") -> Svg:
    """A patch that keeps what is beneath from running through words or a sign."""
    return rect(box.left, box.top, box.right - box.left, box.bottom - box.top, class_)
