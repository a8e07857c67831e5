"""Write a file whole or not at all."""

import os
from pathlib import Path


def write_whole(path: Path, data: bytes) -> None:
    """Put a file in place of the one before; a reader never meets half of it.

    Args:
        path: Where; its folder is made where it is missing.
        data: What it holds.

    Raises:
        OSError: If it cannot be written; what was there before is there still.
    """
    path.parent.mkdir(parents=True, exist_ok=True)
    half = path.with_name(f"{path.name}.{os.getpid()}")
    try:
        half.write_bytes(data)
        half.replace(path)
    finally:
        half.unlink(missing_ok=True)  # what a full disk left of it
