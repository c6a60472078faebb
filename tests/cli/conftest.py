"""What the commands are tried on."""

from __future__ import annotations

from pathlib import Path

import pytest

from bareshell.app.door import Door
from tests.stories import NOW, small_car_changes


@pytest.fixture
def garage(tmp_path: Path) -> Path:
    """A build folder with the small car."""
    folder = tmp_path / "car"
    with Door.open(folder, create=True, clock=lambda: NOW) as door:
        door.record(small_car_changes())
    return folder
