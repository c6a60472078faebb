"""Keeping photographs with the build."""

from __future__ import annotations

import hashlib
import io
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from PIL import Image

from bareshell.app.door import Door
from bareshell.app.photos import keep_photo, photo_file, thumbnail_file
from bareshell.errors import BadInput, BareshellError, Conflict, Damaged, NoRoom, NotFound
from bareshell.model import changes as c
from bareshell.model.note import Photo
from tests.stories import NOW, small_car_changes


def _picture(colour: str = "red", taken: str = "", zone: str = "") -> bytes:
    exif = Image.Exif()
    if taken:
        exif.get_ifd(0x8769)[0x9003] = taken
    if zone:
        exif.get_ifd(0x8769)[0x9011] = zone
    file = io.BytesIO()
    Image.new("RGB", (64, 48), colour).save(file, "JPEG", exif=exif)
    return file.getvalue()


@pytest.fixture
def door(tmp_path: Path) -> Iterator[Door]:
    with Door.open(tmp_path, clock=lambda: NOW, create=True) as opened:
        opened.record(small_car_changes(), happened_at=NOW - timedelta(days=30))
        yield opened


def _files(door: Door) -> list[str]:
    return sorted(path.name for path in (door.folder / "photos").iterdir())


def test_a_photo_is_kept_with_what_it_shows(door: Door) -> None:
    receipt = keep_photo(door, _picture(), "job:rear-pipe", "the tee", author="helper")
    (entry,) = receipt.entries
    assert isinstance(entry.change, c.PhotoKept)
    photo = entry.change.photo
    assert (photo.about, photo.words, entry.author) == ("job:rear-pipe", "the tee", "helper")
    assert photo.at == entry.happened_at == NOW
    assert door.build().photos[photo.id] == photo
    path, kind = photo_file(door, photo.id)
    assert kind == "image/jpeg"
    assert path.name == photo.file
    assert photo.file.startswith("2026-03-04-")
    assert hashlib.sha256(path.read_bytes()).hexdigest() == photo.sha256
    assert _files(door) == [photo.file], "nothing half-written lies about"


def test_sent_twice_it_is_kept_once(door: Door) -> None:
    keep_photo(door, _picture(), photo_id="phone-1")
    again = keep_photo(door, _picture("blue"), photo_id="phone-1")
    assert (again.entries, again.repeated) == ((), ("phone-1",))
    assert len(_files(door)) == 1
    door.record(c.JobStarted("rear-pipe"), ids=["phone-2"])
    with pytest.raises(Conflict):
        keep_photo(door, _picture(), photo_id="phone-2")


@pytest.mark.parametrize(
    ("taken", "zone", "at"),
    [
        ("2026:03:01 10:00:00", "", datetime(2026, 3, 1, 10, tzinfo=UTC)),
        ("2025:07:01 10:00:00", "", datetime(2025, 7, 1, 9, tzinfo=UTC)),
        ("2026:03:01 10:00:00", "+05:00", datetime(2026, 3, 1, 5, tzinfo=UTC)),
        ("2031:01:01 10:00:00", "", NOW),
        ("", "", NOW),
    ],
    ids=["winter time", "summer time", "its own zone", "a clock that is wrong", "unknown"],
)
def test_it_happened_when_the_camera_says(door: Door, taken: str, zone: str, at: datetime) -> None:
    """A camera without a zone shows the car's own (the small car stands in Europe/London)."""
    receipt = keep_photo(door, _picture(taken=taken, zone=zone))
    assert receipt.entries[0].happened_at == at


def test_what_the_person_says_comes_first(door: Door) -> None:
    at = NOW - timedelta(hours=5)
    receipt = keep_photo(door, _picture(taken="2026:03:01 10:00:00"), happened_at=at)
    assert receipt.entries[0].happened_at == at


def test_no_picture_leaves_nothing(door: Door) -> None:
    before = door.latest()
    with pytest.raises(BadInput):
        keep_photo(door, b"hello")
    assert _files(door) == []
    assert door.latest() == before


def test_when_the_record_is_not_taken_the_file_goes_again(door: Door) -> None:
    with pytest.raises(BadInput, match="still to come"):
        keep_photo(door, _picture(), happened_at=NOW + timedelta(days=9))
    assert _files(door) == []


def test_the_same_picture_twice_is_one_file_and_failing_later_does_not_take_it_away(
    door: Door,
) -> None:
    keep_photo(door, _picture(), words="one")
    keep_photo(door, _picture(), words="two")
    assert len(_files(door)) == 1
    with pytest.raises(BadInput):
        keep_photo(door, _picture(), photo_id="no id at all")
    assert len(_files(door)) == 1


def test_a_full_disk_leaves_nothing(door: Door, monkeypatch: pytest.MonkeyPatch) -> None:
    def full(_self: Path, _data: bytes) -> int:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(Path, "write_bytes", full)
    before = door.latest()
    with pytest.raises(NoRoom):
        keep_photo(door, _picture())
    assert _files(door) == []
    assert door.latest() == before


def test_a_small_copy_is_made_once(door: Door) -> None:
    key = keep_photo(door, _picture()).entries[0].id
    path, kind = thumbnail_file(door, key)
    assert kind == "image/jpeg"
    assert path.is_relative_to(door.folder / ".cache"), "it can be thrown away"
    before = path.stat().st_mtime_ns
    assert thumbnail_file(door, key)[0].stat().st_mtime_ns == before
    path.unlink()
    assert thumbnail_file(door, key)[0].exists()


def test_a_photo_that_is_not_there_is_told(door: Door) -> None:
    with pytest.raises(NotFound):
        photo_file(door, "nothing")
    key = keep_photo(door, _picture()).entries[0].id
    photo_file(door, key)[0].unlink()
    with pytest.raises(Damaged, match="not there"):
        photo_file(door, key)


@pytest.mark.parametrize("name", ["../journal.db", "/etc/hostname", "..", "a/b.jpg", "x.db", ""])
def test_a_record_cannot_lead_out_of_the_folder(door: Door, name: str) -> None:
    """As in an archive from somebody else."""
    door.record(c.PhotoKept(Photo("evil", NOW, name, "00" * 32)))
    with pytest.raises(BareshellError, match="not there"):
        photo_file(door, "evil")
    with pytest.raises(BareshellError, match="not there"):
        thumbnail_file(door, "evil")
