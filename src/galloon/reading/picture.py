"""Opens an image file safely: what is no picture, too large, broken or disguised is refused by name."""

from __future__ import annotations

import warnings
from dataclasses import dataclass
from io import BytesIO
from pathlib import Path
from typing import IO, Final

import numpy as np
from PIL import Image, ImageOps, UnidentifiedImageError

from galloon.errors import BadInput, Fault, show
from galloon.reading.arrays import Bytes
from galloon.said import said

#: Formats opened; all others are refused by name.
FORMATS: Final = ("PNG", "JPEG", "TIFF", "WEBP", "BMP", "GIF", "PPM")
#: Largest picture decoded, and largest kept (px); one byte each for red, green and blue.
MOST_DECODED: Final = 80_000_000
MOST_KEPT: Final = 16_000_000
#: Largest file read (bytes).
MOST_BYTES: Final = 300_000_000
#: Dots per inch that programs write when they know none.
_UNSAID: Final = (1.0, 72.0, 96.0)
_DEEP: Final = ("I;16", "I;16B", "I;16L", "I;16N", "I", "F")
#: What decoding a broken file may raise.
_BROKEN: Final = (OSError, ValueError, SyntaxError, MemoryError, OverflowError, TypeError, EOFError, KeyError)


@dataclass(frozen=True)
class Picture:
    """Upright RGB pixels (HxWx3 uint8), and the file's own dots per inch where it says so.

    ``shrunk`` is how many file pixels one kept pixel spans. Nothing else of the file is kept.
    """

    pixels: Bytes
    dpi: float | None
    shrunk: float
    notes: tuple[str, ...]

    def mm_per_px(self, dpi: float) -> float:
        """Scale of the kept pixels when the file has ``dpi`` dots per inch."""
        return 25.4 / dpi * self.shrunk


def load_picture(path: str | Path) -> Picture:
    """Decode a file. Raises BadInput with one fault that names what is wrong with it."""
    place = Path(path)
    _check_file(place)
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        image = _open(place)
        with image:
            return _decoded(place, image)


def see_through(raw: bytes, name: str) -> Bytes:
    """What an image file shows as HxWx4 uint8: red, green, blue and how solid it is. Raises BadInput as above."""
    place = Path(name)
    if not raw:
        raise _bad(place, "file", "0 bytes", said("is empty"))
    _check_kind(place, raw[:512])
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        with _open(place, BytesIO(raw)) as image:
            _check_size(place, image)
            try:
                image.load()
                upright = ImageOps.exif_transpose(image) or image
                deep = upright.mode in _DEEP
                solid = _from_deep(upright) if deep else upright
                return np.ascontiguousarray(np.asarray(solid.convert("RGBA"), np.uint8))
            except _BROKEN as error:
                raise _bad(
                    place, "format", str(error), said("is cut short or broken"), said("Save it again.")
                ) from None


def _bad(place: Path, key: str, seen: str, rule: str, hint: str = "") -> BadInput:
    return BadInput((Fault(show(str(place), 120), None, key, show(seen), rule, hint),))


def _check_file(place: Path) -> None:
    try:
        if not place.exists():
            raise _bad(place, "file", "", said("there is no such file"))
        if not place.is_file():
            raise _bad(place, "file", "", said("is not a file"))
        size = place.stat().st_size
        with place.open("rb") as stream:
            head = stream.read(512)
    except (OSError, ValueError) as error:
        raise _bad(place, "file", str(error), said("cannot be opened")) from None
    if size == 0:
        raise _bad(place, "file", "0 bytes", said("is empty"))
    if size > MOST_BYTES:
        raise _bad(
            place, "file", f"{size / 1e6:.0f} MB", said("is larger than 300 MB"), said("Scan at 300 dots per inch.")
        )
    _check_kind(place, head)


def _check_kind(place: Path, head: bytes) -> None:
    text = head.lstrip(b"\xef\xbb\xbf \t\r\n").lower()
    if text.startswith((b"<?xml", b"<svg", b"<!doctype", b"<html", b"<!--")):
        raise _bad(
            place,
            "format",
            "SVG or other markup",
            said("is a drawing, not a scan"),
            said("Save a scan or photo as PNG or JPEG."),
        )
    if head.startswith(b"%PDF"):
        raise _bad(place, "format", "PDF", said("is a document, not a picture"), said("Save the scan as PNG or JPEG."))
    if head[4:8] == b"ftyp":
        raise _bad(
            place, "format", "HEIC, AVIF or film", said("cannot be opened"), said("Save the photo as JPEG or PNG.")
        )


def _open(place: Path, source: IO[bytes] | None = None) -> Image.Image:
    try:  # an MPO is opened as the JPEG it begins as; asked for by name it would be a KeyError
        return Image.open(source or place, formats=[one for one in FORMATS if one != "MPO"])
    except UnidentifiedImageError:
        raise _bad(place, "format", place.suffix, said("is not a picture that can be opened"), _save_as()) from None
    except Image.DecompressionBombError:
        raise _too_large(place, "over 178 million pixels") from None
    except (OSError, ValueError, SyntaxError, MemoryError, OverflowError, TypeError) as error:
        raise _bad(place, "format", str(error), said("is broken and cannot be opened"), _save_as()) from None


def _save_as() -> str:
    return said("Save it as PNG, JPEG or TIFF.")


def _too_large(place: Path, seen: str) -> BadInput:
    return _bad(place, "size", seen, said("is larger than 80 million pixels"), said("Scan at 300 dots per inch."))


def _check_size(place: Path, image: Image.Image) -> None:
    wide, tall = image.size
    if wide * tall > MOST_DECODED:
        raise _too_large(place, f"{wide} x {tall}")
    if getattr(image, "is_animated", False) and image.format in ("GIF", "WEBP", "PNG"):
        raise _bad(
            place, "format", f"{getattr(image, 'n_frames', 2)} frames", said("is animated"), said("Save one frame.")
        )


def _decoded(place: Path, image: Image.Image) -> Picture:
    _check_size(place, image)
    wide, tall = image.size
    dpi, notes = _dots_per_inch(image)
    try:
        if image.format in ("JPEG", "MPO") and wide * tall > 2 * MOST_KEPT:
            image.draft("RGB", (wide // 2, tall // 2))
        image.load()
        upright = ImageOps.exif_transpose(image) or image
        flat = _flattened(upright)
    except _BROKEN as error:
        raise _bad(
            place, "format", str(error), said("is cut short or broken"), said("Scan or copy it again.")
        ) from None
    factor = int(np.ceil(np.sqrt(flat.size[0] * flat.size[1] / MOST_KEPT)))
    if factor > 1:
        flat = flat.reduce(factor)
    shrunk = float(np.sqrt(wide * tall / (flat.size[0] * flat.size[1])))
    return Picture(np.ascontiguousarray(np.asarray(flat, np.uint8)), dpi, shrunk, notes)


def _dots_per_inch(image: Image.Image) -> tuple[float | None, tuple[str, ...]]:
    try:
        across, down = (float(v) for v in image.info.get("dpi", (0, 0)))
    except (TypeError, ValueError, ZeroDivisionError):
        return None, ()
    if not (np.isfinite(across) and np.isfinite(down)) or not 25 <= across <= 15000:
        return None, ()
    if abs(across / down - 1 if down else 1.0) > 0.01:
        return None, ("The file gives different dots per inch across and down; they were not used.",)
    if round(across, 1) in _UNSAID:
        return None, ()
    near = round(across)
    return (float(near) if abs(across - near) < 0.02 else across), ()


def _flattened(image: Image.Image) -> Image.Image:
    """Eight-bit RGB without transparency."""
    if image.mode in _DEEP:
        return _from_deep(image)
    if image.mode in ("RGBA", "LA", "PA", "RGBa", "La") or "transparency" in image.info:
        return _on_ground(image.convert("RGBA"))
    return image.convert("RGB")


def _from_deep(image: Image.Image) -> Image.Image:
    values = np.asarray(image, np.float64)
    values = np.where(np.isfinite(values), values, 0.0)
    top = (
        1.0 if image.mode == "F" and values.max(initial=0) <= 1 else 255.0 if values.max(initial=0) <= 255 else 65535.0
    )
    grey = np.clip(values / top * 255, 0, 255).astype(np.uint8)
    return Image.fromarray(np.repeat(grey[..., None], 3, axis=2))


def _on_ground(image: Image.Image) -> Image.Image:
    """Transparent parts filled with black or white, whichever the opaque parts stand out from more."""
    alpha = np.asarray(image.getchannel("A"))
    grey = np.asarray(image.convert("L"))
    solid = alpha > 128
    dark = bool(solid.any() and grey[solid].mean() < 128)
    ground = Image.new("RGBA", image.size, (255, 255, 255, 255) if dark else (0, 0, 0, 255))
    return Image.alpha_composite(ground, image).convert("RGB")
