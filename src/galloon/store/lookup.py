"""The shelf as a brief sees it: wearers, cloths, elastics and blocks by name."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Any

from galloon.store.pictures import picture_png
from galloon.store.shelf import Shelf, default_path, open_shelf
from galloon.store.things import find
from galloon.store.trouble import refuse


class ShelfLookup:
    """Answers a brief's names from an open shelf; a ``galloon.brief.Lookup``."""

    def __init__(self, shelf: Shelf) -> None:
        self.shelf = shelf

    def wearer(self, name: str) -> Mapping[str, Any] | None:
        """The keys of ``[wearer]``."""
        return self._data("wearer", name)

    def cloth(self, name: str) -> Mapping[str, Any] | None:
        """The keys of ``[cloth.NAME]``."""
        return self._data("cloth", name)

    def elastic(self, name: str) -> Mapping[str, Any] | None:
        """The keys of ``[elastic.NAME]``."""
        return self._data("elastic", name)

    def block(self, name: str) -> Mapping[str, Any] | None:
        """The keys of ``[block]``."""
        return self._data("block", name)

    def picture(self, name: str) -> bytes | None:
        """The image file of a lace's picture."""
        return picture_png(self.shelf, name)

    def _data(self, kind: str, name: str) -> Mapping[str, Any] | None:
        found = find(self.shelf, kind, name)
        return None if found is None else found.data


class ShelfOnDemand(ShelfLookup):
    """The same, opening the file at ``path`` (the user's own unless given) only when a name is looked up; ``pictures``
    holds those looked up before.
    """

    def __init__(self, path: Path | None = None, pictures: dict[str, bytes] | None = None) -> None:
        self.path = path
        self.pictures = {} if pictures is None else pictures

    def picture(self, name: str) -> bytes | None:
        """The image file of a lace's picture."""
        if name not in self.pictures and (self.path or default_path()).exists():
            with open_shelf(self.path) as shelf:
                found = picture_png(shelf, name)
            if found is not None:
                self.pictures[name] = found
        return self.pictures.get(name)

    def _data(self, kind: str, name: str) -> Mapping[str, Any] | None:
        if not (self.path or default_path()).exists():
            if self.path is not None:
                refuse("shelf", "is not there", file=str(self.path), hint="To begin one: galloon shelf add.")
            return None
        with open_shelf(self.path) as shelf:
            found = find(shelf, kind, name)
        return None if found is None else found.data
