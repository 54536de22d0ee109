"""How a step reads at the machine: one thing at a time, the right allowance, no word that the reader must guess."""

import re
from collections.abc import Iterator
from urllib.parse import urlsplit

from publisher.assembly import AssemblyStep
from publisher.checks.amounts import told
from publisher.checks.values import Proof
from publisher.checks.words import LENGTH
from publisher.drafting import Draft, Seam
from publisher.source import WrittenStep
from publisher.terms import Finding, Severity, UnitSystem, Variant, Written, read_length

ENGLISH = "en"
# Kinds of work in one step (a rule of the house).
MOST_DEEDS = 4
WORK = ("sew", "place", "baste", "hem", "bind", "attach", "fuse", "turn", "pleat", "dart", "gather", "fold")
QUOTE = re.compile(r"\{([^{}]*)\}")
SUB_STEP = re.compile(r"(?m)^ *(?:1|a)\. ")
# "with a {seam allowance} allowance", "{seam allowance} from the edge": the words that make a quote an allowance; the
# latter are said of topstitching too.
AS_ALLOWANCE = re.compile(r"\{([^{}]*)\} (?:seam )?allowance\b")
FROM_EDGE = re.compile(r"\{([^{}]*)\} from (?:the|their|all|both) (?:raw )?edges?\b")
# One seam of several: "Sew the sides, and the base with a {narrow} allowance", "the sides with the usual one".
SEWS = re.compile(r"\b(?:sew|stitch|join)\b", re.IGNORECASE)
SINGLED_OUT = re.compile(r"[.:;]|, (?:and|then|but)\b|\bwith (?:the|its)\b|\b(?:but|only|except)\b", re.IGNORECASE)
# Work that may have an allowance of its own beside the seam's.
OWN = frozenset({"place", "baste", "bind", "hem"})
# "with a 1/4 in allowance"
TYPED_ALLOWANCE = re.compile(rf"(?P<typed>{LENGTH.pattern}) (?:seam )?allowance\b")


def step_does_much(proof: Proof) -> Iterator[Finding]:
    """A step does four kinds of work or more, and has no sub-steps.

    Why: the reader looks up for two seconds and finds her place only among few things.

    Fix: make two steps of it, or sub-steps a, b, c."""
    assembly = proof.assemblies[0] if proof.assemblies else None
    written = {step.number: step for section in proof.source.sections for step in section.steps}
    for step in assembly.steps if assembly else ():
        kinds = list(dict.fromkeys(action.verb for action in step.actions if action.verb in WORK))
        if len(kinds) >= MOST_DEEDS and not SUB_STEP.search(str(written[step.number].text)):
            yield Finding(
                "step-does-much",
                Severity.ADVICE,
                step.place,
                f"step {step.number} does {len(kinds)} kinds of work: {', '.join(kinds)}",
                "make two steps of it, or sub-steps",
                proof.variants,
            )


def allowance_not_the_edges(proof: Proof) -> Iterator[Finding]:
    """A step tells the reader to sew with an allowance that its seam does not have.

    Why: she sews beside the stitching line, and the work comes out larger or smaller.

    Fix: quote the allowance that the edges have."""
    written = {step.number: step for section in proof.source.sections for step in section.steps}
    for draft, assembly in zip(proof.drafts, proof.assemblies, strict=True):
        seams = {seam.name: seam for seam in draft.seams}
        quoted = {(place, text): value.quantity for (place, text), value in draft.quoted}
        for step in assembly.steps:
            verbs = {action.verb for action in step.actions}
            sewn = [seams[action.target] for action in step.actions if action.verb == "sew"]
            if not sewn or verbs & OWN or _attached_elsewhere(step, sewn):
                continue
            said: list[tuple[Written, float]] = []
            for quote in _allowances_told(written[step.number], "topstitch" in verbs):
                quantity = quoted.get((quote.place, str(quote)))
                if quantity is not None:
                    said.append((quote, float(quantity.amount)))
            for where, amount in (*said, *_allowances_typed(written[step.number], draft)):
                other = _with_another(amount, sewn, each=_is_of_all(str(written[step.number].text), str(where)))
                if other is not None:
                    has = _allowances_of(other)
                    yield Finding(
                        "allowance-not-the-edges",
                        Severity.ERROR,
                        where.place,
                        f"step {step.number} sews '{other.name}' with {told(amount, draft)}, and its "
                        f"edges have {' and '.join(told(one, draft) for one in sorted(has))}",
                        "quote the allowance of the edges, or change it there",
                        (draft.variant,),
                    )


def _allowances_of(seam: Seam) -> set[float]:
    return {one for edge in (*seam.first, *seam.second) for one in edge.allowances}


def _with_another(amount: float, sewn: list[Seam], *, each: bool) -> Seam | None:
    """A seam without an edge of this allowance, mm: where the words tell it of each, any; else one where all are such."""
    others = [seam for seam in sewn if all(abs(amount - one) > 0.05 for one in _allowances_of(seam))]
    return others[0] if others and (each or len(others) == len(sewn)) else None


def _is_of_all(text: str, quote: str) -> bool:
    """True where a step sews but once by its words, and tells one allowance, of all that it sews."""
    told_of = [found for way in (AS_ALLOWANCE, FROM_EDGE) for found in way.finditer(text)]
    before = text.partition(f"{{{quote}}}")[0]
    sews = SEWS.search(before)
    return (
        len(told_of) == 1
        and sews is not None
        and len(SEWS.findall(text)) == 1
        and SINGLED_OUT.search(before, sews.end()) is None
    )


def _attached_elsewhere(step: AssemblyStep, sewn: list[Seam]) -> bool:
    """True where something is attached that may have an allowance of its own: not in the seam that is sewn, as a zip is."""
    edges = {f"{edge.copy}.{edge.edge}" for seam in sewn for edge in (*seam.first, *seam.second)}
    return any(action.verb == "attach" and action.other not in edges for action in step.actions)


def _allowances_typed(step: WrittenStep, draft: Draft) -> Iterator[tuple[Written, float]]:
    """The lengths typed before the word allowance in the units of the draft, mm."""
    for found in TYPED_ALLOWANCE.finditer(str(step.text)):
        inches = not found["typed"].endswith("m")
        if inches == (draft.variant.units is UnitSystem.INCH):
            amount = read_length(found["typed"].replace("″", '"')).amount
            yield step.text.part(found.start("typed"), found.end("typed")), float(amount)


def _allowances_told(step: WrittenStep, topstitched: bool) -> Iterator[Written]:
    """The quotes that stand before the word allowance, or, where nothing is topstitched, 'from the edge'."""
    ways = (AS_ALLOWANCE,) if topstitched else (AS_ALLOWANCE, FROM_EDGE)
    meant = {found[1].strip() for way in ways for found in way.finditer(str(step.text))}
    yield from (quote for quote in step.quotes if str(quote).strip() in meant)


# Words that are no side: "left open", "right sides together", "right angle", "what is left over".
NO_SIDE = r"(?! (?:sides?\b|side out|angle|open\b|over\b|unsewn|away|where|as it|up\b|turn|sides|half\b))"
SIDE = re.compile(
    rf"(?<!is )(?<!are )(?<!be )(?<!its )\b(?:the|its|to the|your|at|on) (left|right)\b{NO_SIDE}", re.IGNORECASE
)
VIEWPOINT = re.compile(
    r"\b(?:as worn|when worn|wearer'?s?|your (?:left|right)|seen from|facing you|as you look|looking at|in front of you"
    r"|before you|who wears|who is wearing)\b",
    re.IGNORECASE,
)


def left_without_viewpoint(proof: Proof) -> Iterator[Finding]:
    """The steps say left or right, and nowhere from where it is seen.

    Why: what is left on the right side of the cloth is right on its wrong side, and right when it is worn.

    Fix: say once how it is seen ("left and right are as worn"), or name the edge by what it joins."""
    if str(proof.source.facts.language) != ENGLISH:
        return
    texts = [text for _, text in _texts(proof)]
    if any(VIEWPOINT.search(str(text)) for text in texts):
        return
    for step, text in _texts(proof):
        plain = QUOTE.sub(lambda quote: " " * len(quote[0]), str(text))
        found = SIDE.search(plain)
        if found is not None:
            yield Finding(
                "left-without-viewpoint",
                Severity.ADVICE,
                text.part(found.start(1), found.end(1)).place,
                f"{step} says '{found[1]}', and no step says from where it is seen",
                "say once how left and right are meant: as worn, or seen from the right side",
                proof.variants,
            )
            return


# Common to all printed matter, or explained by the edition where they are used.
KNOWN = frozenset({"RS", "WS", "PDF", "QR", "OK", "USA", "UK", "EU", "A4", "A3", "DIY", "TV", "I", "A"})
SHORT = re.compile(r"(?<![\w{])([A-Z]{2,5})s?(?![\w}])")


def abbreviation_unexplained(proof: Proof) -> Iterator[Finding]:
    """The steps use an abbreviation that is nowhere written out.

    Why: a reader who meets it at the machine must guess, or look it up elsewhere.

    Fix: write it out, or explain it once in brackets: "half-square triangle (HST)"."""
    texts = list(_texts(proof))
    whole = "\n".join(str(text) for _, text in texts)
    told: set[str] = set()
    for step, text in texts:
        for found in SHORT.finditer(QUOTE.sub(lambda quote: " " * len(quote[0]), str(text))):
            word = found[1]
            if word in KNOWN or word in told or f"({word})" in whole or f"{word} (" in whole:
                continue
            told.add(word)
            yield Finding(
                "abbreviation-unexplained",
                Severity.WARNING,
                text.part(found.start(1), found.end(1)).place,
                f"{step} says '{word}', which is nowhere written out",
                f"write it out, or explain it once: the words in full ({word})",
                proof.variants,
            )


LINK = re.compile(r"(?<!!)\[[^\]]*\]\(\s*<?([^)>\s]*)[^)]*\)|<(https?:[^>\s]*)>")


def link_leads_nowhere(proof: Proof) -> Iterator[Finding]:
    """A link has no address that a reader's machine can open from a PDF.

    Why: a page beside the pattern on the maker's disk is on no reader's.

    Fix: write the whole address, with https://."""
    for step, text in _texts(proof):
        for found in LINK.finditer(str(text)):
            at = 1 if found[1] is not None else 2
            if not _opens(found[at]):
                yield Finding(
                    "link-leads-nowhere",
                    Severity.WARNING,
                    text.part(found.start(at), found.end(at)).place,
                    f"{step} links to '{found[at]}', which no reader can open",
                    "write the whole address: https://…",
                    proof.variants,
                )
    video = proof.source.facts.video
    if video is not None and not _opens(str(video)):
        yield Finding(
            "link-leads-nowhere",
            Severity.WARNING,
            video.place,
            f"the video is at '{video}', which no reader can open",
            "write the whole address: https://…",
            proof.variants,
        )


def _opens(address: str) -> bool:
    try:
        parts = urlsplit(address)
    except ValueError:
        return False
    return (parts.scheme in ("http", "https") and "." in parts.netloc) or (
        parts.scheme == "mailto" and "@" in parts.path
    )


def _texts(proof: Proof) -> Iterator[tuple[str, Written]]:
    """The words of steps.md, and whose they are."""
    for section in proof.source.sections:
        title = f"the section '{section.title}'" if section.title else "the introduction"
        yield title, section.intro
        yield from ((title, aside.text) for aside in section.asides)
        for step in section.steps:
            yield f"step {step.number}", step.text
            yield from ((f"step {step.number}", aside.text) for aside in step.asides)


def _everywhere(proof: Proof) -> tuple[Variant, ...]:
    return proof.variants
