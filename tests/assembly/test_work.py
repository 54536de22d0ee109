"""Steps: their actions, the state of the work, and checkpoints."""

import pytest

from tests.specimens import line_of, pattern_line, prove_text

PATTERN = """\
notions:
  snap:
    kind: magnetic snap
    name: Magnetic snap
    count: 1
pieces:
  panel:
    outline:
      rectangle: 20 cm by 10 cm
    copies:
      front: canvas
      back: canvas
      stiffening: canvas, to the finished line
    marks:
      snap: point at 2 cm from the middle of top edge
  tie:
    strip:
      finished width: 2 cm
      length: 20 cm
      fold: in fourths
      ends: 0
    copies:
      only: canvas
seams:
  base seam:
    join:
      - panel front.bottom edge
      - panel back.bottom edge
  side seam:
    join:
      - panel front.left edge
      - panel back.right edge
"""
STEPS = """\
## Make it

1. Fuse and mark.
   Does: cut all
   Does: fuse panel stiffening to panel front
   Does: mark panel front.snap
2. Attach the snap.
   Does: attach snap at panel front.snap
3. Sew the base.
   Does: sew base seam
   Now: panel front
4. Sew the side and fold the tie.
   Does: sew side seam
   Does: fold tie
   Now: panel front
   Now: tie
   Now: panel stiffening
"""


def test_state_grows_step_by_step() -> None:
    proof, findings = prove_text(PATTERN, STEPS)
    assert [finding for finding in findings if finding.name == "no-such-name"] == []
    first, second, third, fourth = proof.assemblies[1].steps
    assert first.before.cut == frozenset()
    assert first.after.cut == {"panel front", "panel back", "panel stiffening", "tie"}
    assert first.after.fused == {"panel stiffening"}
    assert second.before == first.after
    assert second.after.attached == {"snap"}
    assert third.after.sewn == ("base seam",)
    assert fourth.after.closed_edges == {
        ("panel front", "bottom edge"),
        ("panel back", "bottom edge"),
        ("panel front", "left edge"),
        ("panel back", "right edge"),
    }


def test_checkpoints_lose_the_allowance_of_what_is_sewn() -> None:
    proof, _ = prove_text(PATTERN, STEPS)
    _, _, third, fourth = proof.assemblies[1].steps
    (base,) = third.checkpoints
    assert (base.width, base.height) == (pytest.approx(220), pytest.approx(110))
    side, tie, stiffening = fourth.checkpoints
    assert (side.width, side.height) == (pytest.approx(210), pytest.approx(110))
    assert (tie.width, tie.height) == (pytest.approx(200), pytest.approx(20))
    assert (stiffening.width, stiffening.height) == (pytest.approx(200), pytest.approx(100))


@pytest.mark.parametrize(
    ("line", "name", "says", "mend"),
    [
        ("Does: sew bass seam", "no-such-name", "no seam called 'bass seam'", "did you mean 'base seam'?"),
        ("Does: sew panel front", "wrong-kind-of-name", "'panel front' is a copy; 'sew' is done to a seam", ""),
        ("Does: fuse panel stiffening", "unfinished-action", "to what?", "fuse"),
        (
            "Does: attach snap at panel front.snip",
            "no-such-name",
            "panel front.snip",
            "did you mean 'panel front.snap'?",
        ),
        (
            "Does: fold quoin",
            "no-such-name",
            "no copy or edge or mark called 'quoin'",
            "if 'quoin' was taken out, take this out too; known here: 'panel back', 'panel front', 'panel stiffening'",
        ),
        ("Now: panel frond", "no-such-name", "no copy called 'panel frond'", "did you mean 'panel front'?"),
    ],
)
def test_lines_that_name_nothing(line: str, name: str, says: str, mend: str) -> None:
    _, findings = prove_text(PATTERN, (steps := STEPS + f"5. More.\n   {line}\n"))
    (finding,) = [one for one in findings if one.place and one.place.line == line_of(steps, line)]
    assert (finding.name, finding.place.file if finding.place else "") == (name, "steps.md")
    assert says in finding.says
    assert mend in finding.mend
    assert len(finding.variants) == 2


# One joint edge whose edges lie opposite one another, used by a seam, a mark, steps and a binding.
JOINT = """\
pieces:
  flap:
    outline:
      rectangle: 20 cm by 10 cm
    allowance: 0
    joint edges:
      around:
        - left edge
        - {second}
    copies:
      outside: canvas
      lining: canvas
    marks:
      middle: point at the middle of around
  tape:
    strip:
      finished width: 1 cm
      length: 2 m
      fold: in fourths
      joins: allowed
    copies:
      only: canvas
seams:
  flap seam:
    join:
      - flap outside.around
      - flap lining.around
bindings:
  rim:
    strip: tape
    binds:
      - flap lining.around
"""
JOINT_STEPS = """\
1. Sew.
   Does: sew flap seam
   Does: topstitch flap outside.around
   Does: bind rim
   Does: hem flap lining.around
   Now: flap outside
"""


@pytest.mark.parametrize(
    ("second", "name", "guilty"),
    [("right edge", "edges-not-neighbours", "around:"), ("nought", "no-such-edge", "nought")],
)
def test_a_joint_edge_that_cannot_be_drafted_is_told_once(second: str, name: str, guilty: str) -> None:
    pattern = JOINT.format(second=second)
    proof, findings = prove_text(pattern, JOINT_STEPS)
    (finding,) = findings
    assert (finding.name, finding.place and finding.place.line) == (name, pattern_line(pattern, guilty))
    assert len(finding.variants) == 2
    for draft in proof.drafts:
        assert (draft.seams, draft.bindings) == ((), ())


def test_a_seam_of_a_joint_edge_in_order_is_drafted() -> None:
    proof, findings = prove_text(JOINT.format(second="top edge"), JOINT_STEPS)
    assert "edges-not-neighbours" not in {one.name for one in findings}
    assert [seam.name for seam in proof.drafts[0].seams] == ["flap seam"]
    assert [binding.name for binding in proof.drafts[0].bindings] == ["rim"]
