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
from galloon.said import said

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
                self.faults.missing((key,), said("Every brief has a table [{key}].", key=key))
            return None
        return self._checked(self.data[key], (key,), kind)

    def named(self, key: str, kind: type[T]) -> Iterator[tuple[str, T | None]]:
        """Each name in ``key`` with its table, None where that is faulty."""
        tables = self.data.get(key, {})
        if not isinstance(tables, Mapping):
            self.faults.refuse(
                (key,), said("must hold one table for each name"), hint=said("Write [{key}.NAME].", key=key)
            )
            return
        for name, table in tables.items():
            with self.faults.at((key, name), rename={"": "name"}):
                read_name(name)
                yield name, None if table is None else self._checked(table, (key, name), kind)

    def listed(self, key: str, kind: type[T]) -> Iterator[tuple[int, T]]:
        """Each sound table of the list ``key`` with its place."""
        tables = self.data.get(key, [])
        if not isinstance(tables, list):
            self.faults.refuse(
                (key,), said("must be a list of tables"), hint=said("Write [[{key}]], with two brackets.", key=key)
            )
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
        faults.missing(path, said("{table} needs it.", table=shown(path[:-1])))
    elif one["type"] == "extra_forbidden":
        _unknown(faults, path)
    else:
        faults.refuse(path, _SHAPES.get(one["type"], said("is not what belongs here")), hint=_size_hint(one))


#: What pydantic calls a value of the wrong make, in a maker's words.
_SHAPES = {
    "model_type": said("must be a table"),
    "model_attributes_type": said("must be a table"),
    "list_type": said("must be a list"),
    "too_short": said("has too few items"),
    "too_long": said("has too many items"),
}


def _size_hint(one: Any) -> str:
    least, most = (one.get("ctx", {}).get(key) for key in ("min_length", "max_length"))
    if least is not None and most is not None:
        return said("It takes at least {least} and at most {most}.", least=least, most=most)
    if least is not None:
        return said("It takes at least {least}.", least=least)
    return said("It takes at most {most}.", most=most) if most is not None else ""


def _unknown(faults: Faults, path: KeyPath) -> None:
    known = schema.keys_at(path[:-1])
    hint = nearest(str(path[-1]), known) or said("Known here: {names}.", names=", ".join(known))
    faults.add(path, said("is not a key that is known here"), hint=hint)
