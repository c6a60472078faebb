"""The front page is true: every command is on it, and every example on it can be typed."""

from __future__ import annotations

import io
import json
import re
import shlex
from pathlib import Path

import click
import pytest
from click.testing import CliRunner

from bareshell import errors
from bareshell.cli.main import COMMANDS, bareshell

FRONT = (Path(__file__).parents[2] / "README.md").read_text("utf-8")
EXAMPLES = [
    re.split(r"\s{2,}", line.strip())[0]
    for line in FRONT.splitlines()
    if line.startswith("    bareshell ")
]


def test_every_command_has_an_example() -> None:
    shown = {shlex.split(example)[1] for example in EXAMPLES}
    assert shown == set(COMMANDS)


@pytest.mark.parametrize("example", EXAMPLES)
def test_every_example_can_be_typed(example: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("sys.stdin", io.StringIO("y\n"))  # taking back asks first
    _, *words = shlex.split(example)
    command: click.Command = bareshell
    context = click.Context(bareshell, info_name="bareshell")
    while isinstance(command, click.Group) and words and not words[0].startswith("-"):
        found = command.get_command(context, words[0])
        assert found is not None, words
        context = click.Context(found, parent=context, info_name=words[0])
        command, words = found, words[1:]
    # Parsing stops at the first word or option that the command does not take.
    command.make_context(str(command.name), words, parent=context)


def test_the_brake_file_on_it_reads_and_answers_at_once(tmp_path: Path) -> None:
    """As it stands, with nothing missing: a newcomer's first minute."""
    [block] = re.findall(r"```toml\n(.*?)```", FRONT, re.DOTALL)
    for name, text in (("mine", block), ("other", block.replace("48 mm", "54 mm"))):
        (tmp_path / f"{name}.toml").write_text(text, "utf-8")
    mine, other = str(tmp_path / "mine.toml"), str(tmp_path / "other.toml")
    checked = CliRunner().invoke(bareshell, ["brakes", "check", mine, "--json"])
    assert checked.exit_code == 0, checked.output
    answer = json.loads(checked.output)
    assert answer["missing"] == []
    assert answer["now"]["deceleration_m_s2"] > 1.0
    beside = CliRunner().invoke(bareshell, ["brakes", "compare", mine, other])
    assert beside.exit_code == 0, beside.output


def test_the_exit_codes_are_as_the_front_page_says() -> None:
    said = dict(re.findall(r"(\d) (?:for|while) ((?:\w|')+(?: \w+){1,3})", " ".join(FRONT.split())))
    kinds: dict[type[errors.BareshellError], str] = {
        errors.BadInput: "what was typed",
        errors.NotFound: "what is not there",
        errors.Refused: "a rule of the",
        errors.Damaged: "a damaged file",
        errors.Newer: "a newer",
        errors.Busy: "another writes",
        errors.NoRoom: "a full disk",
    }
    for kind, words in kinds.items():
        assert said[str(kind.exit_code)].startswith(words), kind


def test_it_says_what_a_newcomer_needs() -> None:
    for words in ("Python 3.11", "make run", "make test", "compiled on first use", "--home",
                  "BARESHELL_BUILD", "backups/", "--json", "archive"):  # fmt: skip
        assert words in FRONT, words
    first = FRONT.split("\n\n")[1]
    assert len(first.split()) < 160, "the job in one paragraph"
    for ahead in ("axle locks", "stopping distance", "balance"):
        assert ahead not in first, "what is not built is not promised"
