"""Lace strips: length, bound and time for 4, 8, 12 and 20 pieces on a 200 mm lace with both mirrors.

Repeat 30 mm, places every repeat/6, every piece free to choose its phase. Pieces are invented; pairs of mirrored twins.
Run: python bench/strips.py [--pieces 4 8 12 20] [--seconds 2 5 60 120]
"""

from __future__ import annotations

import argparse
import time

from galloon.cutting import Lace, LacePiece, plan_strip, plan_strip_longer, plan_strip_plain
from galloon.cutting.outlines import Ring


def back(length: float, height: float, leg: float) -> Ring:
    x, y = length, height
    return ((0, 0), (leg, 0), (leg - 15, 25), (x * 0.75, y * 0.9), (x * 0.35, y), (-20, y * 0.95), (-8, y * 0.5))


def front(length: float, height: float) -> Ring:
    x, y = length, height
    return ((0, 0), (x * 0.5, 0), (x, y * 0.45), (x * 0.9, y), (x * 0.3, y * 0.93), (-10, y * 0.9))


def panel(length: float, height: float) -> Ring:
    x, y = length, height
    return ((0, 0), (x, 0), (x * 0.7, y * 0.6), (x * 0.6, y), (x * 0.2, y), (x * 0.1, y * 0.5))


def inset(length: float, height: float) -> Ring:
    return ((-length / 2, 0), (length / 2, 0), (length * 0.12, height), (-length * 0.12, height))


SHAPES: tuple[tuple[str, Ring], ...] = (
    ("back", back(190, 170, 210)),
    ("front", front(150, 150)),
    ("inset", inset(160, 165)),
    ("side", panel(120, 140)),
    ("low back", back(160, 150, 190)),
    ("low front", front(120, 135)),
    ("trim", inset(140, 120)),
    ("yoke", panel(170, 110)),
    ("gore", inset(90, 180)),
    ("tail", back(120, 185, 140)),
)
LACE = Lace(200, 30, 15, mirror_across=True, second_edge="mirror")


def pieces(count: int, anchor: str = "free") -> tuple[LacePiece, ...]:
    """``count`` pieces as pairs of mirrored twins."""
    return tuple(
        LacePiece(name, outline, copies=2, mirrored=True, anchor=anchor)  # type: ignore[arg-type]
        for name, outline in SHAPES[: count // 2]
    )


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--pieces", type=int, nargs="+", default=[4, 8, 12, 20])
    parser.add_argument("--seconds", type=float, nargs="+", default=[2, 5, 60, 120])
    options = parser.parse_args()
    plan_strip(LACE, pieces(2))  # imports are not part of the figures
    for count, seconds in zip(options.pieces, options.seconds, strict=True):
        for name, plan in (
            ("reading order", plan_strip_plain),
            ("default", plan_strip),
            (f"longer, up to {seconds:g} s", lambda lace, order: plan_strip_longer(lace, order, seconds=seconds)),  # noqa: B023
        ):
            begun = time.perf_counter()
            made = plan(LACE, pieces(count))
            took = time.perf_counter() - begun
            gap = 100 * (1 - made.lower_bound / made.length)
            print(
                f"{count:2} pieces, {name}: {made.length:.1f} mm, bound {made.lower_bound:.1f}, gap {gap:.1f} %, "
                f"{'proven' if made.proven else 'not proven'}, use {made.use:.3f}, {took:.2f} s",
                flush=True,
            )


if __name__ == "__main__":
    main()
