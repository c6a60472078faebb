"""Sources of the brakes: regulations, test rules, fluids, pipes, hoses and textbooks."""

from __future__ import annotations

from typing import Final

from bareshell.sources.record import Source

__all__ = ["BRAKES"]

_UNECE = "United Nations Economic Commission for Europe"
_NHTSA = "National Highway Traffic Safety Administration"
_SAE = "SAE International"
_ISO = "International Organization for Standardization"

_RULES: Final = (
    Source(
        "un-r13-h",
        "UN Regulation No. 13-H: braking of passenger cars",
        _UNECE,
        2026,
        "from memory",
        clause="Annexes 3 and 5",
        note="Title page and list of contents read; every figure and clause number is recalled, "
        "checked only against its own arithmetic.",
    ),
    Source(
        "un-r13-rev4",
        "UN Regulation No. 13, revision 4: braking, as it stood for cars before 13-H",
        _UNECE,
        None,
        "read",
        clause="Annex 4, 2.2",
        note="The secondary performance of cars was read; the service figure is from memory.",
    ),
    Source(
        "un-r13-2004",
        "UN Regulation No. 13: working text of 2004 on definitions of stopping performance",
        _UNECE,
        2004,
        "read",
        clause="Annex 4, 1.1.2",
        note="Stopping distance and mean fully developed deceleration.",
    ),
    Source(
        "ec-71-320",
        "Council Directive 71/320/EEC: braking devices of certain categories of motor vehicles",
        "European Economic Community",
        1971,
        "from memory",
        clause="Annex II",
        note="The older rule on use of adhesion. The form with 0.85 was read in the French order "
        "that carries it, not here.",
    ),
    Source(
        "fr-arrete-1955",
        "Arrete of 18 August 1955 on the braking of motor vehicles, annex",
        "France",
        1955,
        "read",
        note="Symbols of the use of adhesion, the inequality with 0.85, and g taken as 10 m/s2.",
    ),
    Source(
        "de-stvzo-41",
        "Strassenverkehrs-Zulassungs-Ordnung, section 41: brakes and wheel chocks",
        "Germany",
        2012,
        "read",
        clause="s.41",
        note="Public text of March 2022.",
    ),
    Source(
        "fmvss-105",
        "Federal Motor Vehicle Safety Standard 105: hydraulic and electric brake systems",
        _NHTSA,
        None,
        "from memory",
        note="The original requirement of 20 ft/s2 from 60 mph was read in a letter of 1970; "
        "other figures are recalled with low confidence.",
    ),
    Source(
        "fmvss-106",
        "Federal Motor Vehicle Safety Standard 106: brake hoses",
        _NHTSA,
        None,
        "read second-hand",
        note="Hose classes and burst pressure read in interpretation letters; low-expansion limits "
        "in a test report; regular-expansion limits are from memory.",
    ),
    Source(
        "fmvss-116",
        "Federal Motor Vehicle Safety Standard 116: motor vehicle brake fluids",
        _NHTSA,
        None,
        "read second-hand",
        clause="S5.1 and S6.2",
        note="Minimum boiling points, the wet test's 3.7 % of water, and colours.",
    ),
    Source(
        "fmvss-135",
        "Federal Motor Vehicle Safety Standard 135: light vehicle brake systems",
        _NHTSA,
        None,
        "from memory",
        note="70 m from 100 km/h, the hot and the recovery rules were read in an interpretation "
        "letter; the other figures are recalled.",
    ),
    Source(
        "uk-mot-1",
        "MOT inspection manual: cars and passenger vehicles, section 1, brakes",
        "Driver and Vehicle Standards Agency",
        None,
        "read",
        clause="section 1",
        note="Read in full in a copy whose edition date is not stated.",
    ),
    Source(
        "uk-cu-1986",
        "The Road Vehicles (Construction and Use) Regulations 1986",
        "United Kingdom, SI 1986/1078",
        1986,
        "read second-hand",
        clause="reg. 18",
        note="Service, secondary and parking efficiencies; the statute's own table was not seen.",
    ),
    Source(
        "uk-historic-exemption",
        "Historic (classic) vehicles: MOT exemption criteria",
        "Department for Transport",
        2018,
        "read second-hand",
        note="What counts as a substantial change. Brakes are not a named component.",
    ),
    Source(
        "highway-code-stopping",
        "The Highway Code: typical stopping distances",
        "Department for Transport",
        None,
        "read second-hand",
        note="All six braking distances are one deceleration, 6.56 m/s2.",
    ),
)

_PARTS: Final = (
    Source(
        "sae-j1703",
        "Motor vehicle brake fluid, J1703",
        _SAE,
        None,
        "read second-hand",
        note="The wet boiling point is from memory.",
    ),
    Source(
        "sae-j1704",
        "Motor vehicle brake fluid based upon glycols, glycol ethers and borates, J1704",
        _SAE,
        None,
        "from memory",
        note="That two viscosity types exist was read second-hand.",
    ),
    Source(
        "sae-j1705",
        "Low water tolerant brake fluids, J1705",
        _SAE,
        None,
        "read second-hand",
        clause="Appendix A 2.2.8",
        note="Dissolved air of silicone and glycol fluids; the boiling points are from memory.",
    ),
    Source(
        "iso-4925",
        "Road vehicles: specification of non-petroleum-base brake fluids",
        f"{_ISO}, ISO 4925",
        2020,
        "from memory",
        note="Classes 3 to 7.",
    ),
    Source(
        "sae-j533",
        "Flares for tubing, J533",
        _SAE,
        None,
        "read second-hand",
        note="The 45 degree double flare.",
    ),
    Source(
        "sae-j527",
        "Brazed double wall low carbon steel tubing, J527",
        _SAE,
        None,
        "from memory",
        note="Wall of 0.028 in.",
    ),
    Source(
        "sae-j1047",
        "Tubing, motor vehicle brake system, hydraulic, J1047",
        _SAE,
        None,
        "from memory",
        note="Copper-nickel pipe walls.",
    ),
    Source(
        "iso-4038",
        "Road vehicles: hydraulic braking systems, simple flare pipes, tapped holes, male fittings",
        f"{_ISO}, ISO 4038",
        1996,
        "from memory",
        note="The bubble flare.",
    ),
)

_BOOKS: Final = (
    Source(
        "limpert",
        "Brake Design and Safety",
        f"Limpert; {_SAE}",
        2011,
        "from memory",
        note="Repeated braking and surface temperature. No chapter was read.",
    ),
    Source(
        "day-2014",
        "Braking of Road Vehicles",
        "Day; Butterworth-Heinemann",
        2014,
        "from memory",
    ),
    Source(
        "gillespie",
        "Fundamentals of Vehicle Dynamics",
        f"Gillespie; {_SAE}",
        1992,
        "from memory",
        clause="ch. 3",
        note="Inputs of examples 3.1 and 3.2 recalled, answers computed.",
    ),
    Source(
        "jazar",
        "Vehicle Dynamics: Theory and Application",
        "Jazar; Springer",
        2008,
        "read second-hand",
        clause="p. 48",
        note="Parking on a slope. One printed sign contradicts its own equations; see the notes "
        "where it is used.",
    ),
    Source(
        "shigley",
        "Mechanical Engineering Design",
        "Shigley and others; McGraw-Hill",
        None,
        "read second-hand",
        clause="ch. 16",
        note="Inputs and the pad pressure of problem 16-1 were read; torques are from memory and "
        "reproduced by computation.",
    ),
    Source(
        "data-handbook",
        "Mechanical Engineer's Data Handbook",
        "Carvill; Butterworth-Heinemann",
        1993,
        "read",
        clause="p. 88",
        note="Drum shoe and disc torque. The scan leaves the sense of rotation to be worked out.",
    ),
    Source(
        "halliday-8",
        "Fundamentals of Physics, 8th edition",
        "Halliday, Resnick and Walker; Wiley",
        2007,
        "read second-hand",
        note="Axle loads of a sliding car: the problem was read, the answers computed.",
    ),
    Source(
        "newcomb-1960",
        "Temperatures reached in friction brakes, J. Mech. Eng. Sci. 2(3)",
        "Newcomb; Institution of Mechanical Engineers",
        1960,
        "read second-hand",
        note="Only the abstract was read.",
    ),
    Source(
        "army-706-358",
        "Analysis and Design of Automotive Brake Systems, DARCOM-P 706-358",
        "United States Army",
        1976,
        "from memory",
        note="Public domain; the listing was read, not the text.",
    ),
    Source(
        "army-tm-bench-bleed",
        "Technical manual TM 5-4210-224-14&P, brake master cylinder",
        "United States Army",
        None,
        "read",
        clause="p. 379",
        note="Bench-bleeding strokes of one inch.",
    ),
)

_TESTS: Final = (
    Source(
        "trrl-lr903",
        "Vapour lock in car braking systems, Laboratory Report 903",
        "Keen; Transport and Road Research Laboratory",
        1979,
        "read second-hand",
        note="Only the abstract was read: fluid temperatures of nine cars on a track and one on "
        "the road, vapour lock at 1 and 3 per cent of water, and a sample of 1000 cars.",
    ),
    Source(
        "bedding-maker-a",
        "A lining maker's advice: thirty stops from 30 mph",
        "",
        None,
        "read second-hand",
        note="30 s apart, at 12 ft/s2 or less.",
    ),
    Source(
        "bedding-maker-b",
        "A second lining maker's advice: twenty stops, or twenty slow-downs",
        "",
        None,
        "read second-hand",
        note="From 30 mph to rest, or from 50 to 20 mph, 30 s or more apart.",
    ),
    Source(
        "bedding-magazine",
        "A magazine for cross-country vehicles: two rounds of slow-downs with rests",
        "",
        None,
        "read second-hand",
        note="Ten from 30 to 10 mph 30 s apart, 15 minutes of rest, five from 60 to 15 mph, 30 "
        "minutes of rest.",
    ),
    Source(
        "bleeding-manuals",
        "Bleeding of brakes in makers' workshop manuals",
        "",
        None,
        "read second-hand",
        note="Order from the farthest wheel, at most 1 bar at the reservoir, the servo exhausted "
        "first, slow strokes on the bench.",
    ),
)

_FITTINGS: Final = (
    Source(
        "nut-torque-manual",
        "Workshop manual of an industrial engine: torque of flared pipe nuts",
        "",
        None,
        "read",
        clause="p. 33",
        note="By pipe and thread, to be halved for non-ferrous pipe; flared 37, 45 and inverted. "
        "Not written for brakes.",
    ),
    Source(
        "fittings-manuals",
        "Workshop manuals of two car makers: brake pipe fittings",
        "",
        None,
        "read",
        note="Threads and colours of metric fittings; a female nut goes with a trumpet flare, a "
        "male nut with a convex one.",
    ),
    Source(
        "fittings-vendor",
        "A vendor's notes on brake pipe fittings",
        "",
        None,
        "read",
        note="An M10 x 1 nut starts one turn in a 3/8-24 hole and then strips it.",
    ),
)

BRAKES: Final = _RULES + _PARTS + _BOOKS + _TESTS + _FITTINGS
"""The sources of `bareshell.brakes` and of the formulas it calls."""
