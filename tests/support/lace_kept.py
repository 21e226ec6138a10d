"""The kept pictures of laces and what each is drawn from: no noise, so that they stay small and draw alike anywhere."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import numpy as np
from PIL import Image

from . import lace_looks as looks
from . import lace_scans as scans
from . import lace_traps as traps

FOLDER = Path(__file__).resolve().parents[1] / "golden" / "reading"
DPI = 120
#: The lace all the others are changed from (mm).
BASE = {
    "edges": "double scallop", "width": 66.0, "pitch": 18.0, "depth": 5.0, "family": "sine", "pitches": 2,
    "mirror_across": True, "second_edge": "mirror", "half_turn": True, "second_pitch": 18.0, "second_depth": 5.0,
    "second_family": "sine", "phase": 0.3, "mesh": "hexagon", "cell": 2.4, "thread": 0.35, "cord": 0.8, "fringe": 0.0,
    "fringe_gap": 1.6, "motif_seed": 21, "motif_fill": 1.0,
}  # fmt: skip
LIGHT, DARK = (np.array([246.0, 240.0, 228.0]), np.array([38.0, 42.0, 58.0]))
#: By name: what differs from the lace above, and whether the thread is light.
LACES = {
    "galloon-mirrored": ({}, True),
    "galloon-half-step": ({"second_edge": "half step", "motif_seed": 12}, False),
    "galloon-unlike-edges": (
        {"second_edge": "other", "second_depth": 2.6, "second_family": "arc", "half_turn": False, "motif_seed": 9},
        False,
    ),
    "galloon-half-turn": ({"second_edge": "turn", "mirror_across": False, "half_turn": True, "motif_seed": 14}, True),
    "edging": ({"edges": "single scallop", "second_edge": None, "half_turn": False, "motif_seed": 4}, True),
    "insertion": ({"edges": "straight", "width": 40.0, "mesh": "square", "motif_seed": 8}, False),
    "cusped-with-eyelash": (
        {"family": "cusp", "second_family": "cusp", "fringe": 5.0, "fringe_gap": 1.9, "motif_seed": 17},
        True,
    ),
    "two-lobed": ({"family": "two-lobe", "second_family": "two-lobe", "pitch": 24.0, "second_pitch": 24.0}, False),
}
#: Pictures that must be warned of or refused, by what is wrong with them.
WRONG = ("cropped", "folded", "single repeat", "plain net", "ribbon")


def drawn(name: str) -> scans.Scan:
    """The kept picture ``name`` drawn anew."""
    if name in WRONG:
        return _wrong(name)
    changes, light = LACES[name]
    lace = scans.Lace(**{**BASE, **changes})
    return scan_of(lace, light=light)


def _look(*, light: bool) -> looks.Look:
    thread, ground = (LIGHT, DARK) if light else (DARK, LIGHT)
    return looks.Look(thread, ground, "plain", 1.0, 0.0, 0.0, 0.0, 0.45, 0.0, None, 0.0)


def scan_of(lace: scans.Lace, *, light: bool, repeats: float = 2.7) -> scans.Scan:
    """A lace as a flat, clean scan of some repeats, in one of two colours."""
    mpp = 25.4 / DPI
    length, margin = repeats * lace.repeat, 6.0 + lace.fringe
    size = (int(length / mpp), int((lace.width + 2 * margin) / mpp))
    start = -lace.phase * lace.repeat
    view = scans._flat_view(start + length / 2, float(np.radians(0.4)), mpp, size, None)
    span = (start - length, start + 2 * length)
    full, cover, inside = scans.coverage(lace, span, view, size, np.random.default_rng(1))
    return scans.finish(lace, full, cover, inside, _look(light=light), mpp, np.random.default_rng(1), view)


def _wrong(name: str) -> scans.Scan:
    if name in ("plain net", "ribbon"):
        mpp = 25.4 / DPI
        rng = np.random.default_rng(6)
        alpha = traps._alpha("net" if name == "plain net" else "ribbon", (520, 380), mpp, rng)
        return scans.Scan(looks.expose(alpha, _look(light=True), mpp, rng), mpp, {}, name)
    whole = scans.Lace(**{**BASE, "motif_seed": 30})
    if name == "single repeat":
        return scan_of(whole, light=True, repeats=1.15)
    scan = scan_of(whole, light=True)
    if name == "cropped":
        cut = int(0.3 * whole.width / scan.mm_per_px)
        return replace(scan, pixels=np.ascontiguousarray(scan.pixels[cut:]))
    alpha = (scan.pixels.astype(np.float32) - DARK).mean(2) / float((LIGHT - DARK).mean())
    tall, wide = alpha.shape
    at = np.array([wide / 2, tall / 2 + 0.28 * whole.width / scan.mm_per_px])
    doubled = traps._doubled(np.clip(alpha, 0, 1), at, np.array([0.0, 1.0]))
    rng = np.random.default_rng(1)
    return replace(scan, pixels=looks.expose(doubled, replace(_look(light=True), blur=0.0), scan.mm_per_px, rng))


def path_of(name: str) -> Path:
    """Where the picture is kept."""
    return FOLDER / f"{name.replace(' ', '-')}.png"


def keep(name: str) -> None:
    """Write it, without loss, in sixteen colours: thread, ground and what lies between."""
    few = Image.fromarray(drawn(name).pixels).quantize(16, Image.Quantize.MEDIANCUT, dither=Image.Dither.NONE)
    few.save(path_of(name), optimize=True)
