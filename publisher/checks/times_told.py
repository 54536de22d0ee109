"""How long the work takes by the words of the maker, against how much there is to do."""

from collections.abc import Iterator

from publisher.checks.values import Proof
from publisher.source import WrittenSection
from publisher.terms import Finding, Place, Severity

# Pinning, sewing and pressing one seam takes a practised hand no less (a rule of the house).
LEAST_MINUTES = 2
# Work that is stitched: each takes a minute at least, and each step another for reading and laying it out (as above).
STITCHED = ("sew", "hem", "bind", "topstitch", "baste", "gather")


def time_too_short(proof: Proof) -> Iterator[Finding]:
    """The minutes do not come to two for each seam; or those of a section to one for each step and each line of stitching.

    Why: the reader plans an evening, and needs three.

    Fix: time yourself once, or have a tester time it."""
    told = [(section, place) for section in proof.source.sections if (place := _place(section)) is not None]
    if not told or not proof.drafts:
        return
    short = [
        (section, place) for section, place in told if _minutes(section) < len(section.steps) + _lines(proof, section)
    ]
    for section, place in short:
        yield Finding(
            "time-too-short",
            Severity.ADVICE,
            place,
            f"{_name(section)} takes {_minutes(section)} minutes, and has {len(section.steps)} steps with "
            f"{_lines(proof, section)} lines of stitching",
            "time it once, pinning and pressing too",
            proof.variants,
        )
    seams, total = len(proof.drafts[0].seams), sum(_minutes(section) for section, _ in told)
    if not short and total < LEAST_MINUTES * seams:
        yield Finding(
            "time-too-short",
            Severity.ADVICE,
            told[0][1],
            f"all sections take {total} minutes together, and {seams} seams are sewn",
            "time it once, pinning and pressing too",
            proof.variants,
        )


def time_left_out(proof: Proof) -> Iterator[Finding]:
    """A section in which something is stitched has no minutes, and most others have.

    Why: the cover adds the minutes up, and promises the reader less than it takes.

    Fix: write `Minutes: …` below its heading."""
    sewn = [section for section in proof.source.sections if _lines(proof, section)]
    without = [section for section in sewn if _place(section) is None]
    timed = sum(_place(section) is not None for section in proof.source.sections)
    for section in without if timed > len(without) else ():
        yield Finding(
            "time-left-out",
            Severity.WARNING,
            section.title.place if section.title else section.place,
            f"{_name(section)} has no minutes, and {timed} other sections have: the time on the cover is without it",
            "write 'Minutes: …' below the heading",
            proof.variants,
        )


def _name(section: WrittenSection) -> str:
    return f"'{section.title}'" if section.title else "the first section"


def _minutes(section: WrittenSection) -> int:
    """What a section takes, its own minutes and those of its steps."""
    every = (section.minutes, *(step.minutes for step in section.steps))
    return sum(int(str(one)) for one in every if one is not None and str(one).isdigit())


def _place(section: WrittenSection) -> Place | None:
    """Where its minutes are told, if they are."""
    every = (section.minutes, *(step.minutes for step in section.steps))
    return next((one.place for one in every if one is not None), None)


def _lines(proof: Proof, section: WrittenSection) -> int:
    """How many lines below its steps stitch something."""
    numbers = {step.number for step in section.steps}
    steps = proof.assemblies[0].steps if proof.assemblies else ()
    return sum(one.verb in STITCHED for step in steps if step.number in numbers for one in step.actions)
