"""Finished sizes: told of the side that their name says, and of the whole."""

from collections.abc import Iterator

from publisher.checks.values import Proof
from publisher.measures import Asked, Name
from publisher.terms import Finding, Severity

CONTRARY = {"height": ("width", "wide", "across"), "width": ("height", "high", "tall")}
ENDS = {"height": ("top edge", "bottom edge"), "width": ("left edge", "right edge")}


def finished_size_against_word(proof: Proof) -> Iterator[Finding]:
    """A finished size is called a width and is the height of a piece; or a height that is a width.

    Why: the cover tells the reader a thing that lies the other way.

    Fix: ask for the other one, or call it by the other word."""
    if str(proof.source.facts.language) != "en":
        return
    for name, native in proof.source.finished_size:
        formula = proof.measures.saying(native.inch)
        words = CONTRARY.get(formula.what, ()) if isinstance(formula, Asked) else ()
        called = set(str(name).lower().split())
        if isinstance(formula, Asked) and called & set(words) and formula.what not in called:
            yield Finding(
                "finished-size-against-word",
                Severity.WARNING,
                native.inch.place,
                f"'{name}' is told as '{native.inch.strip()}'",
                "ask for the other measure of the piece, or call it by the other word",
                proof.variants,
            )


def finished_size_of_a_part(proof: Proof) -> Iterator[Finding]:
    """A finished size is the height of a piece that a zip joins to another piece above or below it.

    Why: the cover tells a part for the whole.

    Fix: add what the zip joins to it, or ask a piece that is as high as the whole."""
    for draft, assembly in zip(proof.drafts[:1], proof.assemblies[:1], strict=True):
        zips = {notion.key for notion in draft.notions if notion.kind == "zip"}
        at = {
            one.other for step in assembly.steps for one in step.actions if one.verb == "attach" and one.target in zips
        }
        for name, native in proof.source.finished_size:
            formula = proof.measures.saying(native.inch)
            about = formula.about[0] if isinstance(formula, Asked) and formula.what in ENDS and formula.about else None
            piece = next((one for one in draft.pieces if isinstance(about, Name) and one.name == about.text), None)
            if piece is None or not isinstance(formula, Asked):
                continue
            joined = [f"{copy.name}.{edge}" for copy in piece.copies for edge in ENDS[formula.what]]
            if any(one in at for one in joined):
                yield Finding(
                    "finished-size-of-a-part",
                    Severity.WARNING,
                    native.inch.place,
                    f"'{name}' is told as '{native.inch.strip()}', and a zip joins '{piece.name}' to another piece there",
                    "add what the zip joins to it, or ask a piece that is as high as the whole",
                    proof.variants,
                )
