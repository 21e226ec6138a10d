"""What a brief turns into, and where things that it names without spelling them out are looked up."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any, Protocol

from galloon.design import Design
from galloon.findings import Finding

#: The bytes of the picture file of that relative name. Raises BadValue.
PictureFile = Callable[[str], bytes]
#: Reads the motif file of that relative name: its closed outline in mm. Raises BadValue or BadInput.
SvgOutline = Callable[[str], tuple[tuple[float, float], ...]]


@dataclass(frozen=True)
class Brief:
    """A brief that can be worked from: the design, what is unusual about it, and the brief's own data as written."""

    design: Design
    findings: tuple[Finding, ...]
    data: Mapping[str, Any]
    file: str


class Lookup(Protocol):
    """The maker's shelf, as a brief sees it: each answers with brief data under that name, or None if there is none.

    The data has the same keys as the brief's own table. Its bare lengths are in millimetres, unless it holds a
    ``units`` of its own.
    """

    def wearer(self, name: str) -> Mapping[str, Any] | None:
        """The keys of ``[wearer]``."""

    def cloth(self, name: str) -> Mapping[str, Any] | None:
        """The keys of ``[cloth.NAME]``."""

    def elastic(self, name: str) -> Mapping[str, Any] | None:
        """The keys of ``[elastic.NAME]``."""

    def block(self, name: str) -> Mapping[str, Any] | None:
        """The keys of ``[block]``."""

    def picture(self, name: str) -> bytes | None:
        """The image file of a lace's picture."""
