"""``galloon open``: the local page."""

from __future__ import annotations

from pathlib import Path
from typing import IO

import click


@click.command()
@click.option(
    "--port", type=click.IntRange(0, 65535), default=8317, show_default=True, help="Port; 0 takes a free one."
)
@click.option("--no-browser", is_flag=True, help="Start it without opening the browser.")
@click.option("--shelf", type=click.Path(path_type=Path), help="File of the shelf; your own unless given.")
@click.option("--network", metavar="ADDRESS", help="Offer it on this address of the machine; asks for a password.")
@click.option("--password-file", type=click.File("r"), help="File whose first line is that password; - reads it.")
def command(
    port: int, no_browser: bool, shelf: Path | None, network: str | None, password_file: IO[str] | None
) -> None:
    """Open the local page in the browser. It listens on this machine only."""
    password = _password(network, password_file)
    if network:
        click.echo(
            "Everyone who can reach this address and knows the password can see and change your designs and "
            "measurements. What goes over the network is not encrypted.",
            err=True,
        )
    from galloon.web import serve

    serve(shelf, port=port, browser=not no_browser, network=network, password=password)


def _password(network: str | None, file: IO[str] | None) -> str | None:
    if network is None:
        if file is not None:
            raise click.UsageError("--password-file goes with --network")
        return None
    word = file.readline().strip() if file is not None else click.prompt("Password for the page", hide_input=True)
    if len(word) < 8:
        raise click.UsageError("the password needs at least 8 characters")
    return str(word)
