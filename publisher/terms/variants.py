"""Which of a pattern's drafts is meant: its unit system and its size."""

from enum import Enum

from publisher.frozen import dataclass


class UnitSystem(Enum):
    """The two systems that every pattern is native in."""

    INCH = "inch"
    METRIC = "metric"


@dataclass(frozen=True, slots=True)
class Variant:
    """One draft of a pattern. A pattern without sizes has the one size None."""

    units: UnitSystem
    size: str | None = None

    def __str__(self) -> str:
        return self.units.value if self.size is None else f"{self.units.value} {self.size}"
