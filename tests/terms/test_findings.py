"""Findings joined and put in order; places and written texts that point at their parts."""

import pickle

import pytest

from publisher.terms import (
    Finding,
    Place,
    Severity,
    UnitSystem,
    Unusable,
    Variant,
    Written,
    did_you_mean,
    merge_findings,
)

INCH, METRIC = Variant(UnitSystem.INCH), Variant(UnitSystem.METRIC)


def _finding(
    name: str, line: int | None, says: str = "wrong", *variants: Variant, file: str = "pattern.yaml"
) -> Finding:
    place = None if line is None else Place(file, line, 3, line, 8)
    return Finding(name, Severity.ERROR, place, says, "mend it", variants)


def test_one_finding_in_two_variants_is_told_once_with_both() -> None:
    merged = merge_findings([_finding("edge", 4, "2 in", INCH), _finding("edge", 4, "5 cm", METRIC)])
    assert merged == (_finding("edge", 4, "2 in", INCH, METRIC),)


def test_a_variant_is_listed_once() -> None:
    merged = merge_findings([_finding("edge", 4, "a", INCH), _finding("edge", 4, "b", INCH, METRIC)])
    assert merged[0].variants == (INCH, METRIC)


def test_numbers_may_differ_between_the_variants_of_one_finding() -> None:
    inch = "'front's edge' is 16 1⁄4 in and 'back.side' is 16 in: 1⁄4 in apart"
    metric = "'front's edge' is 41.2 cm and 'back.side' is 40.5 cm: 7 mm apart"
    merged = merge_findings([_finding("apart", 4, inch, INCH), _finding("apart", 4, metric, METRIC)])
    assert merged == (_finding("apart", 4, inch, INCH, METRIC),)


def test_different_findings_of_one_name_at_one_place_are_all_told() -> None:
    lacking = [_finding("missing-key", 4, f"'snap' lacks '{key}'") for key in ("join", "kind", "name")]
    assert merge_findings(lacking) == tuple(lacking)
    heading = [
        _finding("wrong-heading", 4, "a heading with 1 signs"),
        _finding("wrong-heading", 4, "a heading without words"),
    ]
    assert merge_findings([*heading, *heading]) == tuple(heading)
    other = [_finding("no-such-name", 4, "no measure called 'a'", INCH), _finding("no-such-name", 4, "'b'", METRIC)]
    assert merge_findings(other) == tuple(sorted(other, key=lambda found: found.says))


@pytest.mark.parametrize(
    ("one", "other"),
    [
        (_finding("edge", 4), _finding("edge", 5)),  # another place
        (_finding("corner", 4), _finding("edge", 4)),  # another name
        (_finding("edge", None, "front"), _finding("edge", None, "with a place left out")),  # no place, other words
    ],
)
def test_different_findings_stay_apart(one: Finding, other: Finding) -> None:
    assert merge_findings([other, one]) == (one, other)


def test_findings_without_a_place_are_joined_by_their_words() -> None:
    merged = merge_findings([_finding("cloth", None, "short", INCH), _finding("cloth", None, "short", METRIC)])
    assert merged == (_finding("cloth", None, "short", INCH, METRIC),)


def test_findings_come_in_the_order_of_their_places() -> None:
    later = _finding("a", 2, file="steps.md")
    merged = merge_findings([later, _finding("b", 10), _finding("z", 9), _finding("a", 10), _finding("last", None)])
    assert [(found.name, found.place and str(found.place)) for found in merged] == [
        ("last", None),
        ("z", "pattern.yaml:9:3"),
        ("a", "pattern.yaml:10:3"),
        ("b", "pattern.yaml:10:3"),
        ("a", "steps.md:2:3"),
    ]


def test_unusable_carries_its_finding_through_pickling() -> None:
    finding = _finding("edge", 4, "no such edge")
    assert str(Unusable(finding)) == "no such edge"
    assert pickle.loads(pickle.dumps(Unusable(finding))).finding == finding


def test_a_part_of_a_place_stays_on_its_line() -> None:
    place = Place("pattern.yaml", 7, 10, 7, 22)
    assert place.part(2, 5) == Place("pattern.yaml", 7, 12, 7, 15)
    assert place.part(4, 4) == Place("pattern.yaml", 7, 14, 7, 15)  # never without a sign
    assert str(place) == "pattern.yaml:7:10"


def test_a_written_text_knows_the_places_of_its_parts() -> None:
    written = Written("10 in |  26 cm ", Place("pattern.yaml", 7, 10, 7, 25))
    inch, metric = written.split_at("|")
    assert (inch, inch.place) == ("10 in", Place("pattern.yaml", 7, 10, 7, 15))
    assert (metric, metric.place) == ("26 cm", Place("pattern.yaml", 7, 19, 7, 24))
    assert pickle.loads(pickle.dumps(metric)).place == metric.place


def test_a_quoted_text_has_only_its_whole_place() -> None:
    place = Place("pattern.yaml", 7, 10, 8, 4)
    written = Written("one, two", place, exact=False)
    assert [part.place for part in written.split_at(",")] == [place, place]


@pytest.mark.parametrize(
    ("word", "known", "hint"),
    [
        ("pokcet", ["depth", "pocket"], "did you mean 'pocket'?"),
        ("Title", ["title"], "did you mean 'title'?"),
        ("sanderlin", ["sandpiper", "sanderling-lined-pouch"], "did you mean 'sanderling-lined-pouch'?"),
        ("SAND", ["curlew-wash-bag", "sanderling-lined-pouch"], "did you mean 'sanderling-lined-pouch'?"),
        ("pocket", ["pocket of the lid", "pockets"], "did you mean 'pockets'?"),  # of those that it begins
        ("po", ["pocket of the lid"], "known here: 'pocket of the lid'"),  # too little to tell
        ("xyz", ["depth", "pocket"], "known here: 'depth', 'pocket'"),
        ("xyz", [], ""),
        ("q", [f"n{at}" for at in range(13)], "known here: " + ", ".join(f"'n{at}'" for at in range(12)) + ", …"),
    ],
)
def test_the_name_that_was_meant(word: str, known: list[str], hint: str) -> None:
    assert did_you_mean(word, known) == hint
