"""The small car of the stories, written down once; each test works on a copy of its folder."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from bareshell.app.door import Door
from tests.acceptance.at_the_terminal import Terminal
from tests.stories import NOW, small_car_changes


@pytest.fixture(scope="session")
def small_car_folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A build of the small car."""
    folder = tmp_path_factory.mktemp("small-car") / "car"
    with Door.open(folder, create=True, clock=lambda: NOW, back_up=False) as door:
        door.record(small_car_changes())
    return folder


@pytest.fixture
def garage(small_car_folder: Path, tmp_path: Path) -> Path:
    """A copy that a test may do anything to."""
    return Path(shutil.copytree(small_car_folder, tmp_path / "car"))


@pytest.fixture
def terminal(garage: Path) -> Terminal:
    """A terminal in front of that copy."""
    return Terminal(garage)


def latest(folder: Path) -> int:
    """Return the number of the last entry."""
    with Door.open(folder) as door:
        return door.latest()
