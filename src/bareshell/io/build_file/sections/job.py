"""Jobs: what each is, and how it stands."""

from __future__ import annotations

from bareshell.io.build_file.facts import JobFacts, facts_of_job
from bareshell.io.build_file.figures import flag, hours, moment, temperature, three_hours, whole
from bareshell.io.build_file.kinds import ident, many_of, one_of, one_word, ref, refs, text, texts
from bareshell.io.build_file.sections.base import Section
from bareshell.io.build_file.shape import Field, Record, one, several
from bareshell.model import changes as c
from bareshell.model.build import Build
from bareshell.model.job import SYSTEMS, Caution, Job, JobStatus, Recheck, Wait, Way
from bareshell.model.position import BODY_STATES, Place, Wheels, Zone

__all__ = ["HARMS", "JOB", "JOB_PARTS"]

HARMS = (
    "Crush",
    "Pressure",
    "Eyes",
    "Skin and paint",
    "Hands and lives",
    "Fire",
    "Breath",
    "Back",
    "Electric",
)
"""What can hurt, in the words the pages show."""

WAY = Record(
    Way,
    (
        Field("people", "people", whole(least=1), "1 alone, 2 with a helper"),
        Field("hours", "hours", three_hours(), "how long it takes this way"),
        Field("kit", "kit", text(), "what this way needs"),
    ),
)
WAIT = Record(
    Wait,
    (
        Field("hours", "hours", hours(days=True), "hours by the clock before what follows"),
        Field(
            "stretches_with_cold",
            "stretches_with_cold",
            flag(),
            "whether it grows in the cold: a cure does, a hold does not",
        ),
        Field(
            "lowest_temperature",
            "lowest_temperature_c",
            temperature(),
            "what must hold through the whole wait",
        ),
        Field("why", "why", text(), "what is waited for"),
    ),
)
RECHECK = Record(
    Recheck,
    (
        Field("miles", "miles", whole(unit="miles"), "after so many miles"),
        Field("months", "months", whole(unit="months"), "after so many months"),
    ),
)
CAUTION = Record(
    Caution,
    (
        Field("harm", "harm", one_word(HARMS, "harm", only=False), "what can hurt"),
        Field("sentence", "sentence", text(), "what to do about it"),
    ),
)

JOB_PARTS = {"way": WAY, "wait": WAIT, "recheck": RECHECK, "caution": CAUTION}
"""The tables inside a job, for the guide."""


def _left_out(build: Build, key: str) -> tuple[str, c.Change] | None:
    if build.jobs[key].state.status is JobStatus.LEFT_OUT:
        return None
    sentence = f"{JOB.title(build.jobs[key].job)} is left out"
    return sentence, c.JobLeftOut(key, "not in the build file")


JOB = Section(
    "job",
    "job",
    "A piece of work on the car: what it is, and how it stands.",
    Record(
        Job,
        (
            Field("id", "id", ident(), "its short name"),
            Field("title", "title", text(), "what a person calls it"),
            Field("system", "system", one_word(SYSTEMS, "system"), "the system it belongs to"),
            Field("after", "after", refs("job"), "the jobs that must be done first"),
            Field("ways", "ways", several(WAY, "way"), "the ways it can be done"),
            Field("place", "place", one_of(Place), "where it is done"),
            Field("zones", "zones", many_of(Zone, "zone of the car"), "what it must reach"),
            Field("wheels", "wheels", one_of(Wheels), "what it asks of the wheels"),
            Field("level", "level", flag(), "whether the car must stand level"),
            Field("off", "off", many_of(BODY_STATES, "body state"), "what is better off the car"),
            Field(
                "off_is_necessary",
                "off_is_necessary",
                flag(),
                "whether that is necessary rather than merely easier",
            ),
            Field(
                "splittable", "splittable", flag(), "whether it can be stopped and taken up again"
            ),
            Field(
                "least_piece_hours",
                "least_piece_hours",
                hours(),
                "the shortest useful piece of it [h]",
            ),
            Field("wait", "wait", one(WAIT), "what must pass after it"),
            Field(
                "lowest_temperature",
                "lowest_temperature_c",
                temperature(),
                "below this it cannot be done",
            ),
            Field("weather", "weather", text(), "anything else asked of the day"),
            Field("tools", "tools", texts(), "what to fetch that is neither part nor fixing"),
            Field("tightens", "tightens", texts(), "what is torqued in it, a line each"),
            Field("cautions", "cautions", several(CAUTION, "caution"), "what can hurt in it"),
            Field("dirty", "dirty", flag(), "true when it makes a mess"),
            Field(
                "dangerous_alone", "dangerous_alone", flag(), "true when nobody should do it alone"
            ),
            Field(
                "helper_alone",
                "helper_alone",
                flag(),
                "true when a helper may do it alone, beside the owner",
            ),
            Field(
                "takes_off",
                "takes_off",
                many_of(BODY_STATES, "body state"),
                "what is off the car once it is done",
            ),
            Field(
                "puts_back",
                "puts_back",
                many_of(BODY_STATES, "body state"),
                "what is back on the car once it is done",
            ),
            Field("rechecks", "rechecks", several(RECHECK, "recheck"), "later looks it causes"),
            Field("gate", "gate", ref("gate", must=False), "the gate that this job goes through"),
            Field("twin", "twin", ref("job", must=False), "the same job on the other side"),
            Field("mark", "mark", text(), "where its figures come from"),
            Field("note", "note", text(), "free words"),
        ),
    ),
    lambda build: {key: record.job for key, record in build.jobs.items()},
    lambda value: str(value.id),
    c.JobSet,
    facts=Record(
        JobFacts,
        (
            Field("status", "status", one_of(JobStatus), "how it stands"),
            Field("since", "since", moment(), "since when it stands so"),
            Field("hours_done", "hours_done", hours(), "hours worked on it so far [h]"),
            Field("hours_left", "hours_left", hours(), "a guess at what is left of it [h]"),
            Field("taken_off", "taken_off", flag(), "true when it was fitted and came off again"),
        ),
    ),
    facts_of=facts_of_job,
    left_out=_left_out,
)
