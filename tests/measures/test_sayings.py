"""Every kind of saying, and the tree that it is read as."""

from fractions import Fraction

import pytest

from publisher.measures import (
    ActionSaying,
    ArcSaying,
    Asked,
    CopySaying,
    EdgeSpot,
    Formula,
    LineSaying,
    Literal,
    MarkSaying,
    Matching,
    MaterialWidth,
    Name,
    Operation,
    Pair,
    names_in,
    parse_formula,
)
from publisher.measures.action_sayings import VERBS, parse_action
from publisher.measures.mark_sayings import parse_mark
from publisher.measures.sayings import (
    parse_copy,
    parse_edge,
    parse_matching,
    parse_name,
    parse_pair,
    parse_part,
    parse_point,
    parse_side,
    parse_width,
)
from publisher.terms import Dimension, Quantity, Unusable, length, number
from tests.measures.marked import at_place, written

HERE = written("here").place  # no place takes part in a comparison


def name(text: str) -> Name:
    return Name(text, HERE)


def amount(text: str) -> Literal:
    return Literal(number(Fraction(text)), "", HERE)


def cm(text: str) -> Literal:
    return Literal(length(Fraction(text) * 10), "cm", HERE)


def op(left: Formula, sign: str, right: Formula) -> Operation:
    return Operation(sign, left, right, HERE)


def minus(right: Formula) -> Operation:
    return Operation("-", None, right, HERE)


def asked(what: str, *about: Formula) -> Asked:
    return Asked(what, about, HERE)


A, B, C, WIDTH, DEPTH = name("a"), name("b"), name("c"), name("width"), name("depth")


@pytest.mark.parametrize(
    "text",
    [
        "width",
        "bag length",
        "maker's mark",
        "maker’s mark",
        "top2",
        "row 2",
        "lower_edge",
        "größe",
        "lid.around",
        "body front.top edge",
        # words that only begin like a word of the language
        "tofu",
        "forth",
        "android",
        "bytes",
        # words of other sayings
        "length",
        "height",
        "point",
        "notch",
        "line",
        "arc length",
        "radius",
        "inwards",
        # units without an amount
        "in",
        "m",
    ],
)
def test_a_name_stands_for_itself(text: str) -> None:
    assert parse_formula(written(text)) == parse_name(written(text)) == name(text)


@pytest.mark.parametrize(
    ("text", "read"), [("bag   length", "bag length"), ("lid. around", "lid.around"), (" width ", "width")]
)
def test_spaces_in_a_name_do_not_matter(text: str, read: str) -> None:
    assert parse_formula(written(text)) == name(read)


@pytest.mark.parametrize(
    ("text", "tree"),
    [
        ("2", amount("2")),
        ("2.5", amount("2.5")),
        ("1/2", amount("1/2")),
        ("2 1/4", amount("9/4")),
        ("2¼", amount("9/4")),
        ("½", amount("1/2")),
        ("5.7 cm", cm("5.7")),
        ("5,7 cm", cm("5.7")),
        ("45 deg", Literal(Quantity(Fraction(45), Dimension.ANGLE), "deg", HERE)),
        ("22.5°", Literal(Quantity(Fraction(45, 2), Dimension.ANGLE), "deg", HERE)),
        ("-width", minus(WIDTH)),
        ("− width", minus(WIDTH)),
        ("-2.5 cm", minus(cm("2.5"))),
        ("width + depth", op(WIDTH, "+", DEPTH)),
        ("width+depth", op(WIDTH, "+", DEPTH)),
        ("width - depth", op(WIDTH, "-", DEPTH)),
        ("width − depth", op(WIDTH, "-", DEPTH)),
        ("width * 2", op(WIDTH, "*", amount("2"))),
        ("width×2", op(WIDTH, "*", amount("2"))),
        ("width / 2", op(WIDTH, "/", amount("2"))),
        ("width÷2", op(WIDTH, "/", amount("2"))),
        ("2 * (width)", op(amount("2"), "*", WIDTH)),
        ("a + b * c", op(A, "+", op(B, "*", C))),
        ("(a + b) * c", op(op(A, "+", B), "*", C)),
        ("a - b - c", op(op(A, "-", B), "-", C)),
        ("a - (b - c)", op(A, "-", op(B, "-", C))),
        ("a / b / c", op(op(A, "/", B), "/", C)),
        ("a / b * c", op(op(A, "/", B), "*", C)),
        ("a * -b", op(A, "*", minus(B))),
        ("a - -b", op(A, "-", minus(B))),
        ("-a + b", op(minus(A), "+", B)),
        ("snap.across / 2", op(name("snap.across"), "/", amount("2"))),
        ("length of lid.around", asked("length", name("lid.around"))),
        ("length   of right side seam", asked("length", name("right side seam"))),
        ("width of body", asked("width", name("body"))),
        ("height of body", asked("height", name("body"))),
        ("width - width of body", op(WIDTH, "-", asked("width", name("body")))),
        (
            "distance from body.snap to body.top edge",
            asked("distance", name("body.snap"), name("body.top edge")),
        ),
        ("larger of a and b", asked("larger", A, B)),
        ("smaller of a + 1 cm and 2 * b", asked("smaller", op(A, "+", cm("1")), op(amount("2"), "*", B))),
        ("larger of smaller of a and b and c", asked("larger", asked("smaller", A, B), C)),
        ("(larger of a and b) / 2", op(asked("larger", A, B), "/", amount("2"))),
        (
            "(length of lining.base - turning gap) / 2",
            op(op(asked("length", name("lining.base")), "-", name("turning gap")), "/", amount("2")),
        ),
    ],
)
def test_a_formula(text: str, tree: Formula) -> None:
    assert parse_formula(written(text)) == tree


def test_every_part_of_a_formula_keeps_its_place() -> None:
    text = "2 * (bag length - depth) + larger of lid.around and 1 cm"
    added = parse_formula(written(text))
    assert isinstance(added, Operation)
    doubled, larger = added.left, added.right
    assert isinstance(doubled, Operation)
    assert isinstance(larger, Asked)
    taken = doubled.right
    assert isinstance(taken, Operation)
    parts = [doubled.left, taken.left, taken.right, *larger.about]
    assert [at_place(text, part.place) for part in parts if part] == ["2", "bag length", "depth", "lid.around", "1 cm"]
    assert [at_place(text, sign.place) for sign in (added, doubled, taken)] == ["+", "*", "-"]
    assert at_place(text, larger.place) == "larger of"
    assert [part.column for part in (added.place, taken.place)] == [12 + 25, 12 + 16]  # counted in the text


def test_the_names_that_a_formula_reads() -> None:
    formula = parse_formula(written("-a + 2 * (bag length - snap.across) / larger of b and length of lid.around"))
    assert list(names_in(formula)) == ["a", "bag length", "snap.across", "b", "lid.around"]


@pytest.mark.parametrize(
    ("kind", "text", "tree"),
    [
        ("rectangle", "width by depth + 1 cm", Pair(WIDTH, op(DEPTH, "+", cm("1")))),
        ("rectangle", "10 cm by 4 cm", Pair(cm("10"), cm("4"))),
        ("point", "0, 0", Pair(amount("0"), amount("0"))),
        ("point", "width - a,b", Pair(op(WIDTH, "-", A), B)),
        ("point", "-1 cm, 2 * (a + b)", Pair(minus(cm("1")), op(amount("2"), "*", op(A, "+", B)))),
    ],
)
def test_a_pair(kind: str, text: str, tree: Pair) -> None:
    assert (parse_pair if kind == "rectangle" else parse_point)(written(text)) == tree


@pytest.mark.parametrize(
    ("text", "tree"),
    [
        ("line from low left to low right", LineSaying(name("low left"), name("low right"))),
        ("line from line to arc", LineSaying(name("line"), name("arc"))),
        ("arc from a to b with radius 12 cm", ArcSaying(A, B, cm("12"), None, False)),
        ("arc from a to b with radius radius", ArcSaying(A, B, name("radius"), None, False)),
        ("arc from a to b with height depth / 2", ArcSaying(A, B, None, op(DEPTH, "/", amount("2")), False)),
        ("arc from a to b with radius c, inwards", ArcSaying(A, B, C, None, True)),
        ("arc from a to b with height 2 cm , inwards", ArcSaying(A, B, None, cm("2"), True)),
        (
            "arc from a to b with height height of body",
            ArcSaying(A, B, None, asked("height", name("body")), False),
        ),
    ],
)
def test_an_edge(text: str, tree: LineSaying | ArcSaying) -> None:
    assert parse_edge(written(text)) == tree


@pytest.mark.parametrize(
    ("text", "names"),
    [
        ("flap.around", ["flap.around"]),
        ("body front.right across and body back.left across", ["body front.right across", "body back.left across"]),
        ("a and b and c", ["a", "b", "c"]),
    ],
)
def test_a_side_of_a_seam(text: str, names: list[str]) -> None:
    assert parse_side(written(text)) == tuple(map(name, names))


@pytest.mark.parametrize(
    ("text", "placed", "below"),
    [
        ("middle", "middle", "middle"),
        ("centre to top centre", "centre", "top centre"),
        ("left end to loop place", "left end", "loop place"),
    ],
)
def test_a_matching(text: str, placed: str, below: str) -> None:
    assert parse_matching(written(text)) == Matching(name(placed), name(below))


TOP, TOP_MIDDLE = name("top edge"), EdgeSpot(name("top edge"), None, None)
MARKS = [
    ("notch at the middle of top edge", MarkSaying("notch", spot=TOP_MIDDLE)),
    ("double  notch at the  middle of top edge", MarkSaying("double notch", spot=TOP_MIDDLE)),
    *(
        (f"notch at 3 cm from the {end} end of top edge", MarkSaying("notch", spot=EdgeSpot(TOP, cm("3"), end)))
        for end in ("left", "right", "top", "bottom")
    ),
    (
        "double notch at (length of a.base - b) / 2 from the left end of base",
        MarkSaying(
            "double notch",
            spot=EdgeSpot(name("base"), op(op(asked("length", name("a.base")), "-", B), "/", amount("2")), "left"),
        ),
    ),
    ("point at the middle of top edge", MarkSaying("point", spot=TOP_MIDDLE)),
    ("point at a from the right end of top edge", MarkSaying("point", spot=EdgeSpot(TOP, A, "right"))),
    ("point at a + 1 cm from the middle of top edge", MarkSaying("point", spot=TOP_MIDDLE, into=op(A, "+", cm("1")))),
    (
        "point at 2 cm from left edge and b from bottom edge",
        MarkSaying("point", insets=((cm("2"), name("left edge")), (B, name("bottom edge")))),
    ),
    ("point at 5 cm, a / 2", MarkSaying("point", x=cm("5"), y=op(A, "/", amount("2")))),
    ("fold line at 2.5 cm from bottom edge", MarkSaying("fold line", insets=((cm("2.5"), name("bottom edge")),))),
    ("fold line from button to ring", MarkSaying("fold line", start=name("button"), end=name("ring"))),
]


@pytest.mark.parametrize(("text", "tree"), MARKS)
def test_a_mark(text: str, tree: MarkSaying) -> None:
    assert parse_mark(written(text)) == tree
    assert (tree.face, tree.copies) == ("wrong side", ())


@pytest.mark.parametrize(("text", "tree"), MARKS)
@pytest.mark.parametrize(
    ("tail", "face", "copies"),
    [
        (", on the right side", "right side", ""),
        (",on  the  right  side", "right side", ""),
        (", on the wrong side", "wrong side", ""),
        (", for front", "wrong side", "front"),
        (", for front and back lining", "wrong side", "front, back lining"),
        (", on the right side, for lining", "right side", "lining"),
        (", for lining, on the right side", "right side", "lining"),
    ],
)
def test_a_mark_with_its_face_and_the_copies_that_bear_it(
    text: str, tree: MarkSaying, tail: str, face: str, copies: str
) -> None:
    bearers = tuple(map(name, copies.split(", "))) if copies else ()
    expected = MarkSaying(
        tree.kind, tree.spot, tree.into, tree.insets, tree.x, tree.y, tree.start, tree.end, face, bearers
    )
    assert parse_mark(written(text + tail)) == expected


@pytest.mark.parametrize(
    ("text", "count", "to_finished_line", "alike"),
    [
        ("light canvas", 1, False, False),
        ("light canvas, cut 2", 2, False, False),
        ("light canvas,cut  12", 12, False, False),
        ("light canvas, cut 2, alike", 2, False, True),
        ("light canvas, to the finished line", 1, True, False),
        ("light canvas, alike, to the finished line, cut 3", 3, True, True),
    ],
)
def test_a_copy(text: str, count: int, to_finished_line: bool, alike: bool) -> None:
    assert parse_copy(written(text)) == CopySaying(name("light canvas"), count, to_finished_line, alike)


# The verbs of the README, written out once more so that none is lost.
WORK = ("cut", "mark", "fuse", "place", "baste", "sew", "close", "trim", "clip", "hem", "bind", "gather", "pleat")
WORK += ("dart", "topstitch", "fold", "roll", "press", "turn", "attach", "join", "begin", "mitre", "thread", "open")


def test_the_verbs_are_those_of_the_readme() -> None:
    assert VERBS == WORK


@pytest.mark.parametrize("verb", [verb for verb in WORK if verb != "thread"])
def test_an_action(verb: str) -> None:
    for said, target, preposition, other in [
        ("side seam", "side seam", None, None),
        ("body front.snap", "body front.snap", None, None),
        ("flap on back", "flap on back", None, None),  # the name of a placement
        ("top toe", "top toe", None, None),  # holds no 'to' of its own
        ("body interfacing to body outside", "body interfacing", "to", "body outside"),
        ("snap  at  body front.snap", "snap", "at", "body front.snap"),
    ]:
        expected = ActionSaying(verb, name(target), preposition, name(other) if other else None, HERE)
        assert parse_action(written(f"{verb} {said}")) == expected


def test_what_is_threaded_goes_through_something() -> None:
    expected = ActionSaying("thread", name("cord"), "through", name("apron.right casing"), HERE)
    assert parse_action(written("thread cord through apron.right casing")) == expected


def test_a_seam_is_sewn_wrong_sides_together_where_it_says_so() -> None:
    assert parse_action(written("sew lining join, wrong sides together")) == ActionSaying(
        "sew", name("lining join"), None, None, HERE, wrong_sides=True
    )


def test_how_a_seam_is_sewn_may_be_said_twice() -> None:
    said = parse_action(written("sew hinge seam, from seam line to seam line, wrong sides together"))
    assert said == ActionSaying("sew", name("hinge seam"), None, None, HERE, wrong_sides=True, stops_short=True)
    assert not parse_action(written("sew hinge seam")).stops_short


def test_an_action_keeps_the_places_of_its_names() -> None:
    text = "attach  snap at body front.snap"
    action = parse_action(written(text))
    assert at_place(text, action.place) == text
    assert at_place(text, action.target.place) == "snap"
    assert action.target.place.column == 12 + 8
    assert action.other is not None
    assert at_place(text, action.other.place) == "body front.snap"


@pytest.mark.parametrize(
    ("text", "millimetres"),
    [
        ("42 in wide", "1066.8"),  # 42 × 25.4
        ("110 cm wide", "1100"),
        ("110cm  wide", "1100"),
        ("1,4 m wide", "1400"),
        ("1 1/4 yd wide", "1143"),  # 914.4 + 228.6
    ],
)
def test_how_wide_a_material_is_sold(text: str, millimetres: str) -> None:
    assert parse_width(written(text)) == MaterialWidth(length(Fraction(millimetres)), None)


def test_a_precut_is_called_by_its_name() -> None:
    assert parse_width(written("fat quarter")) == MaterialWidth(None, "fat quarter")


@pytest.mark.parametrize(
    ("text", "part"),
    [("4%", "1/25"), ("4 %", "1/25"), ("0%", "0"), ("2.5%", "1/40"), ("2,5 %", "1/40"), ("100%", "1")],
)
def test_a_percentage_is_a_part_of_one(text: str, part: str) -> None:
    assert parse_part(written(text)) == Fraction(part)


def test_a_mark_is_made_while_the_piece_is_still_folded() -> None:
    said = parse_action(written("mark apron.notch, still folded"))
    assert said == ActionSaying("mark", name("apron.notch"), None, None, HERE, still_folded=True)
    with pytest.raises(Unusable) as told:
        parse_action(written("sew side seam, still folded"))
    assert told.value.finding.says == "in 'sew side seam, still folded': 'sew' is done one way only"
