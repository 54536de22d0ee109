"""steps.md: sections, numbered steps, sub-steps, field lines and quotes, located before Markdown sees the words."""

import re
from dataclasses import dataclass, field
from itertools import count

from publisher.source.quotes import read_quotes
from publisher.source.step_words import LONGEST_STEP, Line, Words, line_of, take_field, too_much
from publisher.source.values import WrittenSection, WrittenStep
from publisher.terms import Finding, Place, Severity, Written

MOST_STEPS = 200
# None of these takes longer than a line is long: no two parts beside each other can match the same signs.
_HEADING = re.compile(r"(#{1,6})\s*(.*)")
_ITEM = re.compile(r"(\d{1,4})[.)]\s+(\S.*)$")
_CLOSE = re.compile(r"(\d{1,4})[.)]([^\W\d_].*)$")  # an item without the space
_SUB_STEP = re.compile(r"(\s+)(\d{1,3})[.)]\s+(\S.*)$")
_BULLET = re.compile(r"[-*+]\s")


@dataclass(slots=True)
class _Section:
    title: Written
    intro: Words
    before: int = 0  # steps in the sections before
    steps: list[Words] = field(default_factory=list)


def read_steps(text: str, file: str) -> tuple[tuple[WrittenSection, ...], tuple[Finding, ...]]:
    """The sections of a steps file, the words before the first heading as a section without title, and findings."""
    found: list[Finding] = []
    start = Place(file, 1, 1, 1, 2)
    sections = [_Section(Written("", start), Words(start))]
    here = sections[0].intro
    for number, written in enumerate(text.splitlines(), start=1):
        here = _read_line(line_of(written, number, file), sections, here, found)
    _check_numbers(sections, found)
    return _finished(sections, found), tuple(found)


def _read_line(line: Line, sections: list[_Section], here: Words, found: list[Finding]) -> Words:
    """Takes one line in and returns the words that the next line belongs to."""
    heading, item = _HEADING.match(line.text), _ITEM.match(line.text)
    if heading:
        return _new_section(heading, line, sections, found)
    item = item or _close_item(line, sections, found)
    if item:
        step = Words(line.place, int(item[1]))
        sections[-1].steps.append(step)
        _add(step, item[2], item.start(2), line, found)
        return step
    if take_field(line, here, found):
        return here
    _tell_indented_step(line, sections, here, found)
    _take_words(line, here, found)
    return here


def _counted(sections: list[_Section]) -> int:
    """How many steps have been read so far."""
    return sections[-1].before + len(sections[-1].steps)


def _close_item(line: Line, sections: list[_Section], found: list[Finding]) -> re.Match[str] | None:
    """The next step, or another number 1, without the space behind its number: told, and taken as the step it is."""
    item = _CLOSE.match(line.text)
    if item is None or int(item[1]) not in (1, _counted(sections) + 1):
        return None
    number = line.text[: item.start(2)]
    mend = f"write '{number} {item[2][:20]}…', or let the line begin with a word"
    says = f"no space stands behind '{number}', which begins a step only with one"
    found.append(_error("step-not-read", line.part(0, len(number)), says, mend))
    return item


def _tell_indented_step(line: Line, sections: list[_Section], here: Words, found: list[Finding]) -> None:
    """Warns of an indented line that bears the next step's number where no sub-steps are: it is printed as words.

    Level with the words of a step and right below them it is one of their lines, and the number one of their words.
    """
    item = _SUB_STEP.match(line.text)
    if item is None or here.sub_steps_at is not None or int(item[2]) != _counted(sections) + 1:
        return
    level = 0 if here.number is None else len(str(here.number)) + 2
    if level and len(item[1]) >= level and not here.at_gap:
        return
    where = line.part(item.start(2), item.end(2) + 1)
    says = f"this line is indented, so it is printed as words and is no step {item[2]}"
    mend = "if a step is meant, begin it at the left; if a list is meant, begin its lines with '- '"
    found.append(Finding("step-not-read", Severity.WARNING, where, says, mend))


def _take_words(line: Line, here: Words, found: list[Finding]) -> None:
    """A line of Markdown: a sub-step, what goes on with one, or words of the step or section itself."""
    if here.number is not None and _take_sub_step(line, here, found):
        here.behind_aside = False
        return
    if here.behind_aside and line.text.strip():
        found.append(
            _error(
                "field-goes-on",
                line.place,
                "this line follows a hint or a caution, which takes one line",
                "write all of it on the line above, or leave an empty line before words of the step",
            )
        )
    here.behind_aside = False
    text = _outdented(line, here)
    if here.sub_steps_at is not None and line.text.strip():
        if not here.at_gap:
            # Markdown would take deep indentation for something else than the sub-step's own words.
            text = ("    " if _BULLET.match(line.text.lstrip()) else "") + line.text.lstrip()
        else:
            here.sub_steps_at = None
    _add(here, text, len(line.text) - len(text), line, found)


def _take_sub_step(line: Line, here: Words, found: list[Finding]) -> bool:
    """True when the line begins a sub-step. The first one is numbered 1, or stands behind an empty line, so that a
    number at a line's start within a sentence begins no list."""
    item = _SUB_STEP.match(line.text)
    begins = item is not None and (int(item[2]) == 1 or here.at_gap)
    if item is None or (here.sub_steps_at is None and not begins):
        return False
    if here.sub_steps_at is None:
        here.sub_steps_at = len(item[1])
        if not here.at_gap:
            here.lines.append("")
    elif len(item[1]) > here.sub_steps_at + 1:
        where = line.part(item.start(2), len(line.text))
        mend = "make steps of it, or sub-steps in a row"
        found.append(_error("sub-steps-nested", where, "a list inside a sub-step", mend))
    text = f"{item[2]}. {item[3]}"
    _add(here, text, len(line.text) - len(text), line, found)
    return True


def _outdented(line: Line, here: Words) -> str:
    """A step's lines without the indentation that made them the step's, so that Markdown sees its own."""
    if here.number is None:
        return line.text
    indent = len(line.text) - len(line.text.lstrip())
    return line.text[min(indent, len(str(here.number)) + 2) :]


def _new_section(heading: re.Match[str], line: Line, sections: list[_Section], found: list[Finding]) -> Words:
    if len(heading[1]) != 2:
        found.append(
            _error(
                "wrong-heading", line.place, f"a heading with {len(heading[1])} signs", "begin each section with '## '"
            )
        )
    words = heading[2].rstrip().rstrip("#").rstrip()
    title = Written(words, line.part(heading.start(2), heading.start(2) + len(words)))
    if not title:
        found.append(_error("wrong-heading", line.place, "a heading without words", "name the section"))
    sections.append(_Section(title, Words(line.place), before=_counted(sections)))
    return sections[-1].intro


def _add(words: Words, text: str, start: int, line: Line, found: list[Finding]) -> None:
    """One line of Markdown, its quotes found with their places."""
    if words.full:
        return
    words.signs += len(text)
    if words.signs > LONGEST_STEP:
        words.full = True
        found.append(too_much(line.place))
        return
    words.lines.append(text)
    quotes, unpaired = read_quotes(Written(text, line.part(start, start + len(text))))
    words.quotes += quotes
    found += unpaired


def _check_numbers(sections: list[_Section], found: list[Finding]) -> None:
    steps = [step for section in sections for step in section.steps]
    for counted, step in enumerate(steps, start=1):
        if step.number != counted:
            found.append(
                Finding(
                    "step-number",
                    Severity.WARNING,
                    step.place,
                    f"this is step {counted}, and it is numbered {step.number}",
                    f"write {counted}.; the edition counts them itself, and a sub-step is indented",
                )
            )
            break
    if len(steps) > MOST_STEPS:
        found.append(
            _error("too-much", steps[MOST_STEPS].place, f"more than {MOST_STEPS} steps", "make several patterns of it")
        )


def _finished(sections: list[_Section], found: list[Finding]) -> tuple[WrittenSection, ...]:
    ids = _ids(sections, found)
    finished: list[WrittenSection] = []
    number = 0
    for section in sections:
        steps: list[WrittenStep] = []
        for words in section.steps[:MOST_STEPS]:
            number += 1
            steps.append(_step(words, number, ids[number - 1]))
        if section.title or section.intro.text or section.intro.asides or steps or len(sections) == 1:
            intro = section.intro
            finished.append(
                WrittenSection(
                    section.title,
                    intro.text,
                    tuple(intro.quotes),
                    tuple(intro.asides),
                    intro.one("Video"),
                    intro.one("Minutes"),
                    tuple(steps),
                    intro.place,
                )
            )
    return tuple(finished)


def _ids(sections: list[_Section], found: list[Finding]) -> list[str]:
    """An id for each step, no two alike: its own, else one made of its section and words that is no step's own."""
    steps = [(section, words) for section in sections for words in section.steps[:MOST_STEPS]]
    owned = {str(own) for _, words in steps if (own := words.one("Id"))}
    taken: set[str] = set()
    ids: list[str] = []
    for section, words in steps:
        own = words.one("Id")
        if own in taken and own is not None:
            says = f"the id '{own}' is used twice"
            found.append(_error("doubled-key", own.place, says, "give this step another one"))
        wanted = str(own) if own else _slug(f"{section.title} {' '.join(words.text.split()[:6])}")
        others = taken if own else taken | owned
        more = (f"{wanted}-{number}" for number in count(2))
        ids.append(wanted if wanted not in others else next(one for one in more if one not in taken | owned))
        taken.add(ids[-1])
    return ids


def _step(words: Words, number: int, id_: str) -> WrittenStep:
    return WrittenStep(
        id=id_,
        number=number,
        text=words.text,
        quotes=tuple(words.quotes),
        asides=tuple(words.asides),
        does=tuple(words.fields.get("Does", ())),
        now=tuple(words.fields.get("Now", ())),
        shows=tuple(words.fields.get("Shows", ())),
        video=words.one("Video"),
        minutes=words.one("Minutes"),
        place=words.place,
    )


def _slug(text: str) -> str:
    """Small letters, digits and hyphens, from the section's title and the step's first words."""
    return re.sub(r"[^a-z0-9]+", "-", text.casefold()).strip("-")[:60].rstrip("-") or "step"


def _error(name: str, place: Place, says: str, mend: str) -> Finding:
    return Finding(name, Severity.ERROR, place, says, mend)
