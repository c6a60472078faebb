"""``bareshell demo`` and ``bareshell new``: a build to look at, and one of your own."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING

import click

from bareshell.cli.common import heading
from bareshell.errors import BadInput

if TYPE_CHECKING:
    from bareshell.app.door import Door
    from bareshell.trade.questions import Question


@click.command("demo")
@click.argument("folder", metavar="DIR", type=click.Path(path_type=Path))
def demo_command(folder: Path) -> None:
    """Make the invented demo build in DIR: a small saloon, about half way through."""
    from bareshell.app.demo import make_demo

    click.echo("Making the demo build: an invented car, invented parts, invented people ...")
    with make_demo(folder, datetime.now().astimezone().date()) as door:
        build = door.build()
    done = sum(record.state.is_done for record in build.jobs.values())
    name = build.car.name if build.car else "the demo"
    click.echo(f"{name}: {len(build.jobs)} jobs, {done} done, {len(build.needs)} parts wanted.")
    click.echo(f"Look at it:  bareshell serve --build {folder}")
    click.echo(f"or here:     bareshell tonight --build {folder}")


@click.command("new")
@click.argument("folder", metavar="DIR", type=click.Path(path_type=Path))
@click.option("--zone", help="Time zone of the garage clock, such as Europe/London.")
@click.option(
    "--answer",
    "given",
    multiple=True,
    metavar="QUESTION=ANSWER",
    help="Answer a question without being asked; 'bareshell new --questions DIR' lists them.",
)
@click.option("--questions", "only_list", is_flag=True, help="List the questions and stop.")
def new_command(folder: Path, zone: str | None, given: tuple[str, ...], *, only_list: bool) -> None:
    """Begin a build of your own car in DIR: at most twelve questions, "not sure" is an answer."""
    from bareshell.app.begin import DEFAULT_ZONE, begin, questions

    asked = questions()
    if only_list:
        for question in asked:
            _put(question)
        return
    answers = _given(given)
    unknown = answers.keys() - {question.id for question in asked}
    if unknown:
        raise BadInput(
            "answer",
            f"there is no question '{min(unknown)}'",
            "'bareshell new --questions DIR' lists them",
        )
    if not given:
        for number, question in enumerate(asked, 1):
            answers[question.id] = _ask(question, number, len(asked))
    with begin(folder, answers, zone=zone or DEFAULT_ZONE) as door:
        if not given:
            _correct(door)
        build = door.build()
        open_jobs = sum(record.state.is_open for record in build.jobs.values())
        before = sum(record.state.is_done for record in build.jobs.values())
    click.echo("")
    click.echo(
        f"The build is begun: {open_jobs} jobs open, {before} taken for done before the record "
        "and unproven."
    )
    click.echo(f"Tonight:  bareshell tonight --build {folder}")
    click.echo(f"Pages:    bareshell serve --build {folder}")


def _given(given: tuple[str, ...]) -> dict[str, str]:
    answers = {}
    for one in given:
        key, equals, value = one.partition("=")
        if not equals:
            raise BadInput(
                "answer", f"'{one}' names no question", "write it as name=the old saloon"
            )
        answers[key.strip()] = value.strip()
    return answers


def _put(question: Question) -> None:
    click.echo(heading(f"{question.id}: {question.ask}"))
    if question.help:
        click.echo(f"  {question.help}")
    for choice in question.choices:
        click.echo(f"  {choice.value}: {choice.words}")


def _ask(question: Question, number: int, total: int) -> str:
    click.echo("")
    click.echo(heading(f"{number} of {total}. {question.ask}"))
    if question.help:
        click.echo(f"  {question.help}")
    for index, choice in enumerate(question.choices, 1):
        click.echo(f"  {index}. {choice.words}")
    hint = "number, or several with commas" if question.kind == "many" else "number"
    prompt = hint if question.choices else "answer"
    said = str(click.prompt(f"  {prompt}", default=question.default or "not sure")).strip()
    if not question.choices:
        return said
    words = []
    for piece in said.split(","):
        one = piece.strip()
        if one.isdigit() and 1 <= int(one) <= len(question.choices):
            words.append(question.choices[int(one) - 1].value)
        else:
            words.append(one)
    return ",".join(words)


def _correct(door: Door) -> None:
    """Put the frontier before the owner; an empty answer leaves it as it was taken."""
    from bareshell.app.begin import correct_frontier, doubts

    listed = doubts(door)
    if not listed:
        return
    click.echo("")
    click.echo(heading("Is this right?", "done = already on the car; to do = not yet"))
    for index, doubt in enumerate(listed, 1):
        taken = "done" if doubt.taken_for_done else "to do"
        click.echo(f"  {index:>2}. {doubt.title}: {taken}")
    wrong = click.prompt(
        "  numbers that are the other way round, with commas (nothing: all right)", default=""
    )
    picked = {int(n) for n in str(wrong).replace(" ", "").split(",") if n.isdigit()}
    chosen = [doubt for index, doubt in enumerate(listed, 1) if index in picked]
    correct_frontier(
        door,
        done=[doubt.job for doubt in chosen if not doubt.taken_for_done],
        not_done=[doubt.job for doubt in chosen if doubt.taken_for_done],
    )
