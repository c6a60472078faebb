"""Lines written down before the reader of lines was, as tired people type and dictate them.

Each line stands with what a careful friend would have written into the book (see
``telling.told`` for the short notation). An empty tuple means: a careful friend would have
asked, or kept it as a note, and would have recorded nothing else.
"""

from __future__ import annotations

HELD_OUT: tuple[tuple[str, tuple[str, ...]], ...] = (
    (
        "Got the heater box in tonight, about two and a half hours. Two hose clips short though",
        ("done heater-fit 2.5 h", "here heater-clips 2"),
    ),
    ("nearside caliper's back off, bolt was seized", ("off caliper-l",)),
    (
        "spent 3/4 hr on the fuse box, prob another hour to go",
        ("worked fuse-box 0.75 h, 1 h left",),
    ),
    ("rear axle pipe runs all made and clipped up 1h45", ("done pipe-rear 1.75 h",)),
    ("wiper rack is in and parks right", ("done wiper",)),
    ("radiator not fitted, ran out of time", ()),
    ("6 degrees in there, me and my brother", ("session 19:00-21:30 people 2 6 C",)),
    ("knocked off at twenty to ten", ("session 19:00-21:40",)),
    ("Trunk lid hung, 50 mins", ("done boot-lid 0.83 h",)),
    (
        "pressure's on, 70 bar since quarter past nine, leaving it overnight",
        ("begun rear-tee 70 bar",),
    ),
    ("the offside hub nut torqued to 190 lb ft", ("held hub-nut-r 257.6 N.m",)),
    (
        "Heater in 2.5h and fusebox half done with an hour left and we're back on axle stands",
        ("done heater-fit 2.5 h", "worked fuse-box, 1 h left", "on stands"),
    ),
    ("dash going in next week", ()),
    ("thought the carpets were done but they aren't", ()),
    ("earth strap reads 0.4 ohms", ()),
    ("is the fuel line finished?", ()),
    ("if the tank was in I could do the exhaust", ()),
    ("two hours on the exhaust mostly swearing", ("worked exhaust 2 h",)),
    ("Door rubbers turned up today but one's torn", ()),
    ("no joy with the offside flexi, wrong thread on it", ()),
    ("handbrake cables on 20 minutes compensator still to do", ("worked handbrake 0.33 h",)),
    ("bled the brakes round with my brother, hour and ten", ("done bleed 1.17 h",)),
    ("remember for the other side feed the hose through before the bracket", ()),
    ("bonnet on", ("done bonnet",)),
    ("didn't get to the seats", ()),
    ("all the carpet down now 2 and a half hrs looks smart", ("done carpet 2.5 h",)),
)
