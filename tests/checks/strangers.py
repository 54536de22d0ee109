"""Breaks the demos as a careless maker might, one thing at a time, and tells what the proof finds of it.

Run by hand: `python tests/checks/strangers.py`, with `--all` for the words of each finding, with `--only zip` for the
changes whose demo, kind or name has that word. The changes stand in strangers.toml, beside this file; each says what
the right finding speaks of. Sound changes stand there, too: after them nothing new may be told. Another set, kept from
those who write checks, is read with `--changes FILE`.
"""

import argparse
import re
import tomllib
from collections import Counter, defaultdict
from collections.abc import Mapping, Sequence
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass
from enum import Enum
from functools import cache
from pathlib import Path
from typing import Any

from publisher.pipeline import prove
from publisher.source import read_folder
from publisher.terms import Finding, Severity

HERE = Path(__file__).parent
DEMOS = HERE.parents[1] / "content"


class Told(Enum):
    """How a fault was told, by the words of the findings alone; whether they are right is judged by who reads them."""

    NAMED = "named"
    ADVICE = "advice"
    OTHERWISE = "otherwise"
    NOT = "not found"


@dataclass(frozen=True, slots=True)
class Edit:
    """A text put in the place of another, which stands in the file once; of a renaming, in all files as often as may be."""

    file: str
    old: bytes
    new: bytes
    everywhere: bool


@dataclass(frozen=True, slots=True)
class Change:
    """One change of a demo, made by one edit or by several that belong together: a fault, or a sound one."""

    demo: str
    name: str
    kind: str
    edits: tuple[Edit, ...]
    fault: str
    speaks_of: tuple[str, ...]
    at: tuple[str, ...]
    judged: str
    why: str
    sound: bool  # nothing may be told of it


@dataclass(frozen=True, slots=True)
class Outcome:
    """What is told of a changed demo and was not told before; each finding with its line, where it has one."""

    change: Change
    findings: tuple[tuple[Finding, str], ...]

    @property
    def told(self) -> Told:
        """The best that a finding does: it names a thing as error or warning, as advice, or it tells something else."""
        naming = [finding for finding, _ in self.findings if _names(finding, self.change.speaks_of)]
        if any(finding.severity is not Severity.ADVICE for finding in naming):
            return Told.NAMED
        if naming:
            return Told.ADVICE
        return Told.OTHERWISE if self.findings else Told.NOT

    @property
    def at_its_line(self) -> bool:
        """Whether a finding stands at a line where it was looked for."""
        return any(text in line for _, line in self.findings for text in self.change.at)

    @property
    def alarms(self) -> tuple[tuple[Finding, str], ...]:
        """The errors and warnings."""
        return tuple(pair for pair in self.findings if pair[0].severity is not Severity.ADVICE)


def read_changes(file: Path) -> tuple[Change, ...]:
    """The changes that the file lists, in its order."""
    return tuple(_change(entry) for entry in tomllib.loads(file.read_text("utf-8"))["change"])


def _change(entry: Mapping[str, Any]) -> Change:
    return Change(
        demo=entry["demo"],
        name=entry["name"],
        kind=entry.get("kind", "sound"),
        edits=tuple(_edit(each) for each in (entry, *entry.get("also", ()))),
        fault=entry.get("fault", ""),
        speaks_of=tuple(entry.get("speaks_of", ())),
        at=tuple(entry.get("at", ())),
        judged=entry.get("judged", ""),
        why=entry.get("why", ""),
        sound=entry.get("sound", False),
    )


def _edit(entry: Mapping[str, Any]) -> Edit:
    return Edit(entry.get("file", ""), entry["old"].encode(), entry["new"].encode(), entry.get("everywhere", False))


def edited(files: Mapping[str, bytes], change: Change) -> dict[str, bytes]:
    """The files with all that the change edits; raises ValueError where an old text does not stand there exactly once."""
    files = dict(files)
    for edit in change.edits:
        inside = list(files) if edit.everywhere else [edit.file]
        stands = sum(files[name].count(edit.old) for name in inside)
        if stands != 1 and not (edit.everywhere and stands):
            raise ValueError(f"{change.demo}, {change.name}: {edit.old.decode()!r} stands there {stands} times")
        files |= {name: files[name].replace(edit.old, edit.new) for name in inside}
    return files


def outcome(change: Change) -> Outcome:
    """The demo proved with this change."""
    files = edited(_files(change.demo), change)
    new = [finding for finding in _proved(change.demo, files) if _told_of(finding) not in _told_when_sound(change.demo)]
    return Outcome(change, tuple((finding, _line(finding, files)) for finding in new))


@cache
def _files(demo: str) -> Mapping[str, bytes]:
    files, _ = read_folder(DEMOS / demo)
    return files


@cache
def _told_when_sound(demo: str) -> frozenset[tuple[str, str]]:
    return frozenset(_told_of(finding) for finding in _proved(demo, _files(demo)))


def _proved(demo: str, files: Mapping[str, bytes]) -> tuple[Finding, ...]:
    _, findings = prove(demo, files)
    return findings


def _told_of(finding: Finding) -> tuple[str, str]:
    """What makes a finding the same one: its place moves with the lines above it."""
    return finding.name, finding.says


def _line(finding: Finding, files: Mapping[str, bytes]) -> str:
    if finding.place is None or finding.place.file not in files:
        return ""
    lines = files[finding.place.file].decode("utf-8-sig", "replace").splitlines()
    return lines[finding.place.line - 1] if 0 < finding.place.line <= len(lines) else ""


def _names(finding: Finding, things: Sequence[str]) -> bool:
    """Whether it speaks of one of these as whole words; 'hems' and 'hem' are one."""
    return any(re.search(rf"(?<!\w){re.escape(thing)}s?(?!\w)", finding.says, re.IGNORECASE) for thing in things)


def table(outcomes: Sequence[Outcome]) -> str:
    """A line for each kind of fault: how many there are, how they were told, how many were judged right."""
    kinds: dict[str, list[Outcome]] = defaultdict(list)
    for each in outcomes:
        kinds[each.change.kind].append(each)
    lines = [_row("kind of fault", "all", *(told.value for told in Told), "at line", "right")]
    lines += [_counted(kind, kinds[kind]) for kind in sorted(kinds)]
    lines.append(_counted("all", outcomes))
    share = {told: sum(each.told is told for each in outcomes) / max(len(outcomes), 1) for told in Told}
    right = sum(each.change.judged == "right" for each in outcomes) / max(len(outcomes), 1)
    lines.append(", ".join(f"{told.value} {share[told]:.0%}" for told in Told) + f"; judged right {right:.0%}")
    return "\n".join(lines)


def _counted(kind: str, outcomes: Sequence[Outcome]) -> str:
    counts = Counter(each.told for each in outcomes)
    at_line = sum(each.at_its_line for each in outcomes)
    right = sum(each.change.judged == "right" for each in outcomes)
    return _row(kind, *(str(number) for number in (len(outcomes), *(counts[told] for told in Told), at_line, right)))


def _row(first: str, *cells: str) -> str:
    return f"{first:<36}" + "".join(f"{cell:>11}" for cell in cells)


def told(each: Outcome) -> str:
    """A change with all that is told of it, for who judges it."""
    change = each.change
    head = f"{change.demo}: {change.name} ({change.kind}): {'sound' if change.sound else each.told.value}"
    lines = [head, f"    {change.fault}", f"    judged {change.judged}: {change.why}" if change.judged else ""]
    for finding, line in each.findings:
        where = f"{finding.place.file}:{finding.place.line}" if finding.place else "nowhere"
        variants = " ".join(str(variant) for variant in finding.variants)
        lines.append(f"  > {finding.severity.value}: {finding.says} [{finding.name}; {variants}]")
        lines.append(f"      {where}: {line.strip()[:150]}")
        lines.append(f"      mend: {finding.mend}")
    return "\n".join(line for line in lines if line.strip())


def main() -> None:
    """Proves each change, and prints the table and the false alarms."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--all", action="store_true", help="the words of each finding")
    parser.add_argument("--only", default="", metavar="WORD", help="changes whose demo, kind or name has this word")
    parser.add_argument("--changes", type=Path, default=HERE / "strangers.toml", metavar="FILE", help="another set")
    wanted = parser.parse_args()
    changes = [
        change
        for change in read_changes(wanted.changes)
        if wanted.only.lower() in f"{change.demo} {change.kind} {change.name}".lower()
    ]
    with ProcessPoolExecutor(max_workers=2) as workers:
        outcomes = list(workers.map(outcome, changes))
    if wanted.all:
        print("\n\n".join(told(each) for each in outcomes), end="\n\n")
    print(table([each for each in outcomes if not each.change.sound]))
    sound = [each for each in outcomes if each.change.sound]
    alarmed = [each for each in sound if each.alarms]
    print(f"sound changes: {len(sound)}, with a false alarm: {len(alarmed)}")
    for each in alarmed:
        print(f"  {each.change.demo}: {each.change.name}")
        for finding, _ in each.alarms:
            print(f"    {finding.severity.value}: {finding.says} [{finding.name}]")


if __name__ == "__main__":
    main()
