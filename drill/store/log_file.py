"""The file of an attempt log, and the words for what can be wrong with it."""

from collections.abc import Callable, Mapping

from drill.basis.problem import Place, Problem
from drill.basis.words import say
from drill.memory.attempt import Attempt
from drill.store.log_table import APPLICATION_ID, FORMAT, SCHEMA, SELECT_ATTEMPTS
from drill.store.sqlite_file import SqliteFile

_WORDS: Mapping[str, Callable[..., tuple[str, str]]] = {
    "damaged": lambda **_: (
        say("this attempt log is damaged"),
        say("keep the file, and go on with a copy of it from before, or gather the attempts again"),
    ),
    "busy": lambda **_: (
        say("another program is writing to this attempt log"),
        say("close the other program and try again"),
    ),
    "contradicts": lambda reason: (
        say("an attempt contradicts what the log holds under the same id ({reason})", reason=reason),
        say("the log keeps what it has; answer again"),
    ),
    "unusable": lambda reason: (
        say("the attempt log cannot be read or written ({reason})", reason=reason),
        say("check that the disk is not full and that you may write in this folder"),
    ),
    "letters": lambda text: (
        say("a name holds characters that cannot be written: {text}", text=text),
        say("write the name in plain letters"),
    ),
    "unopened": lambda reason: (
        say("the attempt log cannot be opened ({reason})", reason=reason),
        say("check the path and that you may read it"),
    ),
    "other": lambda: (
        say("this file is no attempt log"),
        say("give the path of a log, or of a file that does not exist yet"),
    ),
    "empty": lambda: (say("this attempt log is empty"), say("give another file")),
}


class LogFile(SqliteFile):
    """The file of an attempt log."""

    application_id, format, schema = APPLICATION_ID, FORMAT, SCHEMA
    probes = (SELECT_ATTEMPTS,)

    def words(self, fault: str, **values: object) -> tuple[str, str]:
        """Say a fault in the words of an attempt log (see :class:`SqliteFile`)."""
        return _WORDS[fault](**values)


LOG_FILE = LogFile()


def contradiction(attempt: Attempt, *, origin: str) -> Problem:
    """Tell of an attempt from elsewhere that has the id of another one here.

    Args:
        attempt: The one from elsewhere.
        origin: The file it comes from.

    Returns:
        A problem of that file.
    """
    return Problem(
        Place(origin),
        say(
            "attempt {id} of {student} differs from the one that the log holds under the same id",
            id=attempt.id.hex(),
            student=attempt.student,
        ),
        say("one of the two was changed after it was made; take the file from the student's own device"),
    )
