"""More files that are not what they seem, and what of a file is kept: neither place nor camera goes anywhere."""

import io
import sqlite3
import struct
import zlib

import numpy as np
import pytest
from click.testing import CliRunner
from PIL import Image
from PIL.PngImagePlugin import PngInfo

from galloon.cli import main
from galloon.errors import BadInput
from galloon.reading import load_picture
from tests.support import lace_kept

RNG = np.random.default_rng(8)
NOISE = RNG.integers(0, 255, (90, 120, 3), np.uint8)


def saved(path, image, **how):
    image.save(path, **how)
    return path


def chunk(kind, data):
    return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))


def with_chunk(png, extra):
    """The PNG with one more chunk after its head."""
    return png[:33] + extra + png[33:]


def plain_png(image=None):
    held = io.BytesIO()
    (image or Image.fromarray(NOISE)).save(held, "PNG")
    return held.getvalue()


def test_sixteen_bits_a_channel_in_colour_are_read(tmp_path):
    # Colour type 2, 16 bits: six bytes a pixel, each row after a filter byte.
    deep = (NOISE.astype(np.uint16) * 257).astype(">u2")
    rows = b"".join(b"\0" + row.tobytes() for row in deep)
    head = struct.pack(">IIBBBBB", 120, 90, 16, 2, 0, 0, 0)
    data = b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head) + chunk(b"IDAT", zlib.compress(rows)) + chunk(b"IEND", b"")
    path = tmp_path / "deep.png"
    path.write_bytes(data)
    assert np.abs(load_picture(path).pixels.astype(int) - NOISE).max() <= 1


def test_inks_keep_their_colours(tmp_path):
    patch = Image.new("RGB", (100, 80), (200, 60, 40))
    for name, how in (("ink.tif", {}), ("ink.jpg", {"quality": 95})):
        pixels = load_picture(saved(tmp_path / name, patch.convert("CMYK"), **how)).pixels
        assert np.abs(pixels.reshape(-1, 3).mean(0) - [200, 60, 40]).max() < 12


@pytest.mark.parametrize(("suffix", "kind"), [("png", "PNG"), ("webp", "WEBP"), ("gif", "GIF")])
def test_moving_pictures_are_refused_in_every_format_that_can_move(tmp_path, suffix, kind):
    frames = [Image.fromarray(np.roll(NOISE, shift, axis=1)) for shift in (0, 30, 60)]
    path = saved(tmp_path / f"film.{suffix}", frames[0], format=kind, save_all=True, append_images=frames[1:])
    with pytest.raises(BadInput, match="is animated"):
        load_picture(path)


@pytest.mark.parametrize("suffix", ["png", "webp", "tif"])
def test_exif_turns_pictures_that_are_no_jpeg_too(tmp_path, suffix):
    exif = Image.Exif()
    exif[0x0112] = 6
    path = saved(tmp_path / f"turned.{suffix}", Image.fromarray(NOISE), exif=exif, lossless=True)
    assert np.array_equal(load_picture(path).pixels, np.rot90(NOISE, -1))


@pytest.mark.parametrize("turn", [0, 9, 255])
def test_a_nonsensical_turn_is_no_turn(tmp_path, turn):
    exif = Image.Exif()
    exif[0x0112] = turn
    assert load_picture(saved(tmp_path / "odd.png", Image.fromarray(NOISE), exif=exif)).pixels.shape == NOISE.shape


def test_a_bomb_in_the_words_of_a_picture_is_not_unfolded(tmp_path):
    # 200 MB of blanks in a compressed comment and in a colour profile: the picture itself is small.
    blanks = zlib.compress(bytes(200_000_000), 9)
    for kind, head in ((b"zTXt", b"Comment\0\0"), (b"iCCP", b"profile\0\0")):
        path = tmp_path / f"{kind.decode()}.png"
        path.write_bytes(with_chunk(plain_png(), chunk(kind, head + blanks)))
        try:
            assert load_picture(path).pixels.shape == NOISE.shape
        except BadInput as error:
            assert path.name in str(error)  # noqa: PT017


@pytest.mark.parametrize("data", [b"<svg onload='alert(1)'/>", b"\xef\xbb\xbf  <?xml version='1.0'?><svg/>", b"GIF89a"])
def test_a_drawing_or_a_bare_head_posing_as_a_scan_is_refused_on_the_command_line(tmp_path, data):
    path = tmp_path / "scan.png"
    path.write_bytes(data)
    done = CliRunner().invoke(main, ["read-lace", str(path), "--dpi", "300"])
    assert done.exit_code == 2
    assert "scan.png" in done.output
    assert "Traceback" not in done.output


def test_every_flipped_byte_of_a_head_is_survived(tmp_path):
    whole = plain_png(Image.fromarray(NOISE[:64, :64]))
    path = tmp_path / "bent.png"
    for place in range(8, 60):
        bent = bytearray(whole)
        bent[place] ^= 0x5A
        path.write_bytes(bytes(bent))
        try:
            load_picture(path)
        except BadInput as error:
            assert "bent.png" in str(error)  # noqa: PT017


def test_what_the_shelf_keeps_of_a_picture_tells_neither_place_nor_camera(tmp_path):
    exif, text = Image.Exif(), PngInfo()
    exif[0x010F], exif[0x9003] = "Imaginary Camera", "2020:01:01 10:00:00"
    exif.get_ifd(0x8825)[2] = (59.0, 12.0, 34.5)
    text.add_text("Author", "Nobody Inparticular")
    scan = lace_kept.drawn("galloon-mirrored")
    path = saved(tmp_path / "scan.png", Image.fromarray(scan.pixels), exif=exif, pnginfo=text)
    shelf, seen = tmp_path / "shelf.db", tmp_path / "seen.png"
    told = ["--dpi", str(lace_kept.DPI), "--onto", "mirrored", "--shelf", str(shelf), "--overlay", str(seen)]
    done = CliRunner().invoke(main, ["read-lace", str(path), *told, "--stretch-length", "40", "--stretch-width", "20"])
    assert done.exit_code == 0, done.output
    assert not Image.open(seen).getexif()
    with sqlite3.connect(shelf) as kept:
        script = "\n".join(kept.iterdump())
    for word in ("Imaginary", "Nobody", "2020:01:01", "Exif", "eXIf"):
        for form in (word, word.encode().hex(), word.encode().hex().upper()):
            assert form not in script
    assert "mirrored" in script
    assert "89504e470d0a1a0a" in script.lower(), "the picture of one repeat is kept as PNG"
