"""The whole site as a person walks through it: every page, every form on it."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING
from urllib.parse import quote

from tests.web.pages.conftest import FormReader, Shown

if TYPE_CHECKING:
    from httpx2 import Response
    from starlette.testclient import TestClient

LINK = re.compile(r'href="(/[^"#]*)')
ACTION = re.compile(r'formaction="(/[^"]*)')
THING = re.compile(
    r"(?<=^/)(jobs|needs|orders|holdings|proofs|gates|temps|departures|record|car/sessions"
    r"|car/supports|write-out|brakes/(?:circuit|joints|screws|tests))/[^/?]+"
)


def kind_of(path: str) -> str:
    """Return a path with the names of things taken out: one page of each kind is enough."""
    return THING.sub(r"\1/*", path.partition("?")[0])


@dataclass
class Walk:
    """What was found on a walk through the site."""

    pages: dict[str, Response]
    forms: dict[tuple[str, tuple[str, ...]], Shown]


def walk(client: TestClient) -> Walk:
    """Follow every link to a page of a kind not seen yet, and collect every form."""
    pages: dict[str, Response] = {}
    kinds: set[str] = set()
    forms: dict[tuple[str, tuple[str, ...]], Shown] = {}
    ahead = ["/"]
    while ahead:
        path = ahead.pop(0)
        if kind_of(path) in kinds:
            continue
        kinds.add(kind_of(path))
        answer = client.get(path)
        pages[path] = answer
        if "location" in answer.headers:
            ahead.append(answer.headers["location"])
        if not answer.headers.get("content-type", "").startswith("text/html"):
            continue
        links = (link.replace("&amp;", "&") for link in LINK.findall(answer.text))
        ahead += [link for link in links if not link.startswith("/static/")]
        reader = FormReader()
        reader.feed(answer.text)
        others = [Shown(action) for action in ACTION.findall(answer.text)]
        for form in (*reader.forms, *others):
            forms.setdefault((kind_of(form.action), tuple(sorted(form.fields))), form)
    return Walk(pages, forms)


def send(client: TestClient, action: str, fields: dict[str, list[str]], accept: str) -> Response:
    """Send a form byte for byte, whatever stands in it."""
    body = "&".join(
        f"{quote(name)}={quote(value.encode('utf-8', 'surrogatepass'))}"
        for name, values in fields.items()
        for value in values
    )
    kind = "application/x-www-form-urlencoded"
    return client.post(action, content=body, headers={"Content-Type": kind, "Accept": accept})
