"""Figures at hand: one car or ten thousand samples of it, and formulas with some inputs settled.

Samples stand down a column, pushes of the foot along a row, so that everything broadcasts. A
formula judges its inputs each time it is called, which a search would pay for hundreds of times;
`settled` judges the figures once and leaves the bare equation of what is still to be put in.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from inspect import unwrap
from typing import TYPE_CHECKING, Any

from bareshell.brakes.figures import Figures
from bareshell.calc.formula import judged
from bareshell.calc.glossary import TERMS
from bareshell.calc.values import Value, alone
from bareshell.errors import BadInput

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

__all__ = ["Figured", "as_row", "brought_back", "settled"]


class Figured:
    """Figures of a system, each a float or a column of samples.

    Parameters
    ----------
    figures : mapping of str to float or array
        By path, as `bareshell.brakes.figures.gather` gives them; arrays all of one length.
    """

    __slots__ = ("_columns", "samples")

    def __init__(self, figures: Figures) -> None:
        self._columns: dict[str, Value] = {}
        self.samples: tuple[int, ...] = ()
        for path, value in figures.items():
            if alone(value):
                self._columns[path] = float(value)
                continue
            import numpy as np

            column = np.asarray(value, dtype=np.float64)
            if column.ndim == 0:
                self._columns[path] = float(column)
                continue
            if column.ndim != 1 or self.samples not in {(), column.shape}:
                raise BadInput(path, "is of another shape", "give all samples the same length")
            self.samples = (column.shape[0],)
            self._columns[path] = column[:, np.newaxis]

    def __call__(self, part: str, name: str) -> Value:
        """Return one figure; a KeyError would be ours, since what is missing was asked for."""
        return self._columns[f"{part}.{name}"]

    def has(self, part: str, name: str) -> bool:
        """Whether there is such a figure."""
        return f"{part}.{name}" in self._columns


def settled(function: Callable[..., Any], **figures: Value) -> Callable[..., Any]:
    """Judge some inputs of a formula once, and return its bare equation of the others.

    Parameters
    ----------
    function : callable
        One of `bareshell.calc`.
    **figures : float or array
        Inputs by name.

    Raises
    ------
    BadInput
        When one of them breaks its rule.

    Examples
    --------
    >>> from bareshell.calc import pedal
    >>> rod = settled(
    ...     pedal.push_rod_force, pedal_ratio=5.0, pedal_efficiency=0.8, pedal_return_n=0.0
    ... )
    >>> rod(500.0)
    2000.0
    """
    return partial(unwrap(function), **{k: judged(TERMS[k], v) for k, v in figures.items()})


def as_row(forces: Value) -> NDArray[np.float64]:
    """Lay pushes of the foot along a row."""
    import numpy as np

    return np.asarray(forces, dtype=np.float64).reshape(1, -1)


def brought_back(
    value: Value | NDArray[np.bool_], samples: tuple[int, ...], forces: tuple[int, ...]
) -> Any:  # noqa: ANN401 - numbers come back as numbers, truths as truths
    """Give a result the shape of samples and pushes: a plain number when both were."""
    import numpy as np

    rows = samples[0] if samples else 1
    across = int(np.prod(forces)) if forces else 1
    array = np.asarray(value)
    full = np.broadcast_to(array, (rows, across)).reshape(samples + forces)
    return full.item() if full.ndim == 0 else np.array(full)
