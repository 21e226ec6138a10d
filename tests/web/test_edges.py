"""Edge finishes, overlays and motifs on the page: chosen, entered, uploaded, dragged; each by mouse and by key."""

import re
import tomllib
from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe

from galloon.brief import brief_from, starter_brief
from galloon.web.edge_finishes import ZONES, choices, chosen
from galloon.web.words import Words
from tests.web.conftest import PATIENCE
from tests.web.test_journey import opened, scan, settled, shown

LEAF = Path("examples/motifs/fern.svg").read_text("utf-8")
OVERLAY = [["lace", 1], {"use": "overlay", "cloth": "heron", "panel": "front"}]


def brief(served, path):
    return tomllib.loads(served.ask("GET", f"{path}/brief.toml")[2].decode())


def opened_cloth(window, served, name, *changes):
    path = served.begin(name)
    if changes:
        assert served.post(f"{path}/keep", {"changes": list(changes)})[0] == 200
    opened(window, f"{served.address}{path}/cloth")
    return path


def test_every_choice_is_one_the_engine_reads_and_is_found_again():
    data = tomllib.loads(starter_brief())
    data["elastic"] = {"mine 7": {"width": 0.7, "stretch": 90}}
    among = choices(["mine 7"], [], ["heron"], Words("en"))
    assert len({one.word for one in among}) == len(among)
    for choice in among[1:]:
        for wide in choice.widths or (None,):
            said = choice.kind if wide is None else f"{choice.kind} {wide:g} mm"
            finish = {"waist": said, "front_leg": said, "back_leg": "scallop"}
            assert brief_from({**data, "finish": finish}, file="brief").design.finishes.waist is not None
            found, width = chosen(said, among)
            assert found == choice
            assert width == ("" if wide is None else f"{wide:g}")


@pytest.mark.parametrize("said", ["fold-over mine", "plush elastic 7.125 mm", 'hem 1/4"', "scallop with velvet"])
def test_words_of_her_own_stay_a_choice_of_their_own(said):
    found, width = chosen(said, choices([], [], [], Words("en")))
    assert (found.kind, found.word, width) == (said, said, "")


def test_edge_finishes_are_chosen_by_mouse(served, window):
    path = opened_cloth(window, served, "Finished")
    settled(window, lambda: window.select_option("#z-waist", "plush elastic"))
    width = window.locator('[data-zone="waist"] input')
    width.fill("14")
    settled(window, width.blur)
    settled(window, lambda: window.select_option("#z-gusset_leg", "binding"))
    settled(window, lambda: window.select_option("#z-front_leg", ""))
    told = brief(served, path)["finish"]
    assert told["waist"] == "plush elastic 14 mm"
    assert told["gusset_leg"] == "binding 7 mm"
    assert "front_leg" not in told
    window.reload(wait_until="load")
    assert window.input_value("#z-waist") == "plush elastic"
    assert window.input_value('[data-zone="waist"] input') == "14"
    assert window.locator('[data-zone="back_leg"] .with').is_hidden()


def test_edge_finishes_are_chosen_by_key(served, window):
    path = opened_cloth(window, served, "Finished by key")
    window.locator("#z-front_leg").focus()
    settled(window, lambda: window.keyboard.press("ArrowDown"))
    window.keyboard.press("Tab")
    window.keyboard.press("Control+a")
    window.keyboard.type("9")
    settled(window, lambda: window.keyboard.press("Tab"))
    assert brief(served, path)["finish"]["front_leg"] == "plush elastic 9 mm"


def test_a_width_that_is_not_made_is_told_and_nothing_is_changed(served, window):
    window.expected.append("422")
    path = opened_cloth(window, served, "Too wide")
    width = window.locator('[data-zone="waist"] input')
    width.fill("90")
    with window.expect_response(re.compile("/keep$")):
        width.blur()
    window.wait_for_selector('[data-zone="waist"] input[aria-invalid=true]')
    assert "5 to 25 mm" in window.inner_text(".wrong ul")
    assert brief(served, path)["finish"]["waist"] == "picot elastic 10 mm"


def test_an_elastic_of_the_shelf_is_taken_with_its_finish(window, tmp_path):
    from galloon.store import add, open_shelf
    from tests.web.conftest import start
    from tests.web.talk import Page

    with open_shelf(tmp_path / "shelf.sqlite") as shelf:
        add(shelf, "elastic", "velvet 9", {"units": "mm", "width": 9, "stretch": 80, "form": "plush"})
    process, address = start(tmp_path / "shelf.sqlite")
    served = Page(address)
    path = opened_cloth(window, served, "Velvet")
    settled(window, lambda: window.select_option("#z-waist", "velvet 9"))
    told = brief(served, path)
    assert (told["finish"]["waist"], told["elastic"]["velvet 9"]) == ("velvet 9", "velvet 9")
    process.terminate()
    process.wait(60)


def test_an_overlay_is_chosen_its_corners_typed(served, window):
    path = opened_cloth(window, served, "Overlaid")
    with window.expect_navigation():
        window.click("[data-use]")
    shown(window)
    with window.expect_navigation():
        window.select_option("#u-1", "overlay")
    shown(window)
    with window.expect_navigation():
        window.select_option("#up-1", "front")
    shown(window)
    corners = window.locator("textarea")
    assert len(corners.input_value().splitlines()) == 3
    corners.fill("5 -7\n14,5 -7\n140 mm  -15")
    settled(window, corners.blur)
    assert brief(served, path)["lace"][1]["corners"] == [[5, -7], [14.5, -7], ["140 mm", -15]]


def test_corners_that_cross_are_told(served, window):
    window.expected.append("422")
    path = opened_cloth(window, served, "Crossed", OVERLAY)
    before = brief(served, path)["lace"][1]["corners"]
    window.locator("textarea").fill("0 -5\n10 -15\n10 -5\n0 -15")
    with window.expect_response(re.compile("/keep$")):
        window.locator("textarea").blur()
    window.wait_for_selector("textarea[aria-invalid=true]")
    assert "cross" in window.inner_text(".wrong ul")
    assert brief(served, path)["lace"][1]["corners"] == before


def middle(window, key):
    box = window.locator(f'[data-key="{key}"] circle').last.bounding_box()
    return box["x"] + box["width"] / 2, box["y"] + box["height"] / 2


def drag(window, key, dx, dy):
    """Moves a free handle; the mm of one screen px."""
    scale = 1.0 / window.evaluate("document.getElementById('sheet').getScreenCTM().a")
    x, y = middle(window, key)
    window.mouse.move(x, y)
    window.mouse.down()
    for part in (0.3, 0.7, 1.0):
        window.mouse.move(x + dx * part, y + dy * part)
    settled(window, window.mouse.up)
    return scale


def mm(pair):
    return [float(part.removesuffix(" mm")) for part in pair]


def test_a_corner_is_dragged_and_moved_by_key(served, window):
    path = opened_cloth(window, served, "Corners", OVERLAY)
    opened(window, f"{served.address}{path}/table")
    before = mm(brief(served, path)["lace"][1]["corners"][0])
    drawn = window.locator("#drawing").inner_html()
    scale = drag(window, "corner-1-0", -20, 15)
    now = mm(brief(served, path)["lace"][1]["corners"][0])
    assert now == pytest.approx([before[0] - 20 * scale, before[1] - 15 * scale], abs=0.3)
    assert window.locator("#drawing").inner_html() != drawn
    window.locator('[data-key="corner-1-0"]').focus()
    settled(window, lambda: window.keyboard.press("Shift+ArrowUp"))
    settled(window, lambda: window.keyboard.press("ArrowRight"))
    after = mm(brief(served, path)["lace"][1]["corners"][0])
    assert after == pytest.approx([now[0] + 1.0, now[1] + 10.0], abs=0.11)
    handle = window.locator('[data-key="corner-1-0"]')
    assert handle.get_attribute("aria-label") == "Corner 1 of the overlay"
    assert "aside" in handle.get_attribute("aria-valuetext")


def test_a_motif_is_uploaded_and_dragged_to_its_place(served, window, tmp_path):
    path = opened_cloth(window, served, "Motif")
    (tmp_path / "leaf.svg").write_text(LEAF)
    window.set_input_files("#motif-file", tmp_path / "leaf.svg")
    with window.expect_navigation():
        window.click("#motif button")
    shown(window)
    assert window.locator('[data-path=\'["motif",0,"turn"]\']').count() == 1
    opened(window, f"{served.address}{path}/table")
    assert window.locator('#drawing [data-about="front motif"]').count() == 1
    before = mm(brief(served, path)["motif"][0]["at"])
    scale = drag(window, "motif-0", -15, 12)
    now = mm(brief(served, path)["motif"][0]["at"])
    assert now == pytest.approx([before[0] - 15 * scale, before[1] - 12 * scale], abs=0.3)
    window.locator('[data-key="motif-0"]').focus()
    settled(window, lambda: window.keyboard.press("ArrowLeft"))
    assert mm(brief(served, path)["motif"][0]["at"])[0] == pytest.approx(now[0] - 1.0, abs=0.11)
    settled(window, lambda: window.keyboard.press("Control+z"))
    assert mm(brief(served, path)["motif"][0]["at"]) == now


def test_an_outline_is_lifted_from_the_picture_of_the_lace(served, window, tmp_path):
    scan(tmp_path / "discs.png", hole=2.3)
    path = opened_cloth(window, served, "Lifted")
    assert window.locator("[data-lift]").count() == 0
    window.set_input_files("#picture", tmp_path / "discs.png")
    window.click("#read button")
    with window.expect_navigation():
        window.click(".found > button")
    window.select_option("#motif-cloth", "heron")
    window.click("[data-lift]")
    window.locator("#motif [role=status]", has_text="No solid motif").wait_for()
    window.select_option("#motif-cloth", "discs")
    window.click("[data-lift]")
    window.wait_for_selector(".lifted button")
    with window.expect_navigation():
        window.locator(".lifted button").first.press("Enter")
    motif = brief(served, path)["motif"][0]
    xs, ys = zip(*map(mm, motif["outline"]), strict=True)
    assert (max(xs) - min(xs), max(ys) - min(ys)) == pytest.approx((20.0, 20.0), abs=3.5)  # threads cling
    assert (motif["cloth"], motif["panel"]) == ("discs", "front")


@pytest.mark.parametrize("place", [-1, 99, True, "0", None, 1e9])
def test_an_outline_that_is_not_in_the_picture_is_refused(served, place):
    path = served.begin(f"Not lifted {place}")
    body = {"lifted": place, "panel": "front", "cloth": "heron"}
    assert served.post(f"{path}/motif", body)[0] == 400
    assert served.post(f"{path}/outlines", {"cloth": "no such"})[0] == 404


@pytest.mark.parametrize(
    "svg",
    [
        "no drawing",
        "<svg xmlns='http://www.w3.org/2000/svg'><script>alert(1)</script></svg>",
        "<!DOCTYPE svg [<!ENTITY a 'aaaa'>]><svg xmlns='http://www.w3.org/2000/svg'>&a;</svg>",
        "<svg xmlns='http://www.w3.org/2000/svg'><image href='http://evil.example/a.png'/></svg>",
        "<svg xmlns='http://www.w3.org/2000/svg'><rect width='9e9' height='1'/></svg>",
        LEAF.replace("<path", "<g><path") + "<g>" * 5000,
    ],
)
def test_an_outline_that_is_none_is_refused_with_its_reason(served, svg):
    path = served.begin(f"Hostile {abs(hash(svg))}")
    status, said = served.post(f"{path}/motif", {"svg": svg, "panel": "front", "cloth": "heron"})
    assert status == 422
    assert len(said["faults"][0]["text"]) > 10
    assert "motif" not in brief(served, path)


def test_an_outline_as_large_as_a_film_is_refused_before_it_is_read(served):
    path = served.begin("Huge outline")
    assert served.post(f"{path}/motif", {"svg": " " * 300_000, "panel": "front", "cloth": "heron"})[0] == 413


@pytest.mark.parametrize("to", [[1.0], [1.0, "a"], [1.0, None], [True, 1.0], [1e999, 0.0], {"x": 1}])
def test_a_move_that_is_none_is_refused(served, to):
    path = served.begin(f"No move {to}")
    assert served.post(f"{path}/try", {"handle": "corner-0-0", "to": to})[0] == 400


def test_a_spot_that_is_not_there_moves_nothing(served):
    path = served.begin("No such spot")
    for key in ("corner-0-0", "motif-7", "corner--1", "motif-x"):
        status, said = served.post(f"{path}/keep", {"handle": key, "to": [10.0, -50.0]})
        assert (status, said["version"]) == (200, 1)


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_axe_finds_nothing_with_all_of_it_there(served, chromium, scheme):
    page = chromium.new_context(color_scheme=scheme, bypass_csp=True, viewport={"width": 360, "height": 800}).new_page()
    page.set_default_timeout(PATIENCE)
    path = served.begin(f"All edges, {scheme}")
    assert served.post(f"{path}/keep", {"changes": [OVERLAY]})[0] == 200
    assert served.post(f"{path}/motif", {"svg": LEAF, "panel": "back", "cloth": "heron"})[0] == 200
    for step in ("cloth", "table"):
        opened(page, f"{served.address}{path}/{step}")
        found = Axe().run(page).response["violations"]
        assert [(step, one["id"], [node["html"][:120] for node in one["nodes"]]) for one in found] == []
        assert page.evaluate("document.documentElement.scrollWidth") <= 360
    page.context.close()


def test_every_zone_and_finish_has_its_word():
    for language in ("en", "de"):
        words = Words(language)
        assert all(words(f"finish.zone.{zone}") for zone in ZONES)
