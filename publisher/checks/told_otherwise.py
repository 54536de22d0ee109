"""Steps that tell one thing and do another: a face, a fold, a notch, a distance from an edge, work that no line does."""

import re
from collections.abc import Iterator

from publisher.assembly import Action
from publisher.checks.deeds import has_errors, piece_of, seams_sewn, told_steps
from publisher.checks.values import Proof
from publisher.drafting import Draft, LineMark, PointMark, Seam, SeamEdge
from publisher.source import WrittenStep
from publisher.terms import Finding, Severity

QUOTE = re.compile(r"\{[^{}]*\}")
# "the right side of the front": a face; "right-hand side" is none, "right sides together" tells of two pieces.
FACE = re.compile(r"\b(?:on|to) (?:the|its|their) (right|wrong) sides?\b", re.IGNORECASE)
EDGES_IN = re.compile(
    r"\bedges? (?:\w+ ){0,2}?(?:in )?(?:to|into|towards) (?:the|its|this|that) (?:crease|middle|centre|fold|wrong side)\b",
    re.IGNORECASE,
)
IN_HALF = re.compile(r"\bin half\b", re.IGNORECASE)
# "Fold it in half along its length, right side inside".
RIGHT_INSIDE = re.compile(r"\bin half\b[^.;]*?\bright sides? (?:inside|inwards|in|together)\b", re.IGNORECASE)
NOTCHES = re.compile(r"\bnotch(?:es)?\b", re.IGNORECASE)
# Work that a verb tells of, and the lines that may do it, each with what goes with it in one breath.
WORK = (
    ("fuse", re.compile(r"\bfuses?\b", re.IGNORECASE), ("fuse",)),
    ("turn", re.compile(r"\bturn\b[^.;:]*\bright side out\b", re.IGNORECASE), ("turn",)),
    (
        "topstitch",
        re.compile(r"\btopstitch\b", re.IGNORECASE),
        ("topstitch", "hem", "fold", "attach", "bind", "place", "pleat", "sew"),
    ),
    ("bind", re.compile(r"(?:^|[.:] )Bind\b"), ("bind", "begin", "join", "mitre")),
)


def _plain(step: WrittenStep) -> str:
    return QUOTE.sub(lambda quote: " " * len(quote[0]), str(step.text))


def marked_on_other_face(proof: Proof) -> Iterator[Finding]:
    """A step has a point or a line marked on one side of the cloth, and the pattern says that it goes on the other.

    Why: the template is printed for the side that the pattern says, and a chalk line on the other one is not seen when
    it is needed.

    Fix: write `on the right side` behind the mark, or take it out; or say the other side in the step."""
    for draft, step, written in told_steps(proof):
        faces = {found[1].lower() for found in FACE.finditer(_plain(written))}
        marks = [(name, mark) for action in step.actions for name, mark in _marked(draft, action)]
        if len(faces) != 1 or not marks:
            continue
        (face,) = faces
        others = [(name, mark) for name, mark in marks if mark.face != f"{face} side"]
        if len(others) == len(marks):
            name, mark = others[0]
            yield Finding(
                "marked-on-other-face",
                Severity.WARNING,
                mark.place,
                f"step {step.number} says 'on the {face} side', and '{name}' is for the {mark.face}",
                f"write 'on the {face} side' behind the mark, or say the {mark.face} in the step",
                (draft.variant,),
            )


def _marked(draft: Draft, action: Action) -> Iterator[tuple[str, PointMark | LineMark]]:
    copy, _, name = action.target.partition(".")
    if action.verb == "mark" and name:
        for mark in piece_of(draft, copy).marks:
            if mark.name == name and isinstance(mark, PointMark | LineMark):
                yield action.target, mark


def folded_not_as_told(proof: Proof) -> Iterator[Finding]:
    """The words fold a strip in one way, and it is cut to be folded in another.

    Why: folded as the words say it comes out half or twice as wide as the pattern says.

    Fix: write the folding of the words below the strip: `fold: in fourths`, `fold: doubled`; or tell it as it is cut."""
    for draft, step, written in told_steps(proof):
        folds = [one.target for one in step.actions if one.verb == "fold" and "." not in one.target]
        strips = [piece for name in folds if (piece := piece_of(draft, name)).strip is not None]
        if len(strips) != 1 or strips[0].strip is None:
            continue
        text, folding = _plain(written), strips[0].strip.folding
        edges_in = EDGES_IN.search(text)
        if edges_in is not None:
            again = IN_HALF.search(text, edges_in.end()) is not None
            wrong = folding in ("doubled", "turned") or (again and folding == "edges to the centre")
            says = "fold both long edges in" + (", and it in half" if again else "")
        else:
            wrong = folding == "in fourths" and IN_HALF.search(text) is not None
            says = "fold it in half, and no edges in"
        if wrong:
            yield Finding(
                "folded-not-as-told",
                Severity.WARNING,
                next(one.place for one in step.actions if one.target == folds[0]),
                f"the words of step {step.number} {says}, and '{folds[0]}' is cut to be folded {folding}",
                f"write 'fold: …' below '{strips[0].name}' as the step has it, or tell the step as it is cut",
                (draft.variant,),
            )


def folded_wrong_side_out(proof: Proof) -> Iterator[Finding]:
    """The words fold a strip in half with its right side inside, and it is neither sewn nor turned so.

    Why: its wrong side shows for good.

    Fix: fold it with its wrong side inside; or sew it, and turn it."""
    for draft, step, written in told_steps(proof):
        folds = [one for one in step.actions if one.verb == "fold" and "." not in one.target]
        found = RIGHT_INSIDE.search(str(written.text)) if len(folds) == 1 else None
        if found is None or piece_of(draft, folds[0].target).strip is None:
            continue
        actions = [one for each in proof.assembly_of(draft.variant).steps for one in each.actions]
        later = {one.target for one in actions[actions.index(folds[0]) :] if one.verb == "sew"}
        if any(_sewn_to_itself(seam, folds[0].target) for seam in draft.seams if seam.name in later):
            continue
        yield Finding(
            "folded-wrong-side-out",
            Severity.ERROR,
            written.text.part(found.start(), found.end()).place,
            f"step {step.number} folds '{folds[0].target}' with its right side inside, and it is not sewn together and turned",
            "fold it with its wrong side inside",
            (draft.variant,),
        )


def _sewn_to_itself(seam: Seam, copy: str) -> bool:
    return sum(side.copy == copy for side in (*seam.first, *seam.second)) > 1


def notch_told_and_missing(proof: Proof) -> Iterator[Finding]:
    """The words of a step match notches, and of no seam that it sews have both sides one.

    Why: the reader looks for a notch that was never cut.

    Fix: give both sides a notch, or match something else."""
    for draft, step, written in told_steps(proof):
        found = NOTCHES.search(_plain(written))
        seams = seams_sewn(draft, step)
        if found is None or not seams or any(_notched(draft, seam) for seam in seams):
            continue
        bare = [side.copy for seam in seams for side in (*seam.first, *seam.second) if not _has_notch(draft, side)]
        yield Finding(
            "notch-told-and-missing",
            Severity.WARNING,
            written.text.part(found.start(), found.end()).place,
            f"step {step.number} speaks of notches, and '{bare[0]}' has none along '{seams[0].name}'",
            "give both sides of the seam a notch, or match something else",
            (draft.variant,),
        )


def _notched(draft: Draft, seam: Seam) -> bool:
    """True where both sides have notches along the seam, or neither has and both have them at another edge."""
    along = [any(_has_notch(draft, edge) for edge in side) for side in (seam.first, seam.second)]
    return all(along) or not (any(along) or any(not draft.notches_of(one.copy) for one in (*seam.first, *seam.second)))


def _has_notch(draft: Draft, side: SeamEdge) -> bool:
    edges = {part.name for part in draft.piece(side.piece).edges_of(side.edge)}
    return any(notch.edge in edges for notch in draft.notches_of(side.copy))


def told_and_not_done(proof: Proof) -> Iterator[Finding]:
    """The words of a step fuse, turn, topstitch or bind, and no line below them does.

    Why: the figure of the step does not show it, and nothing proves that it comes at the right time.

    Fix: write `Does: …` for it."""
    done: set[int] = set()
    # Where most steps have lines below them, one without is not meant to be so.
    counts = [bool(step.actions) for assembly in proof.assemblies[:1] for step in assembly.steps]
    says_all = sum(counts) > len(counts) / 2 and not has_errors(proof)
    for draft, step, written in told_steps(proof):
        verbs = {action.verb for action in step.actions}
        for verb, words, doing in WORK:
            found = words.search(_plain(written))
            if found is None or not says_all or verbs.intersection(doing) or step.number in done:
                continue
            done.add(step.number)
            yield Finding(
                "told-and-not-done",
                Severity.ADVICE,
                written.text.part(found.start(), found.end()).place,
                f"the words of step {step.number} say '{found[0].strip(' .:')}', and none of its lines does it",
                f"write 'Does: {verb} …' below the step",
                (draft.variant,),
            )


MIDDLE = re.compile(r"\b(?:across|at|by) (?:its|their) middles?\b", re.IGNORECASE)
ENDS = ("left end", "right end")


def held_by_its_end(proof: Proof) -> Iterator[Finding]:
    """The words lay a strip by its middle, and its placement holds it by one end.

    Why: the tie is to go both ways from there, and hangs down on one side at its whole length.

    Fix: match its middle: `centre to …`."""
    for draft, step, written in told_steps(proof):
        laid = [one for one in draft.placements if any(done.target == one.name for done in step.actions)]
        found = MIDDLE.search(str(written.text)) if len(laid) == 1 else None
        if found is None or piece_of(draft, laid[0].placed).strip is None:
            continue
        own, there = laid[0].matching[0]
        if len(laid[0].matching) == 1 and own in ENDS:
            yield Finding(
                "held-by-its-end",
                Severity.ERROR,
                laid[0].place,
                f"step {step.number} lays '{laid[0].placed}' by its middle, and '{laid[0].name}' brings its {own} to '{there}'",
                f"write 'centre to {there}'",
                (draft.variant,),
            )


SAME_NAME = re.compile(r"\bof the same name\b", re.IGNORECASE)


def same_name_missing(proof: Proof) -> Iterator[Finding]:
    """The words bring each line of a piece to the line of the same name on another, where one has no such line.

    Why: the reader looks for it on the template, and has nothing to pin this line to.

    Fix: give the piece below the line that it lacks: `derived from …`."""
    for draft, step, written in told_steps(proof):
        laid = [one for one in draft.placements if any(done.target == one.name for done in step.actions)]
        if len(laid) != 1 or SAME_NAME.search(str(written.text)) is None:
            continue
        lines = [one for one in piece_of(draft, laid[0].placed).marks if isinstance(one, LineMark)]
        below = {one.name for one in piece_of(draft, laid[0].below).marks}
        pinned = [one for one in lines if one.kind == "stitching line"]
        missing = [one for one in pinned if one.name not in below]
        if missing and len(missing) < len(pinned):
            yield Finding(
                "same-name-missing",
                Severity.ERROR,
                missing[0].place,
                f"step {step.number} pins each line of '{laid[0].placed}' to the one of the same name, and '{laid[0].below}' "
                f"has no '{missing[0].name}'",
                f"write it below '{laid[0].below}' too: derived from {laid[0].placed}.{missing[0].name} by {laid[0].name}",
                (draft.variant,),
            )
