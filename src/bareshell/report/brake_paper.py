"""Pictures of the brakes as a PDF: the same plates as on the page, each with its words.

Every picture carries the sentence that stands for it where nobody can see it. The writer of PDF
is an extra: without it the pages' own print and the SVG files still do.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any, Final

from bareshell.draw.brake_drawn import alt_of
from bareshell.draw.brake_file import FilePlate, svg_file
from bareshell.errors import NotFound

__all__ = ["Paper", "brake_paper"]

_SIZE: Final = re.compile(r'viewBox="0 0 ([\d.]+) ([\d.]+)"')
_WIDE_PX: Final = 600.0
_TALLEST: Final = {False: 2.9, True: 1.38}
"""How many times as high as a column, or the page, is wide is the room on a page."""

_LAYOUT: Final = """
#let data = json("data.json")
#set document(title: data.title)
#set text(lang: "en", size: 9.5pt, font: ("Liberation Sans", "DejaVu Sans", "Libertinus Serif"))
#set page(
  paper: "a4",
  margin: (x: 15mm, top: 20mm, bottom: 20mm),
  header: text(size: 8pt)[#data.head],
  footer: context text(size: 8pt)[#data.foot #h(1fr) #counter(page).display("1 / 1", both: true)],
)
= #data.title
#v(4pt)
#for words in data.cautions [#block(stroke: (left: 3pt), inset: (left: 6pt))[#words]]
#block[#text(size: 8.5pt)[#data.not_proved.join(" ")]]
#v(6pt)
#let plate(one) = layout(room => block(breakable: false, below: 14pt, figure(
  image(one.file, alt: one.alt, width: room.width * calc.min(1, one.fits)),
)))
#columns(2, gutter: 8mm)[#for one in data.narrow { plate(one) }]
#for one in data.wide { plate(one) }
"""


@dataclass(frozen=True, slots=True)
class Paper:
    """What stands on the paper around its pictures.

    Parameters
    ----------
    title : str
        What the brakes are called.
    car : str
        Whose they are; empty when nobody said.
    invented : bool
        Whether the car is invented.
    made_at : datetime
        When it was made; it goes into the file too.
    cautions, not_proved : tuple of str
        What can hurt, and what no figure here proves.
    """

    title: str
    car: str
    invented: bool
    made_at: datetime
    cautions: tuple[str, ...]
    not_proved: tuple[str, ...]


def brake_paper(paper: Paper, plates: Sequence[FilePlate], sheets: Iterable[str]) -> bytes:
    """Write pictures of the brakes as a PDF.

    Parameters
    ----------
    paper : Paper
        What stands around them.
    plates : sequence of FilePlate
        The pictures.
    sheets : iterable of str
        The text of the style sheets that the pages use.

    Raises
    ------
    NotFound
        When what writes PDF is not installed.
    """
    try:
        import typst
    except ImportError as error:
        raise NotFound(
            "what writes PDF is not installed here",
            "install the extra with: pip install 'bareshell[paper]'; a picture as SVG, and the "
            "page's own print, need nothing more",
        ) from error
    looks = tuple(sheets)
    files = {
        f"plate-{number}.svg": svg_file([plate], looks, light="print").encode()
        for number, plate in enumerate(plates, 1)
    }
    data = _data(paper, plates)
    # Its hints speak of one file only; it takes several by name, so nothing touches the disk.
    pieces: Any = {"main.typ": _LAYOUT.encode(), "data.json": json.dumps(data).encode(), **files}
    return typst.compile(pieces, timestamp=int(paper.made_at.timestamp()))


def _data(paper: Paper, plates: Sequence[FilePlate]) -> dict[str, object]:
    laid = [_laid(plate, f"plate-{number}.svg") for number, plate in enumerate(plates, 1)]
    head = f"{paper.car or 'A brake file'}, {paper.made_at:%d %b %Y}"
    if paper.invented and "invented" not in head:
        head += ", an invented car"
    return {
        "title": paper.title,
        "head": head,
        "foot": "Calculations on what was entered; they prove nothing of the car.",
        "cautions": list(paper.cautions),
        "not_proved": [f"{words[:1].upper()}{words[1:]}." for words in paper.not_proved],
        "narrow": [one for one, wide in laid if not wide],
        "wide": [one for one, wide in laid if wide],
    }


def _laid(plate: FilePlate, name: str) -> tuple[dict[str, object], bool]:
    found = _SIZE.search(plate.drawing)
    width, height = (float(side) for side in found.groups()) if found else (1.0, 1.0)
    wide = width > _WIDE_PX
    # As wide as there is room for, unless it were then higher than the page.
    fits = _TALLEST[wide] * width / height
    alt = f"{plate.title}. {plate.caption} {alt_of(plate.drawing)}"
    return {"file": name, "alt": alt, "fits": fits}, wide
