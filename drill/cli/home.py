"""The folder where this program keeps a student's log and settings, and what the settings say."""

import os
import sys
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from drill.basis.problem import Place, Problem, ProblemsError
from drill.basis.words import say
from drill.load.reading import Fields, read_file
from drill.store.pack import SUFFIX

OWN_FOLDER = "WAVEDRILL_HOME"
LOG_FILE, SETTINGS_FILE, CACHE_FOLDER = "attempts.sqlite", "settings.yaml", "cache"


@dataclass(frozen=True, slots=True, kw_only=True)
class Settings:
    """What a student has set for good.

    Attributes:
        school: The school's folder; None where none is set.
        student: The name to keep answers under; empty where none is set.
    """

    school: Path | None = None
    student: str = ""


def data_folder(
    *, environment: Mapping[str, str] = os.environ, platform: str = sys.platform, user: Path | None = None
) -> Path:
    """Find the folder where this program keeps its files.

    Args:
        environment: The environment's variables; ``WAVEDRILL_HOME`` names the folder outright.
        platform: The system, as Python names it.
        user: The user's own folder.

    Returns:
        The folder, there or not: what each system sets aside for a program's data.
    """
    stated = environment.get(OWN_FOLDER)
    if stated:
        return Path(stated)
    user = user or Path.home()
    if platform == "darwin":
        return user / "Library" / "Application Support" / "wavedrill"
    if platform == "win32":
        return Path(environment.get("LOCALAPPDATA") or user / "AppData" / "Local") / "wavedrill"
    return Path(environment.get("XDG_DATA_HOME") or user / ".local" / "share") / "wavedrill"


def read_settings(folder: Path) -> tuple[Settings, list[Problem]]:
    """Read ``settings.yaml``, with the keys ``school`` and ``student``.

    Args:
        folder: The data folder; a school's folder is found from there.

    Returns:
        The settings, and every fault found; without the file both are empty.
    """
    path = folder / SETTINGS_FILE
    if not path.exists():
        return Settings(), []
    nodes, problems = read_file(path)
    settings = Settings()
    for node in nodes:
        fields = Fields(node, problems, what="the settings file")
        school, student = fields.text("school"), fields.text("student")
        fields.done()
        settings = Settings(school=folder / school if school else None, student=student)
    return settings, problems


def find_pack(folder: Path) -> Path | None:
    """Find the pack that lies in the data folder.

    Args:
        folder: The data folder.

    Returns:
        Its file; None where none lies there.

    Raises:
        ProblemsError: If there are several, since nobody could tell which one holds.
    """
    packs = sorted(folder.glob(f"*{SUFFIX}"))
    if len(packs) > 1:
        names = ", ".join(path.name for path in packs)
        what = say("several packs lie here: {names}", names=names)
        raise ProblemsError([Problem(Place(str(folder)), what, say("keep the one of your school"))])
    return packs[0] if packs else None
