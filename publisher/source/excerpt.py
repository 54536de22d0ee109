"""The line of a finding with a caret under the guilty signs."""

from publisher.terms import Place

WIDEST = 100


def excerpt(texts: tuple[tuple[str, str], ...], place: Place) -> tuple[str, str] | None:
    """The written line and the carets under it, cut to about WIDEST columns; None where there is no such line."""
    lines = dict(texts).get(place.file, "").splitlines()
    if not 1 <= place.line <= len(lines):
        return None
    line = "".join(sign if sign.isprintable() or sign == "\t" else "·" for sign in lines[place.line - 1])
    start = len(line[: place.column - 1].expandtabs(4))
    end_column = place.end_column if place.end_line == place.line else len(line) + 1
    end = max(len(line[: end_column - 1].expandtabs(4)), start + 1)
    shown = line.expandtabs(4)
    if len(shown) > WIDEST:
        cut = max(0, min(start - WIDEST // 3, len(shown) - WIDEST))
        shown, start, end = shown[cut : cut + WIDEST], start - cut, min(end - cut, WIDEST)
    return shown.rstrip(), " " * start + "^" + "~" * (max(end - start, 1) - 1)
