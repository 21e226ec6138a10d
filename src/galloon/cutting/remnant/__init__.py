"""Cutting from leftovers: outlines with holes, searched for places inside."""
