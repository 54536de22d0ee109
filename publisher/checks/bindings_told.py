"""Bindings and folded strips as the words tell them: from which face they are sewn on, how far their edges are pressed in."""

import re
from collections.abc import Iterator, Sequence

from publisher.assembly import Action
from publisher.checks.amounts import lengths_meant, told
from publisher.checks.bindings import by_strip
from publisher.checks.deeds import piece_of, told_steps
from publisher.checks.values import Proof
from publisher.drafting import Draft, Piece
from publisher.terms import Finding, Severity

FACE = (
    r"(?:the|its) (?P<face>outside|inside|lining|right side|wrong side|front|back|underside)\b"
    r"(?! (?:edge|corner|end|seam|piece))"
)
STRIP = r"\b(?:strip|binding|tape|it|they|them|its|their)\b"
# "lay the strip's edge level with the edge of the roll on the outside", "sew it to the right side".
BEGUN = re.compile(
    rf"\b(?:lay|pin|sew|stitch|place)\b[^.;]*?{STRIP}[^.;]*?\b(?:on|onto|to|along) {FACE}", re.IGNORECASE
)
# "Fold the strip over the edge to the lining side".
FOLDED_OVER = re.compile(
    rf"\b(?:fold|turn|wrap|bring|roll)\b[^.;]*?"
    rf"(?:{STRIP}[^.;]*?\b(?:over|round|around) (?:the|its|their|all|both) (?:raw )?edges?\b[^.;]*?"
    rf"|\bthe (?:strip|binding|tape) over )\b(?:to|onto|on) {FACE}",
    re.IGNORECASE,
)
ALIKE = {"inside": "lining"}
# "Press both long edges of the strip to the wrong side by {width}", "fold {width} of both long edges in".
PRESSED_IN = re.compile(
    r"\b(?:press|fold|turn) (?:both|the|its)(?: two)? long edges\b(?:\{[^{}]*\}|[^.;{}])*?\bby \{([^{}]*)\}"
    r"|\b(?:press|fold|turn) \{([^{}]*)\} (?:of|along) (?:both|the|its)(?: two)? long edges\b",
    re.IGNORECASE,
)
# "Lay the other end {lap} over the first one", "lap the end over the beginning by {overlap}".
LAPPED = re.compile(
    r"\b(?:lay|lap|take|bring|run|pin)\b[^.;{}]*?\bend\b[^.;{}]*?\{([^{}]*)\} (?:over|beyond|past|across)\b"
    r"|\blap\b[^.;{}]*?\bends?\b[^.;{}]*?\bby \{([^{}]*)\}",
    re.IGNORECASE,
)
# "Cut them so that they overlap by the width of the strip, {cut height of binding strip}."
TAILS = re.compile(
    r"\boverlap(?:ped)? by the (?:whole |full |cut )?width of the (?:strip|binding|tape),? \{([^{}]*)\}", re.IGNORECASE
)
SAME = 0.5  # mm


def folded_to_its_own_side(proof: Proof) -> Iterator[Finding]:
    """The words sew a binding on from one face of the work, and fold it over the edge to the same face.

    Why: it lies on that face already; folded over, its raw edge and the first stitches show on the other.

    Fix: begin it on the face that it is not folded to."""
    begun: dict[tuple[object, str], tuple[str, int]] = {}
    for draft, step, written in told_steps(proof):
        text = str(written.text)
        starts = {_face(found["face"]) for found in BEGUN.finditer(text) if not FOLDED_OVER.match(text, found.start())}
        for name in (one.target for one in step.actions if one.verb in ("begin", "bind")):
            if len(starts) == 1:
                begun.setdefault((draft.variant, name), (next(iter(starts)), step.number))
        for one in step.actions if FOLDED_OVER.search(text) else ():
            face, number = begun.get((draft.variant, one.target), ("", 0))
            ends = [found for found in FOLDED_OVER.finditer(text) if _face(found["face"]) == face]
            if one.verb == "bind" and len(ends) == len(FOLDED_OVER.findall(text)):
                yield Finding(
                    "folded-to-its-own-side",
                    Severity.ERROR,
                    written.text.part(ends[0].start("face"), ends[0].end("face")).place,
                    f"step {step.number} folds '{one.target}' over the edge to the {ends[0]['face'].lower()}, and step "
                    f"{number} sews it on from there",
                    "begin it on the other face, or fold it to the other",
                    (draft.variant,),
                )


def _face(words: str) -> str:
    return ALIKE.get(words.lower(), words.lower())


def strip_pressed_otherwise(proof: Proof) -> Iterator[Finding]:
    """The words press both long edges of a strip in by another width than it is cut for.

    Why: what lies between the folds comes out too narrow to go round the edge, or so wide that the strip lies loose.

    Fix: quote the finished width of the strip; pressed to its centre, half of it."""
    for draft, step, written in told_steps(proof):
        folded = [one.target for one in step.actions if one.verb == "fold" and "." not in one.target]
        found = _pressed([piece_of(draft, name) for name in dict.fromkeys(folded)])
        for quote, length in lengths_meant(draft, written, PRESSED_IN) if found is not None else ():
            assert found is not None
            piece, least, most = found
            if not least - SAME < length < most + SAME:
                yield Finding(
                    "strip-pressed-otherwise",
                    Severity.ERROR,
                    quote.place,
                    f"step {step.number} presses the long edges of '{piece.name}' in by {told(length, draft)}, and it is cut "
                    f"for {told(least, draft)}",
                    f"press them in by {told(least, draft)}, or cut '{piece.name}' for the other width",
                    (draft.variant,),
                )


def _pressed(pieces: list[Piece]) -> tuple[Piece, float, float] | None:
    """The one strip that is folded, and by how much its long edges are pressed in, at least and at most, mm."""
    strip = pieces[0].strip if len(pieces) == 1 else None
    if strip is None:
        return None
    quarter = min(pieces[0].cut_width, pieces[0].cut_height) / 4
    if strip.folding == "in fourths":
        return pieces[0], min(strip.finished_width, quarter), max(strip.finished_width, quarter)
    return (pieces[0], quarter, quarter) if strip.folding == "edges to the centre" else None


def lap_longer_than_the_strip(proof: Proof) -> Iterator[Finding]:
    """The words lap the ends of a binding by more than its strip is longer than what it binds.

    Why: the end does not reach over the beginning, and the edge stays raw between them.

    Fix: lap it by less, or make the strip longer."""
    bound = {
        draft.variant: by_strip(draft, assembly) for draft, assembly in zip(proof.drafts, proof.assemblies, strict=True)
    }
    for draft, step, written in told_steps(proof):
        strips = {one.other for one in step.actions if one.verb == "bind" and one.other is not None}
        for name in sorted(strips if len(strips) == 1 else ()):
            work = {one.action.target: one.length for one in bound[draft.variant].get(name, ())}
            strip, count = piece_of(draft, name).strip, draft.copy(name).count
            if strip is None or not work:
                continue
            spare = (strip.finished_length * count - sum(work.values())) / len(work)
            for quote, length in lengths_meant(draft, written, LAPPED):
                if length > max(spare, 0.0) + SAME:
                    yield Finding(
                        "lap-longer-than-the-strip",
                        Severity.ERROR,
                        quote.place,
                        f"step {step.number} laps the ends of '{name}' by {told(length, draft)}, and it is {told(spare, draft)} "
                        f"longer than {'what it binds' if len(work) == 1 else 'each that it binds'}",
                        "lap them by less, or make the strip longer",
                        (draft.variant,),
                    )


def tails_overlap_otherwise(proof: Proof) -> Iterator[Finding]:
    """The words let the tails of a binding overlap by the width of the strip, and quote another width than it is cut.

    Why: a diagonal join takes the whole width of the opened strip; cut shorter, the tails cannot be sewn together.

    Fix: quote the width that the strip is cut: `cut height of binding strip`."""
    for draft, step, written in told_steps(proof):
        strips = [piece for piece in draft.pieces if piece.strip is not None and _is_named(draft, step.actions, piece)]
        for quote, length in lengths_meant(draft, written, TAILS) if len(strips) == 1 else ():
            width = min(strips[0].cut_width, strips[0].cut_height)
            if abs(length - width) > 2 * SAME:
                yield Finding(
                    "tails-overlap-otherwise",
                    Severity.ERROR,
                    quote.place,
                    f"step {step.number} lets the tails overlap by {told(length, draft)}, and '{strips[0].name}' is cut "
                    f"{told(width, draft)} wide",
                    f"write {{cut height of {strips[0].name}}}",
                    (draft.variant,),
                )


def _is_named(draft: Draft, actions: Sequence[Action], piece: Piece) -> bool:
    """True where something is bound with a strip, or it is itself what is worked on."""
    copies = {copy.name for copy in piece.copies}
    bound = {binding.name for binding in draft.bindings if binding.strip in copies}
    return any(one.target.partition(".")[0] in copies | bound or one.other in copies for one in actions)
