"""The proofs of the brakes on the car: owed when a person says so, spent when a joint is opened."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from bareshell.app.brakes_found import with_role
from bareshell.app.brakes_reading import head_of, kept
from bareshell.app.door import Door
from bareshell.app.filled import Fields
from bareshell.app.written import BEFORE, SETTLE_LATER, Pen, Written, entry_ids, filled, write_down
from bareshell.brakes.joints import Joint, ScrewJoint, joint_schedule
from bareshell.errors import NotFound
from bareshell.model import Build
from bareshell.model.brake import BrakeSystem, Role
from bareshell.whole.brake_opening import OpeningView, address_of, opening_view
from bareshell.whole.brake_owed import OwedView, differences, owed_view, to_write
from bareshell.whole.brake_proofs import circuit_names, joint_proof_id, screw_proof_id
from bareshell.whole.brake_spent import joint_undone, screw_opened, spent_by

NOTHING_TO_OWE = "The record asks for every proof of these brakes already."
"""What is said when saying yes would change nothing."""

UNDONE = "undone"
OPENED = "opened"


def as_built(build: Build) -> BrakeSystem:
    """Return the brakes that are on the car: only they owe anything.

    Raises
    ------
    NotFound
        When the build does not describe them.

    Examples
    --------
    >>> as_built(Build())
    Traceback (most recent call last):
    ...
    bareshell.errors.NotFound: this build does not say what brakes are on the car. Describe them \
as built: on the page of the brakes, or with 'bareshell brakes begin'.
    """
    found = with_role(build, Role.AS_BUILT)
    if found is None:
        raise NotFound(
            "this build does not say what brakes are on the car",
            "describe them as built: on the page of the brakes, or with 'bareshell brakes begin'",
        )
    return found


def owed(door: Door) -> OwedView:
    """Lay out what the brakes on the car owe and want beside what the record has.

    Raises
    ------
    NotFound
        When the build does not describe them.
    """
    return kept(
        door,
        ("owed",),
        lambda build: owed_view(as_built(build), build, head_of(build, door.now())),
    )


def offer_of(door: Door) -> str:
    """Say in a sentence what the record lacks of the brakes on the car; empty for nothing."""
    return owed(door).offer if with_role(door.build(), Role.AS_BUILT) else ""


def owe(door: Door, pen: Pen) -> Written:
    """Write down the proofs that the brakes on the car owe, and drop those they owe no more.

    Raises
    ------
    NotFound
        When the build does not describe them.
    """
    build = door.build()
    system = as_built(build)
    if pen.entry_id is not None and door.entry(pen.entry_id) is not None:
        return Written((BEFORE,), f"brakes:{system.id}", repeated=True)
    found = differences(system, build)
    changes = to_write(system, build, found)
    if not changes:
        return Written((NOTHING_TO_OWE,), f"brakes:{system.id}")
    counts = {
        what: sum(one.what == what for one in found)
        for what in ("new", "reads otherwise", "not asked for any more")
    }
    return write_down(door, changes, Pen(pen.author, pen.entry_id), _owed_said(counts))


def _owed_said(counts: Mapping[str, int]) -> str:
    said = [
        words.format("1 proof" if count == 1 else f"{count} proofs", "is" if count == 1 else "are")
        for what, words in (
            ("new", "{} {} owed now"),
            ("reads otherwise", "{} {} corrected"),
            ("not asked for any more", "{} {} not asked for any more"),
        )
        if (count := counts[what])
    ]
    return f"{'; '.join(said)}. Each is held, or not, by what is seen of it."


def joint(door: Door, joint_id: str) -> OpeningView:
    """Open one joint of the brakes on the car up.

    Raises
    ------
    NotFound
        When there is none of that id.
    """
    build = door.build()
    system = as_built(build)
    return opening_view(find_joint(system, joint_id), system, build, head_of(build, door.now()))


def screw(door: Door, screw_id: str) -> OpeningView:
    """Open one bleed screw of the brakes on the car up.

    Raises
    ------
    NotFound
        When there is none of that id.
    """
    build = door.build()
    system = as_built(build)
    return opening_view(find_screw(system, screw_id), system, build, head_of(build, door.now()))


# --- opening -----------------------------------------------------------------------------------


def undo_joint(door: Door, joint_id: str, fields: Fields, pen: Pen) -> Written:
    """Write down that a joint was undone: its leak proof and its circuit's air proof are spent.

    The fields are ``words`` and ``when``.

    Raises
    ------
    NotFound
        When the brakes on the car have no such joint.
    """
    system = as_built(door.build())
    joint = find_joint(system, joint_id)
    spends = joint_undone(system, joint.id)
    return _opened(door, system, joint, spends, UNDONE, fields, pen)


def open_screw(door: Door, screw_id: str, fields: Fields, pen: Pen) -> Written:
    """Write down that a bleed screw was opened: its own leak proof and the air proof are spent.

    The fields are ``words`` and ``when``. The next pedal test renews both.

    Raises
    ------
    NotFound
        When the brakes on the car have no such screw.
    """
    system = as_built(door.build())
    screw = find_screw(system, screw_id)
    spends = screw_opened(system, screw.id)
    return _opened(door, system, screw, spends, OPENED, fields, pen)


def find_joint(system: BrakeSystem, joint_id: str) -> Joint:
    """Return a joint by its id, its address or its number on the joint list.

    Raises
    ------
    NotFound
        When there is none.

    Examples
    --------
    >>> from bareshell.brakes.starters import starter
    >>> find_joint(starter("single line"), "1").id
    'pipe-master-0'
    """
    for joint in joint_schedule(system).joints:
        if joint_id in (joint.id, address_of(joint), str(joint.number)):
            return joint
    raise NotFound(
        f"these brakes have no joint '{joint_id}'",
        "name one by its number or id from the joint list: 'bareshell brakes joints'",
    )


def find_screw(system: BrakeSystem, screw_id: str) -> ScrewJoint:
    """Return a bleed screw by its id, address, number on the joint list, or the part it is in.

    Raises
    ------
    NotFound
        When there is none, or the part has several.
    """
    screws = joint_schedule(system).screws
    for screw in screws:
        if screw_id in (screw.id, address_of(screw), str(screw.number)):
            return screw
    in_part = [screw for screw in screws if screw.part == screw_id]
    if len(in_part) == 1:
        return in_part[0]
    raise NotFound(
        f"these brakes have no one bleed screw '{screw_id}'",
        "name one of: " + ", ".join(screw.id for screw in screws),
    )


def _opened(
    door: Door,
    system: BrakeSystem,
    thing: Joint | ScrewJoint,
    proofs: Sequence[str],
    done: str,
    fields: Fields,
    pen: Pen,
) -> Written:
    form = filled(door, fields)
    said, when = form.text("words"), form.moment("when", "when")
    form.check()
    own = screw_proof_id(thing.id) if isinstance(thing, ScrewJoint) else joint_proof_id(thing.id)
    if pen.entry_id is not None and door.entry(pen.entry_id) is not None:
        return Written((BEFORE,), f"proof:{own}", repeated=True)
    build = door.build() if when is None else door.as_of(when)
    where = f"{thing.words}: {done}" + (f"; {said}" if said else "")
    changes = spent_by(build, proofs, where)
    if not changes:
        return Written((_nothing_spent(build, thing, own),), f"proof:{own}")
    receipt = door.record(
        changes,
        happened_at=when,
        ids=entry_ids(pen.entry_id, len(changes)),
        base_versions={f"proof:{own}": pen.base} if pen.base is not None else None,
        author=pen.author,
    )
    if receipt.to_settle:
        return Written((SETTLE_LATER,), f"proof:{own}", to_settle=True)
    words = _spent_said(system, thing, own, [one.proof_id for one in changes], done)
    return Written(words, f"proof:{own}")


def _nothing_spent(build: Build, thing: Joint | ScrewJoint, own: str) -> str:
    if own not in build.proofs:
        return (
            f"The record asks for no proof of {thing.words} yet, so nothing is spent: owe the "
            "proofs of these brakes first."
        )
    return f"Nothing of {thing.words} stood proved, so nothing is spent; it is owed as it was."


def _spent_said(
    system: BrakeSystem, thing: Joint | ScrewJoint, own: str, spent: Sequence[str], done: str
) -> tuple[str, ...]:
    named = circuit_names(system)
    circuits = [named[each] for each in thing.circuits if each in named]
    said = [f"{thing.words[:1].upper()}{thing.words[1:]} was {done}."]
    if own in spent:
        said.append("Its own leak proof is spent.")
    if any(each != own for each in spent):
        said.append(
            f"So is the air proof of the {' and the '.join(circuits)}: the next pedal test "
            "renews it."
            if own in spent
            else f"The air proof of the {' and the '.join(circuits)} is spent: the next pedal "
            "test renews it."
        )
    return tuple(said)
