"""How hot it gets and where the fluid boils.

Histories of a stop, a series, a descent and the soak after it; and the boiling point against the
water in the fluid, with today's fluid on it.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from bareshell.draw.brake_chart import Curve, Frame, Room, axis, frame, value_at
from bareshell.draw.brake_sheet import LETTERS, NARROW, Point, figure, sheet
from bareshell.draw.measure import shortened, text_width
from bareshell.draw.svg import Svg, circle, joined, number, path, rect, text

_HEIGHT: Final = 250.0


@dataclass(frozen=True, slots=True)
class Boiling:
    """Where the fluid boils, with the spread of what is published and what is not known.

    Parameters
    ----------
    likely_c, low_c, high_c : float
        Boiling point. [C]
    words : str
        The fluid: ``DOT 4, 2 years``.
    """

    likely_c: float
    low_c: float
    high_c: float
    words: str = "the fluid"

    def __post_init__(self) -> None:
        """Low, likely, high stand in that order."""
        if not self.low_c <= self.likely_c <= self.high_c:
            raise ValueError(
                "A boiling point's range runs upwards; this one is "
                f"{self.low_c}, {self.likely_c}, {self.high_c}."
            )


@dataclass(frozen=True, slots=True)
class Stage:
    """A stretch of the time with one thing going on."""

    words: str
    start: float
    end: float


@dataclass(frozen=True, slots=True)
class TemperatureHistory:
    """Temperatures against time.

    Parameters
    ----------
    title : str
        What is driven: ``one stop from 30 m/s``, ``15 stops``, ``long descent``.
    curves : tuple of Curve
        Time in ``unit``, and the temperature in degrees Celsius.
    fluid : tuple of Point
        The same for the fluid that gets hottest; empty when it was not worked out.
    unit : str
        ``s`` or ``min``.
    boiling : Boiling or None
        None when the fluid is not known.
    stages : tuple of Stage
        What goes on, in ``unit``; empty when it is one thing.
    """

    title: str
    curves: tuple[Curve, ...]
    fluid: tuple[Point, ...] = ()
    unit: str = "s"
    boiling: Boiling | None = None
    stages: tuple[Stage, ...] = ()

    @property
    def peak(self) -> Point | None:
        """When the fluid is hottest, and how hot."""
        return max(self.fluid, key=lambda point: point[1], default=None)

    @property
    def margin_c(self) -> tuple[float, float] | None:
        """From the fluid at its hottest to where it boils: at the least, and likely. [C]"""  # noqa: D400
        if self.peak is None or self.boiling is None:
            return None
        return self.boiling.low_c - self.peak[1], self.boiling.likely_c - self.peak[1]


@dataclass(frozen=True, slots=True)
class BoilingCurve:
    """Boiling point against water, and where today's fluid stands on it.

    Parameters
    ----------
    title : str
        The fluid: ``DOT 4``.
    likely, low, high : tuple of Point
        Water as a share, and the boiling point; the last two are the spread of what is
        published. [-, C]
    minima : tuple of (float, float, str)
        Points that a standard asks for, with its words: water, boiling point. [-, C]
    water : tuple of float
        Water in the fluid today: low, likely, high. [-]
    boils : tuple of float
        Where it boils today: low, likely, high; read off the curves when it is not given. [C]
    measured : bool
        Whether the water was measured, or follows from the age.
    hottest_c : float or None
        The hottest that the fluid gets in what was worked out. [C]
    hottest_words : str
        When that is.
    """

    title: str
    likely: tuple[Point, ...]
    low: tuple[Point, ...] = ()
    high: tuple[Point, ...] = ()
    minima: tuple[tuple[float, float, str], ...] = ()
    water: tuple[float, float, float] | None = None
    boils: tuple[float, float, float] | None = None
    measured: bool = False
    hottest_c: float | None = None
    hottest_words: str = "hottest"

    @property
    def today_c(self) -> tuple[float, float, float] | None:
        """Where today's fluid boils: low, likely, high; None when its water is not known."""
        if self.boils is not None or self.water is None:
            return self.boils
        low, likely, high = self.water
        return (
            _value(self.low or self.likely, high),
            _value(self.likely, likely),
            _value(self.high or self.likely, low),
        )


def temperature_history(plate: TemperatureHistory, *, width: float = NARROW) -> Svg:
    """Temperatures against time under the line where the fluid boils.

    Parameters
    ----------
    plate : TemperatureHistory
        The curves.
    width : float
        ``NARROW`` or ``WIDE``. [px]

    Returns
    -------
    drawing : Svg
        Needs the page's `definitions`.
    """
    curves = [*plate.curves]
    if plate.fluid:
        curves.append(Curve("fluid", plate.fluid, "third"))
    hottest = [y for curve in curves for _, y in curve.points]
    if plate.boiling is not None:
        hottest.append(plate.boiling.high_c)
    ends = [x for curve in curves for x, _ in curve.points]
    unit = "seconds" if plate.unit == "s" else "minutes"
    ground = frame(
        axis(unit, 0, max(ends, default=1.0), most=6, exact=True),
        axis("temperature, °C", 0, 1.05 * max(hottest, default=100.0), most=5),
        width=width,
        top=52.0 if plate.stages else 30.0,
        height=_HEIGHT if width <= NARROW else 320.0,
    )
    room = Room(ground)
    for curve in curves:
        room.keep(curve.points)
    boils = _boiling(plate, ground, room)
    margin = _margin(plate, ground, room)
    names = [room.name(curve) for curve in curves]
    return sheet(
        width,
        ground.box.bottom + 44,
        history_sentence(plate),
        _stages(plate, ground),
        boils[0],
        ground.ground(lift=34.0 if plate.stages else 12.0),
        boils[1],
        *(ground.drawn(curve) for curve in curves),
        margin,
        *names,
        boils[2],
    )


def boiling_curve(plate: BoilingCurve, *, width: float = NARROW) -> Svg:
    """The boiling point falling with water, today's fluid on it with its range.

    Parameters
    ----------
    plate : BoilingCurve
        The curve.
    width : float
        ``NARROW`` or ``WIDE``. [px]

    Returns
    -------
    drawing : Svg
        Needs the page's `definitions`.
    """
    percent = tuple((100 * x, y) for x, y in plate.likely)
    low = tuple((100 * x, y) for x, y in plate.low)
    high = tuple((100 * x, y) for x, y in plate.high)
    values = [y for _, y in (*percent, *low, *high)] + [c for _, c, _ in plate.minima]
    least = min([*values, plate.hottest_c if plate.hottest_c is not None else values[0]])
    ground = frame(
        axis("water in the fluid, per cent", 0, max(x for x, _ in percent), most=8),
        axis("boiling point, °C", max(0.0, least - 15), max(values), most=6),
        width=width,
        top=30,
        height=_HEIGHT if width <= NARROW else 320.0,
    )
    room = Room(ground)
    room.keep(percent)
    curve = Curve(plate.title, percent, "front")
    today = _today(plate, ground, room)
    hottest = _hottest(plate, ground, room)
    minima = [_minimum(each, ground, room) for each in plate.minima]
    return sheet(
        width,
        ground.box.bottom + 44,
        boiling_sentence(plate),
        today[0],
        ground.band(low, high) if low and high else Svg(),
        ground.ground(),
        ground.drawn(curve),
        hottest,
        today[1],
        *minima,
        room.name(curve),
    )


def history_sentence(plate: TemperatureHistory) -> str:
    """What the curves show, for those who cannot see them."""
    said = [f"Temperatures against time, {plate.title}."]
    for curve in plate.curves:
        if curve.points:
            hottest = max(curve.points, key=lambda point: point[1])
            when = f"{figure(hottest[0])} {plate.unit}"
            said.append(f"{curve.words}: at most {figure(hottest[1])} °C, after {when}.")
    peak, margin = plate.peak, plate.margin_c
    if peak is not None:
        said.append(f"The fluid reaches {figure(peak[1])} °C after {figure(peak[0])} {plate.unit}.")
    if margin is not None and plate.boiling is not None:
        boils = plate.boiling
        said.append(
            f"{boils.words} boils at {figure(boils.likely_c)} °C, from {figure(boils.low_c)} to "
            f"{figure(boils.high_c)}: {_margin_words(margin)}."
        )
    elif plate.boiling is None:
        said.append("Where the fluid boils is not known.")
    return " ".join(said)


def boiling_sentence(plate: BoilingCurve) -> str:
    """What the curve shows, for those who cannot see it."""
    said = [f"Boiling point of {plate.title} against the water in it."]
    if plate.water is not None:
        likely, at = plate.water[1], plate.today_c or (0.0, 0.0, 0.0)
        how = "measured" if plate.measured else "by its age"
        said.append(
            f"Today's fluid, {how}: {figure(100 * likely, 1)} per cent of water, boils at "
            f"{figure(at[1])} °C, from {figure(at[0])} to {figure(at[2])}."
        )
    if plate.hottest_c is not None:
        said.append(f"The hottest it gets, {plate.hottest_words}: {figure(plate.hottest_c)} °C.")
    return " ".join(said)


# ---------------------------------------------------------------- history


def _boiling(plate: TemperatureHistory, ground: Frame, room: Room) -> tuple[Svg, Svg, Svg]:
    """What is hatched, the line, and its words."""
    boils = plate.boiling
    if boils is None:
        return Svg(), Svg(), Svg()
    ends = (ground.x.low, ground.x.high)
    low, likely, high = (
        tuple((x, value) for x in ends) for value in (boils.low_c, boils.likely_c, boils.high_c)
    )
    for line in (low, likely, high):
        room.keep(line)
    words = f"{boils.words} boils, {figure(boils.low_c)} to {figure(boils.high_c)}"
    half = text_width(words, LETTERS, slab=True) / 2
    box = ground.box
    spots = [
        (box.left + half + 8 + share * (box.right - box.left - 2 * half - 16), at)
        for value, lift in ((boils.high_c, -13.0), (boils.low_c, 13.0))
        for share in (0.0, 0.25, 0.5, 0.75, 1.0)
        for at in (ground.at((0.0, value))[1] + lift,)
    ]
    said = room.word(words, spots, "t-name halo", on=True)
    band = ground.band(low, high, fill="lost")
    return band, ground.drawn(Curve("", likely, "line")), said


def _margin(plate: TemperatureHistory, ground: Frame, room: Room) -> Svg:
    """A measure from the hottest fluid up to where it may begin to boil."""
    margin, peak = plate.margin_c, plate.peak
    if margin is None or peak is None or plate.boiling is None:
        return Svg()
    x, y = ground.at(peak)
    _, to = ground.at((peak[0], plate.boiling.low_c))
    x = min(x, ground.box.right - 4)
    d = f"M{number(x)} {number(y)}V{number(to)}M{number(x - 5)} {number(to)}h10"
    d += f"M{number(x - 5)} {number(y)}h10"
    words = _margin_words(margin)
    room.lines.append([(x, y), (x, to)])
    said = room.word(words, [(x, (y + to) / 2), (x, y), (x, to)], "t-name halo")
    return joined(path(d, "l l-2"), said)


def _margin_words(margin: tuple[float, float]) -> str:
    """How far the fluid stays from boiling, at the least; below that it may boil, or does.

    Examples
    --------
    >>> _margin_words((12, 40)), _margin_words((-5, 20)), _margin_words((-30, -4))
    ('12 °C left', 'at worst 5 °C over', '4 °C over')
    """
    least, likely = margin
    if least >= 0:
        return f"{figure(least)} °C left"
    return f"at worst {figure(-least)} °C over" if likely >= 0 else f"{figure(-likely)} °C over"


def _stages(plate: TemperatureHistory, ground: Frame) -> Svg:
    """What goes on, in words above the ground between short posts."""
    drawn = []
    for stage in plate.stages:
        left, _ = ground.at((stage.start, ground.y.low))
        right, _ = ground.at((min(stage.end, ground.x.high), ground.y.low))
        y = ground.box.top - 2
        d = f"M{number(left + 1)} {number(y - 6)}v4H{number(right - 1)}v-4"
        words = shortened(stage.words, right - left - 2, LETTERS)
        drawn += [path(d, "l-thin"), text((left + right) / 2, y - 8, words, "t-soft", "middle")]
    if not plate.stages:
        return Svg()
    return joined(*drawn)


# ---------------------------------------------------------------- boiling point


def _today(plate: BoilingCurve, ground: Frame, room: Room) -> tuple[Svg, Svg]:
    """The brass ground of today's water, and the point on the curve with both ranges."""
    if plate.water is None or plate.today_c is None:
        return Svg(), Svg()
    wet = [min(max(100 * water, 0.0), ground.x.high) for water in plate.water]
    at = plate.today_c
    (x0, y2), (x1, y1), (x2, y0) = (
        ground.at((w, min(max(c, ground.y.low), ground.y.high)))
        for w, c in zip(wet, reversed(at), strict=True)
    )
    box = ground.box
    brass = rect(x0, box.top, max(x2 - x0, 3.0), box.bottom - box.top, "bk-now")
    across = f"M{number(box.left)} {number(y1)}H{number(x1)}V{number(box.bottom)}"
    foot = number(box.bottom - 14)
    ranged = f"M{number(x0)} {number(box.bottom - 9)}H{number(x2)}M{number(x0)} {foot}v10"
    ranged += f"M{number(x2)} {number(box.bottom - 14)}v10"
    tall = (
        f"M{number(box.left + 9)} {number(y0)}V{number(y2)}M{number(box.left + 4)} {number(y0)}h10"
    )
    tall += f"M{number(box.left + 4)} {number(y2)}h10"
    room.lines.append([(box.left, y1), (x1, y1), (x1, box.bottom)])
    spots = [(x1, y1 - up) for up in (0, 22, 40, 58)] + [(x2, y1), (box.left + 20, box.bottom - 40)]
    words = f"today {figure(at[1])} °C, {figure(at[0])} to {figure(at[2])}"
    said = room.word(words, spots, "t-name halo")
    return brass, joined(
        path(across, "l l-short"),
        path(ranged + tall, "l l-2"),
        circle(x1, y1, 6, "f-ink"),
        said,
    )


def _hottest(plate: BoilingCurve, ground: Frame, room: Room) -> Svg:
    if plate.hottest_c is None:
        return Svg()
    (x, y), (end, _) = (ground.at((at, plate.hottest_c)) for at in (ground.x.low, ground.x.high))
    room.lines.append([(x, y), (end, y)])
    words = f"{plate.hottest_words} {figure(plate.hottest_c)} °C"
    spots = [(x + share * (end - x), y) for share in (0.1, 0.5, 0.02, 0.7)]
    said = room.word(words, spots, "halo", slab=False)
    return joined(path(f"M{number(x)} {number(y)}H{number(end)}", "bk-c bk-c-third"), said)


def _minimum(minimum: tuple[float, float, str], ground: Frame, room: Room) -> Svg:
    """A point that a standard asks the fluid to reach: an upright on a foot."""
    water, boils, words = minimum
    x, y = ground.at((100 * water, boils))
    d = f"M{number(x - 7)} {number(y)}h14M{number(x)} {number(y)}v8"
    said = room.word(words, [(x + 2, y), (x + 2, y + 14)], "halo", slab=False)
    return joined(path(d, "l l-2"), said)


def _value(points: tuple[Point, ...], at: float) -> float:
    """The height of a curve at a place; at its ends beyond them."""
    found = value_at(points, at)
    if found is not None:
        return found
    return points[0][1] if at < points[0][0] else points[-1][1]
