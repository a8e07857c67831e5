"""The files of a new school's folder: each says what it is for, and changes nothing until it is filled in."""

from collections.abc import Mapping
from pathlib import Path

from drill.basis.problem import Place, Problem
from drill.load.school import DECKS_FOLDER, KIT_FILE, RULES_FOLDER, SCHOOL_FILE

SCHEMA_FOLDER = "schema"
# The kinds of files that a school writes.
SCHOOL_SCHEMAS = ("school", "kit", "deck", "local_rule", "consultation")

_SCHOOL = """\
# yaml-language-server: $schema=schema/school.schema.json
# What the school says of itself. Lines that start with '#' are notes: take the '#' away to use one.
name: {name}

# The day of the theory exam. Questions come back so that they hold until then.
# exam_date: 2031-06-12

# The share of the marks that passes.
pass_mark: 75 %

# Whether what comes after one of the five stops waits until the instructor has signed.
# student_mode: yes

# What share of a mock exam each topic has; together 100 %. Left out, the built-in shares hold.
# blueprint: {{base_control: 40 %, directions: 30 %, papers: 30 %}}

# Questions and wrong ideas, by their ids, that this school does not use. 'wavedrill check' says which ones a
# local rule makes doubtful.
# leave_out: [papers-for-even-ends]
"""

_RULE = """\
# yaml-language-server: $schema=../schema/local_rule.schema.json
# A local rule says what it changes, why, and where that stands. One rule a file; they are laid over one
# another in the order of the files' names. A rule may tighten what keeps hair and scalp from harm, never
# loosen it.
# The five ways to change something:
#   set      a parameter                      add      a row to a table ('before: ROW', else at its end)
#   replace  a row, by its id                 remove   a row
#   widen    a vocabulary by a value of your own, which says what it 'counts_as'
# 'wavedrill plan FILE --why' shows tables and rows at work; take the '#' away here to try it.

# overlay: two-papers-first
# kind: local_rule
# from: 2026-09-01
# because: We teach two flat papers first.
# source: Workroom rules, p. 3
# changes:
#   - {op: set, parameter: papers.everyday, value: double_flat}
"""

_DECK = """\
# yaml-language-server: $schema=../schema/deck.schema.json
# Questions of your own. Where 'decision' stands, the rules in force give the answer and you never write it.
# What no planner can know is written with its answer, its wrong options, its reason and its source.
# 'wavedrill ask --school FOLDER --item ID' shows a question as a student meets it.
# A question may show a picture of yours, PNG or JPEG, at most 1 MB and 2,000 dots a side. Put the file into a
# folder 'pictures' beside school.yaml, and write below 'stem' what it shows, too, for who cannot see it:
# 'picture: {file: pictures/tray.png, words: "A tray from above, its tools mixed."}'

# topic: house_rules
# title: House rules
# items:
#   - id: house-papers-for-this-head
#     kind: choose
#     decision: papers
#     zone: any
#     vary: {hair.ends: [even, layered]}
#     stem: The {zone}. Which paper?
#     look: Look at the ends before you reach for the papers.
#   - id: house-tools-back-in-the-tray
#     kind: choose
#     stem: Your last tool is out. Where does it go?
#     answer: Into the wash basin, then into the disinfectant.
#     wrong: [{text: Back into its tray.}, {text: Into the next student's tray.}]
#     because: What was on a head is cleaned before it is on another one.
#     source: Workroom rules, p. 5
#     look: Before a tool goes into its tray, ask where it was last.
"""

_KIT = """\
# yaml-language-server: $schema=schema/kit.schema.json
# What lies in your drawers; left out, a full kit is assumed. 'diameter' is the waist of a tool.
# Shapes: concave, straight, flexible, long.

# name: Workroom kit
# tools:
#   - {diameter: 9.5 mm, rim_diameter: 12 mm, length: 76 mm, shape: concave, count: 36}
#   - {diameter: 1/2 in, length: 200 mm, shape: flexible, count: 40}
"""


def school_files(name: str) -> Mapping[str, str]:
    """Give the files of a new school.

    Args:
        name: What the school is called.

    Returns:
        Text by path inside the folder, in the order to read them.
    """
    written = name.replace("'", "''")
    return {
        SCHOOL_FILE: _SCHOOL.format(name=f"'{written}'"),
        f"{RULES_FOLDER}/local-rules.yaml": _RULE,
        f"{DECKS_FOLDER}/house-rules.yaml": _DECK,
        KIT_FILE: _KIT,
    }


def write_files(folder: Path, files: Mapping[str, str]) -> list[Problem]:
    """Write files into a folder, all of them or, where one is there already, none.

    Args:
        folder: Made where it is missing.
        files: Text by path inside the folder.

    Returns:
        What kept them from being written.
    """
    taken = [folder / name for name in files if (folder / name).exists()]
    if taken:
        mend = "nothing is ever overwritten: name another folder, or move the file away"
        return [Problem(Place(str(path)), "the file is there already", mend) for path in taken]
    try:
        for name, text in files.items():
            path = folder / name
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(text, encoding="utf-8")
    except OSError as error:
        reason = (error.strerror or "it cannot be written").lower()
        return [Problem(Place(str(folder)), f"cannot write here: {reason}", "check the path and its rights")]
    return []
