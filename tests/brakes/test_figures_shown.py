"""Every figure that the tables of the brakes name can be typed again as it is shown."""

from __future__ import annotations

import pytest

from bareshell.brakes.typed import figure_text, read_one
from bareshell.model.brake import LineKind, PartKind, ReadingKind, fields_of, reading_fields
from bareshell.units.show import IMPERIAL, METRIC, MIXTURE, Preference
from bareshell.units.show_quantity import show_quantity

FIELDS = {
    f"{kind}, {name}": field
    for kind in (*PartKind, *LineKind)
    for name, field in fields_of(kind).items()
} | {
    f"{kind}, {name}": field for kind in ReadingKind for name, field in reading_fields(kind).items()
}


@pytest.mark.parametrize("name", FIELDS)
@pytest.mark.parametrize("preference", [METRIC, IMPERIAL, MIXTURE], ids=["mm", "in", "mixture"])
def test_what_is_shown_can_be_typed_again(name: str, preference: Preference) -> None:
    """At the ends of what is likely; three figures are shown, so it holds to half a per cent."""
    field = FIELDS[name]
    for value in (field.likely_low, field.likely_high):
        shown = show_quantity(field.quantity, value, preference)
        again, _ = read_one(shown, field, name)
        # Lengths in inches snap to a 64th when they are within half a thousandth of it.
        within = {"temperature": 0.06, "length": 1.3e-5}.get(field.quantity, 0.0)
        assert again == pytest.approx(value, rel=0.006, abs=within)


@pytest.mark.parametrize("name", FIELDS)
def test_what_is_written_in_a_form_is_read_back_as_the_very_same_figure(name: str) -> None:
    field = FIELDS[name]
    for value in (field.likely_low, field.likely_high):
        again, _ = read_one(figure_text(value, field), field, name)
        assert again == pytest.approx(value, rel=1e-11)
