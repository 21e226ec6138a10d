"""The "after step" lines of any design are enough: whoever keeps to them never comes to an edge closed or begun."""

from collections import Counter

from hypothesis import HealthCheck, Phase, given, seed, settings

from galloon.errors import CannotMake
from galloon.sewing import sewing_steps
from galloon.workflow.reckon import make_garment
from tests.support.sewn_up import loose
from tests.support.technique_designs import technique_designs


def test_the_after_lines_of_every_design_keep_every_edge_open_until_it_is_sewn():
    refused = Counter()

    @seed(7)
    @settings(
        max_examples=150,
        deadline=None,
        database=None,
        phases=(Phase.generate,),
        suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large, HealthCheck.large_base_example],
    )
    @given(technique_designs())
    def any_order_will_do(design):
        try:
            garment = make_garment(design)
        except CannotMake as error:
            refused[error.subject] += 1
            return
        assert loose(sewing_steps(garment)) == []

    any_order_will_do()
    assert refused.total() <= 15
