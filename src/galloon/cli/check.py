"""``galloon check BRIEF``: the whole reckoning on one readable screen; writes no file."""

from __future__ import annotations

import click

from galloon.cli.group import CHECK_FAILED


@click.command()
@click.argument("brief", type=click.Path())
@click.option("--shelf", type=click.Path(), help="The shelf that the brief takes things from; your own unless given.")
@click.pass_context
def command(ctx: click.Context, brief: str, shelf: str | None) -> None:
    """Reckon BRIEF and print what was found; nothing is written."""
    from galloon.cli.progress import progress
    from galloon.cli.screen import screen
    from galloon.workflow.job import reckon_brief

    with progress() as step:
        made = reckon_brief(brief, shelf=shelf, step=step)
    click.echo(screen(made))
    if made.verdict.value == "fail":
        ctx.exit(CHECK_FAILED)
