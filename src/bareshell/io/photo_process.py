"""Opening a HEIC file in a process of its own.

Some spoilt files end the library that reads it, and the process with it (one of sixty with a few
bytes altered did when this was written); a picture from a phone must not end the server. The
other readers have been through more, and are let at a file directly.
"""

from __future__ import annotations

import json
import subprocess
import sys
from contextlib import suppress
from datetime import datetime

from bareshell.errors import BadInput
from bareshell.io.picture import Picture

MOST_SECONDS = 60
MOST_MEMORY_BYTES = 3_000_000_000

_BRANDS = (b"heic", b"heix", b"heim", b"heis", b"hevc", b"hevx", b"mif1", b"msf1")


def looks_like_heic(data: bytes) -> bool:
    r"""Whether a file begins as HEIC files do (ISO/IEC 14496-12, file type box; from memory).

    Examples
    --------
    >>> looks_like_heic(b"\x00\x00\x00\x18ftypheic")
    True
    """
    return data[4:8] == b"ftyp" and data[8:12] in _BRANDS


def clean_apart(data: bytes) -> Picture:
    """Clean a picture in a process of its own, which may die of it.

    Raises
    ------
    BadInput
        When it cannot be read, kills its reader, or takes too long.
    """
    try:
        done = subprocess.run(  # noqa: S603 - this very module, nothing from outside
            [sys.executable, "-m", __name__],
            input=data,
            capture_output=True,
            timeout=MOST_SECONDS,
            check=True,
        )
    except (subprocess.CalledProcessError, subprocess.TimeoutExpired) as error:
        raise BadInput(
            "photo", "it cannot be opened, spoilt as it is", "send it again, or as a JPEG"
        ) from error
    line, _, packed = done.stdout.partition(b"\n")
    told = json.loads(line)
    if "problem" in told:
        raise BadInput(told["field"], told["problem"], told["remedy"])
    taken = told.pop("taken_at")
    taken_at = None if taken is None else datetime.fromisoformat(taken)
    return Picture(data=packed, taken_at=taken_at, **told)


def _main() -> None:
    """Read a picture from standard input, write what is kept of it to standard output."""
    from bareshell.io.photos import clean_here

    _limit_memory()
    try:
        picture = clean_here(sys.stdin.buffer.read())
    except BadInput as error:
        told: dict[str, object] = {
            "field": error.field,
            "problem": error.problem,
            "remedy": error.remedy,
        }
        packed = b""
    else:
        packed = picture.data
        told = {
            "content_type": picture.content_type,
            "ending": picture.ending,
            "width": picture.width,
            "height": picture.height,
            "sha256": picture.sha256,
            "taken_at": picture.taken_at and picture.taken_at.isoformat(),
        }
    sys.stdout.buffer.write(json.dumps(told).encode() + b"\n" + packed)


def _limit_memory() -> None:
    with suppress(ImportError, ValueError, OSError):  # not every system can
        import resource

        resource.setrlimit(resource.RLIMIT_AS, (MOST_MEMORY_BYTES, MOST_MEMORY_BYTES))


if __name__ == "__main__":
    _main()
