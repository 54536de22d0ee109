"""Cloth with a nap, or a print that stands one way up: which pieces lie alike, and how their arrows say so."""

import pytest

from publisher.figures.label_words import mark_words
from publisher.figures.pieces import grain_strokes
from tests.specimens import HEAD, draft_text, found, prove_text

PIECES = """\
{nap}  cotton:
    kind: lining
    name: Cotton
    sold:
      - 42 in wide | 110 cm wide
pieces:
  flap:
    outline:
      rectangle: 10 cm by 8 cm
    {grain}
    copies:
      outside: canvas
      lining: cotton
  facing:
    outline:
      rectangle: 10 cm by 3 cm
    copies:
      only: cotton
"""
assert HEAD.endswith("wide\n")  # of canvas, to which a nap is added


@pytest.mark.parametrize(
    ("nap", "grain", "one_way"),
    [
        ("", "grain: up", []),
        ("    nap: one way\n", "grain: up", ["flap"]),
        ("    nap: one way\n", "grain: across", ["flap"]),
        ("", "grain: up, one way", ["flap"]),
    ],
)
def test_pieces_of_cloth_with_a_nap_lie_one_way(nap: str, grain: str, one_way: list[str]) -> None:
    draft, findings = draft_text(PIECES.format(nap=nap, grain=grain))
    assert findings == ()
    assert [piece.name for piece in draft.pieces if piece.one_way] == one_way
    heads = {piece.name: len(grain_strokes(piece.grain_line)) - 1 for piece in draft.pieces if piece.grain_line}
    assert heads == {"flap": 1 if one_way else 2, "facing": 2}


@pytest.mark.parametrize(
    ("nap", "grain", "name", "words"),
    [
        ("    nap: both ways\n", "grain: up", "wrong-kind", "'both ways' says neither"),
        ("    nap: one way\n", "grain: either way", "nap-without-grain", "is either way, and 'canvas' has a nap"),
        ("", "grain: either way, one way", "nap-without-grain", "is either way, and it is to lie one way"),
        ("", "grain: up, oneway", "no-such-grain", "'oneway' says nothing about the grain"),
    ],
)
def test_naps_that_cannot_be(nap: str, grain: str, name: str, words: str) -> None:
    draft, findings = draft_text(PIECES.format(nap=nap, grain=grain))
    told = found(tuple(one for one in findings if draft.variant in one.variants), name)
    assert words in told.says


def test_a_face_is_said_where_it_is_not_the_usual_one() -> None:
    proof, _ = prove_text(
        PIECES.format(nap="", grain="grain: up") + "    marks:\n      a: point at 1 cm, 1 cm\n"
        "      b: point at 2 cm, 1 cm, on the right side\n"
    )
    facing = proof.drafts[0].piece("facing")
    marks = {mark.name: [line.phrase.key for line in mark_words(mark, facing)] for mark in facing.marks}
    assert marks == {"a": ["label.mark"], "b": ["label.mark", "label.on-right-side"]}
