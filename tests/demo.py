"""The demo patterns, each proved once and each of its editions printed once for all tests."""

from functools import cache
from pathlib import Path

from publisher.checks import Proof
from publisher.edition import PrintedEdition, Request, print_edition
from publisher.pipeline import prove
from publisher.source import read_folder
from publisher.template_pages import EDITIONS

CONTENT = Path(__file__).parents[1] / "content"
DEMO = "sanderling-lined-pouch"
DEMOS = tuple(sorted(file.parent.name for file in CONTENT.glob("*/pattern.yaml")))


@cache
def demo_files(demo: str = DEMO) -> dict[str, bytes]:
    """The bytes of a demo's folder."""
    return read_folder(CONTENT / demo)[0]


@cache
def demo_proof(demo: str = DEMO) -> Proof:
    """A demo's proof."""
    proof, findings = prove(demo, demo_files(demo))
    assert proof is not None, findings
    return proof


@cache
def printed_demo(edition: str, demo: str = DEMO, requests: tuple[Request, ...] = ()) -> PrintedEdition:
    """One edition of a demo, by its name, with the pages asked for."""
    return print_edition(demo_proof(demo), next(one for one in EDITIONS if one.name == edition), requests)
