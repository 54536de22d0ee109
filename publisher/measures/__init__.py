"""Formulas and phrases parsed once: the one language of pattern.yaml and steps.md, and the graph of what reads what."""

from publisher.measures.evaluation import Lookup, evaluate, native_literal
from publisher.measures.formulas import parse_formula
from publisher.measures.reader import names_in, read_measures
from publisher.measures.values import (
    ActionSaying,
    ArcSaying,
    Asked,
    CopySaying,
    EdgeSpot,
    Formula,
    HemSaying,
    LineSaying,
    Literal,
    MarkSaying,
    Matching,
    MaterialWidth,
    Measures,
    Name,
    Operation,
    Pair,
    PleatSaying,
    Saying,
)

__all__ = [
    "ActionSaying",
    "ArcSaying",
    "Asked",
    "CopySaying",
    "EdgeSpot",
    "Formula",
    "HemSaying",
    "LineSaying",
    "Literal",
    "Lookup",
    "MarkSaying",
    "Matching",
    "MaterialWidth",
    "Measures",
    "Name",
    "Operation",
    "Pair",
    "PleatSaying",
    "Saying",
    "evaluate",
    "names_in",
    "native_literal",
    "parse_formula",
    "read_measures",
]
