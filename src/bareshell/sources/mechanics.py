"""Sources of the formulas beneath the brakes: statics, hydraulics, heat, and published figures."""

from __future__ import annotations

from typing import Final

from bareshell.sources.record import Source

__all__ = ["MECHANICS"]

MECHANICS: Final = (
    Source(
        "first-principles",
        "Levers, statics, geometry, the gas law and the balance of work and heat",
        "",
        None,
        "common practice, no source",
        note="School mechanics, derived in the note beside each formula and checked another way "
        "by a test; no publication was followed.",
    ),
    Source(
        "milliken",
        "Race Car Vehicle Dynamics",
        "Milliken and Milliken; SAE International",
        1995,
        "from memory",
        clause="ch. 18",
        note="Height of the centre of gravity by tilting. The formula was read second-hand in two "
        "published descriptions of the test.",
    ),
    Source(
        "mckay-1979",
        "A Comparison of Three Methods for Selecting Values of Input Variables in the Analysis "
        "of Output from a Computer Code",
        "McKay, Beckman and Conover; Technometrics 21",
        1979,
        "from memory",
        note="The Latin hypercube.",
    ),
    Source(
        "plischke-2013",
        "Global sensitivity measures from given data",
        "Plischke, Borgonovo and Smith; European Journal of Operational Research 226",
        2013,
        "from memory",
        note="First-order shares of variance from a sample cut into classes.",
    ),
    Source(
        "kelley-1935",
        "An unbiased correlation ratio measure",
        "Kelley; Proceedings of the National Academy of Sciences 21",
        1935,
        "from memory",
        note="What classes agree by chance is taken off.",
    ),
    Source(
        "anderson-bjorck-1973",
        "A new high order method of regula falsi type for computing a root of an equation",
        "Anderson and Björck; BIT 13, Springer",
        1973,
        "from memory",
        note="How far to bring down the value of an end that stays.",
    ),
    Source(
        "merritt",
        "Hydraulic Control Systems",
        "Merritt; Wiley",
        1967,
        "from memory",
        clause="ch. 2",
        note="Stiffness of a fluid with free air in it.",
    ),
    Source(
        "roark",
        "Roark's Formulas for Stress and Strain",
        "Young and Budynas; McGraw-Hill",
        2002,
        "from memory",
        note="Thick-walled cylinders with closed ends.",
    ),
    Source(
        "carslaw-jaeger",
        "Conduction of Heat in Solids, 2nd edition",
        "Carslaw and Jaeger; Oxford University Press",
        1959,
        "from memory",
        clause="ch. 2",
        note="A thick body heated at its face.",
    ),
    Source(
        "incropera",
        "Fundamentals of Heat and Mass Transfer",
        "Incropera and DeWitt; Wiley",
        None,
        "from memory",
        note="Radiation, and the table of air's properties.",
    ),
    Source(
        "white",
        "Viscous Fluid Flow",
        "White; McGraw-Hill",
        1991,
        "from memory",
        note="Constants of Sutherland's law for air.",
    ),
    Source(
        "topouris-2020",
        "Heat dissipation from stationary passenger car brake discs, J. Mech. Eng. 66(1)",
        "Topouris and others; Strojniski vestnik",
        2020,
        "read second-hand",
        note="Only the abstract was read: 3 to 5 W/(m2 K) to still air, over four designs of disc.",
    ),
    Source(
        "mcphee-johnson-2008",
        "Experimental heat transfer and flow analysis of a vented brake rotor, "
        "Int. J. Thermal Sciences 47",
        "McPhee and Johnson; Elsevier",
        2008,
        "read second-hand",
        note="Only the abstract was read: coefficients within the vanes at three speeds.",
    ),
    Source(
        "hose-test-2005",
        "A hose maker's report on the expansion of brake hoses",
        "",
        2005,
        "read second-hand",
        note="A rubber hose and a braided one as measured, beside the limits of FMVSS 106.",
    ),
    Source(
        "fluid-trade-figures",
        "Trade texts on the boiling point of wet brake fluid",
        "",
        None,
        "read second-hand",
        note="238 to 260 C new, 187, 160 and 145 C at 1, 2 and 3 per cent of water, about 100 at "
        "8; a refractometer's scale for DOT 3 ends at 118 C at 6 per cent.",
    ),
    Source(
        "fluid-uptake-figures",
        "Trade texts and surveys on water taken up by brake fluid",
        "",
        None,
        "read second-hand",
        note="From a mean of 2.6 per cent at a mean age of 8 years to 3 per cent in a year; they "
        "contradict one another.",
    ),
    Source(
        "iso-68-1",
        "ISO general purpose screw threads: basic profile, part 1: metric screw threads",
        "International Organization for Standardization, ISO 68-1",
        1998,
        "from memory",
        note="The tooth of 60 degrees and its eighths; ISO 724 has the basic sizes.",
    ),
    Source(
        "machinerys-handbook",
        "Machinery's Handbook: stress areas of unified threads, lengths of engagement",
        "Oberg, Jones, Horton and Ryffel; Industrial Press",
        None,
        "from memory",
        note="Two formulas of the stress area were read again in a published calculator.",
    ),
    Source(
        "shigley-bolts",
        "Shigley's Mechanical Engineering Design",
        "Budynas and Nisbett; McGraw-Hill",
        2011,
        "from memory",
        clause="ch. 8",
        note="Bolted joints: preload at three quarters of proof, stripping, shear of steel.",
    ),
    Source(
        "afml-stress-manual",
        "Stress Analysis Manual, AFFDL-TR-69-42",
        "United States Air Force Flight Dynamics Laboratory",
        1969,
        "from memory",
        clause="ch. 9",
        note="Bending of a pin through lugs, as Melcon and Hoblit had it. Only the contents of the "
        "chapter were read.",
    ),
    Source(
        "pin-double-shear",
        "Trade and engineering texts on pins in single and double shear, and on bearing",
        "",
        None,
        "read second-hand",
        note="A worked example of shear, bearing and bending was read: 10 kN on an 18 mm pin.",
    ),
    Source(
        "pin-steels",
        "Least strengths of plain, free-cutting and heat-treated steels for pins: BS 970, ISO 2341",
        "British Standards Institution; International Organization for Standardization",
        None,
        "from memory",
        note="Clevis pins of free-cutting steel have 125 to 245 HV, so about 400 MPa at least.",
    ),
    Source(
        "thread-crossing-practice",
        "Fitters on threads that start in the wrong hole",
        "",
        None,
        "common practice, no source",
        note="3/8-24 in M10 x 1, 5/16 in M8, M12 x 1.25 in 1/2-20: they start, then jam or hold on "
        "their tips. What happens is reckoned here from the basic sizes.",
    ),
)
"""The sources of `bareshell.calc` that are not of the brakes alone."""
