"""A rehearsal of the roadworthiness inspection: what to look at, lights first, and what is known.

The items are our own words for what inspections commonly look at; local law and the inspection's
own list outrank them. What the build already proves stands beside each item as evidence, but only
somebody who looks at the car can say how an item is on the day.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import Final

from bareshell.model import Build
from bareshell.model.proof import ProofState
from bareshell.model.standing import is_asked_for, proof_standings

MARK: Final = "common practice, no source"


@dataclass(frozen=True, slots=True)
class Item:
    """One thing to look at.

    Parameters
    ----------
    id, area, words : str
        Short name, part of the car, and what to look at and how.
    jobs : tuple of str
        Jobs of the starter network whose proofs speak about it.
    people : int
        2 when somebody must work a control while another looks.
    """

    id: str
    area: str
    words: str
    jobs: tuple[str, ...] = ()
    people: int = 1

    @property
    def title(self) -> str:
        """What it is called: the words before the colon, else all of them."""
        return self.words.partition(":")[0]


@dataclass(frozen=True, slots=True)
class Evidence:
    """One proof that speaks about an item."""

    proof: str
    title: str
    state: ProofState
    since: datetime | None


@dataclass(frozen=True, slots=True)
class Rehearsed:
    """An item with what the build knows of it."""

    item: Item
    evidence: tuple[Evidence, ...]
    jobs_open: tuple[str, ...]

    @property
    def standing(self) -> str:
        """What the record says, in words; never a verdict on the car."""
        if self.jobs_open:
            return "work still open"
        states = {each.state for each in self.evidence}
        if not states:
            return "nothing on record"
        if all(state.is_good for state in states):
            return "held on record"
        if ProofState.COVERED in states:
            return str(ProofState.COVERED)
        return "owed or spent on record"


_LIGHTS, _SIGHT, _BRAKES = "Lights", "Sight", "Brakes"
_STEERING, _WHEELS = "Steering and suspension", "Wheels and tyres"
_BODY, _SMOKE, _PAPERS = "Body and seats", "Fuel and exhaust", "Papers"

ITEMS: Final = (
    Item(
        "side-lamps",
        _LIGHTS,
        "Side and tail lamps: both sides alike, lenses whole, none flickers when tapped",
        ("lamps-connect", "elec-test"),
    ),
    Item(
        "headlamps",
        _LIGHTS,
        "Headlamps: main and dipped both sides, switch over together, aimed low enough",
        ("headlamps", "lamp-aim"),
    ),
    Item(
        "stop-lamps",
        _LIGHTS,
        "Stop lamps: come on at the first touch of the pedal, go off with it",
        ("stop-switch", "elec-test"),
        2,
    ),
    Item(
        "indicators",
        _LIGHTS,
        "Indicators: rate, both sides, telltale inside, hazard where fitted",
        ("elec-test", "col-switches"),
    ),
    Item(
        "number-lamp",
        _LIGHTS,
        "Number-plate lamp: whole plate lit, no white light to the rear",
        ("rear-lamps", "elec-test"),
    ),
    Item(
        "rear-others",
        _LIGHTS,
        "Fog, reversing lamps and reflectors, where the car's age asks for them",
        ("rear-lamps", "elec-test"),
    ),
    Item(
        "horn",
        _LIGHTS,
        "Horn: one clear note, works at full lock",
        ("elec-test",),
    ),
    Item(
        "telltales",
        _LIGHTS,
        "Telltales: brake warning lamp works when it is tried; main beam, charge and oil",
        ("elec-test",),
    ),
    Item(
        "wipers",
        _SIGHT,
        "Wipers and washers: sweep, park, wet the screen where one looks",
        ("wiper-fit", "elec-test"),
    ),
    Item(
        "screen",
        _SIGHT,
        "Windscreen: no crack or chip where the driver looks through",
        ("windscreen", "glass-hose"),
    ),
    Item(
        "mirrors",
        _SIGHT,
        "Mirrors: firm, clear, the number the car's age asks for",
        ("mirrors-plates",),
    ),
    Item(
        "pedal",
        _BRAKES,
        "Brake pedal: rubber, no side play, firm, does not creep down under a steady foot",
        ("pedal-box", "mc-fit", "pedal-measure"),
    ),
    Item(
        "servo",
        _BRAKES,
        "Servo, where fitted: pedal sinks a little as the engine starts",
        ("mc-fit",),
    ),
    Item(
        "fluid-level",
        _BRAKES,
        "Fluid: level between the marks, cap and its warning switch in order",
        ("brake-fill",),
    ),
    Item(
        "pipes",
        _BRAKES,
        "Pipes: clipped, dry, no rust, nothing rubs",
        ("lines-hold", "pipe-under", "pipe-rear"),
    ),
    Item(
        "hoses",
        _BRAKES,
        "Hoses: from lock to lock and at full droop, no twist, no rub, no bulge while pressed hard",
        ("front-hoses", "rear-hoses", "hose-sweep"),
        2,
    ),
    Item(
        "linings",
        _BRAKES,
        "Linings and discs or drums: thickness, no fluid, turn free when released",
        ("caliper-fit", "rear-brakes", "shoe-adjust"),
    ),
    Item(
        "handbrake",
        _BRAKES,
        "Handbrake: clicks, holds, ratchet bites, cable runs free",
        ("hb-set", "hb-cables", "hb-connect"),
    ),
    Item(
        "roller",
        _BRAKES,
        "Brake figures: each wheel against its fellow, service and parking, as the roller"
        " test asks",
        ("test-book", "brake-recalc"),
    ),
    Item(
        "wheel-play",
        _STEERING,
        "Steering: play at the rim, column joints and clamps, no lift in the column",
        ("rack-fit", "column-fit"),
        2,
    ),
    Item(
        "track-rods",
        _STEERING,
        "Track rods and ball joints: no lift, gaiters whole, locked",
        ("track-rods", "toe"),
        2,
    ),
    Item(
        "springs",
        _STEERING,
        "Springs, links, bushes and dampers: firm, no crack, no leak, torqued at ride height",
        ("front-springs", "rear-springs", "bush-torque"),
    ),
    Item(
        "hubs",
        _STEERING,
        "Wheel bearings: no rumble, no rock at the rim",
        ("front-hubs", "hubnut-fwd", "halfshafts-rwd"),
    ),
    Item(
        "shafts",
        _STEERING,
        "Shafts and joints: no play, boots whole",
        ("propshaft-rwd", "driveshafts-fwd"),
    ),
    Item(
        "tyres",
        _WHEELS,
        "Tyres: one size and kind on an axle, age, depth across the width, no bulge",
        ("tyres-wheels",),
    ),
    Item(
        "nuts",
        _WHEELS,
        "Wheel nuts: every one there, right seat, torqued and looked at again",
        ("wheel-torque",),
    ),
    Item(
        "structure",
        _BODY,
        "Structure near belts, brakes, steering and suspension: sound, no sharp edge outside",
        ("seams", "jack-points"),
    ),
    Item(
        "belts",
        _BODY,
        "Seat belts, where the car's age asks for them: webbing, locks, anchors",
        ("belt-anchors",),
    ),
    Item(
        "seats",
        _BODY,
        "Seats: firm, latched, the driver's adjusts",
        ("seats-fit",),
    ),
    Item(
        "doors",
        _BODY,
        "Doors, bonnet, boot: open from both sides, catch twice, bonnet's second catch holds",
        ("door-latches", "bonnet-latch", "boot-fit"),
    ),
    Item(
        "bumpers",
        _BODY,
        "Bumpers and brightwork: firm, no edge that cuts",
        ("bumpers",),
    ),
    Item(
        "battery",
        _BODY,
        "Battery: held down, terminals covered, no wire chafes",
        ("battery-leads",),
    ),
    Item(
        "fuel",
        _SMOKE,
        "Fuel: no smell, no weep, cap seals, pipes clipped away from heat",
        ("tank-fit", "fuel-line-hold", "fuel-wet", "fuel-hoses"),
    ),
    Item(
        "exhaust",
        _SMOKE,
        "Exhaust: whole, hung, no leak, as quiet as it should be",
        ("exh-tight",),
    ),
    Item(
        "smoke",
        _SMOKE,
        "Smoke and idle: clear once warm; figures where the car's age asks for them",
        ("tune", "hot-check"),
    ),
    Item(
        "leaks",
        _SMOKE,
        "Oil and coolant: nothing drips",
        ("hot-check", "check-5"),
    ),
    Item(
        "number-plates",
        _PAPERS,
        "Number plates: firm, right letters, right colours for the car's age",
        ("mirrors-plates",),
    ),
    Item(
        "identity",
        _PAPERS,
        "Chassis number: there, readable, the one in the papers",
        ("id-plate",),
    ),
    Item(
        "speedometer",
        _PAPERS,
        "Speedometer: works, lit, set to these tyres",
        ("speedo",),
    ),
)
"""What to look at, in the order of a walk round the car: lights first."""


def rehearsal(build: Build, now: datetime) -> tuple[Rehearsed, ...]:
    """Put beside each item what the build's own record says of it.

    Parameters
    ----------
    build : Build
        The build.
    now : datetime
        Aware; proofs age against it.

    Examples
    --------
    >>> from datetime import UTC, datetime
    >>> rehearsal(Build(), datetime(2026, 1, 1, tzinfo=UTC))[0].standing
    'nothing on record'
    """
    standings = proof_standings(build, now)
    by_job: dict[str, list[str]] = {}
    for key, record in build.proofs.items():
        if is_asked_for(build, record):
            for job in {*record.proof.made_by, *filter(None, (record.proof.proven_by,))}:
                by_job.setdefault(job, []).append(key)
    found = []
    for item in ITEMS:
        keys = dict.fromkeys(key for job in item.jobs for key in by_job.get(job, ()))
        evidence = tuple(
            Evidence(
                key, build.proofs[key].proof.called, standings[key].state, standings[key].since
            )
            for key in keys
        )
        still_open = tuple(
            build.jobs[job].job.title
            for job in item.jobs
            if job in build.jobs and build.jobs[job].state.is_open
        )
        found.append(Rehearsed(item, evidence, still_open))
    return tuple(found)
