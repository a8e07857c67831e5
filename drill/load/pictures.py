"""A school's own pictures: files of its folder to checked values.

A picture lies in the folder's ``pictures`` and nowhere else: no path of a question set, and no link, leads
out of the school's folder, so that nothing of the machine gets into a pack unseen.
"""

import os
import stat
from contextlib import suppress
from dataclasses import replace
from pathlib import Path, PureWindowsPath

from drill.bank.picture import (
    MOST_ALL_BYTES,
    MOST_BYTES,
    Picture,
    PictureRefusedError,
    picture_from_bytes,
)
from drill.basis.problem import nearest
from drill.load.picture_bare import bare_picture
from drill.load.reading import Fields

PICTURES_FOLDER = "pictures"
_MOST_LISTED = 8
_PUT_THERE = f"put the file into the folder '{PICTURES_FOLDER}' beside school.yaml, and write its name there"


class SchoolPictures:
    """The pictures of a school's folder, each kept once however many questions show it.

    Args:
        school: The school's folder.
    """

    def __init__(self, school: Path) -> None:
        self._school = school
        self._kept: dict[str, bytes] = {}

    @property
    def names(self) -> tuple[str, ...]:
        """What may be named, as it is written in a question set."""
        names = (path.relative_to(self._school).as_posix() for path in picture_files(self._school))
        return tuple(name for name in names if name.isprintable() and "/." not in name)

    def read(self, written: str, *, words: str) -> Picture:
        """Read a picture.

        Args:
            written: The path as written, such as ``pictures/tray.png``.
            words: What it shows.

        Returns:
            The picture, without what a camera wrote beside it; the same bytes are one value in memory.

        Raises:
            PictureRefusedError: If it is not there, leads out of the folder, cannot be read, or is none that
                is taken.
        """
        picture = picture_from_bytes(bare_picture(self._bytes(written)), words=words)
        data = self._kept.setdefault(picture.sha256, picture.data)
        if sum(map(len, self._kept.values())) > MOST_ALL_BYTES:
            del self._kept[picture.sha256]
            raise PictureRefusedError(
                f"with this one the school's pictures have over {MOST_ALL_BYTES:,} bytes",
                "save some of them smaller, or leave some out",
            )
        return replace(picture, data=data)

    def _bytes(self, written: str) -> bytes:
        try:
            path = self._path(written)
            if not stat.S_ISREG(path.stat().st_mode):
                raise PictureRefusedError(f"'{written}' is no file", "name a PNG or JPEG file")
            with path.open("rb") as file:
                return file.read(MOST_BYTES + 1)
        except (OSError, RuntimeError, ValueError) as error:
            if isinstance(error, PictureRefusedError):
                raise
            if isinstance(error, FileNotFoundError | NotADirectoryError):
                raise PictureRefusedError(f"there is no picture '{written}'", self._mend(written)) from None
            # A name that is too long or holds a NUL, links in a ring, no right to read.
            reason = (getattr(error, "strerror", None) or "it cannot be read").lower()
            what = f"cannot read the picture: {reason}"
            raise PictureRefusedError(what, "check the path and its rights") from None

    def _path(self, written: str) -> Path:
        """Find the file; whatever system it was written on, both strokes part folders."""
        parts = PureWindowsPath(written)
        if parts.drive or parts.root or ".." in parts.parts:
            what = f"'{written}' leads out of the school's folder"
            raise PictureRefusedError(what, _PUT_THERE)
        if parts.parts[:1] != (PICTURES_FOLDER,):
            what = f"'{written}' does not lie in the folder '{PICTURES_FOLDER}'"
            raise PictureRefusedError(what, self._mend(written))
        path = self._school.joinpath(*parts.parts)
        if not path.resolve().is_relative_to(self._school.resolve()):
            what = f"'{written}' is a link that leads out of the school's folder"
            raise PictureRefusedError(what, f"copy the file itself into the folder '{PICTURES_FOLDER}'")
        return path

    def _mend(self, written: str) -> str:
        names = self.names
        # What all names begin with makes none of them nearer.
        near = nearest(_bare(written), [_bare(name) for name in names])
        if near is not None:
            return f"did you mean '{PICTURES_FOLDER}/{near}'?"
        return f"use one of: {', '.join(names)}" if 0 < len(names) <= _MOST_LISTED else _PUT_THERE


def _bare(name: str) -> str:
    return name.removeprefix(f"{PICTURES_FOLDER}/")


def picture_files(school: Path) -> list[Path]:
    """Find the files in a school's folder of pictures.

    Args:
        school: The school's folder.

    Returns:
        Those that may be taken by where they lie and how large they are, in the order of their names.
    """
    folder = school / PICTURES_FOLDER
    found = []
    with suppress(OSError, RuntimeError):  # no right to look, or links in a ring
        if folder.resolve().is_relative_to(school.resolve()):
            for where, _, names in os.walk(folder):
                found += [path for path in (Path(where, name) for name in names) if _may_be_taken(path)]
    return sorted(found)


def _may_be_taken(path: Path) -> bool:
    with suppress(OSError):  # a link to nowhere
        state = path.stat()
        return stat.S_ISREG(state.st_mode) and state.st_size <= MOST_BYTES
    return False


def read_picture(fields: Fields, pictures: SchoolPictures | None) -> Picture | None:
    """Take ``picture``: a file, and what it shows in words.

    Args:
        fields: The item; faults are gathered there.
        pictures: The school's pictures; None for what is built in, which is drawn.

    Returns:
        The picture; None where the item has none, or one with a fault.
    """
    node = fields.take("picture")
    if node is None:
        return None
    if pictures is None:
        what = "a built-in question has no picture of its own"
        fields.fault(node, what, "take 'picture' out: what is built in is drawn")
        return None
    entry = Fields(node, fields.problems, what="a picture")
    written, words = entry.text("file", required=True), entry.text("words")
    entry.done()
    where, told = entry.take("file"), entry.take("words")
    if isinstance(node.value, dict) and (told is None or (isinstance(told.value, str) and not words)):
        mend = "add 'words:' with what it shows, for whoever hears the screen or reads a terminal"
        fields.fault(told or node, "the picture has no words", mend)
    if where is None or not written:
        return None
    try:
        return pictures.read(written, words=words)
    except PictureRefusedError as error:
        fields.fault(where, error.what, error.mend)
        return None
