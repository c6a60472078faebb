"""The end of a session: it is recorded with what the line said of it, or as the pattern has it."""

from __future__ import annotations

from dataclasses import replace
from datetime import tzinfo

from bareshell.model import Build
from bareshell.model.changes import (
    CarPlaced,
    JobFinished,
    JobStarted,
    JobTakenOff,
    JobWorked,
    ProofBegun,
    ProofFailed,
    ProofHeld,
    SessionHeld,
)
from bareshell.whole.said.desk import SessionFacts
from bareshell.whole.said.results import Understood
from bareshell.whole.said.session_said import heard_session, held_session

_WORK = (
    JobFinished,
    JobWorked,
    JobStarted,
    JobTakenOff,
    ProofHeld,
    ProofBegun,
    ProofFailed,
    CarPlaced,
)


def with_session(understood: Understood, build: Build, zone: tzinfo) -> Understood:
    """Add the session that a line of work ends, when the line does not speak of it.

    Its times and people come from the pattern and the sentence says so. Nothing is added when
    no work was told, no session of the pattern was running, or one is recorded already.

    Parameters
    ----------
    understood : Understood
        The line.
    build : Build
        With its patterns and recorded sessions.
    zone : tzinfo
        The garage's zone.
    """
    worked = any(isinstance(c, _WORK) for c in understood.changes)
    worked = worked or any(
        isinstance(c, _WORK)
        for a in understood.asked
        if not a.faint
        for ch in a.choices
        for c in ch.changes
    )
    if not worked or any(isinstance(c, SessionHeld) for c in understood.changes):
        return understood
    held = held_session(build, understood.at, zone)
    if held is None or held.id in build.sessions:
        return understood
    told = heard_session(held, zone, SessionFacts())
    return replace(understood, heard=(*understood.heard, told))
