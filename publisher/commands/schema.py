"""`publisher schema`: the JSON Schema of pattern.yaml, for editors that complete and explain keys."""

import json

import click

from publisher.source import pattern_schema


@click.command()
def schema() -> None:
    """Print the JSON Schema of pattern.yaml.

    Editors that know YAML use it to complete keys and to say what each is for. 'publisher new' writes it into the
    pattern's folder, and its first line points to it.

    \b
    Example:
      publisher schema > content/plover-needle-book/kept/pattern.schema.json
    """
    click.echo(schema_text(), nl=False)


def schema_text() -> str:
    """The schema as it stands in a file."""
    return json.dumps(pattern_schema(), indent=2, ensure_ascii=False) + "\n"
