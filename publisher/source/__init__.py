"""Reads what the maker wrote, located: pattern.yaml and steps.md to a Source, every mistake to a finding."""

from publisher.source.excerpt import excerpt
from publisher.source.folder import read_folder
from publisher.source.quotes import quotes_of
from publisher.source.reader import read_source
from publisher.source.schema import pattern_schema
from publisher.source.values import (
    Facts,
    Native,
    Source,
    WrittenAside,
    WrittenBinding,
    WrittenCopy,
    WrittenCorner,
    WrittenDrawing,
    WrittenForm,
    WrittenHalf,
    WrittenMark,
    WrittenMaterial,
    WrittenMeasure,
    WrittenNotion,
    WrittenOutline,
    WrittenPiece,
    WrittenPlacement,
    WrittenRectangle,
    WrittenSeam,
    WrittenSection,
    WrittenSizeGuide,
    WrittenStep,
    WrittenStrip,
)

__all__ = [
    "Facts",
    "Native",
    "Source",
    "WrittenAside",
    "WrittenBinding",
    "WrittenCopy",
    "WrittenCorner",
    "WrittenDrawing",
    "WrittenForm",
    "WrittenHalf",
    "WrittenMark",
    "WrittenMaterial",
    "WrittenMeasure",
    "WrittenNotion",
    "WrittenOutline",
    "WrittenPiece",
    "WrittenPlacement",
    "WrittenRectangle",
    "WrittenSeam",
    "WrittenSection",
    "WrittenSizeGuide",
    "WrittenStep",
    "WrittenStrip",
    "excerpt",
    "pattern_schema",
    "quotes_of",
    "read_folder",
    "read_source",
]
