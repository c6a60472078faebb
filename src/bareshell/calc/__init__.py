"""The published formulas of brakes and fixings, one function each, on SI floats or arrays of them.

Import the module and call by its name, so that the subject stays in sight:
``disc.disc_torque(...)``. From foot to pressure: `pedal`, `servo`, `master`, `tandem`, `valves`.
From pressure to the road: `disc`, `shoe`, `long_shoe`, `drum`, `tyre`. The car: `loads`, `balance`,
`stopping`, `parking`, `slope`. The pedal's travel: `volume`, `hose`, `air`. Heat and fluid: `heat`,
`slab`, `cooling`, `soak`, `fluid`, `mixing`. What holds it together: `threads`, `thread_pairs`,
`thread_crossing`, `strength`, `nut_factors`, `fixings`.

Each docstring says what it is, where it was published and how far that was read, where it holds,
what it leaves out and what it was checked against. `glossary` has each argument's meaning, unit and
rule; a value that breaks its rule, or is not a number, is refused with `BadInput`, alone or in an
array. Floats in give a float out, arrays an array. No formula here proves that a car stops.
"""

from __future__ import annotations

from bareshell.calc.glossary import TERMS, Term
from bareshell.calc.values import Array, Number, Value

__all__ = ["TERMS", "Array", "Number", "Term", "Value"]
