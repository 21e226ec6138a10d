"""A drawing on the shelf back to the files it is printed from."""

from __future__ import annotations

import numpy as np

from galloon.store import Shelf, show_thing


def drawing_files(shelf: Shelf, name: str, paper: str) -> dict[str, bytes]:
    """Pattern files by name, true to size. Raises BadInput where there is no such drawing."""
    from galloon.drawing import paper as paper_of
    from galloon.sheets import OutlinePiece, outline_files

    held = show_thing(shelf, "drawing", name).data["pieces"]
    pieces = [
        OutlinePiece(
            piece,
            np.array([complex(x, y) for x, y in table["outline"]], dtype=np.complex128),
            tuple((edge["name"], edge["start"], edge["end"]) for edge in table["edges"]),
        )
        for piece, table in held.items()
    ]
    drawn = outline_files(name, pieces, paper_of(paper))
    return {
        "pattern.pdf": drawn.tiled,
        "pattern-full.pdf": drawn.full,
        "pattern.svg": drawn.svg,
        "pattern.dxf": drawn.dxf,
    }
