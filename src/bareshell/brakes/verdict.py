"""What a verdict is: what a yardstick asks, what was reached, and the margin between.

Results may be arrays: a sample of combinations of the inputs. Then the margin is an array, and a
verdict is a share of combinations; it is never a chance. A verdict says *meets* or *short of* a
figure, and nothing of whether a car may be used.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from bareshell.brakes.yardstick import Yardstick
from bareshell.calc.values import Value

if TYPE_CHECKING:
    from bareshell.brakes.answer import Truth

__all__ = ["Verdict", "at_least", "figure_words", "not_worked_out", "plain", "share_words"]

_ROUNDING: Final = 1e-9


@dataclass(frozen=True, slots=True)
class Verdict:
    """What a yardstick asks, what was reached, and the margin.

    Parameters
    ----------
    yardstick : Yardstick
        Which.
    required : float or array or None
        What it asks; None where it is not one figure.
    reached : float or array or None
        What was reached; None when it was not worked out.
    margin : float or array or None
        How much more than asked, in its own unit; below zero when it is short. None when it was
        not worked out.
    unit : str
        ``m/s2``, ``m``, ``share``, ``slope``, ``m3`` or ``adhesion``.
    asked : str
        What it asks, as a figure in words: ``2.9 m/s2``.
    because : str
        Why it was not worked out, or what was taken with it.
    """

    yardstick: Yardstick
    required: Value | None
    reached: Value | None
    margin: Value | None
    unit: str
    asked: str
    because: str = ""

    @property
    def met(self) -> Truth | None:
        """Whether it is met, for one or for each of many; None when it was not worked out."""
        return None if self.margin is None else _met(self.margin)

    @property
    def share(self) -> float | None:
        """Share of the combinations that meet it; None when it was not worked out."""
        import numpy as np

        return None if self.met is None else float(np.mean(self.met))

    @property
    def worst(self) -> int | None:
        """Which combination has the smallest margin; None when it was not worked out."""
        import numpy as np

        return None if self.margin is None else int(np.argmin(np.ravel(self.margin)))

    @property
    def words(self) -> str:
        """*Meets* or *short of* what it asks; for many, in how many of a hundred."""
        import numpy as np

        if self.margin is None:
            return "not worked out"
        if np.ndim(self.margin) == 0:
            return f"{'meets' if self.met else 'short of'} {self.asked}"
        assert self.share is not None  # noqa: S101 - it was worked out
        return f"meets {self.asked} {share_words(self.share)}"


def _met(margin: Value) -> Truth:
    import numpy as np

    met = np.asarray(margin) >= -_ROUNDING
    return bool(met) if met.ndim == 0 else met


def share_words(share: float) -> str:
    """Say a share of combinations.

    A share that is not whole is never said as none or as all of them.

    Examples
    --------
    >>> share_words(0.94), share_words(0.9996), share_words(1.0)
    ('in 94 of 100 combinations', 'in 99.9 of 100 combinations', 'in all combinations')
    """
    if share in {0.0, 1.0}:
        return f"in {'all' if share else 'no'} combinations"
    hundred = round(100.0 * share)
    if 0 < hundred < 100:
        return f"in {hundred} of 100 combinations"
    near = min(max(round(100.0 * share, 1), 0.1), 99.9)
    return f"in {near:g} of 100 combinations"


def not_worked_out(yardstick: Yardstick, because: str) -> Verdict:
    """Say that a yardstick could not be held against anything, and why.

    Examples
    --------
    >>> from bareshell.brakes.yardsticks import yardstick
    >>> not_worked_out(yardstick("uk-mot-pedal"), "look at the car").words
    'not worked out'
    """
    return Verdict(yardstick, None, None, None, "", "", because)


def at_least(
    yardstick: Yardstick, least: Value, reached: Value, unit: str, because: str
) -> Verdict:
    """Hold what was reached against the least that is asked.

    Parameters
    ----------
    yardstick : Yardstick
        Which.
    least, reached : float or array
        What it asks, and what was reached, in one unit.
    unit : str
        That unit, as `Verdict` has it.
    because : str
        What was taken with it.

    Examples
    --------
    >>> from bareshell.brakes.yardsticks import yardstick
    >>> at_least(yardstick("de-stvzo-service"), 5.0, 5.6, "m/s2", "").words
    'meets 5.0 m/s2'
    """
    import numpy as np

    margin = plain(np.asarray(reached) - np.asarray(least))
    return Verdict(yardstick, least, reached, margin, unit, figure_words(least, unit), because)


def figure_words(least: Value, unit: str) -> str:
    """Say a required figure as people write it; the first of many.

    Examples
    --------
    >>> figure_words(0.5, "share"), figure_words(2.44, "m/s2"), figure_words(8e-5, "m3")
    ('50 %', '2.4 m/s2', '80 ml')
    """
    import numpy as np

    figure = float(np.ravel(least)[0])
    if unit in {"share", "slope"}:
        return f"{100 * figure:.0f} %"
    if unit == "m3":
        return f"{1e6 * figure:.0f} ml"
    return f"{figure:.1f} {unit}"


def plain(value: object) -> Value:
    """Give a float for a single number, and the array for many.

    Examples
    --------
    >>> import numpy as np
    >>> plain(np.float64(2.0)), plain([1.0, 2.0])
    (2.0, array([1., 2.]))
    """
    import numpy as np

    array = np.asarray(value, dtype=np.float64)
    return float(array) if array.ndim == 0 else array
