"""A text that the maker wrote, with its place."""

from publisher.terms.places import Place


class Written(str):
    """A str that knows where it was written. Equal and hashed by its text alone; pickles with its place.

    `exact` is true when the text stands in the file letter for letter (plain, on one line), so that
    `place.part(start, end)` points into it; a quoted or folded text has only its whole place.
    """

    place: Place
    exact: bool

    def __new__(cls, text: str, place: Place, exact: bool = True) -> "Written":
        written = super().__new__(cls, text)
        written.place = place
        written.exact = exact
        return written

    def __reduce__(self) -> tuple[type["Written"], tuple[str, Place, bool]]:
        return (Written, (str(self), self.place, self.exact))

    def part(self, start: int, end: int) -> "Written":
        """The text from `start` to `end` (from 0), with its own place."""
        place = self.place.part(start, end) if self.exact else self.place
        return Written(self[start:end], place, self.exact)

    def split_at(self, sign: str) -> list["Written"]:
        """The stripped parts between each `sign`, each with its own place."""
        parts: list[Written] = []
        start = 0
        for piece in str(self).split(sign):
            lead = len(piece) - len(piece.lstrip())
            stripped = piece.strip()
            parts.append(self.part(start + lead, start + lead + len(stripped)))
            start += len(piece) + len(sign)
        return parts
