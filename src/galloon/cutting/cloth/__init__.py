"""Cutting from a cloth with a width: pieces keep their direction, pairs are cut in both hands, folds are respected."""
