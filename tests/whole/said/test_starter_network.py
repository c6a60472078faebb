"""The starter network, 245 jobs of it: each is understood when it is said, no other instead.

Titles as near to each other as the trade has them (four sorts of hose, six of test) show
whether the reader tells things apart; what it does not, it must ask.
"""

from __future__ import annotations

import re
from functools import cache

import pytest

from bareshell.model import Build
from bareshell.model.car import Layout
from bareshell.trade.answers import Answers
from bareshell.trade.beginning import first_changes
from bareshell.whole.said.trade_words import base_of
from bareshell.whole.said.understand import understand
from tests.whole.said.invented_builds import AT, LONG_AGO, ZONE, kept
from tests.whole.said.telling import told


@cache
def network() -> Build:
    answers = Answers("an invented saloon", Layout.REAR)
    return kept((LONG_AGO, ch) for ch in first_changes(answers, LONG_AGO, "Europe/London"))


def facts(line: str) -> tuple[str, ...]:
    found = told(understand(line, network(), (), AT, ZONE))
    return tuple(fact for fact in found if not fact.startswith("session"))


def test_a_job_said_in_full_is_that_job() -> None:
    for key, record in list(network().jobs.items())[::3]:
        assert facts(f"{record.job.title}: done, 1 h") == (f"done {key} 1 h",), record.job.title


def first_words(title: str) -> str:
    """What a person says of a job: its title as far as the first sign or afterthought."""
    short = re.split(r"[,:;]| through | before | where | under ", title)[0]
    return short[:1].lower() + short[1:]


def without_verb(title: str) -> str:
    words = first_words(title).split()
    while len(words) > 2 and (base_of(words[0]) or words[0] in ("and", "or", "the")):
        words = words[1:]
    return " ".join(words)


@pytest.mark.parametrize(
    ("said", "at_least"), [(first_words, 0.75), (without_verb, 0.55)], ids=["short", "no verb"]
)
def test_a_job_said_in_short_is_that_job_or_asked(said: object, at_least: float) -> None:
    assert callable(said)
    jobs = list(network().jobs.items())[::2]
    exact, wrong = 0, []
    for key, record in jobs:
        line = f"{said(record.job.title)} done 1 h"
        found = facts(line)
        exact += found == (f"done {key} 1 h",)
        if any(fact.split()[:2] not in (["done", key], ["worked", key]) for fact in found):
            wrong.append((line, found))
    # Two titles say in short what another job says: "the arches" of the underbody coat.
    assert len(wrong) <= 2, wrong
    assert exact >= at_least * len(jobs)


ONLY_TALK = (
    "tidied the bench for an hour",
    "watched a video about headlinings",
    "sold the old dynamo",
    "dave says the heater is in the wrong way round",
    "the heater would not go in",
    "put the heater back on the shelf",
    "heater not going in till the seal comes",
    "could do with another pair of hands for the headlining",
    "ordered new door latch springs",
    "did nothing on the car, fixed the lawnmower 2h",
    "got sod all done",
    "pedal goes to the floor",
    "spigot bearing in the freezer overnight ready for tomorrow",
    "if the engine was in I could do the exhaust",
    "nothing fits",
    "nothing done tonight too cold",
    "no time",
    "insurance man rang about the trailer",
    "must remember to buy fluid",
    "battery 12.6 V",
    "heater 100%",
    "is the fuel line finished?",
    "the wife's car needs brakes",
    "still need to torque the front pivots",
    "thought about the dash all evening",
)


@pytest.mark.parametrize("line", ONLY_TALK)
def test_talk_records_nothing(line: str) -> None:
    assert facts(line) == ()
