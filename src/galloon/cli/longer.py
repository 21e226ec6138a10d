"""The longer search for a shorter cutting plan: its option, its progress bar, and Ctrl-C to end it with the best."""

from __future__ import annotations

import signal
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING, Final

import click

if TYPE_CHECKING:
    from galloon.cutting import Progress
    from galloon.workflow.plan_cutting import Longer

#: Seconds for each cloth where the maker does not say.
_USUAL: Final = 60.0
_MOST: Final = 3600.0

option = click.option(
    "--try-longer",
    "longer",
    type=click.FloatRange(1.0, _MOST),
    is_flag=False,
    flag_value=_USUAL,
    metavar="[SECONDS]",
    help=f"Search so long for a shorter cutting plan of each cloth ({_USUAL:g} s unless given); Ctrl-C ends it early.",
)


@contextmanager
def trying_longer(seconds: float | None, step: Callable[[str], None]) -> Iterator[Longer | None]:
    """What the workflow is told: None where no longer search is asked for. ``step("")`` quiets the line of steps."""
    if seconds is None:
        yield None
        return
    from galloon.cli.bar import bar
    from galloon.cli.render import plain
    from galloon.units import format_length
    from galloon.workflow.plan_cutting import Longer

    with bar() as told, _interrupted() as cancelled:

        def progress(cloth: str, now: Progress) -> None:
            step("")
            words = f"Trying longer for {plain(cloth)}, {format_length(now.length)} so far, seconds"
            told(words, min(round(now.seconds), round(seconds)), round(seconds))

        yield Longer(seconds, progress, cancelled)


@contextmanager
def _interrupted() -> Iterator[Callable[[], bool]]:
    """Whether Ctrl-C was pressed; the first time ends only the search under way, the second time the program."""
    pressed = threading.Event()
    usual = signal.getsignal(signal.SIGINT)

    def heard(number: int, frame: object) -> None:
        if pressed.is_set():
            raise KeyboardInterrupt
        pressed.set()

    signal.signal(signal.SIGINT, heard)
    try:
        yield pressed.is_set
    finally:
        signal.signal(signal.SIGINT, usual)
