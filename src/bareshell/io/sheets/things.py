"""The four kinds of list: how the rows of each become things of the build."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from datetime import datetime
from typing import Any

from bareshell.io.sheets.alike import alike
from bareshell.io.sheets.desk import Desk
from bareshell.io.sheets.job_rows import job_changes, job_fields, job_words
from bareshell.io.sheets.meanings import SheetKind
from bareshell.io.sheets.part_rows import (
    holding_fields,
    holding_words,
    need_changes,
    need_fields,
    need_words,
    order_fields,
    order_words,
)
from bareshell.io.sheets.rows import Row
from bareshell.model import changes as c
from bareshell.model.build import Build
from bareshell.model.job import Job
from bareshell.model.part import Holding, Need, OrderLine
from bareshell.model.spec import Spec
from bareshell.whole.spec_words import spec_words

__all__ = ["DESKS", "DeskOf", "Known"]


@dataclass(frozen=True, slots=True)
class Known:
    """A thing that the build has: what it is called, and how to find it again."""

    key: str
    title: str
    alike: tuple[str, ...]
    thing: Any


def _nothing_more(_row: Row, _desk: Desk, _thing: object) -> list[tuple[datetime | None, c.Change]]:
    return []


@dataclass(frozen=True, slots=True)
class DeskOf:
    """How one kind of sheet is read: its fields, its thing, what is there already."""

    fields: Callable[[Row, Desk], dict[str, Any]]
    make: Callable[..., Any]
    change: Callable[[Any], c.Change]
    more: Callable[[Row, Desk, Any], list[tuple[datetime | None, c.Change]]]
    known: Callable[[Build], Iterator[Known]]
    words: Callable[[Any, Build], str]
    must: tuple[str, ...] = ("title",)

    def corrected(self, thing: Any, **given: Any) -> Any:  # noqa: ANN401 - one of four
        """Return a thing of the build with what the sheet says of it."""
        fields = {key: value for key, value in given.items() if key != "title"}
        if "spec" in fields and alike(spec_words(fields["spec"])) == alike(spec_words(thing.spec)):
            del fields["spec"]  # the same in words: what is known of it figure by figure stays
        if "ways" in fields and isinstance(thing, Job) and thing.ways:
            (said,), (first, *others) = fields["ways"], thing.ways
            # A row has one way of doing a job; the others, and what each wants to hand, stay.
            fields["ways"] = (replace(first, people=said.people, hours=said.hours), *others)
        return replace(thing, **fields)


def _known(key: str, title: str, spec: Spec | None, thing: object) -> Known:
    return Known(key, title, alike(title, spec_words(spec) if spec is not None else ""), thing)


DESKS: dict[SheetKind, DeskOf] = {
    SheetKind.JOBS: DeskOf(
        job_fields,
        Job,
        c.JobSet,
        job_changes,
        lambda build: (_known(k, r.job.title, None, r.job) for k, r in build.jobs.items()),
        job_words,
        ("title", "system"),
    ),
    SheetKind.NEEDS: DeskOf(
        need_fields,
        Need,
        c.NeedSet,
        need_changes,
        lambda build: (_known(k, n.title, n.spec, n) for k, n in build.needs.items()),
        need_words,
        ("title", "job"),
    ),
    SheetKind.HOLDINGS: DeskOf(
        holding_fields,
        Holding,
        c.HoldingSet,
        _nothing_more,
        lambda build: (_known(k, h.title, h.spec, h) for k, h in build.holdings.items()),
        holding_words,
    ),
    SheetKind.ORDERS: DeskOf(
        order_fields,
        OrderLine,
        c.OrderSet,
        _nothing_more,
        lambda build: (
            _known(k, r.line.title, r.line.spec, r.line) for k, r in build.orders.items()
        ),
        order_words,
    ),
}
"""How each kind of sheet is read."""
