"""The help of every command shows every word that was written for it.

The help is laid out by a library that takes words in square brackets for a style and
drops them, for example a unit.
"""

import re

import pytest
import typer
from typer.testing import CliRunner

from strandproof.app.cli.program import program

GROUP = typer.main.get_command(program)
NAMES = sorted(getattr(GROUP, "commands", {}))


def _letters(text: str) -> str:
    """Leave out frames and white space, which depend on the width."""
    return "".join(re.sub(r"[│╭╮╰╯─]", "", text).split())


def test_there_are_commands_to_look_at() -> None:
    assert {"count", "resistance", "no-boundary"} <= set(NAMES)


@pytest.mark.parametrize("name", NAMES)
def test_no_word_of_the_help_is_lost(name: str) -> None:
    runner = CliRunner(env={"COLUMNS": "200", "NO_COLOR": "1", "TERM": "dumb"})
    shown = _letters(runner.invoke(program, [name, "--help"]).output)
    command = getattr(GROUP, "commands", {})[name]
    written = [
        words
        for parameter in command.params
        for words in (getattr(parameter, "help", None), parameter.metavar)
        if words
    ]
    lines = [*written, *(command.help or "").splitlines()]
    lost = [line for line in lines if _letters(line) not in shown]
    assert lost == []
