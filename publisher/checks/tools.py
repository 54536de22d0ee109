"""Tools: what steps do, or name, or ask of the hand, against the list of tools."""

import re
from collections.abc import Iterator

from publisher.checks.deeds import deeds_of
from publisher.checks.values import Proof
from publisher.source import WrittenStep
from publisher.terms import Finding, Severity

TOOL_OF = {"fuse": "iron", "press": "iron", "sew": "sewing machine", "topstitch": "sewing machine"}

THREAD = re.compile(
    r"\b(fine|finer|strong|stronger|heavy|heavier|thick|thicker|topstitching|buttonhole|upholstery|all-purpose|elastic|shirring|invisible"
    r"|silk|nylon|polyester|linen|waxed|embroidery|quilting) threads?\b",
    re.IGNORECASE,
)


def tool_not_listed(proof: Proof) -> Iterator[Finding]:
    """A step does what needs a tool that the list of tools lacks.

    Why: the reader finds out with her hands full, and the caution for that tool is not printed.

    Fix: add the tool to `tools:`."""
    tools = [str(tool) for tool in proof.source.facts.tools]
    for deeds in deeds_of(proof):
        told: set[str] = set()
        for deed in deeds:
            tool = TOOL_OF.get(deed.action.verb)
            if tool and tools and tool not in told and not any(tool in listed for listed in tools):
                told.add(tool)
                yield Finding(
                    "tool-not-listed",
                    Severity.WARNING,
                    deed.action.place,
                    f"step {deed.step.number} says '{deed.action.verb}', and the tools do not list a '{tool}'",
                    f"add a line '- {tool}' below 'tools:'",
                    (deed.draft.variant,),
                )


# Tools that only their name in the words tells of, since no action needs them (common practice, no source).
NAMED_TOOLS = re.compile(
    r"\b(pliers|hammer|seam ripper|tweezers|screwdriver|hole punch|point turner|bodkin|rotary cutter|zip foot"
    r"|(?:walking|buttonhole|darning|roller|piping|hemming|gathering) foot|pinking shears|tracing wheel|press(?:ing)? cloth"
    r"|safety pin|tape measure|ruler)\b",
    re.IGNORECASE,
)
# Work that takes a tool, whatever the words say of it: the words, the tool, and what is as good (common practice, no
# source).
TAKES_A_TOOL = (
    (
        re.compile(r"(?:^|[.;:,] |\band )[Pp]ress\b(?! (?:it |the gap )?with the (?:fingers?|fingernail|nail))"),
        "iron",
        re.compile(r"\biron\b"),
    ),
    (re.compile(r"\b[Pp]in(?:s|ned)?\b"), "pins", re.compile(r"(?<!safety )\bpins\b|\bclips\b")),
    (re.compile(r"\b(?:[Ss]nip|[Cc]lip|[Tt]rim)\b"), "scissors", re.compile(r"\b(?:scissors|shears|snips)\b")),
    (
        re.compile(r"\b(?:[Cc]halk|[Ww]ashable pen)\b"),
        "chalk or washable pen",
        re.compile(r"\b(?:chalk|pens?|marker)\b"),
    ),
)
# What is a tool wherever it is named.
ALWAYS = ("safety pin", "bodkin", "seam ripper", "tape measure", "tweezers", "point turner", "hole punch")
HAND_NEEDLE = "hand needle"
NEEDLE = re.compile(r"(?<!\d )(?<!machine )\bneedles?\b")
# "the 100/16 needle", "a needle 100/16", "a size 16 needle": a machine needle by its size.
NEEDLE_SIZE = re.compile(
    r"\b(?P<before>\d{2,3}/\d{1,2})(?: [\w-]+){0,2} needle\b"
    r"|\b(?:machine )?needle (?:of )?(?:size )?(?P<behind>\d{2,3}/\d{1,2})\b"
    r"|\b(?:size (?P<single>\d{2,3})(?: [\w-]+){0,2} needle|needle (?:of )?size (?P<last>\d{2,3}))\b(?!/)",
    re.IGNORECASE,
)
# The needles that the edition lists by itself, for the weight of a cloth: as in `[needles]` of the edition's words.
FOR_A_WEIGHT = {"light": ("70/10",), "medium": ("80/12",), "heavy": ("90/14", "100/16")}
NUMBER = re.compile(r"\d+")
HELD = re.compile(r"\b(?:with|by|using|take|use) (?:the |a |an |your )?$")
# "Catch its fold to the lining by hand": stitches, and no wheel that is turned by hand.
BY_HAND = re.compile(
    r"\b(?:sew|stitch|stitches|catch|close|tack|baste|fasten|whip)\b[^.:;]*?(?P<way>\bby hand\b)"
    r"|(?P<stitch>\b(?:slip ?stitch|whip ?stitch|hand[- ]sew)\b)",
    re.IGNORECASE,
)
QUOTE = re.compile(r"\{[^{}]*\}")


def tool_named_not_listed(proof: Proof) -> Iterator[Finding]:
    """The words of a step put a tool into the reader's hand that the list of tools lacks.

    Why: the reader finds out with her hands full.

    Fix: add the tool to `tools:`."""
    facts = proof.source.facts
    if str(facts.language) != "en" or not facts.tools:
        return
    listed = ", ".join(str(tool).lower() for tool in facts.tools)
    # What the edition adds to the list by itself, since a notion needs it, is not told again.
    listed += "".join(f", {tool.key.rpartition('.')[2]}" for tables in proof.tables for tool in tables.supplies.tools)
    listed = listed.replace("-", " ")
    # Of work that a line does the check above tells.
    told = {TOOL_OF[deed.action.verb] for deeds in deeds_of(proof) for deed in deeds if deed.action.verb in TOOL_OF}
    for step in (step for section in proof.source.sections for step in section.steps):
        for tool, start, end in _held(step):
            if not _is_listed(tool, listed) and tool not in told:
                told.add(tool)
                yield Finding(
                    "tool-named-not-listed",
                    Severity.WARNING,
                    step.text.part(start, end).place,
                    f"step {step.number} works with the '{tool}', and the tools do not list it",
                    f"add a line '- {tool}' below 'tools:'",
                    proof.variants,
                )

    yield from _needles_named(proof)
    yield from _threads_named(proof)


def _threads_named(proof: Proof) -> Iterator[Finding]:
    """Threads that the words tell apart, of which the list has none by that word."""
    source = proof.source
    listed = " ".join(f"{notion.key} {notion.name}" for notion in source.notions).lower()
    if "thread" not in listed:
        return  # which is told for itself
    texts = [text for section in source.sections for text in (section.intro, *(step.text for step in section.steps))]
    for text in texts:
        for found in THREAD.finditer(str(text)):
            if not re.search(rf"\b{re.escape(found[1].lower())}\b", listed):
                yield Finding(
                    "tool-named-not-listed",
                    Severity.WARNING,
                    text.part(found.start(), found.end()).place,
                    f"the words take '{found[0]}', and no thread on the list is called so",
                    f"add '{found[1].lower()} thread:' with its name below 'notions:'",
                    proof.variants,
                )
                return


def _needles_named(proof: Proof) -> Iterator[Finding]:
    """Needles for the machine that the words name by their size, and that are not on the list."""
    source = proof.source
    goods = [*source.facts.tools, *(notion.name for notion in source.notions)]
    listed = {number for one in goods for number in NUMBER.findall(str(one))}
    stated = {material.weight.heaviness for draft in proof.drafts for material in draft.materials if material.weight}
    if any(tables.supplies.needles for tables in proof.tables):
        listed |= {number for weight in stated for one in FOR_A_WEIGHT[weight] for number in NUMBER.findall(one)}
    for step in (step for section in source.sections for step in section.steps):
        for text in (step.text, *(aside.text for aside in step.asides)):
            for found in NEEDLE_SIZE.finditer(str(text)):
                size = next(one for one in found.groups() if one)
                if not listed & set(NUMBER.findall(size)):
                    listed |= set(NUMBER.findall(size))
                    yield Finding(
                        "tool-named-not-listed",
                        Severity.WARNING,
                        text.part(found.start(), found.end()).place,
                        f"step {step.number} takes a needle of size {size}, and the tools do not list one",
                        f"add a line '- {size} needle' below 'tools:'",
                        proof.variants,
                    )


def _is_listed(tool: str, listed: str) -> bool:
    """A needle for the hand is listed as sewing needle, too; one with numbers is for the machine."""
    as_good = {HAND_NEEDLE: NEEDLE} | {name: words for _, name, words in TAKES_A_TOOL}
    return as_good[tool].search(listed) is not None if tool in as_good else tool in listed


def _held(step: WrittenStep) -> Iterator[tuple[str, int, int]]:
    """The tools that the words of a step work with, each with where it stands in the text."""
    words = QUOTE.sub(lambda quote: " " * len(quote[0]), str(step.text))
    for found in NAMED_TOOLS.finditer(words):
        if found[1].lower() in ALWAYS or HELD.search(words[: found.start()].lower()):
            yield found[1].lower(), found.start(), found.end()
    for pattern, tool, _ in TAKES_A_TOOL:
        taken = pattern.search(words)
        if taken is not None:
            yield tool, *taken.span()
    for found in BY_HAND.finditer(words):
        yield HAND_NEEDLE, *found.span("way" if found["way"] else "stitch")
