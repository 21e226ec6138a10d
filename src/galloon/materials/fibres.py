"""What cloths are made of: fibre shares read from what the maker wrote, and mixed by weight."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from typing import Final

#: "82 % polyamide" or "polyamide 82 %".
_FIRST: Final = re.compile(r"^(\d{1,3}(?:[.,]\d{1,3})?)\s*%\s*(?:of\s+)?([^\d%]+)$")
_LAST: Final = re.compile(r"^([^\d%]+?)\s*(\d{1,3}(?:[.,]\d{1,3})?)\s*%$")
_BETWEEN: Final = re.compile(r"\s*(?:;|/|\+|,(?!\d)|\band\b)\s*")
#: How far the figures may miss 100 % in sum: they are rounded to whole percent on most labels.
ROUNDED: Final = 0.011
#: Two names of one fibre, in the European Union and in the United States (from memory: Regulation 1007/2011 Annex I,
#: 16 CFR 303.7).
_SAME: Final = ({"polyamide", "nylon"}, {"elastane", "spandex"})


def fibre_shares(text: str) -> dict[str, float]:
    """Fractions by fibre from ``"82 % polyamide, 18 % elastane"``, adding up to 1; empty where the text does not give
    every fibre its share or the shares do not add up to 100 %.
    """
    found: dict[str, float] = {}
    for part in _BETWEEN.split(text.strip().rstrip(".")):
        if match := _FIRST.match(part):
            figure, name = match[1], match[2]
        elif match := _LAST.match(part):
            name, figure = match[1], match[2]
        else:
            return {}
        name = " ".join(name.split()).lower()
        found[name] = found.get(name, 0.0) + float(figure.replace(",", ".")) / 100.0
    total = sum(found.values())
    return {name: share / total for name, share in found.items()} if abs(total - 1.0) <= ROUNDED else {}


def fibre_text(shares: Mapping[str, float]) -> str:
    """Fractions by fibre as a maker writes them, the heaviest first: ``"82 % polyamide, 18 % elastane"``."""
    ordered = sorted(shares.items(), key=lambda item: -item[1])
    return ", ".join(f"{round(share * 100.0, 3):g} % {name}" for name, share in ordered)


def mixed(parts: Iterable[tuple[float, Mapping[str, float]]]) -> dict[str, float]:
    """Fractions by fibre of several parts together, each a weight and its own fractions; the heaviest first.

    A fibre with two names keeps the one that comes first. Empty where nothing weighs anything.
    """
    weights: dict[str, float] = {}
    for weight, shares in parts:
        for name, share in shares.items():
            known = _known(name, weights)
            weights[known] = weights.get(known, 0.0) + weight * share
    total = sum(weights.values())
    if total <= 0.0:
        return {}
    return {name: weight / total for name, weight in sorted(weights.items(), key=lambda item: (-item[1], item[0]))}


def _known(name: str, names: Iterable[str]) -> str:
    alike = next((pair for pair in _SAME if name in pair), {name})
    return next((known for known in names if known in alike), name)


def whole_percents(shares: Mapping[str, float]) -> dict[str, int]:
    """Whole percents that add up to 100: each rounded down, and what is left given to the largest remainders."""
    down = {name: int(share * 100.0 + 1e-9) for name, share in shares.items()}
    left = 100 - sum(down.values()) if shares else 0
    by_remainder = sorted(shares, key=lambda name: down[name] - shares[name] * 100.0)
    return {name: whole + (name in by_remainder[:left]) for name, whole in down.items()}
