"""``wavedrill pack``: a school's folder to one file for phones."""

import json
from pathlib import Path

import click

from drill.basis.problem import Place, Problem
from drill.basis.words import say
from drill.cli.clock import local_now
from drill.cli.telling import note, refuse
from drill.load.compile import Compiled, compile_book
from drill.load.pack import pack_of
from drill.store.pack import SUFFIX, Pack, pack_to_bytes
from drill.store.pack_text import FORMAT
from drill.store.whole import write_whole


@click.command("pack", short_help="Write one file for phones.")
@click.argument("school", required=False, metavar="[SCHOOL]", type=click.Path(path_type=Path))
@click.option(
    "-o",
    "--output",
    "target",
    metavar="FILE",
    type=click.Path(path_type=Path),
    required=True,
    help="The file to write, such as school.pack.",
)
@click.option("--json", "as_json", is_flag=True, help="Tell of it as JSON.")
def pack_command(*, school: Path | None, target: Path, as_json: bool) -> None:
    """Write a school's rules, questions and tools as one file that phones open.

    SCHOOL is the school's folder; without it the pack holds what is built in. The same folder gives the same
    file. A student puts it into the folder of the app, or opens it with 'wavedrill --pack FILE'.
    """
    day = local_now().date()
    compiled = compile_book(school, day=day)
    if compiled.problems:
        refuse(compiled.problems)
    _refuse_target(target)
    pack = pack_of(compiled, school=school, day=day)
    data = pack_to_bytes(pack)
    try:
        write_whole(target, data)
    except OSError as error:
        refuse([_not_written(target, error)])
    told = _told(compiled, pack, data)
    click.echo(json.dumps({"file": str(target), **told}, indent=2) if as_json else _text(target, told))
    if target.suffix != SUFFIX:
        note(say("The app looks for files that end in {suffix}.", suffix=SUFFIX))
    if pack.good_until:
        note(say("A local rule begins or ends on {day}: make the pack again then.", day=pack.good_until))


def _refuse_target(target: Path) -> None:
    """Refuse to write over anything but a pack."""
    start = f'{{"format":"{FORMAT}"'.encode()
    try:
        with target.open("rb") as file:
            is_pack = file.read(len(start)) in (start, b"")
    except FileNotFoundError:
        return
    except OSError as error:
        refuse([_not_written(target, error)])
    if not is_pack:
        what = say("this file is there already, and is no pack")
        refuse([Problem(Place(str(target)), what, say("name another file"))])


def _not_written(target: Path, error: OSError) -> Problem:
    what = say("cannot write the pack: {reason}", reason=(error.strerror or "").lower())
    return Problem(Place(str(target)), what, say("check the path and its rights"))


def _told(compiled: Compiled, pack: Pack, data: bytes) -> dict[str, object]:
    book = compiled.book
    header = json.loads(data.partition(b"\n")[0])
    return {
        "school": book.school.name,
        "digest": header["digest"],
        "bytes": len(data),
        "made_by": header["made_by"],
        "rulebook": book.rulebook.digest,
        "local_rules": list(book.rulebook.overlays),
        "items": len(book.items),
        "good_until": pack.good_until,
    }


def _text(target: Path, told: dict[str, object]) -> str:
    name = told["school"] or say("the built-in rules")
    rules = told["local_rules"]
    lines = [
        say("{file}: {name}", file=target, name=name),
        say(
            "Questions: {items}. Local rules in force: {rules}. Bytes: {bytes}.",
            items=told["items"],
            rules=len(rules) if isinstance(rules, list) else 0,
            bytes=f"{told['bytes']:,}",
        ),
        say("Digest {digest}.", digest=told["digest"]),
    ]
    return "\n".join(lines)
