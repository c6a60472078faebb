"""The sections of a build file, as data: what each holds and which change sets it.

They stand in the order in which they are written, and in which their changes land: what is
named comes before what names it.
"""

from bareshell.io.build_file.sections.base import Section
from bareshell.io.build_file.sections.brakes import BRAKE_SECTIONS
from bareshell.io.build_file.sections.car import CAR_SECTIONS
from bareshell.io.build_file.sections.job import JOB
from bareshell.io.build_file.sections.part import PART_SECTIONS
from bareshell.io.build_file.sections.proof import PROOF_SECTIONS
from bareshell.io.build_file.sections.record import RECORD_SECTIONS

__all__ = ["BY_NAME", "SECTIONS", "Section"]

SECTIONS: tuple[Section, ...] = (
    *CAR_SECTIONS,
    JOB,
    *PART_SECTIONS,
    *PROOF_SECTIONS,
    *BRAKE_SECTIONS,
    *RECORD_SECTIONS,
)
"""Every section, in order."""

BY_NAME = {section.name: section for section in SECTIONS}
"""Every section by the name in its header."""
