"""What makes a plain function a formula: its inputs are judged by the glossary before it runs.

A formula is then only its equation. Each argument's rule (not negative, more than zero, a share
of one ...) stands once, in `bareshell.calc.glossary`, and what breaks it is refused in the words
the reader knows, whether it came as one number or as one of ten thousand.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from functools import wraps
from typing import TYPE_CHECKING, Any, TypeVar, cast

from bareshell.calc.glossary import TERMS, Rule, Term
from bareshell.calc.values import alone
from bareshell.errors import BadInput

if TYPE_CHECKING:
    from bareshell.calc.values import Array

__all__ = ["formula", "judged"]

F = TypeVar("F", bound=Callable[..., Any])


def formula(function: F) -> F:
    """Judge the arguments of a function by the glossary, and give plain floats for plain floats.

    Parameters
    ----------
    function : callable
        Its argument names are in the glossary; it gives a number or a named tuple of numbers.

    Returns
    -------
    callable
        The same function, which refuses with `BadInput` what breaks a rule.
    """
    code = function.__code__
    names = code.co_varnames[: code.co_argcount]
    terms = tuple(TERMS[name] for name in names)

    @wraps(function)
    def checked(*given: object, **named: object) -> object:
        if named:
            rest = names[len(given) :]
            if set(named) != set(rest):
                return function(*given, **named)  # Python says best what is missing or unknown
            given += tuple(named[name] for name in rest)
        elif len(given) != len(names):
            return function(*given)
        values = [judged(term, value) for term, value in zip(terms, given, strict=True)]
        return _finished(function(*values), _shape(values))

    return cast("F", checked)


def judged(term: Term, value: object) -> object:
    """Take one argument as float or array of floats, or refuse it.

    Parameters
    ----------
    term : Term
        What the glossary says of it.
    value : float, array, sequence of these, or str
        As given.

    Raises
    ------
    BadInput
        When it is missing, no number, not finite, or breaks the term's rule.

    Examples
    --------
    >>> judged(TERMS["bore_m"], 0.01905)
    0.01905
    >>> judged(TERMS["bore_m"], -1)
    Traceback (most recent call last):
    bareshell.errors.BadInput: bore: -1 m is not more than zero. Give it as measured, above zero.
    """
    if term.rule.words:
        return value
    if value is None:
        raise BadInput(term.words, "is not known", term.rule.remedy)
    if term.many:
        return _judged_many(term, value)
    if alone(value) or getattr(value, "ndim", None) == 0:
        number = float(cast("float", value))
        if not term.rule.allows(number, number):
            raise BadInput(term.words, _said(term, number), term.rule.remedy)
        return number
    return _judged_array(term, value)


def _judged_many(term: Term, values: object) -> tuple[object, ...]:
    one = Term(term.words, term.unit, term.rule)
    parts = tuple(judged(one, part) for part in cast("Iterable[object]", values))
    if not parts:
        raise BadInput(term.words, "is missing", "give at least one")
    return parts


def _judged_array(term: Term, value: object) -> Array:
    import numpy as np

    if isinstance(value, str):
        raise BadInput(term.words, f"'{value}' is no number", term.rule.remedy)
    try:
        array = np.asarray(value, dtype=np.float64)
    except (TypeError, ValueError) as trouble:
        raise BadInput(
            term.words, "holds something that is no number", term.rule.remedy
        ) from trouble
    if array.size == 0 or term.rule.allows(float(array.min()), float(array.max())):
        return array
    flat = [float(part) for part in array.ravel()]
    at = next(i for i, part in enumerate(flat) if not term.rule.allows(part, part))
    said = f"value {at + 1} of {len(flat)}: {_said(term, flat[at])}"
    raise BadInput(term.words, said, term.rule.remedy)


def _said(term: Term, number: float) -> str:
    if number != number:  # noqa: PLR0124 - the one value that differs from itself
        return "is not a number"
    unit = "" if term.unit == "-" else f" {term.unit}"
    return f"{number:g}{unit} {_broken(term.rule, number)}"


def _broken(rule: Rule, number: float) -> str:
    if abs(number) == float("inf") and not rule.endless:
        return "is endless"
    return rule.broken


def _shape(values: list[object]) -> tuple[int, ...] | None:
    """The common shape of the arrays among the inputs, or None when there are none."""
    parts = [part for value in values for part in (value if isinstance(value, tuple) else (value,))]
    shapes = [part.shape for part in parts if hasattr(part, "shape")]
    if not shapes:
        return None
    import numpy as np

    return np.broadcast_shapes(*shapes)


def _finished(result: object, shape: tuple[int, ...] | None) -> object:
    if isinstance(result, tuple):
        parts = [_finished(part, shape) for part in result]
        made = cast("Callable[..., object]", type(result))
        return made(*parts) if hasattr(result, "_fields") else tuple(parts)
    if shape is None:
        return float(cast("float", result))
    import numpy as np

    array = np.asarray(result, dtype=np.float64)
    return array if array.shape == shape else np.broadcast_to(array, shape).copy()
