"""The publication's own facts: title, date, links and prose, each looked at for what it should be."""

import re

from publisher.source import shapes
from publisher.source.quotes import read_quotes
from publisher.source.values import Facts
from publisher.terms import Finding, Place, Severity, Written


def read_facts(said: shapes.Pattern, found: list[Finding]) -> Facts:
    """The facts, and findings for those that cannot be meant."""
    if said.date is not None and not re.fullmatch(r"\d{4}-(0[1-9]|1[0-2])-(0[1-9]|[12]\d|3[01])", said.date):
        found.append(
            _error("bad-date", said.date.place, f"'{said.date}' is no date", "write year, month and day: 2026-05-31")
        )
    if said.video is not None and not re.fullmatch(r"https?://[^\s<>\"]+", said.video):
        found.append(
            _error(
                "bad-link", said.video.place, f"'{said.video}' is no address on the web", "copy it whole, with https://"
            )
        )
    if said.inch_rounding is not None and said.inch_rounding not in ("1/8", "1/16"):
        found.append(
            _error(
                "bad-rounding",
                said.inch_rounding.place,
                f"lengths are rounded to 1/8 or 1/16 in, not '{said.inch_rounding}'",
                "write 1/8 or 1/16",
            )
        )
    names = (
        "title",
        "maker",
        "revision",
        "date",
        "level",
        "about",
        "video",
        "terms",
        "finishing",
        "care",
        "tested",
        "inch_rounding",
    )
    given = {name: getattr(said, name) for name in names}
    language = said.language if said.language is not None else Written("en", said.title.place, exact=False)
    facts = Facts(**given, language=language, tools=tuple(said.tools), changes=tuple(said.changes))
    for text in facts.prose:
        found.extend(read_quotes(text)[1])
    return facts


def _error(name: str, place: Place, says: str, mend: str) -> Finding:
    return Finding(name, Severity.ERROR, place, says, mend)
