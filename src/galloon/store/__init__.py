"""The shelf: what the maker owns and knows, kept in one SQLite file of her own."""

from galloon.store.backup import back_up, backups
from galloon.store.bookings import Booking, Take, Taking, book_cut, booked_plans, list_bookings, show_booking, undo_last
from galloon.store.lookup import ShelfLookup, ShelfOnDemand
from galloon.store.pictures import picture_png, put_picture, put_pictures
from galloon.store.remnants import Left, worth_keeping
from galloon.store.shelf import Shelf, default_path, open_shelf
from galloon.store.things import KINDS, Thing, add, change, find, list_things, remove, show_thing
from galloon.store.transfer import export_all, import_all, read_export
from galloon.store.versions import Version, keep_version, list_versions, remove_version, show_version

__all__ = [
    "KINDS",
    "Booking",
    "Left",
    "Shelf",
    "ShelfLookup",
    "ShelfOnDemand",
    "Take",
    "Taking",
    "Thing",
    "Version",
    "add",
    "back_up",
    "backups",
    "book_cut",
    "booked_plans",
    "change",
    "default_path",
    "export_all",
    "find",
    "import_all",
    "keep_version",
    "list_bookings",
    "list_things",
    "list_versions",
    "open_shelf",
    "picture_png",
    "put_picture",
    "put_pictures",
    "read_export",
    "remove",
    "remove_version",
    "show_booking",
    "show_thing",
    "show_version",
    "undo_last",
    "worth_keeping",
]
