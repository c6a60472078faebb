"""The signs of the car plan: each kind of brake part as it is seen from above.

Places are to scale; a sign keeps its size, except that a disc and a drum are as long as they are
wide on the car. The car's nose is up, so the push rod enters a cylinder from below.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Final

from bareshell.draw.brake_sheet import Box, Point
from bareshell.draw.svg import Svg, circle, element, joined, number, path, rect

_SIZES: Final[dict[str, tuple[float, float]]] = {
    "servo": (30, 16),
    "balance bar": (32, 12),
    "remote servo": (20, 34),
    "valve": (20, 20),
    "tee": (9, 9),
    "caliper": (12, 17),
    "wheel cylinder": (8, 16),
    "blank": (11, 11),
    "parking brake": (10, 28),
    "reservoir": (18, 14),
    "pedal": (20, 26),
}
_UNKNOWN_DISC_M: Final = 0.24
_VALVE_SIGNS: Final = {
    "limiting": "M-6 6L0 -3H6",
    "proportioning": "M-6 6L-1 -1L6 -6",
    "deceleration-sensing": "M-7 7L7 2",
    "residual": "M-6 0H-2M6 0H3M-2 -5V5M3 -5L-2 0L3 5",
    "warning shuttle": "M-6.5 0H6.5M-6.5 0L-3 -3.5M-6.5 0L-3 3.5M6.5 0L3 -3.5M6.5 0L3 3.5",
    "shut-off": "M-6 -5V5L6 -5V5Z",
}


@dataclass(frozen=True, slots=True)
class Sign:
    """What is drawn for a part.

    Parameters
    ----------
    kind : str
        A kind of part, in the model's words.
    form : str
        Its form: ``tandem``, ``limiting``, ``sliding``.
    length : float or None
        Diameter of a disc or drum as drawn. [px]
    grow : float
        How much larger than on a narrow plan.
    """

    kind: str
    form: str = ""
    length: float | None = None
    grow: float = 1.0

    @property
    def size(self) -> tuple[float, float]:
        """Width across the car and length along it, in pixels."""
        width, length = self.own_size
        return width * self.grow, length * self.grow

    @property
    def own_size(self) -> tuple[float, float]:
        """The same before it is grown, as it is drawn about (0, 0)."""
        if self.kind == "master cylinder":
            return (16.0, 34.0 if self.form == "tandem" else 26.0)
        if self.kind in ("disc", "drum"):
            return (4.0 if self.kind == "disc" else 11.0, (self.length or 24.0) / self.grow)
        return _SIZES.get(self.kind, (14.0, 14.0))

    def box(self, at: Point) -> Box:
        """The room it takes with its middle at a point."""
        width, height = self.size
        return Box(at[0] - width / 2, at[1] - height / 2, at[0] + width / 2, at[1] + height / 2)

    def drawn(self, at: Point) -> Svg:
        """The sign with its middle at a point."""
        draw = _BY_FORM.get(self.kind)
        drawn = draw(self) if draw is not None else _ALWAYS.get(self.kind, _OTHER)
        return moved(at, drawn, grow=self.grow)

    def ghost(self, at: Point) -> Svg:
        """The sign of a part that was taken off: a dashed outline, struck through."""
        width, height = max(self.size[0], 18.0), max(self.size[1], 18.0)
        left, top = -width / 2, -height / 2
        return moved(
            at,
            rect(left, top, width, height, "bk-ghost", rx=5),
            path(
                f"M{number(left + 3)} {number(top + height - 3)}"
                f"L{number(left + width - 3)} {number(top + 3)}",
                "l",
            ),
        )

    def chamber_at(self, at: Point, chamber: str) -> Point:
        """Where a line to one of its chambers ends."""
        across, along = 0.0, 0.0
        if self.kind == "master cylinder" and self.form == "tandem":
            along = -9.0 if chamber == "floating" else 8.0
        elif self.kind == "remote servo":
            along = -13.0 if chamber == "out" else 8.0
        elif self.kind == "valve":
            along = {"in": -6.0, "out": 6.0}.get(chamber, 0.0)
            across = {"front": -6.0, "rear": 6.0}.get(chamber, 0.0)
        return (at[0] + across * self.grow, at[1] + along * self.grow)


def disc_length(diameter_m: float | None, px_per_m: float) -> float:
    """How long a disc or drum is drawn; one of unknown size is drawn at a usual one.

    Examples
    --------
    >>> disc_length(0.25, 100), disc_length(None, 100)
    (25.0, 24.0)
    """
    return (diameter_m or _UNKNOWN_DISC_M) * px_per_m


def moved(at: Point, *pieces: Svg, grow: float = 1.0) -> Svg:
    """Pieces drawn about (0, 0), put at a point and grown."""
    to = f"translate({number(at[0])} {number(at[1])})"
    return element("g", *pieces, transform=to if grow == 1.0 else f"{to} scale({number(grow)})")


def octagon(at: Point, radius: float = 12.0) -> Svg:
    """The sign of a failed element."""
    r, cut = radius, radius * 0.55
    n, c, arm = number(r), number(cut), number(radius * 0.5)
    outline = f"M-{c} -{n}H{c}L{n} -{c}V{c}L{c} {n}H-{c}L-{n} {c}V-{c}Z"  # eight sides about (0, 0)
    return moved(
        at,
        path(outline, "bk-failed"),
        path(f"M-{arm} -{arm}L{arm} {arm}M{arm} -{arm}L-{arm} {arm}", "bk-cross"),
    )


def _master(sign: Sign) -> Svg:
    half = sign.own_size[1] / 2
    body = rect(-8, -half, 16, 2 * half, "f-ink")
    band = 0.0 if sign.form == "tandem" else half - 7
    return joined(body, path(f"M-8 {number(band)}H8", "bk-band"))


def _valve(sign: Sign) -> Svg:
    ball = circle(0, 0, 3.2, "f-ink") if sign.form == "deceleration-sensing" else Svg()
    signed = _VALVE_SIGNS.get(sign.form, "M-5 -6L0 6L5 -6")
    return joined(rect(-10, -10, 20, 20, "box bk-2"), path(signed, "l l-2"), ball)


def _caliper(sign: Sign) -> Svg:
    bridge = "M-6 0H6" if sign.form == "fixed" else "M0 -8.5V8.5"
    return joined(rect(-6, -8.5, 12, 17, "box bk-2"), path(bridge, "l"))


def _disc(sign: Sign) -> Svg:
    half = number(sign.own_size[1] / 2)
    return path(f"M0 -{half}V{half}", "l-thick")


def _drum(sign: Sign) -> Svg:
    width, height = sign.own_size
    return rect(-width / 2, -height / 2, width, height, "bk-drum")


def _wheel_cylinder(sign: Sign) -> Svg:
    rods = "M0 -8V-5M0 5V8" if sign.form != "single-ended" else "M0 -8V-5"
    return joined(path(rods, "l l-2"), rect(-4, -5.5, 8, 11, "box"))


_BY_FORM: Final[dict[str, Callable[[Sign], Svg]]] = {
    "master cylinder": _master,
    "valve": _valve,
    "caliper": _caliper,
    "disc": _disc,
    "drum": _drum,
    "wheel cylinder": _wheel_cylinder,
}
_ALWAYS: Final[dict[str, Svg]] = {
    "servo": joined(rect(-15, -8, 30, 16, "box", rx=6), path("M-15 2H15", "l")),
    "remote servo": joined(
        rect(-10, -3, 20, 20, "box", rx=6), path("M-10 7H10", "l"), rect(-5, -17, 10, 14, "f-ink")
    ),
    "pedal": path("M0 -13V10M-9 11H9", "l-thick"),
    "balance bar": joined(path("M-15 0H15M-14 -5V5M14 -5V5", "l-thick"), circle(0, 0, 4.5, "box")),
    "tee": circle(0, 0, 4.5, "box bk-2"),
    "blank": joined(rect(-5.5, -5.5, 11, 11, "f-ink"), path("M-3.5 0H3.5", "mk-sheet-thin")),
    "parking brake": joined(path("M0 14V-5", "l-thick"), rect(-4.5, -14, 9, 11, "box", rx=4)),
    "reservoir": joined(rect(-9, -7, 18, 14, "box", rx=3), path("M-7 1Q-4.5 -3 -2 1T3 1T7 0", "l")),
}
_OTHER: Final = rect(-7, -7, 14, 14, "box bk-2")
