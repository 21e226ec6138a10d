"""The fixed baseline: the same shapely and numpy calls one job makes, and nothing else, replayed from a file.

``record`` runs a job once and notes every call that reaches the geometry engine under shapely, and every numpy function
called from galloon's own modules, each with its arguments (numpy's operators are not functions and are not noted).
``save`` writes the notes as text to ``baseline.json``; ``replayed`` makes a function that repeats the calls. The ratio
of a job's time to the replay's time says what our own code costs on top of the libraries.
"""

from __future__ import annotations

import inspect
import json
import sys
from collections import Counter
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import numpy as np
import shapely

FILE = Path(__file__).with_name("baseline.json")
#: Decimal places kept of a coordinate in mm: far below any tolerance, and the file stays small.
PLACES = 6
SOURCES = {"shapely": shapely.lib, "numpy": np}


@dataclass
class Notes:
    """Calls in the order made: library, function, arguments; how many could not be written down, by function."""

    calls: list[tuple[str, str, list[Any], dict[str, Any]]] = field(default_factory=list)
    left_out: Counter[str] = field(default_factory=Counter)
    writing: bool = False

    def add(self, library: str, name: str, args: tuple[Any, ...], kwargs: dict[str, Any]) -> None:
        """Writes one call down; turning a geometry into text calls shapely again, which is not noted."""
        if self.writing:
            return
        self.writing = True
        try:
            texts = [_text(it) for it in args], {key: _text(it) for key, it in kwargs.items()}
            self.calls.append((library, name, *texts))
        except TypeError:
            self.left_out[f"{library}.{name}"] += 1
        finally:
            self.writing = False


def record(job: Callable[[], object]) -> Notes:
    """Runs ``job`` once and returns its calls; job should have run before, so that caches are as warm as when timed."""
    notes = Notes()
    with _wrapped("shapely", _engine_functions(), notes), _wrapped("numpy", _numpy_functions(), notes):
        job()
    return notes


def _engine_functions() -> list[str]:
    return [
        name for name, it in vars(shapely.lib).items() if callable(it) and not inspect.isclass(it) and name[0] != "_"
    ]


def _numpy_functions() -> list[str]:
    named = ((name, getattr(np, name)) for name in np.__all__)
    return [name for name, it in named if callable(it) and not inspect.isclass(it)]


@contextmanager
def _wrapped(library: str, names: list[str], notes: Notes) -> Iterator[None]:
    source = SOURCES[library]
    before = {name: getattr(source, name) for name in names}
    for name, function in before.items():
        setattr(source, name, _noting(library, name, function, notes))
    try:
        yield
    finally:
        for name, function in before.items():
            setattr(source, name, function)


def _noting(library: str, name: str, function: Any, notes: Notes) -> Callable[..., Any]:
    def noted(*args: Any, **kwargs: Any) -> Any:
        if library == "shapely" or sys._getframe(1).f_globals.get("__name__", "").startswith("galloon"):
            notes.add(library, name, args, kwargs)
        return function(*args, **kwargs)

    for method in ("reduce", "accumulate", "reduceat", "outer", "at"):
        if hasattr(function, method):
            setattr(noted, method, getattr(function, method))
    return noted


def _text(value: Any) -> Any:
    """A value as JSON can hold it; TypeError for what cannot be repeated from text."""
    if isinstance(value, shapely.Geometry):
        return {"ring" if value.geom_type == "LinearRing" else "wkb": value.wkb_hex}
    if isinstance(value, np.ndarray):
        return (
            {"array": [_text(it) for it in value.tolist()], "dtype": value.dtype.str}
            if value.ndim
            else {"cell": _text(value.item())}
            if value.dtype == object
            else _text(value.item())
        )
    if isinstance(value, list | tuple):
        return {"list": [_text(it) for it in value]}
    if isinstance(value, np.generic):
        return _text(value.item())
    if isinstance(value, complex):
        return {"complex": [round(value.real, PLACES), round(value.imag, PLACES)]}
    if value is None or isinstance(value, bool | int | float | str):
        return value
    raise TypeError(type(value).__name__)


def _value(text: Any) -> Any:
    if isinstance(text, list):
        return [_value(it) for it in text]
    if not isinstance(text, dict):
        return text
    if "ring" in text:
        return shapely.LinearRing(shapely.from_wkb(text["ring"]))
    if "wkb" in text:
        return shapely.from_wkb(text["wkb"])
    if "cell" in text:
        cell = np.empty((), dtype=object)
        cell[()] = _value(text["cell"])
        return cell
    if "complex" in text:
        return complex(*text["complex"])
    if "list" in text:
        return [_value(it) for it in text["list"]]
    return np.array([_value(it) for it in text["array"]], dtype=text["dtype"])


def save(notes: Notes, path: Path = FILE) -> None:
    """Writes the calls as text, one a line."""
    path.write_text("[\n" + ",\n".join(json.dumps(call) for call in notes.calls) + "\n]\n", encoding="utf-8")


def replayed(path: Path = FILE) -> Callable[[], None]:
    """A function that makes the calls of the file again; the arguments are read beforehand, outside its time."""
    calls = [
        (getattr(SOURCES[library], name), [_value(it) for it in args], {key: _value(it) for key, it in kwargs.items()})
        for library, name, args, kwargs in json.loads(path.read_text(encoding="utf-8"))
    ]

    def replay() -> None:
        for function, args, kwargs in calls:
            function(*args, **kwargs)

    return replay
