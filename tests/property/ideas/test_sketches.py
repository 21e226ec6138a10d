"""Over bodies and laces: every idea can be written as a brief and read back, and the first pass agrees with make."""

from hypothesis import given, settings
from hypothesis import strategies as st

from galloon.brief import read_brief
from galloon.errors import GalloonError
from galloon.findings import Status
from galloon.ideas.briefs import design_text
from galloon.ideas.find import _Task, reckoned_first
from galloon.ideas.sketch import sketches
from galloon.workflow import reckon_bounds
from tests.support.bodies import everyday_wearers
from tests.support.designs import MESH
from tests.support.idea_stocks import JERSEY, stock

stocks = st.builds(
    stock,
    st.floats(15.0, 300.0),
    cloths=st.sampled_from([(JERSEY,), (MESH, JERSEY)]),
    wearer=everyday_wearers(),
    on_hand=st.one_of(st.none(), st.floats(100.0, 2000.0)),
    mirror_across=st.booleans(),
)


def close(one, other):
    """The same design but for lengths within 1e-6 mm: its report data shows every figure to 0.001."""
    return (one.panels, one.style.shape, one.style.coverage, one.style.gusset, len(one.lace)) == (
        other.panels,
        other.style.shape,
        other.style.coverage,
        other.style.gusset,
        len(other.lace),
    )


@settings(max_examples=20, deadline=None)
@given(stocks, st.data())
def test_every_idea_reads_back_from_its_brief(one, data):
    listed = sketches(one, 100_000).kept
    for sketch in data.draw(st.lists(st.sampled_from(listed), min_size=1, max_size=4)):
        read = read_brief(design_text(sketch.design), file="idea.toml").design
        assert close(read, sketch.design)
        assert [use.use for use in read.lace] == [use.use for use in sketch.design.lace]
        assert [finish.name for _, finish in read.finishes] == [finish.name for _, finish in sketch.design.finishes]


@settings(max_examples=20, deadline=None)
@given(stocks, st.data())
def test_an_idea_is_dropped_just_where_a_check_fails(one, data):
    listed = sketches(one, 100_000).kept
    for sketch in data.draw(st.lists(st.sampled_from(listed), min_size=1, max_size=4)):
        outcome = reckoned_first(_Task(sketch, 90_000.0, False))
        try:
            fails = [finding.name for finding in reckon_bounds(sketch.design).findings if finding.status is Status.FAIL]
        except GalloonError:
            fails = [outcome.reason] if outcome.reason in ("cannot be drawn", "no sound outline") else ["?"]
        assert outcome.reason == (fails[0] if fails else "")


@settings(max_examples=15, deadline=None)
@given(stocks)
def test_the_sketches_of_a_stock_are_all_different_and_in_a_fixed_order(one):
    first, again = (sketches(one, 100_000).kept for _ in range(2))
    assert [sketch.design.title for sketch in first] == [sketch.design.title for sketch in again]
    keys = {(s.design.lace, s.design.panels, s.design.style, bool(s.design.motifs)) for s in first}
    assert len(keys) == len(first)
