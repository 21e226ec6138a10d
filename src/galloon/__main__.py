"""`python -m galloon` is the same as `galloon`."""

from galloon.cli import main

main(prog_name="galloon")
