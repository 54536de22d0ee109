"""What is bought: materials and notions."""

from dataclasses import field

from publisher.frozen import dataclass
from publisher.terms import Place, Quantity


@dataclass(frozen=True, slots=True)
class Width:
    """One way a material is sold: by length at this width (mm), or a precut with both sides (mm)."""

    width: float
    precut: str | None = None
    precut_length: float | None = None


@dataclass(frozen=True, slots=True)
class Repeat:
    """After how many mm of new cloth a print begins again: along it, and across where that is said."""

    along: float
    across: float | None = None


@dataclass(frozen=True, slots=True)
class Weight:
    """How heavy a cloth is, and of what sort where it is not woven: light, medium or heavy; None, knit or coated."""

    heaviness: str
    sort: str | None = None


@dataclass(frozen=True, slots=True)
class Material:
    """Cloth to buy; `shrinkage` as a part of 1."""

    key: str
    kind: str
    name: str
    sold: tuple[Width, ...]
    shrinkage: float
    note: str | None
    place: Place = field(compare=False)
    one_way: bool = False  # it has a nap, or a print that stands the right way up
    thickness: float | None = None  # mm, of one layer
    bears_heat: bool = True
    free: bool = False  # it has no grain: its pieces may be turned any way
    repeat: Repeat | None = None  # of its print, where pieces are to match
    weight: Weight | None = None


@dataclass(frozen=True, slots=True)
class Notion:
    """What is bought and not cut; `sizes` are exact quantities by name."""

    key: str
    kind: str | None
    name: str
    count: int | None
    sizes: tuple[tuple[str, Quantity], ...]
    note: str | None
    place: Place = field(compare=False)
