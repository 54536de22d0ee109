"""What the maker wrote, read into the Source: each thing under its own name, nothing added and nothing lost."""

import pytest

from publisher.source import Native, WrittenMeasure
from publisher.source.names import check_names, native
from publisher.terms import Finding, Place, Written
from tests.source.marked import sound

HERE = Place("pattern.yaml", 3, 10, 3, 40)


def _pair(pair: Native | None) -> tuple[str, str] | None:
    return None if pair is None else (str(pair.inch), str(pair.metric))


def test_the_facts() -> None:
    facts = sound(
        """\
        title: Pouch
        maker: Saltmarsh
        revision: 1.0
        date: 2024-02-29
        level: easy
        about: >
          Small and
          boxed.
        video: https://video.example/pouch
        terms: For yourself.
        care: Wash cool.
        tested: sewn twice
        inch rounding: 1/16
        tools:
          - iron
          - pins
        """
    ).facts
    assert (facts.title, facts.maker, facts.revision, facts.date) == ("Pouch", "Saltmarsh", "1.0", "2024-02-29")
    assert (facts.level, facts.about, facts.video) == ("easy", "Small and boxed.\n", "https://video.example/pouch")
    assert (facts.terms, facts.care, facts.tested) == ("For yourself.", "Wash cool.", "sewn twice")
    assert (facts.inch_rounding, facts.tools, facts.language) == ("1/16", ("iron", "pins"), "en")


def test_what_is_not_said_is_none() -> None:
    source = sound("")
    facts = source.facts
    assert {facts.maker, facts.date, facts.level, facts.about, facts.video, facts.terms, facts.care} == {None}
    assert (facts.tested, facts.inch_rounding, facts.tools, facts.language) == (None, None, (), "en")
    assert (source.allowance, source.sizes, source.measures, source.finished_size) == (None, (), (), ())
    assert (source.notions, source.seams, source.placements, source.unread) == ((), (), (), ())


def test_the_language_may_be_another() -> None:
    assert sound("language: nl").facts.language == "nl"


def test_measures_for_both_systems_for_one_and_by_size() -> None:
    source = sound(
        """\
        sizes: [S, M]
        measures:
          width: 6 1/2 in | 16.5 cm
          inset: 1 in
          head:
            S: 21 in | 54 cm
            M: inset + 50 cm
        """
    )

    def read(measure: WrittenMeasure) -> list[tuple[str | None, tuple[str, str] | None]]:
        return [(size, _pair(pair)) for size, pair in measure.by_size]

    width, inset, head = source.measures
    assert source.sizes == ("S", "M")
    assert (width.name, read(width)) == ("width", [(None, ("6 1/2 in", "16.5 cm"))])
    assert (inset.name, read(inset)) == ("inset", [(None, ("1 in", "1 in"))])
    assert (head.name, read(head)) == (
        "head",
        [("S", ("21 in", "54 cm")), ("M", ("inset + 50 cm", "inset + 50 cm"))],
    )
    assert [measure.by_size[0][1].given_once for measure in source.measures] == [False, True, False]


def test_materials_and_notions() -> None:
    source = sound(
        """\
        materials:
          canvas:
            kind: fabric
            name: Light canvas
            sold:
              - 42 in wide | 110 cm wide
              - fat quarter
            shrinkage: 4%
            note: Wash it first.
        notions:
          snap:
            kind: magnetic snap
            name: Magnetic snap
            count: 1 | 2
            across: 3/4 in | 18 mm
            height: 5 mm
            note: Any will do.
          thread:
            name: Thread
        """
    )
    (canvas,) = source.materials
    assert (canvas.key, canvas.kind, canvas.name) == ("canvas", "fabric", "Light canvas")
    assert [_pair(way) for way in canvas.sold] == [("42 in wide", "110 cm wide"), ("fat quarter", "fat quarter")]
    assert (canvas.shrinkage, canvas.note) == ("4%", "Wash it first.")
    snap, thread = source.notions
    assert (snap.key, snap.kind, snap.name, snap.note) == ("snap", "magnetic snap", "Magnetic snap", "Any will do.")
    assert _pair(snap.count) == ("1", "2")
    assert [(name, _pair(size)) for name, size in snap.sizes] == [
        ("across", ("3/4 in", "18 mm")),
        ("height", ("5 mm", "5 mm")),
    ]
    assert (thread.kind, thread.count, thread.sizes, thread.note) == (None, None, (), None)


PIECES = """\
pieces:
  flap:
    outline:
      rectangle: 14 cm by 10 cm | 15 cm by 11 cm
      edges:
        left: hinge
      round:
        bottom corners: 3 cm
    joint edges:
      around:
        - hinge
        - bottom left corner
    allowance:
      all: 1 cm
      top edge: 0
    grain: across
    copies:
      outside: canvas
      lining: canvas, cut 2
    marks:
      centre: notch at the middle of top edge
    note: Press it.
  gusset:
    outline:
      points:
        left: 0, 0
        right: 10 cm, 0
        top: 5 cm, 4 cm
      edges:
        base: line from left to right
        rise: line from right to top
        fall: line from top to left
      round:
        top: 1 cm
    allowance: 5 mm
    copies:
      only: canvas
  patch:
    rectangle: 4 cm by 3 cm
    copies:
      only: canvas
  loop:
    strip:
      finished width: 12 mm
      length: 10 cm
      fold: in fourths
      ends: 0
      joins: allowed
    copies:
      only: canvas
"""


def test_pieces_of_every_shape() -> None:
    flap, gusset, patch, loop = sound(PIECES).pieces
    assert [piece.drawn for piece in (flap, gusset, patch, loop)] == [True, True, False, False]

    assert flap.rectangle is not None
    assert (flap.outline, flap.strip) == (None, None)
    assert _pair(flap.rectangle.says) == ("14 cm by 10 cm", "15 cm by 11 cm")
    assert flap.rectangle.edges == (("left", "hinge"),)
    assert [(corner.shape, corner.which, _pair(corner.size)) for corner in flap.rectangle.corners] == [
        ("round", "bottom corners", ("3 cm", "3 cm"))
    ]
    assert flap.joint_edges == (("around", ("hinge", "bottom left corner")),)
    assert _pair(flap.allowance) == ("1 cm", "1 cm")
    assert [(edge, _pair(allowance)) for edge, allowance in flap.edge_allowances] == [("top edge", ("0", "0"))]
    assert (flap.grain, flap.note) == ("across", "Press it.")
    assert [(copy.name, copy.says) for copy in flap.copies] == [("outside", "canvas"), ("lining", "canvas, cut 2")]
    assert [(mark.name, mark.says) for mark in flap.marks] == [("centre", "notch at the middle of top edge")]

    assert gusset.outline is not None
    assert (gusset.rectangle, gusset.strip) == (None, None)
    assert [(point, _pair(says)) for point, says in gusset.outline.points] == [
        ("left", ("0, 0", "0, 0")),
        ("right", ("10 cm, 0", "10 cm, 0")),
        ("top", ("5 cm, 4 cm", "5 cm, 4 cm")),
    ]
    assert gusset.outline.edges == (
        ("base", "line from left to right"),
        ("rise", "line from right to top"),
        ("fall", "line from top to left"),
    )
    assert [(corner.shape, corner.which, _pair(corner.size)) for corner in gusset.outline.corners] == [
        ("round", "top", ("1 cm", "1 cm"))
    ]
    assert (_pair(gusset.allowance), gusset.edge_allowances) == (("5 mm", "5 mm"), ())

    assert patch.rectangle is not None
    assert (patch.rectangle.edges, patch.rectangle.corners) == ((), ())
    assert (patch.allowance, patch.edge_allowances, patch.grain, patch.marks) == (None, (), None, ())

    assert loop.strip is not None
    assert (loop.rectangle, loop.outline) == (None, None)
    assert [_pair(one) for one in (loop.strip.finished_width, loop.strip.length, loop.strip.ends)] == [
        ("12 mm", "12 mm"),
        ("10 cm", "10 cm"),
        ("0", "0"),
    ]
    assert (loop.strip.fold, loop.strip.joins) == ("in fourths", "allowed")


def test_seams_placements_and_the_finished_size() -> None:
    source = sound(
        """\
        allowance: 3/8 in | 1 cm
        finished size:
          width: 16 cm
          height: 12 cm
        seams:
          side seam:
            join:
              - front.left edge and front.base
              - back.right edge
            ease: 2 mm
            leave open: 8 cm
          base seam:
            join: [front.base, back.base]
        placements:
          patch on front:
            place: patch
            on: front
            matching:
              - centre to snap
              - middle
        """
    )
    side, base = source.seams
    assert (side.name, side.join) == ("side seam", ("front.left edge and front.base", "back.right edge"))
    assert (_pair(side.ease), _pair(side.leave_open)) == (("2 mm", "2 mm"), ("8 cm", "8 cm"))
    assert (base.join, base.ease, base.leave_open) == (("front.base", "back.base"), None, None)
    (patch,) = source.placements
    assert (patch.name, patch.place_copy, patch.on) == ("patch on front", "patch", "front")
    assert patch.matching == ("centre to snap", "middle")
    assert _pair(source.allowance) == ("3/8 in", "1 cm")
    assert [(side, _pair(says)) for side, says in source.finished_size] == [
        ("width", ("16 cm", "16 cm")),
        ("height", ("12 cm", "12 cm")),
    ]


@pytest.mark.parametrize(
    ("written", "inch", "metric"),
    [
        ("10 in | 26 cm", "10 in", "26 cm"),
        ("10 in|26 cm", "10 in", "26 cm"),
        ("10 in by 4 in  |  26 cm by 10 cm", "10 in by 4 in", "26 cm by 10 cm"),
        ("width + depth", "width + depth", "width + depth"),
    ],
)
def test_a_bar_parts_inches_from_metric(written: str, inch: str, metric: str) -> None:
    found: list[Finding] = []
    assert _pair(native(Written(written, HERE), found)) == (inch, metric)
    assert found == []


def test_each_side_of_a_bar_has_its_own_place() -> None:
    pair = native(Written("10 in |  26 cm", HERE), [])
    assert pair.inch.place == Place("pattern.yaml", 3, 10, 3, 15)
    assert pair.metric.place == Place("pattern.yaml", 3, 19, 3, 24)


@pytest.mark.parametrize(
    "name", ["width", "flap width", "it's width", "front’s width", "side 2", "S", "toe", "x2", "b_2"]
)
def test_names_that_a_formula_can_read(name: str) -> None:
    assert list(check_names([Written(name, HERE)])) == []


@pytest.mark.parametrize("word", ["of", "from", "to", "and", "at", "the", "with", "by", "for"])
def test_the_words_of_the_language_are_no_names(word: str) -> None:
    (finding,) = check_names([Written(f"band {word} top", HERE)])
    assert (finding.name, finding.place) == ("bad-name", HERE)
    assert f"holds '{word}'" in finding.says


@pytest.mark.parametrize(
    "name", ["", " ", "2", "2 sides", "a-b", "a–b", "a.b", "a,b", "a(b", "a+b", "a\tb", "a\nb", "_a", "'a"]
)
def test_names_that_no_formula_can_read(name: str) -> None:
    (finding,) = check_names([Written(name, HERE)])
    assert (finding.name, finding.place) == ("bad-name", HERE)
