"""What the formulas reckon with: a float or an array, and the few operations that take either.

A formula written with these works for one car and for ten thousand samples of it alike. Numbers
alone never wake NumPy, so a quick answer stays quick.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING, Any, Final, TypeAlias, TypeVar, cast

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

__all__ = [
    "Array",
    "Number",
    "Value",
    "choose",
    "least",
    "lowest",
    "most",
    "quotient",
    "read_off",
    "shaped",
]

Array: TypeAlias = "NDArray[np.float64]"
"""Many values of one quantity: samples, pressures, single failures."""

Value: TypeAlias = "float | NDArray[np.float64]"
"""One value or many: declare what may be either as this, and formulas take it beside floats."""

Number = TypeVar("Number", float, "NDArray[np.float64]", "float | NDArray[np.float64]")
"""Floats in, a float out; arrays in, an array out; a mixture must be declared as `Value`."""

Truth: TypeAlias = "bool | NDArray[np.bool_]"

_ALONE: Final[dict[str, Callable[..., float]]] = {
    "sqrt": math.sqrt,
    "exp": math.exp,
    "expm1": math.expm1,
    "log": math.log,
    "sin": math.sin,
    "cos": math.cos,
    "tan": math.tan,
    "asin": math.asin,
    "atan": math.atan,
}


def alone(value: object) -> bool:
    """Say whether a value is a single number rather than an array."""
    return isinstance(value, float | int)


def shaped(name: str, value: Number) -> Number:
    """Apply a function of one variable, by its name in the mathematics library.

    Parameters
    ----------
    name : str
        ``sqrt``, ``exp``, ``expm1``, ``log``, ``sin``, ``cos``, ``tan``, ``asin`` or ``atan``.
    value : float or array
        What to apply it to.

    Examples
    --------
    >>> shaped("sqrt", 9.0)
    3.0
    """
    if alone(value):
        answer: Any = _ALONE[name](value)
        return cast("Number", answer)
    import numpy as np

    return cast("Number", getattr(np, name)(value))


def most(value: Number, other: Number | float) -> Number:
    """Take the larger of two.

    Examples
    --------
    >>> most(-1.0, 0.0)
    0.0
    """
    if alone(value) and alone(other):
        answer: Any = max(float(value), float(other))
        return cast("Number", answer)
    import numpy as np

    return cast("Number", np.maximum(value, other))


def least(value: Number, other: Number | float) -> Number:
    """Take the smaller of two.

    Examples
    --------
    >>> least(2.0, 1.5)
    1.5
    """
    if alone(value) and alone(other):
        answer: Any = min(float(value), float(other))
        return cast("Number", answer)
    import numpy as np

    return cast("Number", np.minimum(value, other))


def lowest(value: Value) -> float:
    """Give the smallest of what there is; endless when there is nothing.

    Examples
    --------
    >>> lowest(2)
    2.0
    """
    if alone(value):
        return float(value)
    import numpy as np

    return float(np.min(value, initial=math.inf))


def choose(condition: Truth, yes: Number, no: Number | float) -> Number:
    """Take one or the other; with arrays, value by value.

    Examples
    --------
    >>> choose(True, 1.0, 2.0)
    1.0
    """
    if isinstance(condition, bool) and alone(yes) and alone(no):
        answer: Any = float(yes if condition else no)
        return cast("Number", answer)
    import numpy as np

    return cast("Number", np.where(condition, yes, no))


def quotient(top: Number, bottom: Number, otherwise: float) -> Number:
    """Divide where the divisor is more than zero; elsewhere give something else.

    Examples
    --------
    >>> quotient(3.0, 2.0, 0.0), quotient(3.0, 0.0, float("inf"))
    (1.5, inf)
    """
    if alone(top) and alone(bottom):
        answer: Any = float(top / bottom) if float(bottom) > 0.0 else otherwise
        return cast("Number", answer)
    import numpy as np

    above, below = np.broadcast_arrays(top, bottom)
    elsewhere = np.full(above.shape, otherwise)
    return cast("Number", np.divide(above, below, out=elsewhere, where=below > 0.0))


def read_off(value: Number, across: Sequence[float], up: Sequence[float]) -> Number:
    """Read a table by straight lines between its points, and along its last line beyond them.

    Parameters
    ----------
    value : float or array
        Where to read, not below the first point.
    across : sequence of float
        The table's points, rising; at least two.
    up : sequence of float
        What stands at each.

    Examples
    --------
    >>> read_off(1.5, (0.0, 1.0, 2.0), (0.0, 10.0, 30.0))
    20.0
    >>> read_off(3.0, (0.0, 1.0, 2.0), (0.0, 10.0, 30.0))
    50.0
    """
    # Straight pieces add up: each bends the line by its change of slope from its point onwards.
    answer: Any = up[0]
    before = 0.0
    for here, there, low, high in zip(across, across[1:], up, up[1:], strict=False):
        slope = (high - low) / (there - here)
        answer = answer + (slope - before) * most(value - here, 0.0)
        before = slope
    return cast("Number", answer)
