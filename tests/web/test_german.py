"""The whole page in German: what a maker reads there holds none of the English sentences."""

import json
import re

import pytest

from tests.web.conftest import PATIENCE

#: A waist too high for its lace, a leg too high, a cloth that hardly gives and a thigh that looks odd.
TROUBLE = [
    [["style", "waist_drop"], "1 cm"],
    [["style", "leg_raise"], "9 cm"],
    [["wearer", "thigh"], "75 cm"],
    [["cloth", "mesh", "stretch_length"], 8],
    [["cloth", "mesh", "stretch_width"], 8],
]


@pytest.fixture(scope="module")
def troubled(served):
    """A design with warnings and failures; the path of its pages."""
    base = served.begin("Ärger")
    status, data = served.post(f"{base}/keep", {"changes": TROUBLE})
    assert status == 200, data
    assert {one["status"] for one in data["says"]} == {"pass", "warn", "fail"}
    return base


def shown(served, path, language):
    """A page in a language as text."""
    status, _, body = served.ask("GET", path, headers={"Accept-Language": language})
    assert status == 200
    return body.decode()


def told(page):
    """What the table's script is given to show."""
    return json.loads(re.search(r'id="said">(.*?)</script>', page, re.S).group(1))["said"]


def test_the_table_says_nothing_in_english(served, troubled):
    english, german = (told(shown(served, f"{troubled}/table", language)) for language in ("en", "de"))
    assert [one["status"] for one in german["says"]] == [one["status"] for one in english["says"]]
    assert len(german["says"]) > 12
    for one, other in zip(german["says"], english["says"], strict=True):
        assert one["text"] != other["text"]
        assert not re.search(r"\b(the|of|and|is|with|to|be)\b", one["text"]), one["text"]
        assert not re.search(r"\d\.\d", one["text"]), one["text"]
    assert ">Vorderteil<" in german["drawing"]
    assert ">front<" in english["drawing"]


def test_a_browser_shows_the_findings_in_its_language(served, troubled, chromium):
    context = chromium.new_context(locale="de-DE")
    page = context.new_page()
    page.set_default_timeout(PATIENCE)
    page.goto(f"{served.address}{troubled}/table", wait_until="load")
    page.wait_for_selector('#design[data-state="settled"]')
    assert page.get_attribute("html", "lang") == "de"
    read = page.inner_text("#says") + page.evaluate("document.getElementById('good').textContent")
    german, english = (told(shown(served, f"{troubled}/table", language))["says"] for language in ("de", "en"))
    assert [one["text"] for one in german if one["text"] not in read] == []
    assert [one["text"] for one in english if one["text"] in read] == []
    page.locator("#says .mend button").first.click()
    page.locator("#says .mend button, #says .mend span").first.wait_for()
    context.close()


@pytest.mark.parametrize("step", ["sewing", "cutting", "measure", "cloth", "ideas", "take", "projector"])
def test_no_other_step_has_an_english_sentence(served, troubled, step):
    english, german = (sentences(shown(served, f"{troubled}/{step}", language)) for language in ("en", "de"))
    assert len(german) > 4
    assert german & english == set()


def sentences(page):
    """The texts of a page that are more than a name: three words and more."""
    text = re.sub(r"<(script|style|svg|select)\b.*?</\1>", "", page, flags=re.S)
    return {part.strip() for part in re.findall(r">([^<>]+)<", text) if len(part.split()) > 2}


def test_what_keeps_a_change_from_being_kept_is_said_in_german(served, troubled):
    status, data = served.post(
        f"{troubled}/keep", {"changes": [[["wearer", "waist"], "1 cm"]]}, **{"Accept-Language": "de"}
    )
    assert status == 422
    assert data["faults"][0]["text"] == "Taille: muss zwischen 35 und 250 cm liegen"
