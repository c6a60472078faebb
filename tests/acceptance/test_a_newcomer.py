"""Somebody who has just met the command line: every command asked for its help, then typed."""

from __future__ import annotations

import re
from pathlib import Path

import click
import pytest

from bareshell.cli.main import COMMANDS, bareshell
from tests.acceptance.at_the_terminal import Terminal, typed_in

READING = (
    ("tonight",),
    ("tonight", "--why-not", "bleed-1"),
    ("road",),
    ("jobs",),
    ("jobs", "show", "bleed-1"),
    ("shelf",),
    ("proofs",),
    ("car",),
    ("log",),
    ("doctor",),
    ("backup", "list"),
    ("say", "--look", "bleed-1 done 2 h"),
)
DIALOGUE = (
    "the old saloon\n1\n\n1,2\n2\n2\n3\n2\n4\n1,3,6\n19:15 to 21:45; 10:00 to 15:00\n1\n1,2\n"
)


@pytest.fixture(scope="module")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Terminal:
    """A terminal in front of a demo build made today."""
    folder = tmp_path_factory.mktemp("demo") / "demo"
    made = typed_in("demo", folder)
    assert made.code == 0
    assert "invented" in made.out
    assert f"bareshell tonight --build {folder}" in made.out
    return Terminal(folder)


@pytest.fixture(scope="module")
def fresh(tmp_path_factory: pytest.TempPathFactory) -> Terminal:
    """A terminal in front of a build begun a minute ago, every question answered by number."""
    folder = tmp_path_factory.mktemp("new") / "car"
    begun = typed_in("new", folder, typed=DIALOGUE)
    assert begun.code == 0, begun.err
    assert "12 of 12." in begun.out
    assert "The build is begun" in begun.out
    return Terminal(folder)


@pytest.fixture(params=["demo", "fresh"])
def terminal(request: pytest.FixtureRequest) -> Terminal:
    found = request.getfixturevalue(request.param)
    assert isinstance(found, Terminal)
    return found


def _all_commands() -> list[list[str]]:
    context = click.Context(bareshell)
    found = []
    for name in COMMANDS:
        command = bareshell.get_command(context, name)
        found.append([name])
        if isinstance(command, click.Group):
            found += [[name, each] for each in command.list_commands(context)]
    return found


@pytest.mark.parametrize("command", _all_commands(), ids=" ".join)
def test_every_command_explains_itself(command: list[str]) -> None:
    said = typed_in(*command, "--help")
    assert said.code == 0
    assert said.out.startswith(f"Usage: bareshell {' '.join(command)}")
    words = said.out.split("Options:")[0].splitlines()[1:]
    assert any(line.strip() for line in words), "it says what it does"


@pytest.mark.parametrize("words", READING, ids=" ".join)
def test_every_reading_command_answers_in_lines_and_as_data(
    terminal: Terminal, words: tuple[str, ...]
) -> None:
    command, *rest = words
    said = terminal(command, *rest)
    assert said.code == 0, said.err
    assert said.out.strip()
    assert "None" not in said.out
    assert not re.search(r"<\w+|\w+\(\w+=", said.out), "no insides of the program"
    if command != "car":  # what the owner wrote of the car is one paragraph
        longest = max(said.out.splitlines(), key=len)
        assert len(longest) < 360, longest
    data = terminal(command, *rest, "--json")
    assert data.code == 0
    assert data.data["format"] == 1


def test_what_is_written_at_the_terminal_is_read_back(fresh: Terminal) -> None:
    assert fresh("car", "stands", "wheels", "--off", "engine out").out.startswith("The car stands")
    assert "engine out" in fresh("car").out
    day = fresh("car", "day", "1 June", "--minutes", "480", "--people", "2", "--starts", "9:30")
    assert re.match(r"\w+ 01 Jun \d{4}: 480 minutes\.", day.out)
    assert "drains" in fresh("jobs").out
    assert fresh("jobs", "mark", "drains", "done", "--hours", "1.5").out.endswith("done.\n")
    assert "1.5" in fresh("jobs", "show", "drains").out
    listed = re.findall(r"^  (bay-setup\.\S+)", fresh("shelf", "--all").out, re.MULTILINE)
    need = listed[0]
    assert "here in the loft" in fresh("shelf", "here", need, "--where", "the loft").out
    kept = fresh("say", "--yes", "found the torque wrench, needs calibrating")
    assert "written down" in kept.out
    assert "torque wrench" in fresh("log", "-n", "2").out
    newest = fresh("undo", "--yes")
    assert newest.out.startswith("Taken back: ")
    copied = fresh("backup")
    assert copied.out.startswith("Kept: ")
    assert Path(copied.out.removeprefix("Kept: ").strip()).is_file()
    assert fresh("doctor").code == 0


def test_data_and_a_question_do_not_mix(fresh: Terminal) -> None:
    before = fresh("log", "-n", "1").out
    seen = fresh("say", "--json", "the boot lid rubs on the left")
    assert seen.data["format"] == 1
    assert fresh("log", "-n", "1").out == before
