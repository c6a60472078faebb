"""The ten gates: each holds up only the jobs it names."""

from __future__ import annotations

from bareshell.model.temp import Gate

GATES: tuple[Gate, ...] = (
    Gate(
        "under-car",
        "Under-car",
        needs_jobs=("lines-hold", "fuel-line-hold", "hb-cables", "wax-check", "jack-points"),
        blocks=("tank-fit", "exh-loose", "propshaft-rwd", "fi-downpipe"),
        sentence="What lies beneath is proved before tank, exhaust and propshaft hide it.",
    ),
    Gate(
        "engine-bay",
        "Engine bay",
        needs_jobs=(
            "lines-hold",
            "heater-fit",
            "loom-test",
            "bulkhead-seal",
            "clutch-line",
            "rack-fit",
            "mc-fit",
        ),
        blocks=("engine-install-fwd", "engine-install-rwd"),
        sentence="What lies behind the engine is proved before the engine hides it.",
    ),
    Gate(
        "headlining",
        "Headlining",
        needs_jobs=("damp-roof", "loom-rear", "draw-cords", "loom-test"),
        blocks=("headlining",),
        sentence="Roof wiring and damping are proved before the lining, then the glass, hide them.",
    ),
    Gate(
        "cabin",
        "Cabin",
        after=("headlining",),
        needs_jobs=(
            "elec-test",
            "glass-hose",
            "hold-night",
            "wax-check",
            "belt-anchors",
            "column-fit",
            "coolant-hold",
        ),
        blocks=("carpets", "side-trims"),
        sentence="Dry, tested and torqued before carpet and trim hide it.",
    ),
    Gate(
        "pushed-roll",
        "Pushed roll",
        needs_jobs=(
            "uprights",
            "front-springs",
            "rear-springs",
            "wheel-fixings",
            "track-rods",
            "hub-dummy-fwd",
        ),
        blocks=("on-wheels",),
        sentence="It may be pushed by hand on level ground, chocks ready; it has no brakes yet.",
    ),
    Gate(
        "first-start",
        "First start",
        after=("under-car", "engine-bay"),
        needs_jobs=(
            "timing-static",
            "coolant-hold",
            "fuel-wet",
            "throttle",
            "clutch-check",
            "exh-tight",
            "mounts",
            "air-filter",
            "fi-hold",
            "fi-prime",
            "linkage-fwd",
            "lever-rwd",
        ),
        blocks=("first-start",),
        sentence="Oil, fuel, cooling and wiring are proved before the engine runs.",
    ),
    Gate(
        "first-move",
        "First move under own power",
        after=("cabin", "pushed-roll", "first-start"),
        needs_jobs=(
            "hb-set",
            "wheels-free",
            "hose-sweep",
            "wheel-torque",
            "torque-audit",
            "temp-sweep",
        ),
        blocks=("yard-move",),
        sentence="Brakes, handbrake and steering are proved before it moves by itself, on private "
        "ground and at walking pace.",
    ),
    Gate(
        "road",
        "Road",
        after=("first-move",),
        needs_jobs=("rehearsal-fix", "brake-recalc", "post-yard"),
        blocks=("test-book",),
        sentence="What the record asks for is done and proved. Whether it may be driven is for "
        "local law and the inspection to say.",
    ),
    Gate(
        "50-miles",
        "50 miles",
        after=("road",),
        needs_jobs=("check-50",),
        blocks=("drive-500",),
        sentence="Everything that settles in the first miles was looked at and torqued again.",
    ),
    Gate(
        "500-miles",
        "500 miles",
        after=("50-miles",),
        needs_jobs=("check-500",),
        blocks=("rec-close",),
        sentence="Run in, serviced and looked over; the due list starts again.",
    ),
)
