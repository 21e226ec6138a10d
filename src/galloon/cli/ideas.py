"""``galloon ideas [BRIEF]``: what this wearer could make from the cloth on hand, best first."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Final

import click

from galloon.cli.bar import bar
from galloon.cli.group import CHECK_FAILED
from galloon.cli.render import plain, sentence, table

if TYPE_CHECKING:
    from galloon.ideas import Idea, Ideas, Source, Wish

_SHOWN: Final = 20
_COVERAGE: Final = click.Choice(["full", "medium", "low"])


@click.command()
@click.argument("brief", type=click.Path(), required=False)
@click.option("--shelf", type=click.Path(), help="The shelf to take things from; your own unless given.")
@click.option(
    "--units",
    type=click.Choice(["mm", "cm", "in"]),
    default="cm",
    show_default=True,
    help="Unit of lengths where there is no BRIEF.",
)
@click.option("--wearer", help="Whose, where there is no BRIEF and the shelf holds several wearers.")
@click.option(
    "--weigh", multiple=True, metavar="SCORE=WEIGHT", help="Weigh a score, as in coverage=2; 0 leaves it out."
)
@click.option("--coverage", type=_COVERAGE, help="How much of the seat is wanted; as the brief has it unless given.")
@click.option("--buy", is_flag=True, help="Also ideas that need more cloth than is on hand.")
@click.option("--most", type=click.IntRange(1, 1_000_000), help="Designs to look at, at the most.  [default: 20000]")
@click.option("--show", type=click.IntRange(1, 500), default=_SHOWN, show_default=True, help="Ideas to list.")
@click.option("--pdf", type=click.Path(), default="ideas.pdf", show_default=True, help="File for the drawings.")
@click.option("--no-pdf", is_flag=True, help="Write no drawings.")
@click.option("--paper", type=click.Choice(["a4", "letter"]), default="a4", show_default=True, help="Paper for them.")
@click.option(
    "--brief", "briefs", type=(click.IntRange(1, 500), click.Path()), multiple=True, metavar="NUMBER FILE",
    help="Write the idea of that number to FILE, as a brief to make.",
)  # fmt: skip
@click.pass_context
def command(
    ctx: click.Context,
    brief: str | None,
    shelf: str | None,
    wearer: str | None,
    units: str,
    weigh: tuple[str, ...],
    coverage: str | None,
    buy: bool,
    most: int | None,
    show: int,
    pdf: str,
    no_pdf: bool,
    paper: str,
    briefs: tuple[tuple[int, str], ...],
) -> None:
    """List what can be made for the wearer of BRIEF from its cloth, best first; without BRIEF, from the shelf alone.

    Every way to use the lace, every seam plan, shape and placing of the cloths is drafted and checked as make does
    it. The best are drawn in ideas.pdf.
    """
    from galloon.design import Coverage
    from galloon.ideas import MOST, Wish, find_ideas, weights_of

    wish = Wish(weights_of(_apart(weigh)), Coverage(coverage) if coverage else None, buy, most or MOST)
    _check_targets(briefs, () if no_pdf else (pdf,))
    source = _source(brief, shelf, wearer, buy=buy, units=units)
    with bar() as told:
        ideas = find_ideas(source.stock, wish, progress=lambda now: told(now.step, now.done, now.count))
    click.echo(_screen(source, ideas, show))
    if not ideas.found:
        ctx.exit(CHECK_FAILED)
    _write_briefs(ideas, briefs)
    if not no_pdf:
        _write_pdf(source, ideas, wish, (pdf, paper))


def _apart(weigh: tuple[str, ...]) -> list[str]:
    """Each weight by itself: several may stand in one option, with commas or spaces between."""
    return [part for one in weigh for part in one.replace(",", " ").split()]


def _check_targets(briefs: tuple[tuple[int, str], ...], pdfs: tuple[str, ...]) -> None:
    """Refuses a brief that is there already, and a folder that is not, before any time is spent. Raises CannotWrite."""
    from galloon.errors import CannotWrite
    from galloon.errors import show as shown

    for file in (*(file for _, file in briefs), *pdfs):
        if not Path(file).absolute().parent.is_dir():
            raise CannotWrite(shown(file, 200), "its folder is not there")
    for _, file in briefs:
        if Path(file).exists():
            raise CannotWrite(shown(file, 200), "there is something of that name already; choose another name")


def _source(brief: str | None, shelf: str | None, wearer: str | None, *, buy: bool, units: str) -> Source:
    from galloon.ideas import from_brief, from_shelf
    from galloon.store import ShelfOnDemand

    path = Path(shelf) if shelf else None
    if brief is not None:
        if wearer is not None:
            raise click.UsageError("--wearer is for ideas from the shelf alone; BRIEF has its own wearer")
        return from_brief(brief, ShelfOnDemand(path))
    from galloon.cli.shelf import opened

    _must_be_there(path)
    with opened(path) as there:
        return from_shelf(there, wearer, buy=buy, units=units)


def _must_be_there(path: Path | None) -> None:
    """Asking for ideas makes no new shelf. Raises BadInput where there is none."""
    from galloon.errors import BadInput, Fault
    from galloon.errors import show as shown
    from galloon.store import default_path

    where = path or default_path()
    if not where.exists():
        hint = "Give a BRIEF, or begin a shelf: galloon shelf add wearer NAME ..., galloon shelf add cloth NAME ..."
        raise BadInput((Fault(shown(str(where), 200), None, "shelf", "", "is not there", hint),))


def _screen(source: Source, ideas: Ideas, show: int) -> str:
    from galloon.findings import Status
    from galloon.ideas import words

    blocks = [sentence(one.says) for one in source.findings if one.status is not Status.PASS]
    blocks.append(sentence(words.counts_of(ideas)))
    if ideas.found:
        header = ("no", "score", "shape", "back", "pieces", "idea")
        rows = [_row(number, idea) for number, idea in enumerate(ideas.found[:show], 1)]
        blocks.append(table(header, rows, right=(0, 1, 3, 4)))
    if ideas.dropped:
        rows = [(str(count), reason, says) for reason, count, says in ideas.dropped]
        head = ("designs", "check that fails", "for one of them")
        blocks.append("What cannot be made, and why:\n" + table(head, rows, right=(0,)))
    return "\n\n".join(blocks)


def _row(number: int, idea: Idea) -> tuple[str, ...]:
    from galloon.ideas import words

    told = (
        words.use_of(idea),
        words.cloths_of(idea.design),
        idea.sketch.seams if idea.sketch.seams != "side seams" else "",
        words.needs_of(idea),
        words.buy_of(idea),
        words.leftovers_of(idea),
    )
    figures = idea.figures
    return (
        str(number),
        f"{100.0 * idea.score:.0f}",
        words.shape_of(idea),
        f"{figures.back:.0%}",
        str(figures.pieces),
        "; ".join(filter(None, told)),
    )


def _write_briefs(ideas: Ideas, briefs: tuple[tuple[int, str], ...]) -> None:
    from galloon.cli.new import write_new
    from galloon.ideas import brief_text_of

    for number, _ in briefs:
        if number > len(ideas.found):
            there = f"there are {len(ideas.found)} ideas" if len(ideas.found) > 1 else "there is one idea"
            raise click.UsageError(f"--brief {number}: {there}, numbered from 1")
    for number, file in briefs:
        write_new(Path(file), brief_text_of(ideas.found[number - 1]))
        click.echo(f"Idea {number} is in {plain(file)}. To make it: galloon make {plain(file)}")


def _write_pdf(source: Source, ideas: Ideas, wish: Wish, target: tuple[str, str]) -> None:
    from galloon.drawing import paper as paper_of
    from galloon.ideas import line_up_pdf
    from galloon.workflow.write_file import write_file

    file, paper = target
    write_file(Path(file), line_up_pdf(ideas, source.stock.base, wish.weights, paper_of(paper)))
    click.echo(f"Drawn in {plain(file)}.")
