"""The report is what its schema says, and the schema in the manual is generated from the same types."""

import json
from pathlib import Path

import pytest

from galloon.report import build_report, report_bytes
from galloon.report.schema import ReportShape, json_schema
from galloon.workflow.job import reckon_design
from tests.support.designs import design, galloon, scalloped

ROOT = Path(__file__).parents[3]


@pytest.fixture(scope="module")
def report():
    return build_report(reckon_design(design(uses=[scalloped("back"), scalloped("front")], lace=galloon(240.0))))


def test_a_report_has_the_shape_its_schema_gives(report):
    ReportShape.model_validate(json.loads(report_bytes(report)))


def test_the_schema_in_the_manual_is_the_generated_one():
    kept = json.loads((ROOT / "docs" / "report.schema.json").read_text())
    assert kept == json_schema(), "run: python scripts/report_schema.py"


def test_the_same_report_gives_the_same_bytes(report):
    assert report_bytes(report) == report_bytes(report)
    assert b"NaN" not in report_bytes(report)


def test_every_partner_of_a_sewn_edge_exists_and_is_as_long(report):
    pieces = {piece["name"]: {edge["name"]: edge for edge in piece["edges"]} for piece in report["pieces"]}
    for piece in report["pieces"]:
        for edge in piece["edges"]:
            if edge["sewn_to"]:
                name, _, other = edge["sewn_to"].partition("/")
                assert pieces[name][other]["length"] == pytest.approx(edge["length"], abs=0.05)
