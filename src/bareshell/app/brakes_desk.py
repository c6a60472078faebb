"""The brakes as a build describes them: begun, brought in, copied to an idea, dropped."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Literal, cast

from bareshell.app.brake_files import read_brakes
from bareshell.app.brakes_figures import with_figure
from bareshell.app.brakes_found import system_of
from bareshell.app.door import Door
from bareshell.app.filled import Fields, Filled
from bareshell.app.written import Pen, Written, filled, new_key, said_before, write_down
from bareshell.brakes.sketch import TRACK_M, WHEELBASE_M, Threads
from bareshell.brakes.starters import STARTERS, starter
from bareshell.brakes.typed import read_one
from bareshell.model import Build
from bareshell.model import changes as c
from bareshell.model.brake import BrakeSystem, PartKind, Role, field_of

SIDES: Mapping[str, str] = {"right": "on the right", "left": "on the left"}
THREADS: Mapping[str, str] = {
    "": "not known, or mixed",
    "inch": "3/8-24 UNF throughout",
    "metric": "M10x1 throughout",
}

_TITLES = {
    Role.AS_BUILT: "As built",
    Role.STANDARD: "As it left the works",
    Role.IDEA: "An idea",
}


# --- beginning -------------------------------------------------------------------------------


def begin_from_starter(door: Door, fields: Fields, pen: Pen) -> Written:
    """Describe brakes by beginning from a starter.

    The fields are ``starter``, ``role``, ``title``, ``driver_on``, ``threads``, ``wheelbase``
    and ``track``; a length that is not said leaves the drawing as the invented car has it and the
    figure unknown.
    """
    form, build = filled(door, fields), door.build()
    name = form.text("starter")
    if name not in STARTERS:
        form.wrong("starter", f"'{name}' is none of them", "choose " + ", ".join(STARTERS))
    role = form.choice("role", "what they stand for", Role, Role.AS_BUILT)
    title = form.text("title") or _TITLES[role]
    wheelbase = _length(form, "wheelbase", "wheelbase_m")
    track = _length(form, "track", "front_track_m")
    side = _word(form, "driver_on", "steering wheel", SIDES, "right")
    threads = _word(form, "threads", "threads", THREADS, "")
    form.check()
    system = starter(
        name,
        system_id=_key(door, build, role, title, pen),
        title=title,
        role=role,
        driver_on=cast("Literal['right', 'left']", side),
        wheelbase_m=wheelbase or WHEELBASE_M,
        track_m=track or TRACK_M,
        threads=cast("Threads", threads),
    )
    for name, typed in (("wheelbase_m", "wheelbase"), ("front_track_m", "track")):
        if form.has(typed):
            system = with_figure(system, f"car.{name}", f"{form.text(typed)}, measured")
    said = f"'{title}' begins from the starter '{form.text('starter')}'. Its figures are asked for."
    return write_down(door, c.BrakeSystemSet(system), pen, said)


def begin_from_file(door: Door, text: str, fields: Fields, pen: Pen) -> Written:
    """Describe brakes as a brake file has them.

    Parameters
    ----------
    door : Door
        The build.
    text : str
        The brake file.
    fields : mapping
        ``role`` and ``title``, where they are not to be the file's own.
    pen : Pen
        Who writes.

    Raises
    ------
    BadInput
        With every problem of the file.
    """
    form, build = filled(door, fields), door.build()
    system = read_brakes(text).system
    role = form.choice("role", "what they stand for", Role, system.role)
    title = form.text("title") or system.title
    form.check()
    there = build.brakes.get(system.id)
    # A file that was written out of this build and comes back as something else is another set.
    other = there is not None and there.role is not role
    key = _key(door, build, role, title, pen) if other else system.id
    taken = replace(system, id=key, role=role, title=title)
    said = f"'{title}' is written down: {len(taken.parts)} parts, {len(taken.lines)} lines."
    return write_down(door, c.BrakeSystemSet(taken), pen, said)


def copy_to_idea(door: Door, system_id: str, fields: Fields, pen: Pen) -> Written:
    """Copy brakes to an idea, with one figure or choice changed if the form says one.

    The fields are ``title``, ``path`` (``master.bore_m``) and ``figure`` as it is typed.
    """
    form, build = filled(door, fields), door.build()
    system = system_of(build, system_id)
    title = form.text("title") or f"Idea: {system.title}"
    path, figure = form.text("path"), form.text("figure")
    if bool(path) != bool(figure):
        form.wrong("change", "one half of it is missing", "say what is changed and to what")
    form.check()
    idea = replace(
        system,
        id=new_key(door, "brakes", title, build.brakes, pen.entry_id),
        title=title,
        role=Role.IDEA,
        note=f"Copied from '{system.title}'.",
    )
    if path:
        idea = with_figure(idea, path, figure)
    return write_down(door, c.BrakeSystemSet(idea), pen, f"'{title}' is there to be tried.")


# --- correcting and dropping -----------------------------------------------------------------


def lay_system(system: BrakeSystem) -> dict[str, tuple[str, ...]]:
    """Lay the name of brakes, and what they stand for, out as the fields of a form."""
    return {
        "title": (system.title,),
        "role": (system.role.value,),
        "mark": (system.mark,),
        "note": (system.note,),
    }


def describe_system(door: Door, system_id: str, fields: Fields, pen: Pen) -> Written:
    """Correct what brakes are called and stand for."""
    form, system = filled(door, fields), system_of(door.build(), system_id)
    title = form.text("title", "what you call them")
    role = form.choice("role", "what they stand for", Role, system.role)
    form.check()
    after = replace(system, title=title, role=role, mark=form.text("mark"), note=form.text("note"))
    return write_down(door, c.BrakeSystemSet(after), pen, f"'{title}' is written down.")


def drop_system(door: Door, system_id: str, fields: Fields, pen: Pen) -> Written:
    """Drop the description of brakes; the record keeps it."""
    if before := said_before(door, f"brakes:{system_id}", pen):
        return before
    title = system_of(door.build(), system_id).title
    words = filled(door, fields).text("words")
    said = f"'{title}' is dropped."
    return write_down(door, c.BrakeSystemDropped(system_id, words), pen, said)


def _key(door: Door, build: Build, role: Role, title: str, pen: Pen) -> str:
    name = {Role.AS_BUILT: "as-built", Role.STANDARD: "standard", Role.IDEA: title}[role]
    return new_key(door, "brakes", name, build.brakes, pen.entry_id)


def _length(form: Filled, name: str, figure: str) -> float | None:
    typed = form.text(name)
    if not typed:
        return None
    field = field_of(PartKind.CAR, figure)
    return form.attempt(lambda: read_one(typed, field, field.words)[0], None)


def _word(form: Filled, name: str, what: str, words: Mapping[str, str], otherwise: str) -> str:
    said = form.text(name) or otherwise
    if said not in words:
        form.wrong(what, f"'{said}' is none of its words", f"choose {' or '.join(words)}")
        return otherwise
    return said
