"""The cautions that a pattern's tools and notions call for, as text."""

from publisher.checks import Proof
from publisher.edition.words import Speaker
from publisher.terms import UnitSystem, length

# 6 in or 15 cm between strong consumer magnets and implants (a notice of the US FDA on consumer electronics; magnetic
# snaps by analogy).
MAGNET_CLEARANCE = {UnitSystem.INCH: length(152.4), UnitSystem.METRIC: length(150)}
# Which caution each tool and notion calls for.
CAUTION_OF = {
    "sewing machine": "sewing machine",
    "iron": "iron",
    "rotary cutter": "rotary cutter",
    "scissors": "scissors",
    "seam ripper": "scissors",
    "awl": "scissors",
    "pins": "pins",
    "hand needle": "pins",
    "magnetic snap": "magnetic snap",
}
SMALL_PARTS = ("magnetic snap", "snap", "button", "bead", "ring")


def cautions_of(proof: Proof, units: UnitSystem, speak: Speaker) -> tuple[str, ...]:
    """Each caution once, the general one last."""
    kinds = [str(notion.kind) for notion in proof.source.notions if notion.kind]
    used = [*map(str, proof.source.facts.tools), *kinds]
    keys = list(dict.fromkeys(CAUTION_OF[thing] for thing in used if thing in CAUTION_OF))
    if any(kind in SMALL_PARTS for kind in kinds):
        keys.append("small parts")
    near = speak.length(MAGNET_CLEARANCE[units])
    cautions = [speak.say(f"cautions.{key}", near=near) for key in keys if speak.has(f"cautions.{key}")]
    return (*cautions, speak.say("cautions.general"))
