"""What the cover promises: who can sew it, and for whom it is made."""

import re
from collections.abc import Iterator

from publisher.checks.values import Proof
from publisher.terms import Finding, Severity

# A beginner is not asked for a zip on a curve, or for so many seams in one thing (a rule of the house).
MOST_SEAMS_FOR_BEGINNERS = 25
CHILD = re.compile(r"\b(?:bab(?:y|ies)|infants?|toddlers?|child(?:ren)?'?s?|kids?)\b", re.IGNORECASE)
KEPT_FROM_CHILDREN = re.compile(r"\b(?:keep|kept|away|never|not a toy|not for)\b", re.IGNORECASE)
SMALL = ("magnetic snap", "snap", "button", "bead", "ring", "eyelet", "cord", "ribbon", "rivet")
# What an introduction speaks of, and the words of names by which the pattern would have it.
PROMISED = (
    ("zip", re.compile(r"\bzip(?:per)?s?\b", re.IGNORECASE)),
    ("button", re.compile(r"\bbuttons?\b", re.IGNORECASE)),
    ("snap", re.compile(r"\bsnaps?\b", re.IGNORECASE)),
    ("magnet", re.compile(r"\bmagnet(?:ic)?s?\b", re.IGNORECASE)),
    ("elastic", re.compile(r"\belastic\b", re.IGNORECASE)),
    ("ring", re.compile(r"\b(?:[DO]-?)?rings?\b", re.IGNORECASE)),
    ("pocket", re.compile(r"\bpockets?\b", re.IGNORECASE)),
    ("handle", re.compile(r"\bhandles?\b", re.IGNORECASE)),
    ("strap", re.compile(r"\bstraps?\b", re.IGNORECASE)),
    ("flap", re.compile(r"\bflaps?\b", re.IGNORECASE)),
    ("cord", re.compile(r"\bcords?\b", re.IGNORECASE)),
    ("hood", re.compile(r"\bhoods?\b", re.IGNORECASE)),
)
DENIED = re.compile(r"\b(?:no|not|without|instead of|rather than|for a|into a|in a) (?:an? )?$", re.IGNORECASE)


def level_too_easy(proof: Proof) -> Iterator[Finding]:
    """The pattern is said to be for beginners, and has a zip on a curve, or more than twenty-five seams.

    Why: a first project that is not finished is often the last.

    Fix: say another level, or simplify."""
    level = proof.source.facts.level
    if level is None or str(level).strip().lower() not in ("beginner", "beginners", "easy", "first project"):
        return
    for draft in proof.drafts[:1]:
        zips = any(notion.kind == "zip" for notion in draft.notions)
        if len(draft.seams) > MOST_SEAMS_FOR_BEGINNERS or zips:
            what = f"{len(draft.seams)} seams" + (" and a zip" if zips else "")
            yield Finding(
                "level-too-easy",
                Severity.ADVICE,
                level.place,
                f"the level is '{level}', and there are {what}",
                "say 'confident beginner', or make it simpler",
                proof.variants,
            )


def small_parts_for_children(proof: Proof) -> Iterator[Finding]:
    """The pattern is made for children and has small parts or cords, and no word says for what age.

    Why: what comes loose is swallowed, and a cord at the neck strangles. Rules for what is given or sold differ from place
    to place; this check looks for words and knows none of them.

    Fix: say in the first lines for what age it is not, or use what cannot come loose."""
    facts = proof.source.facts
    said = " ".join(str(text) for text in (facts.title, facts.about) if text is not None)
    if not CHILD.search(said) or KEPT_FROM_CHILDREN.search(said):
        return
    small = [notion for notion in proof.source.notions if str(notion.kind) in SMALL]
    for notion in small[:1]:
        yield Finding(
            "small-parts-for-children",
            Severity.WARNING,
            notion.key.place,
            f"the pattern is for a child, and '{notion.key}' is a {notion.kind}",
            "say below 'about:' for what age it is not ('not for children under three years'), or leave it out",
            proof.variants,
        )


def promised_and_missing(proof: Proof) -> Iterator[Finding]:
    """The introduction speaks of a zip, a button, a pocket, and nothing in the pattern is one.

    Why: it was written for another pattern, or before a change; the reader looks for what she was promised.

    Fix: tell what there is."""
    about = proof.source.facts.about
    if about is None or str(proof.source.facts.language) != "en" or not proof.drafts:
        return
    has = _all_names(proof)
    for thing, words in PROMISED:
        found = next((one for one in words.finditer(str(about)) if not DENIED.search(str(about)[: one.start()])), None)
        if found is not None and not words.search(has):
            yield Finding(
                "promised-and-missing",
                Severity.WARNING,
                about.part(found.start(), found.end()).place,
                f"the introduction speaks of a {thing}, and no piece, edge or notion is one",
                "tell what there is, or add what was promised",
                proof.variants,
            )


def _all_names(proof: Proof) -> str:
    """The names of everything in the pattern, and the words of its steps."""
    source = proof.source
    names = [str(piece.name) for piece in source.pieces]
    names += [f"{notion.key} {notion.name} {notion.kind}" for notion in source.notions]
    names += [f"{material.key} {material.name}" for material in source.materials]
    names += [str(measure.name) for measure in source.measures]
    return ", ".join([*names, *(str(step.text) for section in source.sections for step in section.steps)])
