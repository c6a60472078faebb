"""``bareshell brakes begin|show|set|weigh|read|yardsticks``: a build's brakes, written down."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

import click

from bareshell.cli.brakes_asked import answered, file_argument, system_option
from bareshell.cli.common import build_option, find_build, json_option, show
from bareshell.errors import BadInput, NotFound

if TYPE_CHECKING:
    from bareshell.app.door import Door
    from bareshell.app.filled import Fields
    from bareshell.app.written import Pen, Written
    from bareshell.model.brake import ReadingKind
    from bareshell.whole.brake_circuit import CircuitView, ThingView


def told(folder: Path | None, act: Callable[[Door, Pen], Written], *, offers: bool = False) -> None:
    """Write something down and say what came of it; where asked, what the record then lacks."""
    from bareshell.app.brakes_proofs import offer_of
    from bareshell.app.door import Door
    from bareshell.app.written import Pen

    with Door.open(find_build(folder)) as door:
        click.echo(act(door, Pen()).said)
        offer = offer_of(door) if offers else ""
    if offer:
        click.echo(f"{offer} 'bareshell brakes owe' and 'bareshell brakes needs' show them.")


# --- beginning -----------------------------------------------------------------------------------


@click.command("begin")
@click.argument("begin_from", metavar="STARTER|FILE.toml", required=False)
@build_option
@click.option(
    "--role",
    type=click.Choice(["as built", "standard", "idea"]),
    help="What they stand for; the file's own, else as built.",
)
@click.option("--title", default="", help="What you call them.")
@click.option("--driver-on", type=click.Choice(["right", "left"]), default="right")
@click.option(
    "--threads",
    type=click.Choice(["not known", "inch", "metric"]),
    default="not known",
    show_default=True,
    help="inch is 3/8-24 UNF throughout, metric is M10x1 throughout.",
)
@click.option("--wheelbase", default="", metavar="LENGTH", help="Such as '2311 mm' or '91 in'.")
@click.option("--track", default="", metavar="LENGTH")
def begin(
    begin_from: str | None,
    folder: Path | None,
    role: str | None,
    title: str,
    driver_on: str,
    threads: str,
    wheelbase: str,
    track: str,
) -> None:
    """Describe the brakes of a build, from a starter or a brake file.

    Without a name the starters are listed.
    """
    from bareshell.app import brakes_desk
    from bareshell.brakes.starters import STARTERS

    if begin_from is None:
        for one in STARTERS.values():
            click.echo(f"  {one.name}: {one.words}")
        return
    said = {"role": role or "", "title": title}
    if begin_from.endswith(".toml"):
        from bareshell.app.brake_files import LARGEST_BYTES, text_of

        path = Path(begin_from)
        if not path.is_file():
            raise NotFound(f"there is no file '{path}'", "name a brake file that is there")
        with path.open("rb") as opened:
            text = text_of(opened.read(LARGEST_BYTES + 1), path.name)
        told(
            folder,
            lambda d, pen: brakes_desk.begin_from_file(d, text, fields_of(said), pen),
            offers=True,
        )
        return
    said |= {
        "starter": _starter(begin_from, tuple(STARTERS)),
        "role": role or "as built",
        "driver_on": driver_on,
        "threads": "" if threads == "not known" else threads,
        "wheelbase": wheelbase,
        "track": track,
    }
    told(
        folder, lambda d, pen: brakes_desk.begin_from_starter(d, fields_of(said), pen), offers=True
    )


def _starter(said: str, known: Sequence[str]) -> str:
    """Return the starter that was meant: hyphens and blanks are one in a terminal."""
    plain = said.casefold().replace("-", " ")
    return next((name for name in known if name.replace("-", " ") == plain), said)


def fields_of(said: dict[str, str]) -> Fields:
    """Lay what was said out as the fields of a form; what was not said is left out."""
    return {name: (value,) for name, value in said.items() if value}


# --- looking and correcting ----------------------------------------------------------------------


@click.command("show")
@file_argument
@build_option
@system_option
@click.option("--thing", "thing_id", default="", metavar="ID", help="One part or line, opened up.")
@json_option
def show_parts(
    file: Path | None, folder: Path | None, system_id: str, thing_id: str, *, as_json: bool
) -> None:
    """List every part and line, and how much of each is known; or open one up."""
    from bareshell.app import brakes_of_file, brakes_reading
    from bareshell.cli.brakes_record_text import circuit_text, thing_text

    if thing_id:
        thing: ThingView = answered(
            folder,
            file,
            lambda path, now: brakes_of_file.thing(path, now, thing_id),
            lambda door: brakes_reading.thing(door, system_id, thing_id),
        )
        show(thing, as_json=as_json, text=lambda: thing_text(thing))
        return
    found: CircuitView = answered(
        folder, file, brakes_of_file.circuit, lambda door: brakes_reading.circuit(door, system_id)
    )
    show(found, as_json=as_json, text=lambda: circuit_text(found))


@click.command("set")
@click.argument("path", metavar="PART.FIGURE")
@click.argument("value", nargs=-1, required=True)
@build_option
@system_option
def set_value(path: str, value: tuple[str, ...], folder: Path | None, system_id: str) -> None:
    """Write one figure or choice of a part or line down.

    A figure takes a unit, a range, and how it is known: 'master.bore 3/4 in, marked on the part';
    'caliper-front-left.pad_friction 0.38 (0.34 to 0.42)'. 'unknown' takes it away again.
    """
    from bareshell.app.brakes_figures import set_figure

    if "." not in path:
        raise BadInput(
            "PART.FIGURE", f"'{path}' names no figure", "write it as 'master.bore'; show lists them"
        )
    told(
        folder,
        lambda door, pen: set_figure(door, system_id, path, " ".join(value), pen),
        offers=True,
    )


@click.command("weigh")
@click.option("--front", required=True, help="On the front axle, level: '505 kg', '1113 lb'.")
@click.option("--rear", required=True, help="On the rear axle, level.")
@click.option("--raised-front", default="", help="On the front axle, the rear raised.")
@click.option("--rise", default="", help="How far the rear wheels were raised: '600 mm'.")
@click.option("--laden", is_flag=True, help="Fully laden; else with the driver's weight only.")
@build_option
@system_option
def weigh_car(
    front: str,
    rear: str,
    raised_front: str,
    rise: str,
    folder: Path | None,
    system_id: str,
    *,
    laden: bool,
) -> None:
    """Write down what weighing the car gives: mass, share, height of the centre of gravity.

    Chock the wheels that stay down, block the springs, and be clear of a raised car.
    """
    from bareshell.app.brakes_weighed import weigh

    fields = {
        "front": (front,),
        "rear": (rear,),
        "raised_front": (raised_front,),
        "rise": (rise,),
        "load": ("laden",) if laden else (),
    }
    told(folder, lambda door, pen: weigh(door, system_id, fields, pen))


# --- readings ------------------------------------------------------------------------------------


@click.command("read")
@click.argument("kind", required=False)
@click.argument("said", metavar="[NAME=VALUE]...", nargs=-1)
@build_option
@system_option
@click.option("--when", default="", help="Only if not just now: 'yesterday 21:00'.")
@click.option("--words", default="", help="What was seen.")
@click.option("--by", default="", help="Who read it.")
@click.option("--wet", multiple=True, metavar="JOINT", help="Of a hold: a joint that was wet.")
@click.option(
    "--prove", is_flag=True, help="Of a hold over night: hold the proof of each dry joint by it."
)
@click.option(
    "--air", multiple=True, metavar="CIRCUIT", help="Of a pedal test: hold its air proof by it."
)
@click.option("--screws", is_flag=True, help="Of a pedal test: every bleed screw was seen dry.")
def read(
    kind: str | None,
    said: tuple[str, ...],
    folder: Path | None,
    system_id: str,
    when: str,
    words: str,
    by: str,
    wet: tuple[str, ...],
    air: tuple[str, ...],
    *,
    prove: bool,
    screws: bool,
) -> None:
    """Write a reading down, such as 'read decelerometer deceleration_g=0.62'.

    Without a kind, or without a figure, it says what can be read and in what.
    """
    from bareshell.app.brakes_readings import KINDS, reading_form
    from bareshell.cli.brakes_record_text import kinds_text, reading_text

    if kind is None:
        for line in kinds_text({one.value: words for one, words in KINDS.items()}):
            click.echo(line)
        return
    named = _kind(kind)
    form = reading_form(named)
    if not said:
        for line in reading_text(form):
            click.echo(line)
        return
    fields = {**_pairs(said, form.names), "system": (system_id,), "when": (when,)}
    fields |= {"words": (words,), "by": (by,), "wet": wet, "air": air}
    fields |= {"prove": ("yes",) if prove else (), "screws": ("yes",) if screws else ()}
    told(folder, lambda door, pen: _take(door, named, fields, pen))


def _kind(said: str) -> ReadingKind:
    from bareshell.model.brake import ReadingKind

    plain = said.casefold().replace("-", " ")
    for one in ReadingKind:
        if one.value == plain:
            return one
    listed = ", ".join(one.value.replace(" ", "-") for one in ReadingKind)
    raise NotFound(f"there is no reading '{said}'", f"known are {listed}")


def _pairs(said: Sequence[str], names: dict[str, str]) -> dict[str, tuple[str, ...]]:
    """Read NAME=VALUE; a figure's name may go without the letters of its unit."""
    found: dict[str, tuple[str, ...]] = {}
    for each in said:
        name, equals, value = each.partition("=")
        field = names.get(name.strip().replace("-", "_"))
        if not equals or field is None:
            listed = ", ".join(sorted(set(names)))
            raise BadInput(each, "is none of its figures", f"write NAME=VALUE; it may be: {listed}")
        found[field] = (value.strip(),)
    return found


def _take(door: Door, kind: ReadingKind, fields: Fields, pen: Pen) -> Written:
    from bareshell.app import brakes_commission, brakes_readings
    from bareshell.model.brake import ReadingKind

    if kind is ReadingKind.HOLD and (fields["wet"] or fields["prove"]):
        return brakes_commission.take_hold(door, fields, pen)
    if kind is ReadingKind.PEDAL_TEST and not any(fields["system"]):
        return brakes_commission.take_pedal_test(door, fields, pen)
    return brakes_readings.take_reading(door, kind, fields, pen)


# --- yardsticks ----------------------------------------------------------------------------------


@click.command("yardsticks")
@click.argument("choose", metavar="[choose [ID]...]", nargs=-1)
@build_option
@click.option("--market", default="", help="Say which were meant for a car like this there.")
@json_option
def yardsticks(choose: tuple[str, ...], folder: Path | None, market: str, *, as_json: bool) -> None:
    """List the yardsticks that results can be held against, or choose some.

    'yardsticks choose ID ID' picks just these; 'yardsticks choose' picks none.
    """
    from bareshell.app import brakes_readings, brakes_yardsticks
    from bareshell.app.door import Door
    from bareshell.cli.brakes_record_text import yardsticks_text

    if choose and choose[0] != "choose":
        raise click.UsageError("Write 'yardsticks choose ID ...', or no more than 'yardsticks'.")
    if choose:
        told(folder, lambda door, pen: brakes_readings.choose_yardsticks(door, choose[1:], pen))
        return
    with Door.open(find_build(folder)) as door:
        found = brakes_yardsticks.yardsticks(door, market)
    show(found, as_json=as_json, text=lambda: yardsticks_text(found))


COMMANDS = (begin, show_parts, set_value, weigh_car, read, yardsticks)
"""What `bareshell brakes` writes down of a build's brakes."""
