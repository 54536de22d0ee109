"""Edges as the words of a step name them, against those that its lines work on."""

import re
from collections.abc import Iterator

from publisher.assembly import AssemblyStep
from publisher.checks.amounts import lengths_meant, told
from publisher.checks.deeds import piece_of, seam_of, told_steps
from publisher.checks.named_edges import atoms_of_seam, drafted_copies, edge_named
from publisher.checks.values import Proof
from publisher.drafting import Draft, Piece
from publisher.frozen import dataclass
from publisher.terms import Finding, Severity

# What the words tell to do, and the verb of the line that does it.
VERBS = {
    "hem": "hem",
    "baste": "baste",
    "staystitch": "baste",
    "topstitch": "topstitch",
    "edgestitch": "topstitch",
    "clip": "clip",
    "snip": "clip",
    "fold": "fold",
    "gather": "gather",
    "trim": "trim",
}
# "Hem the straight", "Snip the allowance of its": up to where the name of an edge may stand, and what follows.
WORKS_ON = re.compile(
    rf"\b(?P<verb>{'|'.join(VERBS)})(?: (?:along|round|across|into))?(?: the (?:allowances?|raw edges?) (?:of|along|at))?"
    r" (?:the|its|both|each) (?P<rest>[^.:;]*)",
    re.IGNORECASE,
)
# Before the verb in its sentence: words by which it is not to be done now, or to something else.
NOT_NOW = re.compile(r"\b(?:not|never|without|before|after|until|when|where|later|as|if|that)\b|n't\b", re.IGNORECASE)
BREAK = re.compile(r"[.:;]")
OF = r"(?: of (?:the |each |both |every )?\{?(?P<of>\w[\w ]*))"
MEAN_ALIKE = {"top": "(?:top|upper)", "bottom": "(?:bottom|lower)"}
# Which of them is meant depends on how the work lies: sides.py asks for these.
SIDES = {"left", "right", "wrong"}
# Words that tell a face or a part of a piece as well as an edge.
NO_EDGE_ALONE = {"front", "back", "middle", "centre", "side", "face"}


@dataclass(frozen=True, slots=True)
class ToldEdge:
    """An edge by the words of a step: its name, the copies that may be meant, and how many signs tell it."""

    piece: Piece
    name: str
    copies: tuple[str, ...]
    signs: int

    @property
    def atoms(self) -> set[tuple[str, str]]:
        """Copy and name of each single edge that is told."""
        return {(copy, part.name) for copy in self.copies for part in self.piece.edges_of(self.name)}


def done_at_another_edge(proof: Proof) -> Iterator[Finding]:
    """The words of a step hem, baste, topstitch, fold or snip one edge of a piece, and its line does so at another.

    Why: figure and proof follow the line; who follows the words hems the edge that goes into a seam, and leaves the other
    one raw.

    Fix: name the same edge in the words and in the line."""
    for draft, step, written in told_steps(proof):
        text = str(written.text)
        for found in WORKS_ON.finditer(text):
            verb = VERBS[found["verb"].lower()]
            done = _worked_on(step, verb)
            told = _told_edge(draft, step, done, found["rest"])
            if (
                told is None
                or NOT_NOW.search(BREAK.split(text[: found.start()])[-1])
                or told.atoms & _touched(draft, step)
            ):
                continue
            at = [
                name for copy, name in done if copy in told.copies and edge_named(draft, f"{copy}.{name}") is not None
            ]
            if not at or any(_speaks_of(text, name, told.name) for name in at):
                continue
            yield Finding(
                "done-at-another-edge",
                Severity.WARNING,
                written.text.part(found.start(), found.start("rest") + told.signs).place,
                f"step {step.number} says '{found['verb'].lower()}' of the '{told.name}' of '{told.piece.name}', and its line "
                f"does it at the '{at[0]}'",
                "name the same edge in the step and in the line below it",
                (draft.variant,),
            )
            break


def _worked_on(step: AssemblyStep, verb: str) -> list[tuple[str, str]]:
    """Copy and edge that lines of a step name behind a verb."""
    heads = (one.target.partition(".") for one in step.actions if one.verb == verb)
    return [(copy, name) for copy, dot, name in heads if dot]


def _touched(draft: Draft, step: AssemblyStep) -> set[tuple[str, str]]:
    """Copy and name of each single edge that a step does anything at."""
    atoms: set[tuple[str, str]] = set()
    for one in step.actions:
        for name in (one.target, one.other or ""):
            edge, seam = edge_named(draft, name), seam_of(draft, name)
            atoms |= {(edge.copy.name, part.name) for part in edge.parts} if edge is not None else set()
            atoms |= atoms_of_seam(draft, seam) if seam is not None else set()
    return atoms


def _told_edge(draft: Draft, step: AssemblyStep, done: list[tuple[str, str]], rest: str) -> ToldEdge | None:
    """The edge whose name begins the rest of a sentence, of a piece that the step works on."""
    for piece in dict.fromkeys(piece_of(draft, copy).name for copy, _ in done):
        drafted = draft.piece(piece)
        every = [*(one.name for one in drafted.joint_edges), *(one.name for one in drafted.edges)]
        names = [name for name in every if SIDES.isdisjoint(name.split())]
        for name in sorted(names, key=len, reverse=True):
            found = re.match(edge_pattern(name), rest, re.IGNORECASE)
            copies = _meant(draft, step, drafted, found["of"]) if found is not None else ()
            if found is not None and copies:
                return ToldEdge(drafted, name, copies, found.end("edge"))
    return None


def edge_pattern(name: str) -> str:
    """An expression for the name of an edge as words of a step have it, and for what it is an edge `of`."""
    words = name.lower().split()
    said = " ".join(MEAN_ALIKE.get(word, re.escape(word)) for word in words)
    if words[-1] == "edge" and words[0] in MEAN_ALIKE:
        said = f"{said.removesuffix(' edge')}(?: edges?\\b|(?= of))"  # "the top of the pocket"
    elif NO_EDGE_ALONE.intersection(words[-1:]):
        said += " edges?\\b"
    return rf"(?P<edge>(?:[\w-]+,? ){{0,2}}{said}\b){OF}?"


def _meant(draft: Draft, step: AssemblyStep, piece: Piece, of: str | None) -> tuple[str, ...]:
    """The copies of a piece that an edge is told of; none where it is another piece's, or may be."""
    names = {copy.name: piece.name for piece in draft.pieces for copy in piece.copies}
    names |= {piece.name: piece.name for piece in draft.pieces}
    if of is None:
        return _alone(draft, step, piece)
    named = max((name for name in names if re.match(rf"{re.escape(name)}\b", of, re.I)), key=len, default=None)
    if named is None and of.lower().startswith(piece.name.split()[-1].lower()):
        named = piece.name  # "of the band", where it is the pocket band that is worked on
    if named is None or names.get(named) != piece.name:
        return ()
    return tuple(copy.name for copy in piece.copies if named in (piece.name, copy.name))


def _alone(draft: Draft, step: AssemblyStep, piece: Piece) -> tuple[str, ...]:
    """The copies of a piece on which alone a step works, before anything is sewn to it or laid on it."""
    own = tuple(copy.name for copy in piece.copies)
    names = [name.partition(".")[0] for one in step.actions for name in (one.target, one.other) if name]
    seams = [seam for name in step.before.sewn if (seam := seam_of(draft, name)) is not None]
    joined = {side.copy for seam in seams for side in (*seam.first, *seam.second)}
    joined |= {name for one in draft.placements if one.name in step.before.placed for name in (one.placed, one.below)}
    known = drafted_copies(draft)
    return (
        own
        if all(name in own for name in names) and all(name in known for name in names) and joined.isdisjoint(own)
        else ()
    )


def _speaks_of(text: str, name: str, told: str) -> bool:
    """True where the words have one of those by which an edge differs from the told one."""
    words = set(name.lower().split()) - set(told.lower().split()) - {"edge"}
    return any(re.search(rf"\b{MEAN_ALIKE.get(word, re.escape(word))}\b", text, re.IGNORECASE) for word in words)


# "press the three edges to the wrong side by {seam allowance}", "press them in by {allowance}".
PRESSED = re.compile(
    r"\b(?:press|fold|turn) (?:\w+ ){0,3}?(?:edges|sides|them)\b[^.;{}]*?\b(?:to the (?:wrong|right) side|under|in) by "
    r"\{([^{}]*)\}",
    re.IGNORECASE,
)
SAME = 0.5  # mm


def pressed_in_otherwise(proof: Proof) -> Iterator[Finding]:
    """The words press the edges of a pocket or patch in by another length than their allowances are wide.

    Why: it comes out larger or smaller than its marks, by the difference on each side.

    Fix: quote the allowance of those edges, or give them the other one."""
    for draft, step, written in told_steps(proof):
        targets = [one.target for one in step.actions if one.verb == "fold"]
        folded = [edge_named(draft, target) for target in targets]
        parts = [part for named in folded if named is not None and named.piece.strip is None for part in named.parts]
        wide = {round(part.allowance, 3) for part in parts if not part.layers and part.allowance > SAME}
        for quote, length in lengths_meant(draft, written, PRESSED) if len(wide) == 1 else ():
            (allowance,) = wide
            if abs(length - allowance) > SAME:
                yield Finding(
                    "pressed-in-otherwise",
                    Severity.ERROR,
                    quote.place,
                    f"step {step.number} presses '{targets[0]}' in by {told(length, draft)}, and its "
                    f"allowance is {told(allowance, draft)}",
                    "quote the allowance, or change it",
                    (draft.variant,),
                )
