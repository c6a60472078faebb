"""``bareshell brakes write|draw``: the brakes as a brake file, as pictures, as paper."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Final

import click

from bareshell.cli.brakes_asked import (
    LOADS,
    answered,
    file_argument,
    force_option,
    load_option,
    road_option,
    system_option,
)
from bareshell.cli.common import build_option, find_build
from bareshell.errors import BadInput

if TYPE_CHECKING:
    from bareshell.app.brakes_plates import DrawnBrakes

WHATS: Final = (
    "plan",
    "failures",
    "travel",
    "pedal",
    "adhesion",
    "distribution",
    "heat",
    "fluid",
    "shares",
    "sensitivity",
    "park",
    "bleed",
    "pipes",
)
"""Every picture, as `bareshell.draw.brake_drawn.PICTURES` has them; a test holds the two alike."""

_ALL: Final = "all"


@click.command("write")
@click.argument("file", metavar="FILE.toml", type=Path)
@build_option
@system_option
@click.option("--short", is_flag=True, help="Only what differs from the starter it began from.")
def write(file: Path, folder: Path | None, system_id: str, *, short: bool) -> None:
    """Write the brakes of a build to a brake file that stands alone."""
    from bareshell.app.brake_files import save_brake_file
    from bareshell.app.door import Door

    with Door.open(find_build(folder)) as door:
        click.echo(f"Written: {save_brake_file(door, system_id, file, short=short)}")


@click.command("draw")
@file_argument
@build_option
@system_option
@click.option("--out", "out", required=True, type=Path, metavar="FILE.svg|FILE.pdf")
@click.option(
    "--what",
    multiple=True,
    type=click.Choice((*WHATS, _ALL)),
    help="Which picture; repeat it. The plan, or all of them on paper, when not said.",
)
@click.option(
    "--light",
    type=click.Choice(["day", "garage", "print"]),
    default="day",
    show_default=True,
    help="Of an SVG: as on the page by day, in the garage, or black on white.",
)
@force_option
@load_option
@road_option
@click.option("--failure", default="", help="With one failure: an id from 'brakes failures'.")
def draw(
    file: Path | None,
    folder: Path | None,
    system_id: str,
    out: Path,
    what: tuple[str, ...],
    light: str,
    force: str,
    load: str,
    road: float,
    failure: str,
) -> None:
    """Draw the brakes to a file: SVG that needs nothing beside it, or PDF with every picture."""
    from bareshell.app import brakes_plates
    from bareshell.units import parse_force
    from bareshell.whole.brake_check import Asked

    kind = out.suffix.casefold()
    if kind not in (".svg", ".pdf"):
        raise BadInput("--out", f"'{out.name}' is neither SVG nor PDF", "name FILE.svg or FILE.pdf")
    asked = Asked(parse_force(force, "force"), LOADS[load], road, failure)
    named = what or ((_ALL,) if kind == ".pdf" else ("plan",))
    whats = () if _ALL in named else named
    found = answered(
        folder,
        file,
        lambda path, now: brakes_plates.drawn_of_file(path, now, whats, asked),
        lambda door: brakes_plates.drawn(door, whats, system_id, asked),
    )
    content = _pdf(found) if kind == ".pdf" else _svg(found, light)
    saved = brakes_plates.save(content, out)
    for plate in found.plates:
        click.echo(f"  {plate.title}: {plate.caption}")
    click.echo(f"Written: {saved}")


def _svg(found: DrawnBrakes, light: str) -> str:
    from bareshell.app.brakes_plates import as_svg
    from bareshell.web.sheets import drawing_sheets

    return as_svg(found, drawing_sheets(), light)  # type: ignore[arg-type]


def _pdf(found: DrawnBrakes) -> bytes:
    from bareshell.app.brakes_plates import as_pdf
    from bareshell.web.sheets import drawing_sheets

    return as_pdf(found, drawing_sheets())


COMMANDS = (write, draw)
"""What `bareshell brakes` hands out as files."""
