"""The words: numbers typed twice, steps too long to read at the machine, times that run backwards."""

import re
from collections.abc import Iterable, Iterator

from publisher.checks.amounts import told
from publisher.checks.values import Proof
from publisher.source import WrittenStep
from publisher.terms import Dimension, Finding, Severity, Written, read_length

# A length as people type it; what stands in braces is quoted and not typed.
LENGTH = re.compile(
    r"(?<![\w.,/])(?:\d+ \d+/\d+|\d+/\d+|\d+[.,]\d+|\d*[¼½¾⅛⅜⅝⅞]|\d+) ?(?:mm|cm|inches|inch|in|yd|[\"″])(?![\w])"
)
QUOTE = re.compile(r"\{[^{}]*\}")
SAME = 0.01  # mm
# What is read in a glance of two seconds, ten times over, at half a metre (common practice, no source).
MOST_WORDS = 90


def _steps(proof: Proof) -> Iterator[WrittenStep]:
    for section in proof.source.sections:
        yield from section.steps


def loose_number(proof: Proof) -> Iterator[Finding]:
    """A length is typed in the steps that a measure of the pattern already holds.

    Why: it stays as it is when the measure changes, and stands in inches in the metric edition, or the other way round.

    Fix: quote the measure in braces."""
    known: dict[float, dict[str, None]] = {}
    for draft in proof.drafts:
        for name, quantity in draft.measures:
            if quantity.dimension is Dimension.LENGTH and quantity.amount:
                known.setdefault(round(float(quantity.amount), 2), {})[name] = None
    for where, texts in prose_of(proof):
        for text in texts:
            for typed, amount in typed_lengths(text):
                held = list(
                    dict.fromkeys(name for value, of in known.items() if abs(value - amount) < SAME for name in of)
                )
                if held:
                    yield Finding(
                        "loose-number",
                        Severity.WARNING,
                        typed.place,
                        f"{where} says '{typed}', which is the measure {_either(map(_quoted, held))}",
                        f"write {_either(map(_braced, held))}, "
                        + ("whichever is meant, " if len(held) > 1 else "")
                        + "and it follows the measure in both unit systems",
                        proof.variants,
                    )


# So many measures of one length are named, and of more it is said that there are more.
MOST_NAMED = 4


def _either(names: Iterable[str]) -> str:
    """`a`, `a or b`, `a, b or c`."""
    listed = list(names)
    if len(listed) > MOST_NAMED:
        return f"{', '.join(listed[:MOST_NAMED])} or another of {len(listed)}"
    return " or ".join(part for part in (", ".join(listed[:-1]), listed[-1]) if part)


def _quoted(name: str) -> str:
    return f"'{name}'"


def _braced(name: str) -> str:
    return f"{{{name}}}"


def prose_of(proof: Proof) -> Iterator[tuple[str, tuple[Written, ...]]]:
    """The words of steps.md, and whose they are."""
    for section in proof.source.sections:
        title = f"the section '{section.title}'" if section.title else "the introduction"
        yield title, (section.intro, *(aside.text for aside in section.asides))
        for step in section.steps:
            yield f"step {step.number}", (step.text, *(aside.text for aside in step.asides))


def typed_lengths(text: Written) -> Iterator[tuple[Written, float]]:
    """The lengths that are typed in words, and not quoted, and how long they are, mm."""
    masked = QUOTE.sub(lambda quote: " " * len(quote[0]), str(text))
    for found in LENGTH.finditer(masked):
        typed = text.part(found.start(), found.end())
        yield typed, float(read_length(str(typed).replace("″", '"')).amount)


def step_too_long(proof: Proof) -> Iterator[Finding]:
    """A step has more than ninety words.

    Why: the reader looks up from the machine for two seconds, and must find her place again.

    Fix: make two steps of it, or sub-steps a, b, c."""
    for step in _steps(proof):
        words = len(re.findall(r"\w+", QUOTE.sub("x", str(step.text))))
        if words > MOST_WORDS and not re.search(r"(?m)^ *1\. ", str(step.text)):
            yield Finding(
                "step-too-long",
                Severity.ADVICE,
                step.place,
                f"step {step.number} has {words} words, more than {MOST_WORDS}",
                "make two steps of it, or sub-steps",
                proof.variants,
            )


def video_times_backwards(proof: Proof) -> Iterator[Finding]:
    """A section begins earlier in the video than the section before it.

    Why: it is often a slip of the pen, and the link leads the reader to the wrong place.

    Fix: correct the time, or put the sections in the order of the video."""
    last: Written | None = None
    for section in proof.source.sections:
        for video in (section.video, *(step.video for step in section.steps)):
            if video is None:
                continue
            if last is not None and _seconds(video) < _seconds(last):
                yield Finding(
                    "video-times-backwards",
                    Severity.WARNING,
                    video.place,
                    f"'{video}' comes after '{last}', and is earlier in the video",
                    "correct one of the two",
                    proof.variants,
                )
            last = video


def _seconds(time: Written) -> int:
    return sum(int(part) * 60**at for at, part in enumerate(reversed(str(time).split(":"))))


def terms_missing(proof: Proof) -> Iterator[Finding]:
    """The pattern does not say what a reader may do with it.

    Why: she does not know whether she may sew it for a market stall, or pass the file on.

    Fix: add a line `terms:`."""
    facts = proof.source.facts
    if facts.maker is not None and facts.terms is None:  # without a maker it is nobody's publication yet
        yield Finding(
            "terms-missing",
            Severity.ADVICE,
            facts.title.place,
            "the pattern has no terms of use",
            "add a line 'terms: …' in your own words: may she sell what she sews, may she pass the file on?",
            proof.variants,
        )


CARE = re.compile(
    r"\b(?:wash(?:ed|es|ing|able)?|launder\w*|wip(?:e|ed) (?:it )?(?:clean|down)|dry-?clean\w*)\b", re.IGNORECASE
)


def care_missing(proof: Proof) -> Iterator[Finding]:
    """The pattern does not say how the finished thing is washed.

    Why: the reader washes it as she washes everything: what is fused, padded or made of leather does not bear it.

    Fix: add a line `care:`."""
    facts = proof.source.facts
    sewn = any(
        action.verb in ("sew", "hem", "bind")
        for one in proof.assemblies
        for step in one.steps
        for action in step.actions
    )
    said = " ".join(str(text) for text in (facts.about, facts.finishing, facts.terms) if text is not None)
    if facts.maker is not None and facts.care is None and sewn and not CARE.search(said):
        yield Finding(
            "care-missing",
            Severity.ADVICE,
            facts.title.place,
            "the pattern does not say how the finished thing is washed",
            "add a line 'care: …': how it is washed, dried and pressed",
            proof.variants,
        )


def length_below_nought(proof: Proof) -> Iterator[Finding]:
    """A length that the words quote comes out below nought.

    Why: what should be left is not there: the reader is told to stitch outside the cloth.

    Fix: look at the formula, or at the measures that it takes from one another."""
    written = {(quote.place, str(quote)) for step in _steps(proof) for quote in step.quotes}
    for draft in proof.drafts:
        for (place, text), value in draft.quoted:
            quantity = value.quantity
            if quantity is not None and quantity.dimension is Dimension.LENGTH and quantity.amount < 0:
                if (place, text) not in written:
                    continue
                yield Finding(
                    "length-below-nought",
                    Severity.ERROR,
                    place,
                    f"'{text}' is {told(float(quantity.amount), draft)}",
                    "look at the measures that it takes from one another",
                    (draft.variant,),
                )
