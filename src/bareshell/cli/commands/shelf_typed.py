"""``bareshell shelf need|holding|line|fields``: what is wanted, here or ordered, with its sizes."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

import click

from bareshell.cli.common import find_build, heading, json_option, show, table
from bareshell.errors import BadInput

if TYPE_CHECKING:
    from bareshell.app.door import Door
    from bareshell.app.filled import Fields
    from bareshell.app.opening import HoldingPage, NeedPage
    from bareshell.app.typed_in import KindField, PartKinds
    from bareshell.app.written import Pen, Written
    from bareshell.parts import Question
    from bareshell.whole.opened import OrderPage
    from bareshell.whole.spec_words import SpecLine

_words = click.argument("words", nargs=-1, metavar="[ID] [NAME=VALUE]...")
_add = click.option("--add", "title", metavar="TITLE", help="A new one, of this name.")
_drop = click.option("--drop", is_flag=True, help="Take it away: it was a mistake, or is gone.")


@click.command("need")
@_words
@_add
@_drop
@json_option
@click.pass_obj
def need_command(
    folder: Path | None, words: tuple[str, ...], title: str | None, *, drop: bool, as_json: bool
) -> None:
    """Open up what a job wants, or write it down: kind, sizes, what is relied on it.

    \b
    bareshell shelf need --add "Clevis pins" job=handbrake kind=pin quantity=2
              diameter="5/16 in +/- 0.05 mm" grip="22 mm" load-path=handbrake load="1500 N"
    bareshell shelf need clevis-pins material="mild steel" hole=unknown

    'shelf fields' lists what each kind of part is asked. What nobody knows stays out.
    """  # noqa: D301 - click reads the escape
    from bareshell.app import opening, parts_desk

    def act(door: Door, key: str | None, said: Sequence[str]) -> Written:
        laid = _blank(door) if key is None else parts_desk.lay_need(
            parts_desk.need_of(door, key), door.build()
        )  # fmt: skip
        return parts_desk.set_need(door, key, _form(laid, title, said), _pen())

    with _door(folder) as door:
        key = _done(
            door, words, title, act, parts_desk.drop_need if drop else None, as_json=as_json
        )
        if key:
            page = opening.need(door, key)
            show(page, as_json=as_json, text=lambda: _need(page))


@click.command("holding")
@_words
@_add
@_drop
@json_option
@click.pass_obj
def holding_command(
    folder: Path | None, words: tuple[str, ...], title: str | None, *, drop: bool, as_json: bool
) -> None:
    """Open up what lies on the shelf, or write it down as measured.

    \b
    bareshell shelf holding --add "Bolts M8" quantity=6 where="tin 3" kind=bolt thread=M8
              length=40mm grip-length=22mm grade=8.8 lock=nyloc trust=measured
    """  # noqa: D301 - click reads the escape
    from bareshell.app import opening, parts_desk

    def act(door: Door, key: str | None, said: Sequence[str]) -> Written:
        laid: Mapping[str, Sequence[str]] = _NEW_HOLDING
        if key is not None:
            laid = parts_desk.lay_holding(parts_desk.holding_of(door, key), door.build())
        return parts_desk.set_holding(door, key, _form(laid, title, said), _pen())

    def gone(door: Door, key: str, pen: Pen) -> Written:
        return parts_desk.drop_holding(door, key, {}, pen)

    with _door(folder) as door:
        key = _done(door, words, title, act, gone if drop else None, as_json=as_json)
        if key:
            page = opening.holding(door, key)
            show(page, as_json=as_json, text=lambda: _holding(page))


@click.command("line")
@_words
@_add
@json_option
@click.pass_obj
def line_command(
    folder: Path | None, words: tuple[str, ...], title: str | None, *, as_json: bool
) -> None:
    """Open up one order line, or write it down: what was ordered, in its sizes.

    \b
    bareshell shelf line --add "Clevis pins" need=clevis-pins supplier="A pin maker" quantity=2
              kind=pin diameter="5/16 in" expected-on="12 March"
    """  # noqa: D301 - click reads the escape
    from bareshell.app import opening, parts_desk

    def act(door: Door, key: str | None, said: Sequence[str]) -> Written:
        if key is not None:
            laid = parts_desk.lay_order(parts_desk.order_of(door, key).line, door.build())
        else:
            wanted = [each.partition("=")[2] for each in said if each.startswith("need=")]
            laid = parts_desk.lay_new_order(door, wanted[-1] if wanted else "")
        return parts_desk.set_order(door, key, _form(laid, title, said), _pen())

    with _door(folder) as door:
        key = _done(door, words, title, act, None, as_json=as_json)
        if key:
            page = opening.order(door, key)
            show(page, as_json=as_json, text=lambda: _order(page))


@click.command("fields")
@click.argument("kind", nargs=-1)
@json_option
def fields_command(kind: tuple[str, ...], *, as_json: bool) -> None:
    """List the kinds of part and what each is asked; KIND alone, such as: hose, split pin."""
    from bareshell.app.typed_in import part_kinds

    found = part_kinds(" ".join(kind))
    show(found, as_json=as_json, text=lambda: _kinds(found))


# --- pieces ----------------------------------------------------------------------------------


def _door(folder: Path | None) -> Door:
    from bareshell.app.door import Door

    return Door.open(find_build(folder))


def _pen() -> Pen:
    from bareshell.app.written import Pen

    return Pen()


_NEW_HOLDING = {
    "quantity": ("1",),
    "spec": ("plain",),
    "need": ("",),
    "where": ("",),
    "trust": ("measured",),
    "condition": ("",),
    "unlike": (),
    "note": ("",),
}


def _blank(door: Door) -> Mapping[str, Sequence[str]]:
    """The form of a need that nobody said anything of."""
    from bareshell.app import parts_desk
    from bareshell.model.part import Need

    return parts_desk.lay_need(Need("new", "new", ""), door.build())


def _form(laid: Mapping[str, Sequence[str]], title: str | None, said: Sequence[str]) -> Fields:
    from bareshell.app.typed_in import typed_over

    named = {**laid, "title": (title,)} if title else laid
    return typed_over(named, said)


def _done(
    door: Door,
    words: tuple[str, ...],
    title: str | None,
    act: Callable[[Door, str | None, Sequence[str]], Written],
    drop: Callable[[Door, str, Pen], Written] | None,
    *,
    as_json: bool,
) -> str:
    """Do what was asked and say so; return which one is to be shown, or nothing."""
    key = words[0] if words and "=" not in words[0] else None
    said = words if key is None else words[1:]
    if key is None and title is None:
        raise BadInput("ID", "nothing is named", "name one, or write a new one with --add TITLE")
    if drop is not None:
        if key is None or said:
            raise BadInput("--drop", "it takes one id and nothing else", "leave the rest out")
        click.echo(drop(door, key, _pen()).said)
        return ""
    if title is None and not said:
        return key or ""
    written = act(door, key, said)
    named = "" if key else f" It is '{written.key}'."
    click.echo(written.said + named, err=as_json)
    return written.key if as_json else ""


# --- in words --------------------------------------------------------------------------------


def _need(page: NeedPage) -> Iterable[str]:
    need = page.need
    yield heading(f"{need.quantity} x {need.title}", need.state)
    yield f"  {need.needed_to}: {need.job_title}"
    yield from _sizes(page.sizes)
    said = (
        ("relied on for", page.relied_on),
        ("may cost", page.cost),
        ("bag", need.bag),
        ("note", need.note),
        ("lies in", need.where),
    )
    for label, words in said:
        if words:
            yield f"  {label}: {words}"
    yield from _questions(page.questions)


def _holding(page: HoldingPage) -> Iterable[str]:
    one = page.holding
    yield heading(f"{one.quantity} x {one.title}", one.away or one.where or "no place noted")
    if one.need_title:
        yield f"  for: {one.need_title}"
    yield from _sizes(page.sizes)
    yield f"  sizes are {one.trust}"
    if page.note:
        yield f"  note: {page.note}"
    if page.wanted_by:
        yield ""
        yield heading("Wanted for")
        rows = [
            (f"  {w.need}", f"{w.missing} x {w.title}", w.word, f"for {w.job_title}")
            for w in page.wanted_by
        ]
        yield from table(rows)


def _order(page: OrderPage) -> Iterable[str]:
    from bareshell.whole.spec_words import spec_lines

    order = page.order
    due = f"due {order.expected_on:%d %b %Y}" if order.expected_on else "nobody knows when"
    yield heading(f"{order.quantity} x {order.title}", f"{page.state}, {due}")
    yield f"  {order.supplier or 'no supplier noted'}"
    yield from _sizes(spec_lines(order.spec))


def _sizes(lines: Sequence[SpecLine]) -> Iterable[str]:
    yield from table([(f"  {one.label}", one.value or "not known", one.means) for one in lines])


def _questions(asked: Sequence[Question]) -> Iterable[str]:
    if asked:
        yield ""
        yield heading("Find out before you order")
        yield from (f"  {one.label}: {one.ask}" for one in asked)


def _asks(field: KindField) -> str:
    usual = f"({', '.join(field.usual)})" if field.usual else ""
    return " ".join(part for part in (field.asks, usual) if part)


def _kinds(found: PartKinds) -> Iterable[str]:
    for one in found.kinds:
        yield heading(one.kind)
        rows: list[tuple[str, ...]] = [
            (f"  {each.name}", each.label, each.unit, _asks(each)) for each in one.fields
        ]
        yield from table(rows)
        yield ""
    yield heading("Of a need", "what is relied on it")
    yield f"  {', '.join(found.relied_on)}"
