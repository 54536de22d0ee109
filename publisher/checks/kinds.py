"""Kinds of notions: what bears the name of a thing that checks and cautions know says that it is one."""

import re
from collections.abc import Iterator

from publisher.checks.values import Proof
from publisher.source import WrittenNotion
from publisher.terms import Finding, Severity

# The kinds that something depends on, by the words of a name that tell of one; the first that fits.
TELLING = (
    ("magnetic snap", re.compile(r"\bmagnet(?:ic)?\b", re.IGNORECASE)),
    ("zip", re.compile(r"\bzip(?:per|s|pers)?\b(?! (?:foot|pull|head|end))", re.IGNORECASE)),
    ("elastic", re.compile(r"\belastics?\b(?! thread)", re.IGNORECASE)),
    ("ring", re.compile(r"\b(?:[DO]-?)?rings?\b", re.IGNORECASE)),
    ("button", re.compile(r"\bbuttons?\b(?! (?:thread|band))", re.IGNORECASE)),
    ("eyelet", re.compile(r"\beyelets?\b", re.IGNORECASE)),
    ("rivet", re.compile(r"\brivets?\b", re.IGNORECASE)),
)


def notion_kind_untold(proof: Proof) -> Iterator[Finding]:
    """A notion bears the name of a kind that checks and cautions know, and does not say that it is of that kind.

    Why: nothing proves that it fits, and the caution that belongs to it, of magnets or of small parts, is not printed.

    Fix: write its `kind:`."""
    if str(proof.source.facts.language) != "en":
        return
    for notion in proof.source.notions:
        kind = _told_by_name(notion) if notion.kind is None else None
        if kind is not None:
            yield Finding(
                "notion-kind-untold",
                Severity.WARNING,
                notion.key.place,
                f"'{notion.name}' has no kind, and by its name it is a {kind}",
                f"write 'kind: {kind}' below '{notion.key}', or the kind that it is",
                tuple(draft.variant for draft in proof.drafts),
            )


def _told_by_name(notion: WrittenNotion) -> str | None:
    return next((kind for kind, words in TELLING if words.search(str(notion.name))), None)
