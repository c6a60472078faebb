"""What a fixing is relied on for, as the fields of a form; what is unknown stays empty."""

from __future__ import annotations

from functools import partial
from typing import Final, TypeVar

from bareshell.app.filled import Filled
from bareshell.model import Build
from bareshell.model.duty import Duty, LoadPath, Lubrication, Seat
from bareshell.units import parse_force, parse_length

LENGTHS: Final = (
    ("fork_ply_m", "ply that holds it"),
    ("eye_ply_m", "ply that pulls"),
    ("side_gap_m", "gap between them"),
    ("hole_m", "hole"),
)
"""The lengths of a joint and what a person calls them."""

TURNS: Final = (("yes", "something turns on it"), ("no", "it stays still"))
"""Whether something moves on it; empty is not known."""


def lay_duty(duty: Duty | None) -> dict[str, tuple[str, ...]]:
    """Lay a duty out as the fields of a form.

    Examples
    --------
    >>> lay_duty(Duty(LoadPath.HANDBRAKE, load_n=1500.0))["duty_load_n"]
    ('1500 N',)
    """
    said = duty or Duty()
    turns = {True: "yes", False: "no", None: ""}
    laid: dict[str, tuple[str, ...]] = {
        "duty_load_path": (said.load_path.value if said.load_path else "",),
        "duty_gate": (said.gate,),
        "duty_load_n": (f"{said.load_n:.6g} N" if said.load_n is not None else "",),
        "duty_shear_planes": (str(said.shear_planes or ""),),
        "duty_turns": (turns[said.turns],),
        "duty_seat": (said.seat.value if said.seat else "",),
        "duty_lubrication": (said.lubrication.value if said.lubrication else "",),
    }
    for name, _ in LENGTHS:
        value = getattr(said, name)
        laid[f"duty_{name}"] = (f"{value * 1000:.6g} mm" if value is not None else "",)
    return laid


def read_duty(form: Filled, build: Build) -> Duty | None:
    """Read a duty back; None when nothing was said of it.

    Parameters
    ----------
    form : Filled
        As it was filled in.
    build : Build
        For the gates that may be named.
    """
    path = _word(form, "duty_load_path", "what is relied on it", LoadPath)
    seat = _word(form, "duty_seat", "what it draws together", Seat)
    lubrication = _word(form, "duty_lubrication", "on its thread", Lubrication)
    gate = form.text("duty_gate")
    if gate and gate not in build.gates:
        form.wrong("right one in before", f"there is no gate '{gate}'", "choose one from the list")
        gate = ""
    load = form.text("duty_load_n")
    force = partial(parse_force, load, "greatest load across it", bare="N")
    lengths = {name: _length(form, f"duty_{name}", label) for name, label in LENGTHS}
    duty = Duty(
        path,
        gate,
        form.attempt(force, None) if load else None,
        form.whole("duty_shear_planes", "shear planes", 1, 2),
        turns={"yes": True, "no": False}.get(form.text("duty_turns")),
        seat=seat,
        lubrication=lubrication,
        **lengths,
    )
    return None if duty == Duty() else duty


Word = TypeVar("Word", LoadPath, Seat, Lubrication)


def _word(form: Filled, name: str, label: str, among: type[Word]) -> Word | None:
    """Read one of a list of words, or the one that begins so; None when it is not said."""
    said = form.text(name)
    if not said:
        return None
    begin = [one for one in among if one.value == said] or [
        one for one in among if said.casefold() in one.value
    ]
    if len(begin) == 1:
        return begin[0]
    listed = ", ".join(one.value for one in begin or among)
    form.wrong(label, f"'{said}' is {'several' if begin else 'none'}", f"choose one: {listed}")
    return None


def _length(form: Filled, name: str, label: str) -> float | None:
    said = form.text(name)
    return form.attempt(partial(parse_length, said, label, bare="mm"), None) if said else None
