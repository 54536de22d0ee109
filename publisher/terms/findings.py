"""A finding: what is wrong, where, and how to mend it. The maker's mistakes are findings, never exceptions of ours."""

import re
from collections.abc import Iterable
from dataclasses import replace
from enum import Enum

from publisher.frozen import dataclass
from publisher.terms.places import Place
from publisher.terms.variants import Variant


class Severity(Enum):
    """An error stops publishing; a warning and advice are printed."""

    ERROR = "error"
    WARNING = "warning"
    ADVICE = "advice"


@dataclass(frozen=True, slots=True)
class Finding:
    """`name` is the lasting code (`no-such-name`); `says` what is wrong with the numbers; `mend` how to put it right."""

    name: str
    severity: Severity
    place: Place | None
    says: str
    mend: str
    variants: tuple[Variant, ...] = ()
    allowed: str | None = None  # why the maker lets it through; it then stops nothing


class Unusable(Exception):
    """Raised inside a stage when one thing the maker wrote cannot be used; caught where the next thing can go on."""

    def __init__(self, finding: Finding) -> None:
        super().__init__(finding.says)
        self.finding = finding

    def __reduce__(self) -> tuple[type["Unusable"], tuple[Finding]]:
        return (Unusable, (self.finding,))


def error(name: str, place: Place | None, says: str, mend: str) -> Finding:
    """An error found at `place`."""
    return Finding(name, Severity.ERROR, place, says, mend)


def merge_findings(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """The findings in order of place; one that was found in several variants is joined into one that lists them all.

    Found again is what has the same name, at the same place, about the same things: the names in quotes. Its numbers
    may differ from variant to variant, and those of the first are kept. What holds in no variant has all its words.
    """
    merged: dict[tuple[str, Place | None, object], Finding] = {}
    told = tuple(findings)
    outright = {(found.name, found.place, found.says) for found in told if not found.variants}
    for found in told:
        if found.variants and (found.name, found.place, found.says) in outright:
            continue  # told already, of the pattern as a whole
        about = _things(found) if found.place and found.variants else found.says
        key = (found.name, found.place, about)
        earlier = merged.get(key)
        if earlier is None:
            merged[key] = found
        else:
            more = tuple(variant for variant in found.variants if variant not in earlier.variants)
            merged[key] = replace(earlier, variants=earlier.variants + more)
    return tuple(sorted(merged.values(), key=_order))


def _things(found: Finding) -> tuple[str, ...]:
    """What a finding is about: all that stands in quotes. An apostrophe within a name is no quotation mark."""
    return tuple(re.findall(r"(?<!\w)'(.+?)'(?!\w)", found.says))


def _order(found: Finding) -> tuple[str, int, int, str, str]:
    place = found.place
    return (
        (place.file, place.line, place.column, found.name, found.says) if place else ("", 0, 0, found.name, found.says)
    )
