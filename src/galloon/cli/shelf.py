"""``galloon shelf``: what the maker owns and knows, kept for later briefs."""

from __future__ import annotations

import tomllib
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final

import click

from galloon.cli.render import plain, table
from galloon.cli.shelf_past import COMMANDS

if TYPE_CHECKING:
    from galloon.store import Shelf

KIND_NAMES: Final = ("wearer", "cloth", "elastic", "block", "leftover", "drawing", "brief")


class _Kind(click.Choice[str]):
    """The kinds; a lace is kept as a cloth."""

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> str:
        return super().convert("cloth" if value == "lace" else value, param, ctx)


_KIND: Final = _Kind(KIND_NAMES)
_UNITS: Final = click.option(
    "--units", type=click.Choice(["mm", "cm", "in"]), default="cm", show_default=True, help="Unit of bare numbers."
)


@click.group(context_settings={"help_option_names": ["-h", "--help"]})
@click.option("--shelf", type=click.Path(), help="File of the shelf; your own, in your data folder, unless given.")
@click.pass_context
def command(ctx: click.Context, shelf: str | None) -> None:
    """Keep wearers, cloths, laces, elastics, blocks, leftovers, drawings and briefs for later.

    A lace is kept as a cloth.
    """
    ctx.obj = Path(shelf) if shelf else None


@contextmanager
def opened(path: Path | None) -> Iterator[Shelf]:
    """The open shelf; what it has to tell the maker is printed."""
    from galloon.store import open_shelf

    with open_shelf(path) as shelf:
        for note in shelf.notes:
            click.echo(plain(note), err=True)
        yield shelf


@command.command()
@click.argument("kind", type=_KIND)
@click.argument("name")
@click.argument("settings", nargs=-1, metavar="[KEY=VALUE]...")
@click.option("--from", "source", type=click.Path(), help="Brief (TOML), or SVG for a drawing, to take it from.")
@_UNITS
@click.pass_obj
def add(path: Path | None, kind: str, name: str, settings: tuple[str, ...], source: str | None, units: str) -> None:
    """Put a thing on the shelf, from a brief or from KEY=VALUE as a brief has them.

    Example: galloon shelf add cloth mesh kind=mesh width=150 stretch_width=70 stretch_length=50 on_hand=60
    """
    from galloon.store import add as add_thing

    data = _from_file(kind, name, source) if source else {"units": units}
    folder = Path(source).parent if source else Path()
    with opened(path) as shelf:
        add_thing(shelf, kind, name, _with_pictures(shelf, {**data, **_settings(settings)}, folder))
    click.echo(f"On the shelf: {kind} {plain(name)}.")


@command.command()
@click.argument("kind", type=_KIND)
@click.argument("name")
@click.argument("settings", nargs=-1, required=True, metavar="KEY=VALUE...")
@_UNITS
@click.pass_obj
def change(path: Path | None, kind: str, name: str, settings: tuple[str, ...], units: str) -> None:
    """Change some keys of a thing; KEY= takes the key out."""
    from galloon.store import change as change_thing

    given = _settings(settings)
    with opened(path) as shelf:
        change_thing(shelf, kind, name, given if kind == "brief" else {"units": units, **given})
    click.echo(f"Changed: {kind} {plain(name)}.")


@command.command()
@click.argument("kind", type=_KIND)
@click.argument("name")
@click.pass_obj
def remove(path: Path | None, kind: str, name: str) -> None:
    """Take a thing off the shelf."""
    from galloon.store import remove as remove_thing

    with opened(path) as shelf:
        remove_thing(shelf, kind, name)
    click.echo(f"Off the shelf: {kind} {plain(name)}.")


@command.command("list")
@click.argument("kind", type=_KIND, required=False)
@click.pass_obj
def list_command(path: Path | None, kind: str | None) -> None:
    """List what is on the shelf."""
    from galloon.cli.shelf_words import summary
    from galloon.store import list_things

    with opened(path) as shelf:
        rows = [(thing.kind, thing.name, summary(thing)) for thing in list_things(shelf, kind)]
    click.echo(
        table(("kind", "name", "what"), rows) if rows else "Nothing there yet. To begin: galloon shelf add --help"
    )


@command.command()
@click.argument("kind", type=_KIND)
@click.argument("name")
@click.pass_obj
def show(path: Path | None, kind: str, name: str) -> None:
    """Print a thing as a brief would spell it out; lengths in millimetres."""
    from galloon.cli.shelf_words import spelled_out
    from galloon.store import show_thing

    with opened(path) as shelf:
        click.echo(spelled_out(show_thing(shelf, kind, name)), nl=False)


def _settings(given: Iterable[str]) -> dict[str, Any]:
    """KEY=VALUE as data: values as TOML, else as plain text; KEY.INNER=VALUE goes into a table; KEY= is None."""
    found: dict[str, Any] = {}
    for one in given:
        key, sign, value = one.partition("=")
        if not sign or not key.strip():
            raise click.UsageError(f"{plain(one)}: must read KEY=VALUE, such as width=150 or width='60 in'")
        outer, dot, inner = key.strip().partition(".")
        read = _value(value.strip())
        if dot:
            held = found.setdefault(outer, {})
            found[outer] = {**(held if isinstance(held, dict) else {}), inner: read}
        else:
            found[outer] = read
    return found


def _value(text: str) -> Any:
    if not text:
        return None
    try:
        value = tomllib.loads(f"value = {text}")["value"] if "\n" not in text else text
    except (tomllib.TOMLDecodeError, RecursionError, ValueError):
        return text
    return value


def _with_pictures(shelf: Shelf, data: dict[str, Any], folder: Path) -> dict[str, Any]:
    """The data with every picture file that it names, in ``folder``, kept on the shelf and named as that is."""
    from galloon.brief import ON_SHELF, load_lace_picture
    from galloon.store import put_picture

    def kept(table: Any) -> Any:
        said = table.get("picture") if isinstance(table, dict) else None
        if not isinstance(said, str) or said.startswith(ON_SHELF):
            return table
        return {**table, "picture": put_picture(shelf, load_lace_picture(folder / said))}

    cloths = data.get("cloth")
    if isinstance(cloths, dict):
        data = {**data, "cloth": {name: kept(table) for name, table in cloths.items()}}
    found: dict[str, Any] = kept(data)
    return found


def _from_file(kind: str, name: str, source: str) -> dict[str, Any]:
    """The thing's data from a brief: its table of that name, the wearer, the block, or the whole."""
    from galloon.brief import brief_text, load_drawing
    from galloon.brief.parse import parse_toml

    if kind == "drawing":
        return {"pieces": load_drawing(Path(source))}
    data = parse_toml(brief_text(Path(source)), source)
    if kind in ("brief", "leftover"):
        return data
    found = data.get(kind, {})
    found = found.get(name) if kind in ("cloth", "elastic") and isinstance(found, dict) else found
    if not isinstance(found, dict) or not found:
        wanted = f"{kind}.{plain(name)}" if kind in ("cloth", "elastic") else kind
        raise click.UsageError(f"{plain(source)}: has no table [{wanted}]")
    return {"units": data.get("units", "mm"), **found}


for one in COMMANDS:
    command.add_command(one)
