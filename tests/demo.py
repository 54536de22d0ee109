"""The demo pattern, proved once and each edition printed once for all tests."""

from functools import cache
from pathlib import Path

from publisher.checks import Proof
from publisher.edition import PrintedEdition, print_edition
from publisher.pipeline import prove
from publisher.source import read_folder
from publisher.template_pages import EDITIONS

CONTENT = Path(__file__).parents[1] / "content"
DEMO = "sanderling-lined-pouch"


@cache
def demo_files() -> dict[str, bytes]:
    """The bytes of the demo's folder."""
    return read_folder(CONTENT / DEMO)[0]


@cache
def demo_proof() -> Proof:
    """The demo's proof."""
    proof, findings = prove(DEMO, demo_files())
    assert proof is not None, findings
    return proof


@cache
def printed_demo(edition: str) -> PrintedEdition:
    """One edition of the demo, by its name."""
    return print_edition(demo_proof(), next(one for one in EDITIONS if one.name == edition))
