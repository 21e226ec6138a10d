"""Names for the array types used while reading a picture, and a cap on the threads their libraries start."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any, TypeAlias

import cv2
from numpy.typing import NDArray
from threadpoolctl import threadpool_limits  # type: ignore[import-untyped]

#: float32, float64, uint8 and bool in turn. The libraries' own annotations mix them too freely to say so by type.
Array: TypeAlias = NDArray[Any]
Reals: TypeAlias = NDArray[Any]
Bytes: TypeAlias = NDArray[Any]
Mask: TypeAlias = NDArray[Any]


@contextmanager
def single_threaded() -> Iterator[None]:
    """Keep the array libraries from starting a thread per core for every small matrix: that is far slower here."""
    before = cv2.getNumThreads()
    cv2.setNumThreads(min(before, 2))
    try:
        with threadpool_limits(limits=1, user_api="blas"):
            yield
    finally:
        cv2.setNumThreads(before)
