"""What a clause says of temporary fixes: put on the car, or gone from it."""

from __future__ import annotations

import re

from bareshell.model.changes import Change, TempCleared, TempRaised, TempSet
from bareshell.model.standing import temp_is_open
from bareshell.model.temp import Temp
from bareshell.whole.said.clauses import Clause
from bareshell.whole.said.cue_words import Cue
from bareshell.whole.said.desk import (
    LEAST,
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
    without_joiner,
)
from bareshell.whole.said.names import Kind
from bareshell.whole.said.results import Choice, small_id
from bareshell.whole.said.subjects import Match, wanted_from
from bareshell.whole.said.words import stem_of, tokens_of

_WAITS = re.compile(r"\b(?:until|till)\b", re.IGNORECASE)
_REPLACED = re.compile(
    r"\b(?:until|till|instead of|in place of|as)\s+(?:the\s+|a\s+)?(.+?)"
    r"(?:\s+(?:is|are|isnt|isn't|arent|aren't|comes?|arrives?|turns? up)\b.*)?$",
    re.IGNORECASE,
)


def read_temp(clause: Clause, desk: Desk) -> list[Piece] | None:
    """Read a clause as one about a temporary fix, or return None when it is about none."""
    if _is_the_proper_one(clause, desk):
        title = desk.build.temps[desk.temp].temp.title
        words = plain(clause.text)
        change = desk.note(words, f"temp:{desk.temp}")
        return [heard("note", title, f'kept as a note: "{words}"', (change,), clause)]
    matches = _open_matches(clause, desk)
    if clause.has(Cue.TEMP):
        if clause.has(Cue.GONE, Cue.OFF) and not clause.has(Cue.STILL):
            return [_gone(clause, desk, matches)]
        return _raised(clause, desk)
    proper = clause.has(Cue.PROPER) and clause.has(Cue.DONE, Cue.GONE)
    says_proper = {"proper", "correct", "real", "permanent", "genuine"} & set(clause.texts)
    named = bool(matches) and matches[0].covered >= 0.8 and matches[0].score >= LEAST
    if named and ((proper and says_proper) or clause.has(Cue.GONE)):
        return [_gone(clause, desk, matches)]
    if matches and clause.has(Cue.OFF) and matches[0].covered >= SURE and matches[0].head:
        jobs = desk.subjects.found(clause.wanted, (Kind.JOB,))
        if not jobs or matches[0].score >= jobs[0].score:
            return [_gone(clause, desk, matches)]
    return None


def _is_the_proper_one(clause: Clause, desk: Desk) -> bool:
    """Whether 'proper one in' only goes on about a temp that was just said to be gone."""
    if not desk.temp or not clause.has(Cue.PROPER) or not clause.has(Cue.DONE):
        return False
    words = desk.subjects.by_key[f"temp:{desk.temp}"].words
    return all(stem in words for stem in clause.wanted.stems)


def _open_matches(clause: Clause, desk: Desk) -> tuple[Match, ...]:
    found = desk.subjects.found(clause.wanted, (Kind.TEMP,))
    return tuple(m for m in found if temp_is_open(desk.build, desk.build.temps[m.subject.id]))


def _gone(clause: Clause, desk: Desk, matches: tuple[Match, ...]) -> Piece:
    words = plain(clause.text)
    if not matches or matches[0].score < LEAST:
        return noted(desk, clause, "no temporary fix on the car is called so")
    if not is_clear(matches) or matches[0].covered < SURE:
        choices = [
            Choice(f"{m.subject.title}: gone", (TempCleared(m.subject.id, words),))
            for m in rivals(matches)
        ]
        return asked(f'"{words}": which temporary fix is gone?', choices, clause)
    temp = desk.build.temps[matches[0].subject.id].temp
    desk.temp = temp.id
    return heard("temp", temp.title, "gone from the car", (TempCleared(temp.id, words),),
                 clause, matches[0].covered)  # fmt: skip


def _raised(clause: Clause, desk: Desk) -> list[Piece] | None:
    words = plain(clause.text)
    now = _WAITS.split(words)[0]  # what comes after "until" is what will replace it
    wanted = wanted_from([t.text for t in tokens_of(now)], desk.subjects)
    known = desk.subjects.found(wanted, (Kind.TEMP,))
    known = tuple(m for m in known if m.said >= 0.6)
    if known and known[0].covered >= 0.8 and is_clear(known) and known[0].score >= LEAST:
        temp = desk.build.temps[known[0].subject.id].temp
        if temp_is_open(desk.build, desk.build.temps[temp.id]):
            change = desk.note(words, f"temp:{temp.id}")
            return [heard("note", temp.title, "on the car already; the words are kept",
                          (change,), clause)]  # fmt: skip
        return [heard("temp", temp.title, f"on the car, to be gone before {_gate(desk, temp)}",
                      (TempRaised(temp.id, words),), clause)]  # fmt: skip
    if not clause.wanted.stems or not desk.build.gates:
        return None if not clause.wanted.stems else [noted(desk, clause)]
    gate, said_so = _gate_for(clause, desk)
    title = as_title(without_joiner(clause.text))
    temp = Temp(small_id("temp", desk.at, (words,)), title, _replaced_by(words), gate)
    text = f"temporary, to be gone before {_gate(desk, temp)}"
    text += "" if said_so else " (no gate was said)"
    changes: tuple[Change, ...] = (TempSet(temp), TempRaised(temp.id, words))
    return [heard("temp", title, text, changes, clause, 0.8)]


def _gate(desk: Desk, temp: Temp) -> str:
    record = desk.build.gates.get(temp.gate)
    return f"'{record.gate.title}'" if record else temp.gate


def _gate_for(clause: Clause, desk: Desk) -> tuple[str, bool]:
    """Return the gate before which it must be gone, and whether the line named it.

    Unnamed, it is the road; where a build has no such gate, one that none comes after.
    """
    said = {stem_of(text) for text in clause.texts}
    for key, record in desk.build.gates.items():
        own = {stem_of(t.text) for t in tokens_of(record.gate.title)}
        if own and own <= said and "before" in clause.texts:
            return key, True
    if "road" in desk.build.gates:
        return "road", False
    before = {b for r in desk.build.gates.values() for b in r.gate.after}
    return next(
        (k for k in desk.build.gates if k not in before), next(iter(desk.build.gates))
    ), False


def _replaced_by(words: str) -> str:
    found = _REPLACED.search(words)
    return found[1].strip() if found else ""
