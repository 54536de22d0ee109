"""`publisher proof`: the way through without pages."""

import sys

import click

from publisher.commands.patterns import find_pattern, output_name
from publisher.commands.proving import prove_folder
from publisher.commands.telling import summary, tell
from publisher.pipeline import errors_in


@click.command()
@click.argument("patterns", metavar="PATTERN...", nargs=-1, required=True)
@click.option("--plain", is_flag=True, help="One line a finding, for editors.")
def proof(patterns: tuple[str, ...], plain: bool) -> None:
    """Prove a pattern without making pages: tell everything that would go wrong.

    PATTERN is a folder, or the name of one in content/.

    \b
    Example:
      publisher proof sanderling-lined-pouch
    """
    wrong = False
    for folder in [find_pattern(pattern) for pattern in patterns]:
        _, findings, texts = prove_folder(folder, output_name(folder))
        tell(findings, texts, folder, plain)
        click.echo(f"{output_name(folder)}: {summary(findings)}")
        wrong = wrong or bool(errors_in(findings))
    sys.exit(1 if wrong else 0)
