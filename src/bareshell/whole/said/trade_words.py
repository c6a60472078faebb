"""What else the trade calls a thing: two countries' words, short forms, sides, and work done.

All of it is common practice, no source. A line is matched with the words of the build first;
these only widen what a person may say for them.
"""

from __future__ import annotations

from types import MappingProxyType
from typing import Final

_SAME = """
boot trunk; bonnet hood; wing fender; windscreen windshield screen; silencer muffler;
tyre tire; caliper calliper; pipe line tube; wiring loom harness; fuel petrol gas gasoline;
dynamo generator; alternator alt; indicator blinker flasher; earth ground;
damper shock shocker strut; antirollbar swaybar; handbrake ebrake;
gearbox transmission tranny; headlining headliner; sill rocker; bulkhead firewall;
dash dashboard fascia facia; trackrod tierod; bush bushing; propshaft driveshaft prop;
matrix core; lamp light headlamp headlight; screen glass; window glass; gauge instrument clock;
radiator rad; speedometer speedo; carburettor carburetor carb; distributor dizzy;
thermostat stat; manifold header; disc rotor disk; belt strap; coolant antifreeze;
axle diff differential; hose flexi flexible; rubber seal weatherstrip; seat chair squab;
wheel roadwheel; number licence license plate; hinge pivot; battery batt; switch button;
grommet bung plug; union fitting joint; tee junction; clip clamp; bolt screw setscrew;
washer shim; splitpin cotter cotterpin; bearing race; spring coil; stay prop; cable lead;
cylinder cyl; regulator winder; membrane sheet; underseal stonechip; carpet mat;
propshaft cardan; spat stoneguard; valance apron; bumper overrider; loudspeaker speaker;
heater blower; fan blower; choke strangler; starter startermotor; clutch clutchplate;
servo booster; lining friction; shoe lining; pad friction; exhaust tailpipe; downpipe down;
tank petroltank; sender sensor; relay cutout; terminal connector; tonneau cover; horn hooter;
beading piping; trim moulding molding; rack box; column steeringcolumn; jack trolley;
kingpin swivel; pushrod rod; sump oilpan; gasket joint; rocker valvegear; aerial antenna
"""

_PHRASES = """
gas tank=fuel tank; petrol tank=fuel tank; parking brake=handbrake; park brake=handbrake;
emergency brake=handbrake; e brake=handbrake; hand brake=handbrake; sway bar=antirollbar;
anti roll bar=antirollbar; antiroll bar=antirollbar; roll bar=antirollbar; arb=antirollbar;
stabiliser bar=antirollbar; stabilizer bar=antirollbar; shock absorber=damper;
shock absorbers=damper; track rod=trackrod; tie rod=trackrod; heater core=heater matrix;
turn signal=indicator; turn signals=indicator; wind screen=windscreen; wind shield=windscreen;
head lining=headlining; head liner=headlining; quarter glass=quarter light;
vent window=quarter light; tail light=rear lamp; tail lights=rear lamp; tail lamp=rear lamp;
head light=headlamp; head lights=headlamp; head lamp=headlamp; head lamps=headlamp;
wiring loom=loom; wiring harness=loom; prop shaft=propshaft; drive shaft=propshaft;
down pipe=downpipe; front pipe=downpipe; split pin=splitpin; split pins=splitpin;
cotter pin=splitpin; cotter pins=splitpin; king pin=kingpin; king pins=kingpin;
license plate=number plate; licence plate=number plate; gear box=gearbox;
left hand=left; right hand=right; near side=left; off side=right;
hb=handbrake; brake line=brake pipe; brake lines=brake pipe; fuel line=fuel pipe;
fuel lines=fuel pipe;
hard line=pipe; hard lines=pipe; rubber hose=hose; sound deadening=damping sheet;
sound deadener=damping sheet; flexi hose=flexible hose; trunk lid=boot lid; deck lid=boot lid
"""

_SIDES = """
left=side:left; lh=side:left; nearside=side:left; ns=side:left;
right=side:right; rh=side:right; offside=side:right; os=side:right; rhs=side:right; lhs=side:left;
front=end:front; fr=end:front; rear=end:rear; aft=end:rear; back=end:rear; rr=end:rear;
upper=height:upper; top=height:upper; lower=height:lower; bottom=height:lower;
inner=depth:inner; inside=depth:inner; outer=depth:outer; outside=depth:outer;
nsf=side:left+end:front; osf=side:right+end:front; nsr=side:left+end:rear;
osr=side:right+end:rear; lf=side:left+end:front; rf=side:right+end:front;
lr=side:left+end:rear
"""

# What sort of work a verb is. Work of one sort does not finish a job of another.
_WORK = """
fit: fit install mount bolt screw clip hang lay route run thread feed connect hook attach slot
 plumb bung plug bolt assemble build reassemble refit offer hinge rivet glue bond stick weld
 solder put place locate secure bed set drop wire loom insert pop button wrap tape trim mate
 join rig lower seat bridge sew bind wind push tuck dress load unplug;
make: make bend flare cut fabricate form shape cast machine turn press drill tap ream fold roll;
test: test check measure try prove inspect audit examine bench-test verify look probe crank spin
 sweep confirm;
clean: clean strip degrease blast wash scrape chase sand rub polish hoover vacuum brush;
coat: paint coat wax seal spray prime underseal protect grease oil copper-slip;
overhaul: overhaul rebuild recondition refurbish service repair mend restore recover renew
 recover re-cover machine;
adjust: adjust align time gap shim tune balance centre center square level trim set;
torque: torque tighten nip retorque re-torque;
fluid: bleed fill top drain flush prime charge;
desk: order buy draw write plan sort list count label photograph photo choose settle settle
 record send open leave register survey find bag pack move shift unpack tidy sweep
"""

_PAST = """
hung=hang; ran=run; laid=lay; made=make; bent=bend; cut=cut; put=put; set=set;
built=build; rebuilt=rebuild; bled=bleed; wrote=write; drew=draw; fed=feed;
stuck=stick; wound=wind; bound=bind; swept=sweep; refitted=refit; spun=spin; sent=send;
bought=buy; chose=choose; sewed=sew; sewn=sew;
torqued=torque; re-torqued=torque; retorqued=torque; tried=try; tidied=tidy
"""

UNSURE_PAST: Final = frozenset({"cut", "put", "set"})
"""Past forms that are also the base form and a noun: where they stand decides."""


def _groups(text: str) -> MappingProxyType[str, tuple[str, ...]]:
    found: dict[str, tuple[str, ...]] = {}
    for group in text.replace("\n", " ").split(";"):
        words = group.split()
        for word in words:
            others = tuple(w for w in words if w != word)
            found[word] = tuple(dict.fromkeys((*found.get(word, ()), *others)))
    return MappingProxyType(found)


def _pairs(text: str) -> MappingProxyType[str, str]:
    pairs = (item.strip().split("=") for item in text.replace("\n", " ").split(";"))
    return MappingProxyType({left.strip(): right.strip() for left, right in pairs})


def _sorts(text: str) -> MappingProxyType[str, frozenset[str]]:
    found: dict[str, set[str]] = {}
    for group in text.replace("\n", " ").split(";"):
        sort, verbs = group.split(":")
        for verb in verbs.split():
            found.setdefault(verb, set()).add(sort.strip())
    return MappingProxyType({verb: frozenset(sorts) for verb, sorts in found.items()})


SAME_THING: Final = _groups(_SAME)
"""Other words for a thing, each way."""

PHRASES: Final = MappingProxyType(
    {tuple(said.split()): tuple(means.split()) for said, means in _pairs(_PHRASES).items()}
)
"""Two or three words that are one thing."""

SIDES: Final = MappingProxyType(
    {
        word: tuple((axis, value) for axis, value in (p.split(":") for p in means.split("+")))
        for word, means in _pairs(_SIDES).items()
    }
)
"""Words that say which one: axis and value. The nearside is the left, as where cars keep left."""

WORK: Final = _sorts(_WORK)
"""Verbs of the workshop, and of what sort of work each may be."""

PAST_FORMS: Final = _pairs(_PAST)
"""Past forms that no rule gives."""

_FILLERS = """
a an the this that these those it its they them he she we us i you my our your his her
is are was were be been being am 's 're 've 'm 'd 'll has have had having do does did
to of in on at by for from with into onto over under through up down out off as than so
and or then but also plus too just now again last finally today tonight yesterday
evening night morning afternoon about around roughly approx approximately circa ca nearly
maybe prob probably some any all each every both well very quite pretty really ok okay
there here not no if when while which who what how got get gets getting went gone goes going
still yet only even more most less much many bit lot lots nice nicely good great
job work took taken take needed need needs used using use done car thing
new old same other one ones side time hour hours minute minutes min mins hr hrs h left
after before because since until till per & + eh um er yes yeah yep right unit assembly
part parts piece together back along round first next second third
come came go turn move look looks stated order way room rest size short long free wrong
day full empty whole missing unknown chosen place stand start stop use reach sit fall show tell
say keep stay clear true high low mark bench shelf garage matter big small little large thick
thin wide narrow real before beneath above below near far hard soft warm cold stick everywhere
nothing everything anything something finger hand hands bit bits loose tight fine smart lovely
though actually basically anyway both ends three two four fit fits fitted fitting
"""

FILLERS: Final = frozenset(_FILLERS.split())
"""Words that say nothing about which thing is meant."""


def base_of(verb: str) -> str | None:
    """Bring a verb in any form to its base, when it is one of the workshop's.

    Examples
    --------
    >>> [base_of(word) for word in ("fitted", "hung", "clipped", "making", "torqued", "heater")]
    ['fit', 'hang', 'clip', 'make', 'torque', None]
    """
    if verb in PAST_FORMS:
        return PAST_FORMS[verb]
    if verb in WORK:
        return verb
    if verb.startswith("re") and len(verb) > 5 and (again := base_of(verb[2:])):
        return again
    for ending in ("ing", "ed", "es", "s"):
        if not verb.endswith(ending) or len(verb) - len(ending) < 2:
            continue
        stem = verb[: -len(ending)]
        for base in (stem, stem + "e", stem[:-1] if stem[-1:] == stem[-2:-1] else stem):
            if base in WORK:
                return base
        if stem.endswith("i") and stem[:-1] + "y" in WORK:
            return stem[:-1] + "y"
    return None


def is_past(verb: str) -> bool:
    """Whether a workshop verb stands in a form that says the work was done.

    Examples
    --------
    >>> [is_past(word) for word in ("fitted", "hung", "fitting", "hang", "cut")]
    [True, True, False, False, True]
    """
    if verb in PAST_FORMS:
        return True
    return verb.endswith("ed") and base_of(verb) is not None
