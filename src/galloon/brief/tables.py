"""Checks the data of a brief table by table against the known keys, and turns what is wrong into faults."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any, TypeVar

from pydantic import ValidationError

from galloon.brief import schema
from galloon.brief.faults import Faults, nearest, shown
from galloon.brief.fields import WrongWord, read_name
from galloon.brief.lines import KeyPath
from galloon.errors import BadValue, show

T = TypeVar("T", bound=schema.Table)


@dataclass(frozen=True)
class Reader:
    """The data under check, the brief's unit, and where faults go."""

    data: Mapping[str, Any]
    units: str
    faults: Faults

    def single(self, key: str, kind: type[T], *, needed: bool = False) -> T | None:
        """The table ``key``; None where it is left out or faulty."""
        if self.data.get(key) is None:
            if needed and not self.faults.within((key,)):
                self.faults.missing((key,), f"Every brief has a table [{key}].")
            return None
        return self._checked(self.data[key], (key,), kind)

    def named(self, key: str, kind: type[T]) -> Iterator[tuple[str, T | None]]:
        """Each name in ``key`` with its table, None where that is faulty."""
        tables = self.data.get(key, {})
        if not isinstance(tables, Mapping):
            self.faults.refuse((key,), "must hold one table for each name", hint=f"Write [{key}.NAME].")
            return
        for name, table in tables.items():
            with self.faults.at((key, name), rename={"": "name"}):
                read_name(name)
                yield name, None if table is None else self._checked(table, (key, name), kind)

    def listed(self, key: str, kind: type[T]) -> Iterator[tuple[int, T]]:
        """Each sound table of the list ``key`` with its place."""
        tables = self.data.get(key, [])
        if not isinstance(tables, list):
            self.faults.refuse((key,), "must be a list of tables", hint=f"Write [[{key}]], with two brackets.")
            return
        for place, table in enumerate(tables):
            checked = self._checked(table, (key, place), kind)
            if checked is not None:
                yield place, checked

    def top(self) -> None:
        """Refuses keys that are no table of a brief."""
        for key in self.data:
            if key not in (*schema.PLAIN, *schema.tables()):
                _unknown(self.faults, (key,))

    def _checked(self, table: Any, path: KeyPath, kind: type[T]) -> T | None:
        try:
            return kind.model_validate(table, context={"units": self.units})
        except ValidationError as error:
            for one in error.errors(include_url=False):
                _report(self.faults, (*path, *one["loc"]), one)
            return _mended(table, kind, error, self.units)


def _mended(table: Any, kind: type[T], error: ValidationError, units: str) -> T | None:
    """The table without its faulty keys, so that what else is wrong comes to light; None if it needs those."""
    if not isinstance(table, Mapping):
        return None
    faulty = {one["loc"][0] for one in error.errors(include_url=False) if one["loc"]}
    sound = {key: value for key, value in table.items() if key not in faulty}
    try:
        return kind.model_validate({**kind.stand_in, **sound}, context={"units": units})
    except ValidationError:
        return None


def _report(faults: Faults, path: KeyPath, one: Any) -> None:
    cause = one.get("ctx", {}).get("error")
    if isinstance(cause, BadValue):
        hint = nearest(str(cause.seen), cause.offered) if isinstance(cause, WrongWord) else ""
        faults.add(path, cause.rule, seen=faults.seen(path) or show(cause.seen), hint=hint)
    elif one["type"] == "missing":
        faults.missing(path, f"{shown(path[:-1])} needs it.")
    elif one["type"] == "extra_forbidden":
        _unknown(faults, path)
    else:
        faults.refuse(path, _SHAPES.get(one["type"], "is not what belongs here"), hint=_size_hint(one))


#: What pydantic calls a value of the wrong make, in a maker's words.
_SHAPES = {
    "model_type": "must be a table",
    "model_attributes_type": "must be a table",
    "list_type": "must be a list",
    "too_short": "has too few items",
    "too_long": "has too many items",
}


def _size_hint(one: Any) -> str:
    ctx = one.get("ctx", {})
    words = {"min_length": "at least", "max_length": "at most"}
    limits = [f"{word} {ctx[key]}" for key, word in words.items() if key in ctx]
    return f"It takes {' and '.join(limits)}." if limits else ""


def _unknown(faults: Faults, path: KeyPath) -> None:
    known = schema.keys_at(path[:-1])
    hint = nearest(str(path[-1]), known) or f"Known here: {', '.join(known)}."
    faults.add(path, "is not a key that is known here", hint=hint)
