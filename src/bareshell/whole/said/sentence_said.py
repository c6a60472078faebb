"""Sentences that say themselves what they are: a note, a lesson, a new job."""

from __future__ import annotations

import re
from typing import Final

from bareshell.model.changes import Change, JobSet, LessonLearned
from bareshell.model.job import SYSTEMS, Job, Way
from bareshell.model.note import Lesson
from bareshell.model.trust import YOURS, ThreePoint
from bareshell.units import show_hours
from bareshell.whole.said.clauses import Sentence
from bareshell.whole.said.desk import LEAST, SURE, Desk, Piece, as_title, is_clear
from bareshell.whole.said.figures import Measure
from bareshell.whole.said.job_said import twin_of
from bareshell.whole.said.names import Kind
from bareshell.whole.said.results import Asked, Choice, Heard, small_id
from bareshell.whole.said.subjects import wanted_from

_NOTE = re.compile(
    r"^\W*(?:note|n\.?b|memo|notes|nota bene)\b(?:\s+that)?\s*[:,\-–—]?\s*(?!for\b)", re.IGNORECASE
)
_LESSON = re.compile(
    r"^\W*(?:lessons?(?:\s+learn(?:ed|t))?|learn(?:ed|t)(?:\s+that)?|tip|top tip)\b\s*[:,\-–—]?\s*",
    re.IGNORECASE,
)
_OTHER_SIDE = re.compile(r"\b(?:for|on)\s+the\s+other\s+side\b\s*[:,\-–—]?\s*", re.IGNORECASE)
_REMEMBER = re.compile(
    r"^\W*(?:note|remember|notes?\s+to\s+self|remind\s+me)\b\s*[:,\-–—]?\s*", re.IGNORECASE
)
_NEW_JOB = re.compile(
    r"^\W*(?:(?:a\s+)?new\s+job|add(?:\s+a)?\s+job|extra\s+job|another\s+job|job\s+to\s+add|"
    r"to-?do|(?:i\s+|we\s+)?(?:also\s+)?(?:need|have|got)s?\s+to\s+also|"
    r"(?:i\s+|we\s+)?also\s+(?:need|have|got|must)\b(?:\s+to)?|must\s+also)\b\s*[:,\-–—]?\s*(?:to\s+)?",
    re.IGNORECASE,
)
_TRAILING = re.compile(r"[\s,;:.\-–—]+$")

_SYSTEM_WORDS: Final = {
    "brakes": "brake handbrake caliper shoe pad disc drum servo bleed fluid master hydraulic",
    "electrics": "wire wiring loom fuse lamp light switch battery horn relay indicator earth "
    "alternator dynamo starter wiper sender gauge radio",
    "suspension": "spring damper shock arm wishbone bush antirollbar leaf shackle strut hub",
    "steering": "steering rack column trackrod kingpin wheelbox toe tracking",
    "wheels": "wheel tyre tire nut spare balance",
    "engine": "engine carburettor distributor valve tappet sump timing plug magneto points oil "
    "choke throttle mount head",
    "gearbox and clutch": "gearbox clutch propshaft transmission gear shift lever speedometer",
    "fuel": "fuel petrol tank pump filler",
    "cooling": "radiator thermostat heater matrix fan coolant hose expansion",
    "exhaust": "exhaust silencer downpipe manifold tailpipe",
    "body fittings": "door bonnet boot hinge latch lock handle bumper grille mirror badge trim "
    "catch stay striker wing seal jet washer plate",
    "glass": "glass windscreen window screen quarterlight regulator",
    "interior": "seat carpet headlining dash trim console card underfelt belt mat fascia",
    "underbody": "underbody underseal drain wax floor sill seam underside arch rust",
    "paperwork": "paper register insurance tax form logbook receipt",
    "commissioning": "start-up weigh corner test-drive",
}


def read_sentence(sentence: Sentence, text: str, desk: Desk) -> list[Piece] | None:
    """Read a sentence that says itself what it is, or return None."""
    lesson = _LESSON.match(text)
    other = _OTHER_SIDE.search(text)
    if lesson or other:
        words = text[lesson.end() :] if lesson else text
        words = _OTHER_SIDE.sub("", _REMEMBER.sub("", words))
        return [_lesson(sentence, _tidy(words) or _tidy(text), text, desk)]
    found = _NOTE.match(text)
    if found:
        return [_note(sentence, _tidy(text[found.end() :]), text, desk)]
    found = _NEW_JOB.match(text)
    if found and _tidy(text[found.end() :]):
        return [_new_job(sentence, text[found.end() :], text, desk)]
    return None


def _tidy(text: str) -> str:
    return _TRAILING.sub("", text).strip()


def _note(sentence: Sentence, words: str, text: str, desk: Desk) -> Piece:
    if not words:
        return Piece(left=_tidy(text)) if _tidy(text) else Piece()
    job = _job_named(sentence, desk)
    about = f"job:{job}" if job else ""
    title = desk.title(job) if job else "Note"
    return Piece(
        Heard(
            f'{title}: note, "{words}"', "note", title, (desk.note(words, about),), 1.0, _tidy(text)
        )
    )


def _job_named(sentence: Sentence, desk: Desk) -> str:
    wanted = wanted_from([t.text for t in sentence.tokens], desk.subjects)
    found = desk.subjects.found(wanted, (Kind.JOB,))
    if not found or found[0].score < LEAST or found[0].covered < SURE or not is_clear(found):
        return ""
    return found[0].subject.id if found[0].head else ""


# --- lessons -----------------------------------------------------------------------------------


def _lesson(sentence: Sentence, words: str, text: str, desk: Desk) -> Piece:
    job = desk.job or _job_named(sentence, desk)
    if job:
        changes = (_learned(desk, job, words),)
        return Piece(Heard(_lesson_sentence(desk, job, words), "lesson", desk.title(job), changes,
                           0.9, _tidy(text)))  # fmt: skip
    jobs = [j for j in desk.tonight if j in desk.build.jobs][:4]
    choices = tuple(
        Choice(f"It heads the ticket of '{desk.title(j)}'", (_learned(desk, j, words),))
        for j in jobs
    )
    return Piece(asked=Asked(f'Lesson "{words}": from which job?', choices, _tidy(text)))


def _learned(desk: Desk, job: str, words: str) -> Change:
    return LessonLearned(Lesson(small_id("lesson", desk.at, (words, job)), desk.at, words, job))


def _lesson_sentence(desk: Desk, job: str, words: str) -> str:
    twin = twin_of(desk, job)
    where = f"; it heads the ticket of '{desk.title(twin)}'" if twin else ""
    return f'{desk.title(job)}: lesson, "{words}"{where}'


# --- new jobs ------------------------------------------------------------------------------------


def _new_job(sentence: Sentence, words: str, text: str, desk: Desk) -> Piece:
    hours = next((f.value for f in sentence.figures if f.measure is Measure.HOURS), None)
    said = _tidy(_without_hours(sentence, words))
    title = as_title(said)
    systems = _systems(title, desk)
    choices = [_job_choice(desk, said, system, hours) for system in systems[:5]]
    if len(systems) == 1:
        choice = choices[0]
        return Piece(Heard(choice.label, "new job", title, choice.changes, 0.9, _tidy(text)))
    return Piece(
        asked=Asked(
            f"New job '{title}': which system does it belong to?", tuple(choices), _tidy(text)
        )
    )


def _without_hours(sentence: Sentence, words: str) -> str:
    """Cut a length of time from the end of a new job's words."""
    for figure in sentence.figures:
        if figure.measure is Measure.HOURS:
            start = sentence.tokens[figure.first].start
            end = sentence.tokens[figure.after - 1].end
            said = sentence.line[start:end]
            if _tidy(words).endswith(said):
                cut = _tidy(words)[: -len(said)]
                return re.sub(r"\b(?:about|say|maybe|around|takes?|will take)\s*$", "", _tidy(cut))
    return words


def _job_choice(desk: Desk, said: str, system: str, hours: float | None) -> Choice:
    title = as_title(said)
    likely = 2.0 if hours is None else round(max(hours, 0.1), 2)
    key = _free_id(desk, title)
    way = Way(1, ThreePoint(round(likely / 2, 2), likely, round(likely * 2, 2)))
    job = Job(
        key, title, system, ways=(way,), mark=YOURS, note=said if len(said) > len(title) else ""
    )
    guess = "" if hours is not None else " taken until you say better"
    return Choice(f"{title}: new job, {system}, {show_hours(likely)}{guess}", (JobSet(job),))


def _free_id(desk: Desk, title: str) -> str:
    plain_words = re.findall(r"[a-z0-9]+", title.lower())
    base = "-".join(plain_words[:6])[:40] or small_id("job", desk.at, (title,))
    key, number = base, 2
    while key in desk.build.jobs:
        if desk.build.jobs[key].job.title == title:
            return key
        key, number = f"{base}-{number}", number + 1
    return key


def _systems(title: str, desk: Desk) -> list[str]:
    """Return the system that a new job's words belong to, or the likely ones to ask about."""
    votes = dict.fromkeys(SYSTEMS, 0.0)
    wanted = wanted_from([w.lower() for w in re.findall(r"\w+", title)], desk.subjects)
    for system, words in _SYSTEM_WORDS.items():
        votes[system] += sum(1.0 for stem in set(wanted.stems) if stem in words.split())
    for match in desk.subjects.found(wanted, (Kind.JOB,))[:3]:
        votes[desk.definition(match.subject.id).system] += match.score
    ranked = sorted(SYSTEMS, key=lambda s: -votes[s])
    first, second = votes[ranked[0]], votes[ranked[1]]
    if first >= 0.5 and first >= 1.3 * second:
        return ranked[:1]
    if desk.job and first < 0.5:
        own = desk.definition(desk.job).system
        ranked = [own, *(s for s in ranked if s != own)]
    return ranked
