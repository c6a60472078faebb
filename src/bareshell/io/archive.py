"""The archive: a whole build in one zip of open formats, made to be read without bareshell.

``manifest.json`` says what is in it and the SHA-256 of every file; ``journal.jsonl`` is the
record, one entry a line; ``photos/`` are the photographs; ``README.txt`` explains all this.
This module knows the container only, not what an entry means.
"""

from __future__ import annotations

import hashlib
import json
import re
import stat
import zipfile
import zlib
from collections.abc import Generator, Iterable, Iterator, Mapping
from contextlib import closing, contextmanager, suppress
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from types import TracebackType
from typing import IO, Any, Self

from bareshell.errors import BadInput, Damaged, Newer

FORMAT = "bareshell archive"
FORMAT_VERSION = 1

MANIFEST = "manifest.json"
JOURNAL = "journal.jsonl"
README = "README.txt"
EXTRA_FILES = ("build.toml",)
PHOTO = re.compile(r"photos/[A-Za-z0-9][A-Za-z0-9._-]{0,119}")

MOST_MANIFEST_BYTES = 32_000_000
MOST_LINE_BYTES = 8_000_000
MOST_JOURNAL_BYTES = 1_000_000_000
MOST_PHOTO_BYTES = 200_000_000
MOST_BYTES = 200_000_000_000
"""What an archive may unpack to in all; a small zip can claim to hold the whole disk."""

_CHUNK = 1 << 20
_UNPACKING_FAULTS = (
    zipfile.BadZipFile, zlib.error, EOFError, OSError, RuntimeError
)  # fmt: skip
"""What unpacking raises over spoilt bytes: a method nobody knows, a stream that ends early."""
_MANIFEST_FAULTS = (
    KeyError, TypeError, ValueError, AttributeError, RecursionError, *_UNPACKING_FAULTS
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Item:
    """A file in an archive, as its manifest tells it."""

    bytes: int
    sha256: str


@dataclass(frozen=True, slots=True)
class Manifest:
    """What an archive says of itself."""

    written_by: str
    made_at: str
    entries: int
    last_entry: str
    files: Mapping[str, Item]


# --- writing ---------------------------------------------------------------------------------


class ArchiveWriter:
    """Writes an archive, file by file; the manifest comes last, when all is known."""

    def __init__(self, file: IO[bytes], made_at: datetime, written_by: str) -> None:
        self._zip = zipfile.ZipFile(file, "w", zipfile.ZIP_DEFLATED)
        self._made_at = made_at
        self._written_by = written_by
        self._items: dict[str, Item] = {}

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        if error is not None:
            # What was begun is thrown away by whoever opened the file; it need not be whole.
            with suppress(OSError, ValueError):
                self._zip.close()

    def add_lines(self, name: str, lines: Iterable[str]) -> None:
        """Add a text file, line by line."""
        self._add(name, (line.encode() + b"\n" for line in lines))

    def add_bytes(self, name: str, data: bytes) -> None:
        """Add a file that is at hand."""
        self._add(name, [data])

    def add_file(self, name: str, path: Path) -> None:
        """Add a file from the disk; pictures are packed already and go in as they are."""
        with path.open("rb") as file:
            self._add(name, iter(lambda: file.read(_CHUNK), b""), zipfile.ZIP_STORED)

    def finish(self, entries: int, last_entry: str, readme: str) -> None:
        """Add what explains the archive, and close it."""
        self.add_bytes(README, readme.encode())
        manifest = {
            "format": FORMAT,
            "version": FORMAT_VERSION,
            "written_by": self._written_by,
            "made_at": self._made_at.isoformat(),
            "entries": entries,
            "last_entry": last_entry,
            "files": {
                name: {"bytes": item.bytes, "sha256": item.sha256}
                for name, item in self._items.items()
            },
        }
        text = json.dumps(manifest, indent=1, ensure_ascii=False)
        self._add(MANIFEST, [text.encode()])
        self._zip.close()

    def _add(self, name: str, chunks: Iterable[bytes], packing: int = zipfile.ZIP_DEFLATED) -> None:
        # The moment of the archive stands for every file, so that the same build exported at
        # the same moment gives the same bytes.
        info = zipfile.ZipInfo(name, self._made_at.timetuple()[:6])
        info.compress_type = packing
        info.external_attr = 0o644 << 16
        digest, length = hashlib.sha256(), 0
        with self._zip.open(info, "w", force_zip64=True) as file:
            for chunk in chunks:
                file.write(chunk)
                digest.update(chunk)
                length += len(chunk)
        self._items[name] = Item(length, digest.hexdigest())


# --- reading ---------------------------------------------------------------------------------


class Archive:
    """An archive that was opened and whose table of contents was checked.

    What it holds is only trusted file by file, as each is read to its end.
    """

    def __init__(self, packed: zipfile.ZipFile, manifest: Manifest) -> None:
        self._zip = packed
        self.manifest = manifest

    @classmethod
    @contextmanager
    def open(cls, path: Path) -> Iterator[Self]:
        """Open an archive.

        Raises
        ------
        Damaged
            When it is cut short, or says other things of itself than it holds.
        BadInput
            When it is something else, or holds what no archive has.
        Newer
            When a newer bareshell wrote it in a form that this one does not know.
        """
        try:
            with zipfile.ZipFile(path) as packed:
                infos = _checked_infos(packed)
                yield cls(packed, _manifest(packed, infos))
        except (zipfile.BadZipFile, RuntimeError) as error:
            raise Damaged(
                f"'{path.name}' is cut short, or is no archive", "copy it again, or use another"
            ) from error

    @property
    def photos(self) -> tuple[str, ...]:
        """The names of the photographs, without their folder."""
        names = (name for name in self.manifest.files if name.startswith("photos/"))
        return tuple(name.removeprefix("photos/") for name in names)

    def lines(self) -> Generator[str]:
        """Yield the lines of the record; the last comes only when all were as written."""
        rest = b""
        with closing(self._chunks(JOURNAL)) as chunks:
            for chunk in chunks:
                *whole, rest = (rest + chunk).split(b"\n")
                if len(rest) > MOST_LINE_BYTES:
                    raise Damaged(f"a line of '{JOURNAL}' has no end", "use another archive")
                for line in whole:
                    yield _text(line)
        if rest:
            raise Damaged(f"the last line of '{JOURNAL}' is cut short", "use another archive")

    def copy_photo(self, name: str, to: IO[bytes]) -> None:
        """Copy a photograph out, checking it on the way."""
        with closing(self._chunks(f"photos/{name}")) as chunks:
            for chunk in chunks:
                to.write(chunk)

    def _chunks(self, name: str) -> Generator[bytes]:
        """Yield a file piece by piece, never more of it than the manifest says."""
        item = self.manifest.files[name]
        digest, length = hashlib.sha256(), 0
        try:
            with self._zip.open(name) as file:
                while chunk := file.read(_CHUNK):
                    length += len(chunk)
                    if length > item.bytes:
                        break
                    digest.update(chunk)
                    yield chunk
        except _UNPACKING_FAULTS as error:
            raise Damaged(
                f"'{name}' in the archive is spoilt", "copy it again, or use another"
            ) from error
        if length != item.bytes or digest.hexdigest() != item.sha256:
            raise Damaged(
                f"'{name}' in the archive is not what was written", "copy it again, or use another"
            )


def _checked_infos(packed: zipfile.ZipFile) -> dict[str, zipfile.ZipInfo]:
    """Check names and sizes before anything is unpacked."""
    found: dict[str, zipfile.ZipInfo] = {}
    for info in packed.infolist():
        name = info.filename
        known = name in (MANIFEST, JOURNAL, README, *EXTRA_FILES)
        if not known and not (PHOTO.fullmatch(name) and ".." not in name):
            raise BadInput(
                "archive", f"it holds '{name[:80]}', which no archive of a build does", ""
            )
        kind = stat.S_IFMT(info.external_attr >> 16)
        if name in found or info.flag_bits & 1 or kind not in (0, stat.S_IFREG):
            raise BadInput("archive", f"'{name}' in it is twice, locked or no plain file", "")
        found[name] = info
        most = {MANIFEST: MOST_MANIFEST_BYTES, JOURNAL: MOST_JOURNAL_BYTES}
        if info.file_size > most.get(name, MOST_PHOTO_BYTES):
            raise BadInput("archive", f"'{name}' in it is far too large", "")
    if sum(info.file_size for info in found.values()) > MOST_BYTES:
        raise BadInput("archive", "what it holds is far too large", "")
    for name in (MANIFEST, JOURNAL):
        if name not in found:
            raise BadInput("archive", f"it has no '{name}'", "choose an archive made by bareshell")
    return found


def _manifest(packed: zipfile.ZipFile, infos: Mapping[str, zipfile.ZipInfo]) -> Manifest:
    try:
        with packed.open(MANIFEST) as file:
            told = json.loads(file.read(MOST_MANIFEST_BYTES))
        if told["format"] != FORMAT:
            raise BadInput("archive", "it is an archive of something else", "choose another")
        if told["version"] > FORMAT_VERSION:
            # Checked before the rest is read: a newer form may have another shape.
            raise Newer("this archive", str(told["written_by"]), _this_version())
        manifest = _told(told)
    except _MANIFEST_FAULTS as error:
        raise Damaged(
            f"'{MANIFEST}' in the archive is spoilt", "copy it again, or use another"
        ) from error
    stated = {name: item.bytes for name, item in manifest.files.items()}
    held = {name: info.file_size for name, info in infos.items() if name != MANIFEST}
    if stated != held:
        odd = min(set(stated.items()) ^ set(held.items()))[0]
        raise Damaged(
            f"the archive and its list of contents differ, first at '{odd}'",
            "copy it again, or use another",
        )
    return manifest


def _told(told: dict[str, Any]) -> Manifest:
    files = {
        str(name): Item(int(item["bytes"]), str(item["sha256"]))
        for name, item in told["files"].items()
    }
    return Manifest(
        str(told["written_by"]),
        str(told["made_at"]),
        int(told["entries"]),
        str(told["last_entry"]),
        files,
    )


def _this_version() -> str:
    from bareshell import __version__

    return __version__


def _text(line: bytes) -> str:
    try:
        return line.decode()
    except UnicodeDecodeError as error:
        raise Damaged(f"a line of '{JOURNAL}' is no text", "use another archive") from error
