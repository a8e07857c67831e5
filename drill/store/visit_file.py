"""The file of a record of visits, and the words for what can be wrong with it. Only its owner may read it."""

from collections.abc import Callable, Mapping
from pathlib import Path

from drill.basis.words import say
from drill.store.sqlite_file import SqliteFile
from drill.store.visit_table import APPLICATION_ID, FORMAT, SCHEMA, SELECT_EVENTS, SELECT_NAMES

_OWNER_ONLY = 0o600
_MOST_LETTERS = 80

_WORDS: Mapping[str, Callable[..., tuple[str, str]]] = {
    "damaged": lambda **_: (
        say("this record of visits is damaged"),
        say("keep the file, and go on with a copy of it from before"),
    ),
    "busy": lambda **_: (
        say("another program is using this record of visits"),
        say("close the other program and try again"),
    ),
    "contradicts": lambda reason: (
        say("this contradicts what the record holds ({reason})", reason=reason),
        say("the record keeps what it has; add a correction"),
    ),
    "unusable": lambda reason: (
        say("the record of visits cannot be read or written ({reason})", reason=reason),
        say("check that the disk is not full and that you may write in this folder"),
    ),
    "letters": lambda text: (
        say("there are characters that cannot be written: {text}", text=text[:_MOST_LETTERS]),
        say("write it in plain letters"),
    ),
    "unopened": lambda reason: (
        say("the record of visits cannot be opened ({reason})", reason=reason),
        say("check the path and its rights"),
    ),
    "other": lambda: (
        say("this file is no record of visits"),
        say("move it away, or name another data folder in WAVEDRILL_HOME"),
    ),
    "empty": lambda: (say("this record is empty"), say("open a visit first")),
}


class VisitFile(SqliteFile):
    """The file of a record of visits; what is deleted in it is overwritten."""

    application_id, format, schema = APPLICATION_ID, FORMAT, SCHEMA
    probes = (SELECT_NAMES, SELECT_EVENTS)
    # What is deleted is overwritten, and events go with their visit by us alone.
    settings = ("PRAGMA secure_delete = ON", "PRAGMA foreign_keys = OFF")
    autocommit = True

    def words(self, fault: str, **values: object) -> tuple[str, str]:
        """Say a fault in the words of a record of visits (see :class:`SqliteFile`)."""
        return _WORDS[fault](**values)

    def prepare(self, path: Path) -> tuple[bool, str]:
        """Make the file before the database makes it, so that its companions too are their owner's only."""
        try:
            path.touch(mode=_OWNER_ONLY, exist_ok=True)
        except OSError as error:
            raise self.problem(str(path), "unopened", reason=error.strerror or error) from error
        return self.check_header(path), "mode=rw"


VISIT_FILE = VisitFile()
