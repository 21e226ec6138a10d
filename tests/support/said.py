"""Every sentence the program can say, read from its own text."""

import ast
from functools import cache
from pathlib import Path
from string import Formatter

from galloon.said import Said, Term
from galloon.sewing.words import SAYS

SOURCE = Path("src/galloon")


def fields(template):
    """The names a template puts in."""
    return {name for _, name, _, _ in Formatter().parse(template) if name}


def has_words(template):
    """Whether anything of it is to be put into another language."""
    return any(any(map(str.isalpha, plain)) for plain, *_ in Formatter().parse(template))


@cache
def calls():
    """(module, line, template) of every call of ``said``; the template is None where it is no literal."""
    found = []
    for path in sorted(SOURCE.rglob("*.py")):
        if path.name == "said.py":
            continue
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == "said":
                first = node.args[0] if node.args else None
                text = first.value if isinstance(first, ast.Constant) and isinstance(first.value, str) else None
                found.append((str(path), node.lineno, text))
    return found


@cache
def sentences():
    """Every template by the key that other languages know it by."""
    found = {text: text for _, _, text in calls() if text is not None}
    found["{first} and {last}"] = "{first} and {last}"
    return found | {f"sewing.{key}": text for key, text in SAYS.items()}


def findings():
    """(module, line, what stands for the sentence) of every ``Finding`` that is built."""
    for path in sorted(SOURCE.rglob("*.py")):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == "Finding":
                named = [word.value for word in node.keywords if word.arg == "says"]
                yield str(path), node.lineno, (node.args[2:3] + named)[0]


def leaves(text):
    """The plain words in what is said, which no language changes, and the terms, which each has its own of."""
    if isinstance(text, Said):
        for value in text.fields.values():
            yield from leaves(value)
    elif isinstance(text, Term) or type(text) is str:
        yield text
