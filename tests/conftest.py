"""Random examples are the same in every run: a seed for each test, and no constants from whatever is loaded.

``GALLOON_RANDOM=1`` lets them differ, to search for faults that are not known yet.
"""

import os

import pytest
from hypothesis import settings

from tests.support.settled import settled_examples

settings.register_profile("settled", derandomize=True, database=None, deadline=None)
settings.register_profile("random", deadline=None)
RANDOM = bool(os.environ.get("GALLOON_RANDOM"))
settings.load_profile("random" if RANDOM else "settled")


@pytest.fixture(autouse=True, scope="session")
def settled():
    """For the whole run."""
    if RANDOM:
        yield
        return
    with settled_examples():
        yield
