"""Writes docs/report.schema.json from the types of the report."""

import json
from pathlib import Path

from galloon.report.schema import json_schema

TARGET = Path(__file__).parents[1] / "docs" / "report.schema.json"


def text() -> str:
    """The file's text."""
    return json.dumps(json_schema(), indent=1, ensure_ascii=False) + "\n"


if __name__ == "__main__":
    TARGET.write_text(text(), encoding="utf-8")
