"""Photographs of steps, as the page sets them: in the document itself, so that nothing else is read while it is printed."""

from base64 import b64encode

from publisher.checks import PRINTED_WIDTH, Proof
from publisher.drawings import NoPicture, measure_picture, printable_picture
from publisher.frozen import dataclass
from publisher.source import WrittenStep

HIGHEST = 90.0  # mm


@dataclass(frozen=True, slots=True)
class PhotographView:
    """A photograph: its address in the document, what it shows, its size in mm."""

    address: str
    description: str
    width: float
    height: float


def photographs_of(proof: Proof, step: WrittenStep) -> tuple[PhotographView, ...]:
    """The photographs of a step; one that cannot be printed is left out, which has been told."""
    pictures = dict(proof.source.pictures)
    found: list[PhotographView] = []
    for photograph in step.photographs:
        try:
            content = pictures[photograph.file]
            size = measure_picture(content)
            width = min(PRINTED_WIDTH, HIGHEST * size.width / size.height)
            printed = printable_picture(content, width)
        except (KeyError, NoPicture):
            continue
        address = "data:image/jpeg;base64," + b64encode(printed).decode("ascii")
        height = width * size.height / size.width
        found.append(PhotographView(address, photograph.description, width, height))
    return tuple(found)
