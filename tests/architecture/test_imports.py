"""Imports run one way through the house, as the table in docs/architecture.md draws it."""

import ast
import re
import subprocess
import sys
from graphlib import CycleError, TopologicalSorter

import pytest

from tests.architecture.source import ROOT, Module, imported, modules, part_of

HEAVY = (
    "cv2 ezdxf jinja2 lxml numpy ortools pandas pikepdf PIL pydantic reportlab scipy shapely spyrrow starlette uvicorn"
)
FOOT = {"errors", "units", "tolerance", "findings", "defaults"}
#: Parts that must not learn what a garment is, and all that they may import.
NEUTRAL = {"geometry": FOOT, "drawing": FOOT | {"geometry"}, "export": FOOT | {"geometry", "drawing"}}


def table_of_ranks(text):
    """Part name to rank, from the rows ``| 3 | `body`, `materials` | ... |``."""
    rows = re.findall(r"^\| *(\d+) *\| *((?:`\w+`(?:, )?)+) *\|", text, re.MULTILINE)
    return {part: int(rank) for rank, parts in rows for part in re.findall(r"`(\w+)`", parts)}


RANKS = table_of_ranks((ROOT / "docs" / "architecture.md").read_text(encoding="utf-8")) | {"__main__": 99}
KNOWN = frozenset(modules())


def wrong_ways(module, ranks):
    """Imports of ``module`` that do not lead strictly down, or lead where there is no rank."""
    for target in sorted(imported(module, KNOWN)):
        part = part_of(target)
        if part not in ("", module.part) and ranks.get(part, 99) >= ranks.get(module.part, -1):
            yield f"{module.name} imports {target}"


def load_graph(all_modules):
    """Module to the modules loaded while it loads; a package met on the way to its own member is already loading."""
    known = frozenset(all_modules)
    graph = {}
    for name, module in all_modules.items():
        targets = imported(module, known, loading=True) & known
        packages = {".".join(t.split(".")[:n]) for t in targets for n in range(1, t.count(".") + 1)}
        graph[name] = {t for t in (targets | packages) & known if not f"{name}.".startswith(f"{t}.")}
    return graph


def module(name, text):
    return Module(name, text, ast.parse(text))


def test_the_table_ranks_every_part_of_the_program_and_the_parts_it_was_planned_with():
    parts = {each.part for each in modules().values()} - {""}
    assert sorted(parts - set(RANKS)) == [], "give these a row in docs/architecture.md"
    assert RANKS["errors"] < RANKS["geometry"] < RANKS["drafting"] < RANKS["pieces"] < RANKS["cli"]


def test_a_module_imports_strictly_lower_ranks_only():
    assert [fault for each in modules().values() for fault in wrong_ways(each, RANKS)] == []


def test_the_package_itself_imports_nothing_of_ours():
    assert imported(modules()["galloon"], KNOWN) == set()


@pytest.mark.parametrize("part", NEUTRAL)
def test_parts_that_know_no_garment_import_none(part):
    seen = {
        f"{each.name} imports {target}"
        for each in modules().values()
        if each.part == part
        for target in imported(each, KNOWN)
        if part_of(target) not in NEUTRAL[part] | {"", part}
    }
    assert seen == set()


def test_no_module_reaches_itself_through_imports_made_while_loading():
    try:
        TopologicalSorter(load_graph(modules())).prepare()
    except CycleError as error:
        pytest.fail(f"cycle: {' <- '.join(error.args[1])}")


def test_starting_the_command_line_loads_no_heavy_library():
    code = "import sys, galloon.cli; print(*{name.partition('.')[0] for name in sys.modules})"
    loaded = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True).stdout.split()
    assert "click" in loaded
    assert sorted(set(loaded) & set(HEAVY.split())) == []


@pytest.mark.parametrize(
    ("name", "text", "wrong"),
    [
        ("galloon.geometry.line", "from galloon.errors import BadValue", False),
        ("galloon.errors", "from galloon.units import parse_length", True),
        ("galloon.body.model", "from galloon.materials import Lace", True),
        ("galloon.body.model", "from galloon.body.plausible import unusual", False),
        ("galloon.units", "def late():\n    import galloon.cli", True),
        ("galloon.units", "from galloon import __version__", False),
    ],
)
def test_the_reading_of_imports_tells_up_from_down(name, text, wrong):
    assert bool(list(wrong_ways(module(name, text), RANKS))) is wrong


def test_the_reading_of_cycles_finds_one_and_forgives_imports_inside_functions():
    there, back, late = "from galloon.b import y", "import galloon.a", "def f():\n    import galloon.a"
    looped = {"galloon.a": module("galloon.a", there), "galloon.b": module("galloon.b", back)}
    with pytest.raises(CycleError):
        TopologicalSorter(load_graph(looped)).prepare()
    TopologicalSorter(load_graph(looped | {"galloon.b": module("galloon.b", late)})).prepare()
