"""Which copy of a piece the words of a step name, and which its lines work on."""

import re
from collections.abc import Collection, Iterator

from publisher.assembly import Action
from publisher.checks.deeds import seam_of, told_steps
from publisher.checks.named_edges import drafted_copies
from publisher.checks.values import Proof
from publisher.drafting import Draft
from publisher.source import WrittenStep
from publisher.terms import Finding, Place, Severity

QUOTE = re.compile(r"\{([^{}]*)\}")
# What is done to the copies that a line names, and what joins copies that a seam or a placement names.
TO_ITSELF = ("fuse", "fold", "hem", "pleat", "turn")
JOINS = ("sew", "place", "attach")
# Words that bring one thing to another, and what stands straight before the name of what it is brought to.
BRING = r"\b(?:pin|lay|put|place|sew|slip|set|join|fit|attach|fasten)"
BRINGS = re.compile(rf"{BRING}\b", re.IGNORECASE)
TO = re.compile(
    rf"(?:\b(?:on|onto|to|into|in|against|and)|{BRING})(?: the(?: [\w-]+){{1,3}} of)?(?: the)? $", re.IGNORECASE
)
# "lay {brim outside} aside"
AWAY = re.compile(r" (?:aside|away|back|up|out|over|down)\b", re.IGNORECASE)
# … that is not brought together with it, but kept away, or named for a likeness.
ASIDE = re.compile(
    r"\b(?:not|without|keep|free|clear|away|out of|as|like|likewise|same|before|after|until|inside|under|below|behind|beneath"
    r"|between|through|beside|above|over|from|where|that|when)\b",
    re.IGNORECASE,
)
# "keep the front out from under the needle": what is named so is not worked on.
KEPT_AWAY = re.compile(r"\b(?:not|keep|leave|without|clear of|out of the way|free of)\b|n't\b", re.IGNORECASE)
LIKENESS = re.compile(r"\b(?:same way|likewise|as you|as for|like)\b", re.IGNORECASE)

# "Lay the flap on {body back}", "pin {pocket} to the right side of {front}".
LAID_ON = re.compile(
    r"\b(?:lay|pin|place|put|set|baste) (?:the |each |one |both )*(?:\{(?P<placed>[^{}]*)\}|(?P<word>[\w-]+))"
    r"[^.;:{}]*? (?:on|onto|to|against|over) (?:the (?:right|wrong) side of )?\{(?P<copy>[^{}]*)\}",
    re.IGNORECASE,
)
# "outside to outside", "lining to lining"; but not "edge to edge".
LIKE_TO_LIKE = re.compile(r"\b(?P<word>outside|lining|inside|front|back) (?:to|on) (?P=word)\b", re.IGNORECASE)
# "Do the same with the lining, but do not topstitch it."
FORBIDDEN = re.compile(
    r"\b(?:do not|don't|never) (?P<verb>topstitch|hem|baste|fuse|turn|gather|trim|clip|fold|staystitch|mark|bind) "
    r"(?:(?P<it>it|them)|(?:the )?(?P<word>\w+)|\{(?P<copy>[^{}]*)\}) *(?=[.,;:]|$)",
    re.IGNORECASE,
)
NAMED_BEFORE = re.compile(r"\{([^{}]*)\}|\bthe (\w+)\b", re.IGNORECASE)


def step_names_another(proof: Proof) -> Iterator[Finding]:
    """The words of a step name one copy of a piece, and what it does is done to another that they do not name.

    Why: figure and proof follow what it does, and the reader follows the words.

    Fix: let both name the same copy."""
    if not proof.assemblies:
        return
    draft, assembly = proof.drafts[0], proof.assemblies[0]
    english = str(proof.source.facts.language) == "en"
    written = {step.number: step for section in proof.source.sections for step in section.steps}
    for step in assembly.steps:
        found = _another(draft, step.actions, written[step.number], english)
        if found is not None:
            action, done_to, named = found
            yield Finding(
                "step-names-another",
                Severity.WARNING,
                action.place,
                f"step {step.number} names '{named}', and does this to '{done_to}', which its words do not name",
                "let the words and the line below them name the same copy",
                proof.variants,
            )


def _another(
    draft: Draft, actions: tuple[Action, ...], step: WrittenStep, english: bool
) -> tuple[Action, str, str] | None:
    """An action on a copy that the words leave out, while a copy of the same piece that they quote is left alone."""
    text = str(step.text)
    quoted = {found[1].strip() for found in QUOTE.finditer(text)}
    brought = _brought(text) if english else set()
    plain = " ".join(QUOTE.sub(r"\1", text).split())
    done = {copy for one in actions for copy in _copies(draft, one)}
    by_copy = {name: piece for name, (piece, _) in drafted_copies(draft).items()}
    for action in actions:
        named = quoted if action.verb in TO_ITSELF else brought if action.verb in JOINS else set()
        for copy in _copies(draft, action):
            if copy not in by_copy or copy in plain:
                continue
            for other in (one.name for one in by_copy[copy].copies):
                joined = action.verb in JOINS and _hinted(plain, copy, other)
                if other in named and other not in done and not joined:
                    return action, copy, other
    return None


def _copies(draft: Draft, action: Action) -> tuple[str, ...]:
    """The copies that an action names, or that are sides of the seam or the placement which it names."""
    seam = seam_of(draft, action.target)
    laid = next((one for one in draft.placements if one.name == action.target), None)
    if seam is not None:
        return tuple(side.copy for side in (*seam.first, *seam.second))
    if laid is not None:
        return laid.placed, laid.below
    return tuple(name.partition(".")[0] for name in (action.target, action.other) if name)


def _brought(text: str) -> set[str]:
    """The copies that the words bring to something, or something to them."""
    found = set()
    for sentence in re.split(r"[.;:]", text):
        first = BRINGS.search(sentence) if not LIKENESS.search(sentence) else None
        for quote in QUOTE.finditer(sentence, first.start()) if first is not None else ():
            before = sentence[: quote.start()]
            if TO.search(before) and not ASIDE.search(before) and not AWAY.match(sentence, quote.end()):
                found.add(quote[1].strip())
    return found


def _hinted(plain: str, copy: str, other: str) -> bool:
    """True where the words have one of those by which two copies differ, so that both may be meant."""
    own = set(copy.lower().split()) - set(other.lower().split())
    spoken = " ".join(clause for clause in re.split(r"[.;:]", plain) if not KEPT_AWAY.search(clause))
    return bool(own & set(re.findall(r"\w+", spoken.lower())))


def done_against_the_words(proof: Proof) -> Iterator[Finding]:
    """The words of a step say not to do a thing to a copy, and its lines do it.

    Why: figure and proof follow the lines, and the reader the words.

    Fix: take the line out, or let it name what the words do it to."""
    told: set[Place] = set()
    for draft, step, written in told_steps(proof):
        names = drafted_copies(draft)
        for found in FORBIDDEN.finditer(str(written.text)):
            meant = found["copy"] or found["word"] or _last_named(str(written.text)[: found.start()], names)
            for action in step.actions if meant else ():
                copy = action.target.partition(".")[0]
                is_meant = copy in names and (copy == meant or meant.lower() in copy.lower().split())
                if action.verb == found["verb"].lower() and is_meant and action.place not in told:
                    told.add(action.place)
                    yield Finding(
                        "done-against-the-words",
                        Severity.ERROR,
                        action.place,
                        f"step {step.number} says: {' '.join(found[0].split()).lower()}; and this line does it to '{copy}'",
                        "take the line out, or let it name what the words do it to",
                        proof.variants,
                    )


def _last_named(before: str, copies: Collection[str]) -> str:
    """What "it" is: the last that the sentence quotes, or calls by a word that copies are told apart by."""
    words = {word for name in copies for word in name.lower().split()}
    named = [found[1] or found[2] for found in NAMED_BEFORE.finditer(re.split(r"[.;]", before)[-1])]
    return next((name for name in reversed(named) if name in copies or name.lower() in words), "")


def laid_on_another(proof: Proof) -> Iterator[Finding]:
    """The words of a step lay a piece on one copy, and its placement has it on another.

    Why: what is sewn to the front instead of the back is found when the flap does not close.

    Fix: name the copy that the placement has, or change the placement."""
    for draft, step, written in told_steps(proof):
        laid = [one for one in draft.placements if any(done.target == one.name for done in step.actions)]
        copies = drafted_copies(draft)
        beside = {copy for action in step.actions for copy in _copies(draft, action) if action.verb != "place"}
        plain = " ".join(QUOTE.sub(r"\1", str(written.text)).split())
        for number, found in enumerate(LAID_ON.finditer(str(written.text)) if len(laid) == 1 else ()):
            placed, below, copy = laid[0].placed, laid[0].below, found["copy"].strip()
            what = (found["placed"] or found["word"]).strip().lower()
            is_placed = (
                what == placed.lower() or what in placed.lower().split() or what == copies[placed][0].name.lower()
            )
            if number or not is_placed or copy not in copies or copy in (below, placed, *(beside - {placed, below})):
                continue
            # Where the words do not name the other one at all, another check tells it.
            if copies[copy][0] is copies[below][0] and (below in plain or _hinted(plain, below, copy)):
                yield Finding(
                    "laid-on-another",
                    Severity.ERROR,
                    written.text.part(found.start("copy"), found.end("copy")).place,
                    f"step {step.number} lays '{placed}' on '{copy}', and '{laid[0].name}' has it on '{below}'",
                    f"write {{{below}}}, or change 'on:' of '{laid[0].name}'",
                    (draft.variant,),
                )


def like_to_unlike(proof: Proof) -> Iterator[Finding]:
    """The words join outside to outside, and the seam that is sewn joins another copy of the piece.

    Why: figure and proof have the lining or the under layer in the seam, and the reader the outside.

    Fix: let the seam join the copies that the words name."""
    for draft, step, written in told_steps(proof):
        copies = drafted_copies(draft)
        words = {found["word"].lower() for found in LIKE_TO_LIKE.finditer(str(written.text))}
        seams = [seam for one in step.actions if one.verb == "sew" and (seam := seam_of(draft, one.target)) is not None]
        for seam in seams if len(words) == 1 and len(seams) == 1 else ():
            (word,) = words
            for side in (*seam.first, *seam.second):
                meant = [one.name for one in copies[side.copy][0].copies if word in one.name.lower().split()]
                if (
                    meant
                    and side.copy not in meant
                    and not any(one.copy in meant for one in (*seam.first, *seam.second))
                ):
                    yield Finding(
                        "like-to-unlike",
                        Severity.ERROR,
                        next(one.place for one in step.actions if one.target == seam.name),
                        f"step {step.number} sews {word} to {word}, and '{seam.name}' joins '{side.copy}'",
                        f"let it join '{meant[0]}', or say what it joins",
                        (draft.variant,),
                    )
