"""Kinds of notions: what bears the name of a thing that checks and cautions know says that it is one."""

import re
from collections.abc import Iterator

from publisher.checks.amounts import article
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
                f"'{notion.name}' has no kind, and by its name it is {article(kind)} {kind}",
                f"write 'kind: {kind}' below '{notion.key}', or the kind that it is",
                proof.variants,
            )


def _told_by_name(notion: WrittenNotion) -> str | None:
    return next((kind for kind, words in TELLING if words.search(str(notion.name))), None)


# What tells the reader which one to buy, by the kind of notion.
TELLS_SIZE = {
    "zip": "length",
    "ring": "inner width",
    "slider": "inner width",
    "buckle": "inner width",
    "elastic": "width",
    "button": "across",
}


def notion_without_size(proof: Proof) -> Iterator[Finding]:
    """A zip, a ring, a button or an elastic is listed, and not how large it is.

    Why: the shop has it in ten sizes; and without its size nothing proves that it fits.

    Fix: write its size below it: `length:` of a zip, `inner width:` of a ring, `width:` of an elastic, `across:` of a
    button."""
    for draft in proof.drafts:
        written = {str(notion.key) for notion in proof.source.notions}
        for notion in (one for one in draft.notions if one.key in written):
            size = TELLS_SIZE.get(notion.kind or "")
            if size is not None and size not in dict(notion.sizes):
                yield Finding(
                    "notion-without-size",
                    Severity.WARNING,
                    notion.place,
                    f"'{notion.key}' is {article(notion.kind or '')} {notion.kind}, and the pattern does not say its {size}",
                    f"write '{size}: …' below '{notion.key}'",
                    (draft.variant,),
                )


def thread_not_listed(proof: Proof) -> Iterator[Finding]:
    """Seams are sewn, and the notions list no thread.

    Why: the reader comes home from the shop without it.

    Fix: add a thread to the notions; it needs no more than its name."""
    sews = any(action.verb == "sew" for one in proof.assemblies for step in one.steps for action in step.actions)
    notions = proof.source.notions
    named = [f"{notion.key} {notion.name}" for notion in notions]
    if str(proof.source.facts.language) == "en" and sews and not any("thread" in one.lower() for one in named):
        yield Finding(
            "thread-not-listed",
            Severity.ADVICE,
            notions[0].key.place if notions else proof.source.facts.title.place,
            "the pattern is sewn, and its notions list no thread",
            "add 'thread:' with its name below 'notions:'",
            proof.variants,
        )


# How a notion is fastened, by the words of its name, and words of steps that fasten it otherwise.
FASTENED = (
    (
        "is sewn on",
        re.compile(r"\b(?:sew-on|to sew on|sewn on)\b", re.IGNORECASE),
        re.compile(r"\bprongs?\b|\bwashers?\b"),
    ),
    (
        "has prongs",
        re.compile(r"\bprongs?\b", re.IGNORECASE),
        re.compile(r"\bsew (?:it|the (?:snap|half)|each half)\b[^.]*\bby hand\b"),
    ),
    ("is sewn in", re.compile(r"\bsew-in\b", re.IGNORECASE), re.compile(r"\b(?:fuse|iron) (?:it|the)\b")),
)


def fastened_otherwise(proof: Proof) -> Iterator[Finding]:
    """A notion is listed as one to sew on, and the steps set it with prongs and washers; or the other way round.

    Why: the reader has bought the other kind, and cannot do what the step says.

    Fix: list the kind that the steps set, or tell how the one that is listed is fastened."""
    if str(proof.source.facts.language) != "en":
        return
    steps = [step for section in proof.source.sections for step in section.steps]
    for notion in proof.source.notions:
        for how, name, words in FASTENED:
            told = next((step for step in steps if words.search(str(step.text))), None)
            if name.search(str(notion.name)) and told is not None:
                yield Finding(
                    "fastened-otherwise",
                    Severity.WARNING,
                    notion.name.place,
                    f"'{notion.name}' {how}, and step {told.number} fastens it in another way",
                    "list the kind that the steps set, or tell how this one is fastened",
                    proof.variants,
                )
