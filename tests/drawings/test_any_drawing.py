"""Whatever a file holds, it is read or told: nothing is raised, and every finding lies in its file."""

from hypothesis import given, settings
from hypothesis import strategies as st

from publisher.drawings import marks_of, outline_of, read_drawing
from tests.drawings.specimens import FILE, svg

ANY = settings(derandomize=True, deadline=None)
SCRAPS = st.sampled_from(
    [
        *(
            "<svg",
            ' xmlns="http://www.w3.org/2000/svg"',
            ' width="9mm"',
            ' height="9mm"',
            ' viewBox="0 0 9 9"',
            ">",
            "/>",
        ),
        *(
            "</svg>",
            "<g",
            ' id="lid"',
            "</g>",
            "<path",
            ' d="',
            "M0 0",
            "L5 5",
            "z",
            '"',
            "'",
            "<!--",
            "-->",
            "&lt;",
            "&x;",
        ),
        *(
            "<use",
            ' href="#lid"',
            "<rect",
            ' width="5"',
            ' height="NaN"',
            "<?xml ",
            "?>",
            "<![CDATA[",
            "]]>",
            "é",
            "\x00",
        ),
        *(
            "\n",
            "\r",
            "\u2028",
            "<!DOCTYPE x>",
            ' transform="',
            "scale(",
            "1e308",
            ")",
            "<a:b",
            ' xmlns:a="x"',
            "\ufeff",
        ),
    ]
)
SIGNS = st.text("MmLlHhVvCcSsQqTtAaZz0123456789.-+eE, \nn", max_size=80)
WORDS = st.lists(
    st.one_of(st.sampled_from("MmLlHhVvCcSsQqTtAaZz"), st.integers(-99, 99).map(str), st.floats(width=16).map(str)),
    max_size=40,
)
TRANSFORMS = st.lists(
    st.tuples(
        st.sampled_from(["matrix", "translate", "scale", "rotate", "skewX", "skewY"]),
        st.lists(st.floats(-1e10, 1e10), min_size=1, max_size=6),
    ),
    max_size=4,
).map(lambda calls: " ".join(f"{name}({' '.join(map(str, numbers))})" for name, numbers in calls))


def _astray(content: bytes) -> list[str]:
    """Findings whose place is not in the file."""
    read, findings = read_drawing(content, FILE)
    if read is not None:
        drawn, more = outline_of(read, "lid")
        marks, others = marks_of(read)
        assert bool(more) == (drawn is None)
        findings = (*findings, *more, *others)
        if drawn is not None:
            box = drawn.path.box
            assert drawn.path.closed
            assert min(box.width, box.height) > 0
            assert max(abs(box.left), abs(box.right), abs(box.top), abs(box.bottom)) < 50_000
            segments = drawn.path.segments
            for one, following in zip(segments, (*segments[1:], segments[0]), strict=True):
                assert one.end == following.start
        assert all(mark.id for mark in marks)
    else:
        assert findings
    lines = [*content.decode("utf-8", "replace").splitlines(), ""]
    return [
        f"{one.place} {one.name}: {one.says}"
        for one in findings
        if one.place is None
        or not 1 <= one.place.line <= len(lines)
        or not 1 <= one.place.column <= len(lines[one.place.line - 1]) + 1
    ]


@given(st.binary(max_size=300))
@settings(ANY, max_examples=200)
def test_any_bytes(content: bytes) -> None:
    assert _astray(content) == []


@given(st.lists(SCRAPS, max_size=40).map("".join))
@settings(ANY, max_examples=400)
def test_any_scraps(text: str) -> None:
    assert _astray(text.encode()) == []
    assert _astray(svg(text.replace("\x00", ""))) == []


@given(st.one_of(SIGNS, WORDS.map(" ".join), WORDS.map(lambda words: "M0 0" + " ".join(words) + "z")))
@settings(ANY, max_examples=400)
def test_any_path_data(data: str) -> None:
    assert _astray(svg(f'<path id="lid" d="{data}"/>')) == []


@given(TRANSFORMS, st.sampled_from(["M0 0h9v9z", "M0 0a9 5 20 0 1 9 9z", "M0 0c9 0 9 9 0 9z"]))
@settings(ANY, max_examples=200)
def test_any_transform(transform: str, data: str) -> None:
    assert _astray(svg(f'<g transform="{transform}"><path id="lid" d="{data}"/></g>')) == []


@given(st.lists(st.lists(st.integers(-20, 120), min_size=6, max_size=6), min_size=1, max_size=6))
@settings(ANY, max_examples=100)
def test_any_curved_ring(curves: list[list[int]]) -> None:
    """Rings of curves, as an editor writes them: an outline, or one fault."""
    data = "".join("C" + " ".join(map(str, numbers)) for numbers in curves)
    assert _astray(svg(f'<path id="lid" d="M50 50{data}z"/>')) == []
