"""A cap in four sizes, made for tests: a band that grows to the right, a round crown, and a loop that stays the same."""

import math
from collections.abc import Iterable, Mapping
from functools import cache

from publisher.checks import Proof
from publisher.pipeline import prove
from publisher.terms import Finding, Severity

SIZES = ("S", "M", "L", "XL")
# What the definition below says of each size, worked out on paper, mm.
HEAD = {
    "inch": {size: inches * 25.4 for size, inches in zip(SIZES, (21.25, 22.0, 22.75, 23.5), strict=True)},
    "metric": {size: centimetres * 10 for size, centimetres in zip(SIZES, (54, 56, 58, 60), strict=True)},
}
EASE = {"inch": 0.375 * 25.4, "metric": 10.0}
HEIGHT = {"inch": 2.75 * 25.4, "metric": 70.0}
ALLOWANCE = {"inch": 0.375 * 25.4, "metric": 10.0}

PATTERN = """\
title: Dotterel cap
revision: "1"
date: 2026-05-31
about: A cap in four sizes, for a head of {head}.
sizes:
  - S
  - M
  - L
  - XL
size guide:
  measure: Head, round the widest part
  how: Lay the tape above the ears and eyebrows, level, without pulling.
  body: head
  ease: head ease
  finished: 2 * length of band.top edge
  between: Between two sizes take the larger.
allowance: 3/8 in | 1 cm
measures:
  head:
    S: 21 1/4 in | 54 cm
    M: 22 in | 56 cm
    L: 22 3/4 in | 58 cm
    XL: 23 1/2 in | 60 cm
  head ease: 3/8 in | 1 cm
  band length: head + head ease
  band height: 2 3/4 in | 7 cm
  crown radius: solved for length of crown.around = band length from 5 cm to 15 cm
materials:
  canvas:
    kind: fabric
    name: Canvas
    sold:
      - 42 in wide | 110 cm wide
  fusible:
    kind: interfacing
    name: Woven fusible
    sold:
      - 20 in wide | 90 cm wide
pieces:
  band:
    outline:
      rectangle: band length / 2 by band height
    copies:
      outside: canvas, cut 2
      interfacing: fusible, cut 2, to the finished line
    marks:
      centre: notch at the middle of top edge
      badge: point at band length / 4 from left edge and band height / 3 from bottom edge
  crown:
    outline:
      points:
        left: 0 mm - crown radius, 0
        right: crown radius, 0
      edges:
        front: arc from left to right with radius crown radius
        back: arc from right to left with radius crown radius
    joint edges:
      around:
        - front
        - back
    copies:
      only: canvas
    marks:
      front notch: notch at the middle of front
      back notch: double notch at the middle of back
      button: point at 0, 0
      vent: point at 0, crown radius / 2
  sweatband:
    rectangle: head by 1 1/2 in | head by 4 cm
    copies:
      only: canvas
  loop:
    outline:
      rectangle: 2 in by 1 in | 5 cm by 2.5 cm
    copies:
      only: canvas
seams:
  side seams:
    join:
      - band outside.left edge
      - band outside.right edge
  crown seam:
    join:
      - crown.around
      - band outside.top edge and band outside.top edge
"""
STEPS = """\
## Cap

1. Sew the two bands to a ring of {band length}.
   Does: fuse band interfacing to band outside
   Does: sew side seams
2. Sew the {crown} in, and the {sweatband} behind it. Sew the {loop} on.
   Does: sew crown seam
   Does: fold loop
   Does: press sweatband
   Does: fold band outside.bottom edge
"""


def cap_files(pattern: str = PATTERN) -> Mapping[str, bytes]:
    return {"pattern.yaml": pattern.encode(), "steps.md": STEPS.encode()}


def above_advice(findings: Iterable[Finding]) -> list[Finding]:
    return [finding for finding in findings if finding.severity is not Severity.ADVICE]


@cache
def cap_proof(pattern: str = PATTERN) -> Proof:
    """The proof of the cap; fails with what was found beyond advice."""
    proof, findings = prove("dotterel-cap", cap_files(pattern))
    told = [f"{finding.place} {finding.name}: {finding.says} {finding.mend}" for finding in above_advice(findings)]
    assert told == []
    assert proof is not None
    return proof


def radius(units: str, size: str) -> float:
    """Of the crown's finished line, mm: a circle as long as the band."""
    return (HEAD[units][size] + EASE[units]) / (2 * math.pi)
