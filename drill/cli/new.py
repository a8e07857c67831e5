"""``wavedrill new``: start a folder of one's own."""

from pathlib import Path

import click

from drill.basis.words import say
from drill.cli.telling import refuse
from drill.load.new_school import SCHEMA_FOLDER, SCHOOL_SCHEMAS, school_files, write_files
from drill.load.schema import SUFFIX, schema_texts


@click.group("new", short_help="Start a school's folder.")
def new_command() -> None:
    """Start a folder of your own, with notes in every file."""


@new_command.command("school", short_help="Write a school's folder that passes check.")
@click.argument("folder", metavar="FOLDER", type=click.Path(path_type=Path))
@click.option("--name", metavar="NAME", help="What the school is called; the folder's name where left out.")
def new_school_command(folder: Path, *, name: str | None) -> None:
    """Write a school's folder with notes in every file; it passes 'wavedrill check' as it stands.

    Nothing that is there already is ever overwritten. Editors that know YAML schemas complete and check what
    you write by the files in FOLDER/schema.
    """
    title = name or folder.resolve().name.replace("-", " ").replace("_", " ").strip().capitalize()
    written = schema_texts()
    schemas = {f"{SCHEMA_FOLDER}/{kind}{SUFFIX}": written[f"{kind}{SUFFIX}"] for kind in SCHOOL_SCHEMAS}
    files = school_files(title or say("Our school"))
    problems = write_files(folder, {**files, **schemas})
    if problems:
        refuse(problems)
    click.echo(say("The school '{name}' stands in {folder}:", name=title, folder=folder))
    for file in files:
        click.echo(f"  {file}")
    click.echo(say("Next:"))
    click.echo(f"  wavedrill check {folder} --watch")
    click.echo(say("Then open rules/local-rules.yaml, take the '#' away, and see what it changes."))
