"""Lines as they are typed and dictated, each with the facts it tells.

``told`` is exactly what is recorded, in order, notes left aside; ``asks`` says that something
is asked besides (or instead, when nothing is recorded). An empty tuple without ``asks`` is a
line of which nothing but words is kept.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Line:
    said: str
    told: tuple[str, ...]
    asks: bool = False


def L(said: str, *told: str, asks: bool = False) -> Line:  # noqa: N802 - a short name for a table
    return Line(said, told, asks)


JOBS = (
    L("heater in 2.5 h", "done heater-fit 2.5 h"),
    L("heater in, took two and a half hours", "done heater-fit 2.5 h"),
    L("Fuse box done 40 min.", "done fuse-box 0.67 h"),
    L("fusebox fitted, hour and a half", "done fuse-box 1.5 h"),
    L("rear cross pipes finsihed 2h30", "done pipe-rear 2.5 h"),
    L("Valve and junctions fitted, half an hour", "done valve-fit 0.5 h"),
    L("o/s caliper on. 1h15", "done caliper-r 1.25 h"),
    L("caliper on 2 h", "done caliper-r 2 h"),
    L("right hand caliper bolted up three quarters of an hour", "done caliper-r 0.75 h"),
    L("hung the boot lid 50 minutes", "done boot-lid 0.83 h"),
    L("hood's on", "done bonnet"),
    L("ran the fuel line and clipped it, 2 hrs 45", "done fuel-line 2.75 h"),
    L("fuel line run beneath and clipped, 3h", "done fuel-line 3 h"),
    L("front hoses both on, 20 min each", "done hose-l 0.33 h", "done hose-r 0.33 h"),
    L("heater and fuse box done, 3 h", "done heater-fit 1.8 h", "done fuse-box 1.2 h"),
    L("fitted heater, fuse box and valve", "done heater-fit", "done fuse-box", "done valve-fit"),
    L("heater in, fuse box in, 4 hours all told", "done heater-fit 2.4 h", "done fuse-box 1.6 h"),
    L("exhaust half done, 2 h left", "worked exhaust, 2 h left"),
    L("spent an hour on the wipers, not finished", "worked wiper 1 h"),
    L("started the door glass", "started door-glass"),
    L("made a start on the door glass 45 mins", "worked door-glass 0.75 h"),
    L(
        "got as far as the runners on the seats, about 20 minutes to go",
        "worked seats, 0.33 h left",
    ),
    L("nearly finished the handbrake, needs another half hour", "worked handbrake, 0.5 h left"),
    L("heater partly in, 1h, still needs 30 min", "worked heater-fit 1 h, 0.5 h left"),
    L("nearside caliper came off again", "off caliper-l"),
    L("had to take the doors off again to paint the shuts", "off doors-hang"),
    L("main loom out again, wrong side of the steering column", "off loom-main"),
    L("took the nearside caliper back off", "off caliper-l"),
    L("didn't finish the exhaust"),
    L("no time for the carpets"),
    L("radiator still not in"),
    L("didnt do seats"),
    L("heater not done"),
    L("heater 2 h", asks=True),
    L("heater in but not bolted", asks=True),
    L("downpipe on 1h", asks=True),
    L("cleaned the wiper motor 30 min", asks=True),
    L("doors hung 2 h", asks=True),
    L("damper fitted 1h", asks=True),
    L("hoses done", "done hose-l", "done hose-r"),
    L("nearside damper in, 1.5 h", "done damper-fl 1.5 h"),
    L("heatr unit fited 2 hours", "done heater-fit 2 h"),
    L("wiring tested end to end 3h no faults", "done loom-test 3 h"),
    L(
        "headliner up with my brother 6 hours",
        "done headlining 6 h",
        "session 19:00-21:30 people 2",
    ),
    L("brakes bled, 1 h 10", "done bleed 1.17 h"),
    L("parking brake cables and lever in an hour and twenty minutes", "done handbrake 1.33 h"),
    L("muffler and downpipe on, exhaust done, 3 h", "done exhaust 3 h"),
)

PARTS = (
    L("two hose clips short", "here heater-clips 2"),
    L("short of one thermostat", "none thermostat"),
    L("cant find the foam seal", "none heater-foam"),
    L("split pins missing", "none split-pins"),
    L("no copper washers", "none copper-washers"),
    L("short of 3 copper washers", "here copper-washers 1"),
    L("wheel cylinders arrived, checked, all correct", "goods o-cylinders right 2"),
    L("only one wheel cylinder came", "goods o-cylinders short 1"),
    L("headlamp relay arrived damaged", "goods o-relay damaged 1"),
    L("wrong relay came", "goods o-relay wrong 1"),
    L("door rubbers came today", asks=True),
    L("picked up 8 seat bolts", "here seat-bolts 8"),
    L("thermostat is the wrong size", "none thermostat"),
    L("five hose clips short", asks=True),
    L("two P clips short for the fuel pipe", asks=True),
)

PROOFS = (
    L("matrix held 1 bar 10 min", "held matrix 1 bar 0.167 h"),
    L("matrix held 15 psi for 10 minutes under water", "held matrix 1.034 bar 0.167 h"),
    L("matrix held 0.6 bar 10 min", asks=True),
    L("matrix held 1 bar 5 min", asks=True),
    L("matrix leaking at the seam", "failed matrix"),
    L("weeping at rear tee", "failed rear-tee"),
    L("hold on 71 bar at 21:20", "begun rear-tee 71 bar"),
    L("rear lines pumped up to 1020 psi, leave overnight", "begun rear-tee 70.33 bar"),
    L("earth points all under, 0.05 ohms worst", "held earth 0.05 ohm"),
    L("earth 0.3 ohm", asks=True),
    L("offside caliper bolts torqued 80 Nm", "held caliper-bolts-r 80 N.m"),
    L("caliper bolts 59 lb ft and marked", "held caliper-bolts-r 79.99 N.m"),
    L("offside caliper bolts torqued to 40 lb ft", asks=True),
    L("door gap 4.5 mm all round", "held door-gap 4.5 mm"),
    L("door gap reads 7 mm", asks=True),
    L("charging at 13.9 volts", "held charge 13.9 V"),
    L("fuel pipe joints held 0.4 bar one hour no leaks", "held fuel-joints 0.4 bar 1 h"),
    L("heater pipe joints dry", "held heater-joints"),
    L("fuel pipe joints didn't hold", "failed fuel-joints"),
    L("petrol tap dripping", asks=True),
)

REST = (
    L("temporary bolt in the boot hinge until the proper one comes", "temp temp"),
    L("bodged the washer tube with tape for now", "temp temp"),
    L("temp bolt in the nearside damper top is out", "temp gone damper-bolt"),
    L("temporary damper bolt gone, proper one in", "temp gone damper-bolt"),
    L("seats bolted down temporarily with M8s", "temp temp", asks=True),
    L(
        "new job: drill drain hole in the sill, 20 min",
        "new job Drill drain hole in the sill / underbody / 0.33 h",
    ),
    L(
        "need to also refit the bonnet stay bracket",
        "new job Refit the bonnet stay bracket / body fittings / 2 h",
    ),
    L(
        "heater in 2h. lesson: feed the lower hose first",
        "done heater-fit 2 h",
        "lesson heater-fit",
    ),
    L("lesson: caliper pins go in before the pads on the offside", "lesson caliper-r"),
    L("note: ask about the tank straps"),
    L("note left door card clips are in the green tin"),
    L("left on stands", "on stands"),
    L("car down on its wheels", "on wheels"),
    L("back on the lift", "on lift"),
    L("car left up on the scissor lift", "on lift"),
    L("car's on the floor", "on wheels"),
    L("8 deg", "session 19:00-21:30 8 C"),
    L("46F in there, two of us", "session 19:00-21:30 people 2 7.8 C"),
    L("from 7 till half nine", "session 19:00-21:30"),
    L("started at quarter past seven, packed up at 21:40", "session 19:15-21:40"),
    L("on my own, minus 2 degrees", "session 19:00-21:30 -2 C"),
    L("heater going in on saturday"),
    L("should do the exhaust next week"),
    L("have I done the earth points?"),
    L("neighbour's exhaust fitted 1 h"),
    L("swept up 10 min"),
    L("asdf qwer zxcv"),
    L("ordered two wheel cylinders"),
    L("think the valve is in the wrong way round"),
)

WHICH_JOB = (
    L("rear done 1h", asks=True),
    L("did the lamps, 2 hours, ran out of screws", asks=True),
    L("front done, 2 hours", asks=True),
    L("finished offside 1h", asks=True),
    L("fitted the rear bits 1h", asks=True),
    L("the rear is in, 2h", asks=True),
    L("did the pipes, 2 hours, ran out of clips", asks=True),
    L("did the brakes 2h", asks=True),
    L("did the heater, 2 h", asks=True),
    L("did the nearside", asks=True),
    L("rear 1h", asks=True),
    L("fuse box in 1h; rear done 2h", "done fuse-box 1 h", asks=True),
    L("nothing tonight, too cold"),
    L("done 2h"),
    L("did the matrix hold"),
    L("did the lamps, 2 hours?"),
    L("did the van, 2h"),
    L("nothing done at the rear, too cold"),
)
"""What may be said of several open jobs: asked, never only noted; with no subject, a note."""

WHOLE_EVENINGS = (
    L(
        "heater in 2.5 h; two hose clips short; matrix held 1 bar 10 min",
        "held matrix 1 bar 0.167 h",
        "done heater-fit 2.5 h",
        "here heater-clips 2",
        asks=True,
    ),
    L(
        "axle pipes done 1h, valve done, hold on 71 bar at 21:20, 8 deg, car left on lift",
        "done pipe-rear 1 h",
        "done valve-fit",
        "begun rear-tee 71 bar",
        "on lift",
        "session 19:00-21:30 8 C",
    ),
    L(
        "heater fitted two and a half hours fuse box done forty minutes two hose clips short eight "
        "degrees left on the stands",
        "done heater-fit 2.5 h",
        "done fuse-box 0.67 h",
        "here heater-clips 2",
        "on stands",
        "session 19:00-21:30 8 C",
        asks=True,
    ),
    L(
        "ok so got the fuse box in that took an hour and then the rear pipes those are about half "
        "done maybe another hour and a half to go no time for the carpets",
        "done fuse-box 1 h",
        "worked pipe-rear, 1.5 h left",
    ),
    L(
        "Valve in. 45 min. Caliper offside on, bolts torqued 80 Nm. Left on stands.",
        "done valve-fit 0.75 h",
        "done caliper-r",
        "held caliper-bolts-r 80 N.m",
        "on stands",
    ),
    L(
        "7 to 9:30, me and Alex, 9 deg: brakes bled 2 h, pedal good",
        "done bleed 2 h",
        "session 19:00-21:30 people 2 9 C",
    ),
    L(
        "fuse box done then earth points 0.04 ohm then packed up at half nine",
        "done fuse-box",
        "held earth 0.04 ohm",
        "session 19:00-21:30",
    ),
    L("bonnet on, boot lid hung, 3 h for both", "done bonnet 1.5 h", "done boot-lid 1.5 h"),
)

OTHER_WORDS = (
    L("hood and latch in 1.5 h", "done hd 1.5 h"),
    L("gas tank hung, filler hooked up, 2 hrs", "done tk 2 h"),
    L("bonnet on", "done hd"),
    L("LH shock mounted 40 min", "done shl 0.67 h"),
    L("both shocks in 1h", "done shl 0.5 h", "done shr 0.5 h"),
    L("windscreen in with my brother 2h", "done ws 2 h"),
    L("body harness laid in, 3 hours", "done hn 3 h"),
    L("king pin float 4 thou", "held float 4 thou"),
    L("end float 9 thou", asks=True),
    L("points gapped at 0.012 in", "held points 0.012 in"),
    L("tank held 3 psi 15 min no bubbles", "held tankair 3 psi 0.25 h"),
    L("tank held 0.25 bar for 20 minutes", "held tankair 3.626 psi 0.333 h"),
    L("one cotter pin short", "here cotter 5"),
    L("end links arrived, all good", "goods o-links right 2"),
    L("anti-roll bar together 1h", "done sw 1 h"),
    L("handbrake cable hooked up half an hour", "done pb 0.5 h"),
    L("on jack stands", "on js"),
    L("firewall pads buttoned up 50 mins", "done fw 0.83 h"),
    L("mag timed 30 min", "done mg 0.5 h"),
)
