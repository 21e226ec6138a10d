"""The shelf: what the maker owns and knows, kept in one SQLite file of her own."""

from galloon.store.lookup import ShelfLookup, ShelfOnDemand
from galloon.store.shelf import Shelf, default_path, open_shelf
from galloon.store.things import KINDS, Thing, add, change, find, list_things, remove, show_thing

__all__ = [
    "KINDS",
    "Shelf",
    "ShelfLookup",
    "ShelfOnDemand",
    "Thing",
    "add",
    "change",
    "default_path",
    "find",
    "list_things",
    "open_shelf",
    "remove",
    "show_thing",
]
