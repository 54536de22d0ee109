"""The words of steps against the data: a count, a quote, a name, a length in one unit, a measure that nothing reads."""

import re
from collections.abc import Iterator

from publisher.assembly import Action
from publisher.checks.deeds import has_errors
from publisher.checks.values import Proof
from publisher.checks.words import prose_of, typed_lengths
from publisher.drafting import Draft, LineMark, Mark, Notch, Pleat, PointMark
from publisher.measures import names_read
from publisher.terms import Finding, Severity, Written

ENGLISH = "en"
NUMBERS = ("two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve")
COUNTED = re.compile(
    rf"\b(?:in|the|all|these) ({'|'.join(NUMBERS)}|\d+) (sizes|stitching lines|notches|crosses|pleats)\b", re.IGNORECASE
)
# "{width of pocket} wide", "{height of roll} high": the quote and the word behind it.
MEASURED = re.compile(r"\{(width|height) of [^{}]*\} (wide|across|high|tall|long)\b")
CONTRARY = {"width": ("high", "tall"), "height": ("wide", "across")}
# "pliers {pliers girth}" among others behind commas, or behind an article: a thing and its measure. A verb, or what tells
# which of its measures is meant, is no thing; and "the loop {flap drop} below the edge" tells where the thing lies.
NO_THING = r"(?!(?:cut|fold|hem|turn|trim|sew|press|leave|mark|finished|whole|other|same|full|half)\b)"
PLACED = r"(?! (?:from|below|above|beyond|away|inside|beside|before|behind|past|to|apart)\b)"
NAMED = re.compile(
    rf"(?:[,:;(]|\b(?:the|a|an|each|of|for)) {NO_THING}(?P<thing>\w+) \{{(?P<quoted>\w+(?: \w+)+)\}}{PLACED}"
)
QUOTE = re.compile(r"\{([^{}]*)\}")


def length_in_one_unit(proof: Proof) -> Iterator[Finding]:
    """A length is typed in the steps, so that it stands in one unit in every edition.

    Why: inches in the metric edition, or centimetres in the inch edition, send the reader to another ruler; and what no
    measure holds is proved by nothing.

    Fix: make it a measure, with an amount for each unit system, and quote that in braces."""
    known = {round(float(value.amount), 2) for draft in proof.drafts for _, value in draft.measures if value.amount}
    for where, texts in prose_of(proof):
        for text in texts:
            for typed, amount in typed_lengths(text):
                if round(amount, 2) not in known:  # that one is told as loose-number
                    yield Finding(
                        "length-in-one-unit",
                        Severity.WARNING,
                        typed.place,
                        f"{where} says '{typed}', in every edition, and no measure holds it",
                        "make it a measure, 'name: inches | metric', and quote it: {name}",
                        proof.variants,
                    )


def measure_never_read(proof: Proof) -> Iterator[Finding]:
    """A measure is read by no formula, no piece and no step.

    Why: it was left out of a sum, or what it was for was taken out; a change of it changes nothing.

    Fix: take it into the formula that should read it, quote it, or take it out."""
    worked_out = {name for draft in proof.drafts for name, _ in draft.measures}
    if any(str(measure.name) not in worked_out for measure in proof.source.measures):
        return  # what reads a measure that cannot be worked out has been told, and is not at hand
    read = names_read(proof.measures)
    for measure in proof.source.measures:
        if str(measure.name) not in read:
            yield Finding(
                "measure-never-read",
                Severity.WARNING,
                measure.name.place,
                f"nothing reads the measure '{measure.name}'",
                "take it into the formula that should read it, quote it in a step, or take it out",
                proof.variants,
            )


def count_in_words(proof: Proof) -> Iterator[Finding]:
    """The words tell a number of sizes, lines, notches, crosses or pleats, and there is another number of them.

    Why: the reader looks for one that is not there, or leaves one out.

    Fix: tell the number that there is, or none."""
    if str(proof.source.facts.language) != ENGLISH or not proof.drafts:
        return
    about = proof.source.facts.about
    if about is not None:
        yield from _miscounted(proof, "the cover", about, {"sizes": {len(proof.source.sizes)}})
    if has_errors(proof):
        return  # what a step marks may be what could not be understood
    draft, assembly = proof.drafts[0], proof.assemblies[0]
    by_number = {step.number: step.actions for step in assembly.steps}
    for section in proof.source.sections:
        for step in section.steps:
            counts = _counts(draft, by_number.get(step.number, ()))
            yield from _miscounted(proof, f"step {step.number}", step.text, counts)


def _miscounted(proof: Proof, where: str, text: Written, counts: dict[str, set[int]]) -> Iterator[Finding]:
    for found in COUNTED.finditer(str(text)):
        word, what = found[1].lower(), found[2].lower()
        number = NUMBERS.index(word) + 2 if word in NUMBERS else int(word)
        right = counts.get(what, set()) - {0}
        if right and number not in right and not (proof.only and what == "sizes"):
            listed = " or ".join(map(str, sorted(right)))
            yield Finding(
                "count-in-words",
                Severity.WARNING,
                text.part(found.start(), found.end()).place,
                f"{where} says '{found[0]}', and there are {listed}",
                f"write {listed}, or no number",
                proof.variants,
            )


def _counts(draft: Draft, actions: tuple[Action, ...]) -> dict[str, set[int]]:
    """How many marks of each kind a step marks, in all or on one copy, and how many pleats it closes."""
    marks: dict[str, dict[str, int]] = {}
    for action in actions:
        copy, _, name = action.target.partition(".")
        if action.verb == "mark":
            mark = next((one for one in draft.piece(draft.copy(copy).piece).marks if one.name == name), None)
            kind = _kind(mark)
            marks.setdefault(kind, {}).setdefault(copy, 0)
            marks[kind][copy] += 1
    # A number is that of all, or of each, where each has as many.
    counts = {
        kind: {sum(of.values()), *(of.values() if len({*of.values()}) == 1 else ())} for kind, of in marks.items()
    }
    counts.pop("", None)
    pleated = {
        action.target.partition(".")[0] for action in actions if action.verb in ("pleat", "mark") and action.target
    }
    opened = [draft.piece(draft.copy(copy).piece).opened for copy in sorted(pleated)]
    counts["pleats"] = {sum(isinstance(mark, Pleat) for piece in opened if piece is not None for mark in piece.marks)}
    return counts


def _kind(mark: Mark | None) -> str:
    if isinstance(mark, Notch):
        return "notches"
    if isinstance(mark, PointMark) and mark.symbol == "point":
        return "crosses"  # as templates and legend show a point
    return "stitching lines" if isinstance(mark, LineMark) and mark.kind == "stitching line" else ""


def quote_against_word(proof: Proof) -> Iterator[Finding]:
    """A step quotes the height of a piece and calls it wide, or its width and calls it high.

    Why: the reader measures the wrong way, and presses too little under, or too much.

    Fix: quote the other one, or say the other word."""
    if str(proof.source.facts.language) != ENGLISH:
        return
    for where, texts in prose_of(proof):
        for text in texts:
            for found in MEASURED.finditer(str(text)):
                if found[2] in CONTRARY[found[1]]:
                    yield Finding(
                        "quote-against-word",
                        Severity.WARNING,
                        text.part(found.start(), found.end()).place,
                        f"{where} quotes a {found[1]} and calls it '{found[2]}'",
                        "quote the other measure of the piece, or say the other word",
                        proof.variants,
                    )


def quote_of_another(proof: Proof) -> Iterator[Finding]:
    """A word names one of two things that both have a measure of that kind, and the quote behind it is the other's.

    Why: "pliers {brush girth}" tells the brush's girth for the pliers, and the reader measures hers against it.

    Fix: quote the measure of the thing that is named."""
    measures = {str(measure.name) for measure in proof.source.measures}
    for where, texts in prose_of(proof):
        for text in texts:
            for found in NAMED.finditer(str(text)):
                thing, quoted = found["thing"], " ".join(found["quoted"].split())
                its_own = f"{thing} {quoted.partition(' ')[2]}"
                if quoted in measures and its_own in measures and its_own != quoted:
                    yield Finding(
                        "quote-of-another",
                        Severity.WARNING,
                        text.part(found.start("thing"), found.end()).place,
                        f"{where} tells '{quoted}' behind the word '{thing}', and there is a measure '{its_own}'",
                        f"write {{{its_own}}}, if that is meant",
                        proof.variants,
                    )
