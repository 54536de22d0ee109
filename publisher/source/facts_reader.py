"""The publication's own facts: title, date, links and prose, each looked at for what it should be."""

import re
from datetime import date
from typing import TypeGuard

from publisher.source import shapes
from publisher.source.quotes import read_quotes
from publisher.source.values import Facts, WrittenSizeGuide
from publisher.source.yaml_nodes import is_nothing
from publisher.terms import Finding, Place, Severity, Written

INCH_STEPS = ("1/8", "1/16")


def read_facts(said: shapes.Pattern, guide: WrittenSizeGuide | None, found: list[Finding]) -> Facts:
    """The facts, and findings for those that cannot be meant."""
    for name, text in (("title", said.title), ("revision", said.revision)):
        if not text.strip() and not is_nothing(text):
            found.append(_error("no-value", text.place, f"'{name}' has no value", "write one in the quotation marks"))
    if _given(said.date) and not _is_date(said.date):
        found.append(
            _error("bad-date", said.date.place, f"'{said.date}' is no date", "write year, month and day: 2026-05-31")
        )
    if _given(said.video) and not re.fullmatch(r"https?://[^\s<>\"]+", said.video):
        found.append(
            _error(
                "bad-link", said.video.place, f"'{said.video}' is no address on the web", "copy it whole, with https://"
            )
        )
    if _given(said.inch_rounding) and said.inch_rounding not in INCH_STEPS:
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
        "cover_drawing",
        "about",
        "video",
        "terms",
        "finishing",
        "care",
        "tested",
    )
    given = {name: getattr(said, name) for name in names}
    language = said.language if said.language is not None else Written("en", said.title.place, exact=False)
    facts = Facts(
        **given,
        language=language,
        tools=tuple(said.tools),
        changes=tuple(said.changes),
        size_guide=guide,
        inch_rounding=said.inch_rounding if said.inch_rounding in INCH_STEPS else None,
    )
    for text in facts.prose:
        found.extend(read_quotes(text)[1])
    return facts


def _given(text: Written | None) -> TypeGuard[Written]:
    """True for what was written; what was left out behind its colon has been told."""
    return text is not None and not is_nothing(text)


def _is_date(text: str) -> bool:
    """True for a day of the calendar, written as 2026-05-31."""
    if re.fullmatch(r"[0-9]{4}-[0-9]{2}-[0-9]{2}", text) is None:
        return False
    try:
        date.fromisoformat(text)
    except ValueError:
        return False
    return True


def _error(name: str, place: Place, says: str, mend: str) -> Finding:
    return Finding(name, Severity.ERROR, place, says, mend)
