"""Darts: a mouth trued so that the closed dart ends level, and an edge that is shorter by what they take up."""

import math

import pytest

from publisher.drafting import Draft, Pleat
from publisher.geometry import Point
from tests.specimens import draft_text, found, prove_text

SKIRT = """\
pieces:
  skirt:
    outline:
      points:
        a: 0, 0
        b: 30 cm, 0
        c: 30 cm, 40 cm
        d: 0, 40 cm
      edges:
        hem: line from a to b
        side: line from b to c
        waist: {waist}
        centre: line from d to a
      {half}
    darts:
      waist dart: {dart}
    copies:
      only: canvas
    marks:
      peak: point at 15 cm, 31 cm
  band:
    rectangle: 28 cm by 4 cm
    copies:
      only: canvas
seams:
  waist seam:
    join:
      - skirt.waist
      - band.bottom edge
"""
STRAIGHT = "line from c to d"
DART = "dart of 2 cm by 9 cm at 15 cm from the left end of waist"


def skirt(dart: str = DART, waist: str = STRAIGHT, half: str = "") -> Draft:
    draft, findings = draft_text(SKIRT.format(dart=dart, waist=waist, half=half))
    assert [finding for finding in findings if draft.variant in finding.variants] == []
    return draft


def dart_of(draft: Draft) -> Pleat:
    (dart,) = (mark for mark in draft.piece("skirt").template.marks if isinstance(mark, Pleat))
    return dart


def test_a_dart_stands_square_to_its_edge_and_its_mouth_is_trued() -> None:
    draft = skirt()
    dart = dart_of(draft)
    legs = {(round(end.x, 6), round(end.y, 6)) for span in dart.stitched for end in span}
    assert legs == {(140, 400), (160, 400), (150, 310)}
    # The edge beside a leg, mirrored over it, rises by twice the angle between leg and fold: 10 × tan(2 × atan(10 / 90)).
    tip = dart.outer[0][0]
    assert (tip.x, tip.y) == pytest.approx((150, 400 + 10 * math.tan(2 * math.atan(1 / 9))))
    waist = draft.piece("skirt").as_cut.edge("waist").path
    assert any((spot - tip).length < 1e-6 for segment in waist.segments for spot in (segment.start, segment.end))


def test_folded_the_cloth_inside_ends_level_with_the_edge() -> None:
    """The tip, mirrored over the leg that it is pressed to, lies on the line of the waist: closed on paper, y = 400."""
    dart = dart_of(skirt())
    tip, point = dart.outer[0]
    for end, _ in dart.stitched:
        leg = (end - point).unit()
        away = tip - point
        mirrored = point + leg * (2 * away.dot(leg)) - away
        assert mirrored.y == pytest.approx(400)


def test_what_a_dart_takes_up_is_not_sewn() -> None:
    draft = skirt()
    (seam,) = draft.seams
    assert sum(edge.length for edge in seam.first) == pytest.approx(280)  # 300 − 20, as long as the band
    measured = draft_text(
        SKIRT.format(dart=DART, waist=STRAIGHT, half="") + "measures:\n  sewn: length of skirt.waist\n"
    )[0]
    assert float(dict(measured.measures)["sewn"].amount) == pytest.approx(280)


def test_a_dart_may_lead_to_a_mark() -> None:
    dart = dart_of(skirt("dart of 2 cm to peak at 15 cm from the left end of waist"))
    assert dart.outer[0][1] == Point(150, 310)


def test_on_the_fold_the_half_shows_its_dart() -> None:
    dart = "dart of 2 cm by 9 cm at 15 cm from the left end of waist"
    draft, findings = draft_text(
        SKIRT.format(dart=dart, waist=STRAIGHT, half="on the fold along: centre").replace(
            "rectangle: 28 cm", "rectangle: 56 cm"
        )
    )
    assert [finding for finding in findings if draft.variant in finding.variants] == []
    piece = draft.piece("skirt")
    points = [mark.outer[0][1].x for mark in piece.as_cut.marks if isinstance(mark, Pleat)]
    assert sorted(points) == pytest.approx([-150, 150])  # said once, on either side of the middle
    (shown,) = (mark for mark in piece.template.marks if isinstance(mark, Pleat))
    assert shown.outer[0][1].x == pytest.approx(150)
    # Two darts of 20 mm: 600 − 40, which the band has.
    assert sum(edge.length for edge in draft.seams[0].first) == pytest.approx(560)


def test_every_copy_with_darts_has_them_sewn_by_a_step() -> None:
    pattern = SKIRT.format(dart=DART, waist=STRAIGHT, half="")
    steps = "## Sew\n1. Sew.\n   Does: cut all\n   Does: sew waist seam\n"
    _, findings = prove_text(pattern, steps)
    assert found(findings, "left-undone").says == "no step says 'dart skirt'"
    _, findings = prove_text(pattern, steps + "   Does: dart skirt\n")
    assert "left-undone" not in {finding.name for finding in findings}


@pytest.mark.parametrize(
    ("dart", "waist", "name", "words"),
    [
        (
            "dart of 2 cm by 9 cm at 5 mm from the left end of waist",
            STRAIGHT,
            "dart-beyond-edge",
            "reaches beyond its end",
        ),
        ("dart of 2 cm to a at 15 cm from the left end of waist", STRAIGHT, "dart-legs-differ", "mm long"),
        ("dart of 0 cm by 9 cm at the middle of waist", STRAIGHT, "no-length", "the width of 'waist dart' is 0 mm"),
        # On a slope the edges on both sides of the mouth do not mirror each other.
        (
            "dart of 4 cm by 6 cm at 6 cm from the left end of waist",
            "curve from c to d by e and f",
            "which-way",
            "depends on the side that it is pressed to",
        ),
    ],
)
def test_darts_that_cannot_be(dart: str, waist: str, name: str, words: str) -> None:
    pattern = SKIRT.format(dart=dart, waist=waist, half="").replace(
        "        d: 0, 40 cm\n", "        d: 0, 40 cm\n        e: 20 cm, 40 cm\n        f: 6 cm, 30 cm\n"
    )
    draft, findings = draft_text(pattern)
    told = found(tuple(one for one in findings if not one.variants or draft.variant in one.variants), name)
    assert words in told.says


@pytest.mark.parametrize(("towards", "along"), [("left", -1), ("right", 1)])
def test_the_arrow_leads_to_the_side_that_it_is_pressed_to(towards: str, along: int) -> None:
    ((start, end),) = dart_of(skirt(f"{DART}, towards the {towards}")).arrows
    assert (end.x - start.x) * along > 0
    assert dart_of(skirt()).arrows == ()
