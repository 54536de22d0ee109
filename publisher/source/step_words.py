"""The words of a step or section as they are gathered line by line, and the fields below them: `Does:`, `Hint:` …"""

import dataclasses
import re
from dataclasses import field

from publisher.frozen import dataclass
from publisher.source.quotes import read_quotes
from publisher.source.values import WrittenAside
from publisher.terms import Finding, Place, Severity, Written, did_you_mean

ASIDES = ("Hint", "Caution")
FIELDS = ("Does", "Now", "Shows", *ASIDES, "Video", "Minutes", "Id")
LONGEST_STEP = 20_000
# It takes no longer than a line is long: no two parts beside each other can match the same signs.
_FIELD = re.compile(r"(\s*)([A-Z][a-z]+):(?:\s(.*))?$")
# Lines that are nearly fields: no space behind the colon, or a small letter first.
_CLOSE = re.compile(r"\s*(Does|Now|Shows|Hint|Caution|Video|Minutes|Id):\S")
_SMALL = re.compile(r"\s*(does|now|shows|hint|caution|video|minutes|id):(?:\s|$)")
_TIME = re.compile(r"(?:\d{1,2}:)?\d{1,2}:\d{2}")


@dataclass(frozen=True, slots=True)
class Line:
    """One line of the file, tabs in its indentation read as up to four spaces each."""

    text: str
    place: Place  # all of it, as it was written
    widened: int  # how many columns the tabs gave it more than were written

    def part(self, start: int, end: int) -> Place:
        """The place, as it was written, of the signs `start` to `end` (from 0) of the text."""
        first, behind = start + 1 - self.widened, max(end, start + 1) + 1 - self.widened
        return Place(self.place.file, self.place.line, first, self.place.line, behind)


def line_of(written: str, number: int, file: str) -> Line:
    """A line as it was written, its place and its text."""
    words = written.lstrip()
    indent = len(written) - len(words)
    widened = len(written[:indent].expandtabs(4)) - indent
    text = (indent + widened) * " " + words if words else ""
    return Line(text, Place(file, number, 1, number, len(written) + 1), widened)


@dataclasses.dataclass(slots=True)
class Words:
    """Lines of Markdown as they are gathered, and the fields below them."""

    place: Place
    number: int | None = None
    lines: list[str] = field(default_factory=list)
    quotes: list[Written] = field(default_factory=list)
    fields: dict[str, list[Written]] = field(default_factory=dict)
    asides: list[WrittenAside] = field(default_factory=list)
    behind_aside: bool = False  # the line before is a hint or a caution
    sub_steps_at: int | None = None  # the indentation of the sub-steps that the next line may continue
    signs: int = 0  # of all lines together
    full: bool = False  # there were too many, which has been told

    @property
    def text(self) -> Written:
        return Written("\n".join(self.lines).strip("\n"), self.place, exact=False)

    @property
    def at_gap(self) -> bool:
        """True at the beginning and behind an empty line."""
        return not self.lines or not self.lines[-1].strip()

    def one(self, name: str) -> Written | None:
        return self.fields.get(name, [None])[0]


def take_field(line: Line, here: Words, found: list[Finding]) -> bool:
    """True when the line is a field, or was meant as one."""
    match = _FIELD.match(line.text)
    if match is None:
        return _nearly_field(line, found)
    name, value = match[2], (match[3] or "").lstrip()
    if name not in FIELDS:
        meant = did_you_mean(name, FIELDS)
        if not meant.startswith("did you"):
            return False
        where = line.part(match.start(2), match.end(2))
        found.append(_error("unknown-field", where, f"no field called '{name}'", meant))
        return True
    start = match.end() - len(value)
    value = value.rstrip()
    written = Written(value, line.part(start, start + len(value)))
    if not value:
        where = line.part(match.start(2), match.end(2))
        found.append(_error("no-value", where, f"'{name}:' has no value", "write one behind it"))
    elif len(value) > LONGEST_STEP:
        found.append(too_much(written.place))
    elif name in ASIDES:
        quotes, unpaired = read_quotes(written)
        found.extend(unpaired)
        here.asides.append(WrittenAside(name.lower(), written, tuple(quotes)))
    elif _fits(name, written, here, found):
        here.fields.setdefault(name, []).append(written)
    here.behind_aside = name in ASIDES and bool(value)
    return True


def _nearly_field(line: Line, found: list[Finding]) -> bool:
    """True when the line was meant as a field; a small letter is told and may begin words all the same."""
    close, small = _CLOSE.match(line.text), _SMALL.match(line.text)
    if close is not None:
        where = line.part(close.start(1), close.end(1) + 1)
        mend = f"write '{close[1]}: …'"
        found.append(_error("field-not-read", where, f"no space stands behind '{close[1]}:'", mend))
        return True
    if small is not None:
        where = line.part(small.start(1), small.end(1) + 1)
        says = f"'{small[1]}:' is printed as it stands, with the words behind it"
        mend = f"if a field is meant, write '{small[1].capitalize()}: …'; if not, let the line begin with another word"
        found.append(Finding("field-not-read", Severity.WARNING, where, says, mend))
    return False


def _fits(name: str, written: Written, here: Words, found: list[Finding]) -> bool:
    if name == "Video" and not _TIME.fullmatch(written):
        found.append(
            _error("bad-time", written.place, f"'{written}' is no time in a video", "write minutes and seconds: 4:25")
        )
    elif name == "Minutes" and not re.fullmatch(r"\d{1,4}", written):
        found.append(
            _error("bad-minutes", written.place, f"'{written}' is no number of minutes", "write a whole number: 15")
        )
    elif name in ("Video", "Minutes", "Id") and name in here.fields:
        found.append(_error("doubled-key", written.place, f"'{name}:' is written twice here", "take one of them out"))
    elif name in ("Does", "Now", "Shows", "Id") and here.number is None:
        found.append(
            _error(
                "field-without-step",
                written.place,
                f"'{name}:' stands under no step",
                "write it, indented, under the step it belongs to",
            )
        )
    elif name == "Shows" and here.fields.get(name) and "none" in (written, here.fields[name][0]):
        mend = "take one of the two lines out"
        found.append(_error("doubled-key", written.place, "a step that shows none shows nothing else", mend))
    elif name == "Id" and not re.fullmatch(r"[a-z0-9-]{1,60}", written):
        found.append(_error("bad-id", written.place, f"'{written}' is no id", "use small letters, digits and hyphens"))
    else:
        return True
    return False


def too_much(place: Place) -> Finding:
    """A step or a field that no step can need."""
    return _error("too-much", place, f"more than {LONGEST_STEP} signs in one step", "make several steps of it")


def _error(name: str, place: Place, says: str, mend: str) -> Finding:
    return Finding(name, Severity.ERROR, place, says, mend)
