"""An open side in the brief: what is read, what is taken where nothing is said, and what is refused."""

from __future__ import annotations

import pytest

from galloon.brief import dump_brief, read_brief, to_data
from galloon.design import FinishKind
from galloon.errors import BadInput
from tests.support.brief_designs import assert_alike
from tests.support.briefs import LEAST

OPEN = "\n[open_side]\ngap = 8\n"


def read(more):
    return read_brief(f"{LEAST}\n{more}", file="b.toml").design


def faults_in(more):
    with pytest.raises(BadInput) as caught:
        read(more)
    return [(fault.key, fault.seen, fault.rule, fault.hint) for fault in caught.value.faults]


def test_a_gap_alone_is_bridged_by_two_straps_of_the_usual_elastic():
    side = read(OPEN).open_side
    assert (side.waist, side.leg, side.straps, side.strain) == (80.0, 80.0, 2, None)
    assert (side.elastic.name, side.elastic.width) == ("strap elastic 12 mm", 12.0)


def test_a_gap_that_narrows_its_straps_and_their_stretch_are_read_in_the_words_of_the_trade():
    side = read(
        '[open_side]\ngap = { waist = "9 cm", leg = "2 in" }\nstraps = 3\nstrap = "satin"\nworn_stretch = 12\n'
        '[elastic.satin]\nform = "strap"\nwidth = 1\nstretch = 50\n'
    ).open_side
    assert (side.waist, side.leg, side.straps) == (90.0, pytest.approx(50.8), 3)
    assert (side.elastic.name, side.strain) == ("satin", pytest.approx(0.12))


@pytest.mark.parametrize(
    ("finish", "kind"),
    [
        ("", FinishKind.ELASTIC),
        ('front_leg = "binding 8 mm"\n', FinishKind.BINDING),
        ('front_leg = "strap elastic 10 mm"\nwaist = "fold-over elastic 15 mm"\n', FinishKind.FOLD_OVER),
        ('front_leg = "strap elastic 10 mm"\nwaist = "strap elastic 10 mm"\n', FinishKind.HEM),
        ('side = "hem 6 mm"\n', FinishKind.HEM),
    ],
)
def test_its_edges_are_finished_as_said_else_as_the_leg_the_waist_or_with_a_hem(finish, kind):
    assert read(f"[finish]\n{finish}{OPEN}").finishes.side.kind is kind


def test_an_open_side_comes_back_from_its_own_brief():
    design = read(f'[finish]\nside = "binding 7 mm"\n{OPEN}straps = 4\nworn_stretch = 10\n')
    assert_alike(read_brief(dump_brief(to_data(design)), file="b.toml").design, design)


@pytest.mark.parametrize(
    ("more", "key", "rule"),
    [
        ("[open_side]\nstraps = 2\n", "open_side.gap", "is missing"),
        ("[open_side]\ngap = 80\n", "open_side.gap", "must lie between 1 and 30 cm"),
        ("[open_side]\ngap = { waist = 8, leg = 0.5 }\n", "open_side.gap.leg", "must lie between 1 and 30 cm"),
        ("[open_side]\ngap = { waist = 8 }\n", "open_side.gap.leg", "is missing"),
        (f"{OPEN}straps = 0\n", "open_side.straps", "must be a whole number from 1 to 8"),
        (f"{OPEN}straps = 2.5\n", "open_side.straps", "must be a whole number"),
        (f"{OPEN}straps = 1e300\n", "open_side.straps", "sensible size"),
        (f"{OPEN}worn_stretch = 90\n", "open_side.worn_stretch", "must lie between 0 and 50 %"),
        (f'{OPEN}strap = "ribbon"\n', "open_side.strap", "must name an elastic to cut the straps from"),
        (f"{OPEN}strops = 2\n", "open_side.strops", "is not a key that is known here"),
        (f'[finish]\nside = "scallop"\n{OPEN}', "finish.side", "it catches the ends of the straps"),
        ('[finish]\nside = "hem"\n', "finish.side", "needs an open side: give [open_side] its gap"),
    ],
)
def test_what_cannot_be_is_refused_at_its_key(more, key, rule):
    found = faults_in(more)
    assert [one[0] for one in found] == [key]
    assert rule in found[0][2]


def test_straps_are_not_worn_stretched_further_than_their_elastic_goes():
    stiff = '[elastic.stiff]\nform = "strap"\nwidth = 1\nstretch = 20\n'
    found = faults_in(f'{OPEN}strap = "stiff"\nworn_stretch = 30\n{stiff}')
    assert found[0][0] == "open_side.worn_stretch"
    assert "20 % that stiff stretches" in found[0][2]
