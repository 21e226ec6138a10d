"""Measures the lace reader on drawn scans of known truth and on pictures that are no lace.

    python -m bench.read_lace_sweep [--count 2000] [--first 900000] [--jobs 2] [--out FILE] [--with FILE ...]

Seeds from 900000 on are held out: nothing is ever tuned on them. A long sweep may be run in parts, each with its own
--first and --out; --with puts the rows of earlier parts into the table (with --count 0, those alone).
"""

from __future__ import annotations

import argparse
import json
import os
import time
from concurrent.futures import ProcessPoolExecutor
from pathlib import Path

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

import cv2
import numpy as np

from galloon.errors import BadInput
from galloon.reading import LaceReading, read_lace
from tests.support import lace_photos, lace_scans, lace_traps

LEVELS = ("easy", "medium", "hard")
FIGURES = ("width", "scallop_pitch", "scallop_depth", "second_pitch", "second_depth", "repeat", "openness")
KINDS = ("scan",) * 13 + ("card",) * 2 + ("trap",) * 5
#: Reach at the 95th percentile: share of the value, or millimetres, whichever is larger.
REACH = {
    ("easy", "width"): (0.003, 0.15), ("medium", "width"): (0.003, 0.15), ("hard", "width"): (0.006, 0.3),
    ("easy", "scallop_pitch"): (0.001, 0),
    ("medium", "scallop_pitch"): (0.001, 0),
    ("hard", "scallop_pitch"): (0.005, 0),
    ("easy", "scallop_depth"): (0.02, 0.2),
    ("medium", "scallop_depth"): (0.02, 0.2),
    ("hard", "scallop_depth"): (0.03, 0.3),
    ("card", "width"): (0.01, 0), ("card", "scallop_pitch"): (0.01, 0),
}  # fmt: skip


def one(seed: int) -> dict:
    """Draw one picture, read it, and set the reading beside the truth."""
    cv2.setNumThreads(1)
    kind, level = KINDS[seed % len(KINDS)], LEVELS[seed // len(KINDS) % 3]
    traps = lace_traps.NOT_LACE + lace_traps.WRONG
    if kind == "trap":
        name = traps[seed // len(KINDS) % len(traps)] if seed % 5 else str(traps[seed % len(traps)])
        drawn = lace_traps.trap(name, seed, level)
    elif kind == "card":
        name, drawn = "card", lace_photos.photo(seed, level)
    else:
        name, drawn = level, lace_scans.scan(seed, level)
    row: dict = {"seed": seed, "kind": name, "level": level, "trap": kind == "trap", "note": drawn.note}
    began = time.perf_counter()
    try:
        scale = {"card": True} if kind == "card" else {"mm_per_px": drawn.mm_per_px}
        row |= compared(read_lace(drawn.pixels, **scale), drawn.truth)
    except BadInput as error:
        row["refused"] = error.faults[0].key
    except Exception as error:
        row["crashed"] = f"{type(error).__name__}: {error}"
    row["seconds"] = time.perf_counter() - began
    row["megapixels"] = drawn.pixels.shape[0] * drawn.pixels.shape[1] / 1e6
    return row


def compared(reading: LaceReading, truth: dict) -> dict:
    """Every figure with its truth, and whether the words agree. Two unlike edges may come in either order."""
    best = None
    for swap in (False, True):
        told = dict(truth)
        if swap and truth.get("second_depth"):
            for key in ("pitch", "depth"):
                told[f"scallop_{key}"], told[f"second_{key}"] = truth[f"second_{key}"], truth[f"scallop_{key}"]
        row = _row(reading, told)
        miss = sum(abs(f["value"] / f["truth"] - 1) for f in row["figures"].values() if f["truth"])
        if best is None or miss < best[0]:
            best = (miss, row)
    assert best is not None
    return best[1]


def _row(reading: LaceReading, truth: dict) -> dict:
    figures = {}
    for name in FIGURES:
        found = getattr(reading, name)
        if found is None and name.startswith("second_"):
            found = getattr(reading, name.replace("second", "scallop"))
        if found is not None and truth.get(name) is not None and reading.edges == truth["edges"]:
            figures[name] = {"value": found.value, "low": found.low, "high": found.high, "truth": truth[name]}
    words = ("edges", "mirror_across", "second_edge", "half_turn")
    told = {**truth, "half_turn": truth.get("half_turn") and truth.get("edges") != "single scallop"}
    return {
        "figures": figures, "warned": [d.name for d in reading.warnings], "confidence": reading.confidence,
        "wrong": [w for w in words if truth and getattr(reading, w) != told.get(w)],
        "missing": reading.width is None, "says": {w: getattr(reading, w) for w in words},
    }  # fmt: skip


def summary(rows: list[dict]) -> str:
    """The table of the page."""
    lines = []
    good = [r for r in rows if not r["trap"]]
    crashes = [(r["seed"], r["crashed"]) for r in rows if "crashed" in r]
    lines.append(f"crashed: {len(crashes)} {crashes[:10]}")
    for kind in (*LEVELS, "card"):
        part = [r for r in good if r["kind"] == kind]
        if not part:
            continue
        clean = [r for r in part if "figures" in r and not r["warned"]]
        refused, crashed = ([r for r in part if key in r] for key in ("refused", "crashed"))
        warned = len(part) - len(clean) - len(refused) - len(crashed)
        lines.append(f"{kind}: {len(part)} pictures, {len(refused)} refused, {warned} warned, {len(crashed)} crashed")
        for name in FIGURES:
            lines += _figure_lines(kind, name, [r["figures"][name] for r in clean if name in r["figures"]])
        wrong = [w for r in clean for w in set(r["wrong"])]
        lines.append(f"   words wrong: { {w: f'{wrong.count(w) / max(1, len(clean)):.1%}' for w in set(wrong)} }")
    gross = [r["seed"] for r in good if "figures" in r and not r["warned"] and _gross(r)]
    lines.append(f"gross errors without a warning: {len(gross)} {gross[:20]}")
    lines += _trap_lines([r for r in rows if r["trap"] and "crashed" not in r])
    times = [r["seconds"] / max(1, r["megapixels"]) for r in rows]
    lines.append(f"seconds per megapixel: median {np.median(times):.2f}, 95th {np.quantile(times, 0.95):.2f}")
    return "\n".join(lines)


def _figure_lines(kind: str, name: str, found: list[dict]) -> list[str]:
    if not found:
        return []
    miss = np.array([abs(f["value"] - f["truth"]) for f in found])
    size = np.array([f["truth"] for f in found])
    inside = np.mean([f["low"] - 1e-4 <= f["truth"] <= f["high"] + 1e-4 for f in found])
    reach = REACH.get((kind, name))
    over = "" if reach is None else f", within reach {np.mean(miss <= np.maximum(reach[0] * size, reach[1])):.1%}"
    return [
        f"   {name:14s} n={len(found):4d} 95th {np.quantile(miss / size, 0.95):7.3%} {np.quantile(miss, 0.95):6.3f}"
        f"  bias {np.median(np.array([f['value'] - f['truth'] for f in found])):+.3f}  covered {inside:.1%}{over}"
    ]


def _gross(row: dict) -> bool:
    """Any length over 5 % off, or a depth over 5 % and half a millimetre."""
    for name, f in row["figures"].items():
        if name == "openness":
            continue
        if abs(f["value"] / f["truth"] - 1) > 0.05 and abs(f["value"] - f["truth"]) > 0.5:
            return True
    return "edges" in row["wrong"]


def _trap_lines(rows: list[dict]) -> list[str]:
    lines = []
    for kind in sorted({r["kind"] for r in rows}):
        part = [r for r in rows if r["kind"] == kind]
        said: dict[str, int] = {}
        for r in part:
            key = (
                f"refused: {r['refused']}" if "refused" in r else ("; ".join(sorted(set(r["warned"]))) or "BARE NUMBER")
            )
            said[key] = said.get(key, 0) + 1
        lines.append(f"trap {kind}: {said}")
    return lines


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--count", type=int, default=2000)
    parser.add_argument("--first", type=int, default=900_000)
    parser.add_argument("--jobs", type=int, default=2)
    parser.add_argument("--out", type=Path)
    parser.add_argument("--with", type=Path, nargs="*", default=[], dest="earlier")
    given = parser.parse_args()
    with ProcessPoolExecutor(given.jobs) as pool:
        rows = list(pool.map(one, range(given.first, given.first + given.count), chunksize=4))
    if given.out:
        given.out.write_text("\n".join(json.dumps(r, default=float) for r in rows))
    earlier = [json.loads(line) for path in given.earlier for line in path.read_text().splitlines()]
    print(summary(earlier + rows))


if __name__ == "__main__":
    main()
