"""The shape of pattern.yaml: which keys stand where and what belongs behind them, as pydantic models.

The models check the located tree and hold the maker's own texts; findings.py tells in plain words what does not fit.
"""

from typing import Annotated, Any

from pydantic import BaseModel, ConfigDict, Field
from pydantic_core import PydanticCustomError, core_schema

from publisher.terms import Written


class _TextSchema:
    """Written texts pass through untouched; in the JSON Schema they are strings."""

    @classmethod
    def __get_pydantic_core_schema__(cls, source: Any, handler: Any) -> core_schema.CoreSchema:
        def check(value: object) -> object:
            if isinstance(value, Written):
                return value
            raise PydanticCustomError("text_wanted", "text")

        return core_schema.no_info_plain_validator_function(check)

    @classmethod
    def __get_pydantic_json_schema__(cls, schema: Any, handler: Any) -> dict[str, Any]:
        return {"type": ["string", "number"]}


Text = Annotated[Written, _TextSchema]
Names = dict[Text, Text]


class Shape(BaseModel):
    """A mapping whose keys are known; an unknown one is told. Keys are written with spaces where names have underscores."""

    model_config = ConfigDict(
        extra="forbid",
        frozen=True,
        arbitrary_types_allowed=True,
        alias_generator=lambda name: name.replace("_", " ").strip(),
    )


class Material(Shape):
    """What is cut."""

    kind: Text
    name: Text
    sold: list[Text]
    allowance: Text | None = None
    shrinkage: Text | None = None
    nap: Text | None = None
    thickness: Text | None = None
    heat: Text | None = None
    grain: Text | None = None
    repeat: Text | None = None
    repeat_across: Text | None = None
    weight: Text | None = None
    note: Text | None = None


class Rectangle(Shape):
    """The outline of a drawn piece, by two sides."""

    rectangle: Text
    edges: Names = Field(default_factory=dict)
    round: Names = Field(default_factory=dict)
    cut: Names = Field(default_factory=dict)
    cut_out: Names = Field(default_factory=dict)
    mirrored_along: Text | None = None
    on_the_fold_along: Text | None = None


class Outline(Shape):
    """The outline of a drawn piece, by points and the edges between them."""

    points: Names
    edges: Names
    round: Names = Field(default_factory=dict)
    cut: Names = Field(default_factory=dict)
    cut_out: Names = Field(default_factory=dict)
    mirrored_along: Text | None = None
    on_the_fold_along: Text | None = None


class Circle(Shape):
    """The outline of a drawn piece, by its diameter."""

    circle: Text
    edges: Names = Field(default_factory=dict)


class Ellipse(Shape):
    """The outline of a drawn piece, by its width and height."""

    ellipse: Text
    edges: Names = Field(default_factory=dict)


class Trapezium(Shape):
    """The outline of a drawn piece with two level edges, each centred over the other."""

    trapezium: Any
    edges: Names = Field(default_factory=dict)


class TrapeziumSizes(Shape):
    """The sizes of a trapezium."""

    bottom: Text
    top: Text
    height: Text


class RingSector(Shape):
    """The outline of a drawn piece between two arcs of one centre."""

    ring_sector: Any
    edges: Names = Field(default_factory=dict)


class RingSectorSizes(Shape):
    """The sizes of a ring sector; its angle in degrees."""

    inner_radius: Text
    outer_radius: Text
    angle: Text


class DrawnElsewhere(Shape):
    """The outline of a drawn piece, in a drawing made with another program."""

    svg: Text
    element: Text
    drawn_as: Text | None = None
    edges: Names = Field(default_factory=dict)


class Strip(Shape):
    """A strip."""

    finished_width: Text
    length: Text
    fold: Text
    ends: Text | None = None
    joins: Text | None = None
    thickness: Text | None = None


class Piece(Shape):
    """What every piece may say beside its shape; the shape itself is read by its own model."""

    outline: Any = None
    rectangle: Text | None = None
    strip: Any = None
    joint_edges: dict[Text, list[Text]] = Field(default_factory=dict)
    allowance: Any = None
    grain: Text | None = None
    corners: Names = Field(default_factory=dict)
    hems: Names = Field(default_factory=dict)
    pleats: Names = Field(default_factory=dict)
    darts: Names = Field(default_factory=dict)
    copies: Names
    marks: Names = Field(default_factory=dict)
    holds: Text | None = None
    note: Text | None = None


class Seam(Shape):
    """Two sides sewn together."""

    join: list[Text] = Field(min_length=2, max_length=2)
    ease: Text | None = None
    leave_open: Text | None = None
    open_in: Text | None = None
    allowances: Text | None = None


class Placement(Shape):
    """One copy laid on another."""

    place: Text
    on: Text
    matching: list[Text]
    face: Text | None = None


class Binding(Shape):
    """A strip folded over raw edges."""

    strip: Text
    binds: list[Text]
    overlap: Text | None = None


class SizeGuide(Shape):
    """How a reader chooses her size."""

    measure: Text
    how: Text
    body: Text
    ease: Text | None = None
    finished: Text
    between: Text


class Pattern(Shape):
    """The whole file; what stands below measures, materials and so on is read one by one."""

    title: Text
    maker: Text | None = None
    revision: Text
    date: Text | None = None
    language: Text | None = None
    level: Text | None = None
    about: Text | None = None
    video: Text | None = None
    cover_drawing: Text | None = None
    terms: Text | None = None
    finishing: Text | None = None
    care: Text | None = None
    tested: Text | None = None
    inch_rounding: Text | None = None
    changes: list[Text] = Field(default_factory=list)
    allow: Names = Field(default_factory=dict)
    sizes: list[Text] = Field(default_factory=list)
    size_guide: Any = None
    allowance: Text | None = None
    tools: list[Text] = Field(default_factory=list)
    measures: dict[Text, Any] = Field(default_factory=dict)
    finished_size: Names = Field(default_factory=dict)
    materials: dict[Text, Any]
    notions: dict[Text, Any] = Field(default_factory=dict)
    pieces: dict[Text, Any]
    seams: dict[Text, Any] = Field(default_factory=dict)
    placements: dict[Text, Any] = Field(default_factory=dict)
    bindings: dict[Text, Any] = Field(default_factory=dict)
