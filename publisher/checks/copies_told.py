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
