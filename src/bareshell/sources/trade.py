"""Sources of the job network, the parts desk and the engineering checks beyond the brakes."""

from __future__ import annotations

from typing import Final

from bareshell.sources.record import Source

__all__ = ["TRADE"]

TRADE: Final = (
    Source(
        "trade-practice",
        "Common practice of the restoration trade",
        "",
        None,
        "common practice, no source",
        note="Hours, waits, positions, lead times and rules of thumb that no publication settles. "
        "Every one of them may be changed by the owner.",
    ),
    Source(
        "uk-mot-brake-change",
        "Changes made to the brake performance test",
        "Driver and Vehicle Standards Agency",
        None,
        "read",
        note="58 % for cars first used from 1 September 2010; imbalance over 30 %; single-line "
        "systems.",
    ),
    Source(
        "uk-mot-brake-efficiency",
        "Inspection manual: calculation of brake efficiency (older edition)",
        "Vehicle and Operator Services Agency",
        None,
        "read",
        note="Sum of the wheels' efforts over the weight.",
    ),
    Source(
        "ec-wheel-lock-order",
        "Type-approval wording on the sequence in which axles lock",
        "European Union",
        None,
        "read second-hand",
        note="Between 0.15 and 0.8 of g the front axle locks no later than the rear.",
    ),
    Source(
        "iso-898-1",
        "Mechanical properties of fasteners of carbon and alloy steel, part 1: bolts and studs",
        "International Organization for Standardization, ISO 898-1",
        2013,
        "read second-hand",
        note="Property classes, proof stress and stress area: tables of proof and breaking loads "
        "reproduced by makers, M3 to M30.",
    ),
    Source(
        "iso-3506-1",
        "Mechanical properties of corrosion-resistant stainless steel fasteners, part 1",
        "International Organization for Standardization, ISO 3506-1",
        2020,
        "read second-hand",
        note="A2-50, 70 and 80: 500, 700 and 800 MPa, 0.2 % at 210, 450 and 600. Why a stainless "
        "screw is no replacement for a graded steel one.",
    ),
    Source(
        "sae-j429",
        "Mechanical and material requirements for externally threaded fasteners, J429",
        "SAE International",
        None,
        "read second-hand",
        note="Grades 2, 5 and 8: proof 55, 85 and 120 ksi, tensile 74, 120 and 150, as makers "
        "reproduce them.",
    ),
    Source(
        "bs-970",
        "Wrought steels for mechanical purposes, BS 970: condition letters P to Z",
        "British Standards Institution",
        None,
        "from memory",
        note="R, S, T and V give 45, 50, 55 and 65 tonf/in2 of tensile strength.",
    ),
    Source(
        "torque-tkdf",
        "The short form torque = K x diameter x clamp force",
        "",
        None,
        "common practice, no source",
        note="K of 0.20 plain and dry, 0.17 zinc and dry, 0.15 oiled; clamp at three quarters of "
        "proof. It reproduces printed makers' tables to the pound-foot; clamp scatters by about "
        "a quarter either way.",
    ),
    Source(
        "nut-factors-read",
        "Nut factors measured by finish, in a table of a maker of fixings",
        "",
        None,
        "read",
        note="K of dry steel 0.18 to 0.27, machine oil 0.10 to 0.26, zinc 0.17 to 0.35, cadmium "
        "0.15 to 0.19, phosphate and oil 0.15 to 0.22, stainless on stainless 0.30 to 0.50.",
    ),
    Source(
        "nut-factors-recalled",
        "An Introduction to the Design and Behavior of Bolted Joints",
        "J. H. Bickford, Marcel Dekker",
        1995,
        "from memory",
        clause="table of nut factors",
        note="K of molybdenum grease 0.10 to 0.16, of copper anti-seize 0.08 to 0.23 with a mean "
        "of 0.13.",
    ),
    Source(
        "iso-6722",
        "Road vehicles: 60 V and 600 V single-core cables",
        "International Organization for Standardization, ISO 6722-1",
        2011,
        "from memory",
        note="Conductor resistance. Ratings and voltage-drop limits used here are common practice.",
    ),
    Source(
        "iso-8820",
        "Road vehicles: fuse-links",
        "International Organization for Standardization, ISO 8820",
        None,
        "from memory",
        note="Fuse ratings are continuous; old glass fuses were often marked with the blow rating.",
    ),
    Source(
        "un-r39",
        "UN Regulation No. 39: speedometer equipment",
        "United Nations Economic Commission for Europe",
        None,
        "from memory",
        note="Never below the true speed; at most a tenth plus 4 km/h above it. Text not read.",
    ),
    Source(
        "etrto-manual",
        "Standards manual: tyre designations and dimensions",
        "European Tyre and Rim Technical Organisation",
        None,
        "from memory",
        note="What a size marking says about diameter.",
    ),
    Source(
        "rfc-5545",
        "Internet Calendaring and Scheduling Core Object Specification, RFC 5545",
        "Internet Engineering Task Force",
        2009,
        "from memory",
        clause="3.3.10 and 3.8.5",
        note="Repeating sessions and their exceptions; events, text and folding of a calendar.",
    ),
    Source(
        "rfc-7986",
        "New Properties for iCalendar, RFC 7986",
        "Internet Engineering Task Force",
        2016,
        "from memory",
        note="A calendar's own name, and how often to look at it again.",
    ),
    Source(
        "rfc-9562",
        "Universally Unique IDentifiers, RFC 9562",
        "Internet Engineering Task Force",
        2024,
        "from memory",
        clause="5.5",
        note="Lasting names made from a name space and a name.",
    ),
    Source(
        "coolant-freezing-tables",
        "Freezing tables for ethylene glycol in makers' workshop manuals",
        "",
        None,
        "read",
        note="They disagree at 50 % (-37 or -46 C); the milder figure is the one used.",
    ),
    Source(
        "rubber-bush-ride-height",
        "Service bulletins of suspension makers: rubber bushes are tightened at ride height",
        "",
        None,
        "read",
    ),
    Source(
        "wheel-retorque",
        "Advice of tyre makers on torquing wheel nuts again",
        "",
        None,
        "read",
        note="Again after 50 miles.",
    ),
    Source(
        "cooling-hold-manuals",
        "Cooling system leak tests in makers' workshop manuals",
        "",
        None,
        "read",
        note="Pressure lost in two minutes, and cap hold.",
    ),
)
"""The sources of the trade network and of the checks beyond the brakes."""
