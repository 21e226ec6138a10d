"""The shelf as a brief sees it: wearers, cloths, elastics and blocks by name."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Any

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

    def _data(self, kind: str, name: str) -> Mapping[str, Any] | None:
        found = find(self.shelf, kind, name)
        return None if found is None else found.data


class ShelfOnDemand(ShelfLookup):
    """The same, opening the file at ``path`` (the user's own unless given) only when a name is looked up."""

    def __init__(self, path: Path | None = None) -> None:
        self.path = path

    def _data(self, kind: str, name: str) -> Mapping[str, Any] | None:
        if not (self.path or default_path()).exists():
            if self.path is not None:
                refuse("shelf", "is not there", file=str(self.path), hint="To begin one: galloon shelf add.")
            return None
        with open_shelf(self.path) as shelf:
            found = find(shelf, kind, name)
        return None if found is None else found.data
