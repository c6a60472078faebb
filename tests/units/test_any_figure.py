"""Every quantity that a table of figures names can be typed, and is read back as it is shown."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bareshell.errors import BadInput
from bareshell.model.brake import (
    LineKind,
    PartKind,
    ReadingKind,
    fields_of,
    reading_fields,
)
from bareshell.units.any_figure import example_of, read_any, show_any
from bareshell.units.show import IMPERIAL, METRIC, MIXTURE, Preference

FIELDS = {
    f"{kind}, {name}": field
    for kind in (*PartKind, *LineKind)
    for name, field in fields_of(kind).items()
} | {
    f"{kind}, {name}": field for kind in ReadingKind for name, field in reading_fields(kind).items()
}
QUANTITIES = sorted({field.quantity for field in FIELDS.values()})


@pytest.mark.parametrize("name", FIELDS)
@pytest.mark.parametrize("preference", [METRIC, IMPERIAL, MIXTURE], ids=["mm", "in", "mixture"])
def test_what_is_shown_can_be_typed_again(name: str, preference: Preference) -> None:
    """At the ends of what is likely; three figures are shown, so it holds to half a per cent."""
    field = FIELDS[name]
    for value in (field.likely_low, field.likely_high):
        shown = show_any(field.quantity, value, preference)
        again = read_any(field.quantity, shown, field.words, preference)
        # Lengths in inches snap to a 64th when they are within half a thousandth of it.
        within = {"temperature": 0.06, "length": 1.3e-5}.get(field.quantity, 0.0)
        assert again == pytest.approx(value, rel=0.006, abs=within)


@pytest.mark.parametrize("quantity", QUANTITIES)
def test_each_has_an_example_that_can_be_typed(quantity: str) -> None:
    read = {round(read_any(quantity, one, "it"), 12) for one in example_of(quantity).split(" or ")}
    assert all(math.isfinite(one) for one in read)


@pytest.mark.parametrize("quantity", QUANTITIES)
@given(st.text(max_size=12))
def test_whatever_is_typed_is_read_or_refused_by_its_name(quantity: str, typed: str) -> None:
    refused: BadInput | None = None
    found = 0.0
    try:
        found = read_any(quantity, typed, "the bore")
    except BadInput as error:
        refused = error
    assert math.isfinite(found)
    assert refused is None or (refused.field.startswith("the bore") and refused.remedy)


@pytest.mark.parametrize(
    ("quantity", "typed", "si"),
    [
        ("ratio", "4.5:1", 4.5),
        ("ratio", "5 to 1", 5.0),
        ("share_of_g", "6.1 m/s2", 6.1 / 9.80665),
        ("share_of_g", "62 %", 0.62),
        ("compliance", "0.4 ml at 70 bar", 0.4e-6 / 70e5),
        ("compliance", "1 cm3/MPa", 1e-12),
        ("stiffness", "1000 lbf/in", 175126.8),
        ("angle", "90 deg", math.pi / 2),
        ("years", "18 months", 1.5),
        ("minutes", "12 h", 720.0),
    ],
)
def test_what_the_trade_types_is_understood(quantity: str, typed: str, si: float) -> None:
    """Spring rate: 1 lbf/in is 175.1268 N/m (NIST SP 811, appendix B.8, from memory)."""
    assert read_any(quantity, typed, "it") == pytest.approx(si)
