"""Whatever the files hold, it is read or told: nothing is raised, and every finding lies in its file."""

from hypothesis import given, settings
from hypothesis import strategies as st

from publisher.pipeline import prove
from publisher.source import excerpt, read_source
from publisher.terms import Finding, Place
from tests.demo import DEMO, demo_files
from tests.source.marked import PATTERN, STEPS, folder, whole_pattern

ANY = settings(derandomize=True, deadline=None)
# What files are made of, so that more of them come near to being patterns than bytes alone would.
SCRAPS = st.sampled_from(
    [
        *("title: Pouch\n", 'revision: "1"\n', "measures:\n", "  width: 10 cm\n", "pieces:\n", "  flap:\n", "    "),
        *("copies:\n", "      only: canvas\n", "rectangle: 1 cm by 2 cm\n", "- ", ": ", "{", "}", "[", "]", ", ", "|"),
        *("materials:\n", "seams:\n", "join: [a, b]\n", "sizes: [S]\n", "notions: {a: {name: b}}\n", ">\n", "\n"),
        *("&a ", "*a ", "!a ", "? ", "# ", '"', "'", "---\n", "...\n", "%", "@", "\\", "é", "\u2028", "\x85", "\x00"),
        *(
            "## Sew\n",
            "1. Sew. ",
            "   Does: sew side\n",
            "Minutes: 5\n",
            "Video: 1:20\n",
            "Id: a\n",
            "{flap}",
            "\r",
            "\t",
            "   1. ",
            "{",
            "\t  ",
        ),
    ]
)
FILES = st.one_of(st.binary(max_size=200), st.lists(SCRAPS, max_size=30).map(lambda scraps: "".join(scraps).encode()))


def _text(content: bytes) -> str:
    return content.decode("utf-8-sig", errors="replace")


def lies_in(place: Place, text: str) -> bool:
    """True when a place begins at a sign of the text, or just behind a line, and ends no sooner than it begins."""
    lines = [*text.splitlines(), ""]
    if not (1 <= place.line <= place.end_line <= len(lines)):
        return False
    start, end = (place.line, place.column), (place.end_line, place.end_column)
    behind = len(lines[place.end_line - 1]) + 1
    return 1 <= place.column <= len(lines[place.line - 1]) + 1 and (
        end == (place.line, place.column + 1) or (start <= end and place.end_column <= behind)
    )


def _astray(findings: tuple[Finding, ...], files: dict[str, bytes]) -> list[str]:
    placed = [(finding, finding.place) for finding in findings if finding.place is not None]
    return [
        f"{place} {finding.name}: {finding.says}"
        for finding, place in placed
        if not lies_in(place, _text(files.get(place.file, b"")))
    ]


@given(FILES, FILES)
@settings(ANY, max_examples=300)
def test_any_two_files_are_read(pattern: bytes, steps: bytes) -> None:
    files = {PATTERN: pattern, STEPS: steps}
    source, findings = read_source("any", files)
    assert source is not None or findings
    assert _astray(findings, files) == []
    texts = tuple((name, _text(content)) for name, content in files.items())
    for finding in findings:
        assert finding.place is not None
        shown = excerpt(texts, finding.place)
        assert shown is None or shown[1].lstrip(" ").startswith("^")


@given(FILES)
@settings(ANY, max_examples=60)
def test_any_steps_are_proved(steps: bytes) -> None:
    files = {**folder(whole_pattern("")), STEPS: steps}
    _, findings = prove("any", files)
    assert _astray(findings, files) == []


@st.composite
def damaged(draw: st.DrawFn, content: bytes) -> bytes:
    """A file after a slip or three: lines lost, doubled, swapped or indented, bytes lost or put in."""
    lines = content.split(b"\n")
    for _ in range(draw(st.integers(1, 3))):
        at, other = (draw(st.integers(0, len(lines) - 1)) for _ in range(2))
        line = lines[at]
        sign = draw(st.integers(0, len(line)))
        slip = draw(st.sampled_from(["lose", "double", "swap", "move", "indent", "outdent", "insert", "cut", "retype"]))
        match slip:
            case "lose" if len(lines) > 1:
                del lines[at]
            case "double":
                lines.insert(other, line)
            case "swap":
                lines[at], lines[other] = lines[other], line
            case "move" if len(lines) > 1:
                lines.insert(other, lines.pop(at))
            case "indent":
                lines[at] = b"  " + line
            case "outdent":
                lines[at] = line[2:]
            case "insert":
                scrap = draw(st.one_of(st.binary(min_size=1, max_size=3), SCRAPS.map(str.encode)))
                lines[at] = line[:sign] + scrap + line[sign:]
            case "cut":
                lines[at] = line[:sign] + line[sign + draw(st.integers(1, 5)) :]
            case "retype":
                lines[at] = line[:sign] + draw(st.sampled_from("-#:|,.{}'/ 0a*")).encode() + line[sign + 1 :]
    return b"\n".join(lines)


@given(st.data())
@settings(ANY, max_examples=200)
def test_a_damaged_demo_is_read(data: st.DataObject) -> None:
    files = dict(demo_files())
    for name in (PATTERN, STEPS):
        files[name] = data.draw(damaged(files[name]), label=name)
    _, findings = read_source(DEMO, files)
    assert _astray(findings, files) == []


@given(st.data())
@settings(ANY, max_examples=50)
def test_a_damaged_demo_is_proved(data: st.DataObject) -> None:
    files = dict(demo_files())
    name = data.draw(st.sampled_from([PATTERN, PATTERN, STEPS]))
    files[name] = data.draw(damaged(files[name]), label=name)
    _, findings = prove(DEMO, files)
    assert _astray(findings, files) == []
