"""`publisher new`: a small commented pattern to begin from."""

import re
import sys
from datetime import date
from pathlib import Path

import click

from publisher.commands.schema import schema_text

SCHEMA = "pattern.schema.json"  # to which the first line of the starter points
NAME = re.compile(r"[a-z0-9]+(?:-[a-z0-9]+)*")


@click.command()
@click.argument("name")
@click.option(
    "--into",
    type=click.Path(path_type=Path, file_okay=False),
    default=Path("content"),
    show_default=True,
    help="Where the new folder goes.",
)
def new(name: str, into: Path) -> None:
    """Make a small commented pattern that publishes as it is.

    NAME becomes the folder's name: small letters, digits and hyphens.

    \b
    Example:
      publisher new plover-needle-book
    """
    from publisher.edition import layouts_folder

    if not NAME.fullmatch(name) or len(name) > 60:
        raise click.UsageError(
            f"'{name}' cannot be a pattern's name: use small letters, digits and hyphens, as in plover-needle-book"
        )
    folder = into / name
    if folder.exists():
        raise click.UsageError(f"{folder} is there already; nothing was written")
    starter = layouts_folder() / "starter"
    title = name.replace("-", " ").capitalize()
    texts = {
        file.name: file.read_text("utf-8").replace("TITLE", title).replace("TODAY", date.today().isoformat())
        for file in sorted(starter.iterdir())
    }
    folder.mkdir(parents=True)
    for file, text in texts.items():
        (folder / file).write_text(text, "utf-8")
    (folder / "kept").mkdir()
    (folder / "kept" / SCHEMA).write_text(schema_text(), "utf-8")
    given = name if into == Path("content") else folder
    click.echo(f"{folder} is made. Change its pattern.yaml and steps.md, then: publisher publish {given}")
    sys.exit(0)
