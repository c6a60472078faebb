"""What a clause says of jobs: which, what became of them, how many hours went in."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from datetime import datetime
from typing import Final

from bareshell.model.job import JobStatus
from bareshell.whole.said.clauses import Clause
from bareshell.whole.said.cue_words import Cue
from bareshell.whole.said.cues import Hit
from bareshell.whole.said.desk import LEAST, SURE, Desk, is_clear, rivals
from bareshell.whole.said.figures import MOST_WORK_HOURS, Figure, Measure
from bareshell.whole.said.hours import EACH, LEFT, LEFT_BEFORE, TOTAL, begins_with
from bareshell.whole.said.names import Kind
from bareshell.whole.said.subjects import Match, Wanted, other_thing
from bareshell.whole.said.trade_words import WORK
from bareshell.whole.said.when_said import when_inside

_JOB_CUES: Final = frozenset({Cue.DONE, Cue.PART, Cue.STARTED, Cue.OFF, Cue.DO, Cue.TORQUED})


LEAST_SAID: Final = 0.3
"""The share of a job's own name that must be said before it is taken for finished."""


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
    either : bool
        Whether the hours may be those still to do as well.
    doubt : str
        Why it must be asked whether the job is finished.
    hint : str
        A word to the person about how the hours were read.
    unsure : bool
        Whether it may be a question: then whatever it says is asked.
    faint : bool
        Whether its words name a job only by a side, or in passing.
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
    at: datetime | None = None
    either: bool = False
    unsure: bool = False
    faint: bool = False


def read_job(clause: Clause, desk: Desk) -> JobSaid | None:
    """Read a clause as one about jobs, or return None when it says nothing of any."""
    said = JobSaid(clause, text=clause.text)
    said.what, said.doubt = _what(clause)
    _read_hours(clause, said)
    untold = said.what in (None, Cue.DO) and said.worked is None and said.left is None
    if untold and not _names_a_job(clause, desk):
        return None
    if untold:
        said.what = None  # "fit heater" alone is a name, not yet a thing done
    if not _names_anything(clause, desk, said):
        said.named = False
        return said if said.what or said.worked is not None or said.left is not None else None
    matches = _matches(clause, desk, said)
    if not matches:
        return None
    if matches[0].score < LEAST:
        return _weakly_named(said, matches)
    _choose(clause, desk, said, matches)
    said.either = said.what is Cue.PART and any(
        clause.texts[f.first] == "another" for f in clause.of(Measure.HOURS)
    )
    if said.what is Cue.DONE and _hours_put_in(clause):
        said.what = Cue.PART
    if said.worked is not None and said.what is None and _hours_on(clause):
        said.what = Cue.PART
    said.leads = _action_leads(clause)
    said.at = when_inside(clause.text, desk.at, desk.zone, desk.build)
    return said


def _weakly_named(said: JobSaid, matches: Sequence[Match]) -> JobSaid | None:
    """Ask about open jobs that only a word in passing names, when work was clearly done."""
    near = tuple(m for m in matches if m.subject.is_open and m.covered >= SURE)
    if said.what is not Cue.DONE or not near:
        return None
    said.rivals, said.faint = rivals(near), True
    return said


def _names_anything(clause: Clause, desk: Desk, said: JobSaid) -> bool:
    """Whether a clause names a thing; 'took ages, 4 hours' only goes on about the last one."""
    if said.what is None and said.worked is not None:
        return any(desk.subjects.knows(stem) for stem in clause.free)
    return bool(clause.free) or bool(clause.wanted.stems)


def job_wanted(clause: Clause) -> Wanted:
    """Return the words that may name a job: those that are no part of a cue."""
    return replace(clause.wanted, stems=clause.free)


def _names_a_job(clause: Clause, desk: Desk) -> bool:
    matches = desk.subjects.found(job_wanted(clause), (Kind.JOB,))
    return bool(matches) and matches[0].head and matches[0].covered >= SURE


# --- what became of it -------------------------------------------------------------------------


def _what(clause: Clause) -> tuple[Cue | None, str]:
    """Weigh the cues of a clause: what they say together, and what makes it doubtful."""
    said_so, denied = _by_polarity(clause)
    begins = next((t for t in clause.texts if t not in ("and", "but", "so")), "")
    if begins == "not" and not said_so and not denied:
        return Cue.UNDONE, ""
    undone = clause.has(Cue.UNDONE) and (
        bool(denied) or any(h.cue is Cue.UNDONE and h.verb != "not" for h in clause.hits)
    )
    if undone and _denied_first(clause):
        return Cue.UNDONE, ""
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


def _denied_first(clause: Clause) -> bool:
    """Whether the denial stands before all that was done: could not get the wipers in."""
    denials = [
        h.first
        for h in clause.hits
        if h.cue is Cue.UNDONE and clause.texts[h.first] not in ("no", "without", "nothing")
    ]
    doing = [h.first for h in clause.hits if h.cue in (Cue.DONE, Cue.OFF, Cue.PART)]
    return bool(denials) and bool(doing) and min(denials) < min(doing)


def _by_polarity(clause: Clause) -> tuple[set[Cue], set[Cue]]:
    said_so: set[Cue] = set()
    denied: set[Cue] = set()
    nots = [h.after - 1 for h in clause.hits if h.cue is Cue.UNDONE]
    ends = [n for n in nots if n + 1 == len(clause.texts) or clause.gaps[n + 1]]
    if any(clause.texts[n] == "not" for n in ends):
        denied.add(Cue.DONE)
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


def _hours_put_in(clause: Clause) -> bool:
    """Whether it says 'put 2 h in on the seats': hours went in, and nothing is finished."""
    after_put = [h.after for h in clause.hits if h.verb == "put"]
    return any(f.first in after_put for f in clause.of(Measure.HOURS))


# --- hours ---------------------------------------------------------------------------------


def _read_hours(clause: Clause, said: JobSaid) -> None:
    worked = [f for f in clause.of(Measure.HOURS) if not is_left(clause, f)]
    several = sum(f.value <= MOST_WORK_HOURS for f in worked) > 1
    for figure in clause.of(Measure.HOURS):
        if is_left(clause, figure):
            said.left = figure.value
        elif figure.value > MOST_WORK_HOURS:
            said.hint = f"{figure.value:g} h is not taken for working time"
        elif said.worked is None and not several:
            said.worked = figure.value
            follows = clause.texts[figure.after : figure.after + 3]
            said.each = begins_with(follows, EACH)
            said.total = begins_with(follows, TOTAL)
        else:
            said.hint = "no hours taken, for more than one length of time was said"
    if said.worked is None and said.left is None and not several:
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
    start = max(0, figure.first - 3)
    signs = [at for at in range(start + 1, figure.first + 1) if clause.gaps[at : at + 1] != ("",)]
    before = clause.texts[signs[-1] if signs else start : figure.first]
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
    matches = desk.subjects.found(job_wanted(clause), (Kind.JOB,), verb)
    weighed = [
        (_by_state(m, desk, said.what) * _spoken(m, clause, desk) * m.score, m) for m in matches
    ]
    weighed.sort(key=lambda pair: (-pair[0], pair[1].subject.key))
    return tuple(replace(m, score=score) for score, m in weighed)


def _spoken(match: Match, clause: Clause, desk: Desk) -> float:
    """How much a job gains that was spoken of: most when a part of it goes on being named."""
    key = match.subject.id
    if key == desk.job and clause.joint in (",", "and", "") and not match.head:
        return 1.8 if match.covered > 0.99 else 1.25
    return 1.25 if key in desk.jobs or key in desk.near else 1.0


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
    elif not is_clear(matches) or best.covered < SURE or _all_of_many(clause, matches):
        said.rivals = rivals(matches)
        return
    else:
        said.jobs = [best.subject.id]
        said.confidence = best.covered
    elsewhere = bool(other_thing(clause.runs, best)) or _verb_points_elsewhere(clause, matches)
    if elsewhere and said.what not in (Cue.UNDONE, Cue.STILL, None):
        said.jobs, said.rivals = [], rivals(matches)
        return
    if said.what is Cue.DONE and not said.doubt:
        said.doubt = _doubt(clause, desk, matches)


def _doubt(clause: Clause, desk: Desk, matches: Sequence[Match]) -> str:
    """Say why it must be asked whether a job is finished, or nothing when it need not."""
    best, words = matches[0], set(clause.texts)
    if clause.has(Cue.WRONG, Cue.DAMAGED, Cue.LEAK, Cue.FAILED, Cue.MISSING, Cue.SHORT):
        return "something was wrong with it"
    reasons = (
        (side_unanswered(clause, matches), "the job has no such side"),
        (
            best.said < LEAST_SAID and not desk.subjects.names_it(best),
            "little of its name was said",
        ),
        (not best.head, "only a part of it was named"),
        (bool({"its", "their"} & words), "it was said to belong to something"),
        (_one_of_it(clause), "one of it was named"),
        ("only" in words, "only that was said"),
        (not _work_agrees(clause.hits, best.subject.verbs), "another sort of work was named"),
    )
    return next((reason for holds, reason in reasons if holds), "")


def _all_of_many(clause: Clause, matches: Sequence[Match]) -> bool:
    """Whether all of something was said where more than one job is of it: all hoses."""
    if "all" not in clause.texts or not _is_plural(clause, matches[0]):
        return False
    near = [m for m in matches[1:] if m.subject.is_open and m.score >= 0.45 * matches[0].score]
    return any(m.matched == matches[0].matched for m in near)


def _one_of_it(clause: Clause) -> bool:
    """Whether only one of a thing was said to be done: one seat cover."""
    return any(f.value == 1 and clause.texts[f.first] == "one" for f in clause.of(Measure.COUNT))


def _verb_points_elsewhere(clause: Clause, matches: Sequence[Match]) -> bool:
    """Whether the work that was told is that of another job that may be meant."""
    told = {h.verb for h in clause.hits if h.verb and h.cue in (Cue.DONE, Cue.TORQUED)}
    if not told or told & set(matches[0].subject.verbs):
        return False
    near = [m for m in matches[1:] if m.score >= 0.5 * matches[0].score and m.subject.is_open]
    return any(told & set(m.subject.verbs) for m in near)


def side_unanswered(clause: Clause, matches: Sequence[Match]) -> bool:
    """Whether a side was said that the job does not have: half of it, or another job."""
    own = matches[0].subject.sides
    for axis, value in clause.wanted.sides.items():
        if axis in own:
            continue
        if axis == "side":
            return True
        near = [m for m in matches[1:] if m.score >= 0.4 * matches[0].score]
        if any(m.subject.sides.get(axis) == value for m in near):
            return True
    return False


def _both_sides(clause: Clause, desk: Desk, matches: Sequence[Match]) -> list[str]:
    """Return a job and its twin, when both are meant: both calipers, hoses without a side."""
    best = matches[0].subject.id
    twin = twin_of(desk, best)
    sides = [desk.subjects.by_key[f"job:{k}"].sides.get("side") for k in (best, twin) if twin]
    if len(set(sides)) < 2 or None in sides:
        return []
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
    told = [h.verb for h in hits if h.verb and h.cue in (Cue.DONE, Cue.TORQUED, Cue.DO)]
    named = any(h.cue is Cue.DO for h in hits)
    if not told or (any(h.cue is Cue.DONE and not h.verb for h in hits) and not named):
        return True
    # A title without a verb, as "Underlay and carpet", is of something to fit.
    sorts = set().union(*(WORK.get(v, frozenset()) for v in verbs)) or {"fit"}
    return any(WORK.get(v, frozenset()) & sorts for v in told)
