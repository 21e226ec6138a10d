"""The command group tells errors in sentences, keeps its exit statuses, imports only what it runs."""

import subprocess
import sys
from importlib import import_module

import click
import pytest
from click.testing import CliRunner

from galloon.cli import COMMANDS, main
from galloon.cli.group import CHECK_FAILED, STOPPED, UNUSABLE, Entry, LazyGroup
from galloon.errors import BadInput, BadValue, CannotWrite, Fault

FAULTS = (
    Fault("brief.toml", 3, "wearer.waist", "-4", "must be above zero", "Measure again."),
    Fault("brief.toml", None, "wearer.hip", "", "is missing"),
)


def run(raises, *, code=None):
    group = LazyGroup("galloon")

    @group.command("work")
    @click.pass_context
    def work(ctx):
        if code is not None:
            ctx.exit(code)
        raise raises

    return CliRunner().invoke(group, ["work"])


def test_every_fault_is_one_line_on_stderr_and_the_status_is_2():
    result = run(BadInput(FAULTS))
    assert result.exit_code == UNUSABLE == 2
    assert result.stdout == ""
    assert result.stderr.splitlines() == [
        "brief.toml:3: wearer.waist: must be above zero (seen: -4). Measure again.",
        "brief.toml: wearer.hip: is missing.",
    ]


@pytest.mark.parametrize(
    "error", [BadValue("waist", "must be above zero", -4.0), CannotWrite("out", "the disk is full")]
)
def test_any_error_of_ours_is_its_sentence_without_a_traceback(error):
    result = run(error)
    assert (result.exit_code, result.stderr) == (2, f"{error}\n")


@pytest.mark.parametrize("stop", [KeyboardInterrupt(), click.Abort()])
def test_stopping_ends_with_a_plain_sentence_and_130(stop):
    result = run(stop)
    assert result.exit_code == STOPPED == 130
    assert result.stderr.strip().startswith("Stopped before it was finished")
    assert "Traceback" not in result.output


def test_an_error_that_is_not_ours_is_not_hidden():
    assert isinstance(run(ZeroDivisionError()).exception, ZeroDivisionError)


def test_a_command_may_say_that_a_check_failed():
    assert run(None, code=CHECK_FAILED).exit_code == 3


def test_a_command_without_a_module_is_not_offered():
    group = LazyGroup("galloon", entries=[Entry("weave", "no_such_module", "Weave.")])
    assert group.list_commands(click.Context(group)) == []
    assert CliRunner().invoke(group, ["weave"]).exit_code == 2


def test_a_near_miss_suggests_the_command_meant():
    group = LazyGroup("galloon", entries=[Entry("render", "render", "A module that is there.")])
    result = CliRunner().invoke(group, ["rendr"])
    assert result.exit_code == 2
    assert "'render'" in result.stderr


def test_help_lists_the_commands_in_order_and_imports_none_of_them():
    code = (
        "import sys; from galloon.cli import main; main(['--help'], standalone_mode=False);"
        "print(*(name for name in sys.modules if name.startswith('galloon.cli.')))"
    )
    shown = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True).stdout
    offered = [entry.name for entry in COMMANDS if entry.exists]
    listed = [line.split()[0] for line in shown.partition("Commands:")[2].splitlines() if line[:3].strip()]
    assert listed[: len(offered)] == offered
    assert shown.splitlines()[-1].split() == ["galloon.cli.group"]


def test_every_command_offered_loads_and_explains_itself():
    for entry in (entry for entry in COMMANDS if entry.exists):
        command = import_module(f"galloon.cli.{entry.module}").command
        assert isinstance(command, click.Command), entry.name
        assert command.help, f"{entry.name} has no help"
        assert CliRunner().invoke(main, [entry.name, "--help"]).exit_code == 0
