"""Every example brief is drafted as its golden drawing shows, and is worth showing to a maker."""

from pathlib import Path

import pytest

from galloon.brief import load_brief
from galloon.workflow.reckon import make_garment
from tests.support.drawn import garment_text
from tests.support.golden import assert_golden

EXAMPLES = sorted(Path("examples").glob("*.toml"))


@pytest.mark.parametrize("brief", EXAMPLES, ids=lambda path: path.stem)
def test_the_example_is_drafted_as_drawn(brief):
    assert_golden(garment_text(make_garment(load_brief(brief).design)), f"examples/{brief.stem}.txt")
