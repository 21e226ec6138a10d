"""The example briefs, drafted once each."""

from functools import cache
from pathlib import Path

from galloon.brief import load_brief
from galloon.workflow.job import reckon_brief
from galloon.workflow.reckon import make_garment

EXAMPLES = tuple(sorted(path.stem for path in Path("examples").glob("*.toml")))


@cache
def example_garment(name):
    return make_garment(load_brief(f"examples/{name}.toml").design)


@cache
def example_made(name):
    return reckon_brief(f"examples/{name}.toml")
