"""Quotes in braces found in one line of the maker's prose, each with its own place."""

from publisher.terms import Finding, Place, Severity, Written


def quotes_in(text: str, start: int, place: Place) -> tuple[list[Written], list[Finding]]:
    """What stands between each pair of braces, and findings for braces that do not pair.

    `start` is where the text begins on the line of `place`, from 0. A doubled brace is a brace to print.
    """
    quotes: list[Written] = []
    found: list[Finding] = []
    at = 0
    while at < len(text):
        if text[at : at + 2] in ("{{", "}}"):
            at += 2
        elif text[at] == "{":
            end = text.find("}", at)
            if end < 0:
                found.append(_never_closed(place.part(start + at, start + at + 1)))
                break
            quotes.append(_quote(text[at + 1 : end], start + at + 1, place))
            if not quotes[-1]:
                found.append(_empty(quotes[-1].place))
            at = end + 1
        else:
            if text[at] == "}":
                found.append(_never_opened(place.part(start + at, start + at + 1)))
            at += 1
    return quotes, found


def _quote(inner: str, start: int, place: Place) -> Written:
    lead = len(inner) - len(inner.lstrip())
    name = inner.strip()
    return Written(name, place.part(start + lead, start + lead + len(name)))


def _never_closed(place: Place) -> Finding:
    return Finding(
        "open-brace",
        Severity.ERROR,
        place,
        "a brace is opened and not closed in this line",
        "close it behind the name: {pocket depth}; a brace to print is written {{",
    )


def _never_opened(place: Place) -> Finding:
    return Finding(
        "open-brace",
        Severity.ERROR,
        place,
        "a brace is closed that was not opened",
        "a brace to print is written }}",
    )


def _empty(place: Place) -> Finding:
    return Finding("empty-quote", Severity.ERROR, place, "nothing stands in these braces", "name a measure or a piece")
