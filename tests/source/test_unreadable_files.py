"""Files that are missing, too large, not text or no YAML; and what a file may be without harm.

The guilty signs stand between guillemets, which the file itself does not hold.
"""

import pytest

from publisher.source import read_source
from publisher.terms import Place, Severity
from tests.source.marked import PATTERN, STEPS, folder, marked, read, told, whole_pattern

# The file, the finding, what it says, how it is mended. The file goes no further than this.
NO_YAML = [
    ("title: Pouch\nmeasures:\n«\t»width: 10 cm\n", "not-yaml", "a tab", "put spaces"),
    ("title: Pouch\nmeasures:\n  width: 10 cm\n«\t»depth: 4 cm\n", "not-yaml", "a tab", "put spaces"),
    ('title: «"»Pouch\nmaker: Me\n', "not-yaml", "never closed", "close it"),
    ("title: Pouch\nmaker: «'»Me\nlevel: easy\n", "not-yaml", "a quotation mark is opened here", "close it"),
    ("title: Pouch«:» small\n", "not-yaml", "a colon stands where no name can end", "in quotes"),
    ("measures:\n  width: 10 cm\n «d»epth: 4 cm\n", "not-yaml", "does not stand level", "two spaces for each level"),
    ("maker: «@»me\n", "not-yaml", "no value may begin with '@'", "in quotes"),
    ("care: «%»50 hot\n", "not-yaml", "no value may begin with '%'", "in quotes"),
    ("care: «`»hot`\n", "not-yaml", "no value may begin with '`'", "in quotes"),
    ("title: Pouch\nmaker: M«\x01»e\n", "not-yaml", "a sign that no text holds", "take it out"),
    ("title:\tPouch\nmaker:\tM«\x01»e\n", "not-yaml", "a sign that no text holds", "take it out"),
    ("title: P\xa0Q\nmaker: M«\x01»e\n", "not-yaml", "a sign that no text holds", "take it out"),
    # A name without its colon or space is told where it stands, and not in the next line.
    ("measures:\n  «width:10 cm»\n  depth: 4 cm\n", "not-yaml", "'width:10 cm' is neither 'name: value'", "a space"),
    ("measures:\n  depth: 4 cm\n  «width:10 cm»\n", "not-yaml", "'width:10 cm' is neither 'name: value'", "a space"),
    ("measures:\n  «width 10 cm»  # w\n\n  # d\n  depth: 4 cm\n", "not-yaml", "'width 10 cm' is", "a colon missing?"),
    ("measures:\n  depth: 4 cm\n  «width 10 cm»\n\nmaker: Me\n", "not-yaml", "'width 10 cm' is", "a colon missing?"),
    ("tools:\n  - iron\n  «-pins»\n", "not-yaml", "'-pins' is neither", "behind the dash"),
    ("maker: Me\n  «l»evel: easy\n", "not-yaml", "does not stand level", "as its neighbours"),
    ("  «t»itle: Pouch\nmaker: Me\n", "not-yaml", "does not stand level", "as its neighbours"),
    # Brackets, told where they are opened.
    ("title: Pouch\nsizes: «[»S, M\ntools:\n  - iron\n", "not-yaml", "opened and never closed", "one item a line"),
    ("title: Pouch\nsizes: «{»S: 1\ntools:\n  - iron\n", "not-yaml", "opened and never closed", "one item a line"),
    ("title: Pouch\nsizes: «[»S, M\n", "not-yaml", "opened and never closed", "close it"),
    ("sizes: [S«,», M]\n".replace("«,»,", ",«,»"), "not-yaml", "nothing stands before this ','", "write a value there"),
    ("sizes: [S]«]»\n", "not-yaml", "closed that was not opened", "take it out"),
    ("sizes: [a: b«:» c]\n", "not-yaml", "a comma is missing in this bracket", "by commas"),
    # Quotation marks.
    ('title: «"»Pouch\nmaker: "Me"\n', "not-yaml", "opened here and never closed", "in its own line"),
    ("title: «'»Pouch\nmaker: 'Me'\nlevel: easy\n", "not-yaml", "opened here and never closed", "in its own line"),
    ('title: "Pouch" «b»ag\n', "not-yaml", "text stands behind a quotation mark", "put all of it in quotes"),
    ('care: "a«\\q»b"\n', "not-yaml", "'\\q' means nothing within double", "write the backslash twice"),
    # What means something else where a value begins.
    ("width: «|» 15 cm\n", "not-yaml", "behind a '|' that begins a value", "inches before the bar"),
    ("about: «>» small\n", "not-yaml", "behind a '>' that begins a value", "on the lines below"),
    ("title: «*»New* pouch\n", "not-yaml", "no value may begin with '*'", "in quotes"),
    ("title: «&» a\n", "not-yaml", "no value may begin with '&'", "in quotes"),
    ("«%»50 hot\n", "not-yaml", "no value may begin with '%'", "in quotes"),
    ("tools: «-» iron\n", "not-yaml", "a list cannot begin in this line", "a line of its own"),
    ("title: Pouch\ncare: «*by» hand\n", "yaml-device", "'*by' is read as a reference", "in quotes"),
    ("title: Pouch\ncare: «&by hand»\n", "yaml-device", "'&by' is read as a reference", "in quotes"),
    ("title: Pouch\nterms: «!mine and yours»\n", "yaml-device", "'!mine' is read as a type", "in quotes"),
    ("title: Pouch\n«---»\nmaker: Me\n", "two-documents", "a second document begins here", "line of dashes"),
    ("tools: " + 19 * "[" + "«[»" + 20 * "]" + "\n", "too-deep", "more than 20 levels", "flatter"),
    ("tools:\n" + 19_997 * "- x\n" + "- «x»\n", "too-much", "more than 20000 values", "smaller"),
    ("«-» a list\n", "wrong-kind", "no list of names with values", "'title: …'"),
    ("«w»ords\n", "wrong-kind", "no list of names with values", "'title: …'"),
]


@pytest.mark.parametrize(("text", "name", "says", "mend"), NO_YAML, ids=[case[1] for case in NO_YAML])
def test_a_file_that_cannot_be_read_at_all(text: str, name: str, says: str, mend: str) -> None:
    pattern, (place,) = marked(text, PATTERN)
    source, findings = read(pattern)
    assert source is None
    assert told(findings) == [(name, place)]
    assert findings[0].severity is Severity.ERROR
    assert says in findings[0].says
    assert mend in findings[0].mend


@pytest.mark.parametrize(
    ("files", "missing"),
    [({}, [PATTERN, STEPS]), ({STEPS: b""}, [PATTERN]), ({PATTERN: whole_pattern("").encode()}, [STEPS])],
)
def test_a_file_that_is_missing(files: dict[str, bytes], missing: list[str]) -> None:
    source, findings = read_source("specimen", files)
    assert (source is None) is (PATTERN in missing)
    assert told(findings) == [("missing-file", Place(file, 1, 1, 1, 2)) for file in missing]
    assert [finding.says for finding in findings] == [f"the pattern folder has no {file}" for file in missing]


@pytest.mark.parametrize("file", [PATTERN, STEPS])
def test_a_file_of_more_than_a_million_bytes(file: str) -> None:
    files = dict(folder(whole_pattern("")))
    files[file] += b"\n" + (1_000_000 - len(files[file]) - 1) * b" "
    assert len(files[file]) == 1_000_000
    if file == PATTERN:
        assert read_source("specimen", files)[1] == ()
    for more in (1, 2_000_000):
        files[file] += more * b" "
        _, findings = read_source("specimen", files)
        assert told(findings) == [("too-much", Place(file, 1, 1, 1, 2))]
        assert findings[0].says == f"{file} has more than 1,000,000 bytes"


@pytest.mark.parametrize("file", [PATTERN, STEPS])
def test_a_line_that_is_not_utf8(file: str) -> None:
    """An é as Windows-1252 writes it is the single byte E9."""
    files = dict(folder(whole_pattern("level: easy\nmaker: Me\n"), "Sew.\nSew more.\n"))
    files[file] = files[file].replace(b"M", b"\xe9", 1) if file == PATTERN else files[file].replace(b"more", b"\xe9")
    _, findings = read_source("specimen", files)
    assert told(findings) == [("not-utf8", Place(file, 2, 1, 2, 2))]
    assert findings[0].mend == "save the file as UTF-8"


def test_a_file_saved_as_utf16() -> None:
    _, findings = read_source("specimen", {PATTERN: whole_pattern("").encode("utf-16"), STEPS: b""})
    assert told(findings) == [("not-utf8", Place(PATTERN, 1, 1, 1, 2))]


BOM = "\N{ZERO WIDTH NO-BREAK SPACE}"
ODD_LINES = "maker: Mé «#»2\nmeasures:\n  café width: 10 cm\n  «flap-width»: 4 cm\n"
ODD_STEPS = "«# Sew»\n\n1. Ärmel «}»\n   Does: {\n   Minutes: «soon»\n"


@pytest.mark.parametrize("bom", ["", BOM], ids=["without BOM", "with BOM"])
@pytest.mark.parametrize("ending", ["\n", "\r\n"], ids=["LF", "CRLF"])
def test_a_byte_order_mark_and_line_ends_move_no_column(bom: str, ending: str) -> None:
    pattern, in_pattern = marked(whole_pattern(ODD_LINES), PATTERN)
    steps, in_steps = marked(ODD_STEPS, STEPS)
    _, findings = read(*(bom + text.replace("\n", ending) for text in (pattern, steps)))
    names = ["wrong-heading", "open-brace", "bad-minutes", "comment-cuts-value", "bad-name"]
    assert told(findings) == list(zip(names, [*in_steps, *in_pattern], strict=True))


def test_a_file_just_within_bounds() -> None:
    """Twenty levels and twenty thousand values are read; what is told is that they are no pattern."""
    levels = 19 * "[" + 19 * "]"
    assert [finding.name for finding in read(whole_pattern(f"tools: {levels}"))[1]] == ["wrong-kind"]
    values = (20_000 - 3) * "- x\n"
    assert {finding.name for finding in read(f"tools:\n{values}")[1]} == {"missing-key"}
