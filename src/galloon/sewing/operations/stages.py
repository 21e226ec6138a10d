"""The usual order of the work, where the edges leave a choice; common practice, no source."""

from __future__ import annotations

from typing import Final

PREPARE: Final = 0
LACE: Final = 10
JOIN: Final = 20
LINE: Final = 30
CENTRE: Final = 40
GUSSET: Final = 50
GUSSET_LAP: Final = 55
GUSSET_LEGS: Final = 58
FLAT_EDGE: Final = 60
SIDE: Final = 70
OVER_SEAM: Final = 72
LEG: Final = 80
WAIST: Final = 85
BARE: Final = 90
OTHER: Final = 92
TACKS: Final = 95
FINISH: Final = 99
