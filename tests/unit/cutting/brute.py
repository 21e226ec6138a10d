"""Brute force for small strips: every place of every copy is tried, with distances measured by shapely alone."""

from __future__ import annotations

from itertools import product

from shapely.geometry import Polygon

from galloon.cutting.outlines import shifted
from galloon.cutting.strip.problem import Problem


def nothing_shorter(problem: Problem, length: float, spare: float = 0.02) -> bool:
    """True when no layout is shorter than ``length`` by more than 0.05 mm, with ``spare`` mm over the clearance."""
    options = product(*(range(count) for count in problem.options))
    return not any(_shorter(problem, choice, length - 0.05, problem.rules.clearance + spare) for choice in options)


def _shorter(problem: Problem, choice: tuple[int, ...], length: float, apart: float) -> bool:
    repeat = problem.lace.repeat
    places = _places(problem, choice, length + repeat)
    fits = _compatible(places, apart)
    for index, (_, left, _, _) in enumerate(places):
        if left >= repeat:
            continue
        window = fits[index]
        for other, (_, a, b, _) in enumerate(places):
            if a < left - 1e-9 or b > left + length:
                window &= ~(1 << other)
        masks = _by_copy(places, len(problem.copies))
        if places[index][2] <= left + length and _choose(fits, masks, window | 1 << index, 0):
            return True
    return False


def _places(problem: Problem, choice: tuple[int, ...], end: float) -> list[tuple[int, float, float, Polygon]]:
    """Every legal place of every copy between 0 and ``end``."""
    places: list[tuple[int, float, float, Polygon]] = []
    for number, copy in enumerate(problem.copies):
        for spot in copy.spots:
            ring = problem.shapes[spot.shape]
            for step in range(-100, int(end / problem.unit) + 100):
                if (step - spot.residues[choice[copy.piece]]) % spot.modulus:
                    continue
                polygon = Polygon(shifted(ring, step * problem.unit, 0.0))
                left, _, right, _ = polygon.bounds
                if left >= -1e-9 and right <= end:
                    places.append((number, left, right, polygon))
    return places


def _compatible(places, apart):
    known: dict = {}
    fits = []
    for i, (a, left_a, right_a, one) in enumerate(places):
        mask = 0
        for j, (b, left_b, right_b, two) in enumerate(places):
            if a == b:
                continue
            if left_b >= right_a + apart or left_a >= right_b + apart:
                mask |= 1 << j
                continue
            key = (min(i, j), max(i, j))
            if key not in known:
                known[key] = one.distance(two) >= apart
            mask |= int(known[key]) << j
        fits.append(mask)
    return fits


def _by_copy(places, count):
    masks = [0] * count
    for index, place in enumerate(places):
        masks[place[0]] |= 1 << index
    return masks


def _choose(fits, masks, window, number):
    if number == len(masks):
        return True
    left = masks[number] & window
    while left:
        index = (left & -left).bit_length() - 1
        left &= left - 1
        if _choose(fits, masks, window & (fits[index] | 1 << index), number + 1):
            return True
    return False
