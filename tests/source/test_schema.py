"""The JSON Schema of pattern.yaml: valid, held by every demo, and told for every key."""

import json
from typing import Any

import pytest
import yaml
from click.testing import CliRunner
from jsonschema import Draft202012Validator

from publisher.commands import commands
from publisher.source import pattern_schema, shapes
from tests.demo import CONTENT, DEMOS
from tests.specimens import HEAD

VALIDATOR = Draft202012Validator(pattern_schema())


class AsText(yaml.SafeLoader):
    """Every scalar as text, as the publisher reads it."""


AsText.yaml_implicit_resolvers = {}


def loaded(text: str) -> Any:
    return yaml.load(text, AsText)


def wrong(text: str) -> list[str]:
    return [error.message for error in VALIDATOR.iter_errors(loaded(text))]


def test_the_schema_is_one_under_the_published_meta_schema() -> None:
    Draft202012Validator.check_schema(pattern_schema())


@pytest.mark.parametrize("demo", DEMOS)
def test_every_demo_holds_it(demo: str) -> None:
    assert wrong((CONTENT / demo / "pattern.yaml").read_text("utf-8")) == []


PIECE = (
    HEAD
    + """\
pieces:
  flap:
    outline:
      rectangle: 10 cm by 5 cm
    copies:
      only: canvas
"""
)


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("    copies:", "    copis:"),
        ("title: Specimen", "titel: Specimen"),
        ("    outline:\n      rectangle: 10 cm by 5 cm\n", ""),
        ("    kind: fabric\n", ""),
        ("      rectangle: 10 cm by 5 cm", "      rectangel: 10 cm by 5 cm"),
        ("    sold:\n      - 42 in wide | 110 cm wide", "    sold: 42 in wide"),
    ],
)
def test_a_broken_pattern_does_not_hold_it(old: str, new: str) -> None:
    assert wrong(PIECE) == []
    assert old in PIECE
    assert wrong(PIECE.replace(old, new))


def test_every_key_is_told_and_examples_hold() -> None:
    schema = pattern_schema()
    for model in (schema, *schema["$defs"].values()):
        for key, value in model["properties"].items():
            assert value["description"].endswith("."), key
            for example in value.get("examples", []):
                Draft202012Validator({**value, "$defs": schema["$defs"]}).validate(example)
    assert set(schema["properties"]) == {field.alias for field in shapes.Pattern.model_fields.values()}


def test_the_command_prints_it() -> None:
    assert json.loads(CliRunner().invoke(commands, ["schema"]).output) == pattern_schema()
