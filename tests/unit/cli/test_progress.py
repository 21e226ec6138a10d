"""A step that takes long is named on a terminal; nothing is written anywhere else."""

import io
import threading

from galloon.cli.progress import progress


class Terminal(io.StringIO):
    """A stream that says it is a terminal and tells when something was written."""

    def __init__(self):
        super().__init__()
        self.wrote = threading.Event()

    def isatty(self):
        return True

    def write(self, text):
        written = super().write(text)
        self.wrote.set()
        return written


def test_a_long_step_is_named_on_a_terminal_and_wiped_afterwards():
    terminal = Terminal()
    with progress(terminal, patience=0.01) as step:
        step("fitting the lace")
        assert terminal.wrote.wait(10)
    assert "fitting the lace …" in terminal.getvalue()
    assert terminal.getvalue().endswith("\x1b[2K")


def test_a_short_step_shows_nothing():
    terminal = Terminal()
    with progress(terminal, patience=60) as step:
        step("fitting the lace")
    assert terminal.getvalue() == ""


def test_nothing_is_written_where_there_is_no_terminal():
    stream = io.StringIO()
    with progress(stream, patience=0.0) as step:
        step("fitting the lace")
    assert stream.getvalue() == ""


def test_the_line_is_wiped_when_the_work_fails():
    terminal = Terminal()
    try:
        with progress(terminal, patience=0.01) as step:
            step("fitting the lace")
            assert terminal.wrote.wait(10)
            raise ZeroDivisionError
    except ZeroDivisionError:
        pass
    assert terminal.getvalue().endswith("\x1b[2K")
