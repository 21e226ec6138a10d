"""Pictures of laces on the shelf; a cloth or a brief names one as ``picture = "shelf NAME"``."""

from __future__ import annotations

from galloon.design import Design
from galloon.materials import LacePicture
from galloon.store.shelf import Shelf


def put_picture(shelf: Shelf, picture: LacePicture) -> str:
    """Keeps the picture and gives what a brief calls it; once only, however often it is put there."""
    from galloon.brief import ON_SHELF, png_of

    with shelf.writing() as connection:
        sql = "INSERT INTO picture (name, png) VALUES (?, ?) ON CONFLICT DO NOTHING"
        connection.execute(sql, (picture.name, png_of(picture)))
    return f"{ON_SHELF}{picture.name}"


def put_pictures(shelf: Shelf, design: Design) -> None:
    """Keeps the pictures of all laces of a design."""
    for cloth in design.cloths.values():
        if cloth.picture is not None:
            put_picture(shelf, cloth.picture)


def picture_png(shelf: Shelf, name: str) -> bytes | None:
    """The PNG file of that name, None where there is none."""
    row = shelf.row("SELECT png FROM picture WHERE name = ?", (name.encode("utf-8", "replace").decode("utf-8"),))
    return None if row is None else bytes(row["png"])
