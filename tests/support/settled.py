"""Examples that follow from their seed alone."""

from contextlib import contextmanager
from unittest.mock import patch

from hypothesis.internal.conjecture import providers


@contextmanager
def settled_examples():
    """Inside, Hypothesis leaves out the constants it reads from whatever modules happen to be loaded: a seed gives the
    same examples in every process and in every order of tests.
    """
    with patch.object(providers, "_get_local_constants", lambda: providers.Constants()):
        yield
