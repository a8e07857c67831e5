"""``wavedrill schema``: write JSON Schema files, by which editors complete and check YAML."""

from pathlib import Path

import click

from drill.basis.problem import Place, Problem
from drill.basis.words import say
from drill.cli.telling import refuse
from drill.load.schema import schema_texts


@click.command("schema", short_help="Write schemas for editors of YAML.")
@click.argument("folder", metavar="FOLDER", type=click.Path(path_type=Path, file_okay=False))
def schema_command(folder: Path) -> None:
    """Write a JSON Schema file for each kind of YAML file into FOLDER, those of an earlier time replaced.

    A first line such as '# yaml-language-server: $schema=schema/school.schema.json' ties a file to its
    schema. 'wavedrill check' stays the judge: it knows what no schema can say.
    """
    try:
        folder.mkdir(parents=True, exist_ok=True)
        for name, text in schema_texts().items():
            (folder / name).write_text(text, encoding="utf-8")
            click.echo(folder / name)
    except OSError as error:
        reason = (error.strerror or say("it cannot be written")).lower()
        what = f"cannot write here: {reason}"
        refuse([Problem(Place(str(folder)), what, "check the path and its rights")])
