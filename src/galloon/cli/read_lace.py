"""``galloon read-lace IMAGE``: measures a lace from a scan or from a photograph beside a bank-size card."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

import click

from galloon.cli.group import CHECK_FAILED
from galloon.errors import BadInput, Fault, show

if TYPE_CHECKING:
    from galloon.reading import LaceReading, Picture

#: Keys of a lace that a picture gives, and that a new reading therefore replaces.
_MEASURED = (
    "width", "scallop_pitch", "scallop_depth", "second_pitch", "second_depth", "repeat", "second_edge", "half_turn",
    "picture",
)  # fmt: skip


@click.command()
@click.argument("image", type=click.Path())
@click.option("--dpi", type=float, help="Dots per inch of the scan; left out, the file's own are used.")
@click.option("--card", is_flag=True, help="A bank-size card lies flat beside the lace: take the scale from it.")
@click.option("--json", "as_data", is_flag=True, help="Print JSON (millimetres) instead of a block for a brief.")
@click.option("--name", default="lace", show_default=True, help="Name of the cloth in the printed block.")
@click.option("--units", type=click.Choice(["mm", "cm", "in"]), default="cm", show_default=True)
@click.option(
    "--overlay", type=click.Path(dir_okay=False), help="Also write the picture with what was found drawn on it."
)
@click.option(
    "--picture", "seen", type=click.Path(dir_okay=False), help="Also write one repeat, straight, for a brief (PNG)."
)
@click.option("--onto", metavar="SHELF-NAME", help="Put the lace on the shelf by that name, or measure it anew there.")
@click.option("--shelf", type=click.Path(), help="File of the shelf; your own, in your data folder, unless given.")
@click.option("--stretch-length", type=float, metavar="PERCENT", help="With --onto: stretch along the lace.")
@click.option("--stretch-width", type=float, metavar="PERCENT", help="With --onto: stretch across it.")
@click.option("--anyway", is_flag=True, help="With --onto: keep the figures although something disturbed the reading.")
@click.pass_context
def command(
    ctx: click.Context, image: str, dpi: float | None, card: bool, as_data: bool, name: str, units: str,
    overlay: str | None, seen: str | None, onto: str | None, shelf: str | None, stretch_length: float | None,
    stretch_width: float | None, anyway: bool,
) -> None:  # fmt: skip
    """Measure the lace in IMAGE: width, scallops, repeat, symmetries, openness, each with its uncertainty.

    Not dependable yet: check every figure with a ruler before you use it.
    """
    from galloon.reading import as_json, as_toml_block, load_picture

    if card and dpi is not None:
        raise BadInput((Fault(show(image), None, "--card", f"--dpi {dpi:g}", "say either --dpi or --card, not both"),))
    picture = load_picture(image)
    reading = _read(picture, image, dpi, card, level=bool(seen or onto))
    if overlay:
        _write_overlay(overlay, picture, reading)
    block = as_toml_block(reading, name, units).rstrip()
    if seen:
        block += f"\npicture = {json.dumps(_write_repeat(seen, image, reading), ensure_ascii=False)}"
    click.echo(json.dumps(as_json(reading), indent=2) if as_data else block)
    if reading.doubtful:
        for doubt in reading.warnings:
            click.echo(f"{show(image)}: {doubt.name}: {doubt.says}", err=True)
    if onto is not None and (anyway or not reading.doubtful):
        stretch = {"stretch_length": stretch_length, "stretch_width": stretch_width}
        _keep(reading, onto, {key: value for key, value in stretch.items() if value is not None}, shelf)
    elif onto is not None:
        click.echo("Not put on the shelf, for these reasons. To keep the figures all the same: --anyway.", err=True)
    if reading.doubtful:
        ctx.exit(CHECK_FAILED)


def _read(picture: Picture, image: str, dpi: float | None, card: bool, *, level: bool) -> LaceReading:
    from galloon.reading import read_lace

    if card:
        return read_lace(picture.pixels, card=True, name=show(image), level=level)
    said = dpi if dpi is not None else picture.dpi
    if said is None:
        rule = "the file does not say its dots per inch"
        hint = "Give --dpi N for a scan, or --card for a photo with a bank-size card beside the lace."
        raise BadInput((Fault(show(image), None, "--dpi", "", rule, hint),))
    if not 25 <= said <= 15000:
        raise BadInput((Fault(show(image), None, "--dpi", f"{said:g}", "must lie between 25 and 15000"),))
    return read_lace(picture.pixels, mm_per_px=picture.mm_per_px(said), name=show(image), level=level)


def _keep(reading: LaceReading, name: str, stretch: dict[str, float], file: str | None) -> None:
    """Put the lace among the cloths of the shelf; of one already there, only what was measured changes."""
    import tomllib
    from pathlib import Path

    from galloon.brief import picture_from
    from galloon.reading import as_toml_block, repeat_of
    from galloon.store import add, change, find, open_shelf, put_picture

    seen = repeat_of(reading)
    measured = tomllib.loads(as_toml_block(reading, "lace", "mm"))["cloth"]["lace"] | stretch
    with open_shelf(Path(file) if file else None) as shelf:
        for note in shelf.notes:
            click.echo(show(note), err=True)
        if seen is not None:
            measured["picture"] = put_picture(shelf, picture_from(seen))
        if find(shelf, "cloth", name) is None:
            add(shelf, "cloth", name, {"units": "mm", **measured})
        else:
            gone = dict.fromkeys(key for key in _MEASURED if key not in measured)
            change(shelf, "cloth", name, {"units": "mm", **gone, **measured})
    click.echo(f"On the shelf: cloth {show(name)}.", err=True)


def _write_overlay(target: str, picture: Picture, reading: LaceReading) -> None:
    from PIL import Image

    from galloon.errors import CannotWrite
    from galloon.reading import overlay

    try:
        Image.fromarray(overlay(picture.pixels, reading)).save(target)
    except (OSError, ValueError) as error:
        raise CannotWrite(show(target), str(error)) from None


def _write_repeat(target: str, image: str, reading: LaceReading) -> str:
    """Writes one repeat of the lace; what a brief in the same folder calls it."""
    from pathlib import Path

    from galloon.brief import picture_from, png_of
    from galloon.errors import CannotWrite
    from galloon.reading import repeat_of

    seen = repeat_of(reading)
    if seen is None:
        rule = "shows no whole repeat of the lace between both its edges"
        raise BadInput((Fault(show(image), None, "--picture", show(target), rule),))
    try:
        Path(target).write_bytes(png_of(picture_from(seen)))
    except (OSError, ValueError) as error:
        raise CannotWrite(show(target), str(error)) from None
    return Path(target).name
