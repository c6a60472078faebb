"""A male thread in a female one that is not its own: does it enter, how far, and what holds it.

The pairs that hurt are those that start. M10 x 1 and 3/8-24 stand in each other's holes on older
brakes; 1/2-20 nuts run loose over M12 x 1.25. Basic sizes: a cut thread is some hundredths looser.
"""

from __future__ import annotations

import math
from typing import Final

from bareshell.calc.formula import formula
from bareshell.calc.threads import depths_of
from bareshell.calc.values import Number, least, most, quotient, shaped

__all__ = ["flank_play", "thread_overlap", "turns_to_binding"]

MOST_TURNS: Final = 1000.0
"""More turns than any fixing has; a pair of one pitch never binds."""


@formula
def thread_overlap(
    male_diameter_m: Number, female_diameter_m: Number, female_pitch_m: Number, female_form: str
) -> Number:
    """How much of the female thread's depth the male one reaches.

    [S:first-principles, geometry]

    Parameters
    ----------
    male_diameter_m : float or array
        Outside diameter of the male thread. [m]
    female_diameter_m : float or array
        Outside diameter that the female thread is made for. [m]
    female_pitch_m : float or array
        Pitch of the female thread. [m]
    female_form : str
        The shape of the female tooth. [words]

    Returns
    -------
    overlap : float or array
        1 for the right one, 0 or less when it drops through, above 1 when it is too large. [-]

    Notes
    -----
    (d_male - D1) / (D - D1). At half an overlap the tips alone carry: the thread feels tight on the
    spanner and pulls out under load.
    Checked against: a thread in its own nut is 1 (computed).

    Examples
    --------
    >>> round(thread_overlap(0.012, 0.0127, 0.00127, "unified"), 2)  # M12 in a 1/2-20 nut
    0.49
    """
    depth = depths_of(female_form).nut_bore * female_pitch_m
    return 1.0 + (male_diameter_m - female_diameter_m) / depth


@formula
def flank_play(
    male_pitch_diameter_m: Number, female_pitch_diameter_m: Number, flank_angle_rad: Number
) -> Number:
    """Play along the axis between the flanks of a male and a female thread.

    [S:first-principles, geometry]

    Parameters
    ----------
    male_pitch_diameter_m : float or array
        Of the male thread. [m]
    female_pitch_diameter_m : float or array
        Of the female thread. [m]
    flank_angle_rad : float or array
        Half of the angle between flanks. [rad]

    Returns
    -------
    play_m : float or array
        Below zero when the male is the larger. [m]

    Notes
    -----
    play = (D2 - d2) tan(half angle).
    Checked against: geometry (computed).

    Examples
    --------
    >>> import math
    >>> round(flank_play(0.008838, 0.009350, math.radians(30.0)) * 1e3, 3)
    0.296
    """
    return (female_pitch_diameter_m - male_pitch_diameter_m) * shaped("tan", flank_angle_rad)


@formula
def turns_to_binding(male_pitch_m: Number, female_pitch_m: Number, flank_play_m: Number) -> Number:
    """Turns that a thread runs into one of another pitch before both flanks touch.

    [S:first-principles, geometry]

    Parameters
    ----------
    male_pitch_m : float or array
        Pitch of the male thread. [m]
    female_pitch_m : float or array
        Pitch of the female thread. [m]
    flank_play_m : float or array
        Play along the axis, from `flank_play`. [m]

    Returns
    -------
    turns : float or array
        0 when it binds at once; 1000 when it never does. [-]

    Notes
    -----
    Each turn brings the threads |P - P'| further out of step: turns = play / |P - P'|. Beyond it
    the spanner forms metal. Whether a lead lets the first turn in is not reckoned.
    Checked against: 3/8-24 in an M10 x 1 hole runs about five turns, as fitters say (common
    practice, no source).

    Examples
    --------
    >>> round(turns_to_binding(0.0254 / 24.0, 0.001, 0.000296), 1)
    5.1
    """
    apart = most(male_pitch_m - female_pitch_m, female_pitch_m - male_pitch_m)
    free = quotient(most(flank_play_m, 0.0), apart, math.inf)
    return least(free, MOST_TURNS)
