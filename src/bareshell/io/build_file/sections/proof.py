"""Gates, proofs, temporary fixes and departures from standard."""

from __future__ import annotations

from bareshell.io.build_file.facts import (
    GateFacts,
    PassingFact,
    ProofFacts,
    TempFacts,
    facts_of_gate,
    facts_of_proof,
    facts_of_temp,
)
from bareshell.io.build_file.figures import figure, flag, hours, moment, whole
from bareshell.io.build_file.kinds import ident, one_of, one_word, ref, refs, text
from bareshell.io.build_file.sections.base import Section
from bareshell.io.build_file.shape import Field, Record, one, several
from bareshell.model import changes as c
from bareshell.model.job import SYSTEMS
from bareshell.model.proof import AboutKind, Limit, Proof, ProofKind, ProofState, Reading
from bareshell.model.temp import Departure, Gate, Temp

__all__ = ["LIMIT", "PASSING", "PROOF_SECTIONS", "READING"]

PASSING = Record(
    PassingFact,
    (
        Field("at", "at", moment(), "when"),
        Field("by", "by", text(), "who let the car through"),
        Field("words", "words", text(), "what was said"),
    ),
)

GATE = Section(
    "gate",
    "gate",
    "A named point nobody passes until its proofs are good and its temps are gone.",
    Record(
        Gate,
        (
            Field("id", "id", ident(), "its short name"),
            Field("title", "title", text(), "what a person calls it"),
            Field("after", "after", refs("gate"), "the gates that come before it"),
            Field("needs_jobs", "needs_jobs", refs("job"), "the jobs that must be done"),
            Field("blocks", "blocks", refs("job"), "the jobs that may not start before it"),
            Field("sentence", "sentence", text(), "what passing it means"),
        ),
    ),
    lambda build: {key: record.gate for key, record in build.gates.items()},
    lambda value: str(value.id),
    c.GateSet,
    facts=Record(
        GateFacts, (Field("passed", "passed", one(PASSING), "who let the car through, and when"),)
    ),
    facts_of=facts_of_gate,
)

LIMIT = Record(
    Limit,
    (
        Field("quantity", "quantity", text(), "what is measured"),
        Field("unit", "unit", text(), "the unit it is written in"),
        Field("low", "low", figure(), "not below this"),
        Field("high", "high", figure(), "not above this"),
        Field("mark", "mark", text(), "where the limit comes from"),
    ),
)
READING = Record(
    Reading,
    (
        Field("quantity", "quantity", text(), "what was measured"),
        Field("value", "value", figure(), "the figure"),
        Field("unit", "unit", text(), "its unit"),
        Field("instrument", "instrument", text(), "what it was read on"),
    ),
)

PROOF = Section(
    "proof",
    "proof",
    "What must be shown, about what, in which job, and which jobs would hide it.",
    Record(
        Proof,
        (
            Field("id", "id", ident(), "its short name"),
            Field("title", "title", text(), "what must be seen or measured"),
            Field("kind", "kind", one_of(ProofKind), "how it is proved"),
            Field("about_kind", "about_kind", one_of(AboutKind), "what kind of thing it is about"),
            Field("about", "about", text(), "which one"),
            Field("made_by", "made_by", refs("job"), "the jobs that make the thing"),
            Field("proven_by", "proven_by", ref("job"), "the job in which it is proved"),
            Field("covered_by", "covered_by", refs("job"), "the jobs that would hide it"),
            Field("spent_by", "spent_by", refs("job"), "the jobs whose work spends it"),
            Field(
                "fixings",
                "fixings",
                refs("need", must=False),
                "the needs whose bolts it vouches for; none: every bolt of the jobs that make it",
            ),
            Field(
                "nipped_until",
                "nipped_until",
                ref("job", must=False),
                "the job that gives the final torque, where this one only nips",
            ),
            Field("gates", "gates", refs("gate"), "the gates that ask for it"),
            Field("limits", "limits", several(LIMIT, "limit"), "what the figures must meet"),
            Field("hold_hours", "hold_hours", hours(days=True), "how long a hold must last [h]"),
            Field("valid_days", "valid_days", whole(unit="days"), "how long it stays good"),
            Field("mark", "mark", text(), "where its limits come from"),
        ),
    ),
    lambda build: {key: record.proof for key, record in build.proofs.items()},
    lambda value: str(value.id),
    c.ProofSet,
    facts=Record(
        ProofFacts,
        (
            Field("state", "state", one_of(ProofState), "how it stands"),
            Field("since", "since", moment(), "since when it stands so"),
            Field(
                "readings", "readings", several(READING, "reading"), "the figures that were read"
            ),
            Field("words", "words", text(), "what was seen; the name of a substitute proof"),
            Field(
                "uncovered",
                "uncovered",
                moment(),
                "when what still counts as hiding it was taken away by hand",
            ),
        ),
    ),
    facts_of=facts_of_proof,
)

TEMP = Section(
    "temp",
    "temp",
    "A temporary fix: what replaces it, and the gate before which it must be gone.",
    Record(
        Temp,
        (
            Field("id", "id", ident(), "its short name"),
            Field("title", "title", text(), "what a person calls it"),
            Field("replaced_by", "replaced_by", text(), "what takes its place"),
            Field("gate", "gate", ref("gate"), "the gate before which it must be gone"),
            Field(
                "raised_by", "raised_by", ref("job", must=False), "the job that puts it on the car"
            ),
            Field("cleared_by", "cleared_by", ref("job", must=False), "the job that takes it away"),
            Field("need", "need", ref("need", must=False), "the need that replaces it"),
        ),
    ),
    lambda build: {key: record.temp for key, record in build.temps.items()},
    lambda value: str(value.id),
    c.TempSet,
    facts=Record(TempFacts, (Field("on_car", "on_car", flag(), "whether it is on the car now"),)),
    facts_of=facts_of_temp,
)

DEPARTURE = Section(
    "departure",
    "departure",
    "A way in which the car is no longer standard, and what it takes to go back.",
    Record(
        Departure,
        (
            Field("id", "id", ident(), "its short name"),
            Field("title", "title", text(), "what a person calls it"),
            Field(
                "system",
                "system",
                one_word(SYSTEMS, "system", only=False),
                "the system it belongs to",
            ),
            Field("what_was", "what_was", text(), "what was there as standard"),
            Field("what_is", "what_is", text(), "what is there now"),
            Field("where_original", "where_original", text(), "where the original is kept"),
            Field("to_return", "to_return", text(), "what it takes to go back"),
            Field("jobs", "jobs", refs("job", must=False), "the jobs that carry it"),
        ),
    ),
    lambda build: build.departures,
    lambda value: str(value.id),
    c.DepartureSet,
)

PROOF_SECTIONS = (GATE, PROOF, TEMP, DEPARTURE)
"""The sections of what must be shown before the road."""
