"""What to ask before ordering: every field that nobody knows, as a question for the bench.

An order that goes out with a question open comes back with the wrong part. A field that follows
from another (a bolt's diameter from its thread) is not asked twice.
"""

from __future__ import annotations

from dataclasses import dataclass

from bareshell.model.duty import Duty, LoadPath
from bareshell.model.spec import PlainSpec, Spec
from bareshell.parts.rules import RULES

__all__ = ["Question", "duty_questions", "questions"]

_FOLLOWS = {"diameter_m": ("thread",), "end_a": ("thread_a",), "end_b": ("thread_b",)}


@dataclass(frozen=True, slots=True)
class Question:
    """One thing to find out.

    Parameters
    ----------
    field, label : str
        The field, and what a person calls it.
    ask : str
        The question, with how to find the answer.
    """

    field: str
    label: str
    ask: str


def questions(spec: Spec) -> tuple[Question, ...]:
    """Ask for what nobody knows of a specification.

    Parameters
    ----------
    spec : Spec
        What is wanted or on order.

    Examples
    --------
    >>> from bareshell.model.spec import SplitPinSpec
    >>> [one.label for one in questions(SplitPinSpec(diameter_m=0.002))]
    ['length']
    >>> questions(PlainSpec(words="trim clip, grey"))
    ()
    """
    if isinstance(spec, PlainSpec):
        if spec.words.strip():
            return ()
        return (Question("words", "in words", "What is it? Choose its kind, and measure it."),)
    return tuple(
        Question(rule.name, rule.label, rule.ask)
        for rule in RULES[spec.kind]
        if rule.ask
        and getattr(spec, rule.name) is None
        and not any(getattr(spec, other, None) for other in _FOLLOWS.get(rule.name, ()))
    )


def duty_questions(duty: Duty | None) -> tuple[Question, ...]:
    """Ask what a fixing is relied on for, as far as nobody said.

    Parameters
    ----------
    duty : Duty or None
        What is known of it.

    Examples
    --------
    >>> [one.field for one in duty_questions(None)]
    ['load_path']
    >>> [one.field for one in duty_questions(Duty(LoadPath.BODY))]
    []
    """
    if duty is None or duty.load_path is None:
        return (
            Question(
                "load_path",
                "what is relied on it",
                "What gives way when it does? Until that is said, nothing may stand in for it.",
            ),
        )
    if duty.load_path is LoadPath.BODY or duty.turns is False:
        # What clamps and stays still carries by friction: its size and grade say enough.
        return ()
    asked = (
        ("shear_planes", "shear planes", "Does the load cut it once, or twice as in a fork?"),
        ("load_n", "load", "What is the greatest load across it? Lever sums give it."),
        ("fork_ply_m", "ply that holds", "How thick is what holds it (each side of a fork)?"),
        ("eye_ply_m", "ply that pulls", "How thick is what pulls on it?"),
        ("side_gap_m", "gap", "How wide is the gap between the two?"),
    )
    return tuple(Question(*one) for one in asked if getattr(duty, one[0]) is None)
