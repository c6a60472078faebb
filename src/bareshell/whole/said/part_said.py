"""What a clause says of parts: short, missing, wrong, damaged, arrived."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from bareshell.model.changes import Change, GoodsChecked, HoldingSet, NeedNotHere, NeedSet
from bareshell.model.part import GoodsIn, Holding, Need, OrderRecord
from bareshell.model.standing import need_standings
from bareshell.whole.said.clauses import Clause
from bareshell.whole.said.cue_words import Cue
from bareshell.whole.said.desk import (
    LEAST,
    MOST_CHOICES,
    SURE,
    Desk,
    Piece,
    as_title,
    asked,
    heard,
    is_clear,
    noted,
    plain,
    rivals,
)
from bareshell.whole.said.figures import Measure
from bareshell.whole.said.names import Kind
from bareshell.whole.said.results import Choice, small_id
from bareshell.whole.said.subjects import Match, wanted_from
from bareshell.whole.said.trade_words import FILLERS
from bareshell.whole.said.words import stem_of

_PART: Final = (Cue.DAMAGED, Cue.WRONG, Cue.UNLIKE, Cue.SHORT, Cue.MISSING, Cue.ARRIVED)
_OUTCOMES: Final = {
    Cue.DAMAGED: GoodsIn.DAMAGED,
    Cue.WRONG: GoodsIn.WRONG,
    Cue.UNLIKE: GoodsIn.UNLIKE,
}


def read_part(clause: Clause, desk: Desk) -> list[Piece] | None:
    """Read a clause as one about a part, or return None when it is about none."""
    what = _what(clause)
    if what is None:
        return None
    need, order, matches = _spoken_of(clause, desk)
    if what is Cue.SHORT and (need is None or need.job not in desk.meant):
        meant = _of_what_is_meant(clause, desk)
        if meant:
            return [_short_of(clause, desk, meant)]
    if need is None and order is None:
        near = tuple(m for m in matches if m.covered >= SURE and m.head)
        if near:
            return [_which(clause, desk, what, rivals(near))]
        return _unlisted(clause, desk)
    if _is_rather_a_job(clause, desk, matches):
        return None
    if matches and _is_called_otherwise(clause, matches[0]):
        return [_which(clause, desk, what, matches[:1])]
    if need is not None:
        desk.near.add(need.job)
    desk.part = f"need:{need.id}" if need is not None else f"order:{order.line.id}" if order else ""
    return [_told(clause, desk, what, need, order)]


def _is_called_otherwise(clause: Clause, match: Match) -> bool:
    """Whether a word beside the name is not the part's own: P clips, not hose clips."""
    for run in clause.runs:
        if match.matched & set(run) and not set(run) <= match.matched:
            return True
    for at, text in enumerate(clause.texts[:-1]):
        single = len(text) == 1 and text.isalpha() and text not in ("a", "i", "x")
        if single and stem_of(clause.texts[at + 1]) in match.matched:
            return True
    return False


def _what(clause: Clause) -> Cue | None:
    for cue in _PART:
        if clause.has(cue):
            return cue
    denied = [h for h in clause.hits if h.cue is Cue.UNDONE and h.verb == "not"]
    working = clause.has(Cue.DONE, Cue.PART, Cue.OFF, Cue.STARTED)
    if denied and not working and clause.texts[denied[0].first] == "no":
        return Cue.MISSING
    return None


# --- which part ------------------------------------------------------------------------------


def _spoken_of(
    clause: Clause, desk: Desk
) -> tuple[Need | None, OrderRecord | None, tuple[Match, ...]]:
    build = desk.build
    if not clause.wanted.stems:
        kind, _, key = desk.part.partition(":")
        if kind == "need":
            return build.needs[key], _order_for(desk, key), ()
        return None, build.orders.get(key), ()
    desk.part_for = _wanted_for(clause, desk)
    matches = _matches(clause, desk)
    if not matches or matches[0].score < LEAST or matches[0].covered < SURE:
        return None, None, matches
    best = matches[0].subject
    others = [m for m in matches if not _same_thing(desk, best.key, m.subject.key)]
    if matches[0].said < 0.5 and _nearness(desk, matches[0]) < 1.3:
        return None, None, ()
    if not matches[0].head or not is_clear((matches[0], *others)):
        return None, None, (matches[0], *others)
    if best.kind is Kind.NEED:
        return build.needs[best.id], _order_for(desk, best.id), matches
    record = build.orders[best.id]
    need = build.needs.get(record.line.need or "")
    return need, record if record.outstanding else None, matches


def _wanted_for(clause: Clause, desk: Desk) -> str:
    """Return the job that is named after 'for': clips for the fuel pipe."""
    if "for" not in clause.texts:
        return ""
    wanted = wanted_from(clause.texts[clause.texts.index("for") + 1 :], desk.subjects)
    jobs = desk.subjects.found(wanted, (Kind.JOB,))
    clear = bool(jobs) and is_clear(jobs) and jobs[0].head and jobs[0].covered >= 0.8
    return jobs[0].subject.id if clear else ""


def _matches(clause: Clause, desk: Desk) -> tuple[Match, ...]:
    found = desk.subjects.found(clause.wanted, (Kind.NEED, Kind.ORDER))
    weighed = [(m.score * _nearness(desk, m), m) for m in found]
    weighed.sort(key=lambda pair: (-pair[0], pair[1].subject.key))
    return tuple(replace(m, score=s) for s, m in weighed)


def _nearness(desk: Desk, match: Match) -> float:
    """How near a part lies: to the jobs of this line, to tonight's list, still wanted."""
    need_id = match.subject.id
    if match.subject.kind is Kind.ORDER:
        need_id = desk.build.orders[need_id].line.need or ""
    need = desk.build.needs.get(need_id)
    factor = 1.0 if match.subject.is_open else 0.6
    if desk.part_for:
        return factor * (1.6 if need is not None and need.job == desk.part_for else 0.3)
    if need is not None and need.job in desk.jobs:
        factor *= 1.6
    elif need is not None and need.job in desk.subjects.rank:
        factor *= 1.3
    return factor


def _same_thing(desk: Desk, one: str, other: str) -> bool:
    """Whether a need and an order line are the same part."""
    needs = []
    for key in (one, other):
        kind, _, name = key.partition(":")
        needs.append(name if kind == "need" else desk.build.orders[name].line.need)
    return needs[0] is not None and needs[0] == needs[1]


def _order_for(desk: Desk, need: str) -> OrderRecord | None:
    coming = [r for r in desk.build.orders.values() if r.line.need == need and r.outstanding]
    return coming[0] if len(coming) == 1 else None


def _is_rather_a_job(clause: Clause, desk: Desk, matches: Sequence[Match]) -> bool:
    jobs = desk.subjects.found(clause.wanted, (Kind.JOB,))
    if not matches or not jobs:
        return False
    if clause.has(Cue.DONE, Cue.PART, Cue.OFF, Cue.STARTED):
        return jobs[0].score > matches[0].score
    said_of_parts = clause.has(Cue.SHORT, Cue.MISSING, Cue.ARRIVED)
    return not said_of_parts and jobs[0].score > 1.1 * matches[0].score


# --- what became of it -------------------------------------------------------------------------


def _told(
    clause: Clause, desk: Desk, what: Cue, need: Need | None, order: OrderRecord | None
) -> Piece:
    counted = _count(clause)
    if order is not None:
        return _of_an_order(clause, desk, what, order, counted)
    if need is None:
        return noted(desk, clause)
    if what is Cue.ARRIVED:
        return _arrived(clause, desk, need, counted)
    if what is Cue.UNLIKE:
        holding = replace(_shelf(desk, need), unlike=True, note=plain(clause.text))
        return heard("part", need.title, "unlike what is on the car; kept on the shelf",
                     (HoldingSet(holding),), clause)  # fmt: skip
    words = {Cue.DAMAGED: "damaged", Cue.WRONG: "wrong", Cue.SHORT: "short"}.get(what, "not here")
    if what is Cue.SHORT and counted is None and need.quantity > 1:
        return _how_many(clause, desk, need)
    return _short_by(clause, desk, need, counted or need.quantity, words)


def _count(clause: Clause) -> int | None:
    counts = [f.value for f in clause.of(Measure.COUNT)]
    return int(counts[0]) if counts and counts[0] == int(counts[0]) and counts[0] >= 1 else None


def _short_by(clause: Clause, desk: Desk, need: Need, by: int, words: str) -> Piece:
    """Record how many are left when so many of a need are short, missing or no good."""
    remain = need.quantity - by
    desk.short[need.id] = plain(clause.text)
    said = f"{by} {words}"
    if remain < 0:
        more = replace(need, quantity=need.quantity + by)
        return asked(
            f"'{need.title}': {by} {words}, and only {need.quantity} are wanted. "
            "Are more wanted than was written down?",
            (
                Choice(f"{need.title}: none is here", _none(need, clause)),
                Choice(f"{need.title}: {more.quantity} are wanted and {need.quantity} are here",
                       (NeedSet(more), *_holds(desk, more, need.quantity))),
            ),
            clause,
            title=need.title,
            about=f"need:{need.id}",
        )  # fmt: skip
    if remain == 0:
        text = f"{said}, so none of the {need.quantity} is here"
        text = f"{words}, not here" if need.quantity == 1 and words != "not here" else text
        text = "not here" if need.quantity == 1 and words == "not here" else text
        return heard("part", need.title, text, _none(need, clause), clause)
    text = f"{said}, so {remain} of {need.quantity} on the shelf"
    return heard("part", need.title, text, _holds(desk, need, remain, plain(clause.text)), clause)


def _none(need: Need, clause: Clause) -> tuple[Change, ...]:
    return (NeedNotHere(need.id, plain(clause.text)),)


def _holds(desk: Desk, need: Need, count: int, words: str = "") -> tuple[Change, ...]:
    """Put the shelf right: so many are here, whatever was recorded."""
    fresh = need_standings(desk.build)[need.id].holdings
    first, *others = [desk.build.holdings[key] for key in fresh] or [_shelf(desk, need)]
    changes: list[Change] = [HoldingSet(replace(first, quantity=count, note=words or first.note))]
    changes += [HoldingSet(replace(h, quantity=0)) for h in others if h.quantity]
    return tuple(changes)


def _shelf(desk: Desk, need: Need) -> Holding:
    fresh = need_standings(desk.build)[need.id].holdings
    if fresh:
        return desk.build.holdings[fresh[0]]
    return Holding(
        small_id("shelf", desk.at, (need.id,)), need.title, need.quantity, need.spec, need.id
    )


def _how_many(clause: Clause, desk: Desk, need: Need) -> Piece:
    choices = [Choice(f"{need.title}: none is here", _none(need, clause))]
    choices += [
        Choice(f"{need.title}: {n} of {need.quantity} here", _holds(desk, need, n))
        for n in range(1, min(need.quantity, 5))
    ]
    return asked(f"'{need.title}': {need.quantity} are wanted. How many are here?", choices,
                 clause, title=need.title, about=f"need:{need.id}")  # fmt: skip


def _arrived(clause: Clause, desk: Desk, need: Need, counted: int | None) -> Piece:
    count = counted or need.quantity
    words = plain(clause.text)
    text = f"{count} of {need.quantity} on the shelf, not yet checked against the old part"
    if clause.has(Cue.CHECKED):
        text = f"{count} of {need.quantity} on the shelf"
    return heard("part", need.title, text, _holds(desk, need, count, words), clause)


def _of_an_order(
    clause: Clause, desk: Desk, what: Cue, order: OrderRecord, counted: int | None
) -> Piece:
    line, due = order.line, order.outstanding
    words = plain(clause.text)
    if what is Cue.MISSING:
        return heard("note", line.title, "not come yet; the words are kept",
                     (desk.note(words, f"order:{line.id}"),), clause)  # fmt: skip
    only = counted is not None and "only" in clause.texts and counted < due
    if what is Cue.ARRIVED and clause.has(Cue.CHECKED) and not only:
        return _checked(clause, order, GoodsIn.RIGHT, counted or due)
    if what is Cue.ARRIVED and only:
        return _checked(clause, order, GoodsIn.SHORT, counted or 1)
    if what is Cue.SHORT and counted is not None and counted < due:
        return _checked(clause, order, GoodsIn.SHORT, counted if only else due - counted)
    outcome = _OUTCOMES.get(what)
    came = clause.has(Cue.ARRIVED) or bool({"came", "arrived"} & set(clause.texts))
    if outcome is not None and came and (counted is None or counted >= due):
        return _checked(clause, order, outcome, due)
    return _ask_delivery(clause, order, what, counted)


def _checked(clause: Clause, order: OrderRecord, outcome: GoodsIn, count: int) -> Piece:
    change = GoodsChecked(order.line.id, outcome, count, "", plain(clause.text))
    return heard("part", order.line.title, f"{count} came, {outcome}", (change,), clause)


def _ask_delivery(clause: Clause, order: OrderRecord, what: Cue, counted: int | None) -> Piece:
    """Ask how a delivery stood the check against the old part; arriving is not being right."""
    line, due = order.line, order.outstanding
    words = plain(clause.text)
    bad = _OUTCOMES.get(what, GoodsIn.DAMAGED)
    choices: list[Choice] = []

    def choice(*told: tuple[GoodsIn, int]) -> None:
        label = ", ".join(f"{n} {outcome}" for outcome, n in told)
        changes = tuple(GoodsChecked(line.id, outcome, n, "", words) for outcome, n in told)
        choices.append(Choice(f"{line.title}: {label}", changes))

    if what in _OUTCOMES:
        if counted is not None and counted < due:
            choice((bad, counted), (GoodsIn.RIGHT, due - counted))
        choice((bad, due))
        if line.need is not None:
            gone = (NeedNotHere(line.need, words),)
            choices.append(Choice(f"{line.title}: the one on the shelf, not the delivery", gone))
    else:
        choice((GoodsIn.RIGHT, min(counted or due, due)))
        choice((GoodsIn.WRONG, due))
        choice((GoodsIn.DAMAGED, due))
        choice((GoodsIn.UNLIKE, due))
        if due > 1:
            choice((GoodsIn.SHORT, due - 1))
    question = f"'{line.title}': {due} were due. How did it look beside the old part and the order?"
    return asked(question, choices, clause, title=line.title, about=f"order:{line.id}")


# --- short, of a job that is itself asked about -----------------------------------------------


def _of_what_is_meant(clause: Clause, desk: Desk) -> tuple[Match, ...]:
    """Return the parts of the jobs that the clause before may mean: lamps, ran out of screws."""
    if not desk.meant or not clause.wanted.stems or desk.part_for:
        return ()
    found = [m for m in _matches(clause, desk) if m.subject.kind is Kind.NEED]
    own = [m for m in found if desk.build.needs[m.subject.id].job in desk.meant]
    return tuple(m for m in own if m.covered >= SURE and m.head)[:MOST_CHOICES]


def _short_of(clause: Clause, desk: Desk, meant: Sequence[Match]) -> Piece:
    choices: list[Choice] = []
    words = plain(clause.text)
    for match in meant:
        need = desk.build.needs[match.subject.id]
        name = f"{need.title} ({desk.title(need.job)})"
        some = Choice(f"{name}: some are short, how many was not said; the words are kept with it",
                      (desk.note(words, f"need:{need.id}"),))  # fmt: skip
        counted = _count(clause)
        if counted is not None and counted < need.quantity:
            left = need.quantity - counted
            some = Choice(f"{name}: {counted} short, so {left} of {need.quantity} on the shelf",
                          _holds(desk, need, left, words))  # fmt: skip
        choices += [some] if need.quantity > 1 else []
        if need.quantity == 1 or 2 * len(meant) <= MOST_CHOICES:
            choices.append(Choice(f"{name}: none is here", _none(need, clause)))
    return asked(f'"{words}": which part is meant?', choices, clause)


# --- which, and parts that no list has ---------------------------------------------------------


def _which(clause: Clause, desk: Desk, what: Cue, near: Sequence[Match]) -> Piece:
    choices: list[Choice] = []
    for match in near:
        key = match.subject.id
        if match.subject.kind is Kind.ORDER:
            piece = _told(clause, desk, what, None, desk.build.orders[key])
        else:
            piece = _told(clause, desk, what, desk.build.needs[key], _order_for(desk, key))
        if piece.heard is not None and piece.heard.kind == "part":
            job = desk.build.needs[key].job if match.subject.kind is Kind.NEED else ""
            whose = f" ({desk.title(job)})" if job in desk.build.jobs else ""
            choices.append(Choice(piece.heard.sentence + whose, piece.heard.changes))
        elif piece.asked is not None:
            choices += piece.asked.choices[:1]
    if what in (Cue.SHORT, Cue.MISSING):
        choices += _unlisted_choices(clause, desk)[:2]
    return asked(f'"{plain(clause.text)}": which part is meant?', choices, clause)


def _unlisted(clause: Clause, desk: Desk) -> list[Piece] | None:
    """Ask for which job a part is wanted that is on no list."""
    title = _title(clause)
    if not clause.has(Cue.SHORT, Cue.MISSING) or not title or clause.has(Cue.DONE, Cue.OFF):
        return None
    if clause.of(Measure.HOURS) or _names_job_only(clause, desk):
        return None
    choices = _unlisted_choices(clause, desk)
    if not choices:
        return None
    return [asked(f"'{title}' is on no list. For which job is it wanted?", choices, clause,
                  title=title)]  # fmt: skip


def _unlisted_choices(clause: Clause, desk: Desk) -> list[Choice]:
    title, count = _title(clause), _count(clause) or 1
    own = (desk.part_for,) if desk.part_for else ()
    tonight = [j for j in desk.tonight if j in desk.build.jobs]
    choices = []
    for job in list(dict.fromkeys((*own, *desk.jobs, *tonight)))[:4]:
        need = Need(small_id("need", desk.at, (title, job)), title, job, count)
        changes = (NeedSet(need), NeedNotHere(need.id, plain(clause.text)))
        label = f"{title}: {count} wanted for '{desk.title(job)}', not here"
        choices.append(Choice(label, changes))
    return choices if title else []


def _names_job_only(clause: Clause, desk: Desk) -> bool:
    if not all(desk.subjects.knows(stem) for stem in clause.wanted.stems):
        return False
    jobs = desk.subjects.found(clause.wanted, (Kind.JOB,))
    return bool(jobs) and jobs[0].covered > 0.9 and jobs[0].head


def _title(clause: Clause) -> str:
    """Name a part by the words that are neither cue nor figure nor filler."""
    spoken = [True] * len(clause.texts)
    spans = [(h.first, h.after) for h in clause.hits] + [(f.first, f.after) for f in clause.figures]
    for first, after in spans:
        spoken[first:after] = [False] * (after - first)
    end = clause.texts.index("for") if "for" in clause.texts else len(clause.texts)
    words = [
        raw
        for raw, text, free in list(zip(clause.raws, clause.texts, spoken, strict=True))[:end]
        if free and text not in FILLERS
    ]
    return as_title(" ".join(words[:6]))
