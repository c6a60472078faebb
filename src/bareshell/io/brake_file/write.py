"""Writing a brake file: whole, or as what differs from a starter."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Literal, cast

from bareshell.brakes.sketch import TRACK_M, WHEELBASE_M, Threads
from bareshell.brakes.starters import STARTERS, starter
from bareshell.io.brake_file.merge import differences
from bareshell.io.brake_file.pieces import write_line, write_part
from bareshell.io.brake_file.read import FORMAT, read_brake_file
from bareshell.io.build_file.kinds import Plain
from bareshell.io.build_file.layout import table_text
from bareshell.model.brake import BrakeSystem, Role

__all__ = ["shortest_brake_file", "write_brake_file", "write_brake_system"]

_OPENING = """\
# A bareshell brake file: the brakes of one car. Every key is explained in docs/brake-file.md.
# What is not written is not known, and is asked for or carried as assumed with its range.
"""


def write_brake_system(system: BrakeSystem) -> dict[str, Plain]:
    """Return brakes as a mapping that TOML can hold, in its canonical form.

    Parameters
    ----------
    system : BrakeSystem
        What is written.

    Examples
    --------
    >>> held = write_brake_system(starter("diagonal tandem"))
    >>> held["id"], [line["id"] for line in held["line"]][:2]
    ('as-built', ['pipe-primary', 'hose-front-left'])
    """
    return {
        **_top(system),
        "part": [write_part(part) for part in system.parts],
        "line": [write_line(line) for line in system.lines],
    }


def write_brake_file(
    system: BrakeSystem,
    *,
    start: str = "",
    driver_on: Literal["right", "left"] = "right",
    threads: Threads = "",
) -> str:
    """Write brakes as a brake file.

    Parameters
    ----------
    system : BrakeSystem
        What is written.
    start : str
        A starter to begin from: only what differs is written. Empty for the whole.
    driver_on, threads
        As `starter` takes them.

    Returns
    -------
    str
        The text. When the differences cannot be told apart from the starter, the whole is
        written instead, so that reading always gives the same brakes.

    Examples
    --------
    >>> from bareshell.brakes.starters import starter
    >>> text = write_brake_file(starter("single line"), start="single line")
    >>> print(text.splitlines()[-1])
    title = "As it is on the car"
    """
    if start:
        text = _from_starter(system, start, driver_on, threads)
        if text is not None and read_brake_file(text).system == system:
            return text
    top: dict[str, Plain] = {"format": FORMAT, **_top(system)}
    whole = write_brake_system(system)
    return _text(top, {name: _tables(whole[name]) for name in ("part", "line")})


def shortest_brake_file(system: BrakeSystem) -> str:
    """Write brakes as the shortest brake file there is, from whichever starter is nearest.

    Parameters
    ----------
    system : BrakeSystem
        What is written.
    """
    sides: tuple[Literal["right", "left"], ...] = ("right", "left")
    families: tuple[Threads, ...] = ("", "inch", "metric")
    texts = [
        text
        for name in STARTERS
        for side in sides
        for family in families
        if (text := _from_starter(system, name, side, family)) is not None
    ]
    for text in sorted(texts, key=len):
        if read_brake_file(text).system == system:
            return text
    return write_brake_file(system)


def _top(system: BrakeSystem) -> dict[str, Plain]:
    top: dict[str, Plain] = {"id": system.id, "title": system.title}
    if system.role is not Role.AS_BUILT:
        top["role"] = system.role.value
    named = {"mark": system.mark, "note": system.note}
    return top | {key: words for key, words in named.items() if words}


def _from_starter(
    system: BrakeSystem, start: str, driver_on: Literal["right", "left"], threads: Threads
) -> str | None:
    base = starter(
        start,
        driver_on=driver_on,
        wheelbase_m=_of_car(system, "wheelbase_m", WHEELBASE_M),
        track_m=_of_car(system, "front_track_m", TRACK_M),
        threads=threads,
    )
    top: dict[str, Plain] = {"format": FORMAT, "start": start}
    if driver_on == "left":
        top["driver_on"] = driver_on
    if threads:
        top["threads"] = threads
    top |= {key: each for key, each in _top(system).items() if key not in ("mark", "note")}
    for key in ("mark", "note"):
        if getattr(system, key) != getattr(base, key):
            top[key] = getattr(system, key)
    gone: list[Plain] = [each for each in _ids(base) if each not in _ids(system)]
    if gone:
        top["without"] = gone
    parts = _changed(
        {part.id: write_part(part) for part in base.parts},
        {part.id: write_part(part) for part in system.parts},
    )
    lines = _changed(
        {line.id: write_line(line) for line in base.lines},
        {line.id: write_line(line) for line in system.lines},
    )
    return _text(top, {"part": parts, "line": lines})


def _ids(system: BrakeSystem) -> tuple[str, ...]:
    return (*(part.id for part in system.parts), *(line.id for line in system.lines))


def _of_car(system: BrakeSystem, name: str, otherwise: float) -> float:
    for part in system.parts:
        if part.id == "car" and name in part.figures:
            return part.figures[name].value
    return otherwise


def _changed(
    base: Mapping[str, dict[str, Plain]], own: Mapping[str, dict[str, Plain]]
) -> list[dict[str, Plain]]:
    found: dict[str, dict[str, Plain]] = {}
    for key, table in own.items():
        written = differences(base[key], table) if key in base else None
        if written is None:
            found[key] = table
        elif len(written) > 1:
            found[key] = written
    return _pairs_together(found, tuple(base))


def _pairs_together(
    changed: Mapping[str, dict[str, Plain]], known: Sequence[str]
) -> list[dict[str, Plain]]:
    """Write what differs alike on the left and on the right once, for both."""
    done: set[str] = set()
    found: list[dict[str, Plain]] = []
    for key, table in changed.items():
        if key in done:
            continue
        stem = key.removesuffix("-left")
        pair = [each for each in known if each.startswith(f"{stem}-")]
        alike = (
            stem != key
            and stem not in known
            and len(pair) == 2
            and all(_without_id(changed.get(each)) == _without_id(table) for each in pair)
            and "kind" not in table
        )
        if alike:
            done.update(pair)
            found.append({**table, "id": stem})
        else:
            found.append(table)
    return found


def _without_id(table: Mapping[str, Plain] | None) -> dict[str, Plain] | None:
    return None if table is None else {key: each for key, each in table.items() if key != "id"}


def _tables(value: Plain) -> list[dict[str, Plain]]:
    return cast("list[dict[str, Plain]]", value)


def _text(top: Mapping[str, Plain], sections: Mapping[str, list[dict[str, Plain]]]) -> str:
    pieces = [_OPENING, table_text(top)]
    for name, tables in sections.items():
        pieces += [f"\n[[{name}]]\n{table_text(table)}" for table in tables]
    return "".join(pieces)
