"""The layouts behind the starters: what usually hangs on what, drawn on a sketch.

Distances are those of the invented car: metres behind the front axle and right of the middle.
Sides are the driver's. Everything here is `common practice, no source`.
"""

from __future__ import annotations

from collections.abc import Sequence

from bareshell.brakes.sketch import End, Point, Sketch
from bareshell.model.brake import PartKind, Port, Wheel
from bareshell.model.trust import Stated, Trust

_FRONT = (Wheel.FRONT_LEFT, Wheel.FRONT_RIGHT)
_REAR = (Wheel.REAR_LEFT, Wheel.REAR_RIGHT)
_AXLE = 2.4


def _slug(wheel: Wheel) -> str:
    return wheel.value.replace(" ", "-")


def _side(wheel: Wheel) -> int:
    return -1 if wheel.is_left else 1


def _common(sketch: Sketch, pedal_pushes: str) -> None:
    """Draw what every car has: itself, its pedal, its fluid, its parking brake."""
    sketch.add("car", "the car", PartKind.CAR)
    at = sketch.beside_driver(0.75, 0.38)
    sketch.add("pedal", "pedal", PartKind.PEDAL, at, choices={"pushes": pedal_pushes})
    sketch.add("fluid", "fluid", PartKind.FLUID)
    sketch.add(
        "parking",
        "parking brake",
        PartKind.PARKING,
        sketch.place(1.3, 0.0),
        choices={"acts_on": "rear wheels", "hold": "mechanical", "control": "hand"},
    )


def _servo(sketch: Sketch) -> None:
    at = sketch.beside_driver(0.45, 0.38)
    sketch.add("servo", "servo", PartKind.SERVO, at, choices={"pushes": "master"})


def _single(sketch: Sketch, part_id: str, title: str, behind: float, right: float) -> None:
    at = sketch.beside_driver(behind, right)
    sketch.add(
        part_id,
        title,
        PartKind.MASTER,
        at,
        ports=(sketch.tapped("out", "primary"),),
        choices={"form": "single"},
    )


def _tandem(sketch: Sketch) -> None:
    at = sketch.beside_driver(0.2, 0.38)
    sketch.add(
        "master",
        "master cylinder",
        PartKind.MASTER,
        at,
        ports=(sketch.tapped("primary", "primary"), sketch.tapped("floating", "floating")),
        choices={"form": "tandem"},
    )
    _reservoir(sketch, "master primary, master floating", 0.2, 0.38)


def _reservoir(sketch: Sketch, feeds: str, behind: float, right: float) -> None:
    at = sketch.beside_driver(behind, right)
    sketch.add("reservoir", "reservoir", PartKind.RESERVOIR, at, choices={"feeds": feeds})


def _disc(sketch: Sketch, wheel: Wheel, chambers: Sequence[str] = ("a",)) -> None:
    """Draw a disc and its caliper, with a hose port and a bleed screw to each chamber."""
    slug, side = _slug(wheel), _side(wheel)
    sketch.add(
        f"disc-{slug}", f"{wheel} disc", PartKind.DISC, sketch.place(0.0, 0.58 * side), wheel=wheel
    )
    ports: list[Port] = []
    for chamber in chambers:
        suffix = f" {chamber}" if len(chambers) > 1 else ""
        ports += [
            sketch.for_hose(f"in{suffix}", chamber),
            sketch.bleed(f"bleed{suffix}", chamber),
        ]
    two = len(chambers) > 1
    sketch.add(
        f"caliper-{slug}",
        f"{wheel} caliper",
        PartKind.CALIPER,
        sketch.place(0.12, 0.56 * side),
        wheel=wheel,
        ports=ports,
        choices={"form": "fixed"} if two else {},
        figures={f"{each}_pistons": Stated(1.0, Trust.ASSUMED) for each in chambers if two},
    )


def _front_hose(
    sketch: Sketch, wheel: Wheel, port: str, *, name: str = "", behind: float = 0.05
) -> End:
    """Draw the bracket on the inner wing and its hose; return where the pipe comes to."""
    slug = f"{_slug(wheel)}{f'-{name}' if name else ''}"
    words = f"{wheel}{f' {name}' if name else ''}"
    at = sketch.place(behind, 0.42 * _side(wheel))
    bracket = sketch.bracket(f"bracket-{slug}", f"{words} hose bracket", at)
    end = (_brake_at(sketch, wheel), port)
    sketch.hose(f"hose-{slug}", f"{words} hose", bracket, end)
    return bracket, "pipe"


def _brake_at(sketch: Sketch, wheel: Wheel) -> str:
    kinds = (PartKind.CALIPER, PartKind.WHEEL_CYLINDER)
    return next(p.id for p in sketch.parts if p.wheel is wheel and p.kind in kinds)


def _front_drum(sketch: Sketch, wheel: Wheel) -> None:
    """Draw a twin leading drum: two single-ended cylinders with a bridge pipe between them."""
    slug, side = _slug(wheel), _side(wheel)
    sketch.add(
        f"drum-{slug}",
        f"{wheel} drum",
        PartKind.DRUM,
        sketch.place(0.0, 0.6 * side),
        wheel=wheel,
        choices={"form": "twin leading"},
    )
    single = {"form": "single-ended"}
    lower = sketch.add(
        f"cylinder-{slug}-lower",
        f"{wheel} lower cylinder",
        PartKind.WHEEL_CYLINDER,
        sketch.place(0.08, 0.58 * side),
        wheel=wheel,
        ports=(sketch.for_hose("in", "a"), sketch.tapped("bridge", "a")),
        choices=single,
    )
    upper = sketch.add(
        f"cylinder-{slug}-upper",
        f"{wheel} upper cylinder",
        PartKind.WHEEL_CYLINDER,
        sketch.place(-0.08, 0.58 * side),
        wheel=wheel,
        ports=(sketch.tapped("in", "a"), sketch.bleed("bleed", "a")),
        choices=single,
    )
    sketch.pipe(f"bridge-{slug}", f"{wheel} bridge pipe", (lower, "bridge"), (upper, "in"))


def _rear_drum(sketch: Sketch, wheel: Wheel) -> End:
    """Draw a leading-trailing drum and its cylinder; return where the axle pipe comes to."""
    slug, side = _slug(wheel), _side(wheel)
    sketch.add(
        f"drum-{slug}",
        f"{wheel} drum",
        PartKind.DRUM,
        sketch.place(_AXLE, 0.6 * side),
        wheel=wheel,
        choices={"form": "leading-trailing"},
    )
    cylinder = sketch.add(
        f"cylinder-{slug}",
        f"{wheel} cylinder",
        PartKind.WHEEL_CYLINDER,
        sketch.place(_AXLE, 0.54 * side),
        wheel=wheel,
        ports=(sketch.tapped("in", "a"), sketch.bleed("bleed", "a")),
        choices={"form": "double-ended"},
    )
    return cylinder, "in"


def _rear_axle(sketch: Sketch) -> End:
    """Draw both rear drums on a live axle with one hose; return where the long pipe comes to."""
    bracket = sketch.bracket("bracket-rear", "rear hose bracket", sketch.beside_driver(2.05, 0.14))
    tee = sketch.tee("tee-axle", "tee on the axle", sketch.beside_driver(2.34, 0.1), hose=True)
    sketch.hose("hose-rear", "rear hose", bracket, (tee, "in"))
    for wheel, port in zip(_REAR, ("left", "right"), strict=True):
        end = _rear_drum(sketch, wheel)
        along = [sketch.place(2.36, 0.3 * _side(wheel))]
        sketch.pipe(f"pipe-{_slug(wheel)}", f"{wheel} pipe on the axle", (tee, port), end, along)
    return bracket, "pipe"


def _front_pair(sketch: Sketch, start: End, *, drums: bool = False) -> None:
    """Draw both front brakes from a tee that one pipe feeds."""
    tee = sketch.tee("tee-front", "front tee", sketch.beside_driver(-0.1, 0.3))
    sketch.pipe("pipe-to-front-tee", "pipe to the front tee", start, (tee, "in"))
    for wheel, port in zip(_FRONT, ("left", "right"), strict=True):
        if drums:
            _front_drum(sketch, wheel)
        else:
            _disc(sketch, wheel)
        bracket = _front_hose(sketch, wheel, "in")
        # The pipe to the far side runs along the front of the engine bay.
        along = [sketch.place(-0.2, 0.25 * _side(wheel))]
        sketch.pipe(f"pipe-{_slug(wheel)}", f"{wheel} pipe", (tee, port), bracket, along)


def _long_way(sketch: Sketch) -> list[Point]:
    """Draw the way of a pipe from the bulkhead along the driver's sill side to the rear."""
    return [
        sketch.beside_driver(0.5, 0.5),
        sketch.beside_driver(0.95, 0.46),
        sketch.beside_driver(1.8, 0.42),
    ]


def single_line(sketch: Sketch) -> None:
    """Draw one circuit for all wheels, drums all round."""
    _common(sketch, "master")
    _single(sketch, "master", "master cylinder", 0.55, 0.38)
    _reservoir(sketch, "master primary", 0.55, 0.38)
    split = sketch.tee("tee-bulkhead", "tee on the bulkhead", sketch.beside_driver(0.35, 0.42))
    sketch.pipe("pipe-master", "pipe from the cylinder", ("master", "out"), (split, "in"))
    _front_pair(sketch, (split, "left"), drums=True)
    rear = _rear_axle(sketch)
    sketch.pipe("pipe-rear", "long pipe to the rear", (split, "right"), rear, _long_way(sketch))


def front_rear(sketch: Sketch) -> None:
    """Draw a tandem cylinder split front and rear."""
    _common(sketch, "servo")
    _servo(sketch)
    _tandem(sketch)
    sketch.add(
        "shuttle",
        "warning shuttle",
        PartKind.VALVE,
        sketch.beside_driver(0.05, 0.46),
        ports=tuple(
            sketch.tapped(f"{chamber} {way}", chamber)
            for chamber in ("front", "rear")
            for way in ("in", "out")
        ),
        choices={"form": "warning shuttle"},
    )
    ends = {"front": ("master", "primary"), "rear": ("master", "floating")}
    for name, end in ends.items():
        sketch.pipe(f"pipe-{name}-circuit", f"{name} circuit pipe", end, ("shuttle", f"{name} in"))
    _front_pair(sketch, ("shuttle", "front out"))
    _rear_valve(sketch, "valve-rear", "rear limiting valve", "limiting", (1.9, 0.35))
    sketch.pipe(
        "pipe-to-rear-valve",
        "long pipe to the rear valve",
        ("shuttle", "rear out"),
        ("valve-rear", "in"),
        _long_way(sketch)[:2],
    )
    rear = _rear_axle(sketch)
    sketch.pipe("pipe-rear", "pipe to the rear hose", ("valve-rear", "out"), rear)


def _rear_valve(
    sketch: Sketch, part_id: str, title: str, form: str, at: tuple[float, float]
) -> None:
    sketch.add(
        part_id,
        title,
        PartKind.VALVE,
        sketch.beside_driver(*at),
        ports=(sketch.tapped("in", "in"), sketch.tapped("out", "out")),
        choices={"form": form},
    )


def diagonal(sketch: Sketch) -> None:
    """Draw a tandem cylinder whose circuits each brake a front wheel and the rear one across."""
    _common(sketch, "servo")
    _servo(sketch)
    _tandem(sketch)
    pairs = (
        ("primary", Wheel.FRONT_LEFT, Wheel.REAR_RIGHT),
        ("floating", Wheel.FRONT_RIGHT, Wheel.REAR_LEFT),
    )
    for chamber, front, rear in pairs:
        side, rear_side = _side(front), _side(rear)
        tee = sketch.tee(f"tee-{chamber}", f"{chamber} tee", sketch.place(0.25, 0.2 * side))
        sketch.pipe(f"pipe-{chamber}", f"{chamber} circuit pipe", ("master", chamber), (tee, "in"))
        _disc(sketch, front)
        bracket = _front_hose(sketch, front, "in")
        near, far = ("left", "right") if front.is_left else ("right", "left")
        sketch.pipe(f"pipe-{_slug(front)}", f"{front} pipe", (tee, near), bracket)
        valve = f"valve-{_slug(rear)}"
        at = sketch.place(1.85, 0.4 * rear_side)
        sketch.add(
            valve,
            f"{rear} proportioning valve",
            PartKind.VALVE,
            at,
            ports=(sketch.tapped("in", "in"), sketch.tapped("out", "out")),
            choices={"form": "proportioning"},
        )
        way = [sketch.place(0.6, 0.34 * rear_side), sketch.place(1.2, 0.4 * rear_side)]
        long_title = f"long pipe to the {rear} valve"
        sketch.pipe(f"pipe-to-{valve}", long_title, (tee, far), (valve, "in"), way)
        end = _rear_drum(sketch, rear)
        hung = sketch.bracket(
            f"bracket-{_slug(rear)}", f"{rear} hose bracket", sketch.place(2.05, 0.44 * rear_side)
        )
        sketch.pipe(f"pipe-{_slug(rear)}", f"{rear} pipe", (valve, "out"), (hung, "pipe"))
        sketch.hose(f"hose-{_slug(rear)}", f"{rear} hose", hung, end)


def two_into_one(sketch: Sketch) -> None:
    """Draw four-piston calipers with a line from each circuit, the rear on one of them."""
    _common(sketch, "servo")
    _servo(sketch)
    _tandem(sketch)
    for wheel in _FRONT:
        _disc(sketch, wheel, ("a", "b"))
    for chamber, port, behind in (("primary", "a", -0.02), ("floating", "b", 0.12)):
        tee = sketch.tee(f"tee-{chamber}", f"{chamber} tee", sketch.beside_driver(behind, 0.28))
        start: End = ("master", chamber)
        if chamber == "floating":
            start = _branch_to_rear(sketch, start)
        sketch.pipe(f"pipe-{chamber}", f"{chamber} circuit pipe", start, (tee, "in"))
        for wheel, way in zip(_FRONT, ("left", "right"), strict=True):
            bracket = _front_hose(sketch, wheel, f"in {port}", name=port, behind=behind)
            along = [sketch.place(behind - 0.2, 0.25 * _side(wheel))]
            title = f"{wheel} pipe, {chamber} circuit"
            sketch.pipe(f"pipe-{_slug(wheel)}-{port}", title, (tee, way), bracket, along)


def _branch_to_rear(sketch: Sketch, start: End) -> End:
    """Draw the rear on a branch of one circuit; return where its front half goes on from."""
    split = sketch.tee("tee-bulkhead", "tee on the bulkhead", sketch.beside_driver(0.3, 0.46))
    sketch.pipe("pipe-floating-out", "pipe from the cylinder, floating", start, (split, "in"))
    _rear_valve(sketch, "valve-rear", "rear limiting valve", "limiting", (1.9, 0.35))
    sketch.pipe(
        "pipe-to-rear-valve",
        "long pipe to the rear valve",
        (split, "right"),
        ("valve-rear", "in"),
        _long_way(sketch)[:2],
    )
    rear = _rear_axle(sketch)
    sketch.pipe("pipe-rear", "pipe to the rear hose", ("valve-rear", "out"), rear)
    return split, "left"


def remote_servo(sketch: Sketch) -> None:
    """Draw one circuit with a servo in its line."""
    _common(sketch, "master")
    _single(sketch, "master", "master cylinder", 0.55, 0.38)
    _reservoir(sketch, "master primary", 0.55, 0.38)
    sketch.add(
        "remote",
        "remote servo",
        PartKind.REMOTE_SERVO,
        sketch.beside_driver(0.1, -0.4),
        ports=(sketch.tapped("in", "in"), sketch.tapped("out", "out")),
    )
    along = [sketch.beside_driver(0.5, 0.0)]
    sketch.pipe(
        "pipe-master", "pipe to the remote servo", ("master", "out"), ("remote", "in"), along
    )
    split = sketch.tee("tee-bulkhead", "tee on the bulkhead", sketch.beside_driver(0.35, -0.3))
    sketch.pipe("pipe-remote", "pipe from the remote servo", ("remote", "out"), (split, "in"))
    _front_pair(sketch, (split, "left"))
    rear = _rear_axle(sketch)
    sketch.pipe("pipe-rear", "long pipe to the rear", (split, "right"), rear, _long_way(sketch))


def balance_bar(sketch: Sketch) -> None:
    """Draw two single cylinders behind a balance bar."""
    _common(sketch, "bar")
    sketch.add(
        "bar",
        "balance bar",
        PartKind.BALANCE_BAR,
        sketch.beside_driver(0.65, 0.38),
        choices={"front": "master-front", "rear": "master-rear"},
    )
    _single(sketch, "master-front", "front master cylinder", 0.5, 0.32)
    _single(sketch, "master-rear", "rear master cylinder", 0.5, 0.44)
    _reservoir(sketch, "master-front primary, master-rear primary", 0.45, 0.38)
    _front_pair(sketch, ("master-front", "out"))
    rear = _rear_axle(sketch)
    sketch.pipe(
        "pipe-rear", "long pipe to the rear", ("master-rear", "out"), rear, _long_way(sketch)
    )
