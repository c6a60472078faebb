"""How the car stands, as a silhouette beside a word and as a ribbon under the weeks."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from bareshell.draw.svg import Svg, decoration, element, path

_BODY: Final = "M6 {0}Q8 {1} 22 {2}L32 {3}H58L70 {2}Q86 {1} 87 {0}Z"


@dataclass(frozen=True, slots=True)
class Stance:
    """One kind of support: its pattern, its word, and a short word for a narrow margin."""

    key: str
    word: str
    short: str


STANCES: Final[tuple[Stance, ...]] = (
    Stance("stands", "stands", "stands"),
    Stance("scissor-lift", "scissor lift", "lift"),
    Stance("two-post-lift", "two-post lift", "two-post"),
    Stance("four-post-lift", "four-post lift", "four-post"),
    Stance("pit", "pit", "pit"),
    Stance("wheels", "wheels", "wheels"),
    Stance("level-floor", "level floor", "level"),
    Stance("road", "road", "road"),
    Stance("test-station", "test station", "station"),
)
"""Every kind of support, in the order of the legend."""

_BY_NAME: Final = {name: stance for stance in STANCES for name in (stance.key, stance.word)}


def stance_of(support: str) -> Stance:
    """The stance for a kind of support.

    Parameters
    ----------
    support : str
        The word for it (``scissor lift``) or its key (``scissor-lift``).

    Raises
    ------
    ValueError
        For a support nobody has drawn yet; the sentence lists the known ones.

    Examples
    --------
    >>> stance_of("scissor lift").short
    'lift'
    """
    try:
        return _BY_NAME[support]
    except KeyError:
        known = ", ".join(stance.word for stance in STANCES)
        raise ValueError(f"No silhouette is drawn for {support!r}. Known are: {known}.") from None


def ribbon_fill(support: str) -> str:
    """The value of a fill attribute for the ribbon of a support.

    Examples
    --------
    >>> ribbon_fill("stands")
    'url(#r-stands)'
    """
    return f"url(#r-{stance_of(support).key})"


def silhouette(support: str) -> Svg:
    """The car from the side as it stands; the word beside it says the same.

    Parameters
    ----------
    support : str
        A kind of support, or ``bench`` or ``desk`` for work away from the car.
    """
    key = support if support in ("bench", "desk") else stance_of(support).key
    return decoration(92, 48, element("use", href=f"#s-{key}"), class_="silhouette")


def ribbon_swatch(support: str) -> Svg:
    """The bit of ribbon that stands before its word in a legend."""
    return decoration(
        42,
        8,
        element("rect", width=42, height=8, fill=ribbon_fill(support)),
        class_="ribbon-swatch",
    )


def _body(floor: float) -> Svg:
    """Draw the outline of the car with its sills at a height."""
    d = _BODY.format(*(f"{floor - rise:g}" for rise in (0, 8, 9, 17)))
    return path(d, "l")


def _wheels(axle: float) -> Svg:
    """Draw two wheels on an axle height, over the outline."""
    return Svg("".join(f'<circle cx="{x}" cy="{axle:g}" r="5.5" class="box"/>' for x in (24, 70)))


def _ground(height: float = 45) -> Svg:
    return path(f"M4 {height:g}H88", "l-thick")


def _drawings() -> dict[str, Svg]:
    """What each silhouette is made of; all share one outline and one scale."""
    on_floor = Svg(_body(38) + _wheels(39.5))
    return {
        "stands": Svg(
            _ground() + _body(24) + path("M24 27L17 45H31ZM68 27L61 45H75ZM20 39H28M64 39H72", "l")
        ),
        "scissor-lift": Svg(
            _body(22)
            + path("M22 25H72M22 45H72", "l-thick")
            + path("M28 26L66 44M66 26L28 44", "l l-2")
        ),
        "two-post-lift": Svg(
            _ground()
            + path("M42 45V2H50V45", "l")
            + path(_BODY.format("24", "16", "15", "7"), "box")
            + path("M22 28H70M42 28V25M50 28V25", "l-thick")
        ),
        "four-post-lift": Svg(
            _ground()
            + path("M5 45V4M87 45V4", "l-thick")
            + path("M3 29H89", "l-thick")
            + _body(22)
            + _wheels(22.5)
        ),
        "pit": Svg(
            path("M4 33H32V46H62V33H88", "l-thick")
            + _body(26)
            + _wheels(27)
            + path("M38 46V40", "l")
        ),
        "wheels": Svg(_ground(46.5) + on_floor),
        "level-floor": Svg(
            path("M4 43H88", "l-thick")
            + path("M10 43V47M28 43V47M46 43V47M64 43V47M82 43V47", "l")
            + _body(35)
            + _wheels(36)
        ),
        "road": Svg(_body(33) + _wheels(34) + path("M0 41H92", "l") + path("M4 46H88", "l l-dash")),
        "test-station": Svg(
            path("M4 41H14M34 41H88", "l-thick")
            + _body(33)
            + _wheels(34)
            + Svg(
                '<circle cx="19" cy="43" r="3.5" class="l"/>'
                '<circle cx="29" cy="43" r="3.5" class="l"/>'
            )
        ),
        "bench": Svg(
            path("M8 26H84", "l-thick")
            + path("M16 27V45M76 27V45M16 38H76", "l")
            + path("M30 26V16H40V26M44 26V16H54V26M40 20H44M54 20H66", "l")
        ),
        "desk": Svg(
            path("M8 32H84", "l-thick")
            + path("M16 33V45M76 33V45", "l")
            + path("M28 31L34 12H58L52 31ZM38 17H53M37 21H51M35 25H50M64 31L72 17", "l")
        ),
    }


def silhouette_symbols() -> Svg:
    """The symbols `silhouette` refers to; they stand once on a page."""
    return Svg(
        "".join(
            element("symbol", drawing, id=f"s-{key}", viewBox="0 0 92 48")
            for key, drawing in _drawings().items()
        )
    )


def ribbon_patterns() -> Svg:
    """The patterns `ribbon_fill` refers to; they stand once on a page."""
    drawn = {
        "stands": path("M7 1L12 7.5H2Z", "f-ink"),
        "scissor-lift": path("M2 .5L12 7.5M12 .5L2 7.5", "h"),
        "two-post-lift": path("M7 0V8M2 4H12", "h"),
        "four-post-lift": path("M2 0V8M12 0V8M2 4H12", "h"),
        "pit": path("M0 1H3V7H11V1H14", "h"),
        "wheels": Svg('<circle cx="7" cy="4" r="2.8" class="h"/>'),
        "level-floor": path("M0 4H14M7 4V8", "h"),
        "road": path("M3 4H11", "h"),
        "test-station": Svg(
            '<circle cx="4" cy="4" r="1.8" class="h"/>'
            '<circle cx="10" cy="4" r="1.8" class="f-ink"/>'
        ),
    }
    return Svg(
        "".join(
            element(
                "pattern",
                drawing,
                id=f"r-{key}",
                width=14,
                height=8,
                patternUnits="userSpaceOnUse",
            )
            for key, drawing in drawn.items()
        )
    )
