"""The whole way in real Chromium: by mouse, by keyboard alone, at phone size, in two windows, over a restart."""

import re
import signal

import pypdf
import pytest
from axe_playwright_python.sync_playwright import Axe

from tests.web.conftest import PATIENCE, start
from tests.web.talk import Page

STEPS = ("measure", "cloth", "table", "ideas", "cutting", "sewing", "take", "projector")


def figure(window, word):
    """A figure beside the drawing."""
    return window.locator(f'#figures dt:has-text("{word}") + dd').inner_text()


def middle(window, key):
    """Where a handle stands on the screen."""
    box = window.locator(f'[data-key="{key}"] circle').last.bounding_box()
    return box["x"] + box["width"] / 2, box["y"] + box["height"] / 2


def shown(window):
    """Waits until everything that was asked is answered and shown: the page says so itself."""
    window.wait_for_selector('#design[data-state="settled"]')


def opened(window, address):
    """Opens one step of a design, its scripts running."""
    window.goto(address, wait_until="load")
    shown(window)


def settled(window, change, kept=r"/(keep|undo|redo|place)$"):
    """Does something, waits until it is kept and its answer is shown."""
    shown(window)
    with window.expect_response(re.compile(kept)) as answer:
        change()
    assert answer.value.ok
    shown(window)


def drag(window, key, dx, dy):
    x, y = middle(window, key)
    window.mouse.move(x, y)
    window.mouse.down()
    for part in range(1, 9):
        window.mouse.move(x + dx * part / 8, y + dy * part / 8)
    settled(window, window.mouse.up)


def test_a_first_pattern_by_mouse(served, window):
    window.goto(served.address)
    window.fill("#name", "First pattern")
    window.click("form.begin button")
    window.wait_for_url("**/measure", wait_until="load")
    window.fill("#m-hip", "104")
    window.click('nav >> text="Table"')
    window.wait_for_url("**/table", wait_until="load")
    shown(window)
    design = window.url.removeprefix(served.address).rpartition("/")[0]
    assert "hip = 104" in served.ask("GET", f"{design}/brief.toml")[2].decode()
    drop, side = figure(window, "Waist drop"), figure(window, "Side seam left")
    drag(window, "waist", 0, 60)
    assert figure(window, "Waist drop") != drop
    drag(window, "leg", 0, -50)
    assert figure(window, "Side seam left") != side
    for _ in range(2):
        settled(window, lambda: window.click('[data-do="undo"]'))
    assert (figure(window, "Waist drop"), figure(window, "Side seam left")) == (drop, side)
    settled(window, lambda: window.click('[data-do="redo"]'))
    settled(window, lambda: window.click('[data-do="place"]'))
    window.click('nav >> text="Take away"')
    with window.expect_download() as told:
        window.click("text=Pattern on sheets of A4")
    first = pypdf.PdfReader(told.value.path()).pages[0]
    assert [float(side) * 25.4 / 72.0 for side in first.mediabox[2:]] == pytest.approx([210.0, 297.0], abs=0.01)


def test_everything_a_drag_does_the_keys_do(served, window):
    path = served.begin("By keyboard")
    opened(window, f"{served.address}{path}/table")
    seen = set()
    for _ in range(40):
        window.keyboard.press("Tab")
        key = window.evaluate("document.activeElement.dataset.key || ''")
        if not key or key in seen:
            continue
        seen.add(key)
        before = window.locator(f'[data-key="{key}"]').get_attribute("aria-valuetext")
        drawn = window.locator("#drawing").inner_html()
        for arrow in ("ArrowDown", "ArrowUp", "ArrowLeft", "ArrowRight"):
            settled(window, lambda arrow=arrow: window.keyboard.press(f"Shift+{arrow}"))
            changed = window.locator("#drawing").inner_html() != drawn
            if changed:
                break
        assert changed, f"no arrow moves {key} from {before}"
        settled(window, lambda: window.keyboard.press("Control+z"))
        window.locator(f'[data-key="{key}"]').focus()
    assert seen >= {"waist", "waist-front", "waist-back", "leg", "side", "slide-0", "turn-0"}


def test_a_finding_points_at_its_place_and_its_mend_is_one_button(served, window):
    path = served.begin("Mended")
    served.post(f"{path}/keep", {"changes": [[["style", "waist_drop"], "1 cm"]]})
    opened(window, f"{served.address}{path}/table")
    item = window.locator("#says li.fail").first
    text = item.locator(".text").inner_text()
    item.locator(".text").click()
    assert window.locator("#drawing .pointed").count() > 0
    item.locator(".mend button").click()
    window.wait_for_selector("#says li.fail .mend button:not(.quiet)")
    settled(window, lambda: window.locator("#says li.fail .mend button").first.click())
    assert text not in window.locator("#says li.fail .text").all_inner_texts()


def test_a_fault_is_told_beside_its_field_and_nothing_is_lost(served, window):
    window.expected.append("422")
    path = served.begin("Faulty")
    opened(window, f"{served.address}{path}/measure")
    window.fill("#m-hip", "12")
    with window.expect_response(re.compile("/keep$")):
        window.locator("#m-hip").blur()
    window.wait_for_selector("#m-hip[aria-invalid=true]")
    assert window.locator(".wrong li").first.is_visible()
    window.reload(wait_until="load")
    assert window.locator("#m-hip").input_value() != "12"


def test_a_lace_is_drawn_again_as_its_numbers_change(served, window):
    path = served.begin("Lace drawn")
    opened(window, f"{served.address}{path}/cloth")
    strip = window.locator("[data-strip]").first
    before = strip.inner_html()
    field = window.locator('[data-path*="scallop_depth"]').first
    field.fill("2")
    settled(window, field.blur, "lace.svg")
    assert strip.inner_html() != before


def test_two_windows_on_one_design_lose_nothing(served, window, chromium):
    path = served.begin("Two windows")
    opened(window, f"{served.address}{path}/table")
    other = chromium.new_page()
    other.set_default_timeout(PATIENCE)
    other.goto(f"{served.address}{path}/measure")
    other.fill("#m-hip", "107")
    with other.expect_response(re.compile("/keep$")):
        other.locator("#m-hip").blur()
    drag(window, "leg", 0, -40)
    brief = served.ask("GET", f"{path}/brief.toml")[2].decode()
    assert "hip = 107" in brief
    assert "leg_raise" in brief
    other.close()


def test_killed_in_the_middle_nothing_is_lost(tmp_path, window):
    """Not even what was changed while the program was not running: the page waits and sends it then."""
    window.expected += ["ERR_CONNECTION", "403"]
    process, address = start(tmp_path / "shelf.sqlite")
    path = Page(address).begin("Killed")
    opened(window, f"{address}{path}/table")
    drag(window, "waist", 0, 50)
    kept = figure(window, "Waist drop")
    process.send_signal(signal.SIGKILL)
    process.wait()
    window.locator('[data-key="leg"]').focus()
    window.keyboard.press("Shift+ArrowUp")
    window.wait_for_selector(".lost:not([hidden])")
    again, _ = start(tmp_path / "shelf.sqlite", port=int(address.rsplit(":", 1)[1]))
    window.wait_for_selector(".lost", state="hidden")
    shown(window)
    brief = Page(address).ask("GET", f"{path}/brief.toml")[2].decode()
    assert re.search('leg_raise = "10.* mm"', brief)
    opened(window, f"{address}{path}/table")
    assert figure(window, "Waist drop") == kept
    again.terminate()
    again.wait(60)


def test_ticks_of_the_sewing_steps_stay(served, window):
    path = served.begin("Sewn")
    opened(window, f"{served.address}{path}/sewing")
    window.check("#step-2")
    window.reload()
    assert window.is_checked("#step-2")
    assert not window.is_checked("#step-1")


def test_the_projector_shows_true_size_once_its_square_does(served, window):
    path = served.begin("Cast")
    opened(window, f"{served.address}{path}/projector")
    window.locator("#scale").fill("5")
    square, cast = (window.locator(one).bounding_box() for one in ("#square", "#cast"))
    box = [float(part) for part in window.locator("#cast").get_attribute("viewBox").split()]
    assert square["width"] == pytest.approx(500.0, abs=1.0)
    assert cast["width"] / box[2] == pytest.approx(5.0, rel=0.005)


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_axe_finds_nothing(served, chromium, scheme):
    """axe-core, WCAG A and AA rules and its best practices, on every page."""
    path = served.begin(f"Seen by all, {scheme}")
    page = chromium.new_context(color_scheme=scheme, bypass_csp=True).new_page()
    page.set_default_timeout(PATIENCE)
    for step in ("", *STEPS):
        page.goto(f"{served.address}{path}/{step}" if step else served.address)
        found = Axe().run(page).response["violations"]
        assert [(step, one["id"], [node["html"][:120] for node in one["nodes"]]) for one in found] == []
    page.context.close()


@pytest.mark.parametrize("width", [360, 1900])
@pytest.mark.parametrize("large", [1, 2])
def test_no_page_is_wider_than_its_window(served, chromium, width, large):
    """At phone size, on a wide screen, and with text at 200 %."""
    path = served.begin(f"Wide {width} {large}")
    page = chromium.new_context(viewport={"width": width, "height": 800}).new_page()
    page.set_default_timeout(PATIENCE)
    for step in ("", *STEPS[:-1]):
        page.goto(f"{served.address}{path}/{step}" if step else served.address)
        page.evaluate(f"document.documentElement.style.fontSize = '{100 * large}%'")
        assert page.evaluate("document.documentElement.scrollWidth") <= width, step
    page.context.close()


def test_the_page_speaks_german(served, window):
    path = served.begin("Deutsch")
    opened(window, f"{served.address}{path}/measure")
    window.click(".language button[value=de]")
    assert window.locator("h1").inner_text() == "Körpermaße"
    assert window.evaluate("document.documentElement.lang") == "de"


def test_the_first_page_of_a_design_is_light(served):
    """Page, styles and scripts of the table together stay under 150 KB."""
    path = served.begin("Light")
    page = served.ask("GET", f"{path}/table")[2]
    parts = [*re.findall(rb'(?:src|href)="(/static/[^"]+)"', page), b"/static/talk.js"]
    assert len(page) + sum(len(served.ask("GET", part.decode())[2]) for part in parts) < 150_000


def test_ideas_line_up_and_one_can_be_begun(served, window):
    path = served.begin("Ideas")
    plain = [[["cloth", "heron"], None], [["cloth", "lining"], None], [["lace"], None], [["finish", "back_leg"], None]]
    panels = [["panels"], {"front": "mesh", "back": "mesh", "gusset": "mesh"}]
    assert served.post(f"{path}/keep", {"changes": [*plain, panels]})[0] == 200
    opened(window, f"{served.address}{path}/ideas")
    window.click("[data-start]")
    window.wait_for_selector(".ideas li:nth-child(4) img", timeout=300_000)
    window.locator("[data-stop]").wait_for(state="hidden", timeout=300_000)
    titles = window.locator(".ideas h2").all_inner_texts()
    assert len(set(titles)) > 3
    window.locator(".ideas li button").nth(1).click()
    window.wait_for_url("**/table")
    assert window.locator("#drawing .piece").count() >= 3


def test_a_longer_search_tells_how_far_it_is_and_keeps_what_it_found_when_stopped(served, window):
    path = served.begin("Longer")
    opened(window, f"{served.address}{path}/cutting")
    plan = window.locator("[data-plan]:has([data-longer])").first
    before = plan.locator("[data-length]").inner_text()
    plan.locator("[data-longer]").click()
    plan.locator("[role=status]", has_text="cm").wait_for()
    assert plan.locator("progress").is_visible()
    plan.locator("[data-stop]").click()
    plan.locator("[data-longer]").wait_for()
    assert plan.locator("[data-stop]").is_hidden()

    def taken(text):
        return float(re.match(r"([\d.]+) cm", text).group(1))

    assert taken(plan.locator("[data-length]").inner_text()) <= taken(before)
    assert plan.locator("path.piece").count() == 2


def test_a_lace_is_measured_from_a_picture_and_taken(served, window, tmp_path):
    scan(tmp_path / "bought lace.png")
    path = served.begin("Scanned")
    opened(window, f"{served.address}{path}/cloth")
    window.set_input_files("#picture", tmp_path / "bought lace.png")
    window.click("#read button")
    window.wait_for_selector("#seen-width")
    window.click(".found summary")
    assert window.locator(".found img").evaluate("image => image.naturalWidth") > 100
    window.fill("#seen-width", "93")
    with window.expect_navigation():
        window.click(".found > button")
    assert "bought lace" in window.locator("h2").all_inner_texts()
    assert 'width = "93 mm"' in served.ask("GET", f"{path}/brief.toml")[2].decode()


def test_what_is_no_picture_is_refused_in_words(served, window, tmp_path):
    window.expected.append("422")
    (tmp_path / "notes.png").write_bytes(b"no picture at all")
    path = served.begin("No picture")
    opened(window, f"{served.address}{path}/cloth")
    window.set_input_files("#picture", tmp_path / "notes.png")
    window.click("#read button")
    assert window.locator(".seen .wrong").first.inner_text()


def test_a_bought_lace_takes_the_place_of_the_examples(served, window):
    """What a first maker does: her lace's name and numbers, the lace on the front too, and on to the table."""
    path = served.begin("Her own")
    opened(window, f"{served.address}{path}/cloth")
    with window.expect_navigation():
        window.fill('[data-rename="heron"]', "birthday lace")
        window.locator('[data-rename="heron"]').blur()
    shown(window)
    with window.expect_navigation():
        window.select_option("#p-front", "birthday lace")
    shown(window)
    assert window.locator("form.use").count() == 2
    window.click(".next a")
    window.wait_for_url("**/table", wait_until="load")
    shown(window)
    assert window.locator("#drawing .lace").count() == 2
    assert "birthday lace" in window.locator("#figures").inner_text()


def test_the_point_of_a_v_moves_by_key(served, window):
    path = served.begin("A V")
    changes = [[["lace", 0, "use"], "V inset"], [["style", "waist_drop"], "6 cm"], [["cloth", "heron", "width"], 17]]
    assert served.post(f"{path}/keep", {"changes": changes})[0] == 200
    opened(window, f"{served.address}{path}/table")
    point = window.locator('[data-key="v-0"]')
    before = float(point.get_attribute("aria-valuenow"))
    point.focus()
    settled(window, lambda: window.keyboard.press("Shift+ArrowUp"))
    assert float(point.get_attribute("aria-valuenow")) == pytest.approx(before - 10.0, abs=2.0)


def scan(file, hole=1.3):
    """A lace as a flat scan at 150 dots per inch: white thread on black, scallops on both edges, a disc 20 mm across on
    each; its net has holes of a radius in mm.
    """
    import numpy as np
    from PIL import Image

    dots = 150 / 25.4
    x, y = np.meshgrid(np.arange(int(200 * dots)) / dots, np.arange(int(120 * dots)) / dots)
    deep = 6.0 * (1.0 - np.abs(np.cos(np.pi * x / 25.0)))
    inside = (y > 15.0 + deep) & (y < 105.0 - deep)
    net = (np.hypot((x % 5.0) - 2.5, (y % 5.0) - 2.5) > hole) | (np.hypot((x % 25.0) - 12.5, y - 60.0) < 10.0)
    Image.fromarray(np.where(inside & net, 235, 20).astype("uint8")).save(file, dpi=(150, 150))
