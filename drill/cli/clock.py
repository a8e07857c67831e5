"""The one place where the commands read the time."""

from datetime import datetime


def local_now() -> datetime:
    """Give the time, aware, in the local time of the place."""
    return datetime.now().astimezone()  # noqa: TID251  the shell hands the time to the core
