"""Designs on the table: plain brief data with undo and redo, every change kept on the shelf at once."""

from __future__ import annotations

import copy
import secrets
import threading
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from itertools import pairwise
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final

from galloon.brief import Brief, brief_from, starter_brief
from galloon.materials import LacePicture
from galloon.pieces import Garment
from galloon.store import ShelfOnDemand, add, change, list_things, open_shelf, put_picture, remove, show_thing
from galloon.workflow.reckon import make_garment

if TYPE_CHECKING:
    from galloon.reading import LevelView

#: Views of laces held until they are kept.
_VIEWS: Final = 3
#: One change: the keys that lead to a value of the brief, and the value; None takes it out.
Change = tuple[tuple[str | int, ...], Any]
Data = Mapping[str, Any]


@dataclass
class Document:
    """One design while the program runs: its data now, what it was before, and what was undone; ``version`` grows."""

    name: str
    data: dict[str, Any]
    version: int = 1
    past: list[dict[str, Any]] = field(default_factory=list)
    future: list[dict[str, Any]] = field(default_factory=list)
    drafted: tuple[int, Garment] | None = None


def changed(data: Data, changes: Sequence[Change]) -> dict[str, Any]:
    """``data`` with the changes made; tables on the way are made where they are missing."""
    done: dict[str, Any] = copy.deepcopy(dict(data))
    for path, value in changes:
        place: Any = done
        for key, following in pairwise(path):
            if isinstance(place, list):
                place = place[int(key)]
            else:
                if not isinstance(place.get(key), dict | list):
                    place[key] = [] if isinstance(following, int) else {}
                place = place[key]
        _put(place, path[-1], value)
    return done


def _put(place: Any, key: str | int, value: Any) -> None:
    if isinstance(place, list):
        index = int(key)
        if value is None:
            del place[index]
        elif index == len(place):
            place.append(value)
        else:
            place[index] = value
    elif value is None:
        place.pop(key, None)
    else:
        place[key] = value


class Desk:
    """All designs of one shelf. One lock guards them: a change is whole before the next begins.

    ``found`` holds what the last look for ideas found, by design, so that one can be begun; ``jobs`` what ends a
    design's long jobs.
    """

    def __init__(self, shelf: Path | None) -> None:
        self.shelf = shelf
        self.found: dict[str, list[dict[str, Any]]] = {}
        self.jobs: dict[str, list[threading.Event]] = {}
        self._open: dict[str, Document] = {}
        self._pictures: dict[str, bytes] = {}
        self._views: dict[str, LevelView] = {}
        self._lock = threading.RLock()

    def names(self) -> list[str]:
        """The designs on the shelf."""
        with open_shelf(self.shelf) as shelf:
            return [thing.name for thing in list_things(shelf, "brief")]

    def things(self, kind: str) -> list[tuple[str, Data]]:
        """Name and data of everything of one kind on the shelf."""
        with open_shelf(self.shelf) as shelf:
            return [(thing.name, thing.data) for thing in list_things(shelf, kind)]

    def start(self, name: str, data: Data | None = None) -> Document:
        """A new design from the starter brief, or from ``data``. Raises BadInput where the name is taken."""
        if data is None:
            import tomllib

            data = {**tomllib.loads(starter_brief()), "title": name}
        with self._lock:
            with open_shelf(self.shelf) as shelf:
                add(shelf, "brief", name, data)
            return self.document(name)

    def document(self, name: str) -> Document:
        """The design of that name. Raises BadInput where there is none."""
        with self._lock:
            if name not in self._open:
                with open_shelf(self.shelf) as shelf:
                    self._open[name] = Document(name, dict(show_thing(shelf, "brief", name).data))
            return self._open[name]

    def garment(self, name: str) -> Garment:
        """The garment of a design as it is kept, drafted once for each version. Raises BadInput, CannotMake."""
        document = self.document(name)
        drafted = document.drafted
        if drafted is None or drafted[0] != document.version:
            version = document.version
            drafted = (version, make_garment(self.read(document.data).design))
            document.drafted = drafted
        return drafted[1]

    def forget(self, name: str) -> None:
        """Takes a design off the shelf."""
        with self._lock:
            with open_shelf(self.shelf) as shelf:
                remove(shelf, "brief", name)
            self._open.pop(name, None)

    def read(self, data: Data) -> Brief:
        """The data as a brief; it may name things on the shelf. Raises BadInput with every fault."""
        return brief_from(data, file="this design", shelf=self._lookup())

    def _lookup(self) -> ShelfOnDemand:
        return ShelfOnDemand(self.shelf, self._pictures)

    def hold(self, view: LevelView) -> str:
        """Holds the view of a lace that was read until it is kept, the newest few; what to ask for it by."""
        with self._lock:
            mark = secrets.token_urlsafe(9)
            self._views[mark] = view
            for old in list(self._views)[:-_VIEWS]:
                del self._views[old]
            return mark

    def held(self, mark: object) -> LevelView | None:
        """The view held under ``mark``, None where there is none any more."""
        return self._views.get(mark) if isinstance(mark, str) else None

    def put_picture(self, picture: LacePicture) -> str:
        """Keeps a lace's picture on the shelf; what a brief calls it."""
        with open_shelf(self.shelf) as shelf:
            return put_picture(shelf, picture)

    def picture(self, name: str) -> bytes | None:
        """The PNG file of a lace's picture."""
        return self._lookup().picture(name)

    def tried(self, name: str, changes: Sequence[Change]) -> dict[str, Any]:
        """The design's data with changes that are not kept."""
        with self._lock:
            return changed(self.document(name).data, changes)

    def keep(self, name: str, changes: Sequence[Change]) -> Document:
        """Makes the changes to the newest data and keeps them. Raises BadInput, nothing changed, for a bad brief."""
        with self._lock:
            document = self.document(name)
            data = changed(document.data, changes)
            if data == document.data:
                return document
            self.read(data)
            self._write(name, data)
            document.past.append(document.data)
            document.future.clear()
            document.data, document.version = data, document.version + 1
            return document

    def undo(self, name: str) -> Document:
        """The design as it was before its last change; as it is where there is none."""
        return self._turn(name, "past", "future")

    def redo(self, name: str) -> Document:
        """The last change that was undone, made again."""
        return self._turn(name, "future", "past")

    def shelve(self, name: str, kind: str, called: str) -> None:
        """Keeps a design's wearer or one of its cloths on the shelf under ``called``. Raises BadInput."""
        data = self.document(name).data
        table = data.get("wearer", {}) if kind == "wearer" else data.get("cloth", {}).get(called, {})
        with open_shelf(self.shelf) as shelf:
            known = {thing.name for thing in list_things(shelf, kind)}
            told = {**table, "units": data.get("units", "cm")}
            (change if called in known else add)(shelf, kind, called, told)

    def _turn(self, name: str, source: str, target: str) -> Document:
        with self._lock:
            document = self.document(name)
            stack: list[dict[str, Any]] = getattr(document, source)
            if stack:
                data = stack[-1]
                self._write(name, data)
                stack.pop()
                getattr(document, target).append(document.data)
                document.data, document.version = data, document.version + 1
            return document

    def _write(self, name: str, data: Data) -> None:
        with open_shelf(self.shelf) as shelf:
            old = show_thing(shelf, "brief", name)
            change(shelf, "brief", name, {**dict.fromkeys(old.data), **data})
