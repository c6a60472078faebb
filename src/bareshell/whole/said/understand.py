"""One line, typed or dictated, becomes what it says: heard, asked, or left as a note."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Sequence
from dataclasses import replace
from datetime import datetime, tzinfo

from bareshell.model import Build
from bareshell.whole.said.clauses import Clause, Sentence, clauses_of, sentences_of
from bareshell.whole.said.cue_words import Cue
from bareshell.whole.said.desk import Desk, Piece, noted, plain
from bareshell.whole.said.figures import MOST_WORK_HOURS, Measure
from bareshell.whole.said.job_said import JobSaid, read_job
from bareshell.whole.said.job_told import tell_jobs
from bareshell.whole.said.part_said import read_part
from bareshell.whole.said.place_said import read_place
from bareshell.whole.said.proof_said import read_proof
from bareshell.whole.said.results import Understood
from bareshell.whole.said.sentence_said import read_sentence
from bareshell.whole.said.session_said import read_session, session_heard
from bareshell.whole.said.subjects import Subjects
from bareshell.whole.said.temp_said import read_temp
from bareshell.whole.said.unsure_said import faintly, only_asked
from bareshell.whole.said.weigh import weighed
from bareshell.whole.said.when_said import when_said
from bareshell.whole.said.words import tokens_of

LONGEST_LINE = 8_000
"""No evening's line is longer; what comes after it is kept as notes."""

_SAYS_SOMETHING = re.compile(r"[^\s!-/:-@\[-`{-~]")
_PROVING = (Cue.HELD, Cue.BEGUN, Cue.FAILED, Cue.LEAK, Cue.TORQUED)
_OF_PARTS = (Cue.ARRIVED, Cue.SHORT, Cue.MISSING)


def understand(
    line: str, build: Build, tonight: Sequence[str], at: datetime, zone: tzinfo
) -> Understood:
    """Read one line about what was done.

    Parameters
    ----------
    line : str
        As typed or dictated: ``"heater in 2.5 h; two hose clips short; matrix held 1 bar
        10 min"``. Beginning with a day ("friday evening: ...") it is about that day.
    build : Build
        The build as it stands.
    tonight : sequence of str
        The jobs of tonight's list, best first; they are meant before others.
    at : datetime
        When it happened, unless the line says otherwise. Aware.
    zone : tzinfo
        The garage's zone.

    Returns
    -------
    Understood
        What was heard (each with its sentence and changes), what must be asked, and the words
        that are kept as a note. Any text at all is taken; the same line on the same build is
        always understood the same way.

    Examples
    --------
    >>> from datetime import UTC
    >>> from bareshell.model.changes import JobSet
    >>> from bareshell.model.job import Job
    >>> from bareshell.whole.said.weigh import folded
    >>> moment = datetime(2026, 11, 25, 21, 45, tzinfo=UTC)
    >>> job = JobSet(Job("heater", "Fit the heater", "cooling"))
    >>> shed = folded(Build(), [(moment, job)])
    >>> said = understand("heater in 2.5 h", shed, ("heater",), moment, UTC)
    >>> said.heard[0].sentence
    'Fit the heater: finished, 2 h 30 min'
    """
    if at.tzinfo is None:
        raise ValueError("the moment at which a line is said must carry a time zone")
    line = printable(line)
    beyond: tuple[str, ...] = ()
    if len(line) > LONGEST_LINE:
        line, beyond = line[:LONGEST_LINE], _in_pieces(line[LONGEST_LINE:])
    when = when_said(line, at, zone, build)
    moment = when.at if when is not None else at
    rest = line[when.rest :] if when is not None else line
    desk = Desk(build, Subjects(build, tonight), tonight, moment, zone)
    pieces = _read(rest, desk)
    told = tell_jobs(pieces, desk)
    told += _session(desk)
    heard, asked, left = weighed(told, desk)
    seen = {
        change.subject: build.versions.get(change.subject, 0)
        for h in heard
        for change in h.changes
        if change.subject in build.versions
    }
    return Understood(line, moment, heard, asked, (*left, *beyond), seen)


def printable(text: str) -> str:
    """Put a space for what cannot be shown: what steers a terminal, half a character.

    Examples
    --------
    >>> printable("heater" + chr(27) + "in")
    'heater in'
    """
    return "".join(
        " " if unicodedata.category(letter) in ("Cc", "Cs") and letter not in "\n\r\t" else letter
        for letter in text
    )


def _in_pieces(text: str) -> tuple[str, ...]:
    pieces = (text[at : at + LONGEST_LINE].strip() for at in range(0, len(text), LONGEST_LINE))
    return tuple(piece for piece in pieces if piece)


def _read(line: str, desk: Desk) -> list[Piece | JobSaid]:
    tokens = desk.subjects.named_in_full(tokens_of(line))
    if not tokens:
        words = line.strip()
        return [Piece(left=words)] if words else []
    pieces: list[Piece | JobSaid] = []
    sentences = sentences_of(line, tokens, desk.subjects)
    beyond = line[tokens[-1].end :].strip()
    whole = tokens[-1].end if _SAYS_SOMETHING.search(beyond) else len(line)
    for at, sentence in enumerate(sentences):
        start = 0 if at == 0 else sentence.tokens[0].start
        more = at + 1 < len(sentences)
        end = sentences[at + 1].tokens[0].start if more else whole
        pieces += _sentence(sentence, start, end, desk)
    if whole < len(line):
        pieces.append(Piece(left=beyond))
    return pieces


def _sentence(sentence: Sentence, start: int, end: int, desk: Desk) -> list[Piece | JobSaid]:
    text = sentence.line[start:end]
    whole = read_sentence(sentence, text, desk)
    if whole is not None:
        return list(whole)
    if sentence.asks:
        return [Piece(left=plain(text))]
    if sentence.perhaps:
        return _perhaps(sentence, start, end, desk.aside())
    return _clauses(sentence, start, end, desk)


def _clauses(sentence: Sentence, start: int, end: int, desk: Desk) -> list[Piece | JobSaid]:
    pieces: list[Piece | JobSaid] = []
    for clause in _whole_clauses(clauses_of(sentence, start, end), desk):
        if pieces:
            _hours_before_a_part(clause, pieces[-1])
        pieces += _clause(clause, desk)
    return pieces


def _perhaps(sentence: Sentence, start: int, end: int, aside: Desk) -> list[Piece | JobSaid]:
    """Read a sentence that may be a question: whatever it tells is asked, nothing is recorded."""
    pieces: list[Piece | JobSaid] = []
    for piece in _clauses(sentence, start, end, aside):
        if isinstance(piece, JobSaid):
            piece.unsure, piece.total = True, False
            piece.doubt = piece.doubt or "only 'did' was said"
            pieces.append(piece)
        else:
            pieces.append(faintly(only_asked(piece)))
    return [*pieces, *(Piece(left=plain(words)) for words in aside.session.words)]


def _hours_before_a_part(clause: Clause, before: Piece | JobSaid) -> None:
    """Give 'did the lamps, 2 hours, ran out of screws' its hours, once it is asked about."""
    if not isinstance(before, JobSaid) or before.worked is not None or not before.rivals:
        return
    first = clause.figures[0] if clause.figures else None
    if first is None or first.first or first.measure is not Measure.HOURS:
        return
    parted = clause.gaps[first.after : first.after + 1] not in ((), ("",))
    if parted and clause.has(Cue.SHORT, Cue.MISSING) and first.value <= MOST_WORK_HOURS:
        before.worked = first.value


def _whole_clauses(clauses: list[Clause], desk: Desk) -> list[Clause]:
    """Put back together what belongs together: a figure after a comma, an exception."""
    found: list[Clause] = []
    for clause in clauses:
        before = found[-1] if found else None
        if before is None or clause.joint == "then":
            found.append(clause)
        elif _is_an_exception(clause):
            whole = before.joined(clause)
            found[-1] = replace(whole, wanted=before.wanted, runs=before.runs, free=before.free)
        elif clause.joint == "" and clause.has(Cue.TEMP):
            found[-1] = before.joined(clause)  # no sign parts a bodge from what it is made of
        elif _is_a_fragment(clause, before, desk) or _limits_a_temp(clause, before):
            found[-1] = before.joined(clause)
        else:
            found.append(clause)
    return found


def _is_an_exception(clause: Clause) -> bool:
    """Whether a clause only takes something out of the one before: bar the thermostat."""
    texts = clause.texts
    return texts[:2] in (("bar", "the"), ("apart", "from")) or texts[:1] == ("except",)


def _limits_a_temp(clause: Clause, before: Clause) -> bool:
    """Whether a clause only says until when the temporary fix before it may stay."""
    begins = clause.texts[0] in ("must", "until", "till", "has", "needs", "to")
    return before.has(Cue.TEMP) and begins and bool({"before", "until", "till"} & set(clause.texts))


def _is_a_fragment(clause: Clause, before: Clause, desk: Desk) -> bool:
    """Whether a clause only goes on about the proving, or the delivery, before it."""
    if any(stem != "overnight" and desk.subjects.knows(stem) for stem in clause.free):
        return False
    if clause.has(Cue.LATER, Cue.MAYBE, Cue.COMPANY, Cue.ALONE, Cue.ENDED_AT):
        return False
    if before.has(*_OF_PARTS):
        return clause.has(Cue.CHECKED, Cue.WRONG, Cue.DAMAGED, Cue.UNLIKE) and not clause.figures
    before_proves = before.has(*_PROVING) or bool(before.of(Measure.QUANTITY))
    if clause.of(Measure.QUANTITY) or clause.has(*_PROVING):
        untold = not before.of(Measure.HOURS) and bool(before.wanted.stems)
        return before_proves or (untold and not before.has(Cue.DONE, Cue.PART, Cue.OFF))
    only_hours = bool(clause.of(Measure.HOURS)) and not clause.hits
    return only_hours and before_proves and not before.of(Measure.HOURS)


def _clause(clause: Clause, desk: Desk) -> list[Piece | JobSaid]:
    if not clause.texts:
        return [Piece(left=clause.text.strip())] if clause.text.strip() else []
    if _is_only_talk(clause):
        return [noted(desk, clause)]
    if read_session(clause, desk):
        return []
    for reader in (read_place, read_temp):
        pieces = reader(clause, desk)
        if pieces is not None:
            return [*pieces, *_job_beside(clause, desk, pieces)]
    parts = read_part(clause, desk) or read_proof(clause, desk)
    if parts is not None:
        return [*parts, *_job_of_a_reading(clause, desk, parts)]
    said = read_job(clause, desk)
    if said is None:
        return [noted(desk, clause)]
    desk.meant = frozenset(m.subject.id for m in said.rivals)
    for job in said.jobs:
        desk.speak_of(job)
    return [said]


def _job_beside(clause: Clause, desk: Desk, pieces: Sequence[Piece]) -> list[JobSaid]:
    """Read the job in 'seats bolted down temporarily': the temp is certain, the job is asked."""
    if not pieces or not clause.has(Cue.TEMP) or not clause.has(Cue.DONE):
        return []
    if not any(p.heard is not None and p.heard.kind == "temp" for p in pieces):
        return []
    said = read_job(clause, desk)
    if said is None or not said.jobs:
        return []
    said.doubt = said.doubt or "a temporary fix was named with it"
    for job in said.jobs:
        desk.speak_of(job)
    return [said]


def _job_of_a_reading(
    clause: Clause, desk: Desk, pieces: Sequence[Piece | JobSaid]
) -> list[JobSaid]:
    """Read the job in 'headlamps in, earths proved 0.03 ohm' when one clause tells both."""
    proved = any(isinstance(p, Piece) and p.heard and p.heard.kind == "proof" for p in pieces)
    done = any(h.cue is Cue.DONE and not h.verb for h in clause.hits)
    done |= clause.has(Cue.TORQUED) and not clause.of(Measure.QUANTITY)
    if not proved or not done or any(isinstance(p, JobSaid) for p in pieces):
        return []
    said = read_job(clause, desk)
    if said is None or len(said.jobs) != 1 or said.what is not Cue.DONE:
        return []
    verbs = desk.subjects.by_key[f"job:{said.jobs[0]}"].verbs
    if clause.has(Cue.TORQUED) and "torque" not in verbs:
        return []
    said.worked, said.doubt = None, "it was told with a proof"
    desk.speak_of(said.jobs[0])
    return [said]


def _is_only_talk(clause: Clause) -> bool:
    """Whether it tells of what will be, might be, or belongs to another car."""
    if clause.has(Cue.OTHER_CAR, Cue.MAYBE):
        return True
    if not clause.has(Cue.LATER):
        return False
    first = {h.cue: h.first for h in reversed(clause.hits)}
    if first.get(Cue.TEMP, len(clause.texts)) < first[Cue.LATER]:
        return False  # a bodge that must be gone by and by is on the car now
    left = any(f.measure is Measure.HOURS for f in clause.figures)
    return not (clause.has(Cue.PART, Cue.STILL) and left)


def _session(desk: Desk) -> list[Piece]:
    told = session_heard(desk)
    if told is not None:
        return [Piece(heard=told)]
    words = [plain(text) for text in desk.session.words]
    return [Piece(left="; ".join(words))] if words else []
