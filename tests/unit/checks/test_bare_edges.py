"""An edge is left bare only where a lace has its scallop there."""

from dataclasses import replace

import pytest

from galloon.brief import read_brief
from galloon.checks import Evidence, judge
from galloon.design import Finish, FinishKind, Lie
from galloon.findings import Status
from galloon.workflow import make_garment
from tests.support.briefs import FULL
from tests.support.designs import design, galloon, scalloped


def bare_edges(garment):
    return [finding for finding in judge(Evidence(garment)) if finding.name == "edge is finished"]


@pytest.mark.parametrize("panel", ["front", "back"])
def test_a_scallop_that_lies_along_the_leg_may_stay_bare(panel):
    assert bare_edges(make_garment(design(uses=[scalloped(panel, lie=Lie.ALONG_LEG)], lace=galloon(240.0)))) == []


def test_a_leg_cut_through_an_upright_lace_may_not():
    upright = design(uses=[scalloped("front", lie=Lie.UPRIGHT)], lace=galloon(240.0))
    assert bare_edges(make_garment(upright)) == []
    bare = replace(upright, finishes=replace(upright.finishes, front_leg=Finish(FinishKind.SCALLOP)))
    found = bare_edges(make_garment(bare))
    assert [(one.about, one.status) for one in found] == [("front/leg", Status.FAIL)]
    assert "Name an elastic" in found[0].says


def test_a_brief_that_says_nothing_gets_elastic_on_the_leg_of_an_upright_front():
    said = FULL.replace('panel = "back"', 'panel = "both"').replace('lie = "along leg"', "")
    said = said.replace('front = "mesh"', 'front = "heron"')
    said = "\n".join(
        row for row in said.split("\n") if not row.startswith(("front_leg =", "back_leg =", "gusset_leg ="))
    )
    finishes = read_brief(said, file="b.toml").design.finishes
    assert finishes.front_leg.kind is FinishKind.ELASTIC
    assert finishes.back_leg.kind is FinishKind.SCALLOP
