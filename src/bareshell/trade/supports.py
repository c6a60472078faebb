"""How a car can stand in a home garage: what each support opens, and moving between two.

Common practice, no source, and there to be edited. What was reasoned out:

- *Axle stands* under the body open everything, lying on the floor, wheels hanging.
- A *scissor lift* is not the same: its platform and rams close the middle of the underside.
- A *two-post lift* opens the whole underside; its posts stand where the doors want to swing.
- *Pit* and *four-post lift* open the underside with the wheels carrying the car, level, and so the
  final torque of rubber-bushed pivots; the wheel ends only as far as a wheel that is on lets one.
- *On its wheels* everything but the underside can be reached.

So that no owner is left with a job that cannot be reached, two things are always there: a pair of
axle stands, which opens a bare shell all round and is the least anybody works with; and level
floor, beneath which a job at ride height is done lying down, the wheels on four equal blocks,
where neither pit nor four-post lift offers better.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from bareshell.model import Build
from bareshell.model.job import Caution, Job
from bareshell.model.network import in_order, predecessors
from bareshell.model.position import Place, Support, SupportKind, SupportMove, Wheels, Zone
from bareshell.model.trust import COMMON_PRACTICE
from bareshell.trade.cautions import ON_THE_ROAD, ROLLING
from bareshell.trade.network import WHEELS_JOB
from bareshell.trade.zones import BODY, BOTH_ENDS, DOORS, EVERYWHERE, UNDERNEATH

MARK = COMMON_PRACTICE
"""Where the zones, minutes and people below come from."""

ALWAYS_THERE = (
    SupportKind.STANDS,
    SupportKind.WHEELS,
    SupportKind.LEVEL_FLOOR,
    SupportKind.ROAD,
    SupportKind.TEST_STATION,
)
"""The kinds that every garage starts with."""

ON_ITS_WHEELS = frozenset(
    {
        SupportKind.WHEELS,
        SupportKind.LEVEL_FLOOR,
        SupportKind.PIT,
        SupportKind.FOUR_POST_LIFT,
        SupportKind.ROAD,
        SupportKind.TEST_STATION,
    }
)
"""The kinds on which a car can only stand once it has wheels on (`network.WHEELS_JOB`)."""

_ABOVE = BODY | BOTH_ENDS
_H, _L = Wheels.HANGING, Wheels.LOADED
_KINDS: dict[SupportKind, tuple[str, frozenset[Zone], Wheels, bool, bool]] = {
    # kind: title, opens, wheels, level, rollable
    SupportKind.STANDS: ("axle stands", EVERYWHERE, _H, False, False),
    SupportKind.SCISSOR_LIFT: ("scissor lift", EVERYWHERE - UNDERNEATH, _H, False, False),
    SupportKind.TWO_POST_LIFT: ("two-post lift", EVERYWHERE - DOORS, _H, False, False),
    SupportKind.FOUR_POST_LIFT: ("four-post lift", EVERYWHERE, _L, True, False),
    SupportKind.PIT: ("over the pit", EVERYWHERE, _L, True, True),
    SupportKind.WHEELS: ("on its wheels", _ABOVE, _L, False, True),
    SupportKind.LEVEL_FLOOR: ("level floor", _ABOVE, _L, True, True),
    SupportKind.ROAD: ("road or open ground", frozenset(), _L, False, True),
    SupportKind.TEST_STATION: ("test station", frozenset(), _L, True, True),
}

_MINUTES: dict[SupportKind, tuple[int, int]] = {
    # kind: minutes to get onto it from its wheels, and off it again
    SupportKind.STANDS: (25, 20),
    SupportKind.SCISSOR_LIFT: (15, 10),
    SupportKind.TWO_POST_LIFT: (15, 10),
    SupportKind.FOUR_POST_LIFT: (10, 10),
    SupportKind.PIT: (10, 10),
    SupportKind.WHEELS: (0, 0),
    SupportKind.LEVEL_FLOOR: (10, 5),
    SupportKind.ROAD: (5, 5),
    SupportKind.TEST_STATION: (5, 5),
}

_LOCKS = Caution(
    "Crush",
    "Down on its mechanical locks before you go beneath, never on the rams or the pump; read its "
    "rating against the car.",
)
_CAUTIONS: dict[SupportKind, tuple[Caution, ...]] = {
    SupportKind.STANDS: (
        Caution(
            "Crush",
            "Rated stands, in pairs, on hard level floor, under strong points, pins home. Rock the "
            "car by hand before you go beneath; the jack is never one of the supports.",
        ),
        Caution(
            "Crush",
            "With engine or gearbox out the balance moves to the rear: look at the stands again "
            "after anything heavy comes off or goes on.",
        ),
    ),
    SupportKind.SCISSOR_LIFT: (
        _LOCKS,
        Caution(
            "Crush",
            "Pads under strong points; the car balances on a short platform, so heavy parts come "
            "off with stands beneath the end that would rise.",
        ),
    ),
    SupportKind.TWO_POST_LIFT: (
        _LOCKS,
        Caution(
            "Crush",
            "Arms locked and pads seated, then shake the car a hand's breadth up. Taking out "
            "engine or axle tips it: a stand under the light end.",
        ),
    ),
    SupportKind.FOUR_POST_LIFT: (
        _LOCKS,
        Caution("Crush", "Chock the wheels on the runways; handbrake alone does not count."),
    ),
    SupportKind.PIT: (
        Caution(
            "Fire",
            "Fuel vapour and exhaust gas sink into a pit and stay: air it, no bulb that can break, "
            "no fuel work above it.",
        ),
        Caution("Crush", "Cover the pit when nobody is in it; guide the wheels, never straddle."),
    ),
    SupportKind.WHEELS: (ROLLING,),
    SupportKind.LEVEL_FLOOR: (
        ROLLING,
        Caution(
            "Crush",
            "Blocks solid, equal and wider than the tyre, chocked both ways, before you reach "
            "beneath; no jack in use while you do.",
        ),
    ),
    SupportKind.ROAD: (ON_THE_ROAD,),
    SupportKind.TEST_STATION: (ON_THE_ROAD,),
}


def support_id(kind: SupportKind) -> str:
    """Return the id under which a kind of support begins.

    Examples
    --------
    >>> support_id(SupportKind.TWO_POST_LIFT)
    'two-post-lift'
    """
    return kind.value.replace(" ", "-")


def default_supports(kinds: Iterable[SupportKind]) -> tuple[Support, ...]:
    """Make the supports of a garage from the kinds its owner names.

    Parameters
    ----------
    kinds : iterable of SupportKind
        What is there; those of ``ALWAYS_THERE`` need no naming.

    Examples
    --------
    >>> [s.title for s in default_supports([SupportKind.PIT])]
    ['axle stands', 'over the pit', 'on its wheels', 'level floor', ...]
    """
    there = {*kinds, *ALWAYS_THERE}
    made = tuple(
        Support(support_id(kind), title, kind, opens, wheels, level, rollable)
        for kind, (title, opens, wheels, level, rollable) in _KINDS.items()
        if kind in there
    )
    if there & {SupportKind.PIT, SupportKind.FOUR_POST_LIFT}:
        return made
    return tuple(
        replace(
            s, title="level floor, on equal blocks to reach beneath", opens=s.opens | UNDERNEATH
        )
        if s.kind is SupportKind.LEVEL_FLOOR
        else s
        for s in made
    )


def default_moves(supports: Iterable[Support]) -> tuple[SupportMove, ...]:
    """Make the table of moves: off the one, onto the other, in minutes, one person.

    A second person makes every one of them better; the table asks for one so that nobody who
    works alone finds a job out of reach.

    Examples
    --------
    >>> moves = default_moves(default_supports([SupportKind.SCISSOR_LIFT]))
    >>> [m.minutes for m in moves if (m.from_support, m.to_support) == ("scissor-lift", "stands")]
    [35]
    """
    listed = tuple(supports)
    return tuple(
        SupportMove(a.id, b.id, _MINUTES[a.kind][1] + _MINUTES[b.kind][0])
        for a in listed
        for b in listed
        if a.id != b.id
    )


def before_wheels(build: Build) -> frozenset[str]:
    """Return the open jobs during which the car cannot be on its wheels, for it has none yet.

    None, once it stands on its wheels, or when the build has no such day. While there are any,
    a support of ``ON_ITS_WHEELS`` is no way to do them.
    """
    record = build.jobs.get(WHEELS_JOB)
    if record is None or not record.state.is_open:
        return frozenset()
    if build.placement is not None:
        support = build.supports.get(build.placement.support)
        if support is not None and support.kind in ON_ITS_WHEELS:
            return frozenset()
    after = predecessors(build)
    rolls = {WHEELS_JOB}
    for job in in_order(after):
        if not rolls.isdisjoint(after[job]):
            rolls.add(job)
    return frozenset(j for j in after if j not in rolls and build.jobs[j].state.is_open)


def cautions_for(kind: SupportKind) -> tuple[Caution, ...]:
    """Return what can hurt while a car stands so.

    Examples
    --------
    >>> cautions_for(SupportKind.STANDS)[0].harm
    'Crush'
    """
    return _CAUTIONS[kind]


def suits(job: Job, support: Support) -> bool:
    """Say whether a job can be done while the car stands on a support.

    Off the car it does not matter how the car stands. On the road and at a test station only
    the jobs of these places are done. Body states (engine out, glass out) never decide.

    Examples
    --------
    >>> from bareshell.trade.zones import UNDERNEATH
    >>> scissor = default_supports([SupportKind.SCISSOR_LIFT])[1]
    >>> suits(Job("pipe", "Long pipe", "brakes", zones=UNDERNEATH), scissor)
    False
    """
    if job.place in (Place.BENCH, Place.DESK):
        return True
    if job.place is Place.ROAD:
        return support.kind is SupportKind.ROAD
    if job.place is Place.TEST_STATION:
        return support.kind is SupportKind.TEST_STATION
    if support.kind in (SupportKind.ROAD, SupportKind.TEST_STATION):
        return False
    if job.wheels is not Wheels.EITHER and job.wheels is not support.wheels:
        return False
    return job.zones <= support.opens and (support.level or not job.level)
