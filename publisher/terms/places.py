"""A place in what the maker wrote: file, line and column, from the first sign to just past the last."""

from publisher.frozen import dataclass


@dataclass(frozen=True, slots=True)
class Place:
    """Lines and columns count from 1; the end is the column just past the last sign.

    A value that carries a place declares it `field(compare=False)`, so that a line added above changes no value.
    """

    file: str
    line: int
    column: int
    end_line: int
    end_column: int

    def __str__(self) -> str:
        return f"{self.file}:{self.line}:{self.column}"

    @property
    def nowhere(self) -> bool:
        """True when it holds no sign: something was left out here."""
        return (self.line, self.column) == (self.end_line, self.end_column)

    def part(self, start: int, end: int) -> "Place":
        """The place of the signs `start` to `end` (from 0) of a text that begins here and stays on one line."""
        return Place(self.file, self.line, self.column + start, self.line, self.column + max(end, start + 1))
