"""Looking a build over from a page: what the check-up found, and which backups there are."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from bareshell.app.backup import back_up, backups
from bareshell.app.doctor import doctor
from bareshell.app.door import Door
from bareshell.app.written import Written
from bareshell.errors import Problem
from bareshell.whole.garage_time import zone_of


@dataclass(frozen=True, slots=True)
class BackupSeen:
    """A backup: the name of its file, when it was made, how large it is."""

    name: str
    made_at: datetime
    size_bytes: int


@dataclass(frozen=True, slots=True)
class LookedOver:
    """What was found in a build's folder.

    Parameters
    ----------
    folder : str
        Where it is on the computer.
    every_photo : bool
        Whether each photograph was read through.
    photos : int
        How many photographs there are.
    problems : tuple of Problem
        What was found, what stops first.
    backups : tuple of BackupSeen
        The newest first.
    """

    made_at: datetime
    seq: int
    car: str
    invented: bool
    folder: str
    every_photo: bool
    photos: int
    problems: tuple[Problem, ...]
    backups: tuple[BackupSeen, ...]


def look_over(door: Door, *, every_photo: bool = False) -> LookedOver:
    """Look the build over.

    Parameters
    ----------
    door : Door
        The build.
    every_photo : bool
        Whether to read each photograph and compare it with the record; with many this takes
        a while.
    """
    build = door.build()
    found = doctor(door.folder, door.now(), every_photo=every_photo, open_here=True)
    zone = zone_of(build)
    return LookedOver(
        made_at=door.now(),
        seq=build.seq,
        car=build.car_name,
        invented=build.invented,
        folder=str(door.folder.resolve()),
        every_photo=every_photo,
        photos=len(build.photos),
        problems=found,
        backups=tuple(
            BackupSeen(one.path.name, one.made_at.astimezone(zone), one.path.stat().st_size)
            for one in backups(door.folder)
        ),
    )


def make_backup(door: Door) -> Written:
    """Make a backup now.

    Raises
    ------
    Damaged
        When the journal cannot be read in full.
    NoRoom
        When the disk is full.
    """
    made = back_up(door.folder, door.now())
    return Written((f"Kept: {made.path.name}. It holds the record, not the photographs.",), "build")
