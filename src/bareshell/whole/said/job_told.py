"""From what clauses say of jobs to sentences and changes: lists, shared hours, going on."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from bareshell.model.changes import (
    Change,
    JobFinished,
    JobNotDone,
    JobStarted,
    JobTakenOff,
    JobWorked,
)
from bareshell.model.job import JobStatus
from bareshell.units import show_date, show_hours
from bareshell.whole.said.cue_words import Cue
from bareshell.whole.said.desk import MOST_CHOICES, Desk, Piece, asked, heard, noted, plain
from bareshell.whole.said.job_said import JobSaid, _work_agrees
from bareshell.whole.said.results import Choice
from bareshell.whole.said.unsure_said import (
    faintly,
    jobs_of_a_side,
    only_asked,
    tells_work,
)

_NOT_DONE = (Cue.UNDONE, Cue.STILL)


def tell_jobs(pieces: Sequence[Piece | JobSaid], desk: Desk) -> list[Piece]:
    """Turn what was said of jobs into pieces, in the order in which it was said.

    A clause with no name goes on about the last job; jobs in a list share what became of them
    and the hours; what is said twice of a job is one thing.
    """
    rest = _gone_on(list(pieces), desk)
    saids = [p for p in rest if isinstance(p, JobSaid)]
    _hand_on(rest)
    _share_hours(saids, desk)
    rest = _once_each(rest)
    found: list[Piece] = []
    for piece in rest:
        if not isinstance(piece, JobSaid):
            found.append(piece)
            continue
        told = _told(piece, desk)
        told = [only_asked(one) for one in told] if piece.unsure else told
        found += [faintly(one) for one in told] if piece.unsure or piece.faint else told
    return found


# --- going on about the last job ---------------------------------------------------------------


def _gone_on(pieces: list[Piece | JobSaid], desk: Desk) -> list[Piece | JobSaid]:
    rest: list[Piece | JobSaid] = []
    last: JobSaid | None = None
    worked_on: JobSaid | None = None
    for piece in pieces:
        if not isinstance(piece, JobSaid) or piece.named:
            rest.append(piece)
            last = piece if isinstance(piece, JobSaid) else last
            if isinstance(piece, JobSaid) and piece.what not in _NOT_DONE:
                worked_on = piece
            if (
                isinstance(piece, JobSaid)
                and piece.jobs
                and piece.total
                and piece.worked is not None
            ):
                hours, piece.worked = piece.worked, None
                whole = JobSaid(piece.clause, worked=hours, total=True)
                _total(whole, [p for p in rest if isinstance(p, JobSaid)], rest, desk)
        elif piece.total and piece.worked is not None:
            _total(piece, [p for p in rest if isinstance(p, JobSaid)], rest, desk)
        elif _of_all(piece, [p for p in rest if isinstance(p, JobSaid)]):
            continue
        else:
            one = worked_on if piece.what is None else last
            apart = one is not None and piece.unsure and not one.unsure
            if one is None or apart or not _goes_on(one, piece, desk):
                rest.append(_side_or_note(piece, desk))
    return rest


def _side_or_note(piece: JobSaid, desk: Desk) -> Piece | JobSaid:
    """Ask which job "rear done 1h" means; without any word for a thing it stays a note."""
    if tells_work(piece.what, piece.worked):
        piece.rivals, piece.faint = jobs_of_a_side(piece.clause, desk), True
    return piece if piece.rivals else noted(desk, piece.clause)


def _of_all(piece: JobSaid, before: Sequence[JobSaid]) -> bool:
    """Take 'both finished' and 'all done' for the jobs that were only listed till then."""
    if not {"both", "all"} & set(piece.clause.texts) or piece.worked is not None:
        return False
    listed = [said for said in before if said.what is None]
    for said in listed:
        said.what, said.doubt = piece.what, piece.doubt
        said.text += piece.text
    return bool(listed)


def _total(
    piece: JobSaid, before: Sequence[JobSaid], rest: list[Piece | JobSaid], desk: Desk
) -> None:
    takers = [p for p in before if p.worked is None and p.what not in _NOT_DONE and not p.rivals]
    if not takers:
        rest.append(noted(desk, piece.clause))
        return
    jobs = [(taker, job) for taker in takers for job in taker.jobs]
    shares = _shares(desk, [job for _, job in jobs], piece.worked or 0.0)
    for taker in takers:
        own = [share for (t, _), share in zip(jobs, shares, strict=True) if t is taker]
        taker.worked, taker.each = sum(own), False
        if len(jobs) > 1:
            taker.hint = f"its share, by the estimates, of {show_hours(piece.worked or 0)} in all"
        taker.text += piece.text


def _goes_on(last: JobSaid, more: JobSaid, desk: Desk) -> bool:
    """Take what a clause without a name says for the last job; False when it does not suit."""
    if more.what is not None and last.jobs:
        verbs = tuple(desk.subjects.by_key[f"job:{last.jobs[0]}"].verbs)
        if not _work_agrees(more.clause.hits, verbs):
            return False
    if more.worked is not None:
        if last.worked is not None:
            return False
        last.either = last.what is Cue.PART and "another" in more.clause.texts
        last.worked, last.each = more.worked, more.each
        last.hint = last.hint or more.hint
    if more.left is not None:
        last.left = more.left
        if last.what is Cue.DONE:
            last.what = Cue.PART
    _what_now(last, more)
    last.text += more.text
    return True


def _what_now(last: JobSaid, more: JobSaid) -> None:
    if more.what is None or more.what is last.what:
        return
    if last.what is None:
        last.what, last.doubt = more.what, more.doubt
    elif last.what is Cue.DONE:
        reason = "it came off again" if more.what is Cue.OFF else "something was still to do"
        last.doubt = last.doubt or reason
    elif more.what is Cue.DONE and last.what in (Cue.PART, Cue.STARTED):
        last.doubt, last.what = "it was also said to be begun", Cue.DONE


# --- lists -----------------------------------------------------------------------------------


def _hand_on(pieces: Sequence[Piece | JobSaid]) -> None:
    """Let jobs that are only listed share what became of the one beside them."""
    saids = list(pieces)
    for at in range(len(saids) - 2, -1, -1):
        here, after = saids[at], saids[at + 1]
        if not (isinstance(here, JobSaid) and isinstance(after, JobSaid)):
            continue
        if here.unsure is not after.unsure:
            continue
        listed = here.what is None and here.worked is None and here.left is None
        joined = after.clause.joint in ("and", ",", "") and not after.leads
        if listed and joined and after.what is not None:
            _take_over(here, after)
    for here, after in pairwise(saids):
        if not (isinstance(here, JobSaid) and isinstance(after, JobSaid)):
            continue
        if here.unsure is not after.unsure:
            continue
        listed = after.what is None and after.left is None
        if listed and here.what is not None and here.leads and after.clause.joint in ("and", ","):
            _take_over(after, here)
            after.leads = True


def _take_over(listed: JobSaid, told: JobSaid) -> None:
    listed.what, listed.doubt = told.what, told.doubt
    listed.hint = "with" if listed.worked is None else listed.hint


def _share_hours(saids: Sequence[JobSaid], desk: Desk) -> None:
    """Share hours among the jobs of one list, by their estimates, unless they are for each."""
    for at, said in enumerate(saids):
        if said.worked is None:
            continue
        group = [said]
        for step in (-1, 1):
            near = at + step
            while 0 <= near < len(saids) and saids[near].hint == "with":
                group.append(saids[near])
                near += step
        jobs = [(s, job) for s in group for job in s.jobs]
        if len(jobs) < 2:
            continue
        whole = said.worked
        shares = [whole] * len(jobs) if said.each else _shares(desk, [j for _, j in jobs], whole)
        for s in group:
            own = [h for (t, _), h in zip(jobs, shares, strict=True) if t is s]
            s.worked, s.each = sum(own), said.each
            hint = "each" if said.each else f"its share, by the estimates, of {show_hours(whole)}"
            s.hint = hint
            if said.each and own:
                s.worked = own[0]
    for said in saids:
        if said.hint == "with":
            said.hint = ""


def _shares(desk: Desk, jobs: Sequence[str], hours: float) -> list[float]:
    """Share hours in proportion to what each job most likely takes."""
    likely = [max(0.1, desk.definition(job).ways[0].hours.likely_hours) for job in jobs]
    shares = [round(hours * part / sum(likely), 2) for part in likely]
    if shares:
        shares[-1] = round(hours - sum(shares[:-1]), 2)
    return shares


def _once_each(pieces: Sequence[Piece | JobSaid]) -> list[Piece | JobSaid]:
    """Make one of what was said twice of a job."""
    rest: list[Piece | JobSaid] = []
    by_job: dict[tuple[str, bool], JobSaid] = {}
    for piece in pieces:
        if not isinstance(piece, JobSaid) or len(piece.jobs) != 1 or piece.rivals:
            rest.append(piece)
            continue
        key = (piece.jobs[0], piece.unsure)
        first = by_job.get(key)
        if first is None:
            by_job[key] = piece
            rest.append(piece)
            continue
        _merge(first, piece)
    return rest


def _merge(first: JobSaid, second: JobSaid) -> None:
    if Cue.OFF in (first.what, second.what) and first.what is not second.what:
        came_off = second.what is Cue.OFF
        first.doubt = "it came off again" if came_off else "it came off first"
        first.what = Cue.DONE
        first.worked = second.worked if second.worked is not None else first.worked
        first.text += second.text
        return
    if second.worked is not None:
        first.worked = (first.worked or 0.0) + second.worked
    first.left = second.left if second.left is not None else first.left
    if first.what is Cue.DONE and second.what in (*_NOT_DONE, Cue.PART, Cue.STARTED):
        first.what, first.doubt = Cue.PART, ""
    elif second.what is Cue.DONE and first.what is not Cue.DONE:
        not_all = bool(second.doubt) or first.what in _NOT_DONE
        first.what, first.doubt = (Cue.PART, "") if not_all else (Cue.DONE, "")
    elif first.what is None:
        first.what, first.doubt = second.what, second.doubt
    elif first.what in _NOT_DONE and second.what in (Cue.PART, Cue.STARTED):
        first.what = Cue.PART
    if first.doubt and second.what is Cue.DONE and not second.doubt:
        first.doubt = ""
    first.text += second.text


# --- sentences and changes -----------------------------------------------------------------------


def _told(said: JobSaid, desk: Desk) -> list[Piece]:
    if said.rivals:
        return [_which(said, desk)]
    if not said.jobs:
        return [noted(desk, said.clause)]
    found: list[Piece] = []
    for job in said.jobs:
        desk.speak_of(job)
        found.append(_one(said, job, _hours_of(said, job, desk), desk))
    return found


def _hours_of(said: JobSaid, job: str, desk: Desk) -> float | None:
    if said.worked is None or said.each or len(said.jobs) < 2:
        return said.worked
    return _shares(desk, said.jobs, said.worked)[said.jobs.index(job)]


def _one(said: JobSaid, job: str, hours: float | None, desk: Desk) -> Piece:
    state = desk.build.jobs[job].state
    match said.what:
        case Cue.DONE:
            if said.doubt or state.is_done:
                return _finished_or_part(said, job, hours, desk)
            return _finished(said, job, hours, desk)
        case Cue.PART:
            return _part(said, job, hours, desk)
        case Cue.STARTED:
            if hours is None and said.left is None:
                return _started(said, job, desk)
            return _part(said, job, hours, desk)
        case Cue.UNDONE | Cue.STILL:
            return _not_done(said, job, hours, desk)
        case Cue.OFF:
            return _off(said, job, desk)
        case _:
            if hours is None and said.left is not None:
                return _part(said, job, hours, desk)
            if hours is not None:
                said.doubt = "it was not said"
                return _finished_or_part(said, job, hours, desk)
            return noted(desk, said.clause)


def hours_words(hours: float | None, left: float | None = None, hint: str = "") -> str:
    """Say hours that went in and hours still to do, with how they were read.

    Examples
    --------
    >>> hours_words(2.5), hours_words(None), hours_words(1.0, 0.5)
    (', 2 h 30 min', '', ', 1 h, 30 min still to do')
    """
    parts = [] if hours is None else [show_hours(hours) + (f" ({hint})" if hint else "")]
    if hours is None and hint:
        parts.append(hint)
    if left is not None:
        parts.append(f"{show_hours(left)} still to do")
    return "".join(f", {part}" for part in parts)


def _finished(said: JobSaid, job: str, hours: float | None, desk: Desk) -> Piece:
    change = JobFinished(job, hours, plain(said.text))
    text = f"finished{hours_words(hours, None, said.hint)}"
    return _heard("finished", said, job, text, (change,), desk)


def _part(said: JobSaid, job: str, hours: float | None, desk: Desk) -> Piece:
    if said.either and hours is not None and said.left is None:
        return _gone_in_or_left(said, job, hours, desk)
    change = JobWorked(job, hours, said.left, plain(said.text))
    state = desk.build.jobs[job].state
    if state.is_done:
        title = desk.title(job)
        label = f"{title}: taken up again, part done{hours_words(hours, said.left)}"
        more = JobFinished(job, hours, plain(said.text))
        choices = [
            Choice(f"{title}: more was done and it stays finished{hours_words(hours)}", (more,)),
            Choice(label, (change,)),
        ]
        return _ask(
            f"'{title}' is recorded as done. How does it stand now?", choices, said, job, desk
        )
    return _heard("part done", said, job, f"part done{hours_words(hours, said.left, said.hint)}",
                  (change,), desk)  # fmt: skip


def _gone_in_or_left(said: JobSaid, job: str, hours: float, desk: Desk) -> Piece:
    """Ask whether "another hour" went in or is still to do."""
    title, words = desk.title(job), plain(said.text)
    left = JobWorked(job, None, hours, words)
    gone = JobWorked(job, hours, None, words)
    choices = [
        Choice(f"{title}: part done{hours_words(None, hours)}", (left,)),
        Choice(f"{title}: part done{hours_words(hours)}", (gone,)),
    ]
    question = f"'{title}': did another {show_hours(hours)} go in, or is it still to do?"
    return _ask(question, choices, said, job, desk)


def _started(said: JobSaid, job: str, desk: Desk) -> Piece:
    state = desk.build.jobs[job].state
    if state.is_done:
        return _finished_or_part(said, job, None, desk)
    return _heard("part done", said, job, "started", (JobStarted(job),), desk)


def _not_done(said: JobSaid, job: str, hours: float | None, desk: Desk) -> Piece:
    state = desk.build.jobs[job].state
    words = plain(said.text)
    if state.is_done:
        title = desk.title(job)
        choices = [Choice(f"{title}: not done after all", (JobNotDone(job, words),))]
        return _ask(f"'{title}' is recorded as done. Is it not?", choices, said, job, desk)
    if hours is not None or said.left is not None:
        return _part(said, job, hours, desk)
    change = desk.note(words, f"job:{job}")
    return _heard(
        "not done", said, job, "not done; nothing changes, the words are kept", (change,), desk
    )


def _off(said: JobSaid, job: str, desk: Desk) -> Piece:
    state = desk.build.jobs[job].state
    words = plain(said.text)
    title = desk.title(job)
    if state.is_done or state.status is JobStatus.STARTED:
        return _heard(
            "taken off", said, job, "taken off again, it is there to do again",
            (JobTakenOff(job, words),), desk,
        )  # fmt: skip
    fitted: tuple[Change, ...] = (JobFinished(job, None, words), JobTakenOff(job, words))
    choices = [Choice(f"{title}: it was fitted and came off again", fitted)]
    return _ask(f"'{title}' is not recorded as fitted. Was it on, and came off again?",
                choices, said, job, desk)  # fmt: skip


def _finished_or_part(said: JobSaid, job: str, hours: float | None, desk: Desk) -> Piece:
    title = desk.title(job)
    words = plain(said.text)
    record = desk.build.jobs[job]
    finished: tuple[Change, ...] = (JobFinished(job, hours, words),)
    label = f"{title}: finished{hours_words(hours, None, said.hint)}"
    if said.doubt == "it came off first" and record.state.is_done:
        finished = (JobTakenOff(job, words), *finished)
        label = f"{title}: it came off and is on again{hours_words(hours)}"
    if said.doubt == "it came off again":
        off = Choice(f"{title}: fitted{hours_words(hours)}, and it came off again",
                     (*finished, JobTakenOff(job, words)))  # fmt: skip
        part_done = Choice(
            f"{title}: part done{hours_words(hours)}", (JobWorked(job, hours, None, words),)
        )
        question = f"'{title}': was it finished, and came off again?"
        return _ask(question, [off, part_done], said, job, desk)
    part = Choice(
        f"{title}: part done{hours_words(hours, said.left)}",
        (JobWorked(job, hours, said.left, words),),
    )
    if record.state.is_done and not said.doubt:
        when = record.state.finished_at
        day = f" on {show_date(when.astimezone(desk.zone).date())}" if when else ""
        question = f"'{title}' is recorded as done{day}. Was more done on it?"
        label = f"{title}: more was done and it stays finished{hours_words(hours)}"
        return _ask(question, [Choice(label, finished)], said, job, desk)
    question = f"'{title}': finished, or part done? ({said.doubt})"
    return _ask(question, [Choice(label, finished), part], said, job, desk)


def _which(said: JobSaid, desk: Desk) -> Piece:
    choices: list[Choice] = []
    tonight = desk.subjects.rank
    first = sorted(said.rivals, key=lambda m: m.subject.id not in tonight)
    # With hours alone said of many, only that they went in is offered: it is true of any of them.
    untold = (Cue.DONE, Cue.PART) if 2 * len(first) <= MOST_CHOICES else (Cue.PART,)
    for rival in first:
        key = rival.subject.id
        for what in (said.what,) if said.what is not None else untold:
            one = JobSaid(said.clause, [key], what, said.worked, said.left, text=said.text)
            piece = _one(one, key, said.worked, desk)
            if piece.heard is not None and piece.heard.changes:
                choices.append(Choice(piece.heard.sentence, piece.heard.changes))
            elif piece.asked is not None:
                choices += piece.asked.choices
    question = "which job is meant?" if len(said.rivals) > 1 else "is this job meant?"
    return asked(f'"{plain(said.text)}": {question}', choices[:MOST_CHOICES], said.clause,
                 words=plain(said.text))  # fmt: skip


def _heard(
    kind: str, said: JobSaid, job: str, text: str, changes: tuple[Change, ...], desk: Desk
) -> Piece:
    when = ""
    if said.at is not None:
        local = said.at.astimezone(desk.zone)
        when = f", on {show_date(local.date())}"
    piece = heard(
        kind, desk.title(job), text + when, changes, said.clause, said.confidence, said.at
    )
    if piece.heard is not None:
        piece.heard = replace(piece.heard, words=plain(said.text))
    return piece


def _ask(question: str, choices: list[Choice], said: JobSaid, job: str, desk: Desk) -> Piece:
    return asked(question, choices, said.clause, title=desk.title(job), about=f"job:{job}",
                 words=plain(said.text))  # fmt: skip
