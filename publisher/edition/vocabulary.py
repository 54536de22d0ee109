"""The terms of the trade that a pattern uses, from the words file: found as whole words in what the reader sees."""

import re
from collections.abc import Iterable
from html import unescape

from publisher.edition.words import Speaker
from publisher.frozen import dataclass

_ENTRY = re.compile(r"terms\.(.+)\.name")
_BLOCK_END = re.compile(r"</(?:p|li|ul|ol|blockquote|pre|h\d)>|<br\s*/?>")
_TAG = re.compile(r"<[^>]*>")


@dataclass(frozen=True, slots=True)
class Term:
    """A term with its abbreviation, and what it means."""

    name: str
    meaning: str


def used_terms(texts: Iterable[str], speak: Speaker) -> tuple[Term, ...]:
    """The terms of the words file that a text bears in one of their forms, in the order of that file.

    Where forms overlap the longest is taken: "bias binding" does not call for "bias".
    """
    keys = [match[1] for line in speak.lines if (match := _ENTRY.fullmatch(line))]
    forms = {_folded(form): key for key in keys for form in speak.line(f"terms.{key}.forms").split(" | ")}
    if not forms:
        return ()
    longest_first = sorted(forms, key=lambda form: (-len(form), form))
    sought = re.compile(rf"\b(?:{'|'.join(map(_sought, longest_first))})\b")
    used = {forms[_folded(match[0], forms)] for text in texts for match in sought.finditer(" ".join(text.split()))}
    return tuple(
        Term(speak.line(f"terms.{key}.name"), speak.line(f"terms.{key}.meaning")) for key in keys if key in used
    )


def _folded(form: str, known: Iterable[str] = ()) -> str:
    """A form as it is looked up: an abbreviation in its capitals, anything else in small letters."""
    return form if form.isupper() and (not known or form in known) else form.lower()


def _sought(form: str) -> str:
    return re.escape(form) if form.isupper() else f"(?i:{re.escape(form)})"


def readable(html: str) -> str:
    """The words of HTML as a reader sees them, paragraphs parted by a space."""
    return unescape(_TAG.sub("", _BLOCK_END.sub(" ", html)))
