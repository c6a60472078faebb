"""Which fluids and which rubbers would meet in a brake system, before the first part is wetted.

Mixing bases, or filling a base that a seal does not bear, ruins every rubber part of a system:
cups swell, hoses close, and it shows after days. So every part is asked what its seals are and
what it has held before; what nobody knows is said as a question, never taken as harmless.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from bareshell.calc.fluid import FLUID_GRADES, Base
from bareshell.calc.mixing import mixing_rule, seal_rule
from bareshell.errors import Problem
from bareshell.model.brake import BrakeSystem, Line, LineKind, Part, PartKind

__all__ = ["base_of", "meetings"]

_WETTED: Final = frozenset(
    {
        PartKind.MASTER,
        PartKind.REMOTE_SERVO,
        PartKind.VALVE,
        PartKind.CALIPER,
        PartKind.WHEEL_CYLINDER,
    }
)
_BEARS_ANY: Final = "PTFE"


def base_of(grade: str) -> Base | None:
    """Return the base of a grade; None when the grade is not known.

    Examples
    --------
    >>> base_of("DOT 5"), base_of("DOT 5.1"), base_of("unknown")
    ('silicone', 'glycol', None)
    """
    if grade == "mineral":
        return "mineral"
    return FLUID_GRADES[grade].base if grade in FLUID_GRADES else None


def meetings(system: BrakeSystem) -> tuple[Problem, ...]:
    """Say where fluids, and fluids and rubbers, would meet that must not, or may not.

    Parameters
    ----------
    system : BrakeSystem
        As entered.

    Returns
    -------
    tuple of Problem
        What stops the filling first, then what is doubtful, then what is only asked.

    Examples
    --------
    >>> fluid = Part("fluid", "the fluid", PartKind.FLUID, choices={"grade": "DOT 5"})
    >>> used = Part("c", "used caliper", PartKind.CALIPER, choices={"held": "DOT 4"})
    >>> for problem in meetings(BrakeSystem("x", "x", parts=(fluid, used))):
    ...     print(problem.severity, problem.where, sep=": ")
    stops: used caliper
    doubtful: used caliper
    """
    found = [*_fluids(system), *(each for it in _wetted(system) for each in _of_part(system, it))]
    order = {"stops": 0, "doubtful": 1, "note": 2}
    return tuple(sorted(found, key=lambda each: order[each.severity]))


def _fluids(system: BrakeSystem) -> Iterator[Problem]:
    fluids = system.of_kind(PartKind.FLUID)
    if not fluids:
        yield Problem(
            "fluid",
            "nobody has said which fluid goes in",
            "choose it before the first part is wetted: seals and hoses hang on it",
            "doubtful",
        )
    for one in fluids:
        if base_of(_grade(one)) is None:
            yield Problem(
                one.title,
                "its grade is not known",
                "find out before anything is added; colour never proves what is in a car, and "
                "when its history is not known its fluid is not known either",
                "doubtful",
            )
    for place, one in enumerate(fluids):
        for other in fluids[place + 1 :]:
            yield from _two(
                one.title, _grade(one), f"{other.title} ({_grade(other)})", _grade(other)
            )


def _two(where: str, grade: str, what: str, other_grade: str) -> Iterator[Problem]:
    """Two fluids that would meet."""
    base, other = base_of(grade), base_of(other_grade)
    if base is None or other is None:
        return
    rule = mixing_rule(base, other)
    if not rule.mixes:
        yield Problem(
            where,
            f"{what} would meet {grade}. {rule.because}",
            "renew every seal and hose it has touched, clean the metal dry, and keep to one base",
        )
    elif grade != other_grade:
        yield Problem(where, f"{what} would meet {grade}. {rule.because}", "", "note")


def _wetted(system: BrakeSystem) -> Iterator[Part | Line]:
    yield from (part for part in system.parts if part.kind in _WETTED)
    yield from (line for line in system.lines if line.kind is LineKind.HOSE)
    yield from system.of_kind(PartKind.RESERVOIR)


def _of_part(system: BrakeSystem, it: Part | Line) -> Iterator[Problem]:
    grade = next((_grade(each) for each in system.of_kind(PartKind.FLUID)), "unknown")
    base = base_of(grade)
    yield from _held(it, grade)
    if it.kind is PartKind.RESERVOIR:
        return
    is_hose = it.kind is LineKind.HOSE
    rubber = it.choices.get("lining" if is_hose else "seals", "unknown")
    named = "lining" if is_hose else "seals"
    if rubber == _BEARS_ANY or base is None:
        return
    if rubber == "unknown":
        why = f"; mineral fluid ruins the {named} made for glycol" if base == "mineral" else ""
        yield Problem(
            it.title,
            f"nobody has said what its {named} {'is' if is_hose else 'are'} made of{why}",
            f"ask the maker of the {named}, or renew with what is made for {grade}",
            "doubtful" if base != "glycol" else "note",
        )
        return
    rule = seal_rule(base, rubber)
    if rule.suits == "attacks":
        yield Problem(
            it.title,
            f"{grade} attacks its {named} of {rubber}. {rule.because}",
            f"fit {named} made for {grade}, or choose the fluid that they are made for",
        )
    elif rule.suits == "ask the maker":
        yield Problem(it.title, f"{grade} on {named} of {rubber}. {rule.because}", "", "doubtful")


def _held(it: Part | Line, grade: str) -> Iterator[Problem]:
    """What a used part held before meets what goes in now."""
    held = it.choices.get("held", "")
    if held == "unknown":
        yield Problem(
            it.title,
            "nobody knows what fluid it held before",
            "renew its seals and clean its metal dry before it is wetted again",
            "doubtful",
        )
    elif held and held != "nothing":
        yield from _two(it.title, grade, f"the {held} that it held before", held)


def _grade(part: Part) -> str:
    return part.choices.get("grade", "unknown")
