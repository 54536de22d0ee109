"""Allowances trimmed, snipped and staystitched: to less than they are, and no deeper than they are."""

import re
from collections.abc import Iterator

from publisher.assembly import AssemblyStep
from publisher.checks.amounts import lengths_meant, lengths_quoted, told
from publisher.checks.deeds import Deed, deeds_of, piece_of, seam_of, told_steps
from publisher.checks.named_edges import edge_named
from publisher.checks.values import Proof
from publisher.drafting import Draft, Edge, Notch
from publisher.terms import Finding, Severity, Written

SAME = 0.05  # mm
FINISHED = 1.0  # mm
# A snip that goes less far than this into an allowance opens nothing (a rule of the house): what is left of it.
MOST_LEFT = 0.67
# "Trim the allowances to {trimmed allowance}": the quote soon behind the word, in one clause.
TRIMMED_TO = re.compile(r"\b(?:trim|cut)\b(?: [^.:;,{}]*)? (?:down )?to \{([^{}]*)\}", re.IGNORECASE)
# "snip both raw edges … {depth} deep": how far it goes in.
SNIPPED = re.compile(r"\b(?:snip|clip|notch)\b[^.:;{}]*\{([^{}]*)\} (?:deep|into the allowances?)\b", re.IGNORECASE)
# "… to {stop} from the stitching line", "stop {stop} before the stitching": what is left of it.
SNIPPED_TO = re.compile(
    r"\b(?:snip|clip|notch)\b[^.:;]*?(?:to|until|stop|stopping|as far as) \{([^{}]*)\} (?:from|before|short of) the stitching",
    re.IGNORECASE,
)
# "Staystitch the inner edge, {staystitching} from the raw edge".
STAYED = re.compile(
    r"\bstay-?stitch\w*\b[^.;]*?\{([^{}]*)\} (?:away from|from|inside|in from) (?:the|its|their|each|both|all) "
    r"(?:raw |cut )?edges?\b",
    re.IGNORECASE,
)
BEYOND = 0.3  # mm
# "Cut it to {cut width of handle}".
CUT_TO = re.compile(r"\b(?:cut|trim) (?:it|the \w+|both) to (?:the length of )?\{([^{}]*)\}", re.IGNORECASE)

# "cut off the outer {side hem} of the side, {corner cut} up from the lower raw edge".
CUT_OFF_UP = re.compile(
    r"\b(?:cut|trim) (?:off|away)\b[^.:;]*?\{(?P<far>[^{}]*)\} (?:up|in|down|away) from (?:the|its) (?P<edge>\w+)"
    r"(?: raw)? edge\b",
    re.IGNORECASE,
)
ALIKE = {"lower": "bottom", "upper": "top"}
# A cut edge that ends no further than this below the edge of the hem comes out above it (common practice, no source).
HIDDEN = 3.0  # mm


def trimmed_to_no_less(proof: Proof) -> Iterator[Finding]:
    """A step trims a seam's allowance to a width that is no less than the allowance.

    Why: there is nothing to trim, and the reader takes her seam for wrong; what was to be thin stays thick.

    Fix: give a width that is less than the allowance, and enough to hold the stitches."""
    for deed, allowance, quote, width in _told(proof, ("trim",), TRIMMED_TO):
        if width > allowance - SAME:
            yield Finding(
                "trimmed-to-no-less",
                Severity.WARNING,
                quote.place,
                f"step {deed.step.number} trims '{deed.action.target}' to {told(width, deed.draft)}, and its allowance is "
                f"{told(allowance, deed.draft)}",
                f"give a width below {told(allowance, deed.draft)}",
                (deed.draft.variant,),
            )


def snipped_too_deep(proof: Proof) -> Iterator[Finding]:
    """A step snips an allowance as deep as it is wide, or deeper.

    Why: the scissors go through the stitches, and the seam opens there.

    Fix: stop short of the stitching line: give a depth below the allowance."""
    for deed, allowance, quote, depth in _told(proof, ("clip", "mark"), SNIPPED):
        if depth > allowance - SAME:
            yield Finding(
                "snipped-too-deep",
                Severity.ERROR,
                quote.place,
                f"step {deed.step.number} snips '{deed.action.target}' {told(depth, deed.draft)} deep, and its allowance is "
                f"{told(allowance, deed.draft)}",
                f"give a depth below {told(allowance, deed.draft)}",
                (deed.draft.variant,),
            )


def _told(proof: Proof, verbs: tuple[str, ...], words: re.Pattern[str]) -> Iterator[tuple[Deed, float, Written, float]]:
    """Deeds of these verbs on a seam or an edge: the narrowest allowance there, and each length that the words give it, mm."""
    if str(proof.source.facts.language) != "en":
        return
    written = {step.number: step for section in proof.source.sections for step in section.steps}
    for deeds in deeds_of(proof):
        seen: set[tuple[int, str]] = set()
        for deed in deeds:
            allowance = _allowance(deed) if deed.action.verb in verbs else None
            if allowance is None:
                continue
            for quote, length in lengths_meant(deed.draft, written[deed.step.number], words):
                if (deed.step.number, str(quote)) not in seen:
                    seen.add((deed.step.number, str(quote)))
                    yield deed, allowance, quote, length


def _allowance(deed: Deed) -> float | None:
    """The narrowest allowance of a seam or of an edge that a deed names; None for other things, and where there is none."""
    seam, named = seam_of(deed.draft, deed.action.target), edge_named(deed.draft, _edge_of(deed))
    if seam is not None:
        return min(one for side in (*seam.first, *seam.second) for one in side.allowances) or None
    return min(part.allowance for part in named.parts) or None if named is not None else None


def _edge_of(deed: Deed) -> str:
    """The edge that a deed names, or the one of which it marks a notch."""
    copy, _, name = deed.action.target.partition(".")
    notches = piece_of(deed.draft, copy).marks if deed.action.verb == "mark" and name else ()
    return next(
        (f"{copy}.{one.edge}" for one in notches if isinstance(one, Notch) and one.name == name), deed.action.target
    )


def snipped_too_little(proof: Proof) -> Iterator[Finding]:
    """A step snips an edge as far as a distance from the stitching line, and its allowance is no wider than that.

    Why: the snips end where they begin, and the edge cannot open round the curve.

    Fix: let the snips go nearer to the stitching line, a thread or two from it."""
    for deed, allowance, quote, left in _told(proof, ("clip",), SNIPPED_TO):
        if left > allowance * MOST_LEFT:
            yield Finding(
                "snipped-too-little",
                Severity.WARNING,
                quote.place,
                f"step {deed.step.number} snips '{deed.action.target}' to {told(left, deed.draft)} from the stitching line, and "
                f"its allowance is {told(allowance, deed.draft)}",
                "let the snips end nearer to the stitching line",
                (deed.draft.variant,),
            )


def staystitched_beyond_the_seam(proof: Proof) -> Iterator[Finding]:
    """A step staystitches an edge further from the raw edge than its seam will lie.

    Why: the stitches show on the right side of the finished work, and snips that end at them go through the seam.

    Fix: staystitch within the allowance, a thread or two beside the seam line."""
    for draft, step, written in told_steps(proof):
        deeds = [Deed(draft, step, one, step.before) for one in step.actions if one.verb == "baste"]
        widths = [_allowance(deed) for deed in deeds if edge_named(draft, deed.action.target) is not None]
        allowances = [one for one in widths if one is not None]
        for quote, length in lengths_meant(draft, written, STAYED) if len(allowances) == len(widths) else ():
            if allowances and length > max(allowances) + BEYOND:
                yield Finding(
                    "staystitched-beyond-the-seam",
                    Severity.WARNING,
                    quote.place,
                    f"step {step.number} staystitches {told(length, draft)} from the raw edge of '{deeds[0].action.target}', "
                    f"and its allowance is {told(max(allowances), draft)}",
                    f"give a distance below {told(max(allowances), draft)}",
                    (draft.variant,),
                )


def corner_cut_above_the_hem(proof: Proof) -> Iterator[Finding]:
    """At a corner the inner layer of one hem is cut off, and further from the raw edge of the next hem than that will hide.

    Why: the cut edge shows above the hem, and frays there.

    Fix: cut off less: what the next hem turns in, and nearly its depth once more."""
    for draft, step, written in told_steps(proof):
        for found in CUT_OFF_UP.finditer(str(written.text)):
            far = next((length for quote, length in lengths_quoted(draft, written) if str(quote) == found["far"]), None)
            hem = _hem_beside(draft, step, found["edge"].lower()) if far is not None else None
            if far is not None and hem is not None and far > (hides := sum(hem.layers) + hem.layers[0]) - HIDDEN:
                yield Finding(
                    "corner-cut-above-the-hem",
                    Severity.WARNING,
                    written.text.part(found.start("far"), found.end("far")).place,
                    f"step {step.number} cuts the corner off '{found['far']}' from the raw '{hem.name}', {told(far, draft)}, and "
                    f"its hem lies over no more than {told(hides, draft)}, to its very edge",
                    f"cut it off no further than {told(sum(hem.layers), draft)}",
                    (draft.variant,),
                )


def _hem_beside(draft: Draft, step: AssemblyStep, word: str) -> Edge | None:
    """The one hemmed edge that is called so, beside a hemmed edge that a step trims."""
    for one in step.actions:
        named = edge_named(draft, one.target) if one.verb == "trim" else None
        if named is None or not all(part.layers for part in named.parts):
            continue
        ends = [end for part in named.parts for end in (part.path.start, part.path.end)]
        beside = [
            edge
            for edge in named.piece.edges
            if edge.layers
            and edge not in named.parts
            and {word, ALIKE.get(word, word)} & set(edge.name.lower().split())
            and any((end - own).length < FINISHED for end in ends for own in (edge.path.start, edge.path.end))
        ]
        if len(beside) == 1:
            return beside[0]
    return None


def cut_to_finished_length(proof: Proof) -> Iterator[Finding]:
    """A step cuts a strip to the length that it finishes, and its ends have allowances.

    Why: the seams at its ends take them, and it comes out shorter than the pattern says.

    Fix: quote what is cut: `{cut width of …}`."""
    for draft, step, written in told_steps(proof):
        copies = {one.target for one in step.actions if one.verb in ("join", "cut", "trim", "fold")}
        strips = [piece for piece in draft.pieces if copies & {one.name for one in piece.copies}]
        for quote, length in lengths_meant(draft, written, CUT_TO):
            for piece in strips:
                strip = piece.strip
                if strip is None or strip.end_allowance < FINISHED or abs(length - strip.finished_length) > FINISHED:
                    continue
                yield Finding(
                    "cut-to-finished-length",
                    Severity.WARNING,
                    quote.place,
                    f"step {step.number} cuts '{piece.name}' to {told(length, draft)}, which it finishes, and each end has "
                    f"an allowance of {told(strip.end_allowance, draft)}",
                    f"quote {{cut width of {piece.name}}}",
                    (draft.variant,),
                )
