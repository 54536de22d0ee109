"""The cautions that a pattern's tools and notions call for, as text."""

from publisher.checks import Proof
from publisher.drafting import Grain
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
    "tools.hand-needle": "pins",
    "tools.paper-scissors": "scissors",
    "magnetic snap": "magnetic snap",
}
# What ties and strangles: bought by the length, or a strip so narrow and so long (rules of the house).
CORDS = ("cord", "ribbon", "elastic")
CORD_WIDTH, CORD_LENGTH = 21.0, 220.0  # mm, finished: the widest and the shortest
SMALL_PARTS = ("magnetic snap", "snap", "button", "bead", "ring")


def cautions_of(proof: Proof, units: UnitSystem, speak: Speaker) -> tuple[str, ...]:
    """Each caution once, the general one last."""
    kinds = [str(notion.kind) for notion in proof.source.notions if notion.kind]
    added = [tool.key for tables in proof.tables for tool in tables.supplies.tools]
    used = [*map(str, proof.source.facts.tools), *added, *kinds]
    keys = list(dict.fromkeys(CAUTION_OF[thing] for thing in used if thing in CAUTION_OF))
    if any(kind in SMALL_PARTS for kind in kinds):
        keys.append("small parts")
    if any(kind in CORDS for kind in kinds) or _has_cord(proof):
        keys.append("cords")
    near = speak.length(MAGNET_CLEARANCE[units])
    cautions = [speak.say(f"cautions.{key}", near=near) for key in keys if speak.has(f"cautions.{key}")]
    return (*cautions, speak.say("cautions.general"))


def _has_cord(proof: Proof) -> bool:
    """True where a strip on the straight grain, which binds no edge, is narrow and long."""
    for draft in proof.drafts[:1]:
        binding = {draft.copy(one.strip).piece for one in draft.bindings}
        for piece in draft.pieces:
            if piece.strip is None or piece.name in binding or piece.grain is Grain.BIAS:
                continue
            if piece.strip.finished_width <= CORD_WIDTH and piece.strip.finished_length >= CORD_LENGTH:
                return True
    return False
