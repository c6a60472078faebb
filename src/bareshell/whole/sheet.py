"""The session's sheet: the plan's moves with everything the model knows about them."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from bareshell.model import Build
from bareshell.model.job import Caution
from bareshell.plan.problem import PlanProblem
from bareshell.plan.schedule import Block
from bareshell.trade.supports import cautions_for
from bareshell.whole.asked import AskedSession
from bareshell.whole.garage_time import zone_of
from bareshell.whole.leaving import leaving
from bareshell.whole.sheet_parts import (
    Fetch,
    FirstMove,
    Packed,
    SupportLine,
    Ticket,
    TonightSheet,
    WhyNot,
)
from bareshell.whole.tickets import TicketDesk


@dataclass(frozen=True, slots=True)
class Answer:
    """What the plan answered about one session, in the words of the sheet."""

    blocks: tuple[Block, ...]
    begin_with: tuple[FirstMove, ...] = ()
    why_not: tuple[WhyNot, ...] = ()
    stranded: tuple[str, ...] = ()
    promise: str = ""
    engine: str = ""
    samples: int = 0
    packed: Packed | None = None
    changed: str = ""
    because: str = ""


def tonight_sheet(build: Build, session: AskedSession, answer: Answer) -> TonightSheet:
    """Put the sheet of a session together.

    Parameters
    ----------
    build : Build
        The build.
    session : AskedSession
        What was asked about.
    answer : Answer
        What the plan said, checked.
    """
    problem = session.problem
    tickets = _tickets(build, problem, answer.blocks)
    ends_at = session.facts.ends_at
    last = answer.blocks[-1].support_after if answer.blocks else problem.support
    moves = tuple(
        _support_line(build, problem, block) for block in answer.blocks if block.kind == "change"
    )
    return TonightSheet(
        made_at=problem.origin,
        seq=build.seq,
        car=build.car_name,
        invented=build.invented,
        session=session.facts,
        jobs=tickets,
        moves=moves,
        begin_with=answer.begin_with,
        fetch=_fetch(tickets),
        cautions=_cautions(tickets, moves),
        leave=leaving(build, tickets, last, ends_at),
        why_not=answer.why_not,
        stranded=answer.stranded,
        assumptions=session.question.assumptions,
        to_settle=len(build.to_settle),
        spare_minutes=_spare(problem, session, answer.blocks),
        promise=answer.promise,
        engine=answer.engine,
        samples=answer.samples,
        packed=answer.packed,
        changed=answer.changed,
        because=answer.because,
    )


def _tickets(build: Build, problem: PlanProblem, blocks: Sequence[Block]) -> tuple[Ticket, ...]:
    zone = zone_of(build)
    desk = TicketDesk(build, problem.origin)
    pieces: dict[str, list[Block]] = {}
    for block in blocks:
        if block.kind == "work" and block.job_id:
            pieces.setdefault(block.job_id, []).append(block)
    return tuple(
        replace(
            desk.ticket(
                key,
                problem.when(parts[0].start_minute).astimezone(zone),
                problem.when(parts[-1].end_minute).astimezone(zone),
                finishes=parts[-1].finishes,
                people=parts[0].people,
            ),
            by_helper=all(part.by_helper for part in parts),
        )
        for key, parts in pieces.items()
    )


def _support_line(build: Build, problem: PlanProblem, block: Block) -> SupportLine:
    zone = zone_of(build)

    def title(support: str) -> str:
        return build.supports[support].title if support in build.supports else support

    to = build.supports.get(block.support_after)
    return SupportLine(
        problem.when(block.start_minute).astimezone(zone),
        problem.when(block.end_minute).astimezone(zone),
        block.minutes,
        title(block.support_before),
        title(block.support_after),
        block.support_after,
        cautions_for(to.kind) if to else (),
    )


def _fetch(tickets: Iterable[Ticket]) -> tuple[Fetch, ...]:
    """List everything to have on the bench first: parts by job, then each tool once."""
    lines: list[Fetch] = []
    tools: dict[str, Fetch] = {}
    for ticket in tickets:
        lines += ticket.fetch
        for tool in (*ticket.tools, *((ticket.kit,) if ticket.kit else ())):
            tools.setdefault(tool, Fetch(tool, 1, "tool", job=ticket.id))
    return (*lines, *tools.values())


def _cautions(tickets: Iterable[Ticket], moves: Iterable[SupportLine]) -> tuple[Caution, ...]:
    found = [caution for move in moves for caution in move.cautions]
    found += [caution for ticket in tickets for caution in ticket.cautions]
    return tuple(dict.fromkeys(found))


def _spare(problem: PlanProblem, session: AskedSession, blocks: Sequence[Block]) -> int:
    slot = problem.sessions.first(1)[0]
    end = slot.end_minute - problem.clear_up_minutes
    own = [block.end_minute for block in blocks if not block.by_helper]
    busy = max(own, default=slot.start_minute + problem.set_up_minutes)
    return max(0, min(end - busy, session.facts.minutes))
