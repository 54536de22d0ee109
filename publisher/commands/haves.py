"""What a reader has at hand, as it is said on the command line: `40 cm of 110 cm`, `cotton: 2 fat quarters`."""

import re
from collections.abc import Sequence

import click

from publisher.cloth import AtHand
from publisher.drafting import PRECUTS, Draft
from publisher.frozen import dataclass
from publisher.terms import UnitSystem, did_you_mean, read_length

EXAMPLE = "write it like '40 cm of 110 cm', '1/2 yd of 44 in' or '2 fat quarters'"
METRIC = re.compile(r"(mm|cm|m)\s*$")
PRECUT = re.compile(r"(?:(?P<count>\d{1,2})\s*[x×]?\s+|an?\s+)?(?P<name>[^\W\d][\w ]*?)", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Have:
    """One thing said to be at hand: of which material, in which unit system (None where it does not show), how many."""

    said: str
    material: str
    units: UnitSystem | None
    count: int
    precut: str | None
    length: float  # mm, as the other; of a precut it depends on the unit system
    width: float

    def cloths(self, units: UnitSystem) -> tuple[AtHand, ...]:
        """The lengths of cloth that are there."""
        if self.precut is None:
            return (AtHand(self.length, self.width),)
        width, length = PRECUTS[self.precut][units]
        return (AtHand(length, width, self.precut),) * self.count


def read_haves(
    said: Sequence[str], chosen: str | None, draft: Draft, units: UnitSystem | None = None
) -> tuple[Have, ...]:
    """What is at hand, in one unit system; of the material `chosen` where a text names none.

    Raises click.BadParameter that says what would do.
    """
    haves = tuple(_read(text, chosen, draft) for text in said)
    systems = {have.units for have in haves if have.units is not None} | ({units} if units is not None else set())
    if len(systems) > 1:
        raise _wrong(
            "some of it is told in inches and some in centimetres, and an edition is cut by one of them: tell all in one"
        )
    return haves


def known_material(key: str, draft: Draft, option: str = "--have") -> str:
    """The key of a material. Raises click.BadParameter with the nearest."""
    known = [material.key for material in draft.materials]
    if key not in known:
        raise click.BadParameter(f"no material called '{key}': {did_you_mean(key, known)}", param_hint=option)
    return key


def _read(said: str, chosen: str | None, draft: Draft) -> Have:
    key, colon, rest = said.rpartition(":")
    material = known_material(key.strip(), draft) if colon else chosen or _only_material(said, draft)
    text = rest.strip()
    if " of " in text:
        return _length(said, material, text)
    match = PRECUT.fullmatch(text)
    name = match["name"].lower().removesuffix("s") if match else ""
    if match is None or name not in PRECUTS:
        nearest = f" ({did_you_mean(name, PRECUTS)})" if match else ""
        raise _wrong(f"'{said}' is no length of a width, and no precut{nearest}: {EXAMPLE}")
    count = int(match["count"] or 1)
    if count == 0:
        raise _wrong(f"'{said}' is none: {EXAMPLE}")
    return Have(said, material, None, count, name, 0.0, 0.0)


def _only_material(said: str, draft: Draft) -> str:
    used = {copy.material for piece in draft.pieces for copy in piece.copies}
    known = [material.key for material in draft.materials if material.key in used]
    if len(known) == 1:
        return known[0]
    listed = ", ".join(f"'{key}'" for key in known)
    would_do = f"write '{known[0]}: {said}', or add --material {known[0]}" if known else "nothing is cut from any"
    raise _wrong(f"'{said}' does not say which material it is, of {listed}: {would_do}")


def _length(said: str, material: str, text: str) -> Have:
    """`40 cm of 110 cm`, `40 cm of 110 cm wide`."""
    sides = [side.strip().removesuffix("wide").strip() for side in text.split(" of ")]
    if len(sides) != 2:
        raise _wrong(f"'{said}' is no length of a width: {EXAMPLE}")
    try:
        length, width = (read_length(side).mm for side in sides)
    except ValueError as reason:
        raise _wrong(f"{reason} (in '{said}'): {EXAMPLE}") from None
    if min(length, width) <= 0:
        raise _wrong(f"'{said}' is no cloth at all: {EXAMPLE}")
    units = UnitSystem.METRIC if METRIC.search(sides[0]) else UnitSystem.INCH
    return Have(said, material, units, 1, None, length, width)


def _wrong(says: str) -> click.BadParameter:
    return click.BadParameter(says, param_hint="--have")
