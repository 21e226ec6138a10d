"""Measurements against goals; `make bench` runs them."""
