"""A picture as a file of its own: the page's style sheet cut down to what it uses and put inside.

The style sheet stays the one source of how things look. Its tokens are resolved, so that a
program that knows no custom properties reads the file as well.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Final, Literal

from bareshell.draw.brake_key import KeyLine
from bareshell.draw.brake_sheet import LEADING, LETTERS, NARROW
from bareshell.draw.definitions import definitions
from bareshell.draw.measure import text_width, wrapped
from bareshell.draw.svg import Svg, element, escaped, joined, number, rect, text

Light = Literal["day", "garage", "print"]

_PAD: Final = 20.0
_KEY_GAP: Final = 20.0
_TYPES: Final = frozenset({"svg", "text"})
_VIEW: Final = re.compile(r'viewBox="0 0 ([\d.]+) ([\d.]+)"')
_DEFINED: Final = re.compile(r'<(pattern|symbol) id="([^"]+)".*?</\1>', re.DOTALL)
_USED: Final = re.compile(r'(?:url\(#|href="#)([\w-]+)')
_RULE: Final = re.compile(r"([^{}]+)\{([^{}]*)\}")


@dataclass(frozen=True, slots=True)
class FilePlate:
    """A picture in a file, with its caption above and its legend.

    Parameters
    ----------
    title, caption : str
        What it is, and what to see in it.
    drawing : Svg
        A whole picture, drawn without links.
    key : tuple of KeyLine
        Its legend.
    """

    title: str
    drawing: Svg
    caption: str = ""
    key: tuple[KeyLine, ...] = ()


def svg_file(plates: Sequence[FilePlate], sheets: Iterable[str], *, light: Light = "day") -> str:
    """One SVG document that needs nothing beside it.

    Parameters
    ----------
    plates : sequence of FilePlate
        One below the other.
    sheets : iterable of str
        The text of the style sheets that the pages use, in their order.
    light : {'day', 'garage', 'print'}
        ``print`` is black on white.

    Returns
    -------
    document : str
        With its XML declaration.

    Raises
    ------
    ValueError
        When there is nothing to draw.
    """
    if not plates:
        raise ValueError("A file needs at least one picture.")
    width = 2 * _PAD + max(_size(plate.drawing)[0] for plate in plates)
    body, y = [], _PAD
    for plate in plates:
        piece, y = _plate(plate, y, width)
        body.append(piece)
    drawn = joined(*body)
    used = _definitions(drawn)
    css = "\n".join(sheets)
    size = "narrow bk" if width - 2 * _PAD <= NARROW else "bk"
    ground = element("rect", width=width, height=y, class_="f-sheet")
    rules = inlined(css, f'{drawn}{used}{ground}<svg class="{size}"/>', light)
    root = element(
        "svg",
        element("title", escaped("; ".join(plate.title for plate in plates))),
        element("style", Svg(rules)),
        element("defs", used) if used else Svg(),
        ground,
        drawn,
        xmlns="http://www.w3.org/2000/svg",
        class_=size,
        viewBox=f"0 0 {number(width)} {number(y)}",
        width=width,
        height=y,
    )
    return f'<?xml version="1.0" encoding="UTF-8"?>\n{root}\n'


def inlined(css: str, drawn: str, light: Light = "day") -> str:
    """The rules of a style sheet that a drawing uses, with every token resolved.

    Parameters
    ----------
    css : str
        The style sheet.
    drawn : str
        The drawing.
    light : {'day', 'garage', 'print'}
        Whose tokens.

    Examples
    --------
    >>> sheet = ":root { --ink: #211b13; } .l { stroke: var(--ink); } .page { margin: 0; }"
    >>> inlined(sheet, '<path class="l"/>')
    '.l { stroke: #211b13; }'
    """
    plain = re.sub(r"/\*.*?\*/", "", css, flags=re.DOTALL)
    values = tokens(plain, light)
    top, _ = _parted(plain)
    here = {name for names in re.findall(r'class="([^"]*)"', drawn) for name in names.split()}
    here -= {name for name in here if name.startswith("bk-key")}  # the size on a page, not here
    kept = []
    for selectors, declarations in _RULE.findall(top):
        wanted = [each.strip() for each in selectors.split(",") if _fits(each.strip(), here)]
        if wanted:
            kept.append(f"{', '.join(wanted)} {{ {_resolved(declarations.strip(), values)} }}")
    return "\n".join(kept)


def tokens(css: str, light: Light) -> Mapping[str, str]:
    """The value of each token of a style sheet in one light.

    Parameters
    ----------
    css : str
        The style sheet.
    light : {'day', 'garage', 'print'}
        Which light.

    Examples
    --------
    >>> sheet = ':root { --ink: #000; } html[data-light="garage"] { --ink: #e6a443; }'
    >>> tokens(sheet, "day")["--ink"], tokens(sheet, "garage")["--ink"]
    ('#000', '#e6a443')
    """
    top, printed = _parted(re.sub(r"/\*.*?\*/", "", css, flags=re.DOTALL))
    found: dict[str, str] = {}
    for selectors, declarations in _RULE.findall(top):
        named = selectors.strip()
        if named == ":root" or (light == "garage" and named == 'html[data-light="garage"]'):
            found.update(_declared(declarations))
    if light == "print":
        for selectors, declarations in _RULE.findall(printed):
            if ":root" in selectors:
                found.update(_declared(declarations))
    return found


def _declared(declarations: str) -> dict[str, str]:
    pairs = (each.split(":", 1) for each in declarations.split(";") if ":" in each)
    return {name.strip(): value.strip() for name, value in pairs if name.strip().startswith("--")}


def _parted(css: str) -> tuple[str, str]:
    """The rules outside every at-rule, and those inside ``@media print``."""
    top, printed, at = [], [], 0
    for found in re.finditer(r"@[\w-]+[^{;]*\{", css):
        if found.start() < at:
            continue
        top.append(css[at : found.start()])
        depth, end = 1, found.end()
        while depth and end < len(css):
            depth += {"{": 1, "}": -1}.get(css[end], 0)
            end += 1
        if found.group().startswith("@media print"):
            printed.append(css[found.end() : end - 1])
        at = end
    top.append(css[at:])
    return "".join(top), "".join(printed)


def _fits(selector: str, here: set[str]) -> bool:
    """Whether a selector is only about drawings, and about something that this one has."""
    if re.search(r"[:\[>#*+~]", selector):
        return False
    types = set(re.findall(r"(?:^|\s)([a-z][\w-]*)", selector))
    classes = set(re.findall(r"\.([\w-]+)", selector))
    return types <= _TYPES and classes <= here and (bool(classes) or "text" in types)


def _resolved(declarations: str, values: Mapping[str, str]) -> str:
    def value(found: re.Match[str]) -> str:
        return values.get(found.group(1), "inherit")

    return re.sub(r"var\((--[\w-]+)\)", value, declarations)


def _definitions(drawn: str) -> Svg:
    """The patterns and marks that a drawing refers to."""
    wanted = set(_USED.findall(drawn))
    return Svg(
        "".join(
            found.group() for found in _DEFINED.finditer(definitions()) if found.group(2) in wanted
        )
    )


def _size(drawing: str) -> tuple[float, float]:
    found = _VIEW.search(drawing)
    if found is None:
        raise ValueError("A picture in a file needs its own width and height.")
    return float(found.group(1)), float(found.group(2))


def _put(drawing: Svg, x: float, y: float) -> Svg:
    """A drawing at its own size within another."""
    width, height = (number(side) for side in _size(drawing))
    place = f'<svg x="{number(x)}" y="{number(y)}" width="{width}" height="{height}" '
    return Svg(drawing.replace("<svg ", place, 1))


def _plate(plate: FilePlate, y: float, width: float) -> tuple[Svg, float]:
    room = width - 2 * _PAD
    drawn: list[Svg] = []
    for line in wrapped(plate.title, room, LETTERS, slab=True):
        drawn.append(text(_PAD, y + 13, line, "t-name"))
        y += LEADING + 2
    for line in wrapped(plate.caption, room, LETTERS):
        drawn.append(text(_PAD, y + 13, line, "t-soft"))
        y += LEADING
    y += 6
    key, y = _key(plate.key, y, width)
    drawn.append(key)
    drawn.append(rect(_PAD, y, room, 1, "f-ink"))
    y += 14
    drawing_width, height = _size(plate.drawing)
    drawn.append(_put(plate.drawing, _PAD + (room - drawing_width) / 2, y))
    return joined(*drawn), y + height + 2 * _PAD


def _key(key: Sequence[KeyLine], y: float, width: float) -> tuple[Svg, float]:
    """The legend, as many to a line as there is room for."""
    drawn: list[Svg] = []
    x, deep = _PAD, 0.0
    for swatch, words in key:
        wide, high = _size(swatch)
        lines = wrapped(words, width - 2 * _PAD - wide - 8, LETTERS)
        long = wide + 8 + max(text_width(line, LETTERS) for line in lines)
        if x > _PAD and x + long > width - _PAD:
            x, y, deep = _PAD, y + deep, 0.0
        drawn.append(_put(swatch, x, y + 12 - high / 2))
        for index, line in enumerate(lines):
            drawn.append(text(x + wide + 8, y + 17 + index * LEADING, line))
        x += long + _KEY_GAP
        deep = max(deep, 26.0 + LEADING * (len(lines) - 1))
    return joined(*drawn), y + deep + (4.0 if key else 0.0)
