"""Where each thing of the build has its page."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Final
from urllib.parse import quote, urlencode

TRIAL: Final = "/road-ahead/trial"
"""Two roads side by side, all of a trial in the address."""

_PAGES = {
    "job": "/jobs/",
    "proof": "/proofs/",
    "gate": "/gates/",
    "temp": "/temps/",
    "need": "/needs/",
    "holding": "/holdings/",
    "order": "/orders/",
    "departure": "/departures/",
}
_WHOLE = {
    "car": "/car",
    "garage": "/car/garage",
    "placement": "/car",
    "support": "/car/supports",
    "move": "/car/supports",
    "pattern": "/car/sessions",
    "day": "/car/sessions",
    "session": "/car/sessions",
    "brake-reading": "/brakes/tests",
    "yardsticks": "/brakes/yardsticks",
}

_OF_PLAN = {
    "prove:": "proof",
    "read:": "proof",
    "uncover:": "proof",
    "pass:": "gate",
    "clear:": "temp",
}
"""Work that is no job of the build, and what it is about."""

_OF_BRAKES = {
    "brakes": "/brakes/circuit",
    "brake-part": "/brakes/circuit/",
    "brake-line": "/brakes/circuit/",
}
"""What has its page within those of the brakes: ``brake-part:as-built/master``."""


def path_of(kind: str, key: str) -> str:
    """The page of a thing.

    Parameters
    ----------
    kind : str
        ``job``, ``proof``, ``gate``, ``temp``, ``need``, ``holding``, ``order``, ``departure``.
    key : str
        Its id; of work in the plan that is no job of the build, the page of what it is about.

    Examples
    --------
    >>> path_of("job", "rear pipe/1"), path_of("job", "pass:under-car")
    ('/jobs/rear%20pipe%2F1', '/gates/under-car')
    """
    if kind == "job":
        begins = next((one for one in _OF_PLAN if key.startswith(one)), "")
        kind, key = _OF_PLAN.get(begins, kind), key.removeprefix(begins)
    return _PAGES[kind] + quote(key, safe="")


def page_of(subject: str) -> str:
    """The page of what an entry is about, or nothing when it has none of its own.

    Examples
    --------
    >>> page_of("job:rear-pipe"), page_of("day:2026-03-04"), page_of("note:n1")
    ('/jobs/rear-pipe', '/car/sessions', '')
    >>> page_of("brake-part:as-built/master")
    '/brakes/circuit/master?system=as-built'
    """
    kind, _, key = subject.partition(":")
    if kind in _OF_BRAKES:
        system, _, thing = key.partition("/")
        return asked(_OF_BRAKES[kind] + quote(thing, safe=""), system=system)
    return path_of(kind, key) if kind in _PAGES else _WHOLE.get(kind, "")


def asked(path: str, **answers: str | int) -> str:
    """A page with answers in its address; what is empty is left out.

    Examples
    --------
    >>> asked("/needs", state="not known", page=1, find="")
    '/needs?state=not+known&page=1'
    """
    said = {name: answer for name, answer in answers.items() if answer}
    return f"{path}?{urlencode(said)}" if said else path


def trial_path(codes: Iterable[str]) -> str:
    """The page of a trial of some changes, each as it is written.

    Examples
    --------
    >>> trial_path(["heated:15"]), trial_path([])
    ('/road-ahead/trial?try=heated%3A15', '/road-ahead/trial')
    """
    asked = urlencode([("try", code) for code in codes])
    return f"{TRIAL}?{asked}" if asked else TRIAL
