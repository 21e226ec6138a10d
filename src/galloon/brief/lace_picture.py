"""The picture of a lace that a brief names: a file beside it, or one kept on the shelf."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from functools import lru_cache
from io import BytesIO
from typing import TYPE_CHECKING, Any, Final

from galloon.brief.beside import reader_of
from galloon.brief.faults import Faults
from galloon.brief.lines import KeyPath
from galloon.brief.model import PictureFile
from galloon.design import Design
from galloon.errors import BadInput, BadValue
from galloon.findings import Finding, Status
from galloon.materials import LacePicture
from galloon.materials.picture import MOST_SAMPLES
from galloon.said import said

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

#: ``picture = "shelf NAME"`` is one kept on the shelf.
ON_SHELF: Final = "shelf "
#: Thread sparser than this (of 255) shows as a hole; colours are kept to this step. Both keep the file small.
_SPARSE, _STEP = 24, 8


def picture_from(samples: NDArray[np.uint8]) -> LacePicture:
    """A picture from HxWx4 samples (red, green, blue, share of thread), made smaller where it is too large to keep."""
    import numpy as np
    from PIL import Image

    tall, wide = samples.shape[:2]
    if wide * tall > MOST_SAMPLES:
        share = math.sqrt(MOST_SAMPLES / (wide * tall))
        size = (max(1, math.floor(wide * share)), max(1, math.floor(tall * share)))
        if size[0] * size[1] > MOST_SAMPLES:
            raise BadValue("picture", said("must not be that much longer one way than the other"), f"{wide} x {tall}")
        samples = np.asarray(Image.fromarray(samples).resize(size, Image.Resampling.BOX), np.uint8)
    kept = samples // _STEP * _STEP + (samples >> 5)
    kept[samples[..., 3] < _SPARSE] = 0
    return LacePicture(int(kept.shape[1]), int(kept.shape[0]), kept.tobytes())


def picture_of(raw: bytes, name: str) -> LacePicture:
    """The picture in an image file; all else the file holds is dropped. Raises BadInput with the reason."""
    from galloon.reading import see_through

    return picture_from(see_through(raw, name))


@lru_cache(maxsize=16)
def _kept(raw: bytes) -> LacePicture:
    """A picture of the shelf: asked for at every move on the table, and small."""
    return picture_of(raw, "picture")


@lru_cache(maxsize=16)
def png_of(picture: LacePicture) -> bytes:
    """The picture as a PNG file, the same bytes for the same picture."""
    from PIL import Image

    held = BytesIO()
    Image.frombytes("RGBA", (picture.columns, picture.rows), picture.samples).save(held, "PNG", optimize=True)
    return held.getvalue()


def build_picture(
    named: str, path: KeyPath, file: PictureFile | None, shelf: Callable[[str], bytes | None] | None, faults: Faults
) -> LacePicture | None:
    """The picture that ``named`` names; None, with a fault, where it cannot be used, and None alone where the shelf
    does not have it.
    """
    try:
        if named.startswith(ON_SHELF):
            kept = shelf(named.removeprefix(ON_SHELF)) if shelf is not None else None
            return None if kept is None else _kept(kept)
        example, instead = said('As in "lace.png".'), said("Put the lace on the shelf with it.")
        read = reader_of(named, path, file, faults, example=example, instead=instead)
        if read is not None:
            with faults.at(path):
                return picture_of(read(named), named)
    except BadInput as error:
        for fault in error.faults:
            faults.refuse(path, said("cannot be used: it {rule}", rule=fault.rule), hint=fault.hint)
    return None


def lost_pictures(data: Mapping[str, Any], design: Design) -> tuple[Finding, ...]:
    """A finding for each lace whose picture the shelf does not have: it is drawn without."""
    tables = data.get("cloth", {})
    return tuple(
        Finding(
            "lace picture",
            Status.WARN,
            said(
                "The picture of {lace} is not on this shelf; the lace is drawn without it. Measure it from a picture "
                "again, or go on without (picture).",
                lace=name,
            ),
            about=f"cloth {name}",
        )
        for name, cloth in design.cloths.items()
        if cloth.picture is None and isinstance(tables.get(name), Mapping) and tables[name].get("picture")
    )
