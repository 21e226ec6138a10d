"""Every module is small, explained and annotated; every package's public names are listed and there."""

import ast
import importlib

import pytest

from tests.architecture.source import (
    body_lines,
    functions,
    methods,
    modules,
    public_functions,
    unannotated,
)

MODULE_LINES = 400
BODY_LINES = 40


def listing_order(name):
    """Constants, then classes, then functions, each by the alphabet: the order ruff's RUF022 keeps."""
    return (0 if name.isupper() else 1 if name[:1].isupper() else 2, name)


def test_every_module_says_what_it_is_for():
    assert [name for name, module in modules().items() if not ast.get_docstring(module.tree)] == []


def test_no_module_is_longer_than_the_limit():
    lengths = {name: len(module.text.splitlines()) for name, module in modules().items()}
    assert {name: lines for name, lines in lengths.items() if lines > MODULE_LINES} == {}


def test_no_function_body_is_longer_than_the_limit():
    bodies = {f"{n}.{f.name}": body_lines(f) for n, module in modules().items() for f in functions(module.tree)}
    assert {name: lines for name, lines in bodies.items() if lines > BODY_LINES} == {}


def test_every_public_function_explains_itself():
    silent = [
        f"{name}.{function.name}"
        for name, module in modules().items()
        for function in public_functions(module.tree)
        if not ast.get_docstring(function)
    ]
    assert silent == []


def test_everything_is_annotated():
    bare = {}
    for name, module in modules().items():
        inside = methods(module.tree)
        for function in functions(module.tree):
            if missing := unannotated(function, method=function in inside):
                bare[f"{name}.{function.name}"] = missing
    assert bare == {}


@pytest.mark.parametrize("name", [name for name, each in modules().items() if each.is_package and name != "galloon"])
def test_the_front_door_of_a_package_is_sorted_and_opens(name):
    package = importlib.import_module(name)
    assert list(package.__all__) == sorted(package.__all__, key=listing_order)
    assert [public for public in package.__all__ if not hasattr(package, public)] == []


def test_the_measures_see_a_fault_where_there_is_one():
    tree = ast.parse('class A:\n    def m(self, x):\n        """Doc."""\n        y = 1\n\n        return y\n')
    (method,) = functions(tree)
    assert body_lines(method) == 3
    assert unannotated(method, method=True) == ["x", "return"]
    assert [each.name for each in public_functions(tree)] == ["m"]
