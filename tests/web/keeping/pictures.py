"""Pictures made up for tests, with Pillow as a phone or a scanner would write them."""

from __future__ import annotations

import struct
import zlib
from io import BytesIO

from PIL import Image


def jpeg(colour: str = "navy", size: tuple[int, int] = (1200, 900)) -> bytes:
    """A photograph with the place it was taken at hidden in it, as phones do."""
    image = Image.new("RGB", size, colour)
    exif = Image.Exif()
    exif[0x0110] = "Invented phone"
    exif.get_ifd(0x8825)[2] = (51.0, 30.0, 0.0)  # GPS latitude, by the Exif 2.32 tag table
    out = BytesIO()
    image.save(out, "JPEG", exif=exif)
    return out.getvalue()


def huge_png(width: int = 20_000, height: int = 15_000) -> bytes:
    """A PNG of 300 million grey pixels in a few hundred kilobytes (ISO/IEC 15948, chunks)."""

    def chunk(kind: bytes, data: bytes) -> bytes:
        check = zlib.crc32(kind + data)
        return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", check)

    line = b"\0" * (1 + width // 8)
    packer = zlib.compressobj(9)
    packed = b"".join(packer.compress(line) for _ in range(height)) + packer.flush()
    head = struct.pack(">IIBBBBB", width, height, 1, 0, 0, 0, 0)
    return (
        b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head) + chunk(b"IDAT", packed) + chunk(b"IEND", b"")
    )
