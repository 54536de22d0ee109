"""Quotes in braces within a text: `{pocket depth}`, each with its place; a brace to print is written twice."""

from publisher.terms import Finding, Severity, Written


def read_quotes(text: Written) -> tuple[tuple[Written, ...], tuple[Finding, ...]]:
    """What stands between each pair of braces, in order, and findings for braces that do not pair on one line."""
    quotes: list[Written] = []
    found: list[Finding] = []
    at = 0
    while at < len(text):
        if text[at : at + 2] in ("{{", "}}"):
            at += 2
        elif text[at] == "{":
            end = text.find("}", at)
            if end < 0 or "\n" in text[at:end]:
                found.append(
                    _error(
                        "open-brace",
                        text.part(at, at + 1),
                        "a brace is opened and not closed in this line",
                        "close it behind the name: {pocket depth}; a brace to print is written {{",
                    )
                )
                break
            quote = _quote(text, at + 1, end, found)
            quotes += [quote] if quote else []
            at = end + 1
        elif text[at] == "}":
            found.append(
                _error(
                    "open-brace",
                    text.part(at, at + 1),
                    "a brace is closed that was not opened",
                    "a brace to print is written }}",
                )
            )
            at += 1
        else:
            at += 1
    return tuple(quotes), tuple(found)


def _quote(text: Written, start: int, end: int, found: list[Finding]) -> Written:
    inner = text[start:end]
    lead = len(inner) - len(inner.lstrip())
    quote = text.part(start + lead, start + lead + len(inner.strip()))
    if not quote:
        found.append(_error("empty-quote", quote, "nothing stands in these braces", "name a measure or a piece"))
    return quote


def quotes_of(text: Written) -> tuple[Written, ...]:
    """The quotes of a text that has been read without findings."""
    return read_quotes(text)[0]


def _error(name: str, at: Written, says: str, mend: str) -> Finding:
    return Finding(name, Severity.ERROR, at.place, says, mend)
