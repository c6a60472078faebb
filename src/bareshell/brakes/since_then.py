"""The pedal after 50 and 500 miles beside the pedal before the road.

The first test stands in for what was worked out: what has changed since then is explained by air,
clearance or flex in the same way, and far more sharply.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from bareshell.brakes.pedal_expected import Between, Expected
from bareshell.brakes.pedal_test import PedalResult, Pushes, pedal_result
from bareshell.errors import BadInput

__all__ = ["since_then"]

_LIKE: Final = 0.1  # forces may differ by a tenth; more would explain a difference by itself


def since_then(first: Pushes, now: Pushes, expected: Expected) -> PedalResult:
    """Say what has changed between two pedal tests.

    Parameters
    ----------
    first, now : Pushes
        The test before the road, and today's, at the same forces.
    expected : Expected
        What the system should do, for what each cause would add.

    Returns
    -------
    PedalResult
        Of the change alone.

    Raises
    ------
    BadInput
        When the forces are not the same.

    Examples
    --------
    >>> expected = Expected(
    ...     Between(0.03, 0.03),
    ...     Between(0.02, 0.02),
    ...     Between(2e4, 4e4),
    ...     Between(60e5, 70e5),
    ...     Between(13e3, 14e3),
    ...     Between(0.001, 0.002),
    ...     Between(0.021, 0.025),
    ... )
    >>> first = Pushes(45.0, 300.0, 0.040, 0.062)
    >>> since_then(first, Pushes(45.0, 300.0, 0.051, 0.073), expected).words
    'More clearance than was expected explains both pushes, and nothing else does.'
    """
    for words, before, after in (
        ("lighter force", first.light_force_n, now.light_force_n),
        ("heavier force", first.firm_force_n, now.firm_force_n),
    ):
        if abs(after - before) > _LIKE * before:
            raise BadInput(
                words,
                f"was {before:.0f} N then and {after:.0f} N now",
                "press as hard as the first time, so that the travels compare",
            )
    read = first.read_to_m
    rise = first.firm_travel_m - first.light_travel_m
    as_it_was = replace(
        expected,
        light_m=Between(first.light_travel_m - read, first.light_travel_m + read),
        rise_m=Between(rise - 2.0 * read, rise + 2.0 * read),
    )
    return pedal_result(now, as_it_was)
