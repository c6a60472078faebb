"""Photographs from outside: what is kept of them, and what is never let in."""

from __future__ import annotations

import io
import random
import struct
import sys
import zlib
from pathlib import Path
from typing import Any

import pytest
from PIL import Image, ImageCms

from bareshell.errors import BadInput
from bareshell.io.photos import MOST_PIXELS, clean, thumbnail

SAMPLES = Path(__file__).with_name("samples")
ORIENTATION, MAKER, IFD, PLACE, TAKEN, ZONE = 0x0112, 0x010F, 0x8769, 0x8825, 0x9003, 0x9011


def _half_red(mode: str = "RGB") -> Image.Image:
    """White, its left half red, so that turning and mirroring show."""
    image = Image.new(mode, (96, 64), "white")
    image.paste("red", (0, 0, 48, 64))
    return image


def _packed(image: Image.Image, kind: str, **rest: Any) -> bytes:
    file = io.BytesIO()
    image.save(file, kind, **rest)
    return file.getvalue()


def _seen(data: bytes) -> Image.Image:
    image = Image.open(io.BytesIO(data))
    image.load()
    return image


def _is_red(pixel: Any) -> bool:
    red, green, blue = pixel[:3]
    return bool(red > 200 and green < 60 and blue < 60)


def _exif(orientation: int = 1) -> Image.Exif:
    """All that a phone writes about where, when and with what."""
    exif = Image.Exif()
    exif[ORIENTATION] = orientation
    exif[MAKER] = "an invented phone"
    exif.get_ifd(IFD)[TAKEN] = "2026:03:04 19:05:00"
    place = exif.get_ifd(PLACE)
    place[1], place[2], place[3], place[4] = "N", (51.0, 30.0, 0.0), "W", (0.0, 7.0, 0.0)
    return exif


# --- what is kept ----------------------------------------------------------------------------


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP", "TIFF"])
def test_the_place_and_the_phone_stay_behind(kind: str) -> None:
    data = _packed(_half_red(), kind, exif=_exif())
    assert b"invented phone" in data
    kept = clean(data)
    assert b"invented phone" not in kept.data
    assert b"Exif" not in kept.data
    assert b"2026:03:04" not in kept.data
    seen = _seen(kept.data)
    assert not seen.getexif()
    assert not {"exif", "xmp", "icc_profile", "comment"} & seen.info.keys()
    assert seen.size == (kept.width, kept.height) == (96, 64)
    assert _is_red(seen.getpixel((10, 30)))
    assert not _is_red(seen.getpixel((80, 30)))


def test_a_heic_from_a_phone_becomes_a_jpeg() -> None:
    kept = clean((SAMPLES / "phone.heic").read_bytes())
    assert (kept.content_type, kept.ending) == ("image/jpeg", "jpg")
    seen = _seen(kept.data)
    assert seen.format == "JPEG"
    assert seen.size == (96, 64)
    assert _is_red(seen.getpixel((10, 30)))
    assert b"invented phone" not in kept.data
    assert str(kept.taken_at) == "2026-03-04 19:05:00"


RED_CORNER = {1: (10, 30), 2: (85, 30), 3: (85, 30), 4: (10, 30),
              5: (30, 10), 6: (30, 10), 7: (30, 85), 8: (30, 85)}  # fmt: skip
"""Where the red half lies once a picture of each orientation is upright (TIFF 6.0 and Exif 2.32,
tag 274: the meaning of row 0 and column 0; from memory)."""


@pytest.mark.parametrize("orientation", sorted(RED_CORNER))
def test_it_is_turned_as_it_was_held(orientation: int) -> None:
    kept = clean(_packed(_half_red(), "JPEG", exif=_exif(orientation), quality=95))
    seen = _seen(kept.data)
    assert seen.size == ((96, 64) if orientation < 5 else (64, 96))
    red = RED_CORNER[orientation]
    assert _is_red(seen.getpixel(red))
    other = (seen.width - 1 - red[0], seen.height - 1 - red[1])
    assert not _is_red(seen.getpixel(other))


def test_what_a_phone_hides_behind_the_picture_stays_behind() -> None:
    """A moving picture or a second one is written after the end of the first."""
    data = _packed(_half_red(), "JPEG") + b"\x00\x00\x00\x18ftypmp42 hidden video with a place"
    assert b"hidden" not in clean(data).data


def test_the_camera_says_when() -> None:
    exif = _exif()
    assert str(clean(_packed(_half_red(), "JPEG", exif=exif)).taken_at) == "2026-03-04 19:05:00"
    exif.get_ifd(IFD)[ZONE] = "+01:00"
    taken = clean(_packed(_half_red(), "JPEG", exif=exif)).taken_at
    assert taken is not None
    assert taken.isoformat() == "2026-03-04T19:05:00+01:00"
    assert clean(_packed(_half_red(), "JPEG")).taken_at is None
    exif.get_ifd(IFD)[TAKEN] = "0000:00:00 00:00:00"
    assert clean(_packed(_half_red(), "JPEG", exif=exif)).taken_at is None


@pytest.mark.parametrize("mode", ["1", "L", "LA", "P", "RGB", "RGBA", "CMYK", "I;16", "YCbCr"])
def test_any_kind_of_pixel_becomes_a_plain_picture(mode: str) -> None:
    image = (
        Image.new("L", (40, 30), 200).convert(mode) if mode != "I;16" else Image.new(mode, (40, 30))
    )
    kept = clean(_packed(image, "TIFF" if mode in ("CMYK", "YCbCr") else "PNG"))
    assert _seen(kept.data).mode in ("L", "RGB")
    assert (kept.width, kept.height) == (40, 30)


def test_see_through_parts_become_white() -> None:
    image = Image.new("RGBA", (40, 30), (255, 0, 0, 0))
    assert _seen(clean(_packed(image, "PNG")).data).getpixel((5, 5)) == (255, 255, 255)


def test_colours_of_another_profile_are_brought_to_the_standard_ones() -> None:
    """A profile that swaps nothing changes nothing, and is gone; one that cannot be read too."""
    profile = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    for icc in (profile, b"no profile"):
        kept = clean(_packed(_half_red(), "PNG", icc_profile=icc))
        assert _is_red(_seen(kept.data).getpixel((10, 30)))
        assert b"iCCP" not in kept.data


def test_the_same_picture_is_kept_the_same() -> None:
    data = _packed(_half_red(), "JPEG")
    assert clean(data) == clean(data)


def test_a_small_copy_is_small() -> None:
    noise = Image.effect_noise((1600, 1200), 60).convert("RGB")
    small = _seen(thumbnail(clean(_packed(noise, "JPEG")).data))
    assert small.size == (480, 360)
    tall = _seen(thumbnail(clean(_packed(noise.rotate(90, expand=True), "PNG")).data))
    assert tall.size == (360, 480)
    tiny = _seen(thumbnail(clean(_packed(_half_red(), "PNG")).data))
    assert tiny.size == (96, 64), "never larger than the picture"


# --- what is not let in ----------------------------------------------------------------------


def _huge_png(width: int, height: int) -> bytes:
    """A few bytes that claim to be a picture of any size (PNG specification, section 11.2.2)."""
    head = struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)
    chunk = b"IHDR" + head
    return (
        b"\x89PNG\r\n\x1a\n"
        + struct.pack(">I", len(head))
        + chunk
        + struct.pack(">I", zlib.crc32(chunk))
        + b"\x00\x00\x00\x00IDAT"
    )


@pytest.mark.parametrize(
    ("size", "says"),
    [
        ((20_000, 15_000), "120 million"),
        ((12_000, 10_001), "120 million"),
        ((60_000, 60_000), "120"),
    ],
)
def test_a_picture_of_too_many_pixels_is_refused_unopened(size: tuple[int, int], says: str) -> None:
    data = _huge_png(*size)
    assert size[0] * size[1] > MOST_PIXELS
    with pytest.raises(BadInput, match="million pixels") as caught:
        clean(data)
    assert "120 million" in caught.value.remedy


def test_a_file_of_too_many_bytes_is_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    from bareshell.io import photos

    monkeypatch.setattr(photos, "MOST_BYTES", 100)
    with pytest.raises(BadInput, match="MB"):
        clean(_packed(_half_red(), "JPEG"))


@pytest.mark.parametrize(
    "data",
    [
        b"",
        b"hello",
        b"<svg xmlns='http://www.w3.org/2000/svg'><script>alert(1)</script></svg>",
        b"GIF89a" + bytes(50),
        b"%PDF-1.7",
        b"\x89PNG\r\n\x1a\n",
        b"\xff\xd8\xff",
        b"\x00\x00\x00\x18ftypheic" + bytes(40),
        b"%!PS-Adobe-3.0 EPSF-3.0\n",
    ],
)
def test_what_is_no_photograph_is_refused(data: bytes) -> None:
    with pytest.raises(BadInput, match=r"^photo: "):
        clean(data)


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP"])
def test_a_picture_cut_short_is_refused(kind: str) -> None:
    noise = Image.effect_noise((300, 200), 60).convert("RGB")
    data = _packed(noise, kind)
    with pytest.raises(BadInput, match=r"cut short|no picture"):
        clean(data[: len(data) // 2])


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP", "TIFF"])
def test_a_spoilt_picture_is_refused_or_read_and_never_crashes(kind: str) -> None:
    chance = random.Random(4)
    whole = _packed(_half_red(), kind, exif=_exif())
    for _ in range(60):
        try:
            kept = clean(_spoilt(whole, chance))
        except BadInput:
            continue
        assert b"invented phone" not in kept.data


def test_a_heic_that_kills_its_reader_does_not_kill_us() -> None:
    """The sample ended the library, and the process that called it, when it was found."""
    with pytest.raises(BadInput):
        clean((SAMPLES / "spoilt.heic").read_bytes())


def test_a_reader_that_dies_is_told_as_a_spoilt_picture(monkeypatch: pytest.MonkeyPatch) -> None:
    whole = (SAMPLES / "phone.heic").read_bytes()
    monkeypatch.setattr(sys, "executable", "/bin/false")
    with pytest.raises(BadInput, match="spoilt as it is"):
        clean(whole)


def _spoilt(whole: bytes, chance: random.Random) -> bytes:
    data = bytearray(whole)
    for _ in range(chance.randint(1, 8)):
        data[chance.randrange(len(data))] = chance.randrange(256)
    return bytes(data)
