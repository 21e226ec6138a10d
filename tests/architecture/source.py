"""The program's source as syntax trees, and the files of the project, for the tests that read them."""

from __future__ import annotations

import ast
import shutil
import subprocess
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from pathlib import Path

ROOT = Path(__file__).parents[2]
PACKAGE = ROOT / "src" / "galloon"
FunctionNode = ast.FunctionDef | ast.AsyncFunctionDef


@dataclass(frozen=True)
class Module:
    """One module: dotted name, its text and tree."""

    name: str
    text: str
    tree: ast.Module
    is_package: bool = False

    @property
    def part(self) -> str:
        """The folder or file right under the package: ``units``, ``cli``; empty for the package itself."""
        return part_of(self.name)


def part_of(name: str) -> str:
    """``galloon.cli.group`` is in ``cli``; ``galloon`` itself in no part."""
    return [*name.split("."), ""][1]


@cache
def modules() -> dict[str, Module]:
    """Every module under the package by its dotted name."""
    found = {}
    for path in sorted(PACKAGE.rglob("*.py")):
        steps = path.relative_to(PACKAGE.parent).with_suffix("").parts
        is_package = steps[-1] == "__init__"
        name = ".".join(steps[:-1] if is_package else steps)
        text = path.read_text(encoding="utf-8")
        found[name] = Module(name, text, ast.parse(text, str(path)), is_package)
    return found


def imported(module: Module, known: frozenset[str], *, loading: bool = False) -> set[str]:
    """The modules of the package that this one imports; only those imported while it loads if ``loading``."""
    nodes = _loading(module.tree) if loading else ast.walk(module.tree)
    return {target for node in nodes for target in _targets(node, module, known)}


def _targets(node: ast.AST, module: Module, known: frozenset[str]) -> Iterator[str]:
    if isinstance(node, ast.Import):
        yield from (alias.name for alias in node.names if alias.name.split(".")[0] == "galloon")
    elif isinstance(node, ast.ImportFrom):
        base = _base(node, module)
        if base.split(".")[0] == "galloon":
            inner = (f"{base}.{alias.name}" for alias in node.names)
            yield from (name if name in known else base for name in inner)


def _base(node: ast.ImportFrom, module: Module) -> str:
    if not node.level:
        return node.module or ""
    steps = module.name.split(".")
    kept = steps[: len(steps) - node.level + (1 if module.is_package else 0)]
    return ".".join([*kept, *([node.module] if node.module else [])])


def _loading(node: ast.AST) -> Iterator[ast.AST]:
    """Nodes that run while a module loads: not inside functions, not under TYPE_CHECKING."""
    for child in ast.iter_child_nodes(node):
        if isinstance(child, FunctionNode | ast.Lambda):
            continue
        if isinstance(child, ast.If) and "TYPE_CHECKING" in ast.unparse(child.test):
            yield from (inner for other in child.orelse for inner in (other, *_loading(other)))
            continue
        yield child
        yield from _loading(child)


def functions(tree: ast.AST) -> Iterator[FunctionNode]:
    """Every function and method, nested ones too."""
    return (node for node in ast.walk(tree) if isinstance(node, FunctionNode))


def public_functions(tree: ast.Module) -> Iterator[FunctionNode]:
    """Functions of the module and methods of its public classes whose names have no leading underscore."""
    for node in tree.body:
        inside = node.body if isinstance(node, ast.ClassDef) and not node.name.startswith("_") else [node]
        yield from (it for it in inside if isinstance(it, FunctionNode) and not it.name.startswith("_"))


def body_lines(function: FunctionNode) -> int:
    """Lines of the body, the docstring apart."""
    body = function.body[1:] if ast.get_docstring(function, clean=False) is not None else function.body
    return (body[-1].end_lineno or 0) - body[0].lineno + 1 if body else 0


def unannotated(function: FunctionNode, *, method: bool) -> list[str]:
    """Names of the parameters without a type; ``return`` where the result has none."""
    every = function.args
    named = [*every.posonlyargs, *every.args]
    if method and named and not any(ast.unparse(it) == "staticmethod" for it in function.decorator_list):
        named = named[1:]
    rest = [arg for arg in (every.vararg, every.kwarg) if arg]
    bare = [arg.arg for arg in (*named, *every.kwonlyargs, *rest) if arg.annotation is None]
    return bare + ([] if function.returns else ["return"])


def methods(tree: ast.AST) -> set[FunctionNode]:
    """The functions that stand directly in a class."""
    classes = (node for node in ast.walk(tree) if isinstance(node, ast.ClassDef))
    return {node for cls in classes for node in cls.body if isinstance(node, FunctionNode)}


def project_files() -> list[Path]:
    """The files git tracks; in a tree without git, everything that is not made by running the program."""
    if shutil.which("git"):
        listed = subprocess.run(["git", "ls-files", "-z"], cwd=ROOT, capture_output=True, check=False)
        names = [name for name in listed.stdout.decode().split("\0") if name]
        if names:
            return [path for path in map(ROOT.joinpath, names) if path.is_file()]
    return [path for path in ROOT.rglob("*") if path.is_file() and not _made(path.relative_to(ROOT))]


def _made(path: Path) -> bool:
    """Whether the file is made by running, installing or testing the program."""
    folders = path.parts[:-1]
    hidden = any(name.startswith(".") and name != ".ci" for name in folders)
    return (
        hidden
        or path.parts[0] in {"out", "build", "dist"}
        or any(name == "__pycache__" or name.endswith(".egg-info") for name in folders)
    )
