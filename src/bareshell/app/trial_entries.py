"""What a form or a file would write down, as one step of a trial: in a word, and back."""

from __future__ import annotations

import base64
import binascii
import json
import zlib
from collections.abc import Sequence
from pathlib import Path
from typing import Final

from bareshell.app.door import Door
from bareshell.errors import BadInput, BareshellError, Damaged
from bareshell.io.build_file.differ import differences
from bareshell.model import changes as c
from bareshell.store.wire import decode, encode
from bareshell.whole.trial_steps import TrialStep
from bareshell.whole.words import describe_change

LONGEST_BYTES: Final = 200_000
_NOT_ALONE: Final = (c.Withdrawn, c.Settled, c.Unread)


def entry_step(changes: Sequence[c.Change]) -> TrialStep:
    """Make one step of changes.

    Parameters
    ----------
    changes : sequence of Change
        What would be written down, in order.

    Examples
    --------
    >>> step = entry_step([c.JobStarted("bleed")])
    >>> read_entry(step.ref).changes
    (JobStarted(job_id='bleed'),)
    """
    plain = [[change.KIND, change.VERSION, change.subject, encode(change)] for change in changes]
    packed = zlib.compress(json.dumps(plain, separators=(",", ":")).encode(), 9)
    ref = base64.urlsafe_b64encode(packed).decode().rstrip("=")
    return TrialStep("entry", ref, changes=tuple(changes))


def read_entry(ref: str) -> TrialStep:
    """Read a step that `entry_step` made.

    Raises
    ------
    BadInput
        When it was cut short or is none.
    """
    wrong = BadInput(
        "what is tried", "what the form would write down was cut short", "fill the form in again"
    )
    try:
        packed = base64.urlsafe_b64decode(ref + "=" * (-len(ref) % 4))
        unpack = zlib.decompressobj()
        # No more than this is unpacked, whatever the address claims.
        text = unpack.decompress(packed, LONGEST_BYTES)
        if unpack.unconsumed_tail or not unpack.eof:
            raise wrong
        changes = tuple(decode(*row) for row in json.loads(text))
    except (binascii.Error, zlib.error, ValueError, TypeError, Damaged) as error:
        raise wrong from error
    if not changes or any(isinstance(change, _NOT_ALONE) for change in changes):
        raise wrong
    return TrialStep("entry", ref, changes=changes)


def entry_words(door: Door, step: TrialStep) -> str:
    """Say what a step of changes would describe otherwise, or else what it would write down."""
    build = door.build()
    try:
        said = differences(build, door.try_out(step.changes))
    except BareshellError:  # it stands on another step of the same trial
        said = ()
    return "; ".join(said or (describe_change(change, build) for change in step.changes))


def file_step(door: Door, path: Path) -> TrialStep:
    """Make one step of what bringing a file in would write down.

    Raises
    ------
    BadInput
        When it cannot be brought in as it is, or would change nothing.
    """
    from bareshell.app.exchange import preview_import

    seen = preview_import(door, path)
    if seen.stopped_by:
        raise BadInput.together(seen.stopped_by)
    if not seen.dated:
        raise BadInput("the file", "it would change nothing", "change something in it first")
    return entry_step([change for _, change in seen.dated])
