"""Which axle is asked for more: adhesion used, and front brake force against rear."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

from bareshell.draw.brake_chart import Curve, Forbidden, Room, axis, frame, value_at
from bareshell.draw.brake_sheet import LETTERS, NARROW, Point, figure, listed, sheet
from bareshell.draw.measure import text_width
from bareshell.draw.svg import Svg, joined

_DIAGONALS: Final = (0.2, 0.4, 0.6, 0.8, 1.0, 1.2)


@dataclass(frozen=True, slots=True)
class AdhesionUsed:
    """Adhesion that each axle uses against deceleration.

    Parameters
    ----------
    front, rear : tuple of Point
        Deceleration as a share of g, and the axle's adhesion used there. [-, -]
    standard_front, standard_rear : tuple of Point
        The same of the standard car; empty to leave it out.
    forbidden : tuple of Forbidden
        Lines of the yardsticks that were picked, in the same units.
    result : str
        What it comes to, in a sentence: which axle reaches its limit first.
    load : str
        How the car is loaded.
    """

    front: tuple[Point, ...]
    rear: tuple[Point, ...]
    standard_front: tuple[Point, ...] = ()
    standard_rear: tuple[Point, ...] = ()
    forbidden: tuple[Forbidden, ...] = ()
    result: str = ""
    load: str = "driver only"


@dataclass(frozen=True, slots=True)
class Distribution:
    """Front brake force against rear, each as a share of the car's weight.

    Parameters
    ----------
    ideal : tuple of Point
        Front and rear force at which both axles use the same adhesion. [-, -]
    installed : tuple of Point
        Front and rear force as the pedal goes down. [-, -]
    standard : tuple of Point
        The same of the standard car; empty to leave it out.
    forbidden : tuple of Forbidden
        Lines of the yardsticks that were picked, in the same units.
    result : str
        What it comes to, in a sentence.
    load : str
        How the car is loaded.
    """

    ideal: tuple[Point, ...]
    installed: tuple[Point, ...]
    standard: tuple[Point, ...] = ()
    forbidden: tuple[Forbidden, ...] = ()
    result: str = ""
    load: str = "driver only"


def adhesion_used(plate: AdhesionUsed, *, width: float = NARROW) -> Svg:
    """Adhesion used by each axle: front heavy, rear dashed, standard dotted.

    Parameters
    ----------
    plate : AdhesionUsed
        The curves.
    width : float
        ``NARROW`` or ``WIDE``. [px]

    Returns
    -------
    drawing : Svg
        Needs the page's `definitions`.
    """
    curves = [
        Curve("front", plate.front, "front"),
        Curve("rear", plate.rear, "rear"),
    ]
    if plate.standard_front:
        curves.append(Curve("standard front", plate.standard_front, "standard"))
    if plate.standard_rear:
        curves.append(Curve("standard rear", plate.standard_rear, "standard"))
    far = _furthest([point for curve in curves for point in curve.points])
    ground = frame(
        axis("deceleration, share of g", 0, far, most=6),
        axis(f"adhesion used, {plate.load}", 0, 1.0, most=5),
        width=width,
        top=30,
        height=min(0.72 * width, 400),
    )
    room = Room(ground)
    for curve in curves:
        room.keep(curve.points)
    for region in plate.forbidden:
        room.keep(region.boundary)
    equal = Curve("", ((0, 0), (far, far)), "thin")
    room.keep(equal.points)
    names = [room.name(curve, slab=curve.style != "standard") for curve in curves]
    return sheet(
        width,
        ground.box.bottom + 44,
        _adhesion_sentence(plate),
        *(ground.forbidden(region) for region in plate.forbidden),
        ground.ground(),
        ground.drawn(equal),
        *(ground.drawn(curve) for curve in reversed(curves)),
        *names,
        *(_yard_words(room, region) for region in plate.forbidden),
    )


def distribution(plate: Distribution, *, width: float = NARROW) -> Svg:
    """Front force along, rear force up, to one scale; slanting lines are decelerations.

    Parameters
    ----------
    plate : Distribution
        The curves.
    width : float
        ``NARROW`` or ``WIDE``. [px]

    Returns
    -------
    drawing : Svg
        Needs the page's `definitions`.
    """
    points = [*plate.ideal, *plate.installed, *plate.standard]
    far = axis("front brake force, share of weight", 0, min(_furthest(points), 1.0), most=6)
    tall = max((p[1] for p in points if math.isfinite(p[1]) and p[0] <= far.high), default=0.3)
    up = axis("rear brake force, share of weight", 0, max(min(1.15 * tall, 0.8), 0.4), most=4)
    ground = frame(far, up, width=width, top=30, height=100)
    across = ground.box.right - ground.box.left
    height = across * (up.high - up.low) / (far.high - far.low)
    ground = frame(far, up, width=width, top=30, height=height)
    room = Room(ground)
    curves = [Curve("ideal", plate.ideal, "line"), Curve("as built", plate.installed, "front")]
    if plate.standard:
        curves.append(Curve("standard", plate.standard, "standard"))
    for curve in curves:
        room.keep(curve.points)
    names = [room.name(curve, slab=curve.style != "standard") for curve in curves]
    diagonals, figures = [], []
    for g in _DIAGONALS:
        slant = Curve("", ((0, g), (g, 0)), "thin")
        pieces = ground.pieces(slant.points)
        if pieces:
            diagonals.append(ground.drawn(slant))
            x, y = pieces[0][0]
            spots = [(x + 6, y + 12), (x + 16, y + 24)]
            figures.append(
                room.word(f"{figure(g, 1)} g", spots, "t-soft halo", slab=False, must=False)
            )
    sides = _lock_words(room, plate)
    return sheet(
        width,
        ground.box.bottom + 44,
        _distribution_sentence(plate),
        *(ground.forbidden(region) for region in plate.forbidden),
        ground.ground(),
        *diagonals,
        *(ground.drawn(curve) for curve in reversed(curves)),
        *figures,
        *names,
        sides,
        *(_yard_words(room, region) for region in plate.forbidden),
    )


def _lock_words(room: Room, plate: Distribution) -> Svg:
    """Which axle locks first on either side of the ideal line."""
    middle = plate.ideal[len(plate.ideal) // 2 : len(plate.ideal) // 2 + 1]
    if not middle:
        return Svg()
    x, y = room.frame.at(middle[0])
    box = room.frame.box
    above = [(x + dx, max(box.top + 14, y - dy)) for dy in (40, 60, 25) for dx in (0, -40, 40)]
    below = [(x + dx, min(box.bottom - 22, y + dy)) for dy in (40, 60, 30) for dx in (20, 60, -20)]
    return joined(
        room.word("rear locks first", above, "t-soft halo", slab=False, must=False),
        room.word("front locks first", below, "t-soft halo", slab=False, must=False),
    )


def _yard_words(room: Room, region: Forbidden) -> Svg:
    """Call a yardstick by its name within what it rules out."""
    pieces = room.frame.pieces(region.boundary)
    if not region.words or not pieces:
        return Svg()
    box = room.frame.box
    edge = box.top if region.above else box.bottom
    (x0, y0), (x1, y1) = pieces[0][0], pieces[-1][-1]
    half = text_width(region.words, LETTERS) / 2
    spots = [
        (x0 + (x1 - x0) * share + half, (y0 + (y1 - y0) * share) * (1 - deep) + edge * deep)
        for deep in (0.35, 0.5, 0.65, 0.2)
        for share in (0.1, 0.3, 0.5)
    ]
    return room.word(region.words, spots, "halo", slab=False, on=True)


def _furthest(points: list[Point]) -> float:
    return max([0.8, *(min(x, 1.1) for x, y in points if math.isfinite(x) and y <= 1.0)])


def _adhesion_sentence(plate: AdhesionUsed) -> str:
    said = [f"Adhesion that each axle uses against deceleration, {plate.load}."]
    for words, points in (("front", plate.front), ("rear", plate.rear)):
        at = [(z, value_at(points, z)) for z in (0.4, 0.8)]
        told = [f"{figure(k, 2)} at {z:g} g" for z, k in at if k is not None and math.isfinite(k)]
        if told:
            said.append(f"The {words} axle uses {listed(told)}.")
    if plate.result:
        said.append(plate.result)
    if plate.forbidden:
        said.append(f"Hatched is what {listed([f.words for f in plate.forbidden])} rules out.")
    return " ".join(said)


def _distribution_sentence(plate: Distribution) -> str:
    standard = ", the standard ones" if plate.standard else ""
    about = f"Front brake force against rear, as shares of the car's weight, {plate.load}"
    said = [f"{about}: the ideal line, the brakes as built{standard}."]
    front, rear = plate.installed[-1] if plate.installed else (0.0, 0.0)
    if front + rear > 0:
        said.append(
            f"At its end the front has {figure(100 * front / (front + rear))} of 100 parts."
        )
    if plate.result:
        said.append(plate.result)
    return " ".join(said)
