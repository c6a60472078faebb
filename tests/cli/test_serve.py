"""``bareshell serve``: which folder, which port, what it prints, and that it really answers."""

from __future__ import annotations

import os
import signal
import socket
import subprocess
import sys
import time
import urllib.error
import urllib.request
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner

from bareshell.app.clock_on_the_wall import UNKNOWN, machine_zone
from bareshell.app.door import Door
from bareshell.cli.main import bareshell
from bareshell.errors import NotFound
from bareshell.web import site
from bareshell.web.bench import Bench
from bareshell.web.network import PortTaken
from tests.stories import NOW, small_car_changes


@pytest.fixture
def garage(tmp_path: Path) -> Path:
    folder = tmp_path / "car"
    with Door.open(folder, create=True, clock=lambda: NOW, back_up=False) as door:
        door.record(small_car_changes())
    return folder


@pytest.fixture
def served(monkeypatch: pytest.MonkeyPatch) -> list[dict[str, Any]]:
    """What would have been served."""
    calls: list[dict[str, Any]] = []

    def serve_site(bench: Bench, **how: Any) -> None:
        calls.append({"bench": bench, **how})

    monkeypatch.setattr(site, "serve_site", serve_site)
    return calls


def test_a_build_is_served_on_this_computer_unless_asked_otherwise(
    garage: Path, served: list[dict[str, Any]]
) -> None:
    assert CliRunner().invoke(bareshell, ["serve", "--build", str(garage)]).exit_code == 0
    (call,) = served
    assert (call["bench"].folder, call["home"], call["port"]) == (garage, False, 8642)
    words = ["serve", "--build", str(garage), "--home", "--port", "0"]
    assert CliRunner().invoke(bareshell, words).exit_code == 0
    assert (served[1]["home"], served[1]["port"]) == (True, 0)


def test_a_folder_that_is_not_there_yet_is_where_a_build_will_begin(
    tmp_path: Path, served: list[dict[str, Any]]
) -> None:
    folder = tmp_path / "new"
    assert CliRunner().invoke(bareshell, ["serve", "--build", str(folder)]).exit_code == 0
    assert served[0]["bench"].folder == folder
    assert not folder.exists()


def test_the_folder_one_stands_in_is_taken_when_it_is_empty_or_holds_a_build(
    garage: Path, tmp_path: Path, served: list[dict[str, Any]], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.delenv("BARESHELL_BUILD", raising=False)
    monkeypatch.chdir(garage / "photos")
    assert CliRunner().invoke(bareshell, ["serve"]).exit_code == 0
    empty = tmp_path / "empty"
    empty.mkdir()
    monkeypatch.chdir(empty)
    assert CliRunner().invoke(bareshell, ["serve"]).exit_code == 0
    assert [call["bench"].folder for call in served] == [garage, empty]


def test_a_folder_full_of_other_things_is_left_alone(
    tmp_path: Path, served: list[dict[str, Any]], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.delenv("BARESHELL_BUILD", raising=False)
    (tmp_path / "letters.txt").write_text("mine")
    monkeypatch.chdir(tmp_path)
    result = CliRunner().invoke(bareshell, ["serve"])
    assert isinstance(result.exception, NotFound)
    assert "bareshell serve --build DIR" in str(result.exception)
    file = CliRunner().invoke(bareshell, ["serve", "--build", str(tmp_path / "letters.txt")])
    assert isinstance(file.exception, NotFound)
    assert served == []


def test_a_taken_port_is_said_and_nothing_is_left_open(garage: Path) -> None:
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        port = taken.getsockname()[1]
        words = ["serve", "--build", str(garage), "--port", str(port)]
        result = CliRunner().invoke(bareshell, words)
    assert isinstance(result.exception, PortTaken)
    assert "choose another port" in str(result.exception)
    assert result.exception.exit_code == 8


def _answers(address: str) -> tuple[int, str]:
    deadline = time.monotonic() + 30
    while True:
        try:
            with urllib.request.urlopen(address) as answer:  # noqa: S310  our own, on loopback
                return answer.status, answer.geturl()
        except urllib.error.HTTPError as error:
            return error.code, address
        except OSError:
            assert time.monotonic() < deadline, "nothing answers"
            time.sleep(0.1)


@pytest.fixture
def process(tmp_path: Path, free_port: int) -> Iterator[tuple[subprocess.Popen[str], int, Path]]:
    """The real command on a folder that is not there yet."""
    folder = tmp_path / "new"
    run = "from bareshell.cli.main import main; main()"
    command = [sys.executable, "-c", run, "serve", "--build", str(folder)]
    started = subprocess.Popen(
        [*command, "--port", str(free_port)],
        stdout=subprocess.PIPE,
        text=True,
        env={**os.environ, "TZ": "Europe/London"},
    )
    yield started, free_port, folder
    if started.poll() is None:
        started.kill()
    started.communicate()


def test_the_real_command_begins_a_build_and_stops_at_ctrl_c(
    process: tuple[subprocess.Popen[str], int, Path],
) -> None:
    started, port, folder = process
    here = f"http://127.0.0.1:{port}"
    status, where = _answers(here + "/")
    assert (status, where) == (200, here + "/begin")
    assert not folder.exists()
    data = b"name=The+old+saloon&layout=rear"
    request = urllib.request.Request(here + "/begin", data, {"Origin": here})  # noqa: S310
    with urllib.request.urlopen(request) as answer:  # noqa: S310  our own, on loopback
        assert answer.geturl() == here + "/begin/check"
    assert (folder / "journal.db").exists()
    started.send_signal(signal.SIGINT)
    said, _ = started.communicate(timeout=30)
    assert f"bareshell is open at {here}/" in said
    assert "the first page begins one" in said
    assert "Making the plan ready" in said


def test_the_time_zone_of_this_computer_is_found_by_its_name(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    nowhere = tmp_path / "nowhere"
    monkeypatch.setenv("TZ", "Europe/Berlin")
    assert machine_zone(nowhere, nowhere) == "Europe/Berlin"
    monkeypatch.setenv("TZ", "<+03>-3")  # a rule without a name (POSIX)
    assert machine_zone(nowhere, nowhere) == UNKNOWN
    monkeypatch.delenv("TZ")
    named = tmp_path / "timezone"
    named.write_text("Australia/Hobart\n")
    assert machine_zone(nowhere, named) == "Australia/Hobart"
    link = tmp_path / "localtime"
    table = tmp_path / "zoneinfo" / "America" / "Chicago"
    table.parent.mkdir(parents=True)
    table.write_text("")
    link.symlink_to(table)
    assert machine_zone(link, named) == "America/Chicago"
