"""Draws the example scan of the docs and the overlay of its reading.

    python -m bench.read_lace_example

writes ``examples/scans/avens-lace.jpg`` (an invented lace, 150 dots per inch) and ``docs/pictures/read-lace.jpg``.
"""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import numpy as np
from PIL import Image

from galloon.reading import overlay, read_lace
from tests.support import lace_scans

SCAN = Path("examples/scans/avens-lace.jpg")
OVERLAY = Path("docs/pictures/read-lace.jpg")
DPI = 150


def example_lace() -> lace_scans.Lace:
    """An invented lace 140 mm wide, two scallops of 24 mm to its repeat."""
    return replace(
        lace_scans.random_lace(np.random.default_rng(11), "double scallop"),
        width=140.0, pitch=24.0, depth=7.0, family="soft two-lobe", pitches=2, mirror_across=True,
        second_edge="half step", half_turn=True, second_pitch=24.0, second_depth=7.0, second_family="soft two-lobe",
        mesh="hexagon", cell=2.2, thread=0.3, cord=0.9, fringe=5.0, fringe_gap=1.3, motif_seed=8, motif_fill=1.0,
    )  # fmt: skip


def main() -> None:
    drawn = lace_scans.scan(7, "medium", lace=example_lace(), dpi=DPI)
    SCAN.parent.mkdir(parents=True, exist_ok=True)
    Image.fromarray(drawn.pixels).save(SCAN, quality=80, dpi=(DPI, DPI))
    pixels = np.asarray(Image.open(SCAN).convert("RGB"))
    shown = overlay(pixels, read_lace(pixels, dpi=DPI), 1000)
    OVERLAY.parent.mkdir(parents=True, exist_ok=True)
    Image.fromarray(shown).save(OVERLAY, quality=82)


if __name__ == "__main__":
    main()
