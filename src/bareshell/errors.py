"""The one tree of errors: what went wrong, what would put it right, and how each surface says so.

A person reads `message` and `remedy`; a browser sees `status`; a script sees `exit_code`; a
``.json`` reader sees `kind`. Nothing else in the house decides any of these. Things that are
wrong but stop nobody (a doubtful row in an imported sheet) are values: `Problem`.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import ClassVar, Literal, Self

__all__ = [
    "BadInput",
    "BareshellError",
    "Busy",
    "Conflict",
    "Damaged",
    "Newer",
    "NoRoom",
    "NotFound",
    "NotPaired",
    "Problem",
    "Refused",
    "Severity",
]

Severity = Literal["stops", "doubtful", "note"]
"""How far a problem reaches: it *stops* this entry, leaves it *doubtful*, or is only a *note*."""


@dataclass(frozen=True, slots=True)
class Problem:
    """One thing that is not right, as a value with a place.

    Parameters
    ----------
    where : str
        The field, row or file, in the reader's words: ``"row 14, torque"``.
    what : str
        What is wrong there.
    remedy : str
        What would be right.
    severity : {"stops", "doubtful", "note"}
        How far it reaches.

    Examples
    --------
    >>> Problem(
    ...     "row 14, torque", "'tight' is no torque", "write a figure such as 15 N.m"
    ... ).describe()
    "row 14, torque: 'tight' is no torque. Write a figure such as 15 N.m."
    """

    where: str
    what: str
    remedy: str = ""
    severity: Severity = "stops"

    def describe(self) -> str:
        """Say the problem as one or two sentences."""
        return _sentences(f"{self.where}: {self.what}" if self.where else self.what, self.remedy)


class BareshellError(Exception):
    """Something a person has to be told, with what would put it right.

    Parameters
    ----------
    message : str
        What happened, as a clause or a sentence.
    remedy : str, optional
        What to do about it. Empty when there is nothing a person can do.

    Examples
    --------
    >>> BareshellError("the printer is off", "switch it on and print again").describe()
    'the printer is off. Switch it on and print again.'
    """

    kind: ClassVar[str] = "error"
    status: int = 500
    exit_code: ClassVar[int] = 1

    def __init__(self, message: str, remedy: str = "") -> None:
        super().__init__(message)
        self.message = message
        self.remedy = remedy

    def describe(self) -> str:
        """Say what happened and what to do, as one or two sentences."""
        return _sentences(self.message, self.remedy)

    def __str__(self) -> str:
        return self.describe()


class BadInput(BareshellError):
    """Something typed or read cannot be used: which field, what is wrong, what would be right.

    Parameters
    ----------
    field : str
        The field in the reader's words: ``"bore of the master cylinder"``.
    problem : str
        What is wrong with what was given.
    remedy : str, optional
        What would be right, with an example where one helps.

    Attributes
    ----------
    problems : tuple of Problem
        The same as values; more than one when a whole form was judged (`together`).

    Examples
    --------
    >>> BadInput("bore", "'wide' is no length", "write it as 19.05 mm or 3/4 in").describe()
    "bore: 'wide' is no length. Write it as 19.05 mm or 3/4 in."
    """

    kind = "bad input"
    status = 422
    exit_code = 2

    def __init__(self, field: str, problem: str, remedy: str = "") -> None:
        super().__init__(f"{field}: {problem}" if field else problem, remedy)
        self.field = field
        self.problem = problem
        self.problems: tuple[Problem, ...] = (Problem(field, problem, remedy),)

    @classmethod
    def together(cls, problems: Sequence[Problem]) -> Self:
        """Make one error of all that is wrong with a form, so that it is mended in one go.

        Parameters
        ----------
        problems : sequence of Problem
            At least one.

        Examples
        --------
        >>> both = BadInput.together([Problem("bore", "is missing"), Problem("stroke", "is zero")])
        >>> [problem.where for problem in both.problems]
        ['bore', 'stroke']
        """
        first, *others = problems
        error = cls(first.where, first.what, first.remedy)
        error.problems = (first, *others)
        return error

    def describe(self) -> str:
        """Say everything that is wrong, a sentence or two for each field."""
        return " ".join(problem.describe() for problem in self.problems)


class NotFound(BareshellError):
    """There is no such job, part, page or build.

    Examples
    --------
    >>> NotFound("there is no job 'fit-wings'", "look for it on the list of jobs").describe()
    "there is no job 'fit-wings'. Look for it on the list of jobs."
    """

    kind = "not found"
    status = 404
    exit_code = 3


class Conflict(BareshellError):
    """The subject moved meanwhile: it was changed after the reader last saw it.

    Parameters
    ----------
    subject : str
        The job, part or proof, in the reader's words.
    moved : str
        What happened to it meanwhile.
    remedy : str, optional
        What to do now.

    Examples
    --------
    >>> Conflict("job 'fit pedal box'", "was finished on the other phone").describe()
    "job 'fit pedal box' was finished on the other phone. Look at it again, then decide."
    """

    kind = "conflict"
    status = 409
    exit_code = 4

    def __init__(
        self, subject: str, moved: str, remedy: str = "look at it again, then decide"
    ) -> None:
        super().__init__(f"{subject} {moved}", remedy)
        self.subject = subject
        self.moved = moved


class Refused(BareshellError):
    """A garage rule refuses; it is named, with what would free it.

    Parameters
    ----------
    rule : str
        The rule as a short name: ``"proof before cover"``.
    because : str
        Why it refuses here.
    frees : str
        What would free it.

    Examples
    --------
    >>> Refused(
    ...     "proof before cover", "the rear tee is not proven", "hold it under pressure"
    ... ).describe()
    'proof before cover: the rear tee is not proven. Hold it under pressure.'
    """

    kind = "refused"
    status = 409
    exit_code = 5

    def __init__(self, rule: str, because: str, frees: str) -> None:
        super().__init__(f"{rule}: {because}", frees)
        self.rule = rule
        self.because = because
        self.frees = frees


class Damaged(BareshellError):
    """A file is cut short or spoilt and cannot be read in full.

    Examples
    --------
    >>> Damaged("the archive ends in the middle of a photo", "use an older backup").status
    500
    """

    kind = "damaged"
    status = 500
    exit_code = 6


class Newer(BareshellError):
    """A build was written by a newer bareshell; this one reads it and changes nothing.

    Parameters
    ----------
    what : str
        What was written by the newer one: ``"this build"``.
    written_by, this_is : str
        The two versions.

    Examples
    --------
    >>> Newer("this build", "2.0.0", "1.4.1").describe()
    'this build was written by bareshell 2.0.0 and this is 1.4.1: it can be read, not changed. ...'
    """

    kind = "newer"
    status = 409
    exit_code = 7

    def __init__(self, what: str, written_by: str, this_is: str) -> None:
        super().__init__(
            f"{what} was written by bareshell {written_by} and this is {this_is}: "
            "it can be read, not changed",
            f"install bareshell {written_by} or newer to change it",
        )
        self.written_by = written_by
        self.this_is = this_is


class Busy(BareshellError):
    """Another process is writing; the entry was not taken and may be sent again.

    Examples
    --------
    >>> Busy("another bareshell is writing to this build", "try again in a moment").status
    503
    """

    kind = "busy"
    status = 503
    exit_code = 8


class NoRoom(BareshellError):
    """The disk is full; nothing was half-saved.

    Examples
    --------
    >>> NoRoom("the disk is full, so the photo was not kept", "free some space").status
    507
    """

    kind = "no room"
    status = 507
    exit_code = 9


class NotPaired(BareshellError):
    """A phone or browser is not paired with the build, or may not do this.

    Parameters
    ----------
    message : str
        What was asked for.
    remedy : str, optional
        How to pair, or who may.
    known : bool
        True when the device is paired but may not do this: 403, else 401.

    Examples
    --------
    >>> NotPaired("this phone is not paired", "scan the code on the garage computer").status
    401
    >>> NotPaired("a helper's phone may not take entries back", known=True).status
    403
    """

    kind = "not paired"
    exit_code = 10

    def __init__(self, message: str, remedy: str = "", *, known: bool = False) -> None:
        super().__init__(message, remedy)
        self.status = 403 if known else 401


def _sentences(message: str, remedy: str) -> str:
    """Close each part with a stop and begin the second with a capital."""
    parts = [message.strip()]
    if remedy.strip():
        text = remedy.strip()
        parts.append(text[0].upper() + text[1:])
    return " ".join(part if part.endswith((".", "?", "!")) else f"{part}." for part in parts)
