"""`publisher proof`: the way through without pages."""

import json
import sys

import click

from publisher.checks import Allowed
from publisher.commands.patterns import find_pattern, output_name
from publisher.commands.proving import allow_option, prove_folder
from publisher.commands.telling import as_json, summary, tell
from publisher.pipeline import errors_in


@click.command()
@click.argument("patterns", metavar="PATTERN...", nargs=-1, required=True)
@click.option("--plain", is_flag=True, help="One line a finding, for editors.")
@click.option(
    "--json", "json_wanted", is_flag=True, help="All findings as JSON on standard output, for other programs."
)
@allow_option
def proof(patterns: tuple[str, ...], plain: bool, json_wanted: bool, allow: tuple[Allowed, ...]) -> None:
    """Prove a pattern without making pages: tell everything that would go wrong.

    PATTERN is a folder, or the name of one in content/.

    \b
    Example:
      publisher proof sanderling-lined-pouch
    """
    wrong = False
    told: dict[str, list[dict[str, object]]] = {}
    for folder in [find_pattern(pattern) for pattern in patterns]:
        name = output_name(folder)
        _, findings, texts = prove_folder(folder, name, allow)
        wrong = wrong or bool(errors_in(findings))
        if json_wanted:
            told[name] = as_json(findings)
            continue
        tell(findings, texts, folder, plain)
        click.echo(f"{name}: {summary(findings)}")
    if json_wanted:
        click.echo(json.dumps(told, indent=2, ensure_ascii=False))
    sys.exit(1 if wrong else 0)
