"""Breaks one thing at a time in sound demos and looks whether the proof finds it: `python tests/checks/mutate.py`.

Each kind is a function from a demo's two texts to broken ones, each with the checks that should find it. Reported are the
share found by one of these, and what was found in the sound demos. Not part of the tests, but for a sample.
"""

import re
import sys
from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from itertools import pairwise

from publisher.pipeline import prove
from publisher.terms import Severity
from tests.demo import DEMOS, demo_files

NAMES = re.compile(r"(?m)^  ([a-z][\w ]*):")
Texts = tuple[str, str]  # pattern.yaml, steps.md
Broken = Iterator[tuple[str, Texts, tuple[str, ...]]]


@dataclass(frozen=True)
class Mutant:
    """One broken demo: what was done to it, and the names of findings of which one should appear."""

    kind: str
    demo: str
    what: str
    texts: Texts
    expected: tuple[str, ...]


def _dropped(verb: str, group: str, expected: str) -> Callable[[str, str], "Broken"]:
    """The steps without one `Does:` line of a verb, where its target is listed in a group of the pattern."""

    def kind(pattern: str, steps: str) -> Broken:
        listed = {
            name for part in re.findall(rf"(?ms)^{group}:\n(.*?)(?=^\w|\Z)", pattern) for name in NAMES.findall(part)
        }
        for line in re.finditer(rf"(?m)^ *Does: {verb} (.*)\n", steps):
            target = line[1].split(" at ")[0].partition(".")[0]
            alone = len(re.findall(rf"Does: {verb} {re.escape(target)}\b", steps)) == 1
            if alone and (not group or target in listed):
                yield line[0].strip(), (pattern, steps[: line.start()] + steps[line.end() :]), (expected,)

    return kind


HEM_UNDONE = ("left-undone", "strip-end-left-raw")  # the end of a strip has no hem of its own


def a_hem_left_undone(pattern: str, steps: str) -> Broken:
    hems = {
        edge
        for part in re.findall(r"(?m)^    hems:\n((?:      .*\n)+)", pattern)
        for edge in re.findall(r"(?m)^      ([\w ]+):", part)
    }
    for line in re.finditer(r"(?m)^ *Does: hem [\w ]+\.(.*)\n", steps):
        if line[1] in hems:
            yield line[0].strip(), (pattern, steps[: line.start()] + steps[line.end() :]), HEM_UNDONE


def a_seam_sewn_twice(pattern: str, steps: str) -> Broken:
    for line in re.finditer(r"(?m)^ *Does: sew .*\n", steps):
        yield line[0].strip(), (pattern, steps[: line.end()] + line[0] + steps[line.end() :]), ("seam-sewn-twice",)


def all_cut_at_the_end(pattern: str, steps: str) -> Broken:
    cut = re.search(r"(?m)^ *Does: cut all\n", steps)
    if cut:
        yield (
            "cut all",
            (pattern, steps[: cut.start()] + steps[cut.end() :].rstrip() + "\n" + cut[0]),
            ("used-before-cut",),
        )


def a_metric_measure_changed(pattern: str, steps: str) -> Broken:
    for pair in re.finditer(r"(?m)^  ([\w ]+): +(\d[^|\n#]* in) \| (\d+(?:\.\d+)?) (cm|mm)(?= *(?:#|$))", pattern):
        grown = f"{float(pair[3]) * 1.2 + 1:.1f}"
        broken = pattern[: pair.start(3)] + grown + pattern[pair.end(3) :]
        yield pair[1], (broken, steps), ("native-pair-apart",)


def a_step_names_nothing(pattern: str, steps: str) -> Broken:
    for quote in list(re.finditer(r"\{([a-z][a-z ]{4,})\}", steps))[::7]:
        broken = steps[: quote.start(1)] + quote[1][:-2] + "xq" + steps[quote.end(1) :]
        yield quote[1], (pattern, broken), ("no-such-name",)


def a_deed_names_nothing(pattern: str, steps: str) -> Broken:
    for line in list(re.finditer(r"(?m)^ *Does: (?:sew|place|mark) ([^,\n]*)(?:,.*)?$", steps))[::4]:
        broken = steps[: line.start(1)] + line[1] + "xq" + steps[line.end(1) :]
        yield line[0].strip(), (pattern, broken), ("no-such-name",)


def a_mark_deleted(pattern: str, steps: str) -> Broken:
    for mark in re.finditer(
        r"(?m)^      ([\w ]+): +(?:double notch|notch|point|snap|ring|\w+ line) (?:at|from) .*\n", pattern
    ):
        if re.search(rf"Does: (?:mark|attach).*\.{mark[1]}\b", steps):
            yield mark[1], (pattern[: mark.start()] + pattern[mark.end() :], steps), ("no-such-name", "no-such-mark")


def a_gap_too_long(pattern: str, steps: str) -> Broken:
    for gap in re.finditer(r"(?m)^    leave open: (.*)$", pattern):
        yield (
            gap[1],
            (pattern[: gap.start(1)] + f"5 * ({gap[1].split('  #')[0]})" + pattern[gap.end(1) :], steps),
            ("gap-too-long",),
        )


def closed_before_it_is_turned(pattern: str, steps: str) -> Broken:
    for close in re.finditer(r"(?m)^ *Does: close .*\n", steps):
        turns = list(re.finditer(r"(?m)^ *Does: turn .*\n", steps[: close.start()]))
        if turns:  # the last of them changes places with it
            turn = turns[-1]
            between = steps[turn.end() : close.start()]
            broken = steps[: turn.start()] + close[0] + between + turn[0] + steps[close.end() :]
            yield close[0].strip(), (pattern, broken), ("closed-before-turning",)


def fused_too_late(pattern: str, steps: str) -> Broken:
    for line in re.finditer(r"(?m)^ *Does: fuse .*\n", steps):
        broken = steps[: line.start()] + steps[line.end() :].rstrip() + "\n" + line[0]
        yield line[0].strip(), (pattern, broken), ("fused-after-sewing",)


def a_tool_forgotten(pattern: str, steps: str) -> Broken:
    for tool in re.finditer(r"(?m)^  - (iron|sewing machine)\n", pattern):
        verbs = {"iron": "press|fuse", "sewing machine": "sew|topstitch"}[tool[1]]
        if re.search(rf"Does: (?:{verbs}) ", steps):
            yield tool[1], (pattern[: tool.start()] + pattern[tool.end() :], steps), ("tool-not-listed",)


def a_number_typed(pattern: str, steps: str) -> Broken:
    for measure in re.finditer(r"(?m)^  ([\w ]+): +\d[^|\n#]* in \| (\d+(?:\.\d+)? (?:cm|mm))(?= *(?:#|$))", pattern):
        quote = steps.find(f"{{{measure[1]}}}")
        if quote >= 0:
            broken = steps[:quote] + measure[2] + steps[quote + len(measure[1]) + 2 :]
            yield measure[1], (pattern, broken), ("loose-number",)


def no_terms(pattern: str, steps: str) -> Broken:
    terms = re.search(r"(?m)^terms: .*\n(?:  .*\n)*", pattern)
    if terms:
        yield "terms", (pattern[: terms.start()] + pattern[terms.end() :], steps), ("terms-missing",)


def the_video_runs_backwards(pattern: str, steps: str) -> Broken:
    times = list(re.finditer(r"(?m)^Video: (.*)$", steps))
    for one, other in list(pairwise(times))[:2]:
        broken = steps[: one.start(1)] + other[1] + steps[one.end(1) : other.start(1)] + one[1] + steps[other.end(1) :]
        yield one[1], (pattern, broken), ("video-times-backwards",)


def _pieces_sewn_to_others(pattern: str) -> set[str]:
    """The pieces that some seam joins to another piece, by their names' first words."""
    sides = re.findall(r"(?m)^      - (.*)\n      - (.*)$", pattern.partition("\nseams:")[2])
    return {
        one.split()[0].split(".")[0] for pair in sides for one in pair if len({side.split()[0] for side in pair}) > 1
    }


def one_allowance_changed(pattern: str, steps: str) -> Broken:
    joined = _pieces_sewn_to_others(pattern)
    for piece in re.finditer(r"(?m)^  (\w+):\n(?=    (?:outline|rectangle))((?:    .*\n|\n)*)", pattern):
        if piece[1] in joined and "    allowance:" not in piece[2] and "hems:" not in piece[2]:
            broken = pattern[: piece.start(2)] + "    allowance: 1 3/8 in | 3.5 cm\n" + pattern[piece.start(2) :]
            yield piece[1], (broken, steps), ("allowances-of-partners-differ",)


def a_size_slips(pattern: str, steps: str) -> Broken:
    for size in re.finditer(r"(?m)^    M:  ?(\d+[^|]*in) \| (\d+) cm$", pattern):
        yield (
            size[0].strip(),
            (pattern[: size.start(2)] + str(int(size[2]) + 1) + pattern[size.end(2) :], steps),
            ("uneven-grading",),
        )


def an_edge_grows(pattern: str, steps: str) -> Broken:
    joined = _pieces_sewn_to_others(pattern)
    for piece in re.finditer(r"(?m)^  (\w+):\n(?:    outline:\n  )?    rectangle: ([^|\n]*?) by ([^|\n]*)$", pattern):
        if piece[1] in joined:
            broken = pattern[: piece.start(2)] + f"{piece[2]} + 2 cm" + pattern[piece.end(2) :]
            yield piece[1], (broken, steps), ("seam-lengths-differ", "placed-edges-apart", "binding-too-short")


def a_notch_is_moved(pattern: str, steps: str) -> Broken:
    """Of notches that meet others; those of the wash bag meet chalk marks, and the pouch's loop place none."""
    for notch in re.finditer(r"(?m)^      ([\w ]+): +(?:double )?notch at (.*?) from the \w+ end of [\w ]+$", pattern):
        if "curve" not in notch[1] and notch[1] != "loop place" and notch[2] != "0":
            # On the half that a template on the fold does not show, it stands across from its twin no more.
            moved = pattern[: notch.end(2)] + " + 1 cm" + pattern[notch.end(2) :]
            yield notch[1], (moved, steps), ("notches-apart", "mark-on-the-hidden-half")


def a_zip_too_long(pattern: str, steps: str) -> Broken:
    length = re.search(r"(?m)^  zip length: +(.*?)  ", pattern)
    if length:
        broken = pattern[: length.start(1)] + "26 in | 66 cm" + pattern[length.end(1) :]
        yield length[1], (broken, steps), ("zip-apart-from-opening",)


def the_zip_stays_shut(pattern: str, steps: str) -> Broken:
    for line in re.finditer(r"(?m)^ *Does: open .*\n", steps):
        yield line[0].strip(), (pattern, steps[: line.start()] + steps[line.end() :]), ("zip-left-closed",)


def a_wrong_allowance_told(pattern: str, steps: str) -> Broken:
    for quote in re.finditer(r"\{seam allowance\}(?= allowance)", steps):
        broken = steps[: quote.start()] + "{topstitching}" + steps[quote.end() :]
        does = re.search(r"(?m)^ *Does: (\w+)", steps[quote.end() :])
        if does and does[1] == "sew":
            yield f"at {quote.start()}", (pattern, broken), ("allowance-not-the-edges",)


def a_snap_set_last(pattern: str, steps: str) -> Broken:
    for line in re.finditer(r"(?m)^ *Does: attach snap at body .*\n", steps):
        broken = steps[: line.start()] + steps[line.end() :].rstrip() + "\n" + line[0]
        yield line[0].strip(), (pattern, broken), ("set-out-of-reach",)


KINDS: dict[str, Callable[[str, str], Broken]] = {
    "a seam is sewn in no step": _dropped("sew", "seams", "seam-never-sewn"),
    "a placement is placed in no step": _dropped("(?:place|baste)", "placements", "placement-never-placed"),
    "a hem is left undone": a_hem_left_undone,
    "a binding is left undone": _dropped("bind", "bindings", "left-undone"),
    "pleats are left undone": _dropped("pleat", "pieces", "left-undone"),
    "a gap is never closed": _dropped("close", "seams", "gap-never-closed"),
    "a notion is never attached": _dropped("attach", "notions", "notion-never-attached"),
    "a seam is sewn twice": a_seam_sewn_twice,
    "all is cut at the end": all_cut_at_the_end,
    "a metric measure is changed": a_metric_measure_changed,
    "a quote names nothing": a_step_names_nothing,
    "a deed names nothing": a_deed_names_nothing,
    "a mark is deleted": a_mark_deleted,
    "a gap is too long": a_gap_too_long,
    "a gap is closed before turning": closed_before_it_is_turned,
    "interfacing is fused too late": fused_too_late,
    "a tool is forgotten": a_tool_forgotten,
    "a number is typed": a_number_typed,
    "there are no terms": no_terms,
    "the video runs backwards": the_video_runs_backwards,
    "one allowance is changed": one_allowance_changed,
    "a size slips": a_size_slips,
    "an edge grows": an_edge_grows,
    "a notch is moved": a_notch_is_moved,
    "a zip is too long": a_zip_too_long,
    "the zip stays shut": the_zip_stays_shut,
    "a wrong allowance is told": a_wrong_allowance_told,
    "a snap is set last": a_snap_set_last,
}


def mutants() -> Iterator[Mutant]:
    """All mutants of all demos."""
    for demo in DEMOS:
        pattern, steps = (demo_files(demo)[file].decode() for file in ("pattern.yaml", "steps.md"))
        for kind, break_it in KINDS.items():
            for what, texts, expected in break_it(pattern, steps):
                yield Mutant(kind, demo, what, texts, expected)


def is_found(mutant: Mutant) -> tuple[bool, set[str]]:
    """Whether one of the expected checks finds it, and all that was found but advice."""
    files = dict(demo_files(mutant.demo))
    files |= {"pattern.yaml": mutant.texts[0].encode(), "steps.md": mutant.texts[1].encode()}
    _, findings = prove(mutant.demo, files)
    names = {
        finding.name
        for finding in findings
        if finding.severity is not Severity.ADVICE or finding.name in mutant.expected
    }
    return bool(names & set(mutant.expected)), names


def main() -> None:
    """Prints a line for each mutant that was not found, and the shares by kind."""
    found: Counter[str] = Counter()
    made: Counter[str] = Counter()
    for mutant in mutants():
        made[mutant.kind] += 1
        yes, names = is_found(mutant)
        found[mutant.kind] += yes
        if not yes:
            print(
                f"missed: {mutant.demo}: {mutant.kind}: {mutant.what}; found: {', '.join(sorted(names)) or 'nothing'}"
            )
    for kind in made:
        print(f"{found[kind]:3} of {made[kind]:3}  {kind}")
    print(f"{found.total()} of {made.total()} mutants of {len(made)} kinds found")
    alarms = [
        f"{demo}: {finding.name}"
        for demo in DEMOS
        for finding in prove(demo, demo_files(demo))[1]
        if finding.severity is not Severity.ADVICE
    ]
    print(f"false alarms in sound demos: {len(alarms)} {alarms or ''}")
    sys.exit(0 if found.total() == made.total() and not alarms else 1)


if __name__ == "__main__":
    main()
