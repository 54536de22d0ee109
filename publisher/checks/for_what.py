"""What a name promises: a material that is for the lining, a finished width that is a width, layers that are cut alike."""

import re
from collections.abc import Iterator

from publisher.checks.named_edges import drafted_copies
from publisher.checks.values import Proof
from publisher.checks.words import prose_of
from publisher.drafting import Draft, LineMark
from publisher.geometry import inside, nearest
from publisher.measures import Asked, Formula, Name, Operation, names_within
from publisher.terms import Finding, Severity, Written

FOR = re.compile(r"\bfor (?:the |a )?(?P<what>.+)$", re.IGNORECASE)
NOT_INCLUDED = re.compile(
    r"\ballowances?\b[^.]*\bnot included\b|\bnot included: add\b"
    r"|\badd (?:it|the (?:seam )?allowances?) (?:round|around|when|to)\b",
    re.IGNORECASE,
)
CONTRARY = {"height": ("width", "wide", "across"), "width": ("height", "high", "tall")}
BEYOND = 1.0  # mm
ENDS = {"height": ("top edge", "bottom edge"), "width": ("left edge", "right edge")}


def material_for_another(proof: Proof) -> Iterator[Finding]:
    """The name of a material says for what it is, and what it names is cut from another one.

    Why: the reader buys after the name, and cuts after the chart.

    Fix: cut it from the material that says so, or tell in its name what it is for."""
    if str(proof.source.facts.language) != "en":
        return
    for draft in proof.drafts[:1]:
        for material in proof.source.materials:
            found = FOR.search(str(material.name))
            words = re.findall(r"\w+", found["what"].lower()) if found is not None else []
            for word in words:
                cut_from = _cut_from(draft, word)
                if cut_from and str(material.key) not in cut_from.values():
                    copy = next(iter(cut_from))
                    yield Finding(
                        "material-for-another",
                        Severity.WARNING,
                        draft.copy(copy).place,
                        f"'{material.name}' says that it is for the {word}, and '{copy}' is cut from '{cut_from[copy]}'",
                        f"write '{material.key}' behind it, or change the name of the material",
                        proof.variants,
                    )


def _cut_from(draft: Draft, word: str) -> dict[str, str]:
    """The material of each copy whose name has a word, or its singular."""
    singular = word.removesuffix("s") if len(word) > len("xxs") else word
    return {
        copy.name: copy.material
        for piece in draft.pieces
        for copy in piece.copies
        if {word, singular} & set(copy.name.lower().split())
    }


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


def layers_cut_unalike(proof: Proof) -> Iterator[Finding]:
    """Of layers that are laid on one another one is cut larger than its template, and another is not.

    Why: quilting draws all of them in; the smaller one no longer reaches the edge where they are trimmed.

    Fix: cut all of them larger by the same: `rough by …`."""
    for draft in proof.drafts:
        copies = drafted_copies(draft)
        for placement in draft.placements:
            (upper, one), (lower, other) = copies[placement.placed], copies[placement.below]
            if upper.name == lower.name and bool(one.rough) != bool(other.rough):
                smaller, larger = (one, other) if other.rough else (other, one)
                yield Finding(
                    "layers-cut-unalike",
                    Severity.WARNING,
                    smaller.place,
                    f"'{smaller.name}' is cut to its template, and '{larger.name}', which it is laid together with, larger",
                    f"write 'rough by …' behind the material of '{smaller.name}', too",
                    (draft.variant,),
                )


def line_off_piece(proof: Proof) -> Iterator[Finding]:
    """A line to stitch along ends beyond the finished line of its piece.

    Why: the stitches run off the edge, or into what is folded away.

    Fix: let it end inside the finished line."""
    for draft in proof.drafts:
        for piece in draft.pieces:
            outline = piece.finished_line
            for mark in piece.marks:
                if not isinstance(mark, LineMark) or mark.kind != "stitching line":
                    continue
                beyond = [nearest(outline, end)[2] for end in (mark.start, mark.end) if not inside(outline, end)]
                if max(beyond, default=0.0) > BEYOND:
                    yield Finding(
                        "line-off-piece",
                        Severity.WARNING,
                        mark.place,
                        f"'{mark.name}' ends {max(beyond):.1f} mm outside the finished line of '{piece.name}'",
                        "let it end inside, or look at the measures of its ends",
                        (draft.variant,),
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


def allowance_in_the_outline(proof: Proof) -> Iterator[Finding]:
    """The outline of a piece adds the seam allowance, and the piece has an allowance besides.

    Why: an outline is the finished line, to which the allowance is added by itself: the piece comes out larger by it.

    Fix: take it out of the formula; or give the piece an allowance of 0."""
    if not proof.drafts:
        return
    reads = dict(proof.measures.reads)
    for written in proof.source.pieces:
        drafted = next((one for one in proof.drafts[0].pieces if one.name == str(written.name)), None)
        usual = written.allowance or proof.source.allowance
        formula = proof.measures.saying(usual.inch) if usual is not None else None
        if drafted is None or written.outline is None or not isinstance(formula, Name):
            continue
        if all(edge.allowance == 0 for edge in drafted.edges):
            continue
        for _, native in written.outline.points:
            for name in names_within(proof.measures.saying(native.inch)):
                added = _adds(proof, name, formula.text, reads)
                if added is not None:
                    yield Finding(
                        "allowance-in-the-outline",
                        Severity.WARNING,
                        added.place,
                        f"'{name}' adds '{formula.text}', and the outline of '{written.name}' that is drawn with it gets its "
                        "allowance by itself",
                        f"take '{formula.text}' out of it, or write 'allowance: 0' below '{written.name}'",
                        proof.variants,
                    )
                    return


def _adds(proof: Proof, name: str, allowance: str, reads: dict[str, tuple[str, ...]]) -> Written | None:
    """The formula of a measure that adds the allowance, where it reads it itself."""
    if allowance not in reads.get(name, ()):
        return None
    for measure in proof.source.measures:
        written = measure.by_size[0][1].inch
        formula = proof.measures.saying(written) if str(measure.name) == name else None
        if isinstance(formula, Operation) and formula.sign == "+" and _is(formula.right, allowance):
            return written
    return None


def _is(formula: Formula, name: str) -> bool:
    return isinstance(formula, Name) and formula.text == name


def allowance_told_as_missing(proof: Proof) -> Iterator[Finding]:
    """The words have the reader add the seam allowance, and templates and chart include it.

    Why: she cuts everything larger by it, and nothing fits.

    Fix: say that it is included."""
    if str(proof.source.facts.language) != "en" or not proof.drafts:
        return
    included = any(edge.allowance > 0 for piece in proof.drafts[0].pieces for edge in piece.edges)
    for where, texts in prose_of(proof) if included else ():
        for text in texts:
            found = NOT_INCLUDED.search(str(text))
            if found is not None:
                yield Finding(
                    "allowance-told-as-missing",
                    Severity.ERROR,
                    text.part(found.start(), found.end()).place,
                    f"{where} has the reader add the allowance, and templates and chart include it",
                    "say that it is included in every piece",
                    proof.variants,
                )
