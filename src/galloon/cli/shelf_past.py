"""The parts of ``galloon shelf`` that reach back: cuts, undo, kept versions, backups, export and import."""

from __future__ import annotations

from pathlib import Path

import click

from galloon.cli.render import plain, table


@click.command()
@click.pass_obj
def cuts(path: Path | None) -> None:
    """List the cuts that were booked."""
    from galloon.cli.shelf import opened
    from galloon.store import list_bookings
    from galloon.units import format_length

    with opened(path) as shelf:
        rows = [
            (
                str(one.number),
                one.booked[:10],
                "undone" if one.undone else "",
                one.title,
                ", ".join(f"{taking.cloth} {format_length(taking.need)}" for taking in one.takings),
            )
            for one in list_bookings(shelf)
        ]
    click.echo(table(("cut", "day", "", "title", "took"), rows) if rows else "No cut is booked yet.")


@click.command()
@click.pass_obj
def undo(path: Path | None) -> None:
    """Undo the last cut that was booked."""
    from galloon.cli.shelf import opened
    from galloon.store import undo_last

    with opened(path) as shelf:
        undone = undo_last(shelf)
    click.echo(f"Undone: cut {undone.number}, {plain(undone.title)}.")


@click.command()
@click.argument("brief", type=click.Path())
@click.pass_obj
def keep(path: Path | None, brief: str) -> None:
    """Keep the pattern of BRIEF as a version, so that it can always be printed again."""
    from galloon.cli.progress import progress
    from galloon.cli.shelf import opened
    from galloon.workflow.booking import keep_brief

    with opened(path) as shelf, progress() as step:
        kept = keep_brief(brief, shelf, step=step)
    click.echo(f"Kept: {plain(kept.name)}, version {kept.number}.")


@click.command()
@click.pass_obj
def versions(path: Path | None) -> None:
    """List the pattern versions that are kept."""
    from galloon.cli.shelf import opened
    from galloon.store import list_versions

    with opened(path) as shelf:
        rows = [(one.name, str(one.number), one.made[:10], f"galloon {one.program}") for one in list_versions(shelf)]
    header = ("pattern", "version", "kept on", "drawn by")
    click.echo(table(header, rows, right=(1,)) if rows else "No pattern version is kept yet.")


@click.command("remove-version")
@click.argument("name")
@click.argument("number", type=click.IntRange(min=1))
@click.pass_obj
def remove_version_command(path: Path | None, name: str, number: int) -> None:
    """Take a kept pattern version off the shelf; one that something was cut from stays."""
    from galloon.cli.shelf import opened
    from galloon.store import remove_version

    with opened(path) as shelf:
        remove_version(shelf, name, number)
    click.echo(f"Off the shelf: {plain(name)}, version {number}.")


@click.command("print")
@click.argument("name")
@click.option("--version", "number", type=click.IntRange(min=1), help="Number of the version; the last unless given.")
@click.option("--drawing", is_flag=True, help="NAME is a drawing that came in as SVG; print its outlines.")
@click.option("--out", type=click.Path(), help="Folder for the result.")
@click.option("--paper", type=click.Choice(["a4", "letter", "a3", "a0"]), default="a4", show_default=True)
@click.pass_obj
def print_command(path: Path | None, name: str, number: int | None, drawing: bool, out: str | None, paper: str) -> None:
    """Make the files of a kept pattern version, or of a drawing, again; true to size."""
    if drawing:
        if number is not None:
            raise click.UsageError("--version is for kept patterns; a drawing has none")
        _print_drawing(path, name, out, paper)
    else:
        _print_version(path, name, number, out, paper)


def _print_drawing(path: Path | None, name: str, out: str | None, paper: str) -> None:
    from galloon.cli.shelf import opened
    from galloon.workflow.print_drawing import drawing_files
    from galloon.workflow.write_folder import write_folder

    with opened(path) as shelf:
        files = drawing_files(shelf, name, paper)
    target = Path(out) if out else Path(_folder_name(name, "drawing"))
    write_folder(target, files, mark="pattern.svg")
    click.echo(f"{plain(name)}: written to {plain(str(target))}.")


def _print_version(path: Path | None, name: str, number: int | None, out: str | None, paper: str) -> None:
    from galloon.cli.progress import progress
    from galloon.cli.shelf import opened
    from galloon.workflow.booking import draw_again
    from galloon.workflow.job import make_files
    from galloon.workflow.write_folder import write_folder

    with opened(path) as shelf, progress() as step:
        again = draw_again(shelf, name, number, step=step)
        target = Path(out) if out else Path(_folder_name(again.version.name, f"version-{again.version.number}"))
        write_folder(target, make_files(again.made, paper, step=step))
    click.echo(f"{plain(name)}, version {again.version.number}: written to {plain(str(target))}.")
    if not again.same:
        click.echo(
            f"This galloon draws it otherwise than galloon {again.version.program} did when it was kept: "
            "the cut outlines differ. Measure before you cut."
        )


def _folder_name(name: str, which: str) -> str:
    """A plain name for a folder here: no path, whatever the pattern is called."""
    stem = "".join(ch if ch.isalnum() or ch in " -_" else "-" for ch in name).strip(" -") or "pattern"
    return f"{stem}-{which}"


@click.command()
@click.pass_obj
def backup(path: Path | None) -> None:
    """Make the day's backup now, and list those that are kept."""
    from galloon.cli.shelf import opened
    from galloon.store import back_up, backups

    with opened(path) as shelf:
        back_up(shelf.connection, shelf.path)
        kept = backups(shelf.path)
    click.echo("\n".join(plain(str(one)) for one in kept))


@click.command()
@click.argument("target", type=click.Path())
@click.pass_obj
def export(path: Path | None, target: str) -> None:
    """Write everything to the JSON file TARGET, for another machine."""
    from galloon.cli.shelf import opened
    from galloon.store import export_all
    from galloon.workflow.write_file import write_file

    with opened(path) as shelf:
        write_file(Path(target), export_all(shelf).encode("utf-8"))
    click.echo(f"Written to {plain(target)}. It holds measurements: keep it to yourself.")


@click.command("import")
@click.argument("source", type=click.Path())
@click.option("--replace", is_flag=True, help="Empty the shelf first; it is backed up before.")
@click.pass_obj
def import_command(path: Path | None, source: str, replace: bool) -> None:
    """Put everything that an exported JSON file holds on the shelf."""
    from galloon.cli.shelf import opened
    from galloon.store import back_up, import_all, read_export

    text = read_export(Path(source))
    with opened(path) as shelf:
        if replace:
            back_up(shelf.connection, shelf.path)
        count = import_all(shelf, text, file=source, replace=replace)
    click.echo(f"Taken in: {count} new {'thing' if count == 1 else 'things'}.")


COMMANDS = (cuts, undo, keep, versions, remove_version_command, print_command, backup, export, import_command)
