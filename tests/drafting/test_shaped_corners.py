"""Corners rounded, cut across and cut out, in the order of the edges, with numbers done by hand."""

import pytest

from tests.specimens import draft_text, found

POUCH = """\
pieces:
  pouch:
    outline:
      rectangle: 20 cm by 15 cm
      cut:
        top corners: 2 cm
      cut out:
        bottom right corner: 3 cm
      round:
        bottom left corner: 1 cm
    allowance: 1 cm
    copies:
      front: canvas
"""


def test_shaped_corners_are_edges_between_their_neighbours() -> None:
    draft, findings = draft_text(POUCH)
    assert findings == ()
    pouch = draft.piece("pouch")
    assert [(edge.name, round(edge.length, 6)) for edge in pouch.edges if edge.name != "bottom left corner"] == [
        ("bottom edge", 160),  # 200 − 10 − 30
        ("bottom right corner in", 30),
        ("bottom right corner out", 30),
        ("right edge", 100),  # 150 − 30 − 20
        ("top right corner", round(20 * 2**0.5, 6)),
        ("top edge", 160),
        ("top left corner", round(20 * 2**0.5, 6)),
        ("left edge", 120),
    ]
    way_in, way_out = pouch.edge("bottom right corner in").path, pouch.edge("bottom right corner out").path
    assert [(spot.x, spot.y) for spot in (way_in.start, way_in.end, way_out.end)] == [(170, 0), (170, 30), (200, 30)]


def test_the_cut_line_runs_an_allowance_outside_a_cut_out() -> None:
    draft, _ = draft_text(POUCH)
    corners = {(round(one.start.x, 6), round(one.start.y, 6)) for one in draft.piece("pouch").cut_line.segments}
    # Raw edges of the cut-out: 10 mm right of its way in, 10 mm below its way out; they meet inside the corner.
    assert {(180, -10), (180, 20), (210, 20)} <= corners


def test_a_mirrored_half_has_both_cut_outs() -> None:
    draft, findings = draft_text("""\
        pieces:
          body:
            outline:
              points:
                low middle: 0, 0
                low corner: 10 cm, 0
                high corner: 10 cm, 12 cm
                high middle: 0, 12 cm
              edges:
                base: line from low middle to low corner
                side: line from low corner to high corner
                top: line from high corner to high middle
                centre: line from high middle to low middle
              cut out:
                low corner: 4 cm
              mirrored along: centre
            copies:
              front: canvas
        """)
    assert findings == ()
    assert [edge.name for edge in draft.piece("body").edges] == [
        "base",
        "right low corner in",
        "right low corner out",
        "right side",
        "top",
        "left side",
        "left low corner out",
        "left low corner in",
    ]


def said(corners: str, pattern: str = "rectangle: 20 cm by 15 cm") -> str:
    return f"pieces:\n  pouch:\n    outline:\n      {pattern}\n{corners}    copies:\n      front: canvas\n"


@pytest.mark.parametrize(
    ("corners", "name", "words", "mend"),
    [
        (
            "      cut:\n        top corners: 10 cm\n",
            "corner-cut-does-not-fit",
            "cannot be cut across by 100 mm: it takes 100 mm of an edge that is 100 mm long",
            "make the cut smaller, or the edges longer",
        ),
        (
            "      cut out:\n        top right corner: 0 cm\n",
            "corner-cut-does-not-fit",
            "'top right corner' of 'pouch' cannot be cut out by 0 mm",
            "make the square smaller, or the edges longer",
        ),
        (
            "      round:\n        top corners: 2 cm\n      cut:\n        top right corner: 2 cm\n",
            "corner-shaped-twice",
            "'top right corner' is to be rounded (line 16) and to be cut across",
            "say one of the two",
        ),
        (
            "      cut out:\n        botom corners: 2 cm\n",
            "no-such-corner",
            "a rectangle has no corners called 'botom corners'",
            "did you mean 'bottom corners'?",
        ),
    ],
)
def test_corners_that_cannot_be_shaped_so(corners: str, name: str, words: str, mend: str) -> None:
    draft, findings = draft_text(said(corners))
    finding = found(tuple(one for one in findings if draft.variant in one.variants), name)
    assert words in finding.says
    assert finding.mend == mend
