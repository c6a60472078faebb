"""The guide's tables, made from the model itself, so that no figure can be forgotten."""

from __future__ import annotations

from bareshell.brakes.starters import STARTERS
from bareshell.brakes.typed import PLAIN, figure_text
from bareshell.io.brake_file.keys import choice_keys, figure_keys
from bareshell.model.brake import Field, LineKind, PartKind

__all__ = ["guide"]


def guide() -> str:
    """Return the guide's tables of starters, and of what each kind of part may say, in Markdown.

    Examples
    --------
    >>> "| `bore` | length | 12.7 mm to 28.6 mm | bore |" in guide()
    True
    """
    pieces = [
        "### Starters\n",
        "| name | what is on such a car |\n| --- | --- |",
        *(f"| `{each.name}` | {each.words} |" for each in STARTERS.values()),
        "",
    ]
    for kind in (*PartKind, *LineKind):
        pieces += _kind(kind)
    return "\n".join(pieces)


def _kind(kind: PartKind | LineKind) -> list[str]:
    header = "[[part]]" if isinstance(kind, PartKind) else "[[line]]"
    figures, choices = figure_keys(kind), choice_keys(kind)
    pieces = [f'### `{header}` with `kind = "{kind.value}"`\n']
    if choices:
        pieces += ["| choice | one of | what it says |", "| --- | --- | --- |"]
        pieces += [
            f"| `{key}` | {' / '.join(each.options) or 'free words'} | {each.words} |"
            for key, each in choices.items()
        ]
        pieces.append("")
    if figures:
        pieces += ["| figure | quantity | usual | what it says |", "| --- | --- | --- | --- |"]
        pieces += [
            f"| `{key}` | {_quantity(each)} | {_usual(each)} | {each.words} |"
            for key, each in figures.items()
        ]
        pieces.append("")
    if not choices and not figures:
        pieces.append("It has no figures and no choices of its own.\n")
    return pieces


def _quantity(field: Field) -> str:
    words = field.quantity.replace("_", " ")
    return f"{words}, without a unit" if field.quantity in PLAIN else words


def _usual(field: Field) -> str:
    return f"{figure_text(field.likely_low, field)} to {figure_text(field.likely_high, field)}"
