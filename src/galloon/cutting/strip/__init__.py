"""Cutting from a strip of lace: pieces on its scalloped edges, where the motif comes out right."""
