"""The files of a school's folder, as many as are read: a check looks at each rule by itself, and must end."""

from collections.abc import Iterator
from pathlib import Path

from drill.basis.problem import Place, Problem
from drill.load.reading import Node, read_file

# A check takes most of a second for each rule. Whoever has so many faults mends these first.
MOST_RULES, MOST_FILES, MOST_FAULTS = 20, 200, 500


def rule_nodes(folder: Path, problems: list[Problem]) -> Iterator[Node]:
    """Read the local rules of a folder.

    Args:
        folder: Holds them.
        problems: Where faults are gathered.

    Yields:
        One node a rule, in the order of the files; no more than a check can look at.
    """
    count = 0
    for path in yaml_files(folder, problems):
        for node in documents_of(path, problems):
            if count == MOST_RULES:
                what = f"a school has {MOST_RULES} local rules at most, and this is one more"
                mend = "let one rule hold the changes that belong together; leave out rules that have ended"
                problems.append(Problem(node.place, what, mend))
                return
            count += 1
            yield node


def yaml_files(folder: Path, problems: list[Problem]) -> Iterator[Path]:
    """Walk through the YAML files of a folder.

    Args:
        folder: Its files alone are given, not those of folders in it.
        problems: Where faults are gathered; with very many of them there are no more files.

    Yields:
        The files in the order of their names.
    """
    paths = sorted(folder.glob("*.yaml"))
    if len(paths) > MOST_FILES:
        what = f"the folder '{folder.name}' has {len(paths)} files, more than {MOST_FILES}"
        problems.append(
            Problem(Place(str(paths[MOST_FILES])), what, "put what belongs together into one file")
        )
    for path in paths[:MOST_FILES]:
        if len(problems) > MOST_FAULTS:
            return
        yield path


def documents_of(path: Path, problems: list[Problem]) -> list[Node]:
    """Read a file's documents.

    Args:
        path: The file.
        problems: Where faults are gathered.

    Returns:
        One node a document.
    """
    nodes, faults = read_file(path)
    problems += faults
    return nodes
