"""How to leave the car at the end of a session (common practice, no source)."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime, timedelta

from bareshell.model import Build
from bareshell.model.position import SupportKind
from bareshell.model.proof import ProofState
from bareshell.model.standing import proof_standings
from bareshell.whole.proving import READ
from bareshell.whole.sheet_parts import LeaveLine, Ticket

_WET = frozenset({"brakes", "fuel", "cooling", "gearbox and clutch"})

_ON_SUPPORT = {
    SupportKind.SCISSOR_LIFT: LeaveLine("Lift on its locks", "rams unloaded, controls off."),
    SupportKind.TWO_POST_LIFT: LeaveLine("Lift on its locks", "arms seated, controls off."),
    SupportKind.FOUR_POST_LIFT: LeaveLine("Lift on its locks", "wheels chocked, controls off."),
    SupportKind.STANDS: LeaveLine(
        "On rated stands", "all four seated and rock-tested; the jack alone never holds it."
    ),
    SupportKind.PIT: LeaveLine("Pit covered", "or roped off; air it before you go back in."),
    SupportKind.WHEELS: LeaveLine(
        "Chocks at two wheels", "front and back; the handbrake does not count until proven."
    ),
    SupportKind.LEVEL_FLOOR: LeaveLine(
        "Chocks at two wheels", "front and back; the handbrake does not count until proven."
    ),
}


def leaving(
    build: Build, tickets: Sequence[Ticket], support: str, ends_at: datetime
) -> tuple[LeaveLine, ...]:
    """Say how to leave the car after these jobs.

    Parameters
    ----------
    build : Build
        The build.
    tickets : sequence of Ticket
        The session's jobs.
    support : str
        How the car will stand.
    ends_at : datetime
        When the session ends; waits are counted from it or from the job's own end.
    """
    lines: list[LeaveLine] = []
    if support in build.supports:
        line = _ON_SUPPORT.get(build.supports[support].kind)
        lines += [line] if line else []
    if _holds_run(build, tickets, ends_at):
        lines.append(
            LeaveLine(
                "Tag on the pedal and the gauge", "under pressure, do not open or lean on it."
            )
        )
    systems = {ticket.system for ticket in tickets}
    if systems & _WET:
        lines.append(LeaveLine("Open ends capped", "count the caps out; bottles closed and dated."))
    if "electrics" in systems:
        lines.append(LeaveLine("Battery off the car", "or its lead off; charger unplugged."))
    if any(caution.harm == "Fire" for ticket in tickets for caution in ticket.cautions):
        lines.append(
            LeaveLine("Oily rags in the lidded metal bin", "they can light by themselves.")
        )
    lines += [
        LeaveLine(f"Tag on “{ticket.title}”", "half done: write down what is loose.")
        for ticket in tickets
        if not ticket.finishes
    ]
    lines.append(LeaveLine("Nothing stored beneath the car", "and count the tools back."))
    hands = _next_hands(build, tickets)
    return (*lines, hands) if hands else tuple(lines)


def _holds_run(build: Build, tickets: Sequence[Ticket], now: datetime) -> bool:
    read = {line.id for ticket in tickets if ticket.id.startswith(READ) for line in ticket.proves}
    standings = proof_standings(build, now)
    begun = {key for key, standing in standings.items() if standing.state is ProofState.BEGUN}
    return bool(begun - read) or any(
        line.hold_hours and not ticket.id.startswith(READ)
        for ticket in tickets
        for line in ticket.proves
    )


def _next_hands(build: Build, tickets: Sequence[Ticket]) -> LeaveLine | None:
    """Name the first moment at which something started tonight wants hands again."""
    moments = []
    for ticket in tickets:
        record = build.jobs.get(ticket.id)
        wait = record.job.wait if record else None
        if ticket.finishes and wait and wait.hours:
            moments.append((ticket.ends_at + timedelta(hours=wait.hours), ticket.title))
        moments += [
            (ticket.ends_at + timedelta(hours=line.hold_hours), line.title)
            for line in ticket.proves
            if line.hold_hours and not ticket.id.startswith(READ)
        ]
    if not moments:
        return None
    moment, title = min(moments)
    return LeaveLine("Next hands", f"“{title}” is ready from {moment:%A %d %b %H:%M}.")
