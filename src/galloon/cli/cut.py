"""``galloon cut BRIEF``: books a cutting plan: takes the cloth off the shelf and puts leftovers back."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from galloon.cli import longer as longer_search
from galloon.cli.group import CHECK_FAILED
from galloon.cli.render import plain
from galloon.units import format_length

if TYPE_CHECKING:
    from galloon.store import Taking
    from galloon.workflow.booking import Cut


@click.command()
@click.argument("brief", type=click.Path())
@click.option("--shelf", type=click.Path(), help="File of the shelf; your own unless given.")
@click.option("--anyway", is_flag=True, help="Book it even though a check fails.")
@longer_search.option
@click.pass_context
def command(ctx: click.Context, brief: str, shelf: str | None, anyway: bool, longer: float | None) -> None:
    """Book the cutting plan of BRIEF: its cloth comes off the shelf, leftovers worth keeping go on.

    To take it back: galloon shelf undo.
    """
    from galloon.cli.progress import progress
    from galloon.cli.screen import headline
    from galloon.cli.shelf import opened
    from galloon.workflow.booking import cut_brief

    with (
        opened(Path(shelf) if shelf else None) as there,
        progress() as step,
        longer_search.trying_longer(longer, step) as asked,
    ):
        cut = cut_brief(brief, there, anyway=anyway, step=step, longer=asked)
    click.echo(headline(cut.made))
    click.echo(_told(cut))
    if cut.made.verdict.value == "fail":
        ctx.exit(CHECK_FAILED)


def _told(cut: Cut) -> str:
    if cut.booking is None:
        return "Nothing was booked. To book it all the same: --anyway."
    lines = [_took(one) for one in cut.booking.takings]
    lines += [f"Leftover put on the shelf: {plain(name)}." for name in cut.booking.leftovers]
    lines += [f"{plain(name)} is not on the shelf, so it was not booked." for name in cut.not_booked]
    return "\n".join([f"Booked as cut {cut.booking.number}.", *lines])


def _took(one: Taking) -> str:
    if one.taken:
        return f"{plain(one.cloth)}: took {format_length(one.taken)}."
    need = format_length(one.need)
    return f"{plain(one.cloth)}: needs {need}; how much is on hand is not known, so nothing came off."
