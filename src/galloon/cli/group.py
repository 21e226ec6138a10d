"""The command group: loads a command's module only when it is called, and turns errors into messages."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from importlib import import_module
from pathlib import Path
from typing import Any, Final

import click

from galloon.errors import BadInput, GalloonError

#: Exit statuses beside 0 (made, nothing failed): the input or the command cannot be used; made, but a check
#: failed; stopped by the maker (128 + SIGINT, as shells report it).
UNUSABLE: Final = 2
CHECK_FAILED: Final = 3
STOPPED: Final = 130

_HERE: Final = Path(__file__).parent


@dataclass(frozen=True)
class Entry:
    """One command: its name, the module here that holds it as ``command``, its line in the list."""

    name: str
    module: str
    summary: str

    @property
    def exists(self) -> bool:
        """Whether the module is there to be loaded."""
        return (_HERE / f"{self.module}.py").is_file()


class LazyGroup(click.Group):
    """A click group over a table of entries; nothing but the called command is imported."""

    def __init__(self, *args: Any, entries: Sequence[Entry] = (), **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.entries = {entry.name: entry for entry in entries if entry.exists}

    def list_commands(self, ctx: click.Context) -> list[str]:
        """The names in the order of the table."""
        return [*self.entries, *super().list_commands(ctx)]

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """The command of that name, imported now; None when there is none."""
        entry = self.entries.get(cmd_name)
        if entry is None:
            return super().get_command(ctx, cmd_name)
        command: click.Command = import_module(f"galloon.cli.{entry.module}").command
        return command

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """Lists the commands from the table, so that help imports none of them."""
        rows = [(entry.name, entry.summary) for entry in self.entries.values()]
        if rows:
            with formatter.section("Commands"):
                formatter.write_dl(rows)

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        """As click does, and suggests the nearest name for one that is unknown."""
        try:
            return super().resolve_command(ctx, args)
        except click.NoSuchCommand as error:
            raise click.NoSuchCommand(error.command_name, possibilities=self.list_commands(ctx), ctx=ctx) from None

    def invoke(self, ctx: click.Context) -> Any:
        """Runs the command; what it raises on purpose becomes messages on stderr and an exit status."""
        try:
            return super().invoke(ctx)
        except GalloonError as error:
            for message in messages(error):
                click.echo(message, err=True)
            ctx.exit(UNUSABLE)
        except (KeyboardInterrupt, click.Abort):
            click.echo("\nStopped before it was finished; what was there before is as it was.", err=True)
            ctx.exit(STOPPED)


def messages(error: GalloonError) -> list[str]:
    """One message for each thing that is wrong."""
    return [str(fault) for fault in error.faults] if isinstance(error, BadInput) else [str(error)]
