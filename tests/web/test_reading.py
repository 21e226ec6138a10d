"""A lace read from a picture: its lines corrected by mouse and by key, its size from the file, one repeat kept."""

import io
import re

import numpy as np
import pytest
from axe_playwright_python.sync_playwright import Axe
from PIL import Image, PngImagePlugin

from tests.web.conftest import PATIENCE
from tests.web.test_journey import opened, scan, shown

FIGURES = ("width", "scallop_pitch", "scallop_depth", "repeat")


def read(window, served, file, name):
    """Opens a design's cloths and has a picture measured; what is found stands there."""
    path = served.begin(name)
    opened(window, f"{served.address}{path}/cloth")
    window.set_input_files("#picture", file)
    window.click("#read button")
    return path


def figures(window):
    return {key: float(window.input_value(f"#seen-{key}")) for key in FIGURES if window.locator(f"#seen-{key}").count()}


def drag(window, key, dx, dy):
    """Moves a handle by so many screen px; the mm that one px of the picture stands for."""
    box = window.locator(f'.level [data-key="{key}"] circle').last.bounding_box()
    x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    window.mouse.move(x, y)
    window.mouse.down()
    window.mouse.move(x + dx / 2, y + dy / 2)
    window.mouse.move(x + dx, y + dy)
    window.mouse.up()
    return 1.0 / window.evaluate("document.querySelector('.level').getScreenCTM().a")


@pytest.fixture
def lace(tmp_path):
    scan(tmp_path / "lace.png")
    return tmp_path / "lace.png"


def test_found_lines_are_dragged_and_the_figures_follow(served, window, lace):
    read(window, served, lace, "Dragged")
    window.locator(".level").scroll_into_view_if_needed()
    before = figures(window)
    mm = drag(window, "low", 0, -24)
    assert figures(window)["width"] == pytest.approx(before["width"] - 24 * mm, abs=1.1 * mm)
    drag(window, "top", 0, -12)
    assert figures(window)["width"] == pytest.approx(before["width"] - 12 * mm, abs=1.1 * mm)
    drag(window, "depth", 0, -10)
    assert figures(window)["scallop_depth"] == pytest.approx(before["scallop_depth"] + 10 * mm, abs=1.1 * mm)
    drag(window, "pitch", 30, 0)
    now = figures(window)
    assert before["scallop_pitch"] < now["scallop_pitch"] < before["scallop_pitch"] + 30 * mm
    assert now["repeat"] / now["scallop_pitch"] == pytest.approx(before["repeat"] / before["scallop_pitch"], abs=0.01)
    drag(window, "repeat", now["scallop_pitch"] / mm, 0)
    assert figures(window)["repeat"] == pytest.approx(now["repeat"] + now["scallop_pitch"], abs=0.02)


def test_the_keys_do_all_that_a_drag_does(served, window, lace):
    read(window, served, lace, "By key")
    window.wait_for_selector("#seen-width")
    seen = {}
    window.locator("#read > p button").focus()
    for _ in range(6):
        window.keyboard.press("Tab")
        key = window.evaluate("document.activeElement.dataset.key")
        handle = window.locator(f'.level [data-key="{key}"]')
        before = float(handle.get_attribute("aria-valuenow"))
        window.keyboard.press(
            "Shift+ArrowDown" if handle.get_attribute("aria-orientation") == "vertical" else "ArrowRight"
        )
        seen[key] = float(handle.get_attribute("aria-valuenow")) - before
        assert handle.get_attribute("aria-label")
    assert seen["top"] == pytest.approx(1.0)
    assert seen["low"] == pytest.approx(1.0)
    assert seen["start"] == pytest.approx(0.1)
    assert seen["pitch"] > 0.0
    assert seen["depth"] == pytest.approx(-1.0)
    assert seen["repeat"] == pytest.approx(figures(window)["scallop_pitch"], abs=0.1)


def test_what_was_corrected_is_kept_with_the_picture_of_one_repeat(served, window, lace):
    path = read(window, served, lace, "Kept")
    window.wait_for_selector("#seen-width")
    window.locator('.level [data-key="low"]').focus()
    window.keyboard.press("Shift+ArrowDown")
    now = figures(window)
    with window.expect_navigation():
        window.click(".found > button")
    assert window.locator('[data-strip="lace"] .picture').count() == 1
    assert window.inner_text(".seen") == "Kept with the picture of one repeat."
    brief = served.ask("GET", f"{path}/brief.toml")[2].decode()
    assert f'width = "{now["width"]:.2f} mm"' in brief
    name = re.search(r'picture = "shelf (\w+)"', brief).group(1)
    status, headers, png = served.ask("GET", f"/picture/{name}.png")
    assert (status, headers["content-type"]) == (200, "image/png")
    assert "immutable" in headers["cache-control"]
    kept = Image.open(io.BytesIO(png))
    assert kept.size[0] / kept.size[1] == pytest.approx(now["repeat"] / now["width"], rel=0.02)
    solid = np.asarray(kept)[..., 3]
    assert solid[kept.size[1] // 2].max() > 200
    assert (solid == 0).mean() > 0.1


def test_a_repeat_that_does_not_lie_in_the_picture_is_not_kept_and_that_is_said(served, window, lace):
    path = read(window, served, lace, "Kept bare")
    window.wait_for_selector("#seen-width")
    window.locator('.level [data-key="start"]').focus()
    for _ in range(190):
        window.keyboard.press("Shift+ArrowRight")
    with window.expect_navigation():
        window.click(".found > button")
    assert "without its picture" in window.inner_text(".seen")
    assert "picture" not in served.ask("GET", f"{path}/brief.toml")[2].decode()


def test_a_width_that_the_picture_does_not_show_is_left_to_her(served, window, lace, tmp_path):
    """The upper edge lies outside this picture; what the program doubts is said in its own words."""
    window.expected.append("422")
    whole = Image.open(lace)
    whole.crop((0, 200, *whole.size)).save(tmp_path / "cut.png", dpi=(150, 150))
    path = read(window, served, tmp_path / "cut.png", "Cropped")
    window.wait_for_selector("#seen-width")
    assert window.input_value("#seen-width") == ""
    assert window.locator(".found .odd").count() >= 1
    with window.expect_response(re.compile("/lace$")):
        window.click(".found > button")
    window.locator(".wrong li", has_text="width").wait_for()
    window.fill("#seen-width", "90")
    with window.expect_navigation():
        window.click(".found > button")
    assert 'width = "90 mm"' in served.ask("GET", f"{path}/brief.toml")[2].decode()


def test_the_size_is_asked_for_only_where_the_file_does_not_say_it(served, window, lace, tmp_path):
    read(window, served, lace, "Said")
    window.wait_for_selector("#seen-width")
    assert "150 dots per inch" in window.inner_text(".scale p")
    Image.open(lace).save(tmp_path / "unsaid.png")
    window.set_input_files("#picture", tmp_path / "unsaid.png")
    assert window.locator("#dpi").is_hidden()
    window.click("#read button")
    window.wait_for_selector(".scale:not([hidden])")
    assert window.locator("#seen-width").is_hidden()
    window.fill("#dpi", "150")
    window.click("#read button")
    window.locator("#seen-width").wait_for()
    assert figures(window)["width"] == pytest.approx(90.0, abs=0.5)


def test_a_picture_keeps_nothing_else_of_its_file(served, window, lace, tmp_path):
    told = PngImagePlugin.PngInfo()
    told.add_text("Comment", "taken at home")
    Image.open(lace).save(tmp_path / "told.png", dpi=(150, 150), pnginfo=told)
    path = read(window, served, tmp_path / "told.png", "Told")
    window.wait_for_selector("#seen-width")
    with window.expect_navigation():
        window.click(".found > button")
    name = re.search(r'picture = "shelf (\w+)"', served.ask("GET", f"{path}/brief.toml")[2].decode()).group(1)
    png = served.ask("GET", f"/picture/{name}.png")[2]
    assert b"home" not in png
    assert Image.open(io.BytesIO(png)).info == {}


@pytest.mark.parametrize("name", ["0" * 32, "..%2f..%2fshelf.sqlite", "x"])
def test_a_picture_that_is_not_there_is_not_found(served, name):
    assert served.ask("GET", f"/picture/{name}.png")[0] == 404


@pytest.mark.parametrize(
    "body",
    [
        {"changes": [[["style"], {}]]},
        {"changes": [[["cloth", "x"], "heron"]]},
        {"changes": [[["cloth", "x"], {}]], "box": ["a", 0, 1, 2], "reading": "no"},
        {"changes": [[["cloth", "x"], {"kind": "lace"}]], "box": [0, 0, 1e308, 2], "reading": {}},
    ],
)
def test_a_lace_that_is_none_is_refused_and_nothing_is_kept(served, body):
    path = served.begin(f"Refused {hash(str(body))}")
    before = served.ask("GET", f"{path}/brief.toml")[2]
    assert served.post(f"{path}/lace", body)[0] in (400, 422)
    assert served.ask("GET", f"{path}/brief.toml")[2] == before


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_axe_finds_nothing_in_what_was_read(served, chromium, lace, scheme):
    page = chromium.new_context(color_scheme=scheme, bypass_csp=True).new_page()
    page.set_default_timeout(PATIENCE)
    read(page, served, lace, f"Read by all, {scheme}")
    page.wait_for_selector("#seen-width")
    shown(page)
    found = Axe().run(page).response["violations"]
    assert [(one["id"], [node["html"][:120] for node in one["nodes"]]) for one in found] == []
    page.context.close()


def on_the_table(window, served, lace, name):
    """A design whose lace was read from a picture, on the table; how often its picture was asked for."""
    path = read(window, served, lace, name)
    window.fill("#seen-name", "heron")
    with window.expect_navigation():
        window.click(".found > button")
    asked = []
    window.on("request", lambda request: asked.append(request.url) if "/picture/" in request.url else None)
    served.post(f"{path}/keep", {"changes": [[["cloth", "heron", "width"], "290 mm"]]})
    opened(window, f"{served.address}{path}/table")
    return path, asked


def lies(window):
    """Where the corner of the lace's picture lies on the sheet, mm, and how it is turned."""
    text = window.locator("#drawing pattern").get_attribute("patternTransform")
    a, b, _, _, x, y = (float(part) for part in re.findall(r"-?[\d.]+", text))
    return complex(x, -y), complex(a, -b)


def test_her_own_lace_lies_on_the_pieces_and_slides_with_them(served, window, lace):
    _, asked = on_the_table(window, served, lace, "On the table")
    image = window.locator("#laces image")
    assert (float(image.get_attribute("width")), float(image.get_attribute("height"))) == (25.0, 290.0)
    assert window.locator("#drawing .picture").get_attribute("fill") == "url(#lies-1)"
    before, along = lies(window)
    window.locator('[data-key="slide-0"]').focus()
    for _ in range(4):
        window.keyboard.press("ArrowRight")
    shown(window)
    after, _ = lies(window)
    moved = (after - before) / along
    assert abs(moved.imag) < 0.2
    assert abs(moved.real) == pytest.approx(4.0, abs=0.4)
    assert len(asked) == 1


def test_a_picture_shows_on_no_answer_but_by_its_address(served, window, lace):
    path, _ = on_the_table(window, served, lace, "By address")
    status, said = served.post(f"{path}/try", {"changes": []})
    assert status == 200
    assert len(str(said["laces"])) < 300
    assert "data:" not in said["drawing"]


@pytest.mark.parametrize("name", ["/etc/passwd", "../shelf.sqlite", "heron.png", "shelf ../x", 7, {"a": 1}])
def test_a_design_of_the_page_opens_no_picture_file(served, name):
    path = served.begin(f"File {name}".replace("/", "-"))
    status, said = served.post(f"{path}/keep", {"changes": [[["cloth", "heron", "picture"], name]]})
    if name == "shelf ../x":
        assert status == 200
        assert "is not on this shelf" in str(said["says"])
    else:
        assert status == 422
