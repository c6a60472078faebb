"""The soak after a stop: heat that creeps from the disc into caliper and fluid with no air to help.

The fluid is often hottest some minutes after the car has stopped, which is when a pedal is found on
the floor. Two lumps have an answer in closed form; a chain of any length gives its rates, for an
integrator.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Generic, NamedTuple

from bareshell.calc.formula import formula
from bareshell.calc.values import Number, choose, most, quotient, shaped
from bareshell.errors import BadInput

__all__ = ["Peak", "SoakTemperatures", "chain_rates", "two_lump_peak", "two_lump_soak"]


class SoakTemperatures(NamedTuple, Generic[Number]):
    """Temperatures of disc and caliper at one time, in degrees Celsius."""

    disc_c: Number
    caliper_c: Number


class Peak(NamedTuple, Generic[Number]):
    """When the caliper is hottest, in seconds, and how hot, in degrees Celsius."""

    time_s: Number
    caliper_c: Number


class _Modes(NamedTuple, Generic[Number]):
    """The two decays of the pair: their rates, and what each adds to both temperatures."""

    slow: Number
    fast: Number
    disc_slow: Number
    disc_fast: Number
    caliper_slow: Number
    caliper_fast: Number


def _modes(
    disc_excess: Number,
    caliper_excess: Number,
    disc_capacity_j_k: Number,
    caliper_capacity_j_k: Number,
    link_w_k: Number,
    disc_to_air_w_k: Number,
    caliper_to_air_w_k: Number,
) -> _Modes[Number]:
    # d(disc)/dt = -a disc + b caliper, d(caliper)/dt = c disc - d caliper; both rates are real.
    a = (link_w_k + disc_to_air_w_k) / disc_capacity_j_k
    b = link_w_k / disc_capacity_j_k
    c = link_w_k / caliper_capacity_j_k
    d = (link_w_k + caliper_to_air_w_k) / caliper_capacity_j_k
    gap: Number = shaped("sqrt", (a - d) ** 2 + 4.0 * b * c)
    slow = (a + d - gap) / 2.0
    fast = (a + d + gap) / 2.0
    disc_slow = ((fast - a) * disc_excess + b * caliper_excess) / gap
    caliper_slow = ((fast - d) * caliper_excess + c * disc_excess) / gap
    return _Modes(
        slow, fast, disc_slow, disc_excess - disc_slow, caliper_slow, caliper_excess - caliper_slow
    )


@formula
def two_lump_soak(
    time_s: Number,
    disc_start_c: Number,
    caliper_start_c: Number,
    ambient_c: Number,
    disc_capacity_j_k: Number,
    caliper_capacity_j_k: Number,
    link_w_k: Number,
    disc_to_air_w_k: Number,
    caliper_to_air_w_k: Number,
) -> SoakTemperatures[Number]:
    """Temperatures of disc and caliper some time after the car has stopped.

    [S:first-principles, heat balance]

    Parameters
    ----------
    time_s : float or array
        Since it stopped. [s]
    disc_start_c : float or array
        Of the disc at that moment. [degC]
    caliper_start_c : float or array
        Of the caliper with its fluid at that moment. [degC]
    ambient_c : float or array
        Of the air. [degC]
    disc_capacity_j_k : float or array
        Heat that warms the disc by a kelvin. [J/K]
    caliper_capacity_j_k : float or array
        Heat that warms caliper, pads and fluid by a kelvin. [J/K]
    link_w_k : float or array
        Heat flowing from one to the other for each kelvin between them. [W/K]
    disc_to_air_w_k : float or array
        Heat that the disc gives the air for each kelvin. [W/K]
    caliper_to_air_w_k : float or array
        Heat that the caliper gives the air for each kelvin; 0 for none. [W/K]

    Returns
    -------
    disc_c : float or array
        Of the disc then. [degC]
    caliper_c : float or array
        Of the caliper then. [degC]

    Notes
    -----
    Two lumps: C1 T1' = -G (T1 - T2) - G1 (T1 - Ta), C2 T2' = G (T1 - T2) - G2 (T2 - Ta). The sum
    of two decays. Real fluid behind a hot piston is hotter than its caliper: take the link and the
    lump that stand for what is asked.
    Checked against: numerical integration of `chain_rates` (computed).

    Examples
    --------
    >>> soak = two_lump_soak(600.0, 400.0, 80.0, 20.0, 2500.0, 2000.0, 2.0, 1.2, 0.8)
    >>> [round(temperature, 1) for temperature in soak]
    [235.2, 156.8]
    """
    m = _modes(
        disc_start_c - ambient_c,
        caliper_start_c - ambient_c,
        disc_capacity_j_k,
        caliper_capacity_j_k,
        link_w_k,
        disc_to_air_w_k,
        caliper_to_air_w_k,
    )
    slow = shaped("exp", -m.slow * time_s)
    fast = shaped("exp", -m.fast * time_s)
    return SoakTemperatures(
        ambient_c + m.disc_slow * slow + m.disc_fast * fast,
        ambient_c + m.caliper_slow * slow + m.caliper_fast * fast,
    )


@formula
def two_lump_peak(
    disc_start_c: Number,
    caliper_start_c: Number,
    ambient_c: Number,
    disc_capacity_j_k: Number,
    caliper_capacity_j_k: Number,
    link_w_k: Number,
    disc_to_air_w_k: Number,
    caliper_to_air_w_k: Number,
) -> Peak[Number]:
    """When, after the car has stopped, its caliper is hottest, and how hot.

    [S:first-principles, heat balance]

    Parameters
    ----------
    disc_start_c : float or array
        Of the disc as the car stopped. [degC]
    caliper_start_c : float or array
        Of the caliper with its fluid at that moment. [degC]
    ambient_c : float or array
        Of the air, not above either. [degC]
    disc_capacity_j_k : float or array
        Heat that warms the disc by a kelvin. [J/K]
    caliper_capacity_j_k : float or array
        Heat that warms caliper, pads and fluid by a kelvin. [J/K]
    link_w_k : float or array
        Heat flowing from one to the other for each kelvin between them. [W/K]
    disc_to_air_w_k : float or array
        Heat that the disc gives the air for each kelvin. [W/K]
    caliper_to_air_w_k : float or array
        Heat that the caliper gives the air for each kelvin; 0 for none. [W/K]

    Returns
    -------
    time_s : float or array
        Since it stopped; 0 when it only cools. [s]
    caliper_c : float or array
        Greatest temperature of the caliper. [degC]

    Notes
    -----
    Where the two decays of `two_lump_soak` have opposite slopes:
    t = ln(-f A_f / (s A_s)) / (f - s) with rates f, s and parts A_f, A_s.
    Checked against: the greatest of `two_lump_soak` over a fine grid of times (computed).

    Examples
    --------
    >>> peak = two_lump_peak(400.0, 80.0, 20.0, 2500.0, 2000.0, 2.0, 1.2, 0.8)
    >>> [round(part) for part in peak]
    [742, 158]
    """
    m = _modes(
        disc_start_c - ambient_c,
        caliper_start_c - ambient_c,
        disc_capacity_j_k,
        caliper_capacity_j_k,
        link_w_k,
        disc_to_air_w_k,
        caliper_to_air_w_k,
    )
    steeper = quotient(-m.fast * m.caliper_fast, m.slow * m.caliper_slow, 1.0)
    time = shaped("log", most(steeper, 1.0)) / (m.fast - m.slow)
    slow = m.caliper_slow * shaped("exp", -m.slow * time)
    fast = m.caliper_fast * shaped("exp", -m.fast * time)
    return Peak(time, choose(time > 0.0, ambient_c + slow + fast, caliper_start_c))


@formula
def chain_rates(
    temperatures_c: Sequence[Number],
    capacities_j_k: Sequence[Number],
    links_w_k: Sequence[Number],
    to_air_w_k: Sequence[Number],
    ambient_c: Number,
) -> tuple[Number, ...]:
    """How fast each lump of a chain warms: disc, pad, piston, fluid, or as many as there are.

    [S:first-principles, heat balance]

    Parameters
    ----------
    temperatures_c : sequence of float or array
        Of each lump just then. [degC]
    capacities_j_k : sequence of float or array
        Heat that warms each by a kelvin. [J/K]
    links_w_k : sequence of float or array
        Heat flowing from each to the next for a kelvin between them; one fewer. [W/K]
    to_air_w_k : sequence of float or array
        Heat that each gives the air for each kelvin; 0 for none. [W/K]
    ambient_c : float or array
        Of the air. [degC]

    Returns
    -------
    rates_k_s : tuple of float or array
        Warming of each lump. [K/s]

    Raises
    ------
    BadInput
        When the counts do not fit one another.

    Notes
    -----
    C_i T_i' = sum of links (T_j - T_i) - G_i (T_i - T_a).
    Checked against: no heat is made or lost but to the air (computed).

    Examples
    --------
    >>> rates = chain_rates((400.0, 80.0), (2500.0, 2000.0), (2.0,), (1.2, 0.8), 20.0)
    >>> [round(rate, 4) for rate in rates]
    [-0.4384, 0.2960]
    """
    count = len(temperatures_c)
    if not len(capacities_j_k) == len(to_air_w_k) == count or len(links_w_k) != count - 1:
        raise BadInput(
            "lumps of the chain",
            f"{count} temperatures come with {len(capacities_j_k)} capacities, "
            f"{len(links_w_k)} links and {len(to_air_w_k)} losses to the air",
            "give a capacity and a loss for each lump, and a link between neighbours",
        )
    flows = [
        link * (here - there)
        for link, here, there in zip(links_w_k, temperatures_c, temperatures_c[1:], strict=False)
    ]
    rates: list[Number] = []
    for i, (here, capacity, loss) in enumerate(
        zip(temperatures_c, capacities_j_k, to_air_w_k, strict=True)
    ):
        gained = -loss * (here - ambient_c)
        if i > 0:
            gained = gained + flows[i - 1]
        if i < count - 1:
            gained = gained - flows[i]
        rates.append(gained / capacity)
    return tuple(rates)
