"""What a step's `Does:` lines mean: each name looked up in the draft, each verb with the kind of thing it is done to."""

from collections.abc import Iterable, Sequence

from publisher.assembly.values import Action
from publisher.drafting import Draft, Piece
from publisher.frozen import dataclass
from publisher.measures import ActionSaying, Measures, Name
from publisher.source import Source
from publisher.terms import Finding, Place, Severity, Unusable, Written, did_you_mean, did_you_mean_or_gone

# What each verb is done to, the likeliest first.
TARGETS: dict[str, tuple[str, ...]] = {
    "cut": ("copy",),
    "mark": ("mark",),
    "fuse": ("copy",),
    "place": ("placement",),
    "baste": ("placement", "copy", "edge", "seam"),
    "sew": ("seam",),
    "close": ("seam",),
    "trim": ("seam", "copy", "edge"),
    "clip": ("seam", "copy", "edge"),
    "hem": ("edge",),
    "bind": ("binding", "edge", "seam"),
    "gather": ("edge",),
    "pleat": ("copy",),
    "dart": ("copy",),
    "topstitch": ("edge", "copy", "seam"),
    "fold": ("copy", "edge", "mark"),
    "roll": ("copy",),
    "press": ("copy", "seam", "edge"),
    "turn": ("copy",),
    "attach": ("notion",),
    "join": ("copy", "binding"),
    "begin": ("binding",),
    "mitre": ("binding",),
    "thread": ("copy", "notion"),
    "open": ("notion",),
    "assembled": ("copy",),
}
SECOND_NAMES: dict[str, tuple[str, ...]] = {
    "fuse": ("copy",),
    "attach": ("mark", "edge", "copy"),
    "bind": ("copy",),
    "thread": ("copy", "edge"),
}
# Verbs that need a second name, the word before it, and how to mend what lacks it.
UNFINISHED = {
    "fuse": ("to", "say: fuse … to the copy it is fused to"),
    "thread": ("through", "say: thread … through the copy or the hemmed edge that makes the casing"),
}


class Undrafted(Exception):
    """An action names something that an error keeps out of the draft."""


@dataclass(frozen=True, slots=True)
class Known:
    """Every name that an action may use, by kind."""

    copies: frozenset[str]
    seams: frozenset[str]
    placements: frozenset[str]
    notions: frozenset[str]
    marks: frozenset[str]  # copy.mark
    edges: frozenset[str]  # copy.edge
    bindings: frozenset[str]
    on_fold: frozenset[str]  # copies that are cut on the fold
    undrafted: frozenset[str]  # names that were written and could not be drafted, which has been told

    def kept_out(self, name: str) -> bool:
        """True for a name that an error, which has been told, keeps out of the draft."""
        head = name.partition(".")[0]
        return name in self.undrafted or any(
            head == left or head.startswith(f"{left} ") for left in self.undrafted if "." not in left
        )

    def of(self, kind: str) -> frozenset[str]:
        """The names of one kind."""
        return {
            "copy": self.copies,
            "seam": self.seams,
            "placement": self.placements,
            "notion": self.notions,
            "mark": self.marks,
            "edge": self.edges,
            "binding": self.bindings,
        }[kind]


def known_names(source: Source, draft: Draft) -> Known:
    """The names of a draft that actions may use, and those that an error keeps out of it."""
    drafted = {copy.name for piece in draft.pieces for copy in piece.copies}
    drafted |= {seam.name for seam in draft.seams} | {placement.name for placement in draft.placements}
    drafted |= {notion.key for notion in draft.notions} | {binding.name for binding in draft.bindings}
    marks = frozenset(_borne(draft.pieces))
    edges = frozenset(_parts(draft.pieces, _edge_names))
    # A mark that was drafted for other copies of its piece is missing on this one, and is told so.
    elsewhere = frozenset(_parts(draft.pieces, lambda piece: [mark.name for mark in piece.marks]))
    return Known(
        undrafted=frozenset(_written_names(source) - drafted - marks - edges - elsewhere),
        copies=frozenset(copy.name for piece in draft.pieces for copy in piece.copies),
        seams=frozenset(seam.name for seam in draft.seams),
        placements=frozenset(placement.name for placement in draft.placements),
        notions=frozenset(notion.key for notion in draft.notions),
        marks=marks,
        edges=edges,
        bindings=frozenset(binding.name for binding in draft.bindings),
        on_fold=frozenset(
            copy.name
            for piece in draft.pieces
            if piece.half is not None and piece.half.fold_edge is not None
            for copy in piece.copies
        ),
    )


def _written_names(source: Source) -> set[str]:
    """Names of all that actions may name as they were written, and of what could not be read."""
    names = {str(seam.name) for seam in source.seams} | {str(placement.name) for placement in source.placements}
    names |= {str(notion.key) for notion in source.notions} | set(source.unread)
    names |= {str(binding.name) for binding in source.bindings}
    for piece in source.pieces:
        copies = {str(piece.name) if copy.name == "only" else f"{piece.name} {copy.name}" for copy in piece.copies}
        parts = [*(mark.name for mark in piece.marks), *(joint for joint, _ in piece.joint_edges)]
        names |= copies | {f"{copy}.{part}" for copy in copies for part in parts}
    return names


def _edge_names(piece: Piece) -> list[str]:
    return [edge.name for edge in piece.edges] + [joint.name for joint in piece.joint_edges]


def _borne(pieces: Iterable[Piece]) -> Iterable[str]:
    """Marks by the copies that bear them."""
    for piece in pieces:
        for copy in piece.copies:
            short = copy.name.removeprefix(piece.name).strip()
            for mark in piece.marks:
                if not mark.copies or short in mark.copies:
                    yield f"{copy.name}.{mark.name}"


def _parts(pieces: Iterable[Piece], names) -> Iterable[str]:  # type: ignore[no-untyped-def]
    for piece in pieces:
        for name in names(piece):
            for copy in piece.copies:
                yield f"{copy.name}.{name}"


def read_actions(
    lines: Sequence[Written], measures: Measures, known: Known
) -> tuple[tuple[Action, ...], tuple[Finding, ...]]:
    """The actions that a step's lines say; a line whose name nothing bears is told and left out."""
    actions: list[Action] = []
    found: list[Finding] = []
    for line in lines:
        said = measures.saying(line)
        if not isinstance(said, ActionSaying):
            continue  # measures has told it
        try:
            actions.append(_action(said, known))
        except Unusable as reason:
            found.append(reason.finding)
        except Undrafted:
            continue
    return tuple(actions), tuple(found)


def _action(said: ActionSaying, known: Known) -> Action:
    everything = said.verb == "cut" and said.target.text == "all"
    if not everything:
        _check(said.verb, said.target, TARGETS[said.verb], known)
    if said.other is not None:
        _check(said.verb, said.other, SECOND_NAMES.get(said.verb, ("copy", "edge", "mark")), known)
    elif said.verb in UNFINISHED:
        word, mend = UNFINISHED[said.verb]
        raise _unusable("unfinished-action", said.place, f"{said.verb} {said.target.text} {word} what?", mend)
    other = said.other.text if said.other else None
    if said.wrong_sides and said.verb == "baste" and said.target.text not in known.seams:
        raise _unusable(
            "wrong-kind-of-name",
            said.target.place,
            f"'{said.target.text}' is no seam, and what lies wrong sides together is a seam's to say",
            did_you_mean(said.target.text, sorted(known.seams)),
        )
    # A seam that is basted is made, for all that comes after it, as one that is sewn.
    basted = said.verb == "baste" and said.target.text in known.seams
    verb = "sew" if basted else said.verb
    if said.still_folded and said.target.text.partition(".")[0] not in known.on_fold:
        raise _unusable(
            "wrong-kind-of-name",
            said.target.place,
            f"'{said.target.text}' is on no piece that is cut on the fold",
            "take ', still folded' out",
        )
    manner = (said.wrong_sides, said.stops_short, basted, said.still_folded)
    return Action(verb, said.target.text, said.preposition, other, said.place, *manner)


def _check(verb: str, name: Name, kinds: tuple[str, ...], known: Known) -> None:
    if any(name.text in known.of(kind) for kind in kinds):
        return
    names = [name for kind in kinds for name in sorted(known.of(kind))]
    is_a = next(
        (
            kind
            for kind in ("copy", "seam", "placement", "notion", "mark", "edge", "binding")
            if name.text in known.of(kind)
        ),
        None,
    )
    wanted = " or ".join(kinds)
    if known.kept_out(name.text):
        raise Undrafted
    if is_a is not None:
        raise _unusable(
            "wrong-kind-of-name",
            name.place,
            f"'{name.text}' is {_article(is_a)} {is_a}; '{verb}' is done to {_article(kinds[0])} {wanted}",
            did_you_mean(name.text, names),
        )
    seam = name.text.partition(".")[2]
    if verb == "mark" and seam in known.seams:
        raise _unusable(
            "no-such-name",
            name.place,
            f"no mark called '{name.text}': the seam '{seam}' leaves no gap to mark",
            f"write 'leave open: …' under the seam '{seam}', or take this out",
        )
    raise _unusable(
        "no-such-name", name.place, f"no {wanted} called '{name.text}'", did_you_mean_or_gone(name.text, names)
    )


def _article(word: str) -> str:
    return "an" if word[0] in "aeiou" else "a"


def _unusable(name: str, place: Place, says: str, mend: str) -> Unusable:
    return Unusable(Finding(name, Severity.ERROR, place, says, mend))
