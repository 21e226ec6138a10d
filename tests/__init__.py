"""The test suite; helpers shared by several tests live in `tests.support`."""
