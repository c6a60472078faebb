"""The few shell scripts that a fresh machine meets first."""

from __future__ import annotations

import subprocess
from pathlib import Path

import pytest

SCRIPTS = Path(__file__).parents[2] / "scripts"


def run(script: str, *words: str, path: Path, **more: str) -> subprocess.CompletedProcess[str]:
    """Run one script where only what lies in `path` can be found."""
    return subprocess.run(
        ["/bin/bash", str(SCRIPTS / script), *words],
        check=False,
        capture_output=True,
        text=True,
        env={"PATH": str(path), **more},
    )


@pytest.fixture
def tools(tmp_path: Path) -> Path:
    """A folder for stand-in programs."""
    folder = tmp_path / "bin"
    folder.mkdir()
    return folder


def stand_in(folder: Path, name: str, lines: str) -> Path:
    program = folder / name
    program.write_text(f"#!/bin/bash\n{lines}\n", "utf-8")
    program.chmod(0o755)
    return program


def test_a_machine_with_no_python_that_will_do_is_told_so(tools: Path, tmp_path: Path) -> None:
    stand_in(tools, "python3", "exit 1")  # says it is older than 3.11
    done = run("lay-venv", str(tmp_path / "venv"), path=tools)
    assert done.returncode == 1
    assert "Python 3.11 or newer" in done.stderr


def test_a_python_without_venv_is_named_with_what_to_install(tools: Path, tmp_path: Path) -> None:
    stand_in(tools, "python3", '[ "$1" = "-c" ] && exit 0\nexit 1')
    done = run("lay-venv", str(tmp_path / "venv"), path=tools)
    assert done.returncode == 1
    assert "python3-venv" in done.stderr


def test_the_named_python_is_tried_first(tools: Path, tmp_path: Path) -> None:
    mine = stand_in(tools, "my-python", 'echo "mine $*"')
    stand_in(tools, "python3", "echo theirs")
    done = run("lay-venv", str(tmp_path / "venv"), path=tools, PYTHON=str(mine))
    assert done.returncode == 0
    assert "mine -m venv" in done.stdout


def test_the_browser_named_by_hand_comes_before_the_machines_own(tools: Path) -> None:
    machine = stand_in(tools, "chromium", "")
    mine = stand_in(tools, "my-chromium", "")
    assert run("find-chromium", path=tools).stdout.strip() == str(machine)
    named = run("find-chromium", path=tools, BARESHELL_CHROMIUM=str(mine))
    assert named.stdout.strip() == str(mine)


def test_no_browser_is_a_plain_no(tools: Path) -> None:
    assert run("find-chromium", path=tools).returncode == 1


def test_a_browser_that_cannot_be_fetched_stops_nobody(tools: Path) -> None:
    stand_in(tools, "id", "echo 1000")
    done = run("get-chromium", path=tools)
    assert done.returncode == 0
    assert "BARESHELL_CHROMIUM" in done.stderr
