"""Everything pictures refer to by name, to stand once on a page: hatches, ribbons, marks."""

from __future__ import annotations

from typing import Final

from bareshell.draw.marks import mark_symbols
from bareshell.draw.supports import ribbon_patterns, silhouette_symbols
from bareshell.draw.svg import Svg, element, path

# key, width, height, turned by [deg], what is drawn in one tile. User space, so that a hatch
# keeps its pitch however large the area is.
_HATCHES: Final[tuple[tuple[str, float, float, float, Svg], ...]] = (
    ("brakes", 7, 7, 45, path("M3.5 0V7", "h-ox")),
    ("electrics", 5, 5, 0, path("M2.5 0V5", "h")),
    ("running", 8, 8, 45, path("M0 4H8M4 0V8", "h")),
    ("engine", 9, 9, -45, path("M0 2.5H9", "h h-heavy")),
    ("fuel", 12, 8, 0, path("M0 4Q3 -1 6 4T12 4", "h")),
    ("body", 6, 5, 0, path("M0 2.5H6", "h")),
    (
        "inside",
        7,
        7,
        0,
        Svg(
            '<circle cx="2" cy="2" r="1.25" class="f-ink"/>'
            '<circle cx="5.5" cy="5.5" r="1.25" class="f-ink"/>'
        ),
    ),
    ("under", 12, 10, 0, path("M0 .7H12M0 5.7H12M3 .7V5.7M9 5.7V10.7", "h")),
    ("desk", 10, 10, 0, path("M5 3V7M3 5H7", "h")),
    # not systems: a lost circuit, and three densities for shares
    ("lost", 6, 6, 45, path("M3 0V6", "h h-lost")),
    ("p1", 4, 4, -45, path("M0 1H4", "h")),
    ("p2", 7, 7, -45, path("M0 1H7", "h")),
    ("p3", 12, 12, -45, path("M0 1H12", "h h-fine")),
)


def _hatch(key: str, width: float, height: float, turned: float, tile: Svg) -> Svg:
    return element(
        "pattern",
        tile,
        id=f"h-{key}",
        width=width,
        height=height,
        patternUnits="userSpaceOnUse",
        patternTransform=f"rotate({turned:g})" if turned else None,
    )


def definitions() -> Svg:
    """The hidden drawing that holds every pattern and symbol; include it once on a page."""
    inside = element(
        "defs",
        *(_hatch(*row) for row in _HATCHES),
        ribbon_patterns(),
        mark_symbols(),
        silhouette_symbols(),
    )
    return element(
        "svg", inside, class_="defs", width=0, height=0, aria_hidden="true", focusable="false"
    )
