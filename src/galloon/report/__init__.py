"""The report: everything reckoned about a design, as one JSON document."""

from galloon.report.build import build_report, report_bytes
from galloon.report.made import CuttingRow, Made

__all__ = ["CuttingRow", "Made", "build_report", "report_bytes"]
