"""Whatever the program says is said in every language: no sentence without its translation, none left over."""

import ast
import copy
import pickle

import pytest
from hypothesis import given, settings

from galloon.design import GussetPlan, Shape, Use
from galloon.errors import CannotMake
from galloon.ideas.recipes import RECIPES
from galloon.materials.elastics import usual_kinds
from galloon.said import Measure, Said, Term, in_a_row, listed, said
from galloon.sewing import sewing_steps
from galloon.sewing.seams import SeamKind
from galloon.styling.finish_table import FINISH_TABLE, THREE_STEP
from galloon.units import format_length
from galloon.web.words import LANGUAGES, Words, terms
from galloon.web.words import sentences as translated
from galloon.workflow.job import bounds_of
from galloon.workflow.reckon import make_garment
from tests.support.examples import EXAMPLES, example_garment
from tests.support.said import calls, fields, findings, has_words, leaves, sentences
from tests.support.technique_designs import technique_designs

OTHERS = LANGUAGES[1:]
GERMAN = Words("de")


@pytest.mark.parametrize("language", OTHERS)
def test_every_sentence_is_translated_with_the_same_gaps_and_none_is_left_over(language):
    said_here, english = translated(language), sentences()
    assert len(english) > 300
    assert [key for key, text in english.items() if has_words(text) and key not in said_here] == []
    assert sorted(set(said_here) - set(english)) == []
    assert [key for key, text in said_here.items() if fields(text) != fields(english[key])] == []


def test_a_template_stands_in_the_code_word_for_word():
    assert [(module, line) for module, line, text in calls() if text is None] == []


def test_no_finding_is_built_with_words_put_together_on_the_spot():
    built = list(findings())
    assert len(built) > 80
    plain = (ast.Constant, ast.JoinedStr, ast.BinOp)
    assert [(module, line) for module, line, says in built if isinstance(says, plain)] == []


def known(term):
    """Whether German has its own word for a term."""
    return GERMAN.term(term) != term or term in terms("de")


@pytest.mark.parametrize("language", OTHERS)
def test_every_name_the_program_gives_has_a_word(language):
    names = {recipe.name for recipe in RECIPES} | set(usual_kinds()) | {f"{kind} 8 mm" for kind in usual_kinds()}
    names |= {use.value for use in Use} | {shape.value for shape in Shape} | {kind.value for kind in SeamKind}
    names |= {THREE_STEP} | set(FINISH_TABLE)
    for name in EXAMPLES:
        names |= {
            word for piece in example_garment(name).pieces for word in (piece.name, *(e.name for e in piece.edges))
        }
    assert sorted(names - {name for name in names if known(name)} - {SeamKind.JOIN.value, SeamKind.LAID.value}) == []


def is_english(text, design):
    """What of a sentence German would leave as it is, and is no name or key of the maker's."""
    hers = {"", *design.cloths, *(finish.elastic.name for _, finish in design.finishes if finish.elastic)}
    if design.open_side is not None:
        hers.add(design.open_side.elastic.name)
    for word in leaves(text):
        key = "_" in word or word in {plan.value for plan in GussetPlan}
        if word not in hers and not (known(word) if isinstance(word, Term) else key):
            yield word


@pytest.mark.parametrize("name", EXAMPLES)
def test_all_that_is_said_of_an_example_can_be_said_in_german(name):
    garment = example_garment(name)
    told = [finding.says for finding in bounds_of(garment).findings]
    told += [text for step in sewing_steps(garment) for text in (step.title, step.do, step.setting) if text]
    assert [text for text in told if not isinstance(text, Said)] == []
    assert [(text, word) for text in told for word in is_english(text, garment.design)] == []


@settings(max_examples=40, deadline=None)
@given(design=technique_designs())
def test_all_that_is_said_of_any_design_can_be_said_in_german(design):
    try:
        found = bounds_of(make_garment(design)).findings
    except CannotMake:
        return
    assert [finding for finding in found if not isinstance(finding.says, Said)] == []
    assert [(finding.says, word) for finding in found for word in is_english(finding.says, design)] == []


def test_english_is_what_stands_in_the_code_and_german_has_its_own_numbers_and_names():
    text = said(
        "The {panel} lets {share:.0%} of {cloth} show through, {length} of it.",
        panel=Term("front"), share=0.125, cloth="heron", length=format_length(124.0),
    )  # fmt: skip
    assert text == "The front lets 12% of heron show through, 12.4 cm of it."
    assert Words("en").said(text) == text
    assert type(Words("en").said(text)) is str
    drop = said("The {piece} lies on no panel.", piece=Term("back overlay"))
    assert GERMAN.said(drop) == "Überlage hinten: liegt auf keinem Schnittteil."
    assert GERMAN.said(format_length(124.0)) == "12,4\u00a0cm"
    assert GERMAN.said(format_length(698.5, "in")) == "27 1/2\u00a0Zoll"
    assert GERMAN.said(said("at least {lengths}", lengths=Measure("1.5 m"))) == "mindestens 1,5\u00a0m"
    assert GERMAN.said(listed(["a", "b", "c"])) == "a, b und c"


def test_what_is_said_survives_another_process_and_a_copy():
    text = in_a_row(" ", [said("nothing to buy"), Term("front"), format_length(5.0)])
    for copied in (pickle.loads(pickle.dumps(text)), copy.deepcopy(text)):
        assert copied == text == "nothing to buy front 0.5 cm"
        assert GERMAN.said(copied) == "nichts zu kaufen Vorderteil 0,5\u00a0cm"


def test_a_name_of_the_makers_own_is_put_in_as_it_is():
    odd = said("The {lace} lace covers the {panel} up to the waist line.", lace="{front}<b>", panel=Term("front"))
    assert GERMAN.said(odd) == "Vorderteil: Die Spitze {front}<b> reicht bis zur Bundlinie."
    assert GERMAN.said("front") == "front"
