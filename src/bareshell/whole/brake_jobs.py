"""Which job of a build makes which piece of the brakes, and in which job each thing is shown.

The starter network's own short names are looked for first; in a network of the owner's own, the
titles of its brake jobs are read. What is not found stays not found, and nothing is made up.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Final, Literal

from bareshell.model import Build
from bareshell.model.brake import BrakeSystem, Line, LineKind, Part, PartKind

__all__ = ["BrakeJobs", "Role", "Where", "where_is_line", "where_is_part"]

Role = Literal[
    "choose fluid",
    "bay pipes",
    "long pipe",
    "rear pipes",
    "valve",
    "warning switch",
    "front hoses",
    "rear hoses",
    "front brakes",
    "rear brakes",
    "cylinder",
    "bench bleed",
    "pipe hold",
    "fill",
    "first bleed",
    "overnight hold",
    "second bleed",
    "pedal test",
    "parking",
    "first start",
    "walking pace",
    "roller test",
    "road test",
    "bedding",
]
"""What a job does for the brakes."""

Where = Literal["bay", "long", "rear"]
"""Where on the car a pipe or piece lies, as the work is divided."""

_NETWORK: Final[Mapping[Role, str]] = {
    "bay pipes": "pipe-bay",
    "long pipe": "pipe-under",
    "rear pipes": "pipe-rear",
    "valve": "valve-fit",
    "front hoses": "front-hoses",
    "rear hoses": "rear-hoses",
    "front brakes": "caliper-fit",
    "rear brakes": "rear-brakes",
    "cylinder": "mc-fit",
    "bench bleed": "mc-bench",
    "pipe hold": "lines-hold",
    "fill": "brake-fill",
    "first bleed": "bleed-1",
    "overnight hold": "hold-night",
    "second bleed": "bleed-2",
    "pedal test": "pedal-measure",
    "parking": "hb-set",
    "first start": "first-start",
    "walking pace": "yard-move",
    "roller test": "test-book",
    "road test": "balance-road",
    "choose fluid": "fluid-choose",
    "bedding": "bed-in",
}
"""The jobs of the starter network by what they do."""

# What to look for in the titles of another network's jobs: every pattern must be found.
_WORDS: Final[Mapping[Role, tuple[str, ...]]] = {
    "bay pipes": (r"\bpipes?\b", r"\b(bay|front)\b"),
    "long pipe": (r"\bpipes?\b", r"\b(long|under|sill|rear)\b"),
    "rear pipes": (r"\bpipes?\b", r"\b(rear|axle)\b"),
    "valve": (r"\bvalves?\b",),
    "warning switch": (r"\b(pressure-difference|warning|shuttle)\b",),
    "front hoses": (r"\bhoses?\b", r"\bfront\b"),
    "rear hoses": (r"\bhoses?\b", r"\brear\b"),
    "front brakes": (r"\b(calipers?|front (brakes?|drums?|discs?))\b",),
    "rear brakes": (r"\b(rear (brakes?|drums?|shoes|calipers?|discs?)|wheel cylinders?)\b",),
    "cylinder": (r"\bmaster cylinder\b", r"\b(fit|mount|bolt)"),
    "bench bleed": (r"\bbench\b", r"\b(bleed|cylinder)"),
    "pipe hold": (r"\b(hold|pressure)\b", r"\bpipes?\b"),
    "fill": (r"\bfill\b",),
    "first bleed": (r"\bbleed\b",),
    "overnight hold": (r"\b(hold|prop|pressure)\b",),
    "second bleed": (r"\bbleed\b", r"\b(second|again)\b"),
    "pedal test": (r"\bpedal\b", r"\b(measure|test|travel)\b"),
    "parking": (r"\b(handbrake|parking brake)\b", r"\b(set|adjust)\b"),
    "first start": (r"\bstart\b",),
    "walking pace": (r"\b(walking|yard|private)\b",),
    "roller test": (r"\b(roller|inspection|test)\b",),
    "road test": (r"\b(road|balance)\b",),
    "choose fluid": (r"\bfluid\b", r"\b(choose|settle)\b"),
    "bedding": (r"\bbed\b", r"\blinings\b"),
}

# What else may stand in, when a network does not divide the work so finely.
_ELSE: Final[Mapping[Role, tuple[Role, ...]]] = {
    "long pipe": ("rear pipes", "bay pipes"),
    "rear pipes": ("long pipe", "bay pipes"),
    "bay pipes": ("long pipe", "rear pipes"),
    "valve": ("long pipe", "rear pipes"),
    "front hoses": ("rear hoses",),
    "rear hoses": ("front hoses",),
    "second bleed": ("first bleed",),
}
_ANY_WORD: Final[Mapping[Role, str]] = {
    "bay pipes": r"\bpipes?\b",
    "long pipe": r"\bpipes?\b",
    "rear pipes": r"\bpipes?\b",
    "front hoses": r"\bhoses?\b",
    "rear hoses": r"\bhoses?\b",
}
_OF_THE_OWNER: Final = frozenset({"warning switch"})
"""What the starter network has no job for: one that the owner added is read by its title."""

_BEYOND_BRAKES: Final = frozenset({"first start", "walking pace", "roller test", "road test"})


@dataclass(frozen=True, slots=True)
class BrakeJobs:
    """The jobs of a build by what they do for the brakes.

    Parameters
    ----------
    build : Build
        The build.

    Examples
    --------
    >>> BrakeJobs(Build()).find("long pipe") is None
    True
    """

    build: Build
    _found: dict[Role, str | None] = field(default_factory=dict, compare=False)

    def find(self, role: Role) -> str | None:
        """Return the job that does this; None when the build has none.

        Parameters
        ----------
        role : Role
            What it does.
        """
        if role not in self._found:
            self._found[role] = self._look(role)
        return self._found[role]

    def every(self, *roles: Role) -> tuple[str, ...]:
        """Return the jobs that do any of these, each once."""
        found = (self.find(role) for role in roles)
        return tuple(dict.fromkeys(job for job in found if job is not None))

    def _look(self, role: Role) -> str | None:
        if role in _OF_THE_OWNER:
            return self._by_title(role)
        own = _NETWORK[role]
        if own in self.build.jobs:
            return own
        if any(job in self.build.jobs for job in _NETWORK.values()):
            # The starter network, and this job was taken out of it.
            return next(
                (_NETWORK[r] for r in _ELSE.get(role, ()) if _NETWORK[r] in self.build.jobs), None
            )
        return self._by_title(role)

    def _by_title(self, role: Role) -> str | None:
        titles = {
            key: record.job.title.casefold()
            for key, record in self.build.jobs.items()
            if record.job.system == "brakes" or role in _BEYOND_BRAKES
        }
        wanted = [_WORDS[role], *(_WORDS[other] for other in _ELSE.get(role, ()))]
        wanted += [(_ANY_WORD[role],)] if role in _ANY_WORD else []
        for patterns in wanted:
            for key, title in titles.items():
                if all(re.search(pattern, title) for pattern in patterns):
                    return key
        return None

    # --- pieces --------------------------------------------------------------------------------

    def of_line(self, system: BrakeSystem, line: Line) -> str | None:
        """Return the job that fits a line."""
        where = where_is_line(system, line)
        if line.kind is LineKind.HOSE:
            return self.find("rear hoses" if where == "rear" else "front hoses")
        return self.find(_PIPES[where])

    def of_part(self, system: BrakeSystem, part: Part) -> str | None:
        """Return the job that fits a part."""
        if part.wheel is not None:
            return self.find("front brakes" if part.wheel.is_front else "rear brakes")
        if part.choices.get("form") == "warning shuttle":
            return self.find("warning switch") or self.find("bay pipes")
        if part.kind is PartKind.VALVE:
            return self.find("valve" if where_is_part(system, part) == "rear" else "bay pipes")
        if part.kind in (PartKind.TEE, PartKind.STUB):
            return self.find(_PIPES[where_is_part(system, part)])
        return self.find("cylinder")


_PIPES: Final[Mapping[Where, Role]] = {
    "bay": "bay pipes",
    "long": "long pipe",
    "rear": "rear pipes",
}

_BAY_SHARE, _REAR_SHARE = 0.45, 0.6
"""Of the way from the front to the rear axle: up to here is the bay, and from here on the rear."""


def where_is_line(system: BrakeSystem, line: Line) -> Where:
    """Say where a line lies, as the work on a car is divided.

    Parameters
    ----------
    system : BrakeSystem
        The system.
    line : Line
        One of its lines.
    """
    shares = [
        share
        for end in line.ends
        for part in system.parts
        if part.id == end.part and (share := _share(system, part)) is not None
    ]
    if not shares:
        return "rear" if "rear" in f"{line.id} {line.title}".casefold() else "bay"
    if min(shares) < _BAY_SHARE and max(shares) > _REAR_SHARE:
        return "long"
    return "rear" if min(shares) >= _BAY_SHARE else "bay"


def where_is_part(system: BrakeSystem, part: Part) -> Where:
    """Say where a part sits: in the bay or at the rear.

    Parameters
    ----------
    system : BrakeSystem
        The system.
    part : Part
        One of its parts.
    """
    share = _share(system, part)
    if share is None:
        return "rear" if "rear" in f"{part.id} {part.title}".casefold() else "bay"
    return "rear" if share >= _BAY_SHARE else "bay"


def _share(system: BrakeSystem, part: Part) -> float | None:
    """Return how far back a part is, as a share of the wheelbase."""
    if part.wheel is not None:
        return 0.0 if part.wheel.is_front else 1.0
    if part.at_m is None:
        return None
    front, rear = _axle(system, front=True), _axle(system, front=False)
    if front is None or rear is None or rear <= front:
        return None
    return (part.at_m[0] - front) / (rear - front)


def _axle(system: BrakeSystem, *, front: bool) -> float | None:
    places = [
        part.at_m[0]
        for part in system.parts
        if part.at_m is not None and part.wheel is not None and part.wheel.is_front is front
    ]
    return sum(places) / len(places) if places else None
