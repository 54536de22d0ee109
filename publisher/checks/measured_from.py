"""Marks that the reader measures: from where the words tell her to, against from where they are drafted."""

import re
from collections.abc import Iterator

from publisher.checks.amounts import lengths_quoted, told
from publisher.checks.deeds import Deed, deeds_of, piece_of
from publisher.checks.named_edges import distance_between, spot_on
from publisher.checks.values import Proof
from publisher.drafting import PieceKind
from publisher.source import WrittenStep
from publisher.terms import Finding, Severity

# "… and from each end {side}", "{drop} below the top edge": an end or edge of the cut piece, unless it is told otherwise.
FROM_AN_END = re.compile(r"\b(?:from|below|above|beside)\b[^.;:]*\b(?:ends?|sides?|edges?)\b", re.IGNORECASE)
FROM_THE_LINE = re.compile(r"\b(?:stitching|seam|sewing|finished|fold) lines?\b|\bfinished\b|\bseams?\b", re.IGNORECASE)
# "{drop} below the raw top edge", "{inset} from the stitching line of its left edge".
FROM_EDGE = re.compile(
    r"\{(?P<quote>[^{}]*)\} (?:below|above|from|beside|inside) (?:the |its )"
    r"(?P<line>(?:stitching|seam|finished) line (?:of|at|along) (?:the|its) )?(?P<raw>raw )?"
    r"(?P<edge>top|bottom|left|right|upper|lower)(?:-hand)? (?P<behind>raw )?edge\b",
    re.IGNORECASE,
)
CALLED = {"upper": "top", "lower": "bottom"}
SAME = 0.3  # mm
BESIDE = 0.5  # mm: an allowance below this hides no slip


def measured_from_the_finished_edge(proof: Proof) -> Iterator[Finding]:
    """A step has a mark measured from the end of a piece as it is cut, and gives the distance from the stitching line.

    Why: a piece that is cut with a ruler bears no stitching line, so that the mark comes to lie an allowance off, and
    meets nothing.

    Fix: add the allowance to what is quoted, or say that it is measured from the stitching line."""
    if str(proof.source.facts.language) != "en":
        return
    written = {step.number: step for section in proof.source.sections for step in section.steps}
    for deeds in deeds_of(proof):
        by_step: dict[int, list[Deed]] = {}
        for deed in deeds:
            if deed.action.verb == "mark" and "." in deed.action.target:
                by_step.setdefault(deed.step.number, []).append(deed)
        for number, marked in by_step.items():
            yield from _measured(written[number], marked)


def _measured(step: WrittenStep, marked: list[Deed]) -> Iterator[Finding]:
    if not FROM_AN_END.search(str(step.text)) or FROM_THE_LINE.search(str(step.text)):
        return
    draft = marked[0].draft
    spans = [span for deed in marked for span in _spans(deed)]
    for quote, length in lengths_quoted(marked[0].draft, step):
        cut = any(abs(length - raw) < SAME for _, _, raw in spans)
        finished = next((span for span in spans if abs(length - span[1]) < SAME < BESIDE < span[2] - span[1]), None)
        if finished is not None and not cut:
            mark, _, raw = finished
            yield Finding(
                "measured-from-the-finished-edge",
                Severity.WARNING,
                quote.place,
                f"step {step.number} marks '{mark}' {told(length, draft)} from an edge, which is its distance from the "
                f"stitching line: from the cut edge it is {told(raw, draft)}",
                "add the allowance to what is quoted, or say that it is from the stitching line",
                (draft.variant,),
            )


def _spans(deed: Deed) -> Iterator[tuple[str, float, float]]:
    """A mark of a piece that is cut with a ruler, its distance from each edge beside it, finished and as cut, mm."""
    copy, _, name = deed.action.target.partition(".")
    piece = piece_of(deed.draft, copy)
    spot = spot_on(piece, name) if piece.kind is PieceKind.MEASURED else None
    if spot is None:
        return
    for edge in piece.edges:
        apart = distance_between(spot, edge.path)
        if apart > BESIDE:
            yield deed.action.target, apart, apart + edge.allowance


def measured_from_another_edge(proof: Proof) -> Iterator[Finding]:
    """A step measures a mark from an edge or a line that it names, and on the piece the mark lies elsewhere.

    Why: the reader who measures marks it where the words say; words and template tell two places.

    Fix: name the edge or the line that the mark is measured from, or quote its distance from the one that is named."""
    if str(proof.source.facts.language) != "en":
        return
    written = {step.number: step for section in proof.source.sections for step in section.steps}
    for deeds in deeds_of(proof):
        by_step: dict[int, list[str]] = {}
        for deed in deeds:
            name = deed.action.other if deed.action.verb == "attach" else deed.action.target
            if deed.action.verb in ("mark", "attach") and name and "." in name:
                by_step.setdefault(deed.step.number, []).append(name)
        for number, names in by_step.items():
            yield from _from_named_edges(deeds[0], written[number], names)


def _from_named_edges(deed: Deed, step: WrittenStep, names: list[str]) -> Iterator[Finding]:
    draft, lengths = (
        deed.draft,
        {str(quote).strip(): (quote, length) for quote, length in lengths_quoted(deed.draft, step)},
    )
    for found in FROM_EDGE.finditer(str(step.text)):
        quoted = lengths.get(found["quote"].strip())
        edge = CALLED.get(found["edge"].lower(), found["edge"].lower()) + " edge"
        raw, line = found["raw"] or found["behind"], found["line"]
        lies = [reach for name in names for reach in _reaches(deed, name, edge, bool(raw), bool(line))]
        if quoted is not None and lies and all(abs(quoted[1] - reach) > BESIDE for reach in lies):
            yield Finding(
                "measured-from-another-edge",
                Severity.WARNING,
                quoted[0].place,
                f"step {step.number} has '{names[0]}' {told(quoted[1], draft)} from the {edge}, and it lies "
                f"{told(lies[0], draft)} from there",
                "name the edge or the line that the mark is measured from, or quote the other distance",
                (draft.variant,),
            )


def _reaches(deed: Deed, name: str, edge: str, raw: bool, line: bool) -> Iterator[float]:
    """How far a mark lies from an edge, mm: as it is cut, or on the finished line; of a template only what is said."""
    copy, _, mark = name.partition(".")
    piece = piece_of(deed.draft, copy)
    spot, beside = spot_on(piece, mark), next((one for one in piece.edges if one.name == edge), None)
    if spot is None or beside is None or not (raw or line or piece.kind is PieceKind.MEASURED):
        return
    apart = distance_between(spot, beside.path)
    if not line:
        yield apart + beside.allowance
    if not raw:
        yield apart
