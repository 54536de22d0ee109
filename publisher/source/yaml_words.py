"""What the YAML parser complains of, told in plain words where the maker's eye should go."""

import re
from collections.abc import Callable

from publisher.frozen import dataclass
from publisher.terms import Finding, Place, Severity

Spot = tuple[int, int]  # line and column from 0


@dataclass(frozen=True, slots=True)
class Complaint:
    """The parser's own words and where it stood; `since` is where the thing began that it was reading."""

    problem: str
    context: str
    at: Spot | None  # None: the sign itself cannot be read, before anything else is
    since: Spot | None
    quoted: tuple[Spot, Spot] | None  # where the last value in quotation marks began and ended, if nothing came since
    odd: str | None  # the sign that cannot be read


@dataclass(frozen=True, slots=True)
class Told:
    """What is wrong, how to mend it, and the signs it is about."""

    says: str
    mend: str
    at: Spot
    width: int = 1


def in_plain_words(complaint: Complaint, text: str, file: str) -> Finding:
    """The finding that a complaint of the parser amounts to."""
    lines = text.splitlines() or [""]
    at = complaint.at or _odd_sign(complaint.odd, text)
    line = min(at[0], len(lines) - 1)
    spot = (line, min(at[1], len(lines[line])) if line == at[0] else len(lines[line]))
    told = next(filter(None, (rule(complaint, lines, spot) for rule in RULES)), None)
    if told is None:
        says = f"this is no YAML ({complaint.problem})"
        told = Told(says, "look at the signs and the indentation of this line", spot)
    row, column = told.at
    place = Place(file, row + 1, column + 1, row + 1, column + 1 + max(told.width, 1))
    return Finding("not-yaml", Severity.ERROR, place, told.says, told.mend)


def _odd_sign(sign: str | None, text: str) -> Spot:
    for number, line in enumerate(text.splitlines(keepends=True)):
        if sign and sign in line:
            return number, line.index(sign)
    return 0, 0


def _tab(told: Complaint, lines: list[str], at: Spot) -> Told | None:
    line = lines[at[0]]
    if "\t" in line[: _indent(line)] or "\\t" in told.problem or "'\t'" in told.problem:
        return Told("a tab; YAML is indented with spaces", "put spaces in its place, two for each level", at)
    return None


def _escape(told: Complaint, lines: list[str], at: Spot) -> Told | None:
    """A backslash within double quotes, where it changes the sign behind it."""
    if "quoted scalar" not in told.context or not re.search("escape|hex", told.problem):
        return None
    start = lines[at[0]].rfind("\\", 0, at[1] + 1)
    says = f"'{lines[at[0]][start : start + 2]}' means nothing within double quotation marks"
    return Told(says, "write the backslash twice, or use single quotation marks", (at[0], start), 2)


def _quotation_marks(told: Complaint, lines: list[str], at: Spot) -> Told | None:
    """A mark that is never closed, or closed only by one that was meant to open another value."""
    never = "a quotation mark is opened here and never closed"
    if "quoted scalar" in told.context and told.since is not None:
        return Told(never, "close it, or take it out", told.since)
    if told.quoted is None or "expected key" not in told.problem:
        return None
    start, end = told.quoted
    if end[0] != at[0] or lines[at[0]][end[1] : at[1]].strip():
        return None
    if start[0] < end[0]:
        return Told(never, "close it in its own line, or take it out", start)
    says = "text stands behind a quotation mark that closes the value"
    return Told(says, "put all of it in quotes, and write a quotation mark within as the other kind", at)


def _no_name(told: Complaint, lines: list[str], at: Spot) -> Told | None:
    """A line without the colon and space that make a name of its beginning, told where it stands and not in the next."""
    if "could not find expected ':'" in told.problem or "simple key" in told.context:
        return _neither(lines, told.since[0] if told.since else at[0])
    if "mapping values are not allowed" not in told.problem or ": " in lines[at[0]][: at[1]]:
        return None
    before = _before(lines, at[0])
    if before is None:
        return None
    return _not_level(at[0], lines) if _begins(lines[before]) else _neither(lines, before)


def _before(lines: list[str], row: int) -> int | None:
    """The line with something on it that comes before."""
    return next((before for before in range(row - 1, -1, -1) if _content(lines[before])), None)


def _begins(line: str) -> bool:
    """True when the line begins a name's value or a list's item."""
    return re.search(r":(\s|$)|^\s*-\s", line) is not None


def _indent(line: str) -> int:
    return len(line) - len(line.lstrip())


def _content(line: str) -> str:
    return re.sub(r"(^|\s)#.*", "", line).strip()


def _neither(lines: list[str], row: int) -> Told:
    line = lines[row]
    written = _content(line) or line.strip()
    sign = "dash" if written.startswith("-") else "colon"
    mend = f"is a space missing behind the {sign}?" if sign == "dash" or ":" in written else "is a colon missing?"
    says = f"'{written}' is neither 'name: value' nor '- item'"
    return Told(says, mend, (row, _indent(line)), len(written))


def _not_level(row: int, lines: list[str], column: int | None = None) -> Told:
    line = lines[row]
    start = _indent(line) if column is None else column
    says = "this line does not stand level with those it belongs to"
    return Told(says, "indent it as its neighbours, two spaces for each level", (row, start))


def _colon(told: Complaint, lines: list[str], at: Spot) -> Told | None:
    if "mapping values are not allowed" not in told.problem:
        return None
    says = "a colon stands where no name can end"
    return Told(says, "put the whole value in quotes, or begin a new line for the new name", at)


def _bracket(told: Complaint, lines: list[str], at: Spot) -> Told | None:
    """Brackets that do not pair, and what stands wrong in them."""
    line = lines[at[0]]
    sign = line[at[1] : at[1] + 1]
    if "flow" in told.context and "expected ','" in told.problem and told.since is not None:
        if told.since[0] == at[0] and re.search(r"[\]}]", line[at[1] :]):
            says = "a comma is missing in this bracket"
            return Told(says, "part its values by commas, and put a value with a colon in quotes", at)
        says = "a bracket is opened and never closed"
        return Told(says, "close it, or write one item a line, each behind '- '", told.since)
    if sign and sign in "]}" and re.search("block|expected key", told.problem + told.context):
        return Told("a bracket is closed that was not opened", "take it out, or put the value in quotes", at)
    if "expected node content" in told.problem and sign:
        says = f"nothing stands before this '{sign}'"
        return Told(says, "write a value there, or take the sign out", at)
    return None


def _first_sign(told: Complaint, lines: list[str], at: Spot) -> Told | None:
    """Signs that mean something to YAML where a value begins."""
    if re.search("an alias|an anchor|a tag|a directive|parsing a node", told.context):
        at = told.since or at
    elif "cannot start any token" not in told.problem:
        return None
    return Told(f"no value may begin with '{lines[at[0]][at[1] : at[1] + 1]}'", "put the value in quotes", at)


def _text_below(told: Complaint, lines: list[str], at: Spot) -> Told | None:
    if "block scalar" not in told.context or "line break" not in told.problem or told.since is None:
        return None
    sign = lines[told.since[0]][told.since[1]]
    mend = "write the text on the lines below, indented"
    mend += "; a length has its inches before the bar: 6 in | 15 cm" if sign == "|" else "; or put it in quotes"
    return Told(f"behind a '{sign}' that begins a value nothing else may stand in its line", mend, told.since)


def _list_beside_name(told: Complaint, lines: list[str], at: Spot) -> Told | None:
    if "block sequence entries" not in told.problem:
        return None
    return Told("a list cannot begin in this line", "write each item on a line of its own, below and indented", at)


def _level(told: Complaint, lines: list[str], at: Spot) -> Told | None:
    if "document start" in told.problem:
        first = next(row for row, line in enumerate(lines) if _content(line))
        return _not_level(first if lines[first][:1] == " " else at[0], lines)
    row = _before(lines, at[0])
    if "expected key" in told.problem and row is not None and not _begins(lines[row]) and _indent(lines[row]) == at[1]:
        return _neither(lines, row)
    if "expected key" in told.problem or "block" in told.context or "block" in told.problem:
        return _not_level(at[0], lines, at[1])
    return None


def _unreadable(told: Complaint, lines: list[str], at: Spot) -> Told | None:
    if told.odd is None and "characters" not in told.problem:
        return None
    return Told("a sign that no text holds", "take it out; it may have come with copied text", at)


# The first that knows the complaint tells it.
RULES: tuple[Callable[[Complaint, list[str], Spot], Told | None], ...] = (
    _unreadable,
    _escape,
    _quotation_marks,
    _tab,
    _no_name,
    _colon,
    _bracket,
    _first_sign,
    _text_below,
    _list_beside_name,
    _level,
)
