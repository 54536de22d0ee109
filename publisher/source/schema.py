"""The JSON Schema of pattern.yaml, from the models that read it, with words and examples for an editor."""

import tomllib
from importlib.resources import files
from typing import Any

from publisher.source import shapes

DRAFT = "https://json-schema.org/draft/2020-12/schema"
TEXT: dict[str, Any] = {"type": ["string", "number"]}
OUTLINES = (
    shapes.Rectangle,
    shapes.Outline,
    shapes.Circle,
    shapes.Ellipse,
    shapes.Trapezium,
    shapes.RingSector,
    shapes.DrawnElsewhere,
)
PARTS = (shapes.TrapeziumSizes, shapes.RingSectorSizes)
MODELS = (shapes.Material, shapes.Piece, shapes.Strip, shapes.Seam, shapes.Placement, shapes.Binding, shapes.SizeGuide)

Schema = dict[str, Any]


def pattern_schema() -> Schema:
    """The schema, valid under JSON Schema 2020-12. Every value is text or a number: what the texts say, proof tells."""
    words = tomllib.loads((files("publisher.source") / "schema_words.toml").read_text(encoding="utf-8"))
    schema = _model(shapes.Pattern, words["Pattern"])
    known = schema["properties"]
    by_name = {
        "materials": "Material",
        "seams": "Seam",
        "placements": "Placement",
        "bindings": "Binding",
        "pieces": "Piece",
    }
    for key, model in by_name.items():
        known[key]["additionalProperties"] = _ref(model)
    known["measures"]["additionalProperties"] = {"anyOf": [TEXT, _map_of(TEXT)]}
    known["notions"]["additionalProperties"] = {**_map_of(TEXT), "required": ["name"]}
    known["size guide"] |= _ref("SizeGuide")
    definitions = {model.__name__: _model(model, words[model.__name__]) for model in MODELS}
    definitions |= {model.__name__: _model(model, words["Outline"]) for model in (*OUTLINES, *PARTS)}
    definitions["Trapezium"]["properties"]["trapezium"] |= _ref("TrapeziumSizes")
    definitions["RingSector"]["properties"]["ring sector"] |= _ref("RingSectorSizes")
    piece = definitions["Piece"]
    piece["properties"]["outline"] |= {"anyOf": [_ref(model.__name__) for model in OUTLINES]}
    piece["properties"]["strip"] |= _ref("Strip")
    piece["properties"]["allowance"] |= {"anyOf": [TEXT, _map_of({"anyOf": [TEXT, _map_of(TEXT)]})]}
    piece["oneOf"] = [{"required": [shape]} for shape in ("outline", "rectangle", "strip")]
    return {"$schema": DRAFT, "title": "A sewing pattern: pattern.yaml", **schema, "$defs": definitions}


def _ref(model: str) -> Schema:
    return {"$ref": f"#/$defs/{model}"}


def _map_of(values: Schema) -> Schema:
    return {"type": "object", "additionalProperties": values}


def _model(model: type[shapes.Shape], words: dict[str, list[str]]) -> Schema:
    """One model: its keys as the maker writes them, each with a sentence, and an example where there is one."""
    schema = model.model_json_schema(by_alias=True)
    properties = {key: _told(_plain(value), words[key]) for key, value in schema["properties"].items()}
    return {
        "type": "object",
        "description": schema["description"],
        "properties": properties,
        "required": schema.get("required", []),
        "additionalProperties": False,
    }


def _plain(value: Schema) -> Schema:
    """What may stand behind a key, without what pydantic says of values that are not given."""
    options = [option for option in value.get("anyOf", []) if option != {"type": "null"}]
    kept = options[0] if options else value
    return {key: kept[key] for key in ("type", "items", "additionalProperties", "minItems", "maxItems") if key in kept}


def _told(value: Schema, words: list[str]) -> Schema:
    says, *examples = words
    told = {**value, "description": says}
    if not examples:
        return told
    if value.get("type") == "array":
        return {**told, "examples": [examples]}
    if value.get("type") == "object":
        return {**told, "examples": [{"name": example} for example in examples]}
    return {**told, "examples": examples}
