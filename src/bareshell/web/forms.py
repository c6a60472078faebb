"""Forms: what was sent, the same form again with what is wrong beside it, and the answer."""

from __future__ import annotations

import secrets
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field, replace
from http import HTTPStatus
from typing import Annotated

from fastapi import Depends
from starlette.requests import Request
from starlette.responses import Response

from bareshell.app.trial_entries import entry_step
from bareshell.app.written import Pen, Written
from bareshell.errors import BadInput, BareshellError, Conflict, Problem, Refused
from bareshell.web.desk import author_of
from bareshell.web.light import local_path
from bareshell.web.links import trial_path
from bareshell.web.twin import done, wants_json

Values = Mapping[str, tuple[str, ...]]

_OWN = frozenset({"entry", "version", "back", "offered"})


def new_entry_id() -> str:
    """An id for what a form will write, sent out with it: sent twice, it counts once."""
    return secrets.token_hex(12)


@dataclass(frozen=True, slots=True)
class Form:
    """A form as it is shown.

    Parameters
    ----------
    fields : mapping of str to tuple of str
        What stands in its fields.
    version : int or None
        The version of the thing that it is filled in on.
    entry : str
        The id of the entry it will make.
    problems : tuple of Problem
        What was wrong when it was sent.
    status : int
        The HTTP status of a page that shows it.
    """

    fields: Values = field(default_factory=dict)
    version: int | None = None
    entry: str = field(default_factory=new_entry_id)
    problems: tuple[Problem, ...] = ()
    status: int = HTTPStatus.OK

    def value(self, name: str, otherwise: str = "") -> str:
        """What stands in a field."""
        values = self.fields.get(name)
        return values[0] if values else otherwise

    def values(self, name: str) -> tuple[str, ...]:
        """Everything that stands in a field which is there several times."""
        return tuple(value for value in self.fields.get(name, ()) if value)

    def holds(self, name: str, value: str) -> bool:
        """Whether a box or a choice is ticked."""
        return value in self.fields.get(name, ())

    def wrong(self, label: str) -> Problem | None:
        """What is wrong with the field of a label."""
        name = label.casefold()
        return next((one for one in self.problems if one.where.casefold() == name), None)

    def elsewhere(self, labels: tuple[str, ...] = ()) -> tuple[Problem, ...]:
        """What is wrong with no field of these labels."""
        known = {label.casefold() for label in labels}
        return tuple(one for one in self.problems if one.where.casefold() not in known)

    def laid(self, fields: Values) -> Form:
        """The same with other fields: for what is wrong with another form of the same page."""
        return replace(self, fields=fields)

    def on(self, version: int | None) -> Form:
        """The same on a version of the thing, unless it has one: 0 for a thing nobody touched."""
        return self if self.version is not None else replace(self, version=version or 0)


@dataclass(frozen=True, slots=True)
class SentForm:
    """A form as it was sent.

    Parameters
    ----------
    fields : mapping of str to tuple of str
        What was filled in.
    entry : str or None
        The id the form was given; a program may send none.
    version : int or None
        The version it was filled in on.
    back : str
        A page of our own to go back to, or nothing.
    offered : bool
        Whether it is only to be tried on a copy.
    """

    fields: Values
    entry: str | None = None
    version: int | None = None
    back: str = ""
    offered: bool = False

    def pen(self, request: Request) -> Pen:
        """Who writes."""
        return Pen(author_of(request), self.entry, self.version, offered=self.offered)

    def kept(self) -> Form:
        """The form as it was filled in, with nothing written down and nothing wrong."""
        return Form(self.fields, self.version, self.entry or new_entry_id())

    def again(self, error: BareshellError) -> Form:
        """The form once more, everything kept, with what is wrong.

        It gets a new id: the old one may have landed. Where it has, the thing is not what it was
        filled in on, so the version is asked for anew.
        """
        problems = (
            error.problems
            if isinstance(error, BadInput)
            else (
                Problem(
                    error.rule if isinstance(error, Refused) else "",
                    error.because if isinstance(error, Refused) else error.message,
                    error.remedy,
                ),
            )
        )
        version = None if isinstance(error, Conflict) else self.version
        return Form(self.fields, version, problems=problems, status=error.status)


async def sent_form(request: Request) -> SentForm:
    """Read what was sent; files are none of a form's business."""
    form = await request.form()
    fields = {
        name: tuple(value for value in form.getlist(name) if isinstance(value, str))
        for name in form
    }

    def own(name: str) -> str:
        return next(iter(fields.get(name, ())), "").strip()

    version = own("version")
    if version and not (version.isdigit() and len(version) < 12):
        raise BadInput("version", f"'{version}' is none", "load the page again")
    return SentForm(
        fields={name: values for name, values in fields.items() if name not in _OWN},
        entry=own("entry") or None,
        version=int(version) if version else None,
        back=local_path(own("back")) if own("back") else "",
        offered=bool(own("offered")),
    )


Sent = Annotated[SentForm, Depends(sent_form)]
"""What an endpoint that takes a form asks for."""


def answered(
    request: Request,
    sent: SentForm,
    act: Callable[[Pen], Written],
    to: str | Callable[[Written], str],
    again: Callable[[Form], Response],
    *,
    offers: bool = False,
) -> Response:
    """Write a form down and answer.

    Parameters
    ----------
    request : Request
        What is answered.
    sent : SentForm
        The form.
    act : callable
        The one thing that is done, with the pen of who writes.
    to : str or callable
        Where to go when it is done, unless the form says where it came from.
    again : callable
        Shows the form once more, when something in it is wrong or a rule refuses.
    offers : bool
        Whether it can be tried on a copy instead: what is done goes through
        `bareshell.app.written.write_down` alone. Any other form that is offered is refused, so
        that nothing is ever written down that was only to be tried.
    """
    try:
        written = act(_pen(request, sent, offers=offers))
    except (BadInput, Refused, Conflict) as error:
        if wants_json(request):
            raise
        return again(sent.again(error))
    if written.offered:
        step = entry_step(written.offered)
        return done(request, trial_path([step.code]), written.said)
    after = sent.back or (to if isinstance(to, str) else to(written))
    return done(request, after, written.said, written)


def _pen(request: Request, sent: SentForm, *, offers: bool) -> Pen:
    if sent.offered and not offers:
        raise BadInput("try it on a copy", "this form cannot be", "write it down, or leave it")
    return sent.pen(request)


def pairs(words: Iterable[str]) -> tuple[tuple[str, str], ...]:
    """Words to choose from that are sent as they are shown.

    Examples
    --------
    >>> pairs(["to start", "to finish"])
    (('to start', 'to start'), ('to finish', 'to finish'))
    """
    return tuple((str(word), str(word)) for word in words)


def rows_in(form: Form, *names: str, blank: int = 1) -> range:
    """The rows of a form that has the same few fields several times, with some left blank.

    Examples
    --------
    >>> rows_in(Form({"likely0": ("2",), "likely1": ("",)}), "likely")
    range(0, 2)
    """
    filled = [
        int(number)
        for name, values in form.fields.items()
        for known in names
        if name.startswith(known) and (number := name.removeprefix(known)).isdigit()
        if any(values)
    ]
    return range(max(filled, default=-1) + 1 + blank)
