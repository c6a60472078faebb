"""Pictures of the brakes of a build or of a brake file, as plates for a file or for paper."""

from __future__ import annotations

from collections.abc import Collection, Iterable
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING

from bareshell.app import brakes_reading as reading
from bareshell.app.brake_files import open_brake_file
from bareshell.app.brakes_found import system_of, with_role
from bareshell.app.brakes_heat import heat, heat_of_file
from bareshell.app.brakes_trust import trust, trust_of_file
from bareshell.app.door import Door
from bareshell.errors import BadInput
from bareshell.model.brake import Role
from bareshell.store.faults import in_words
from bareshell.store.files import whole
from bareshell.whole.brake_check import Asked
from bareshell.whole.brake_park import ParkAsked, park_view

if TYPE_CHECKING:
    from bareshell.draw.brake_drawn import ToDraw
    from bareshell.draw.brake_file import FilePlate, Light

__all__ = ["DrawnBrakes", "as_pdf", "as_svg", "drawn", "drawn_of_file", "save"]


@dataclass(frozen=True, slots=True)
class DrawnBrakes:
    """Pictures of one set of brakes, and whose they are.

    Parameters
    ----------
    title : str
        What the brakes are called.
    car : str
        Whose they are; empty for a brake file alone.
    invented : bool
        Whether the build says that it is invented.
    made_at : datetime
        When they were drawn.
    plates : tuple of FilePlate
        In the order of `bareshell.draw.brake_drawn.PICTURES`.
    cautions, not_proved : tuple of str
        What stands beside them.
    """

    title: str
    car: str
    invented: bool
    made_at: datetime
    plates: tuple[FilePlate, ...]
    cautions: tuple[str, ...]
    not_proved: tuple[str, ...]


def drawn(
    door: Door,
    whats: Iterable[str] = (),
    system_id: str = "",
    asked: Asked = Asked(),  # noqa: B008
    without: Collection[str] = (),
) -> DrawnBrakes:
    """Draw pictures of a build's brakes.

    Parameters
    ----------
    door : Door
        The build.
    whats : iterable of str
        Which pictures; every one that can be drawn when none is named.
    system_id : str
        Which brakes; empty for those on the car.
    asked : Asked
        The push, load, road and failure that they are drawn for.
    without : collection of str
        Pictures to leave out where none is named.

    Raises
    ------
    NotFound, BadInput
        When there are no brakes or no such picture, or figures for one that was named are missing.
    """
    from bareshell.draw.brake_drawn import ToDraw

    build = door.build()
    system = system_of(build, system_id)
    standard = with_role(build, Role.STANDARD)
    beside = standard if standard is not None and standard.id != system.id else None
    whole_asked = Asked(asked.pedal_force_n, asked.load, asked.friction_of_road)
    return _drawn(
        ToDraw(
            system,
            reading.check(door, system.id, asked),
            reading.park(door, system.id),
            lambda: heat(door, system.id),
            lambda: trust(door, system.id),
            beside,
            reading.check(door, beside.id, whole_asked) if beside else None,
            build.departures,
            reading.picked(build) or (),
        ),
        whats,
        without,
    )


def drawn_of_file(
    path: Path,
    made_at: datetime,
    whats: Iterable[str] = (),
    asked: Asked = Asked(),  # noqa: B008
) -> DrawnBrakes:
    """Draw pictures of the brakes of a brake file.

    Raises
    ------
    NotFound, BadInput
        When there is no such file or picture, it cannot be read, or figures are missing.
    """
    from bareshell.draw.brake_drawn import ToDraw

    system = open_brake_file(path).system
    head = reading.file_head(system, made_at)
    check = reading.checked(system, head, asked, None)
    return _drawn(
        ToDraw(
            system,
            check,
            park_view(system, head, ParkAsked()),
            lambda: heat_of_file(path, made_at),
            lambda: trust_of_file(path, made_at),
        ),
        whats,
    )


def _drawn(of: ToDraw, whats: Iterable[str], without: Collection[str] = ()) -> DrawnBrakes:
    from bareshell.draw.brake_drawn import draw_plate, every_plate

    named = tuple(dict.fromkeys(whats))
    if named:
        plates = tuple(plate for what in named for plate in draw_plate(what, of))
    else:
        plates = tuple(plate for _, found in every_plate(of, without) for plate in found)
    check = of.check
    return DrawnBrakes(
        check.title,
        check.car,
        check.invented,
        check.made_at,
        plates,
        check.cautions,
        check.not_proved,
    )


def as_svg(found: DrawnBrakes, sheets: Iterable[str], light: Light = "day") -> str:
    """Write pictures as one SVG document that needs nothing beside it.

    Parameters
    ----------
    found : DrawnBrakes
        The pictures.
    sheets : iterable of str
        The text of the style sheets that the pages use.
    light : {'day', 'garage', 'print'}
        Which light.

    Raises
    ------
    BadInput
        When there is nothing to draw.
    """
    from bareshell.draw.brake_file import svg_file

    if not found.plates:
        raise BadInput("pictures", "there is nothing to draw", "enter the brakes first")
    return svg_file(found.plates, sheets, light=light)


def as_pdf(found: DrawnBrakes, sheets: Iterable[str]) -> bytes:
    """Write pictures as a PDF, each with the sentence that stands for it.

    Parameters
    ----------
    found : DrawnBrakes
        The pictures.
    sheets : iterable of str
        The text of the style sheets that the pages use.

    Raises
    ------
    BadInput
        When there is nothing to draw.
    NotFound
        When what writes PDF is not installed.
    """
    from bareshell.report.brake_paper import Paper, brake_paper

    if not found.plates:
        raise BadInput("pictures", "there is nothing to draw", "enter the brakes first")
    paper = Paper(
        found.title,
        found.car,
        found.invented,
        found.made_at,
        found.cautions,
        found.not_proved,
    )
    return brake_paper(paper, found.plates, sheets)


def save(content: str | bytes, path: Path) -> Path:
    """Write a picture or a paper to a file, whole or not at all.

    Raises
    ------
    BareshellError
        When the disk refuses.
    """
    data = content.encode() if isinstance(content, str) else content
    with in_words(f"'{path.name}' was not written"), whole(path) as beside:
        beside.write_bytes(data)
    return path
