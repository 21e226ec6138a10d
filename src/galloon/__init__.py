"""galloon: a drafting table for stretch underwear that is designed around the lace at hand."""

__version__ = "0.1.0"
