"""Sides and faces as the words of a step tell them, against where marks, edges and placements lie."""

import re
from collections.abc import Iterator

from publisher.assembly import Action
from publisher.checks.deeds import piece_of
from publisher.checks.named_edges import OTHER_SIDE, edge_named
from publisher.checks.values import Proof
from publisher.drafting import Draft, LineMark, Notch, Piece, Placement, PointMark
from publisher.geometry import Point, nearest
from publisher.source import WrittenStep
from publisher.terms import Finding, Place, Severity, Variant

ENGLISH = "en"
NEAR = 0.5  # mm: what lies nearer lies on the edge
NEARER = 0.67  # of the distance from the other side
QUOTE = re.compile(r"\{[^{}]*\}")
# "the right-hand edge", "its left edge", "lies to your right": a side of the work. "Right sides together", "the right
# side of the cloth", "a right angle" and "left open" are none.
TOLD = re.compile(
    r"\b(?P<hand>left|right)(?:-hand\b| (?:edge|end|corner|armhole)s?\b)"
    r"|\b(?:to|at|on) (?:the|your|its) (?P<way>left|right)\b(?! (?:sides?|angles?|time|place)\b)",
    re.IGNORECASE,
)
# "so that its left casing is now at your right", of work that lies "wrong side up".
AT_HAND = re.compile(
    r"\b(?:its|the) (?P<own>left|right)(?:-hand)? [\w -]{1,30}?(?:is|lies|comes|are|lie) (?:now )?(?:at|on|to) your "
    r"(?P<hand>left|right)\b",
    re.IGNORECASE,
)
FACE_UP = re.compile(r"\b(?P<face>right|wrong) side (?:is |lies |facing )?up(?:wards)?\b", re.IGNORECASE)
TURNED_ROUND = re.compile(r"\btowards you\b|\bupside down\b|\bhead down\b|\bturn(?:ed)? round\b", re.IGNORECASE)
# Words that turn the work over, or tell of another's sides than those of the piece as it is drafted.
FROM_ELSEWHERE = re.compile(
    r"\bwrong sides?\b(?! (?:inside|in|together)\b)|\bface down\b|\bright side down\b"
    r"|\bfrom (?:behind|the back|inside|within|the inside)\b|\bfrom the (?:front|lining)\b|\bmirror|\bupside down\b",
    re.IGNORECASE,
)
WORN = re.compile(r"\b(?:as|when) worn\b|\bwear(?:er|s|ing)\b", re.IGNORECASE)
# What is done to an edge that a step names itself; in a seam left and right of two pieces meet.
ON_EDGES = ("hem", "bind", "topstitch", "fold", "trim", "gather")


def other_side_told(proof: Proof) -> Iterator[Finding]:
    """The words of a step say left, and what it marks, lays or sews lies at an edge that is named right; or the other way
    round.

    Why: the reader follows the words, and looks for the mark at the edge that has none.

    Fix: put the mark at the side that the steps tell, or tell the other side."""
    texts = " ".join(str(step.text) for section in proof.source.sections for step in section.steps)
    if str(proof.source.facts.language) != ENGLISH or WORN.search(texts):
        return
    written = {step.number: step for section in proof.source.sections for step in section.steps}
    for draft, assembly in zip(proof.drafts, proof.assemblies, strict=True):
        told: set[Place] = set()
        for step in assembly.steps:
            side = _told_side(written[step.number])
            spots = [spot for action in step.actions for spot in _sided(draft, action, written[step.number])]
            if side is None or not spots or any(side in _words(edge) for _, _, edge in spots):
                continue
            name, place, edge = spots[0]
            if place not in told:
                told.add(place)
                yield Finding(
                    "other-side-told",
                    Severity.WARNING,
                    place,
                    f"step {step.number} speaks of the {side}, and '{name}' lies at '{edge}'",
                    f"bring it to the {side}, or say {OTHER_SIDE[side]} in the step",
                    (draft.variant,),
                )


def _told_side(step: WrittenStep) -> str | None:
    """The one side that the words of a step tell, as the piece is seen from its right side."""
    text = str(step.text)
    plain = QUOTE.sub(lambda quote: " " * len(quote[0]), text)
    told = {(found["hand"] or found["way"]).lower() for found in TOLD.finditer(plain)}
    if len(told) != 1 or FROM_ELSEWHERE.search(plain):
        return None
    (side,) = told
    # The other word says its side, or it may: then both are spoken of.
    speaks = re.sub(r"\bright sides? (?:together|up|out|inside|in|facing|towards|of)\b", " ", text, flags=re.IGNORECASE)
    speaks = re.sub(r"\b(?:its|their) right sides?\b|\bright (?:angle|to)\b", " ", speaks, flags=re.IGNORECASE)
    return None if re.search(rf"\b{OTHER_SIDE[side]}\b", speaks, re.IGNORECASE) else side


def _words(name: str) -> set[str]:
    return set(name.lower().split())


def _sided(draft: Draft, action: Action, step: WrittenStep) -> Iterator[tuple[str, Place, str]]:
    """What an action speaks of that lies at an edge named left or right: its name, where it is written, and the edge."""
    for copy, name in _spots_of(draft, action):
        drafted = draft.copy(copy)
        piece = piece_of(draft, copy)
        if drafted.mirrored or drafted.turned_over or piece.strip is not None:
            continue  # of two that mirror one another either may be meant
        if not _words(copy) <= set(re.findall(r"\w+", str(step.text).lower())):
            continue
        for edge, place in _edges_at(piece, name):
            if len(_words(edge) & set(OTHER_SIDE)) == 1:
                yield f"{copy}.{name}", place or action.place, edge


def _spots_of(draft: Draft, action: Action) -> Iterator[tuple[str, str]]:
    """Copy and name of the marks and edges that an action marks, works on, or lays something on."""
    placement = next((one for one in draft.placements if one.name == action.target), None)
    if action.verb in ("place", "baste") and placement is not None:
        # Of a piece that is turned over left comes to lie on right, and the words may speak of either.
        pairs = [
            (_words(own) & set(OTHER_SIDE), _words(there) & set(OTHER_SIDE), there) for own, there in placement.matching
        ]
        yield from ((placement.below, there) for own, below, there in pairs if not own or not below or own == below)
    elif action.verb == "topstitch" and "." not in action.target and edge_named(draft, action.target) is None:
        copies = {copy.name: piece for piece in draft.pieces for copy in piece.copies}
        marks = copies[action.target].marks if action.target in copies else ()
        yield from (
            (action.target, one.name) for one in marks if isinstance(one, LineMark) and one.kind == "stitching line"
        )
    elif action.verb == "mark" or (action.verb in ON_EDGES and edge_named(draft, action.target) is not None):
        copy, _, name = action.target.partition(".")
        yield copy, name
    elif action.verb == "attach" and action.other and "." in action.other:
        copy, _, name = action.other.partition(".")
        yield copy, name


def _edges_at(piece: Piece, name: str) -> Iterator[tuple[str, Place | None]]:
    """The edge of that name, or those that a notch or a point of that name lies on, and where the mark is written."""
    for mark in piece.marks:
        if mark.name == name and isinstance(mark, Notch):
            yield mark.edge, mark.place
        elif mark.name == name and isinstance(mark, PointMark):
            yield from ((edge.name, mark.place) for edge in piece.edges if nearest(edge.path, mark.at)[2] < NEAR)
        elif mark.name == name and isinstance(mark, LineMark):
            yield from ((edge, mark.place) for edge in _nearer_side(piece, (mark.start + mark.end) * 0.5))
    if name in {edge.name for edge in piece.edges} | {joint.name for joint in piece.joint_edges}:
        yield name, None


def _nearer_side(piece: Piece, spot: Point) -> list[str]:
    """The one of two edges named left and right that a spot lies clearly nearer to."""
    apart = sorted(
        (nearest(edge.path, spot)[2], edge.name) for edge in piece.edges if _words(edge.name) & set(OTHER_SIDE)
    )
    return [apart[0][1]] if len(apart) == len(OTHER_SIDE) and apart[0][0] < NEARER * apart[1][0] else []


# How a piece comes to lie on the one below, by the words of a step.
TURNED = re.compile(
    r"\b(?:outside to outside|right sides? (?:together|facing each other|to right side)|face to face)\b", re.I
)
UPWARDS = re.compile(r"\b(?:right side up|face up|right side (?:facing )?(?:you|upwards))\b", re.IGNORECASE)
# Words after which it may lie otherwise in the end.
MOVED = re.compile(r"\b(?:fold|flip|turn|press|open)(?:s|ed|ing)?\b|\bflipp(?:ed|ing)\b", re.IGNORECASE)
LIES_OVER = re.compile(r"\bwrong sides?\b|\bface down\b|\bright side down\b", re.IGNORECASE)
# … and that say so of what lies on the table from then on, not of what a hem is turned to.
LEFT_OVER = re.compile(
    r"\bwrong sides? (?:(?:is|lies|lying|facing) )?(?:up|upwards|out|outwards|outside|facing|towards you|to you|on top)\b"
    r"|\bface down\b|\bright side down\b|\bon the wrong side\b|\bfrom the wrong side\b|\bturn\w*\b[^.;]*\bover\b|\bflip",
    re.IGNORECASE,
)


def laid_other_face_up(proof: Proof) -> Iterator[Finding]:
    """The words of a step lay a piece face to face on another, and its placement right side up; or the other way round.

    Why: marks, figures and proof follow the placement, and sewn as one of the two says the piece shows its wrong side.

    Fix: write `face: down` under the placement, or take it out; or say in the step how the piece lies."""
    if str(proof.source.facts.language) != ENGLISH:
        return
    written = {step.number: step for section in proof.source.sections for step in section.steps}
    for draft, assembly in zip(proof.drafts, proof.assemblies, strict=True):
        placements = {one.name: one for one in draft.placements}
        over = False  # something has been laid wrong side up, and what is laid on it right side up is turned over to it
        for step in assembly.steps:
            text = str(written[step.number].text)
            over = over or LEFT_OVER.search(text) is not None
            laid = _only_laid(draft, step.actions, placements)
            if laid is None or MOVED.search(text):
                continue
            down, up = TURNED.search(text), UPWARDS.search(text)
            if down and not up and not laid.laying.turned_over:
                yield _other_face(laid, step.number, down[0], "right side up", "write", draft.variant)
            elif up and not down and not over and LIES_OVER.search(text) is None and laid.laying.turned_over:
                yield _other_face(laid, step.number, up[0], "face down", "take out", draft.variant)


def _only_laid(draft: Draft, actions: tuple[Action, ...], placements: dict[str, Placement]) -> Placement | None:
    """The placement of a step that does nothing else, so that its words can speak of nothing else; a strip is folded, and
    has no face."""
    laid = [placements[one.target] for one in actions if one.verb in ("place", "baste") and one.target in placements]
    others = [one for one in actions if one.verb not in ("cut", "mark", "place", "baste")]
    if len(laid) != 1 or others or piece_of(draft, laid[0].placed).strip is not None:
        return None
    return laid[0]


def _other_face(laid: Placement, step: int, said: str, lies: str, mend: str, variant: Variant) -> Finding:
    return Finding(
        "laid-other-face-up",
        Severity.WARNING,
        laid.place,
        f"step {step} says '{said}', and '{laid.name}' lays '{laid.placed}' {lies} on '{laid.below}'",
        f"{mend} 'face: down' under '{laid.name}', or say in the step how it lies",
        (variant,),
    )


def at_the_wrong_hand(proof: Proof) -> Iterator[Finding]:
    """The words lay the work wrong side up, and say that what is left on it lies at the reader's left; or right side up, and
    at the other hand.

    Why: work that lies wrong side up has its left at the reader's right; she begins at the wrong end.

    Fix: say the other hand, or the other face."""
    if str(proof.source.facts.language) != ENGLISH:
        return
    for section in proof.source.sections:
        for step in section.steps:
            text = str(step.text)
            for found in AT_HAND.finditer(text):
                faces = [one["face"].lower() for one in FACE_UP.finditer(text, 0, found.start())]
                if not faces or TURNED_ROUND.search(text):
                    continue
                crossed = found["own"].lower() != found["hand"].lower()
                if crossed != (faces[-1] == "wrong"):
                    right = OTHER_SIDE[found["hand"].lower()]
                    yield Finding(
                        "at-the-wrong-hand",
                        Severity.WARNING,
                        step.text.part(found.start("own"), found.end()).place,
                        f"step {step.number} lays the work {faces[-1]} side up; its {found['own'].lower()} then lies at the "
                        f"reader's {right}, and the words say {found['hand'].lower()}",
                        f"say: at your {right}; or say which way it lies, if its top is towards the reader",
                        proof.variants,
                    )
