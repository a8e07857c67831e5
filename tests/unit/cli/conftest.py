"""The command line at work in a folder of its own."""

from collections.abc import Callable
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from drill.cli.main import wavedrill

SOUND_HEAD = """\
client: Wren
hair: {length: 18 cm, strand: medium, density: average, pattern: straight, porosity: average,
  elasticity: good, ends: even}
history: {known: yes, color: none, lightened: none, relaxer: none, smoothing: no, metallic_dye: no,
  weeks_since_perm: never, reaction: no}
scalp: healthy
health: {treatment: none}
wish: {curl: medium, root_volume: moderate, look: waves, wear: back}
"""


@pytest.fixture
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The data folder of a student, empty, and no display."""
    folder = tmp_path / "home"
    monkeypatch.setenv("WAVEDRILL_HOME", str(folder))
    for name in ("DISPLAY", "WAYLAND_DISPLAY", "SDL_VIDEODRIVER", "NO_COLOR"):
        monkeypatch.delenv(name, raising=False)
    return folder


@pytest.fixture
def run(home: Path) -> Callable[..., Result]:
    """Run the command; whatever it is given, it ends with a status and never with an error of its own."""

    def call(*args: object, stdin: str | bytes = "", status: int = 0) -> Result:
        result = CliRunner().invoke(wavedrill, [str(arg) for arg in args], input=stdin)
        assert result.exception is None or isinstance(result.exception, SystemExit), result.exception
        assert result.exit_code == status, result.output
        return result

    return call


@pytest.fixture
def sound_head(tmp_path: Path) -> Path:
    """A consultation that works."""
    path = tmp_path / "wren.yaml"
    path.write_text(SOUND_HEAD)
    return path
