"""The tables of a small pattern in three materials."""

from publisher.pipeline import prove
from publisher.tables import Tables
from publisher.terms import Finding, Quantity, read_length
from tests.specimens import HEAD, files

# Sold in their usual widths; from interfacing no selvage is taken.
THREE = f"""{HEAD}\
  cotton:
    kind: lining
    name: Plain cotton
    sold:
      - 42 in wide | 110 cm wide
      - 54 in wide | 140 cm wide
    shrinkage: 4%
    note: Wash it first.
  interfacing:
    kind: interfacing
    name: Fusible interfacing
    sold:
      - 20 in wide | 90 cm wide
"""


def tables(pattern: str, head: str = THREE) -> tuple[Tables, ...]:
    """The tables of each variant, inch first."""
    proof, findings = proved(pattern, head)
    assert not [finding for finding in findings if finding.name != "copy-never-used"], findings
    return proof


def proved(pattern: str, head: str = THREE) -> tuple[tuple[Tables, ...], tuple[Finding, ...]]:
    """The tables of each variant, and what was found."""
    proof, findings = prove("specimen", files(pattern, "", head))
    assert proof is not None, findings
    return proof.tables, findings


def sides(text: str) -> tuple[Quantity, Quantity]:
    """`8 in × 5 in` as two lengths."""
    width, height = map(read_length, text.split(" × "))
    return width, height
