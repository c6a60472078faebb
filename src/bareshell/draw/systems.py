"""Nine hatches for the systems of a car, in the order every legend keeps.

A hatch is a group of the trade's systems that one would look for in the same place. The order
never changes, so that an eye trained on one picture reads the next.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Final

from bareshell.draw.svg import Svg, decoration, rect


@dataclass(frozen=True, slots=True)
class Hatch:
    """One hatch: its pattern, the word of the legend and the systems drawn with it."""

    key: str
    word: str
    systems: tuple[str, ...]


HATCHES: Final[tuple[Hatch, ...]] = (
    Hatch("brakes", "brakes", ("brakes",)),
    Hatch("electrics", "electrics", ("electrics",)),
    Hatch("running", "running gear", ("suspension", "steering", "wheels")),
    Hatch("engine", "engine and gearbox", ("engine", "gearbox and clutch")),
    Hatch("fuel", "fuel, cooling, exhaust", ("fuel", "cooling", "exhaust")),
    Hatch("body", "body and glass", ("body fittings", "glass")),
    Hatch("inside", "inside", ("interior",)),
    Hatch("under", "underbody", ("underbody",)),
    Hatch("desk", "checks and papers", ("commissioning", "paperwork")),
)
"""The legend, in its fixed order."""

_BY_NAME: Final = {
    name: hatch for hatch in HATCHES for name in (hatch.key, hatch.word, *hatch.systems)
}


def hatch_of(system: str) -> Hatch:
    """The hatch a system is drawn with.

    Parameters
    ----------
    system : str
        A system of the trade (``suspension``), a hatch's key or its word in the legend.

    Raises
    ------
    ValueError
        For a system nobody has drawn yet; the sentence lists the known ones.

    Examples
    --------
    >>> hatch_of("steering").word
    'running gear'
    """
    try:
        return _BY_NAME[system]
    except KeyError:
        known = ", ".join(sorted(_BY_NAME))
        raise ValueError(f"No hatch is drawn for {system!r}. Known are: {known}.") from None


def fill_of(system: str) -> str:
    """The value of a fill attribute that hatches an area for a system.

    Examples
    --------
    >>> fill_of("paperwork")
    'url(#h-desk)'
    """
    return f"url(#h-{hatch_of(system).key})"


def in_legend_order(systems: Iterable[str]) -> tuple[Hatch, ...]:
    """The hatches a picture needs in its legend, each once, in the fixed order.

    Examples
    --------
    >>> [hatch.key for hatch in in_legend_order(["glass", "brakes", "body fittings"])]
    ['brakes', 'body']
    """
    wanted = {hatch_of(system).key for system in systems}
    return tuple(hatch for hatch in HATCHES if hatch.key in wanted)


def swatch(system: str) -> Svg:
    """The little patch of hatch that stands before a system's word."""
    return decoration(28, 18, rect(0, 0, 28, 18, fill=fill_of(system)), class_="swatch")


def edge(system: str) -> Svg:
    """The strip of hatch along the left edge of a bench ticket."""
    return Svg(
        '<svg class="edge" aria-hidden="true" focusable="false">'
        f'<rect width="100%" height="100%" fill="{fill_of(system)}"/></svg>'
    )
