"""What to do around the screws, in words: bench, preparing, pumping, afterwards, what can hurt.

Each instruction carries the mark of how far it was read. The car's and the kit's own makers rule.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from bareshell.model.brake import BrakeSystem, PartKind
from bareshell.model.job import Caution
from bareshell.model.trust import COMMON_PRACTICE
from bareshell.sources import Mark

__all__ = ["AFTERWARDS", "CAUTIONS", "Instruction", "bench", "preparing", "ways_of_pumping"]


@dataclass(frozen=True, slots=True)
class Instruction:
    """One thing to do, with where it is from.

    Parameters
    ----------
    words : str
        What to do.
    mark : str
        How far it was read.
    source_id : str
        The source; empty for common practice.
    """

    words: str
    mark: Mark = "common practice, no source"
    source_id: str = ""


_READ: Final[Mark] = "read"
_SECOND: Final[Mark] = "read second-hand"
_MANUALS: Final = "bleeding-manuals"


def bench(system: BrakeSystem) -> tuple[Instruction, ...]:
    """Return how the master cylinders are bled on the bench; nothing when there is none.

    Parameters
    ----------
    system : BrakeSystem
        As entered.
    """
    masters = system.of_kind(PartKind.MASTER)
    if not masters:
        return ()
    named = " and ".join(part.title for part in masters)
    return (
        Instruction(
            f"{named[0].upper()}{named[1:]} in a vice with soft jaws, reservoir filled, clear "
            "tubes from the ports back into it."
        ),
        Instruction(
            "Slow strokes of 25 mm: front end slightly down, then slightly up, then level.",
            _READ,
            "army-tm-bench-bleed",
        ),
        Instruction(
            "Eight to ten of them, until no bubble comes; plug the ports before it is moved.",
            _SECOND,
            _MANUALS,
        ),
        Instruction("In the week it is fitted and filled, not months before."),
    )


def preparing(system: BrakeSystem) -> tuple[Instruction, ...]:
    """Return what comes before the first screw is opened.

    Parameters
    ----------
    system : BrakeSystem
        As entered.
    """
    found = [
        Instruction(
            "Fluid chosen and every seal looked up before the first part is wetted; the bottle "
            "newly opened, its date written down: the fluid's age runs from the first fill."
        ),
        Instruction("Shoes adjusted and pads seated, the parking brake's cable slack."),
        Instruction("Every bleed screw tried for freedom, and cleaned around, before any is open."),
    ]
    if system.of_kind(PartKind.SERVO, PartKind.REMOTE_SERVO):
        found.append(
            Instruction(
                "Engine off: empty the servo with some thirty presses of the pedal, until it is "
                "hard.",
                _SECOND,
                _MANUALS,
            )
        )
    if any(part.choices.get("form") == "warning shuttle" for part in system.parts):
        found.append(
            Instruction(
                "Bleeding can trip the warning shuttle: hold it in the middle with its own tool or "
                "pin where it has one, and press gently. If it has tripped, its lamp stays on."
            )
        )
    if any(part.choices.get("form") == "deceleration-sensing" for part in system.parts):
        found.append(
            Instruction(
                "Car level: a valve with a ball shuts when the nose is low, and the rear then "
                "takes no fluid."
            )
        )
    return tuple(found)


def ways_of_pumping() -> tuple[tuple[Instruction, ...], tuple[Instruction, ...]]:
    """Return how fluid is pushed: alone with a pressure kit, and with a helper."""
    never_low = Instruction(
        "The reservoir never below its low mark: air that is drawn in there goes everywhere.",
        _SECOND,
        _MANUALS,
    )
    tube = Instruction(
        "Ring spanner on first, clear tube over it, its end beneath fluid in a bottle that stands "
        "higher than the screw."
    )
    alone = (
        Instruction(
            "Pressure kit at the reservoir, at 1 bar at most; try it dry for leaks first.",
            _SECOND,
            _MANUALS,
        ),
        tube,
        Instruction("Open half a turn until the amount is drawn and no bubble comes, then close."),
        never_low,
    )
    with_helper = (
        tube,
        Instruction(
            "Helper presses slowly and says 'down'; open, let it run, close before the pedal comes "
            "up; a pause between strokes."
        ),
        Instruction(
            "Never to the floor: on an older cylinder the seals would run over bore that they "
            "never wiped. A block beneath the pedal helps."
        ),
        never_low,
    )
    return alone, with_helper


AFTERWARDS: Final = (
    Instruction("Every screw torqued and capped, wiped dry, and looked at under a firm push."),
    Instruction(
        "A warning shuttle that has tripped: open a screw of the circuit that did not move it, "
        "press gently until the lamp goes out, close it; then the air of that circuit is to be "
        "looked at again."
    ),
    Instruction(
        "What was drawn is thrown away where old fluid is taken: never back into the car, never "
        "into a drain."
    ),
    Instruction(
        "Hold it overnight, bleed again, then measure the pedal at two forces: that is what shows "
        "whether air is left, not how the pedal feels."
    ),
)

CAUTIONS: Final = (
    Caution(
        "Skin and paint",
        "Brake fluid lifts fresh paint in minutes: covers on, a wet rag to hand, gloves on.",
    ),
    Caution("Eyes", "Glasses on: fluid spurts from a screw. Water to hand to rinse."),
    Caution(
        "Pressure",
        "A pressure kit at its own low figure, never above 1 bar; let it down before its cap comes "
        "off.",
    ),
    Caution(
        "Crush",
        "Wheels off means stands under strong points; nobody beneath while the pedal is pressed "
        "hard.",
    ),
    Caution(
        "Hands and lives",
        "A plan that was followed proves nothing. Dry joints under pressure and a measured pedal "
        f"do, before the car moves ({COMMON_PRACTICE}).",
    ),
)
