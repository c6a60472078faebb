"""What is odd about brakes as they were entered, with what would put each thing right.

Nothing here keeps an entry from being kept: a circuit is entered in pieces, and half a circuit is
true as far as it goes. *Stops* says that answers which hang on it would be wrong; *doubtful* asks;
a *note* says what to know. That nothing is found says that the entry hangs together, and nothing
about the car.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from bareshell.brakes.check_figures import figure_findings
from bareshell.brakes.check_fluid import fluid_findings
from bareshell.brakes.check_joints import joint_findings
from bareshell.brakes.check_layout import layout_findings
from bareshell.brakes.finding import Finding
from bareshell.model.brake import BrakeSystem
from bareshell.units import Reading

__all__ = ["Finding", "check_entry"]

_ORDER = {"stops": 0, "doubtful": 1, "note": 2}


def check_entry(
    system: BrakeSystem, typed: Mapping[str, Reading] | None = None
) -> tuple[Finding, ...]:
    """Look a system over as it was entered.

    Parameters
    ----------
    system : BrakeSystem
        As entered; it may be half finished.
    typed : mapping of str to Reading, optional
        How figures were typed, by ``part.figure_name``, so that a question about a unit can name
        the one that was written.

    Returns
    -------
    tuple of Finding
        What stops answers first, then what is doubtful, then notes.

    Examples
    --------
    >>> from bareshell.brakes.starters import starter
    >>> found = check_entry(starter("single line"))
    >>> [each.problem.severity for each in found if each.rule == "no failure split"]
    ['doubtful']
    """
    found = list(_all(system, typed or {}))
    found.sort(key=lambda each: _ORDER[each.problem.severity])
    return tuple(found)


def _all(system: BrakeSystem, typed: Mapping[str, Reading]) -> Iterator[Finding]:
    yield from layout_findings(system)
    yield from joint_findings(system)
    yield from fluid_findings(system)
    yield from figure_findings(system, typed)
