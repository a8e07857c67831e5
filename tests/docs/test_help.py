"""Every command has a help text that stands on its own."""

import click
import pytest
from click.testing import CliRunner

from drill.cli.main import wavedrill

COMMANDS = sorted(wavedrill.commands)


@pytest.mark.parametrize("name", [None, *COMMANDS])
def test_help_tells_every_argument_and_option(name: str | None) -> None:
    """Each option has a sentence, and the text fits 80 columns."""
    command = wavedrill.commands[name] if name else wavedrill
    result = CliRunner().invoke(wavedrill, [*([name] if name else []), "--help"])
    assert result.exit_code == 0
    assert command.help
    for parameter in command.params:
        if isinstance(parameter, click.Option):
            assert parameter.help, parameter.name
            assert parameter.opts[0] in result.stdout
        else:
            assert str(parameter.metavar).strip("[].") in result.stdout
    assert max(map(len, result.stdout.splitlines())) <= 80


def test_the_bare_help_lists_every_command() -> None:
    """With its one line."""
    text = CliRunner().invoke(wavedrill, ["--help"]).stdout
    for name in COMMANDS:
        assert any(line.split()[:1] == [name] and len(line.split()) > 2 for line in text.splitlines())


@pytest.mark.parametrize("name", ["plan", None])
def test_help_says_who_decides(name: str | None) -> None:
    """Where a service is planned, the licensed practice is named."""
    text = CliRunner().invoke(wavedrill, [*([name] if name else []), "--help"]).stdout
    assert "never permission" in " ".join(text.split())
