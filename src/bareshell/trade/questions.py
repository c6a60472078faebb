"""The questions of the first ten minutes: twelve, answered standing beside the car.

"Not sure" is an answer. What is not known stays open: nothing is inferred from it, and what
could be next is put before the owner to correct (`frontier`).
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from bareshell.model.car import OPTIONAL_SYSTEMS, Layout
from bareshell.model.position import SupportKind
from bareshell.trade.row import FORCED_INDUCTION

Kind = Literal["one", "many", "text", "number"]
"""How a question is answered: one of the choices, any of them, in words, or with a figure."""

NOT_SURE = "not sure"
"""The answer that says nothing and is kept as nothing."""


@dataclass(frozen=True, slots=True)
class Choice:
    """One answer that can be chosen.

    Parameters
    ----------
    value : str
        What a form sends and a person may type.
    words : str
        What is read beside it.
    also : tuple of str
        What else people type for it.
    """

    value: str
    words: str
    also: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Question:
    """One question.

    Parameters
    ----------
    id : str
        The field's name.
    ask, help : str
        The question, and how to find the answer.
    kind : str
        See ``Kind``.
    choices : tuple of Choice
        For *one* and *many*.
    may_be_unsure : bool
        Whether "not sure", or no answer, is taken.
    default : str or None
        What stands in the field before anybody answers; nothing is ever assumed from it.
    """

    id: str
    ask: str
    help: str
    kind: Kind
    choices: tuple[Choice, ...] = ()
    may_be_unsure: bool = True
    default: str | None = None


LIFTED = (
    Choice("stands", "axle stands", ("axle stands", "axle-stands")),
    Choice("scissor lift", "scissor lift", ("scissor", "scissor-lift", "mid-rise lift")),
    Choice("two-post lift", "two-post lift", ("two-post", "two post lift", "2-post lift")),
    Choice("four-post lift", "four-post lift", ("four-post", "four post lift", "4-post lift")),
    Choice("pit", "pit", ("inspection pit",)),
)
"""What can carry the car off the floor, or the owner under it."""

_DAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")

QUESTIONS: tuple[Question, ...] = (
    Question(
        "name",
        "What do you call the car?",
        "Any name; it heads every page and every sheet.",
        "text",
        may_be_unsure=False,
    ),
    Question(
        "layout",
        "Which wheels are driven?",
        "Look beneath: a shaft running back to the rear axle means the rear wheels.",
        "one",
        (
            Choice(Layout.REAR.value, "the rear wheels", ("rear", "rwd", "rear wheels")),
            Choice(Layout.FRONT.value, "the front wheels", ("front", "fwd", "front wheels")),
        ),
        may_be_unsure=False,
    ),
    Question(
        "systems",
        "What is part of the work?",
        "Leave out what the car has not, such as cooling on an air-cooled car, and what you will "
        "not touch. Not sure keeps everything in; a job can be left out later.",
        "many",
        (
            *(Choice(system, system) for system in OPTIONAL_SYSTEMS),
            Choice(FORCED_INDUCTION, "a turbocharger or blower", ("turbocharger", "blower")),
        ),
    ),
    Question(
        "supports",
        "What can the car stand on in your garage?",
        "Its own wheels and the floor are there anyway, and a pair of axle stands is counted on. "
        "A scissor lift closes the middle of the underside; stands do not.",
        "many",
        LIFTED,
    ),
    Question(
        "standing",
        "How does it stand now?",
        "Where it stands tonight, before anybody moves it.",
        "one",
        (Choice("wheels", "on its own wheels", ("on its wheels", "floor", "level floor")), *LIFTED),
    ),
    Question(
        "engine",
        "Is the engine in?",
        "In means on its mounts, with the gearbox on it.",
        "one",
        (Choice("in", "it is in", ("yes",)), Choice("out", "it is out", ("no",))),
    ),
    Question(
        "pedal",
        "Press the brake pedal: what does it do?",
        "Hard means it stops high and stays there. Soft means there is fluid, but it is springy "
        "or sinks. Nothing means no fluid, or no pedal.",
        "one",
        (
            Choice("hard", "hard: it stops high and stays"),
            Choice("soft", "soft: springy, or it sinks", ("spongy", "sinks")),
            Choice("nothing", "nothing: dry, or not there", ("dry", "no pedal", "none")),
        ),
    ),
    Question(
        "glass",
        "Are windscreen and rear screen in?",
        "Both of them; if only one is, say not sure and correct the list that follows.",
        "one",
        (Choice("in", "both are in", ("yes",)), Choice("out", "both are out", ("no",))),
    ),
    Question(
        "helper",
        "How often is a second pair of hands there?",
        "Somebody who can press a pedal and hold the other end. Count on less than is promised.",
        "one",
        (
            Choice("never", "never", ("no", "nobody")),
            Choice("every week", "every week", ("weekly",)),
            Choice("every two weeks", "every two weeks", ("fortnightly", "every second week")),
            Choice("once a month", "once a month", ("monthly", "every four weeks")),
        ),
    ),
    Question(
        "days",
        "On which days are you in the garage?",
        "A usual week. Days that fall out are said later, one by one.",
        "many",
        tuple(Choice(day.lower(), day, (day[:3].lower(),)) for day in _DAYS),
    ),
    Question(
        "hours",
        "From when to when?",
        "Such as 19:15 to 21:45. A second pair is for Saturday and Sunday: "
        "19:15 to 21:45; 10:00 to 15:00.",
        "text",
    ),
    Question(
        "heated",
        "Is the garage heated?",
        "What it reaches on a winter evening once it has run a while. Glue, wax and sealer mind.",
        "one",
        (
            Choice("no", "not heated", ("unheated", "not heated")),
            Choice("12", "to about 12 C"),
            Choice("15", "to about 15 C"),
            Choice("18", "to about 18 C"),
        ),
    ),
)
"""Every question, in the order it is asked."""

KINDS_BY_ANSWER = {
    "wheels": SupportKind.WHEELS,
    "stands": SupportKind.STANDS,
    "scissor lift": SupportKind.SCISSOR_LIFT,
    "two-post lift": SupportKind.TWO_POST_LIFT,
    "four-post lift": SupportKind.FOUR_POST_LIFT,
    "pit": SupportKind.PIT,
}
"""The kind of support that each answer about standing means."""
