"""How figures are typed in the brake file and in forms, and written to be read again."""

from __future__ import annotations

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from bareshell.brakes.typed import figure_text, read_stated, stated_text
from bareshell.errors import BadInput
from bareshell.model.brake import (
    Field,
    LineKind,
    PartKind,
    ReadingKind,
    field_of,
    fields_of,
    reading_fields,
)
from bareshell.model.trust import Trust
from tests.brakes.systems import stated

EVERY_FIELD = [field for kind in (*PartKind, *LineKind) for field in fields_of(kind).values()] + [
    field for kind in ReadingKind for field in reading_fields(kind).values()
]

BORE = field_of(PartKind.MASTER, "bore_m")
FRICTION = field_of(PartKind.CALIPER, "pad_friction")
KNEE = field_of(PartKind.VALVE, "knee_pa")


@pytest.mark.parametrize(
    ("field", "text", "value", "low", "high", "trust"),
    [
        (BORE, "19.05 mm", 0.01905, None, None, Trust.ASSUMED),
        (BORE, "3/4 in", 0.01905, None, None, Trust.ASSUMED),
        (BORE, "13/16 in marked on the part", 0.0206375, None, None, Trust.MARKED),
        (BORE, "19,05 mm, measured", 0.01905, None, None, Trust.MEASURED),
        (BORE, "19 mm (18.9-19.1)", 0.019, 0.0189, 0.0191, Trust.ASSUMED),
        (BORE, "3/4 in (11/16-13/16 in)", 0.01905, 0.0174625, 0.0206375, Trust.ASSUMED),
        (BORE, "19 mm ± 0.1 mm measured", 0.019, 0.0189, 0.0191, Trust.MEASURED),
        (FRICTION, "0.38 (0.34-0.42)", 0.38, 0.34, 0.42, Trust.ASSUMED),
        (FRICTION, "0.38 (0.34 to 0.42) data sheet", 0.38, 0.34, 0.42, Trust.DATA_SHEET),
        (FRICTION, "0.4 +/- 10 %", 0.4, 0.36, 0.44, Trust.ASSUMED),
        (KNEE, "28 bar (25..31)", 28e5, 25e5, 31e5, Trust.ASSUMED),
        (KNEE, "28 bar +/- 3, from a data sheet", 28e5, 25e5, 31e5, Trust.DATA_SHEET),
    ],
)
def test_what_people_type_is_read(
    field: Field, text: str, value: float, low: float | None, high: float | None, trust: Trust
) -> None:
    """A figure, its range and its trust, in the ways that they are written."""
    read = read_stated(text, field, "a part").stated
    assert read.value == pytest.approx(value, rel=1e-12)
    assert read.trust is trust
    assert (read.low, read.high) == (
        None if low is None else pytest.approx(low, rel=1e-12),
        None if high is None else pytest.approx(high, rel=1e-12),
    )


@pytest.mark.parametrize(
    ("field", "text", "unit"),
    [
        (field_of(PartKind.DRUM, "lining_arc_rad"), "110 deg", "degree"),
        (field_of(PartKind.CALIPER, "flex_m3_pa"), "12 mm3/bar", "mm**3/bar"),
        (field_of(PartKind.CALIPER, "pad_stiffness_n_m"), "180 kN/mm", "kilonewton/mm"),
        (field_of(PartKind.VALVE, "closing_deceleration_g"), "4.9 m/s2", "m/s**2"),
        (field_of(PartKind.FLUID, "temperature_c"), "68 F", "degF"),
    ],
)
def test_units_of_its_own_agree_with_a_units_library(field: Field, text: str, unit: str) -> None:
    """What is not among the house's quantities is held against pint."""
    into = {"angle": "rad", "compliance": "m**3/Pa", "stiffness": "N/m"}
    into |= {"share_of_g": "standard_gravity", "temperature": "degC"}
    library: pint.UnitRegistry[float] = pint.UnitRegistry()
    figure = float(text.split(maxsplit=1)[0])
    wanted = library.Quantity(figure, unit).to(into[field.quantity]).magnitude
    assert read_stated(text, field, "a part").stated.value == pytest.approx(wanted, rel=1e-9)


@pytest.mark.parametrize(
    ("field", "text", "says"),
    [
        (BORE, "wide", "the master, bore: 'wide' is not a length"),
        (BORE, "19", "Write the unit too"),
        (BORE, "54 m", "between 5 mm and 100 mm; was 54 mm meant?"),
        (BORE, "19 mm (20-21)", "does not lie within its range"),
        (KNEE, "400000 bar", "cannot be"),
        (FRICTION, "rough", "is no figure"),
        (field_of(PartKind.CALIPER, "a_pistons"), "1.5", "not a whole number"),
        (field_of(PartKind.DRUM, "lining_arc_rad"), "110", "has no unit"),
        (BORE, "", "nothing was given"),
    ],
)
def test_what_cannot_be_read_is_answered_with_what_would_be_right(
    field: Field, text: str, says: str
) -> None:
    """Every refusal names the part and the figure, and gives an example or a bound."""
    with pytest.raises(BadInput) as refused:
        read_stated(text, field, "the master")
    assert says in refused.value.describe()
    assert refused.value.field == f"the master, {field.words}"
    assert refused.value.problems[0].remedy


@given(data=st.data())
def test_what_is_written_is_read_again(data: st.DataObject) -> None:
    """Every figure of every kind of part and reading survives the file, range and trust too."""
    field = data.draw(st.sampled_from(EVERY_FIELD))
    drawn = data.draw(stated(field))
    assert read_stated(stated_text(drawn, field), field, "a part").stated == drawn


def test_a_figure_is_written_as_short_as_it_can_be() -> None:
    """Nobody wants 19.049999999999997 mm in a file."""
    three_quarters = read_stated("3/4 in", BORE, "master").stated.value
    assert figure_text(three_quarters, BORE) == "19.05 mm"
    assert figure_text(2.0, field_of(PartKind.CALIPER, "a_pistons")) == "2"


@pytest.mark.parametrize("field", EVERY_FIELD, ids=lambda field: field.name)
def test_every_figure_can_be_typed_in_its_usual_range(field: Field) -> None:
    """No figure of the tables is without a unit that it is typed in."""
    for usual in (field.likely_low, field.likely_high):
        settled = float(f"{usual:.12g}")
        if field.quantity == "count" and usual != int(usual):
            continue
        read = read_stated(figure_text(settled, field), field, "a part").stated.value
        assert read == pytest.approx(settled, rel=1e-12)
