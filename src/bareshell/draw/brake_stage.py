"""The car under the circuits: scale, outline, wheels, and signs set clear of each other."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from bareshell.draw.brake_car import WHEELS, CarPlan, PlanPart
from bareshell.draw.brake_sheet import NARROW, Box, Point
from bareshell.draw.brake_symbols import Sign, disc_length
from bareshell.draw.svg import Svg, joined, number, path, rect, text

_TYRE_WIDTH_M: Final = 0.165
_NOSE_M: Final = 0.62
_TAIL_M: Final = 0.72
_HEAD: Final = 30.0  # the arrow to the front
_WHEEL_KINDS: Final = ("disc", "drum", "caliper", "wheel cylinder")
_CHAIN: Final = ("pedal", "servo", "balance bar", "master cylinder")
_GAP: Final = 3.0
_FAR: Final = 90.0  # no two signs reach each other from here
_ROUNDS: Final = 120


@dataclass(frozen=True, slots=True)
class Stage:
    """The scale of a plan and where its parts stand.

    Parameters
    ----------
    plan : CarPlan
        The car.
    width : float
        Width of the whole picture. [px]
    px_per_m : float
        Scale, the same along and across. [px/m]
    signs : mapping of str to Sign
        What is drawn for each part, by its id.
    places : mapping of str to Point
        Where the middle of each sign stands. [px]
    """

    plan: CarPlan
    width: float
    px_per_m: float
    signs: Mapping[str, Sign]
    places: Mapping[str, Point]

    def at(self, place_m: Point) -> Point:
        """A place of the car on the picture, in pixels."""
        behind, right = place_m
        return (
            self.width / 2 + right * self.px_per_m,
            _HEAD + (_NOSE_M + behind) * self.px_per_m,
        )

    @property
    def foot(self) -> float:
        """Where the tail of the car ends, in pixels."""
        return self.at((self.plan.wheelbase_m + _TAIL_M, 0.0))[1]

    @property
    def sides(self) -> tuple[float, float]:
        """Where the wheels end at the left and right; the margins begin there, in pixels."""
        half = _outer_m(self.plan) / 2 * self.px_per_m
        return self.width / 2 - half, self.width / 2 + half

    def box(self, part_id: str) -> Box:
        """The room a part's sign takes."""
        return self.signs[part_id].box(self.places[part_id])

    def stood(self) -> tuple[tuple[PlanPart, Point], ...]:
        """Each part with where its sign stands, in pixels."""
        return tuple((part, self.places[part.id]) for part in self.plan.parts)

    def wheel_box(self, wheel: str) -> Box:
        """The room a tyre takes."""
        x, y = self.at(self.plan.wheel_at(wheel))
        half, length = _TYRE_WIDTH_M / 2 * self.px_per_m, self.plan.tyre_m / 2 * self.px_per_m
        return Box(x - half, y - length, x + half, y + length)


def set_stage(plan: CarPlan, width: float) -> Stage:
    """Choose the scale and set the signs down, those that would lie on each other a little apart.

    Parameters
    ----------
    plan : CarPlan
        The car.
    width : float
        Width of the whole picture; what the car does not take is margin for words. [px]
    """
    margin = 98.0 if width <= NARROW else 0.27 * width
    scale = (width - 2 * margin) / _outer_m(plan)
    grow = 1.0 if width <= NARROW else 1.3
    signs = {
        part.id: Sign(
            part.kind,
            part.form,
            disc_length(part.diameter_m, scale) if part.kind in ("disc", "drum") else None,
            grow,
        )
        for part in plan.parts
    }
    true = Stage(plan, width, scale, signs, {})
    places = _apart(plan.parts, signs, {part.id: true.at(part.at_m) for part in plan.parts})
    return Stage(plan, width, scale, signs, places)


def _outer_m(plan: CarPlan) -> float:
    return max(plan.front_track_m, plan.rear_track_m) + _TYRE_WIDTH_M


def _apart(
    parts: Sequence[PlanPart], signs: Mapping[str, Sign], true: Mapping[str, Point]
) -> dict[str, Point]:
    """Move signs that lie on each other until they do not; what stands at a wheel stays."""
    places = dict(true)
    masters = [true[part.id] for part in parts if part.kind == "master cylinder"]
    for part in parts:  # a reservoir sits on its cylinder: beside it, so that both are seen
        if part.kind == "reservoir" and not part.removed:
            x, y = true[part.id]
            near = [at for at in masters if abs(at[0] - x) < 18 and abs(at[1] - y) < 18]
            inward = min((at[0] for at in near), default=x) - 20
            outward = max((at[0] for at in near), default=x) + 20
            middle = sum(at[0] for at in true.values()) / len(true)
            places[part.id] = (min((inward, outward), key=lambda to: abs(to - middle)), y)
            if not near:
                places[part.id] = (x, y)
    for turn in range(_ROUNDS):
        moved = False
        for index, one in enumerate(parts):
            for two in parts[index + 1 :]:
                if not (one.wheel and two.wheel):
                    # What is wedged between two neighbours across the car gets out along it.
                    moved |= _push(one, two, signs, places, wedged=turn % 12 > 8)
        if not moved:
            break
    return places


def _push(
    one: PlanPart,
    two: PlanPart,
    signs: Mapping[str, Sign],
    places: dict[str, Point],
    *,
    wedged: bool,
) -> bool:
    """Push two signs apart where they meet; those on the push rod keep to its line."""
    (x1, y1), (x2, y2) = places[one.id], places[two.id]
    if abs(x1 - x2) > _FAR or abs(y1 - y2) > _FAR:
        return False
    a, b = signs[one.id].box((x1, y1)), signs[two.id].box((x2, y2))
    if not a.meets(b, _GAP - 0.01):
        return False
    across = min(a.right, b.right) - max(a.left, b.left) + _GAP
    along = min(a.bottom, b.bottom) - max(a.top, b.top) + _GAP
    chained = one.kind in _CHAIN and two.kind in _CHAIN and one.kind != two.kind
    if across < along and not chained and not wedged:
        dx, dy = (across if x2 >= x1 else -across), 0.0
    else:
        dx, dy = 0.0, (along if y2 >= y1 else -along)
    weights = _weight(one), _weight(two)
    share = weights[0] / sum(weights)  # the heavier of the two moves less
    places[one.id] = (x1 - dx * (1 - share), y1 - dy * (1 - share))
    places[two.id] = (x2 + dx * share, y2 + dy * share)
    return True


def _weight(part: PlanPart) -> float:
    """How little a sign gives way."""
    if part.wheel:
        return 1e6
    return 1e3 if part.kind in _CHAIN and not part.removed else 1.0


def car_outline(stage: Stage) -> Svg:
    """The body, sketched about the wheels, the axles, and an arrow to the front."""
    plan = stage.plan
    half = min(plan.front_track_m, plan.rear_track_m) / 2 - 0.015
    nose, tail, base = -_NOSE_M, plan.wheelbase_m + _TAIL_M, plan.wheelbase_m

    def at(behind: float, across: float) -> str:
        x, y = stage.at((behind, across * half))
        return f"{number(x)} {number(y)}"

    def side(sign: int) -> tuple[str, ...]:
        """Corners and bends of one half, from the nose to the tail."""
        bends = (
            (nose, 0.66), (nose + 0.14, 0.9), (-0.1, 0.95), (0.2, 0.99), (0.4, 1), (0.6, 1),
            (1, 1), (base - 0.8, 1), (base - 0.5, 1), (base, 1), (base + 0.2, 0.98),
            (base + 0.32, 0.94), (tail - 0.12, 0.86), (tail, 0.66), (tail, 0),
        )  # fmt: skip
        return tuple(at(behind, sign * across) for behind, across in bends)

    right, left = side(1), side(-1)
    back = (*reversed(left[:-1]), at(nose, 0))
    body = f"M{at(nose, 0)}C{' '.join(right)}C{' '.join(back)}Z"
    screen, rear = 0.36 * base, 0.93 * base
    glass = (
        f"M{at(screen - 0.02, -0.93)}Q{at(screen - 0.24, 0)} {at(screen - 0.02, 0.93)}"
        f"L{at(screen + 0.3, 0.8)}Q{at(screen + 0.16, 0)} {at(screen + 0.3, -0.8)}Z"
        f"M{at(rear - 0.28, -0.78)}Q{at(rear - 0.2, 0)} {at(rear - 0.28, 0.78)}"
        f"L{at(rear + 0.06, 0.88)}Q{at(rear + 0.18, 0)} {at(rear + 0.06, -0.88)}Z"
        f"M{at(screen + 0.3, -0.8)}L{at(rear - 0.28, -0.78)}"
        f"M{at(screen + 0.3, 0.8)}L{at(rear - 0.28, 0.78)}"
    )
    axles = "".join(f"M{at(behind, -1)}L{at(behind, 1)}" for behind in (0.0, base))
    x = stage.width / 2
    return joined(
        path(glass, "l-rule"),
        path(axles, "l-rule l-dash"),
        path(body, "bk-body"),
        path(
            f"M{number(x)} 22V6M{number(x)} 6L{number(x - 6)} 14M{number(x)} 6L{number(x + 6)} 14",
            "l",
        ),
        text(x + 12, 18, "front", "t-soft"),
    )


def wheels(stage: Stage, without_brake: Sequence[str]) -> Svg:
    """The four tyres; one that no brake holds is hatched."""
    drawn = []
    for wheel in WHEELS:
        box = stage.wheel_box(wheel)
        size = (box.right - box.left, box.bottom - box.top)
        bare = wheel in without_brake
        drawn.append(rect(box.left, box.top, *size, "bk-tyre bk-bare" if bare else "bk-tyre", rx=5))
        if bare:
            drawn.append(rect(box.left, box.top, *size, rx=5, fill="url(#h-lost)"))
    return joined(*drawn)


def scale_bar(stage: Stage, y: float) -> Svg:
    """Half a metre, to measure the plan with."""
    half = 0.5 * stage.px_per_m
    left = stage.sides[0]
    d = f"M{number(left)} {number(y)}h{number(half)}m0 -6v12M{number(left)} {number(y - 6)}v12"
    return joined(path(d, "l"), text(left + half + 9, y + 5, "0.5 m", "t-soft"))
