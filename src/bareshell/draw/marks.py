"""The marks that stand before a state word and repeat it; they never replace it."""

from __future__ import annotations

from typing import Final

from bareshell.draw.svg import Svg, element, path, rect

_SHEET_LINE: Final = "mk-sheet"
_NUT: Final = path("M5.5 2H14.5L19 10L14.5 18H5.5L1 10Z", "mk")
_DASHED_BOX: Final = rect(2.5, 2.5, 15, 15, "mk mk-dash")
_TICK: Final = path("M5 10L9 14L15 6", _SHEET_LINE)

_DRAWN: Final[dict[str, tuple[Svg, ...]]] = {
    # proofs
    "owed": (_DASHED_BOX,),
    "begun": (_DASHED_BOX, rect(1.5, 10, 17, 8.5, "f-ink")),
    "held": (rect(2, 2, 16, 16, "f-ink"), _TICK),
    "failed": (
        path("M6 1H14L19 6V14L14 19H6L1 14V6Z", "f-ox"),
        path("M6 6L14 14M14 6L6 14", _SHEET_LINE),
    ),
    "spent": (
        rect(2, 2, 16, 16, "mk-thin", fill="url(#h-p2)"),
        path("M0 10H20", "mk-gap"),
        path("M0 10H20", "mk"),
    ),
    "covered": (
        path("M3.5 9V18.5H16.5V9", "mk mk-dash"),
        path("M0 4H20", "mk-lid"),
    ),
    "substituted": (rect(2, 2, 16, 16, "mk"), path("M5 10L9 14L15 6", "mk")),
    # temps
    "temp": (
        path("M1 10L6 3H19V17H6Z", "box"),
        Svg('<circle cx="7.5" cy="10" r="1.8" class="f-ink"/>'),
    ),
    # fasteners: a nut from above, the paint line growing
    "fitted": (_NUT,),
    "nipped": (_NUT, path("M10 5V10", "mk-paint")),
    "torqued": (_NUT, path("M10 0V20", "mk-stripe")),
    # parts
    "here": (path("M3 8H17V18H3Z", "f-ink"), path("M3 8L6 3H14L17 8", "mk")),
    "some-here": (path("M3 8H17V18H3Z", "mk"), path("M3 13H17V18H3Z", "f-ink")),
    "coming": (path("M2 10H14", "mk"), path("M12 4L19 10L12 16Z", "f-ink")),
    "wrong": (path("M3 8H17V18H3ZM3 8L6 3H14L17 8", "mk"), path("M7 10L13 16M13 10L7 16", "mk")),
    "not-here": (path("M3 8H17V18H3Z", "mk mk-dash"),),
    "not-known": (
        Svg('<circle cx="10" cy="10" r="8" class="mk mk-dash"/>'),
        path("M7 8Q7 5 10 5T13 8Q13 10 10 11V12.5M10 14.5V16", "mk"),
    ),
    "used": (path("M10 2V12M5.5 8L10 12.5L14.5 8", "mk"), path("M2 17H18", "mk-lid")),
    # a part held against what is wanted: the peg and its notch
    "fits": (path("M2 7V17H18V7", "mk"), path("M7 3H13V14H7Z", "f-ink")),
    "no-fit": (path("M2 9V17H18V9", "mk"), path("M4 1H16V6H4Z", "f-ink")),
    # jobs
    "to-do": (Svg('<circle cx="10" cy="10" r="7.5" class="mk"/>'),),
    "started": (
        Svg('<circle cx="10" cy="10" r="7.5" class="mk"/>'),
        path("M10 2.5A7.5 7.5 0 0 1 10 17.5Z", "f-ink"),
    ),
    "done": (Svg('<circle cx="10" cy="10" r="8" class="f-ink"/>'), _TICK),
    "done-before": (
        Svg('<circle cx="10" cy="10" r="7.5" class="mk mk-dash"/>'),
        path("M5 10L9 14L15 6", "mk"),
    ),
    "left-out": (
        Svg('<circle cx="10" cy="10" r="7.5" class="mk"/>'),
        path("M4.5 15.5L15.5 4.5", "mk"),
    ),
    # a yardstick, and the place on the ladder
    "meets": (path("M2 18V4M18 18V4M2 10H18", "mk"),),
    "short-of": (path("M2 18V4M18 18V4M2 10H9", "mk"),),
    "here-now": (path("M1 3H11L19 10L11 17H1Z", "f-ink"),),
}

_WORDS: Final[dict[str, str]] = {
    "covered, unproven": "covered",
    "substitute proof": "substituted",
    "torqued and marked": "torqued",
    "came wrong": "wrong",
    "some here": "some-here",
    "not here": "not-here",
    "not known": "not-known",
    "to do": "to-do",
    "not fitted": "to-do",
    "undone since": "spent",
    "done before the record, unproven": "done-before",
    "left out": "left-out",
    "short of": "short-of",
    "not worked out": "not-known",
    "will not do": "no-fit",
    "will do as a temp until": "temp",
    "agrees": "fits",
    "differs": "no-fit",
    "enough": "meets",
    "enough for now": "temp",
    "not enough": "short-of",
    "mind": "temp",
    "next": "here-now",
}

MARKS: Final = tuple(_DRAWN)
"""The key of every mark."""


def mark_key(state: str) -> str:
    """The key of the mark for a state word.

    Parameters
    ----------
    state : str
        A state as the reader sees it, or a mark's key.

    Raises
    ------
    ValueError
        When no mark is drawn for it; the sentence lists the known ones.

    Examples
    --------
    >>> mark_key("covered, unproven"), mark_key("held")
    ('covered', 'held')
    """
    key = _WORDS.get(state, state)
    if key not in _DRAWN:
        raise ValueError(f"No mark is drawn for {state!r}. Known are: {', '.join(MARKS)}.")
    return key


def mark(state: str) -> Svg:
    """The mark for a state, hidden from screen readers since its word follows.

    Examples
    --------
    >>> mark("held")
    '<svg class="mark" aria-hidden="true" focusable="false"><use href="#m-held"/></svg>'
    """
    use = element("use", href=f"#m-{mark_key(state)}")
    return element("svg", use, class_="mark", aria_hidden="true", focusable="false")


def mark_symbols() -> Svg:
    """The symbols `mark` refers to; they stand once on a page."""
    return Svg(
        "".join(
            element("symbol", *drawing, id=f"m-{key}", viewBox="0 0 20 20")
            for key, drawing in _DRAWN.items()
        )
    )
