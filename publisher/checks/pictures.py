"""Checks of photographs that steps show."""

from collections.abc import Iterator

from publisher.checks.values import Proof
from publisher.drawings import NoPicture, measure_picture
from publisher.source import Photograph
from publisher.terms import Finding, Severity, did_you_mean

PRINTED_WIDTH = 100.0  # mm: how wide a photograph stands in the steps
COARSEST = 150  # pixels to the inch on paper: below it squares are seen (common practice of print, no source)


def photograph_unfit(proof: Proof) -> Iterator[Finding]:
    """A photograph that a step shows is missing, cannot be read, is too coarse for print, or lacks a description.

    Why: the reader sees squares or nothing, and who hears the page hears nothing.

    Fix: put the photograph into images/, as large as the camera took it, and say behind a comma what it shows."""
    pictures = dict(proof.source.pictures)
    for section in proof.source.sections:
        for step in section.steps:
            for photograph in step.photographs:
                for severity, says, mend in _faults(photograph, pictures):
                    yield Finding(
                        "photograph-unfit",
                        severity,
                        photograph.place,
                        says,
                        mend,
                        proof.variants,
                    )


def _faults(photograph: Photograph, pictures: dict[str, bytes]) -> Iterator[tuple[Severity, str, str]]:
    file = photograph.file
    if not photograph.description:
        yield Severity.ERROR, f"nothing says what '{file}' shows", f"write: {file}, and what is to be seen"
    content = pictures.get(file)
    if content is None:
        yield Severity.ERROR, f"there is no photograph '{file}'", did_you_mean(file, list(pictures))
        return
    try:
        size = measure_picture(content)
    except NoPicture as reason:
        yield Severity.ERROR, f"'{file}' cannot be printed: {reason}", "save it as JPEG or PNG"
        return
    fine = size.width / (PRINTED_WIDTH / 25.4)
    if fine < COARSEST:
        needed = round(COARSEST * PRINTED_WIDTH / 25.4)
        says = f"'{file}' is {size.width} pixels wide, {fine:.0f} to the inch on paper"
        yield Severity.WARNING, says, f"take one that is {needed} pixels wide or more"
