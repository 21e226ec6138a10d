"""The command line: reads what the maker typed, calls the workflow, prints the result."""

from __future__ import annotations

import click

from galloon import __version__
from galloon.cli.group import Entry, LazyGroup

__all__ = ["main"]

#: Every command in the order it is listed; a command without its module is not offered.
COMMANDS = (
    Entry("new", "new", "Write a starter brief to fill in."),
    Entry("make", "make", "Draft the pattern, fit the lace, check it, write every file."),
    Entry("check", "check", "Print the same reckoning for reading; write nothing."),
    Entry("ideas", "ideas", "List what can be made from the cloth on hand, best first."),
    Entry("cut", "cut", "Plan the cutting of one or more briefs from the cloth on hand."),
    Entry("read-lace", "read_lace", "Measure a lace from a scan or a photo."),
    Entry("shelf", "shelf", "Keep cloths, laces, elastics and wearers for later briefs."),
    Entry("open", "open", "Open the local page in the browser."),
)


@click.group(
    cls=LazyGroup,
    entries=COMMANDS,
    context_settings={"help_option_names": ["-h", "--help"]},
    epilog="`galloon COMMAND --help` says more about each.",
)
@click.version_option(__version__, prog_name="galloon")
def main() -> None:
    """Draft stretch underwear to measure, shaped by the lace at hand."""
