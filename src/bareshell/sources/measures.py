"""Sources of the units and the screw threads."""

from __future__ import annotations

from typing import Final

from bareshell.sources.record import Source

__all__ = ["MEASURES"]

_THREADS_READ = (
    "Sizes and pitches were compared with tables reproduced elsewhere; the standard was not seen."
)

MEASURES: Final = (
    Source(
        "bipm-si-9",
        "The International System of Units (SI Brochure), 9th edition",
        "Bureau International des Poids et Mesures",
        2019,
        "from memory",
        note="The litre, bar, degree Celsius and standard gravity, 9.80665 m/s2 exactly.",
    ),
    Source(
        "nist-sp-811",
        "Guide for the Use of the International System of Units, Special Publication 811",
        "National Institute of Standards and Technology",
        2008,
        "from memory",
        clause="Appendix B",
        note="Conversion factors to seven figures; conventional columns of mercury and water.",
    ),
    Source(
        "nist-hb44-c",
        "Handbook 44, Appendix C: General Tables of Units of Measurement",
        "National Institute of Standards and Technology",
        None,
        "from memory",
        note="The US gallon of 231 cubic inches and its parts.",
    ),
    Source(
        "us-uk-yard-pound-1959",
        "Refinement of values for the yard and the pound",
        "Federal Register 24 FR 5348; the same agreed among six countries",
        1959,
        "from memory",
        note="The inch is 25.4 mm and the pound 0.45359237 kg, exactly.",
    ),
    Source(
        "uk-units-1995",
        "The Units of Measurement Regulations 1995",
        "United Kingdom, SI 1995/1804",
        1995,
        "from memory",
        note="The gallon is 4.54609 litres exactly.",
    ),
    Source(
        "iso-261",
        "ISO general purpose metric screw threads: general plan",
        "International Organization for Standardization, ISO 261",
        1998,
        "read second-hand",
        note=_THREADS_READ,
    ),
    Source(
        "asme-b1-1",
        "Unified inch screw threads (UN, UNR and UNJ thread form), B1.1",
        "American Society of Mechanical Engineers",
        2019,
        "read second-hand",
        note=_THREADS_READ,
    ),
    Source(
        "bs-84",
        "Parallel screw threads of Whitworth form, BS 84",
        "British Standards Institution",
        2007,
        "read second-hand",
        note=_THREADS_READ,
    ),
    Source(
        "bs-93",
        "British Association (BA) screw threads, BS 93",
        "British Standards Institution",
        2008,
        "read second-hand",
        note="The rule for pitch and diameter, and the flank angle of 47.5 degrees.",
    ),
    Source(
        "bs-811",
        "Cycle threads, BS 811",
        "British Standards Institution",
        1950,
        "read second-hand",
        note=_THREADS_READ,
    ),
    Source(
        "iso-228-1",
        "Pipe threads where pressure-tight joints are not made on the threads, part 1",
        "International Organization for Standardization, ISO 228-1",
        2000,
        "read second-hand",
        note=_THREADS_READ,
    ),
    Source(
        "iso-7-1",
        "Pipe threads where pressure-tight joints are made on the threads, part 1",
        "International Organization for Standardization, ISO 7-1",
        1994,
        "read second-hand",
        note=_THREADS_READ,
    ),
    Source(
        "asme-b1-20-1",
        "Pipe threads, general purpose (inch), B1.20.1",
        "American Society of Mechanical Engineers",
        2013,
        "read second-hand",
        note=_THREADS_READ,
    ),
)
"""The sources of `bareshell.units`."""
