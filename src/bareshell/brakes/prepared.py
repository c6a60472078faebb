"""A system and its figures, looked over once, ready for any state and load."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, TypeVar

from bareshell.brakes.answer import Load
from bareshell.brakes.bench import Bench
from bareshell.brakes.elements import Elements
from bareshell.brakes.figured import Figured
from bareshell.brakes.figures import Figures, Missing
from bareshell.brakes.hydraulics import TOP_FORCE_N, Hydraulics
from bareshell.brakes.needs import needs_of, word_needs_of
from bareshell.brakes.state import WHOLE, State
from bareshell.brakes.topology import Topology, layout_of
from bareshell.calc.values import Value
from bareshell.errors import BadInput
from bareshell.model.brake import BrakeSystem, field_of

__all__ = ["Prepared", "prepare"]

T = TypeVar("T")


class Prepared:
    """A system with figures: what stands in the way of what, and benches to push it on.

    Parameters
    ----------
    system : BrakeSystem
        As entered.
    figures : mapping of str to float or array
        By path; those that are not there are missing.
    """

    def __init__(self, system: BrakeSystem, figures: Figures) -> None:
        self.system = system
        self.figures = figures
        self.layout = layout_of(system)
        self.figured = Figured(figures)
        self.elements = Elements(system, self.figured)
        self.missing = tuple(_missing(system, figures))
        self._benches: dict[tuple[object, ...], Bench] = {}
        self._hydraulics: dict[tuple[object, ...], Hydraulics] = {}
        self._kept: dict[tuple[object, ...], Any] = {}

    def kept(self, key: tuple[object, ...], make: Callable[[], T]) -> T:
        """Return what was worked out for a key before, or work it out and keep it."""
        if key not in self._kept:
            self._kept[key] = make()
        found: T = self._kept[key]
        return found

    def missing_for(self, *purposes: str) -> tuple[Missing, ...]:
        """What stands in the way of some purposes."""
        return tuple(each for each in self.missing if set(purposes) & set(each.purposes))

    def ask(self, *purposes: str) -> None:
        """Refuse with all that some purposes still need.

        Raises
        ------
        BadInput
            Naming each figure that is missing and how to find it.
        """
        missing = self.missing_for(*purposes)
        if missing:
            raise BadInput.together([each.problem() for each in missing])

    def topology(self, state: State = WHOLE) -> Topology:
        """The graph edited by a state."""
        return self.layout.under(state)

    def bench(
        self,
        load: Load,
        state: State = WHOLE,
        *,
        top_force_n: float = TOP_FORCE_N,
        friction_of_road: Value | None = None,
    ) -> Bench:
        """Set the system up in a state; states with the same effect share one bench.

        Raises
        ------
        BadInput
            When figures that any push needs are missing.
        """
        import numpy as np

        topology = self.topology(state)
        effect = topology.effect()
        felt = None if friction_of_road is None else np.asarray(friction_of_road).tobytes()
        key = (load, top_force_n, felt, effect)
        if key not in self._benches:
            self.ask("pressure", "torque", load)
            self._benches[key] = Bench(
                self._hydraulics_of(topology, top_force_n, effect),
                self.elements,
                load,
                friction_of_road=friction_of_road,
            )
        return self._benches[key]

    def _hydraulics_of(
        self, topology: Topology, top_force_n: float, effect: tuple[object, ...]
    ) -> Hydraulics:
        """Set up what does not depend on the load; unless a valve senses how the car slows."""
        if topology.troubles:
            raise BadInput.together(topology.troubles)
        key = (top_force_n, effect)
        if key not in self._hydraulics or topology.senses:
            self._hydraulics[key] = Hydraulics(
                topology,
                self.elements,
                travel=not self.missing_for("travel"),
                top_force_n=top_force_n,
            )
        return self._hydraulics[key]


def prepare(system: BrakeSystem, figures: Figures) -> Prepared:
    """Look a system and its figures over once.

    Parameters
    ----------
    system : BrakeSystem
        As entered.
    figures : mapping of str to float or array
        From `bareshell.brakes.figures.gather`, or with samples in place of some.

    Returns
    -------
    Prepared
        Ready for `bareshell.brakes.solve.answered` and the rest.
    """
    return Prepared(system, figures)


def _missing(system: BrakeSystem, figures: Figures) -> list[Missing]:
    found = [
        Missing(each.path, each.words, each.question, each.purposes)
        for each in word_needs_of(system)
    ]
    for need in needs_of(system):
        if need.path not in figures:
            words = f"{field_of(need.owner.kind, need.name).words} ({need.owner.title})"
            found.append(Missing(need.path, words, need.how, need.purposes))
    return found
