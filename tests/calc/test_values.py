"""The few operations that take a float or an array."""

from __future__ import annotations

import subprocess
import sys

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from bareshell.calc.values import choose, least, lowest, most, quotient, read_off, shaped

numbers = st.lists(st.floats(-1e6, 1e6), min_size=1, max_size=8)


@given(numbers, st.floats(-1e6, 1e6))
def test_arrays_are_reckoned_value_by_value(values: list[float], other: float) -> None:
    array = np.array(values)
    np.testing.assert_array_equal(most(array, other), [most(each, other) for each in values])
    np.testing.assert_array_equal(least(array, other), [least(each, other) for each in values])
    np.testing.assert_array_equal(
        choose(array > other, array, other), [choose(each > other, each, other) for each in values]
    )
    np.testing.assert_array_equal(
        quotient(array, array, -1.0), [quotient(each, each, -1.0) for each in values]
    )
    assert lowest(array) == min(values)


@pytest.mark.parametrize(
    "name", ["sqrt", "exp", "expm1", "log", "sin", "cos", "tan", "asin", "atan"]
)
def test_functions_of_one_variable_agree_with_numpy(name: str) -> None:
    for value in (0.1, 0.5, 0.9):
        assert shaped(name, value) == pytest.approx(float(getattr(np, name)(value)))
        assert shaped(name, np.array([value]))[0] == pytest.approx(shaped(name, value))


@given(st.floats(0.0, 3.0))
def test_a_table_is_read_as_numpy_reads_it_and_runs_on(value: float) -> None:
    across, up = (0.0, 1.0, 1.5, 3.0), (0.0, 2.0, 2.5, 7.0)
    assert read_off(value, across, up) == pytest.approx(float(np.interp(value, across, up)))
    beyond = read_off(np.array([3.0, 4.0]), across, up)
    np.testing.assert_allclose(beyond, [7.0, 10.0])


def test_the_least_of_nothing_is_endless() -> None:
    assert lowest(np.array([])) == float("inf")


def test_numbers_alone_never_wake_numpy() -> None:
    """A quick answer on the command line must not wait for it."""
    code = (
        "import sys\n"
        "from bareshell.calc import disc, drum, fluid, heat, hose, loads, long_shoe, master\n"
        "from bareshell.calc import pedal, servo, slope, soak, stopping, tandem, tyre, valves\n"
        "assert valves.proportioning(5e6, 2e6, 0.3) > 0\n"
        "assert tandem.tandem_pressures(2500.0, .02, .02, .02, 60.0, 40.0, 0.0, 1.0)\n"
        "assert hose.hose_expansion_volume(7e6, 0.3, '1/8 low') > 0\n"
        "assert fluid.boiling_point_span(0.03, 'DOT 4').low_c > 0\n"
        "assert 'numpy' not in sys.modules\n"
    )
    subprocess.run([sys.executable, "-c", code], check=True)
