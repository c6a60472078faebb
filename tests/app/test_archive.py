"""The archive: everything goes out in open formats and comes back the same, or not at all."""

from __future__ import annotations

import hashlib
import io
import json
import stat
import zipfile
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from PIL import Image

from bareshell.app.archive import export_archive, import_archive
from bareshell.app.door import Door
from bareshell.app.photos import keep_photo, photo_file
from bareshell.errors import BadInput, BareshellError, Damaged, Newer, NoRoom, Refused
from bareshell.io import archive as container
from bareshell.model import changes as c
from tests.store.every_change import EVERY
from tests.stories import NOW


def _picture(colour: str) -> bytes:
    file = io.BytesIO()
    Image.new("RGB", (64, 48), colour).save(file, "JPEG")
    return file.getvalue()


@pytest.fixture
def door(tmp_path: Path) -> Iterator[Door]:
    """A build with an entry of every kind, a withdrawal, one to settle, and two photographs."""
    with Door.open(tmp_path / "build", clock=lambda: NOW, create=True) as opened:
        opened.record([change for change in EVERY if not isinstance(change, c.PhotoKept)])
        opened.record(
            c.JobWorked("rear-hose", 1.0), ids=["late"], base_versions={"job:rear-hose": 0}
        )
        opened.take_back(opened.record(c.JobTakenIn("spare")).entries[0].id, "no")
        keep_photo(opened, _picture("red"), "job:tank", "the tee", photo_id="p-red")
        keep_photo(opened, _picture("blue"), photo_id="p-blue")
        yield opened


@pytest.fixture
def archive(door: Door, tmp_path: Path) -> Path:
    return export_archive(door, tmp_path / "out.zip").path


def test_it_comes_back_the_same(door: Door, archive: Path, tmp_path: Path) -> None:
    count = import_archive(archive, tmp_path / "new")
    with Door.open(tmp_path / "new") as other:
        assert count == door.latest()
        assert other.entries() == door.entries()
        assert other.rows() == door.rows(), "to the last letter"
        assert other.build() == door.build()
        for key in ("p-red", "p-blue"):
            assert photo_file(other, key)[0].read_bytes() == photo_file(door, key)[0].read_bytes()
        other.record(c.JobStarted("spare"))
    assert sorted(path.name for path in tmp_path.iterdir()) == ["build", "new", "out.zip"]


def test_it_can_be_read_without_bareshell(door: Door, archive: Path) -> None:
    """With nothing but a zip reader, a JSON reader and a hash: the standard library's."""
    with zipfile.ZipFile(archive) as packed:
        assert packed.testzip() is None
        manifest = json.loads(packed.read("manifest.json"))
        assert set(packed.namelist()) == {*manifest["files"], "manifest.json"}
        for name, item in manifest["files"].items():
            data = packed.read(name)
            assert (len(data), hashlib.sha256(data).hexdigest()) == (item["bytes"], item["sha256"])
        lines = [json.loads(line) for line in packed.read("journal.jsonl").splitlines()]
        readme = packed.read("README.txt").decode()
    assert len(lines) == manifest["entries"] == door.latest()
    assert [line["seq"] for line in lines] == list(range(1, len(lines) + 1))
    assert lines[0]["kind"] == "car-described"
    assert lines[0]["body"]["car"]["name"] == "The invented saloon"
    for field in lines[0]:
        assert field in readme, "the words say what each field is"


def test_the_same_build_at_the_same_moment_makes_the_same_bytes(
    door: Door, archive: Path, tmp_path: Path
) -> None:
    again = export_archive(door, tmp_path / "again.zip").path
    assert again.read_bytes() == archive.read_bytes()


def test_a_build_file_can_go_with_it(door: Door, tmp_path: Path) -> None:
    made = export_archive(door, tmp_path / "with.zip", {"build.toml": b"# a build\n"})
    with zipfile.ZipFile(made.path) as packed:
        assert packed.read("build.toml") == b"# a build\n"
    import_archive(made.path, tmp_path / "new")
    with pytest.raises(BadInput, match="no file of an archive"):
        export_archive(door, tmp_path / "other.zip", {"../x": b""})


def test_a_photo_that_is_gone_is_told_and_the_rest_goes_out(door: Door, tmp_path: Path) -> None:
    photo_file(door, "p-red")[0].unlink()
    made = export_archive(door, tmp_path / "out.zip")
    assert (made.photos, len(made.problems)) == (1, 1)
    assert "not there" in made.problems[0].what
    import_archive(made.path, tmp_path / "new")


def test_a_full_disk_leaves_no_half_of_an_archive(
    door: Door, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(_self: object, _name: str, _path: Path) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(container.ArchiveWriter, "add_file", full)
    with pytest.raises(NoRoom):
        export_archive(door, tmp_path / "out.zip")
    assert [path.name for path in tmp_path.iterdir()] == ["build"]


def test_an_older_archive_is_not_written_over(door: Door, archive: Path) -> None:
    before = archive.read_bytes()
    door.record(c.JobStarted("spare"))
    with pytest.raises(Refused, match="already"):
        export_archive(door, archive)
    assert archive.read_bytes() == before


def test_nothing_is_written_over(archive: Path, tmp_path: Path) -> None:
    (tmp_path / "full").mkdir()
    (tmp_path / "full" / "letter.txt").write_text("mine")
    with pytest.raises(Refused, match="something in"):
        import_archive(archive, tmp_path / "full")
    assert (tmp_path / "full" / "letter.txt").read_text() == "mine"
    (tmp_path / "empty").mkdir()
    import_archive(archive, tmp_path / "empty")
    with pytest.raises(Refused):
        import_archive(archive, tmp_path / "empty")


# --- archives that are spoilt, foreign or made to harm -----------------------------------------

Members = dict[str, bytes]


def _members(archive: Path) -> Members:
    with zipfile.ZipFile(archive) as packed:
        return {info.filename: packed.read(info) for info in packed.infolist()}


def _write(archive: Path, members: Members) -> None:
    with zipfile.ZipFile(archive, "w") as packed:
        for name, data in members.items():
            packed.writestr(name, data)


def _told_anew(members: Members) -> Members:
    """Make the manifest agree with the rest, as somebody who means harm would."""
    manifest = json.loads(members["manifest.json"])
    manifest["files"] = {
        name: {"bytes": len(data), "sha256": hashlib.sha256(data).hexdigest()}
        for name, data in members.items()
        if name != "manifest.json"
    }
    return {**members, "manifest.json": json.dumps(manifest).encode()}


def _lines(members: Members, change: Callable[[list[dict[str, Any]]], object]) -> Members:
    lines = [json.loads(line) for line in members["journal.jsonl"].splitlines()]
    change(lines)
    text = "".join(json.dumps(line, ensure_ascii=False) + "\n" for line in lines)
    return _told_anew({**members, "journal.jsonl": text.encode()})


def _manifest(members: Members, **values: object) -> Members:
    manifest = {**json.loads(members["manifest.json"]), **values}
    return {**members, "manifest.json": json.dumps(manifest).encode()}


SPOILT: dict[str, tuple[Callable[[Members], Members], type[BareshellError]]] = {
    "a photo altered": (
        lambda m: {n: b"x" * len(d) if n.startswith("photos/") else d for n, d in m.items()},
        Damaged,
    ),
    "an entry altered": (
        lambda m: {**m, "journal.jsonl": m["journal.jsonl"].replace(b"Carpet", b"Garnet")},
        Damaged,
    ),
    "an entry missing": (lambda m: _lines(m, lambda lines: lines.pop(5)), Damaged),
    "the end missing": (lambda m: _lines(m, lambda lines: lines.pop()), Damaged),
    "an entry twice": (lambda m: _lines(m, lambda lines: lines.append(lines[-1])), Damaged),
    "two of one id": (
        lambda m: _lines(m, lambda lines: lines[1].update(id=lines[0]["id"])),
        Damaged,
    ),
    "an id that is none": (lambda m: _lines(m, lambda lines: lines[1].update(id="../x")), BadInput),
    "another field": (lambda m: _lines(m, lambda lines: lines[1].update(more=1)), Damaged),
    "a word for a number": (
        lambda m: _lines(m, lambda lines: lines[1].update(version="1")),
        Damaged,
    ),
    "true for a number": (lambda m: _lines(m, lambda lines: lines[0].update(seq=True)), Damaged),
    "no time": (lambda m: _lines(m, lambda lines: lines[1].update(happened_at="soon")), Damaged),
    "a body that is none": (lambda m: _lines(m, lambda lines: lines[1].update(body={})), Damaged),
    "another subject": (
        lambda m: _lines(m, lambda lines: lines[1].update(subject="job:x")),
        Damaged,
    ),
    "a number in place of a line": (
        lambda m: _told_anew({**m, "journal.jsonl": b"7\n" * 4}),
        Damaged,
    ),
    "a very deep line": (
        lambda m: _told_anew({**m, "journal.jsonl": b"[" * 100_000 + b"\n"}),
        Damaged,
    ),
    "a line without an end": (
        lambda m: _told_anew({**m, "journal.jsonl": m["journal.jsonl"][:-1]}),
        Damaged,
    ),
    "no text": (lambda m: _told_anew({**m, "journal.jsonl": b"\xff\xfe\n"}), Damaged),
    "no manifest": (lambda m: {n: d for n, d in m.items() if n != "manifest.json"}, BadInput),
    "no journal": (lambda m: {n: d for n, d in m.items() if n != "journal.jsonl"}, BadInput),
    "a manifest that is none": (lambda m: {**m, "manifest.json": b"[]"}, Damaged),
    "a very deep manifest": (lambda m: {**m, "manifest.json": b"[" * 100_000}, Damaged),
    "another format": (lambda m: _manifest(m, format="recipes"), BadInput),
    "a newer format": (lambda m: _manifest(m, version=99, written_by="99.1.0"), Newer),
    "a list that leaves a file out": (
        lambda m: {**m, "photos/extra.jpg": b"x"},
        Damaged,
    ),
    "a file that climbs out": (lambda m: _told_anew({**m, "../evil.txt": b"x"}), BadInput),
    "a photo that climbs out": (lambda m: _told_anew({**m, "photos/../../evil": b"x"}), BadInput),
    "a file from the root": (lambda m: _told_anew({**m, "/etc/evil": b"x"}), BadInput),
    "a backslash": (lambda m: _told_anew({**m, "photos\\..\\evil": b"x"}), BadInput),
    "a hidden photo": (lambda m: _told_anew({**m, "photos/.evil": b"x"}), BadInput),
    "a folder": (lambda m: _told_anew({**m, "photos/a/": b""}), BadInput),
    "a program": (lambda m: _told_anew({**m, "run.py": b"x"}), BadInput),
}


@pytest.mark.parametrize("what", sorted(SPOILT))
def test_what_cannot_be_trusted_brings_nothing_in(archive: Path, tmp_path: Path, what: str) -> None:
    spoil, error = SPOILT[what]
    _write(archive, spoil(_members(archive)))
    with pytest.raises(error) as caught:
        import_archive(archive, tmp_path / "new")
    assert caught.value.message
    assert sorted(path.name for path in tmp_path.iterdir()) == ["build", "out.zip"]


@pytest.mark.parametrize("share", [0.0, 0.1, 0.5, 0.9, 0.999])
def test_cut_short_it_brings_nothing_in(archive: Path, tmp_path: Path, share: float) -> None:
    whole = archive.read_bytes()
    archive.write_bytes(whole[: int(len(whole) * share)])
    with pytest.raises(Damaged, match="cut short"):
        import_archive(archive, tmp_path / "new")
    assert sorted(path.name for path in tmp_path.iterdir()) == ["build", "out.zip"]


def test_a_flipped_bit_anywhere_is_found_or_harmless(
    door: Door, archive: Path, tmp_path: Path
) -> None:
    """Bits in dates or padding of the container change nothing that comes in."""
    whole = bytearray(archive.read_bytes())
    for place in range(0, len(whole), max(1, len(whole) // 60)):
        spoilt = bytearray(whole)
        spoilt[place] ^= 0x10
        archive.write_bytes(spoilt)
        new = tmp_path / f"new-{place}"
        try:
            import_archive(archive, new)
        except BareshellError:
            assert not new.exists()
            continue
        with Door.open(new) as other:
            assert other.rows() == door.rows()


def test_a_spoilt_list_of_contents_is_a_sentence_and_nothing_else(archive: Path) -> None:
    """A flipped bit in a member's stated size makes its stream end before its end."""
    whole = bytearray(archive.read_bytes())
    spoilt_ones = 0
    for place in range(whole.index(b"PK\x01\x02"), len(whole)):
        spoilt = bytearray(whole)
        spoilt[place] ^= 0x10
        archive.write_bytes(spoilt)
        try:
            with container.Archive.open(archive) as opened:
                list(opened.lines())
        except BareshellError:
            spoilt_ones += 1
    assert spoilt_ones > 50


def test_a_small_file_that_unpacks_to_a_huge_one_is_stopped(
    archive: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    members = _members(archive)
    for limit, size in (("MOST_PHOTO_BYTES", 10_000), ("MOST_BYTES", 20_000)):
        with monkeypatch.context() as patch:
            patch.setattr(container, limit, size)
            with zipfile.ZipFile(archive, "w", zipfile.ZIP_DEFLATED) as packed:
                bomb = {**members, "photos/bomb.jpg": bytes(5_000_000)}
                for name, data in _told_anew(bomb).items():
                    packed.writestr(name, data)
            with pytest.raises(BadInput, match="far too large"):
                import_archive(archive, tmp_path / "new")


def test_a_file_larger_than_it_says_is_stopped_where_it_said_it_would_end(
    archive: Path, tmp_path: Path
) -> None:
    """The sizes in a zip are only claims; here the claim is a tenth of what unpacks."""
    members = _members(archive)
    members["photos/bomb.jpg"] = bytes(500_000)
    told = _told_anew(members)
    manifest = json.loads(told["manifest.json"])
    manifest["files"]["photos/bomb.jpg"]["bytes"] = 50_000
    told["manifest.json"] = json.dumps(manifest).encode()
    _write(archive, told)
    raw = archive.read_bytes().replace(
        (500_000).to_bytes(4, "little"), (50_000).to_bytes(4, "little")
    )
    archive.write_bytes(raw)
    with pytest.raises((Damaged, BadInput)):
        import_archive(archive, tmp_path / "new")
    assert not (tmp_path / "new").exists()


def test_a_link_in_it_is_refused(archive: Path, tmp_path: Path) -> None:
    told = _told_anew({**_members(archive), "photos/link.jpg": b"/etc/hostname"})
    with zipfile.ZipFile(archive, "w") as packed:
        for name, data in told.items():
            info = zipfile.ZipInfo(name)
            kind = stat.S_IFLNK if name.endswith("link.jpg") else stat.S_IFREG
            info.external_attr = (kind | 0o644) << 16
            packed.writestr(info, data)
    with pytest.raises(BadInput, match="plain file"):
        import_archive(archive, tmp_path / "new")


@pytest.mark.filterwarnings("ignore:Duplicate name")
def test_a_name_that_is_there_twice_is_refused(archive: Path, tmp_path: Path) -> None:
    with zipfile.ZipFile(archive, "a") as packed:
        packed.writestr("journal.jsonl", b"{}\n")
    with pytest.raises(BadInput, match="twice"):
        import_archive(archive, tmp_path / "new")


def test_when_there_is_no_room_nothing_comes_in(
    archive: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    import shutil
    from types import SimpleNamespace

    monkeypatch.setattr(shutil, "disk_usage", lambda _path: SimpleNamespace(free=1000))
    with pytest.raises(NoRoom):
        import_archive(archive, tmp_path / "new")
    assert sorted(path.name for path in tmp_path.iterdir()) == ["build", "out.zip"]


def test_entries_of_a_newer_bareshell_come_in_as_they_are(archive: Path, tmp_path: Path) -> None:
    members = _lines(
        _members(archive),
        lambda lines: lines[-1].update(kind="job-blessed", version=3, body={"a": [1, 2.5]}),
    )
    _write(archive, members)
    import_archive(archive, tmp_path / "new")
    with Door.open(tmp_path / "new") as other:
        assert isinstance(other.entries()[-1].change, c.Unread)
        with pytest.raises(Newer):
            other.record(c.JobStarted("spare"))
