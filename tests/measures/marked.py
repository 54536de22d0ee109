"""Texts as the maker wrote them, somewhere in a file, and the guilty part of a text marked: `2 «width»`."""

from publisher.terms import Place, Written

LINE, COLUMN = 7, 12  # where every text begins


def written(text: str, exact: bool = True) -> Written:
    """A text of one line, at its place."""
    end = COLUMN + max(len(text), 1)
    return Written(text, Place("pattern.yaml", LINE, COLUMN, LINE, end), exact)


def unmarked(text: str) -> tuple[str, Place]:
    """The text without its marks, and the place of what stood between them."""
    before, _, rest = text.partition("«")
    guilty, _, after = rest.partition("»")
    place = written(before + guilty + after).place.part(len(before), len(before) + len(guilty))
    return before + guilty + after, place


def at_place(text: str, place: Place) -> str:
    """What stands at a place in a text made by `written`."""
    return text[place.column - COLUMN : place.end_column - COLUMN]
