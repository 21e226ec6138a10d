"""``galloon make BRIEF``: the whole job, from brief to true-size pattern, report and guide in one folder."""

from __future__ import annotations

from pathlib import Path

import click

from galloon.cli import longer as longer_search
from galloon.cli.group import CHECK_FAILED


@click.command()
@click.argument("brief", type=click.Path())
@click.option("--out", type=click.Path(), help="Folder for the result; the brief's name with -pattern unless given.")
@click.option(
    "--paper",
    type=click.Choice(["a4", "letter", "a3", "a0"]),
    default="a4",
    show_default=True,
    help="Paper the pattern is cut up for.",
)
@click.option("--shelf", type=click.Path(), help="The shelf that the brief takes things from; your own unless given.")
@longer_search.option
@click.option("--cutting-page", is_flag=True, help="Write cutting.pdf too: every cutting plan at true size.")
@click.pass_context
def command(
    ctx: click.Context,
    brief: str,
    out: str | None,
    paper: str,
    shelf: str | None,
    longer: float | None,
    cutting_page: bool,
) -> None:
    """Make the pattern of BRIEF: drafts it, fits the lace, checks, plans the cutting, writes every file."""
    from galloon.cli.progress import progress
    from galloon.cli.screen import headline
    from galloon.workflow.job import make_files, reckon_brief
    from galloon.workflow.write_folder import write_folder

    target = Path(out) if out else Path(f"{Path(brief).stem}-pattern")
    with progress() as step:
        with longer_search.trying_longer(longer, step) as asked:
            made = reckon_brief(brief, shelf=shelf, step=step, longer=asked)
        files = make_files(made, paper, step=step, cutting_page=cutting_page)
        step(f"Writing {target}")
        write_folder(target, files)
    click.echo(headline(made))
    click.echo(f"Written to {target}: {', '.join(files)}.")
    if made.verdict.value == "fail":
        ctx.exit(CHECK_FAILED)
