"""Golden files: readable text that a result must equal; a failure shows the lines that differ."""

import difflib
import os
from pathlib import Path

FOLDER = Path(__file__).resolve().parents[1] / "golden"


def assert_golden(text, name):
    """Compare with ``tests/golden/<name>``; with UPDATE_GOLDEN=1 in the environment, write it instead."""
    path = FOLDER / name
    if os.environ.get("UPDATE_GOLDEN"):
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8", newline="\n")
    kept = path.read_text(encoding="utf-8")
    lines = difflib.unified_diff(kept.splitlines(), text.splitlines(), str(path.name), "now", lineterm="")
    assert text == kept, "\n" + "\n".join(list(lines)[:60])
