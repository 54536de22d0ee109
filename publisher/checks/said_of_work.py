"""How the words of a step do a piece of work, against how it is drafted: which face is up, which way a cord runs, what
must stay free."""

import re
from collections.abc import Iterator, Sequence
from itertools import pairwise

from publisher.assembly import Assembly
from publisher.checks.amounts import lengths_meant, lengths_of, lengths_quoted, told
from publisher.checks.deeds import piece_of, seam_of, seams_sewn, told_steps
from publisher.checks.values import Proof
from publisher.drafting import Draft
from publisher.source import WrittenStep
from publisher.terms import Finding, Severity, Written

# "Lay {roll outside} on the table with its wrong side up", "{roll lining} on top with its right side up".
UP = re.compile(r"\{(?P<copy>[^{}]*)\}[^.;{}]*?\bwith its (?P<face>right|wrong) side up\b", re.IGNORECASE)
# "into the left casing at the waist and out at the bib".
RUN = re.compile(r"\binto [^.;]*? at the (?P<into>\w+) and out at the (?P<out>\w+)", re.IGNORECASE)
SHUT = re.compile(
    r"\b(?:close|sew up|stitch shut|sew shut|sew across|stitch across) (?:both|the|its) (?:open )?ends\b", re.IGNORECASE
)
LOCKED = re.compile(r"(?<!without )(?<!without a )(?<!no )\bbackstitch(?:es)?\b(?!ing)", re.IGNORECASE)
THROUGH = re.compile(r"\bthrough (?P<layers>[^.;]*)", re.IGNORECASE)
IS_NOW = re.compile(r"\bis now (?:[^.;]*? )?\{cut (?:width|height) of (?P<piece>[^{}]*)\}")
BETWEEN = re.compile(r"\bbetween the (?:two )?folds, \{(?P<quote>[^{}]*)\}", re.IGNORECASE)
SIDE_WITH = re.compile(
    r"\broll(?:ed)?\b[^.;]*\bfrom the (?:side|end|edge) (?:that has|with) (?:the |its )?(?P<what>\w+)", re.IGNORECASE
)
# "sew these ends {a} further in: the band is then {b} shorter".
FURTHER_IN = re.compile(
    r"\bends\b[^.;{}]*\{(?P<further>[^{}]*)\} (?:further|deeper) in\b[^.{}]*\{(?P<shorter>[^{}]*)\} (?:shorter|smaller|narrower)",
    re.IGNORECASE,
)
SAME = 0.5  # mm


def layer_other_side_up(proof: Proof) -> Iterator[Finding]:
    """A step stacks layers and says which side of two of them is up, and by their placements they lie otherwise.

    Why: the wrong side of the cloth shows for good, when the layers are quilted.

    Fix: say the side that the placements have, or write `face: down` under one of them, or take it out."""
    for draft, step, written in told_steps(proof):
        laid = [one for one in draft.placements if any(done.target == one.name for done in step.actions)]
        up = [(found["copy"].strip(), found["face"].lower(), found) for found in UP.finditer(str(written.text))]
        turned = {laid[0].below: False} if laid else {}
        for placement in laid:
            if placement.below in turned:
                turned[placement.placed] = turned[placement.below] != placement.laying.turned_over
        known = [(copy, face, found) for copy, face, found in up if copy in turned]
        for (one, its, at), (other, face, _) in pairwise(known):
            if (turned[one] != turned[other]) != (its != face):
                yield Finding(
                    "layer-other-side-up",
                    Severity.WARNING,
                    written.text.part(at.start("face"), at.end("face")).place,
                    f"step {step.number} lays '{one}' {its} side up and '{other}' {face} side up, and by their placements they "
                    f"lie {'wrong sides together' if turned[one] != turned[other] else 'the same side up'}",
                    "say the other side of one of them, or change 'face: down' of a placement",
                    (draft.variant,),
                )


def cord_runs_back(proof: Proof) -> Iterator[Finding]:
    """A cord comes out of one casing at one place, and goes into the next one at another.

    Why: between the two it lies across the work, and does not draw it up.

    Fix: let it go in where it has come out: out at the bib, in at the bib."""
    for draft, step, written in told_steps(proof):
        runs = list(RUN.finditer(str(written.text)))
        for one, other in pairwise(runs):
            if one["out"].lower() != other["into"].lower():
                yield Finding(
                    "cord-runs-back",
                    Severity.WARNING,
                    written.text.part(other.start("into"), other.end("into")).place,
                    f"step {step.number} leads it out at the {one['out']}, and in again at the {other['into']}",
                    "let it go in where it has come out",
                    (draft.variant,),
                )


def casing_sewn_shut(proof: Proof) -> Iterator[Finding]:
    """A step closes the ends of a casing through which a later step draws a cord.

    Why: the cord can neither go in nor come out.

    Fix: leave the ends open."""
    for draft, assembly in zip(proof.drafts, proof.assemblies, strict=True):
        through = _threaded_through(assembly)
        for of_draft, step, written in told_steps(proof):
            found = SHUT.search(str(written.text)) if of_draft is draft else None
            works_on = {one.target.partition(".")[0] for one in step.actions}
            if found is not None and through & works_on:
                yield Finding(
                    "casing-sewn-shut",
                    Severity.WARNING,
                    written.text.part(found.start(), found.end()).place,
                    f"step {step.number} closes the ends of '{sorted(through & works_on)[0]}', through which a cord is drawn",
                    "leave its ends open",
                    (draft.variant,),
                )


def _threaded_through(assembly: Assembly) -> set[str]:
    """The copies through which some step draws a cord."""
    actions = [one for step in assembly.steps for one in step.actions]
    return {one.other.partition(".")[0] for one in actions if one.verb == "thread" and one.other}


def gathers_locked(proof: Proof) -> Iterator[Finding]:
    """The stitches that are to gather an edge are fastened at both ends.

    Why: their thread cannot be pulled.

    Fix: sew without backstitches, and leave the threads long."""
    for draft, step, written in told_steps(proof):
        found = LOCKED.search(str(written.text))
        if found is not None and any(one.verb == "gather" for one in step.actions):
            yield Finding(
                "gathers-locked",
                Severity.WARNING,
                written.text.part(found.start(), found.end()).place,
                f"step {step.number} gathers, and fastens the stitches that are to be pulled",
                "say 'without backstitching', and leave the threads long",
                (draft.variant,),
            )


def understitched_through(proof: Proof) -> Iterator[Finding]:
    """A facing is stitched to its allowances, and the words take the stitches through the outside as well.

    Why: it cannot be turned to the wrong side any more.

    Fix: stitch through facing and allowances, and not through the outside."""
    for draft, assembly in zip(proof.drafts, proof.assemblies, strict=True):
        for of_draft, step, written in told_steps(proof):
            if of_draft is not draft:
                continue
            later = _turned_from(assembly, step.number)
            for one in step.actions:
                seam = seam_of(draft, one.target) if one.verb == "topstitch" else None
                copies = {side.copy for side in (*seam.first, *seam.second)} if seam is not None else set()
                found = THROUGH.search(str(written.text)) if copies & later else None
                if found is None or "not through" in found["layers"]:
                    continue
                outside = [
                    name for name in copies - later if re.search(rf"\b{re.escape(name.split()[0])}\b", found["layers"])
                ]
                if outside:
                    yield Finding(
                        "understitched-through",
                        Severity.WARNING,
                        written.text.part(found.start(), found.end()).place,
                        f"step {step.number} stitches through '{outside[0]}', from which '{sorted(copies & later)[0]}' is turned "
                        "afterwards",
                        f"stitch through '{sorted(copies & later)[0]}' and the allowances only",
                        (draft.variant,),
                    )
                    break


def _turned_from(assembly: Assembly, number: int) -> set[str]:
    """What is turned in a step or after it."""
    steps = [step for step in assembly.steps if step.number >= number]
    return {one.target for step in steps for one in step.actions if one.verb == "turn"}


def cut_size_told_as_now(proof: Proof) -> Iterator[Finding]:
    """The words say what a piece measures now, when edges of it are turned in, and quote what it was cut.

    Why: the reader measures hers, finds it smaller, and unpicks what is right.

    Fix: quote its finished size: `{width of …}`; or let `Now:` tell it."""
    for draft, step, written in told_steps(proof):
        worked = {one.target.partition(".")[0] for one in step.actions if one.verb in ("hem", "fold", "sew", "turn")}
        for found in IS_NOW.finditer(str(written.text)):
            name = found["piece"].strip()
            piece = next((one for one in draft.pieces if one.name == name), None)
            if piece is not None and piece.strip is None and worked & {copy.name for copy in piece.copies}:
                yield Finding(
                    "cut-size-told-as-now",
                    Severity.WARNING,
                    written.text.part(found.start(), found.end()).place,
                    f"step {step.number} turns in edges of '{name}', and tells what it was cut as what it measures now",
                    f"quote {{width of {name}}} and {{height of {name}}}",
                    (draft.variant,),
                )


# "Each {pocket} is now {width of bib pocket} wide and {height of pocket} high".
NOW = re.compile(
    r"(?:\{(?P<named>[^{}]*)\}|\b(?:the|each|every) (?P<plain>\w+(?: \w+){0,3}?)|\bit) is now\b", re.IGNORECASE
)
MEASURES = re.compile(
    r"(?:,? and|,)? \{(?P<quote>(?:cut )?(?P<way>width|height) of (?P<piece>[^{}]*))\} (?:wide|high|tall|long|across|deep)\b"
)


def size_of_another_piece(proof: Proof) -> Iterator[Finding]:
    """The words say what one piece measures now, and quote the size of another, which is not the same.

    Why: the reader measures hers, finds it wrong, and presses it again.

    Fix: quote the piece that the sentence speaks of."""
    for draft, step, written in told_steps(proof):
        of_copy = {copy.name: piece for piece in draft.pieces for copy in piece.copies}
        pieces = {piece.name: piece for piece in draft.pieces} | of_copy
        worked = {of_copy[name].name for one in step.actions if (name := one.target.partition(".")[0]) in of_copy}
        # What is sewn to something else by now measures more than the piece.
        earlier = [seam for seam in draft.seams if seam.name in step.before.sewn]
        joined = {side.piece for seam in earlier for side in (*seam.first, *seam.second)}
        for found in NOW.finditer(str(written.text)) if not seams_sewn(draft, step) else ():
            own = (found["named"] or found["plain"] or next(iter(worked if len(worked) == 1 else ()), "")).strip()
            for measured in (
                _measured(str(written.text), found.end()) if own in pieces and pieces[own].name not in joined else ()
            ):
                piece, other, way = pieces[own], pieces.get(measured["piece"].strip()), measured["way"]
                box = piece.finished_line.box
                known = (box.width, piece.cut_width) if way == "width" else (box.height, piece.cut_height)
                lengths = [one for one in lengths_quoted(draft, written) if str(one[0]) == measured["quote"]]
                if other is None or other.name == piece.name or not lengths:
                    continue
                quote, length = lengths[0]
                if all(abs(length - one) > SAME for one in known):
                    yield Finding(
                        "size-of-another-piece",
                        Severity.WARNING,
                        quote.place,
                        f"step {step.number} says what '{piece.name}' measures, {told(known[0], draft)}, and quotes the {way} of "
                        f"'{other.name}', {told(length, draft)}",
                        f"quote {{{way} of {piece.name}}}",
                        (draft.variant,),
                    )


def _measured(text: str, at: int) -> Iterator[re.Match[str]]:
    """What measures a sentence tells from here on, one behind the other."""
    while (found := MEASURES.match(text, at)) is not None:
        yield found
        at = found.end()


def between_folds_not_as_cut(proof: Proof) -> Iterator[Finding]:
    """The words tell what lies between the two folds of a strip, and cut and pressed as it is, another width lies there.

    Why: the strip does not reach round the edge, or lies loose.

    Fix: let the cut width of the strip be the sum: `thickness:` adds what the edge takes."""
    for draft, step, written in told_steps(proof):
        folded = [one.target for one in step.actions if one.verb == "fold" and "." not in one.target]
        strips = [piece for name in folded if (piece := piece_of(draft, name)).strip]
        for quote, length in lengths_meant(draft, written, BETWEEN) if strips else ():
            piece, strip = strips[0], strips[0].strip
            lies = min(piece.cut_width, piece.cut_height) - 2 * (strip.finished_width if strip is not None else 0.0)
            if abs(length - lies) > SAME:
                yield Finding(
                    "between-folds-not-as-cut",
                    Severity.WARNING,
                    quote.place,
                    f"step {step.number} says that {told(length, draft)} lie between the folds of "
                    f"'{piece.name}', and {told(lies, draft)} do",
                    f"change 'thickness:' of '{piece.name}', or what is quoted",
                    (draft.variant,),
                )


def rolled_from_its_tie(proof: Proof) -> Iterator[Finding]:
    """The words roll the work up from the side that bears its tie.

    Why: the tie comes to lie inside the roll, and cannot be led round it.

    Fix: roll from the other side."""
    for draft, step, written in told_steps(proof):
        found = SIDE_WITH.search(str(written.text))
        strips = {piece.name for piece in draft.pieces if piece.strip is not None}
        if found is not None and found["what"].lower() in strips:
            yield Finding(
                "rolled-from-its-tie",
                Severity.WARNING,
                written.text.part(found.start(), found.end()).place,
                f"step {step.number} rolls from the side that has the '{found['what']}', which then lies inside",
                f"roll from the side that has no {found['what']}",
                (draft.variant,),
            )


def shortened_otherwise(proof: Proof) -> Iterator[Finding]:
    """The words sew two ends further in by a length, and say that the piece is then shorter by another than twice that.

    Why: each of the two ends loses as much; the reader takes it in by double of what she needs.

    Fix: sew them further in by half of what it is to be shorter."""
    for draft, _, written in told_steps(proof):
        texts = [(written.text, written.quotes), *((aside.text, aside.quotes) for aside in written.asides)]
        for text, quotes in texts:
            for found in FURTHER_IN.finditer(str(text)):
                yield from _shortened(draft, written, found, quotes)


def _shortened(draft: Draft, step: WrittenStep, found: re.Match[str], quotes: Sequence[Written]) -> Iterator[Finding]:
    lengths = {str(quote).strip(): length for quote, length in lengths_of(draft, quotes)}
    further, shorter = lengths.get(found["further"].strip()), lengths.get(found["shorter"].strip())
    if further is not None and shorter is not None and abs(2 * further - shorter) > SAME:
        yield Finding(
            "shortened-otherwise",
            Severity.ERROR,
            next(quote.place for quote in quotes if str(quote).strip() == found["further"].strip()),
            f"step {step.number} sews two ends {told(further, draft)} further in, which makes it {told(2 * further, draft)} "
            f"shorter, and says {told(shorter, draft)}",
            f"write {{{found['shorter'].strip()} / 2}} for each end",
            (draft.variant,),
        )
