"""Photographs from a phone: checked, turned upright, stripped of where they were taken.

A picture is decoded and written anew as it comes in. That turns it as it was held, leaves out
everything the phone hid in the file (the place, the phone, moving pictures behind the still
one), and makes a file that every browser shows.
"""

from __future__ import annotations

import hashlib
import io
from contextlib import suppress
from datetime import datetime
from typing import TYPE_CHECKING

from bareshell.errors import BadInput
from bareshell.io.photo_process import clean_apart, looks_like_heic
from bareshell.io.picture import Picture

if TYPE_CHECKING:
    from PIL.Image import Image

MOST_BYTES = 80_000_000
MOST_PIXELS = 120_000_000
"""Decoding takes three bytes of memory a pixel, and the machine may be a small one."""

THUMBNAIL_PIXELS = 480
QUALITY = 90

# Only these readers are ever let at a file from outside.
_FORMATS: tuple[str, ...] = ("JPEG", "PNG", "WEBP", "TIFF")
_EXIF_TAKEN, _EXIF_TAKEN_ZONE, _EXIF_IFD = 0x9003, 0x9011, 0x8769


def clean(data: bytes) -> Picture:
    """Make of an uploaded file the picture that is kept.

    Parameters
    ----------
    data : bytes
        A JPEG, PNG, WebP, TIFF or HEIC file.

    Raises
    ------
    BadInput
        When it is no such picture, is cut short, or is too large to be decoded here.
    """
    if len(data) > MOST_BYTES:
        raise BadInput(
            "photo",
            f"it has {len(data) / 1e6:.0f} MB",
            f"send one of at most {MOST_BYTES / 1e6:.0f} MB",
        )
    return clean_apart(data) if looks_like_heic(data) else clean_here(data)


def clean_here(data: bytes) -> Picture:
    """Do what ``clean`` does, in this process."""
    with _opened(data) as image:
        taken_at = _taken_at(image)
        upright = _upright(image)
    keeps_png = image.format == "PNG"
    packed = io.BytesIO()
    if keeps_png:
        upright.save(packed, "PNG", optimize=True)
    else:
        upright.save(packed, "JPEG", quality=QUALITY, optimize=True, progressive=True)
    kept = packed.getvalue()
    return Picture(
        kept,
        "image/png" if keeps_png else "image/jpeg",
        "png" if keeps_png else "jpg",
        upright.width,
        upright.height,
        hashlib.sha256(kept).hexdigest(),
        taken_at,
    )


def thumbnail(data: bytes) -> bytes:
    """Make a small JPEG of a picture that was kept, its long side at most 480 pixels.

    Raises
    ------
    BadInput
        When the file is no picture any more.
    """
    with _opened(data) as image:
        image.draft("RGB", (THUMBNAIL_PIXELS, THUMBNAIL_PIXELS))
        small = _upright(image)
    small.thumbnail((THUMBNAIL_PIXELS, THUMBNAIL_PIXELS))
    packed = io.BytesIO()
    small.save(packed, "JPEG", quality=80, optimize=True)
    return packed.getvalue()


def _opened(data: bytes) -> Image:
    """Read a picture's head, and refuse it before its pixels are unpacked."""
    from PIL import Image

    Image.init()
    Image.MAX_IMAGE_PIXELS = MOST_PIXELS
    formats = _FORMATS
    if looks_like_heic(data):
        import pi_heif

        pi_heif.register_heif_opener(thumbnails=False)
        formats = ("HEIF",)
    try:
        image = Image.open(io.BytesIO(data), formats=formats)
    except (Image.DecompressionBombError, Image.DecompressionBombWarning) as error:
        raise _too_large(f"more than {MOST_PIXELS / 1e6:.0f}") from error
    except Exception as error:  # bytes made to harm let these libraries raise anything
        raise BadInput(
            "photo", "it is no picture that can be read", "send a JPEG, PNG, WebP or HEIC"
        ) from error
    if image.width * image.height > MOST_PIXELS:
        raise _too_large(f"{image.width * image.height / 1e6:.0f}")
    return image


def _too_large(millions: str) -> BadInput:
    return BadInput(
        "photo",
        f"it has {millions} million pixels",
        f"send it smaller, at most {MOST_PIXELS / 1e6:.0f} million pixels",
    )


def _upright(image: Image) -> Image:
    """Decode a picture, turn it as it was held, and bring it to plain colours."""
    from PIL import Image as Images
    from PIL import ImageOps

    try:
        image.load()
        plain = _on_white(_standard_colours(ImageOps.exif_transpose(image)))
    except Exception as error:  # as above
        raise BadInput(
            "photo", "it is cut short or spoilt", "send it again, or take it anew"
        ) from error
    # A fresh picture: whatever else the library read from the file stays behind.
    fresh = Images.new(plain.mode, plain.size)
    fresh.paste(plain)
    return fresh


def _on_white(image: Image) -> Image:
    from PIL import Image as Images

    if image.mode in ("L", "RGB"):
        return image
    if image.mode in ("RGBA", "LA", "PA") or "transparency" in image.info:
        seen = image.convert("RGBA")
        white = Images.new("RGB", image.size, "white")
        white.paste(seen, mask=seen.getchannel("A"))
        return white
    return image.convert("RGB")


def _standard_colours(image: Image) -> Image:
    """Bring a wide-gamut picture to sRGB: its profile names the camera and is left out."""
    from PIL import ImageCms

    profile = image.info.get("icc_profile")
    if not profile or image.mode not in ("RGB", "RGBA"):
        return image
    with suppress(ImageCms.PyCMSError, OSError, ValueError):
        source = ImageCms.ImageCmsProfile(io.BytesIO(profile))
        converted = ImageCms.profileToProfile(
            image, source, ImageCms.createProfile("sRGB"), outputMode=image.mode
        )
        if converted is not None:
            return converted
    return image


def _taken_at(image: Image) -> datetime | None:
    """Read when the camera says the picture was taken."""
    with suppress(Exception):  # a camera may write anything there, and then it is not known
        exif = image.getexif().get_ifd(_EXIF_IFD)
        taken = datetime.strptime(str(exif[_EXIF_TAKEN]), "%Y:%m:%d %H:%M:%S")  # noqa: DTZ007
        zone = str(exif.get(_EXIF_TAKEN_ZONE, "")).strip("\0 ")
        return datetime.fromisoformat(f"{taken.isoformat()}{zone}") if zone else taken
    return None
