"""The guide's tables, made from the sections themselves, so that none can be forgotten."""

from __future__ import annotations

from bareshell.io.build_file.kinds import Plain, Setting
from bareshell.io.build_file.layout import value_text
from bareshell.io.build_file.sections import SECTIONS, Section
from bareshell.io.build_file.sections.job import JOB_PARTS
from bareshell.io.build_file.sections.part import DELIVERY, DUTY, EXCHANGE, GUESS
from bareshell.io.build_file.sections.proof import LIMIT, PASSING, READING
from bareshell.io.build_file.shape import Field, Record, default_of
from bareshell.io.build_file.specs import SPECS

__all__ = ["PARTS", "guide"]

PARTS: dict[str, Record] = {
    **JOB_PARTS,
    "duty": DUTY,
    "guess": GUESS,
    "exchange": EXCHANGE,
    "delivery": DELIVERY,
    "passed": PASSING,
    "limit": LIMIT,
    "reading": READING,
}
"""The tables that stand inside others, by what the guide calls them."""


def guide() -> str:
    """Return the guide's tables of every section and key, in Markdown.

    Examples
    --------
    >>> "| `hold_hours` |" in guide()
    True
    """
    pieces = [_section(section) for section in SECTIONS]
    pieces.append("### Tables inside a section\n")
    pieces += [f"#### {name}\n\n{_rows(record)}" for name, record in PARTS.items()]
    pieces.append("### Specifications\n")
    pieces += [
        f"#### {name}\n\n{_rows(record)}" for name, record in SPECS.items() if name != "plain"
    ]
    return "\n".join(pieces)


def _section(section: Section) -> str:
    header = f"[{section.name}]" if section.single else f"[[{section.name}]]"
    text = f"### `{header}`\n\n{section.says}\n\n{_rows(section.record)}"
    if section.facts is not None:
        text += (
            f"\nWhat happened; a key that is not written says nothing:\n\n{_rows(section.facts)}"
        )
    return text


def _rows(record: Record) -> str:
    lines = ["| key | what it takes | if not written | what it says |", "| --- | --- | --- | --- |"]
    for field in record.fields:
        cells = (f"`{field.key}`", field.kind.takes, _default(record, field), field.says)
        lines.append(f"| {' | '.join(cell.replace('|', ' or ') for cell in cells)} |")
    return "\n".join(lines) + "\n"


def _default(record: Record, field: Field) -> str:
    plain: Plain | None = record.default(field, Setting())
    if plain is None:
        return "nothing" if default_of(record.cls, field.attr) is None else "must be written"
    if plain in ("", []):
        return "nothing"
    return f"`{' '.join(value_text(plain).split())}`"
