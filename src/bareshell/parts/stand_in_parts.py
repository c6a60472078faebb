"""What a stand-in check is made of: its lines, and a fixing as the sums see it."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import Any, Final

from bareshell.calc import threads
from bareshell.calc.threads import FORM_OF
from bareshell.model.spec import BoltSpec, PinSpec, Spec
from bareshell.parts.fit import FitLine
from bareshell.parts.materials import Metal, metal_of
from bareshell.sources import source
from bareshell.units import known_thread
from bareshell.units.threads import Thread

__all__ = [
    "Differing",
    "Enough",
    "Fixing",
    "StandInLine",
    "fixing_of",
    "line",
    "megapascals",
    "millimetres",
]

COMMON: Final = "trade-practice"


class Enough(StrEnum):
    """How one check came out; the worst of them decides."""

    FOR_GOOD = "enough"
    FOR_NOW = "enough for now"
    NOT_KNOWN = "not known"
    NOT_ENOUGH = "not enough"
    MIND = "mind"


@dataclass(frozen=True, slots=True)
class StandInLine:
    """One check of a stand-in.

    Parameters
    ----------
    check : str
        What was looked at: ``shear``, ``bearing``, ``bending``, ``grip`` ...
    state : Enough
        How it came out.
    words : str
        In a clause.
    arithmetic : str
        The sum with its figures.
    source : str
        Where the rule is from, and how far it was read.
    """

    check: str
    state: Enough
    words: str
    arithmetic: str = ""
    source: str = ""


def line(
    check: str, state: Enough, words: str, arithmetic: str = "", source_id: str = COMMON
) -> StandInLine:
    """Make a line with its source cited.

    Examples
    --------
    >>> line("lock", Enough.MIND, "wire it").source
    'Common practice of the restoration trade (common practice, no source)'
    """
    return StandInLine(check, state, words, arithmetic, source(source_id).cite())


@dataclass(frozen=True, slots=True)
class Differing:
    """One field in which a part differs from the one that is wanted.

    Parameters
    ----------
    wanted, offered : Spec
        The right one, and what lies here.
    line : FitLine
        What the fit check said of the field.
    """

    wanted: Spec
    offered: Spec
    line: FitLine

    @property
    def wants(self) -> Any:  # noqa: ANN401 - any field of any kind
        """What the field is to be."""
        return getattr(self.wanted, self.line.field)

    @property
    def has(self) -> Any:  # noqa: ANN401 - any field of any kind
        """What it is."""
        return getattr(self.offered, self.line.field)

    def says(
        self, state: Enough, words: str, arithmetic: str = "", source_id: str = COMMON
    ) -> StandInLine:
        """Make the line of this field."""
        return line(self.line.label, state, words, arithmetic, source_id)


def millimetres(length_m: float) -> str:
    """Say a length in millimetres.

    Examples
    --------
    >>> millimetres(0.00794)
    '7.94 mm'
    """
    return f"{length_m * 1000:.4g} mm"


def megapascals(stress_pa: float) -> str:
    """Say a stress in megapascals.

    Examples
    --------
    >>> megapascals(119.4e6)
    '119 MPa'
    """
    return f"{stress_pa / 1e6:.0f} MPa"


@dataclass(frozen=True, slots=True)
class Fixing:
    """A bolt or pin as the sums see it.

    Parameters
    ----------
    kind : str
        ``bolt`` or ``pin``.
    diameter_m : float or None
        Of the plain part; of a bolt without one, over its thread. [m]
    thread : Thread or None
        Of a bolt.
    plain_m : float or None
        From under the head to where the thread begins, or to the split-pin hole. [m]
    length_m : float or None
        From under the head to the end. [m]
    metal : Metal or None
        What it can be trusted with; None when nothing is promised.
    said : str
        Its mark or metal as it was said, for words.
    lock : str
        What keeps it in; empty when nobody said.
    nut : bool
        Whether it is a nut, which no load crosses.
    head : str
        Its head; empty when nobody said.
    split_hole_m : float or None
        Of a pin: the hole for its split pin. [m]
    """

    kind: str
    diameter_m: float | None
    thread: Thread | None = None
    plain_m: float | None = None
    length_m: float | None = None
    metal: Metal | None = None
    said: str = ""
    lock: str = ""
    nut: bool = False
    head: str = ""
    split_hole_m: float | None = None

    @property
    def root_m(self) -> float | None:
        """Diameter at the bottom of its thread; of a pin, the pin itself. [m]."""
        if self.thread is None or self.thread.tapered:
            return self.diameter_m if self.kind == "pin" else None
        form = FORM_OF[self.thread.system]
        return threads.root_diameter(self.thread.diameter_m, self.thread.pitch_m, form)

    @property
    def stress_area_m2(self) -> float | None:
        """Stress area of its thread. [m2]."""
        if self.thread is None or self.thread.tapered:
            return None
        form = FORM_OF[self.thread.system]
        return threads.stress_area(self.thread.diameter_m, self.thread.pitch_m, form)

    @property
    def called(self) -> str:
        """What it is called in a sentence."""
        size = str(self.thread) if self.thread else ""
        if not size and self.diameter_m is not None:
            size = millimetres(self.diameter_m)
        return f"{self.kind} {size}".strip()


def fixing_of(spec: Spec) -> Fixing | None:
    """See a specification as a fixing; None when it is neither bolt nor pin.

    Examples
    --------
    >>> bolt = fixing_of(BoltSpec(thread="M8", length_m=0.04, grip_length_m=0.022, grade="8.8"))
    >>> round(bolt.root_m * 1000, 2), bolt.metal.name
    (6.47, '8.8')
    """
    if isinstance(spec, PinSpec):
        size = spec.diameter_m
        metal = metal_of(spec.material, size or 0.008)
        return Fixing(
            "pin",
            size,
            plain_m=spec.grip_to_hole_m,
            metal=metal,
            said=spec.material or "",
            head=(spec.head or "").casefold(),
            split_hole_m=spec.hole_m,
        )
    if not isinstance(spec, BoltSpec):
        return None
    thread = known_thread(spec.thread) if spec.thread else None
    size = spec.diameter_m or (thread.diameter_m if thread else None)
    what = (spec.what or "").casefold()
    plain = spec.grip_length_m
    if plain is None and ("screw" in what or "stud" in what):
        plain = 0.0  # threaded to the head
    return Fixing(
        "bolt",
        size,
        thread,
        plain,
        spec.length_m,
        metal_of(spec.grade, size or 0.008),
        spec.grade or "",
        (spec.lock or "").casefold(),
        what.startswith("nut"),
        (spec.head or "").casefold(),
    )
