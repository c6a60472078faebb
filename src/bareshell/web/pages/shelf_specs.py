"""The part of a form that says what a thing must measure, or what was measured on it."""

from __future__ import annotations

from dataclasses import dataclass

from bareshell.app.spec_forms import SPEC_FIELDS, SpecField
from bareshell.web.forms import Form, SentForm, pairs


@dataclass(frozen=True, slots=True)
class SpecShown:
    """The fields of one kind of specification, and the kinds there are."""

    kind: str
    fields: tuple[SpecField, ...]
    kinds: tuple[tuple[str, str], ...] = pairs(SPEC_FIELDS)


def spec_shown(form: Form) -> SpecShown:
    """The fields that a form's kind of specification has; words alone when it names none."""
    kind = form.value("spec", "plain")
    return SpecShown(
        kind if kind in SPEC_FIELDS else "plain", SPEC_FIELDS.get(kind, SPEC_FIELDS["plain"])
    )


def asks_for_fields(sent: SentForm) -> bool:
    """Whether another kind of part was chosen, whose fields have to be shown before it is kept."""
    was = sent.fields.get("spec_was")
    return was is not None and was != sent.fields.get("spec")
