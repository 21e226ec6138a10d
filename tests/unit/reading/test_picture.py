"""What is opened as a picture and what is refused by name: hostile, broken, turned, deep, see-through files."""

import io
import resource
import struct
import subprocess
import sys
import zlib

import numpy as np
import pytest
from PIL import Image
from PIL.PngImagePlugin import PngInfo

from galloon.errors import BadInput
from galloon.reading import load_picture

RNG = np.random.default_rng(5)


def saved(path, image, **how):
    image.save(path, **how)
    return path


def refused(path, says):
    with pytest.raises(BadInput) as caught:
        load_picture(path)
    assert len(caught.value.faults) == 1
    assert says in str(caught.value)


def stripes(mode="RGB", size=(120, 80)):
    grey = np.tile(np.arange(size[0], dtype=np.uint8) * 2, (size[1], 1))
    return Image.fromarray(grey).convert(mode)


def png_of(wide, tall):
    """A well-formed PNG of nothing but zeros, far smaller than what it unfolds to."""
    squeeze = zlib.compressobj(9)
    packed = b"".join(squeeze.compress(bytes(wide + 1)) for _ in range(tall)) + squeeze.flush()

    def chunk(kind, data):
        return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))

    head = struct.pack(">IIBBBBB", wide, tall, 8, 0, 0, 0, 0)
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head) + chunk(b"IDAT", packed) + chunk(b"IEND", b"")


def test_a_file_of_20000_by_20000_pixels_is_refused_within_bounded_memory(tmp_path):
    bomb = tmp_path / "bomb.png"
    bomb.write_bytes(png_of(20000, 20000))
    assert bomb.stat().st_size < 1_000_000
    code = (
        "import sys\nfrom galloon.errors import BadInput\nfrom galloon.reading import load_picture\n"
        "try:\n    load_picture(sys.argv[1])\nexcept BadInput as error:\n    print(error)\n"
    )

    def limited():
        resource.setrlimit(resource.RLIMIT_AS, (3_000_000_000, 3_000_000_000))

    done = subprocess.run(
        [sys.executable, "-c", code, str(bomb)], capture_output=True, text=True, preexec_fn=limited, check=False
    )
    assert "is larger than 80 million pixels" in done.stdout, done.stderr


def test_a_bomb_that_says_it_is_larger_still_is_refused(tmp_path):
    bomb = tmp_path / "bomb.png"
    bomb.write_bytes(png_of(4, 4).replace(struct.pack(">II", 4, 4), struct.pack(">II", 2**30, 2**30)))
    refused(bomb, "bomb.png")


@pytest.mark.parametrize("suffix", ["PNG", "JPEG", "TIFF", "WEBP", "GIF"])
def test_a_file_cut_short_is_refused(tmp_path, suffix):
    held = io.BytesIO()
    Image.fromarray(RNG.integers(0, 255, (200, 200, 3), np.uint8)).save(held, suffix)
    short = tmp_path / f"short.{suffix.lower()}"
    short.write_bytes(held.getvalue()[: len(held.getvalue()) // 3])
    refused(short, "short.")


@pytest.mark.parametrize(
    "text", ["<svg xmlns='http://www.w3.org/2000/svg'/>", "<?xml version='1.0'?><svg/>", "<!-- -->"]
)
def test_svg_posing_as_png_is_told_to_be_a_drawing(tmp_path, text):
    path = tmp_path / "scan.png"
    path.write_text(text)
    refused(path, "is a drawing, not a scan")


def test_other_things_that_are_no_pictures(tmp_path):
    for name, data, says in (
        ("empty.png", b"", "is empty"),
        ("notes.png", b"the lace lies on the glass", "is not a picture that can be opened"),
        ("page.png", b"%PDF-1.7 ...", "is a document, not a picture"),
        ("phone.jpg", b"\0\0\0\x18ftypheic" + bytes(64), "cannot be opened"),
    ):
        path = tmp_path / name
        path.write_bytes(data)
        refused(path, says)
    refused(tmp_path / "none.png", "there is no such file")
    refused(tmp_path, "is not a file")


def test_a_name_with_control_characters_is_told_escaped(tmp_path):
    with pytest.raises(BadInput) as caught:
        load_picture(tmp_path / "scan\x1b[2J.png")
    assert "\x1b" not in str(caught.value)


def test_a_wrong_suffix_is_no_matter(tmp_path):
    path = tmp_path / "scan.png"
    stripes().save(path, "JPEG", quality=95)
    assert load_picture(path).pixels.shape == (80, 120, 3)


def test_an_animated_picture_is_refused(tmp_path):
    path = saved(tmp_path / "film.gif", stripes("P"), save_all=True, append_images=[stripes("L").rotate(180)])
    refused(path, "is animated")


@pytest.mark.parametrize("turn", range(1, 9))
def test_a_photo_turned_by_exif_comes_upright(tmp_path, turn):
    upright = np.zeros((60, 90, 3), np.uint8)
    upright[:20, :30] = 250
    held = Image.fromarray(upright)
    moves = {
        2: Image.Transpose.FLIP_LEFT_RIGHT, 3: Image.Transpose.ROTATE_180, 4: Image.Transpose.FLIP_TOP_BOTTOM,
        5: Image.Transpose.TRANSPOSE, 6: Image.Transpose.ROTATE_90, 7: Image.Transpose.TRANSVERSE,
        8: Image.Transpose.ROTATE_270,
    }  # fmt: skip
    held = held.transpose(moves[turn]) if turn in moves else held
    exif = Image.Exif()
    exif[0x0112] = turn
    path = saved(tmp_path / "turned.png", held, exif=exif)
    assert np.array_equal(load_picture(path).pixels, upright)


def test_sixteen_bits_a_channel_keep_their_greys(tmp_path):
    deep = (np.tile(np.arange(120, dtype=np.uint16), (80, 1)) * 500).astype(np.uint16)
    path = saved(tmp_path / "deep.png", Image.fromarray(deep))
    pixels = load_picture(path).pixels
    assert np.abs(pixels[..., 0].astype(float) - deep / 65535 * 255).max() <= 1


def test_cmyk_and_greys_become_rgb(tmp_path):
    for name, mode in (("ink.jpg", "CMYK"), ("grey.png", "L"), ("bits.png", "1"), ("few.png", "P")):
        assert load_picture(saved(tmp_path / name, stripes(mode))).pixels.shape == (80, 120, 3)


def test_a_see_through_ground_becomes_one_the_thread_stands_out_from(tmp_path):
    for thread, ground in ((20, 255), (240, 0)):
        image = np.zeros((80, 120, 4), np.uint8)
        image[30:50] = (thread, thread, thread, 255)
        pixels = load_picture(saved(tmp_path / f"{thread}.png", Image.fromarray(image))).pixels
        assert (pixels[40] == thread).all()
        assert (pixels[0] == ground).all()


def test_dots_per_inch_are_taken_only_where_they_were_meant(tmp_path):
    for said, taken in ((300, 300.0), (72, None), (96, None), (1200, 1200.0)):
        assert load_picture(saved(tmp_path / f"{said}.png", stripes(), dpi=(said, said))).dpi == taken
    uneven = load_picture(saved(tmp_path / "uneven.png", stripes(), dpi=(300, 200)))
    assert uneven.dpi is None
    assert uneven.notes
    assert load_picture(saved(tmp_path / "unsaid.png", stripes())).dpi is None


def test_a_large_scan_is_shrunk_and_its_scale_kept(tmp_path):
    path = saved(tmp_path / "large.png", Image.new("L", (6400, 4000)), dpi=(600, 600))
    picture = load_picture(path)
    assert picture.pixels.size // 3 <= 16_000_000
    assert picture.mm_per_px(600) * picture.pixels.shape[1] == pytest.approx(6400 / 600 * 25.4, rel=1e-3)


def test_place_and_camera_are_dropped(tmp_path):
    exif = Image.Exif()
    exif[0x010F], exif[0x9003] = "Imaginary Camera", "2020:01:01 10:00:00"
    exif.get_ifd(0x8825)[1] = "N"
    text = PngInfo()
    text.add_text("Author", "nobody")
    picture = load_picture(saved(tmp_path / "where.png", stripes(), exif=exif, pnginfo=text))
    kept = io.BytesIO()
    Image.fromarray(picture.pixels).save(kept, "PNG")
    again = Image.open(kept)
    assert not again.getexif()
    assert not again.info
