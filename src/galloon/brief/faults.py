"""Gathers every fault of one brief, each with the line of its key, so that all are told at once."""

from __future__ import annotations

import difflib
from collections.abc import Callable, Collection, Iterable, Iterator, Mapping
from contextlib import contextmanager
from types import MappingProxyType
from typing import Any, Final, NoReturn, TypeVar

from galloon.brief.lines import KeyPath, key_lines, line_of
from galloon.errors import BadInput, BadValue, Fault, show
from galloon.said import said

#: More faults than this are counted, not listed.
MOST_LISTED: Final = 60
T = TypeVar("T")
#: Keys of the brief that the value objects call otherwise, and fields that answer to a key of another name.
_KEY_OF: Final[Mapping[str, str]] = {"shrink_length": "shrink.length", "shrink_width": "shrink.width"}
_FIELD_OF: Final[Mapping[str, str]] = {"side_seam": "side_forward"}
_NOTHING: Final[Mapping[str, str]] = MappingProxyType({})


class Faults:
    """The faults of the brief ``text`` whose data is ``data``; lines are looked up only if there are any.

    ``unit_at`` tells what stands behind a bare number in a message.
    """

    def __init__(
        self, file: str, text: str, data: Mapping[str, Any], *, unit_at: Callable[[KeyPath], str] = lambda path: ""
    ) -> None:
        self.file = file
        self.text = text
        self.data = data
        self.unit_at = unit_at
        self.found: dict[tuple[KeyPath, str, str], str] = {}
        self.more = 0

    def add(self, path: KeyPath, rule: str, *, seen: str = "", hint: str = "") -> None:
        """One more fault at ``path``; the same said twice counts once."""
        key = (self.known(path), seen, rule)
        if len(self.found) < MOST_LISTED or key in self.found:
            self.found.setdefault(key, hint)
        else:
            self.more += 1

    def refuse(self, path: KeyPath, rule: str, *, hint: str = "") -> None:
        """One more fault at ``path``, showing what the brief says there."""
        self.add(path, rule, seen=self.seen(path), hint=hint)

    def missing(self, path: KeyPath, hint: str = "") -> None:
        """A key that is needed and not there; one that is there and faulty has been told already."""
        if not self.within(path):
            self.found.setdefault((path, "", said("is missing")), hint)

    def unknown(self, path: KeyPath, what: str, known: Iterable[str]) -> None:
        """The text at ``path`` names ``what`` and none of the known names; the nearest is suggested."""
        names = list(known)
        told = nearest(str(self.value(path)), names) or _listed(names)
        self.refuse(path, said("must name {what}", what=what), hint=told)

    @contextmanager
    def at(self, path: KeyPath, rename: Mapping[str, str] = _NOTHING) -> Iterator[None]:
        """Turns a BadValue raised inside into a fault at its subject's key below ``path``."""
        try:
            yield
        except BadValue as error:
            self._refused(path, error, rename)

    def _refused(self, path: KeyPath, error: BadValue, rename: Mapping[str, str] = _NOTHING) -> None:
        subject = rename.get(error.subject, _KEY_OF.get(error.subject, error.subject))
        parts = tuple(part for part in subject.split(".") if part)
        here = [part for part in path if isinstance(part, str)]
        below = parts[1:] if here and parts[:1] == (here[-1],) else parts
        whole = (*path, *below)
        self.add(whole, error.rule, seen=self.seen(whole) or show(error.seen))

    def make(
        self, path: KeyPath, kind: Callable[..., T], values: Mapping[str, Any], spare: Mapping[str, Any] = _NOTHING
    ) -> T | None:
        """A ``kind`` of the values; None, with a fault for each value that it refuses.

        A refused value gives way to its spare (None unless said), so that the next fault comes to light as well.
        """
        held = dict(values)
        mended: set[str] = set()
        while True:
            try:
                made = kind(**held)
            except BadValue as error:
                self._refused(path, error)
                field = _field(error, held)
                if field is None or field in mended:
                    return None
                mended.add(field)
                held[field] = spare.get(field)
            else:
                return None if mended else made

    def within(self, path: KeyPath) -> bool:
        """Whether any fault lies at ``path`` or below it."""
        return any(known[: len(path)] == path for known, _, _ in self.found)

    def value(self, path: KeyPath) -> Any:
        """What the brief says at ``path``, None where it says nothing."""
        value: Any = self.data
        for part in self.known(path):
            value = _inside(value, part)
        return value

    def seen(self, path: KeyPath) -> str:
        """The value at ``path`` as the maker wrote it, a bare number with the unit it was taken in."""
        value = self.value(path)
        if isinstance(value, bool):
            return str(value).lower()
        if isinstance(value, int | float):
            return f"{_number(value)} {self.unit_at(path)}".rstrip()
        return "" if value is None else show(_kind(value))

    def told(self) -> tuple[Fault, ...]:
        """The faults in the order of their lines."""
        lines = key_lines(self.text)
        faults = [
            Fault(self.file, line_of(lines, path), shown(path), seen, rule, hint)
            for (path, seen, rule), hint in self.found.items()
        ]
        faults.sort(key=lambda fault: (fault.line or 0, fault.key))
        if self.more:
            faults.append(
                Fault(self.file, None, "brief", "", said("has {count} more faults, not listed here", count=self.more))
            )
        return tuple(faults)

    def known(self, path: KeyPath) -> KeyPath:
        """The path as the brief has it: what was written as one value or one table has no places inside."""
        around: Any = self.data
        kept: KeyPath = ()
        for part in path:
            if isinstance(around, Mapping) and isinstance(part, int):
                continue
            if around is not None and not isinstance(around, Mapping | list):
                break
            kept = (*kept, part)
            around = _inside(around, part)
        return kept


def nearest(word: str, known: Collection[str]) -> str:
    """A question that offers the known word nearest to ``word``, empty if none is near."""
    close = difflib.get_close_matches(word[:80].lower(), [name[:80].lower() for name in known], 1, 0.6)
    names = {name[:80].lower(): name for name in known}
    return said("Did you mean {name}?", name=show(names[close[0]])) if close else ""


def shown(path: KeyPath) -> str:
    """A path as a maker reads it: ``cloth.heron.width``, ``lace[1].panel`` (places counted from 1)."""
    text = ""
    for part in path:
        text += f"[{part + 1}]" if isinstance(part, int) else f".{show(part)}" if text else show(part)
    return text or "brief"


def refuse_text(file: str, line: int | None, rule: str, *, hint: str = "", seen: str = "") -> NoReturn:
    """Raises BadInput with the one fault that keeps a text from being read at all."""
    raise BadInput((Fault(file, line, "brief", seen, rule, hint),))


def _field(error: BadValue, held: Mapping[str, Any]) -> str | None:
    """The field that the error is about, None if it is about no single one."""
    last = error.subject.split(".")[-1]
    return next((name for name in (last, _FIELD_OF.get(last, last)) if name in held), None)


def _inside(around: Any, part: str | int) -> Any:
    try:
        return around[part]
    except (KeyError, IndexError, TypeError):
        return None


def _listed(names: list[str]) -> str:
    few = ", ".join(show(name) for name in names[:12])
    few += ", …" if len(names) > 12 else ""
    return said("Known: {names}.", names=few) if names else said("There is none.")


def _kind(value: Any) -> Any:
    return "a table" if isinstance(value, Mapping) else "a list" if isinstance(value, list) else value


def _number(value: int | float) -> str:
    if isinstance(value, int):
        return str(value) if abs(value) < 10**15 else "a number of more than 15 digits"
    return f"{value:.10g}"
