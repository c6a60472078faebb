"""``bareshell say``: a session ended in one line, shown as understood before it is kept."""

from __future__ import annotations

import json
from collections.abc import Iterable
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING

import click

from bareshell.cli.common import build_option, counted, find_build, heading, json_option

if TYPE_CHECKING:
    from bareshell.app.door import Door
    from bareshell.whole.said.results import Understood


@click.command("say")
@click.argument("words", nargs=-1)
@build_option
@json_option
@click.option("--when", help="If not now: 'yesterday 21:00', '3 March 19:30', 'last friday 20:30'.")
@click.option("--look", is_flag=True, help="Only show how it is understood.")
@click.option("--yes", is_flag=True, help="Keep it without being asked; questions become notes.")
def say_command(
    words: tuple[str, ...],
    folder: Path | None,
    when: str | None,
    *,
    as_json: bool,
    look: bool,
    yes: bool,
) -> None:
    """Say what was done, as you would to a friend, and it is written down.

    For example: bareshell say "heater in 2.5 h; two hose clips short; matrix held 1 bar 10 min".
    With no words, questions are asked when the record has been silent for three weeks.
    """
    from bareshell.app.door import Door
    from bareshell.app.sessions import keep_line, preview_line, session_told
    from bareshell.errors import BadInput
    from bareshell.whole.spent_said import spent_by_work

    if words and not any(word.strip() for word in words):
        raise BadInput("what was done", "it is empty", 'write it as "rear pipe done 1.5 h"')
    with Door.open(find_build(folder)) as door:
        if not words:
            _catch_up(door)
            return
        understood = preview_line(door, " ".join(words), _tonight(door), _moment(door, when))
        if as_json:
            click.echo(json.dumps(_document(understood), indent=2, ensure_ascii=False))
        else:
            for line in _text(understood):
                click.echo(line)
        if look or not understood.changes or (as_json and not yes):
            return
        answers = {} if yes or as_json else _ask(understood)
        if not yes:
            click.confirm("Write it down?", default=True, abort=True)
        before = door.build()
        receipt = keep_line(door, understood, answers=answers)
        told = (*spent_by_work(before, door.build()), *session_told(door, receipt))
    if not as_json:
        count = counted(len(receipt.entries), "thing", "things")
        for sentence in told:
            click.echo(sentence)
        click.echo(f"{count} written down; 'bareshell undo' takes the last one back.")


def _tonight(door: Door) -> tuple[str, ...]:
    """List tonight's jobs, which a line is matched to first; none where nothing is planned."""
    from bareshell.app.tonight import tonight
    from bareshell.cli.engine import first_run_said
    from bareshell.errors import BareshellError

    first_run_said()
    try:
        return tuple(ticket.id for ticket in tonight(door).jobs)
    except BareshellError:
        return ()


def _moment(door: Door, when: str | None) -> datetime | None:
    if when is None:
        return None
    from bareshell.units import parse_moment
    from bareshell.whole.garage_time import zone_of

    zone = zone_of(door.build())
    return parse_moment(when, "when", now=door.now().astimezone(zone), zone=zone)


def _text(understood: Understood) -> Iterable[str]:
    yield heading("Read as", f"{understood.at:%a %d %b %Y %H:%M}")
    for one in understood.heard:
        yield f"  {one.sentence}"
    for asked in understood.asked:
        yield f"  ? {asked.question}"
        for choice in asked.choices:
            yield f"      {choice.label}"
    for left in understood.left:
        yield f"  kept as a note: {left}"


def _document(understood: Understood) -> dict[str, object]:
    return {
        "format": 1,
        "line": understood.line,
        "at": understood.at.isoformat(),
        "heard": [
            {"sentence": one.sentence, "kind": one.kind, "title": one.title}
            for one in understood.heard
        ],
        "asked": [
            {"question": one.question, "choices": [choice.label for choice in one.choices]}
            for one in understood.asked
        ],
        "left": list(understood.left),
    }


def _ask(understood: Understood) -> dict[int, int]:
    """Put each question with its choices; an empty answer keeps the words as a note."""
    answers = {}
    for number, asked in enumerate(understood.asked):
        click.echo("")
        click.echo(heading(asked.question))
        for index, choice in enumerate(asked.choices, 1):
            click.echo(f"  {index}. {choice.label}")
        said = str(click.prompt("  number (nothing: keep it as a note)", default="")).strip()
        if said.isdigit() and 1 <= int(said) <= len(asked.choices):
            answers[number] = int(said) - 1
    return answers


def _catch_up(door: Door) -> None:
    from bareshell.app.sessions import did_this_happen, keep_answers

    questions = did_this_happen(door)
    if not questions:
        click.echo('Say what was done: bareshell say "rear pipe done 1.5 h".')
        return
    answers = {}
    for question in questions:
        click.echo(heading(question.text))
        for index, choice in enumerate(question.choices, 1):
            click.echo(f"  {index}. {choice.label}")
        said = str(click.prompt("  number (nothing: leave it)", default="")).strip()
        if said.isdigit() and 1 <= int(said) <= len(question.choices):
            answers[question.about] = int(said) - 1
    receipt = keep_answers(door, questions, answers)
    click.echo(f"{counted(len(receipt.entries), 'thing', 'things')} written down.")
