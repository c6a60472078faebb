"""The order in which the demo's owner did things, and how long this owner takes."""

from __future__ import annotations

from typing import Final

PACE: Final = {
    "brakes": 1.45,
    "electrics": 1.30,
    "suspension": 1.10,
    "steering": 1.10,
    "wheels": 1.00,
    "engine": 1.00,
    "gearbox and clutch": 1.15,
    "fuel": 1.20,
    "cooling": 1.05,
    "exhaust": 1.00,
    "body fittings": 1.35,
    "glass": 1.30,
    "interior": 1.25,
    "underbody": 0.95,
    "commissioning": 1.00,
    "paperwork": 0.90,
}
"""This owner's hours against the estimates: slow and careful on brakes, quick on papers."""

SCATTER: Final = 0.18
"""How far a single job strays from the pace, either way, as a share."""

TAKEN_UP: Final = (
    # The file, the bay, the boxes.
    "rec-open",
    "rec-shell-photos",
    "bay-setup",
    "cover-storage",
    "rec-nonstd",
    "shell-mount",
    "shell-protect",
    "paint-harden",
    "parts-count",
    "tool-check",
    "drains",
    "legal-route",
    "fast-sort",
    "hole-audit",
    "order-consumables",
    "draw-cords",
    "brake-survey",
    "loom-survey",
    "brake-calc",
    "order-long",
    "order-brakes",
    "fluid-choose",
    "threads-chase",
    "earth-points",
    # The shell made ready, bench work while things are at the platers.
    "floor-plugs",
    "shell-water",
    "fast-plate",
    "susp-clean",
    "jack-points",
    "damp-floor",
    "damp-roof",
    "damp-rear",
    "damp-doors",
    "goods-in",
    "bulkhead-pad",
    "carb-bench",
    "cavity-wax-1",
    "wax-check",
    "tandem-adaptor",
    "loom-repair",
    "bushes",
    "ball-joints",
    # First fix: pedals, pipes, wires.
    "pedal-box",
    "servo-blanks",
    "front-frame",
    "doors-hang",
    "pipe-plan",
    "flare-trial",
    "rack-bench",
    "rack-fit",
    "clutch-line",
    "bonnet-cable",
    "fuel-line",
    "fuel-line-hold",
    "loom-main",
    "fuse-box",
    "loom-rear",
    "battery-leads",
    "loom-test",
    "heater-bench",
    # Running gear.
    "front-arms",
    "front-hubs",
    "front-springs",
    "uprights",
    "axle-bench-rwd",
    "axle-fit-rwd",
    "halfshafts-rwd",
    "axle-oil-rwd",
    "rear-springs",
    "caliper-bench",
    "pin-spec",
    "disc-fit",
    "track-rods",
    "tyres-wheels",
    "wheel-fixings",
    "rear-brakes",
    "column-fit",
    "on-wheels",
    "bonnet-fit",
    "boot-fit",
    "tank-prep",
    "sender-test",
    "rad-bench",
    "rotating-bench",
    "alternator-bracket",
    "ign-bench",
    # Back to pipes and the bulkhead, bench work on the wettest nights.
    "hb-cables",
    "mc-bench",
    "mc-fit",
    "pipe-bay",
    "pipe-under",
    "valve-fit",
    "pipe-rear",
    "gearbox-bench",
    "wiper-fit",
    "washer-tubes",
    "instr-bench",
    "id-plate",
    "boot-seal",
    "oil-prime",
    "seats-bench",
    "brightwork",
    "caliper-fit",
    "hose-bracket-left",
)
"""Jobs that are done or begun, in the order in which the owner meant to take them."""

PUT_OFF: Final = {"mc-bench": ("hb-cables",)}
"""Jobs that the owner put off until others were done, though nothing asked for it: a cylinder
that was bled on the bench is fitted in the same week."""

LAST_NIGHT: Final = "lines-hold"
"""The job of the last session: the lines were plugged and left under pressure."""

ONLY_BEGUN: Final = {"brightwork": (1.0, 3.0), "seats-bench": (2.5, 7.0)}
"""Jobs taken up and not finished: hours worked in them, and the owner's guess of what is left."""

RAINY_DAY: Final = "seats-bench"
"""The one of them that was gone back to whenever an hour was left over."""
