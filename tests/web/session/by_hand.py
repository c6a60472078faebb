"""Reading a page and pressing its forms as a browser without scripts does."""

from __future__ import annotations

from dataclasses import dataclass, field
from html.parser import HTMLParser
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from starlette.testclient import TestClient


@dataclass
class SeenForm:
    """A form with what a browser would send of it, and the buttons it has."""

    action: str
    method: str
    fields: list[tuple[str, str]] = field(default_factory=list)
    names: set[str] = field(default_factory=set)
    buttons: list[tuple[str, str]] = field(default_factory=list)
    files: bool = False

    def value(self, name: str) -> str:
        return next((value for key, value in self.fields if key == name), "")

    def values(self, name: str) -> list[str]:
        return [value for key, value in self.fields if key == name]


class _Reader(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.forms: list[SeenForm] = []
        self.by_id: dict[str, SeenForm] = {}
        self.elsewhere: list[tuple[str, dict[str, str]]] = []
        self.open: SeenForm | None = None
        self.select: tuple[str, dict[str, str]] | None = None
        self.chosen: str | None = None
        self.first: str | None = None
        self.textarea: str | None = None

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        named = {name: value or "" for name, value in attrs}
        if tag == "form":
            self.open = SeenForm(named.get("action", ""), named.get("method", "get"))
            self.open.files = named.get("enctype") == "multipart/form-data"
            self.forms.append(self.open)
            if "id" in named:
                self.by_id[named["id"]] = self.open
        elif tag == "select":
            self.select, self.chosen, self.first = (tag, named), None, None
        elif tag == "option" and self.select is not None:
            self.first = self.first if self.first is not None else named.get("value", "")
            if "selected" in named:
                self.chosen = named.get("value", "")
        elif tag == "textarea":
            self.textarea = named.get("name", "")
            if self.open is not None:
                self.open.names.add(self.textarea)
        elif tag in ("input", "button"):
            self._field(tag, named)

    def _field(self, tag: str, named: dict[str, str]) -> None:
        if "form" in named:
            self.elsewhere.append((tag, named))
        elif self.open is not None:
            put(self.open, tag, named)

    def handle_endtag(self, tag: str) -> None:
        if tag == "form":
            self.open = None
        elif tag == "select" and self.select is not None:
            name = self.select[1].get("name", "")
            if self.open is not None and name:
                chosen = self.chosen if self.chosen is not None else self.first or ""
                self.open.fields.append((name, chosen))
                self.open.names.add(name)
            self.select = None
        elif tag == "textarea":
            self.textarea = None

    def handle_data(self, data: str) -> None:
        if self.textarea is not None and self.open is not None:
            self.open.fields.append((self.textarea, data))


def put(form: SeenForm, tag: str, named: dict[str, str]) -> None:
    name, value, kind = named.get("name", ""), named.get("value", ""), named.get("type", "")
    if tag == "button" or kind == "submit":
        form.buttons.append((name, value))
        return
    if not name:
        return
    form.names.add(name)
    if kind in ("checkbox", "radio") and "checked" not in named:
        return
    if kind != "file":
        form.fields.append((name, value))


def forms(html: str) -> list[SeenForm]:
    """Every form of a page, with the fields that stand elsewhere and name it."""
    reader = _Reader()
    reader.feed(html)
    for tag, named in reader.elsewhere:
        put(reader.by_id[named["form"]], tag, named)
    return reader.forms


def form_to(html: str, action: str, **having: str) -> SeenForm:
    """The form with an action and, of several, the one whose fields have these values."""
    found = [
        form
        for form in forms(html)
        if form.action.partition("#")[0] == action
        and all(name in form.names and form.value(name) == value for name, value in having.items())
    ]
    assert found, f"no form to {action} with {having}"
    return found[0]


def press(client: TestClient, form: SeenForm, _files: Any = None, **filled: str | list[str]) -> Any:
    """Send a form with some fields filled in otherwise; names with a colon come as given."""
    sent = [(name, value) for name, value in form.fields if name not in filled]
    for name, value in filled.items():
        known = name in form.names or name in {button for button, _ in form.buttons}
        assert known, f"the form to {form.action} has no field {name}"
        sent += [(name, one) for one in ([value] if isinstance(value, str) else value)]
    address = form.action.partition("#")[0]
    if form.method == "get":
        query: list[tuple[str, str | int | float | bool | None]] = list(sent)
        return client.get(address, params=query)
    data: dict[str, list[str]] = {}
    for name, value in sent:
        data.setdefault(name, []).append(value)
    return client.post(address, data=data, files=_files)
