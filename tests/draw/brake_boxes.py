"""Read a picture back: where its words stand, which classes it uses, how long its lines are."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import combinations
from xml.etree import ElementTree as ET

from bareshell.draw.brake_sheet import Box, words_box


@dataclass(frozen=True)
class Spot:
    """A place in the picture's own space: moved and scaled by the groups around it."""

    x: float = 0.0
    y: float = 0.0
    across: float = 1.0
    along: float = 1.0

    def at(self, x: float, y: float) -> tuple[float, float]:
        return self.x + x * self.across, self.y + y * self.along

    def inside(self, transform: str | None) -> Spot:
        here = self
        for what, numbers in re.findall(r"(\w+)\(([^)]*)\)", transform or ""):
            values = [float(each) for each in numbers.split()]
            if what == "translate":
                x, y = here.at(values[0], values[1])
                here = Spot(x, y, here.across, here.along)
            elif what == "scale":
                second = values[1] if len(values) > 1 else values[0]
                here = Spot(here.x, here.y, here.across * values[0], here.along * second)
        return here


def read(drawing: str) -> ET.Element:
    """Read a drawing as strictly as any program would."""
    return ET.fromstring(drawing)  # noqa: S314  our own drawing


def walk(node: ET.Element, spot: Spot | None = None) -> Iterator[tuple[ET.Element, Spot]]:
    """Every element with the space it is drawn in."""
    here = (spot or Spot()).inside(node.get("transform"))
    yield node, here
    for child in node:
        yield from walk(child, here)


def size(drawing: str) -> Box:
    """The picture's own space."""
    _, _, width, height = (float(each) for each in read(drawing).get("viewBox", "").split())
    return Box(0.0, 0.0, width, height)


def word_boxes(drawing: str) -> list[tuple[str, Box]]:
    """Every line of words with the room it takes."""
    found = []
    for node, spot in walk(read(drawing)):
        if node.tag.endswith("text"):
            x, y = spot.at(float(node.get("x", 0)), float(node.get("y", 0)))
            words = "".join(node.itertext())
            slab = "t-name" in node.get("class", "")
            found.append((words, words_box(x, y, words, node.get("text-anchor"), slab=slab)))
    return found


def overlapping(drawing: str) -> list[tuple[str, str]]:
    """Words that lie on other words; a pixel is forgiven, since the widths are reckoned high."""
    found = []
    for (one, a), (two, b) in combinations(word_boxes(drawing), 2):
        across = min(a.right, b.right) - max(a.left, b.left)
        along = min(a.bottom, b.bottom) - max(a.top, b.top)
        if across > 1.0 and along > 3.0:
            found.append((one, two))
    return found


def outside(drawing: str) -> list[str]:
    """Words that leave the picture, by more than a pixel."""
    whole = size(drawing)
    roomy = Box(whole.left - 1, whole.top - 1, whole.right + 1, whole.bottom + 1)
    return [words for words, box in word_boxes(drawing) if not roomy.holds(box)]


def of_class(drawing: str, name: str) -> list[tuple[ET.Element, Spot]]:
    """Every element that carries a class."""
    return [(n, s) for n, s in walk(read(drawing)) if name in n.get("class", "").split()]


def classes(drawing: str) -> set[str]:
    """Every class that a picture uses."""
    return {name for node in read(drawing).iter() for name in node.get("class", "").split()}


def points(d: str) -> list[tuple[float, float]]:
    """The corners of a path of straight lines in absolute coordinates."""
    found: list[tuple[float, float]] = []
    for letter, rest in re.findall(r"([MLHVZ])([^MLHVZ]*)", d):
        numbers = [float(each) for each in rest.replace(",", " ").split()]
        if letter in "ML":
            found += [(numbers[i], numbers[i + 1]) for i in range(0, len(numbers), 2)]
        elif letter == "H":
            found.append((numbers[0], found[-1][1]))
        elif letter == "V":
            found.append((found[-1][0], numbers[0]))
    return found
