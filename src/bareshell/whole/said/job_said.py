"""What a clause says of jobs: which, what became of them, how many hours went in."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from typing import Final

from bareshell.model.job import JobStatus
from bareshell.whole.said.clauses import Clause
from bareshell.whole.said.cues import Cue, Hit
from bareshell.whole.said.desk import LEAST, SURE, Desk, is_clear, rivals
from bareshell.whole.said.figures import MOST_WORK_HOURS, Figure, Measure
from bareshell.whole.said.hours import EACH, LEFT, LEFT_BEFORE, TOTAL, begins_with
from bareshell.whole.said.subjects import Kind, Match, other_thing
from bareshell.whole.said.trade_words import WORK

_JOB_CUES: Final = frozenset({Cue.DONE, Cue.PART, Cue.STARTED, Cue.OFF, Cue.DO, Cue.TORQUED})


@dataclass(slots=True)
class JobSaid:
    """What one clause says of one or more jobs.

    Parameters
    ----------
    clause : Clause
        Where it was said.
    jobs : list of str
        The jobs it names; empty when it goes on about the last one.
    what : Cue or None
        What became of them; None when the clause only names them.
    worked, left : float or None
        Hours of this stretch and hours still to do. [h]
    each, total : bool
        Whether the hours are for each job, or for all that the line tells.
    rivals : tuple of Match
        The candidates, when it is not clear which job is meant.
    doubt : str
        Why it must be asked whether the job is finished.
    hint : str
        A word to the person about how the hours were read.
    """

    clause: Clause
    jobs: list[str] = field(default_factory=list)
    what: Cue | None = None
    worked: float | None = None
    left: float | None = None
    each: bool = False
    total: bool = False
    rivals: tuple[Match, ...] = ()
    doubt: str = ""
    hint: str = ""
    confidence: float = 1.0
    text: str = ""
    leads: bool = False
    named: bool = True


def read_job(clause: Clause, desk: Desk) -> JobSaid | None:
    """Read a clause as one about jobs, or return None when it says nothing of any."""
    said = JobSaid(clause, text=clause.text)
    said.what, said.doubt = _what(clause)
    _read_hours(clause, said)
    if said.what in (None, Cue.DO) and said.worked is None and said.left is None:
        if said.what is Cue.DO or not _names_a_job(clause, desk):
            return None
    if not clause.wanted.stems:
        said.named = False
        return said if said.what or said.worked is not None or said.left is not None else None
    matches = _matches(clause, desk, said)
    if not matches or matches[0].score < LEAST:
        return None
    _choose(clause, desk, said, matches)
    if said.worked is not None and said.what is None and _hours_on(clause):
        said.what = Cue.PART
    said.leads = _action_leads(clause)
    return said


def _names_a_job(clause: Clause, desk: Desk) -> bool:
    matches = desk.subjects.found(clause.wanted, (Kind.JOB,))
    return bool(matches) and matches[0].head and matches[0].covered >= SURE


# --- what became of it -------------------------------------------------------------------------


def _what(clause: Clause) -> tuple[Cue | None, str]:
    """Weigh the cues of a clause: what they say together, and what makes it doubtful."""
    said_so, denied = _by_polarity(clause)
    undone = clause.has(Cue.UNDONE) and (
        bool(denied) or any(h.cue is Cue.UNDONE and h.verb != "not" for h in clause.hits)
    )
    if undone:
        if Cue.DONE in said_so or Cue.OFF in said_so:
            return Cue.DONE, "some of it was not done"
        return (Cue.PART, "") if Cue.PART in said_so else (Cue.UNDONE, "")
    if clause.has(Cue.STILL):
        return (Cue.PART, "") if Cue.DONE in said_so or Cue.PART in said_so else (Cue.STILL, "")
    if Cue.OFF in said_so:
        if Cue.DONE in said_so:
            return _off_and_on(clause)
        return Cue.OFF, ""
    if _says_part(clause, said_so):
        return Cue.PART, ""
    if Cue.STARTED in said_so:
        return (Cue.STARTED, "") if Cue.DONE not in said_so else (Cue.DONE, "it was also begun")
    for cue in (Cue.DONE, Cue.TORQUED, Cue.PART, Cue.DO):
        if cue in said_so:
            return (Cue.DONE if cue is Cue.TORQUED else cue), ""
    return None, ""


def _by_polarity(clause: Clause) -> tuple[set[Cue], set[Cue]]:
    said_so: set[Cue] = set()
    denied: set[Cue] = set()
    nots = [h.first for h in clause.hits if h.cue is Cue.UNDONE and h.verb == "not"]
    for hit in clause.hits:
        if hit.cue in _JOB_CUES:
            turned = any(0 < hit.first - n <= 3 for n in nots)
            (denied if turned else said_so).add(hit.cue)
    return said_so, denied


def _says_part(clause: Clause, said_so: set[Cue]) -> bool:
    """Whether it was worked on but not finished; a bare -ing beside 'done' says nothing."""
    if Cue.PART not in said_so:
        return False
    phrases = [h for h in clause.hits if h.cue is Cue.PART and not h.verb]
    return bool(phrases) or Cue.DONE not in said_so


def _off_and_on(clause: Clause) -> tuple[Cue | None, str]:
    off = max(h.first for h in clause.hits if h.cue is Cue.OFF)
    on = max(h.first for h in clause.hits if h.cue is Cue.DONE)
    if on > off:
        return Cue.DONE, "it came off first"
    return Cue.OFF, "it was also said to be done"


def _action_leads(clause: Clause) -> bool:
    """Whether the doing is told before the thing is named: 'fitted heater and valve'."""
    doing = [h for h in clause.hits if h.cue in _JOB_CUES or h.cue is Cue.UNDONE]
    return bool(doing) and doing[0].first <= 1 and len(clause.texts) > doing[0].after


def _hours_on(clause: Clause) -> bool:
    """Whether it says 'two hours on the exhaust'."""
    for figure in clause.of(Measure.HOURS):
        follows = clause.texts[figure.after : figure.after + 3]
        if follows and follows[0] in ("on", "at", "with", "of", "into", "fighting", "cleaning"):
            return True
        if follows[:2] in (("or", "so"), ("just", "on")) and "on" in follows:
            return True
    return False


# --- hours ---------------------------------------------------------------------------------


def _read_hours(clause: Clause, said: JobSaid) -> None:
    for figure in clause.of(Measure.HOURS):
        if is_left(clause, figure):
            said.left = figure.value
        elif figure.value > MOST_WORK_HOURS:
            said.hint = f"{figure.value:g} h is not taken for working time"
        elif said.worked is None:
            said.worked = figure.value
            follows = clause.texts[figure.after : figure.after + 3]
            said.each = begins_with(follows, EACH)
            said.total = begins_with(follows, TOTAL)
        else:
            said.worked += figure.value
            said.hint = "hours added up"
    if said.worked is None and said.left is None:
        bare = _bare_hours(clause)
        if bare is not None:
            said.worked = bare
            said.hint = f"{bare:g} taken as hours"


def is_left(clause: Clause, figure: Figure) -> bool:
    """Whether hours are those still to do, not those that went in."""
    follows = clause.texts[figure.after : figure.after + 4]
    if begins_with(follows, LEFT):
        return True
    within = clause.texts[figure.first : figure.after]
    if "more" in within:
        return True
    before = clause.texts[max(0, figure.first - 3) : figure.first]
    return bool(set(before) & LEFT_BEFORE)


def _bare_hours(clause: Clause) -> float | None:
    """Read 'took 3' and 'in 2.5' as hours: nobody counts to two and a half."""
    for figure in clause.of(Measure.COUNT):
        if figure.after != len(clause.texts) or not 0 < figure.value <= MOST_WORK_HOURS:
            continue
        before = clause.texts[figure.first - 1] if figure.first else ""
        took = before in ("took", "taken", "takes", "about", "around") and "took" in clause.texts
        if took or (figure.value != int(figure.value) and clause.has(Cue.DONE)):
            return figure.value
    return None


# --- which job -----------------------------------------------------------------------------


def _matches(clause: Clause, desk: Desk, said: JobSaid) -> tuple[Match, ...]:
    verb = next((h.verb for h in clause.hits if h.verb and h.verb != "not"), None)
    matches = desk.subjects.found(clause.wanted, (Kind.JOB,), verb)
    weighed = [(_by_state(m, desk, said.what) * m.score, m) for m in matches]
    weighed.sort(key=lambda pair: (-pair[0], pair[1].subject.key))
    return tuple(replace(m, score=score) for score, m in weighed)


def _by_state(match: Match, desk: Desk, what: Cue | None) -> float:
    state = desk.build.jobs[match.subject.id].state
    if what is Cue.OFF:
        return 1.3 if state.is_done or state.status is JobStatus.STARTED else 0.6
    if what in (Cue.UNDONE, Cue.STILL):
        return 1.0
    return 0.5 if state.is_done else 1.15 if state.status is JobStatus.STARTED else 1.0


def _choose(clause: Clause, desk: Desk, said: JobSaid, matches: Sequence[Match]) -> None:
    best = matches[0]
    pair = _both_sides(clause, desk, matches)
    if pair:
        said.jobs = pair
        said.confidence = best.covered
    elif not is_clear(matches) or best.covered < SURE:
        said.rivals = rivals(matches)
        return
    else:
        said.jobs = [best.subject.id]
        said.confidence = best.covered
    other = other_thing(clause.runs, best)
    if other and said.what not in (Cue.UNDONE, Cue.STILL, None):
        said.jobs, said.rivals = [], rivals(matches)
        return
    if said.what is Cue.DONE and not said.doubt:
        if not best.head:
            said.doubt = "only a part of it was named"
        elif not _work_agrees(clause.hits, best.subject.verbs):
            said.doubt = "another sort of work was named"


def _both_sides(clause: Clause, desk: Desk, matches: Sequence[Match]) -> list[str]:
    """Return a job and its twin, when both are meant: both calipers, hoses without a side."""
    best = matches[0].subject.id
    twin = twin_of(desk, best)
    near = {m.subject.id: m.score for m in matches if m.score >= 0.6 * matches[0].score}
    if twin not in near or "side" in clause.wanted.sides:
        return []
    if not clause.wanted.both and not _is_plural(clause, matches[0]):
        return []
    pair = sorted((best, twin), key=lambda key: (-near[key], key))
    still_open = [key for key in pair if not desk.build.jobs[key].state.is_done]
    return still_open if said_of_open(clause) else pair


def said_of_open(clause: Clause) -> bool:
    """Whether what is said concerns work that was open till now."""
    return not clause.has(Cue.OFF)


def twin_of(desk: Desk, job: str) -> str:
    """Return the same job on the other side, whichever of the two names the other."""
    named = desk.definition(job).twin
    if named in desk.build.jobs:
        return named or ""
    return next((k for k, r in desk.build.jobs.items() if r.job.twin == job), "")


def _is_plural(clause: Clause, match: Match) -> bool:
    words = [w for w in clause.texts if w.endswith("s") and not w.endswith("ss")]
    heads = [s for s, weight in match.subject.words.items() if weight >= 1]
    return any(w.rstrip("s") in heads or w[:-1] in match.matched for w in words)


def _work_agrees(hits: Sequence[Hit], verbs: Sequence[str]) -> bool:
    """Whether the work that was told is of the sort that the job is."""
    told = [h.verb for h in hits if h.verb and h.cue in (Cue.DONE, Cue.TORQUED)]
    if not told or not verbs or any(h.cue is Cue.DONE and not h.verb for h in hits):
        return True
    sorts = set().union(*(WORK[v] for v in verbs))
    return any(WORK[v] & sorts for v in told)
