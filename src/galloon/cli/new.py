"""``galloon new [FILE]``: a commented starter brief, written whole or not at all, never over another file."""

from __future__ import annotations

import os
import secrets
from contextlib import suppress
from pathlib import Path

import click

from galloon.errors import CannotWrite, show


@click.command()
@click.argument("file", type=click.Path(), default="brief.toml")
@click.option(
    "--units",
    type=click.Choice(["mm", "cm", "in"]),
    default="cm",
    show_default=True,
    help="Unit of the bare numbers in it.",
)
def command(file: str, units: str) -> None:
    """Write a starter brief to FILE (brief.toml unless given; - prints it). It works as it is."""
    from galloon.brief import starter_brief

    text = starter_brief(units)
    if file == "-":
        click.echo(text, nl=False)
        return
    write_new(Path(file), text)
    click.echo(f"Wrote {file}. Put your own figures in it, then: galloon check {file}")


def write_new(target: Path, text: str) -> None:
    """Writes ``text`` to ``target``, which must not exist. Raises CannotWrite and leaves nothing behind otherwise."""
    beside = target.parent / f".{secrets.token_hex(8)}.part"
    try:
        try:
            beside.write_text(text, encoding="utf-8", newline="\n")
            _place(beside, target)
        finally:
            with suppress(OSError, ValueError):
                beside.unlink(missing_ok=True)
    except FileExistsError:
        raise CannotWrite(show(str(target)), "there is something of that name already; choose another name") from None
    except (OSError, ValueError) as error:
        raise CannotWrite(show(str(target)), getattr(error, "strerror", None) or str(error)) from None


def _place(beside: Path, target: Path) -> None:
    """Gives the finished file its name; a link fails where the name is taken, so no other file is ever replaced."""
    try:
        os.link(beside, target)
    except FileExistsError:
        raise
    except OSError:
        # Some file systems have no links: claim the name first, then fill it in one step.
        os.close(os.open(target, os.O_CREAT | os.O_EXCL | os.O_WRONLY, 0o644))
        os.replace(beside, target)
