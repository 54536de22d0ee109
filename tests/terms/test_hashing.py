"""Equal values hash alike, different ones do not, and where something was written takes no part."""

from dataclasses import dataclass, field
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from publisher.terms import Place, Severity, UnitSystem, Variant, Written, content_hash, length, number, walked


@dataclass(frozen=True, slots=True)
class Strap:
    """A value with a place, as the stages make them."""

    name: str
    length: object
    place: Place = field(compare=False)


HERE, THERE = Place("pattern.yaml", 3, 5, 3, 9), Place("pattern.yaml", 40, 1, 40, 5)


def test_places_take_no_part() -> None:
    here, there = Strap("strap", length(300), HERE), Strap("strap", length(300), THERE)
    assert here == there
    assert content_hash(here) == content_hash(there)
    assert content_hash(Written("strap", HERE)) == content_hash(Written("strap", THERE)) == content_hash("strap")


def test_a_place_hashed_for_itself_does() -> None:
    assert content_hash(HERE) != content_hash(THERE)


def test_sixteen_hexadecimal_digits_the_same_in_every_process() -> None:
    # sha256 of "str:5:strap;", first 16 digits, by another program: printf 'str:5:strap;' | sha256sum
    assert content_hash("strap") == "1212138379f25866"


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("ab", "ba"),
        (("ab", "c"), ("a", "bc")),  # text does not run over from one item into the next
        (("a", ("b",)), ("a", "b")),
        (length(3), number(3)),
        (length(3), length(Fraction(31, 10))),
        ("1", 1),
        (b"a", "a"),
        (None, ""),
        (True, 1),
        (UnitSystem.INCH, UnitSystem.METRIC),
        (Variant(UnitSystem.INCH), Variant(UnitSystem.INCH, "S")),
        (Severity.ERROR, "ERROR"),
        ({"a": 1}, {"a": 2}),
        ((), {}),
    ],
)
def test_different_values_hash_differently(one: object, other: object) -> None:
    assert content_hash(one) != content_hash(other)


def test_the_order_of_a_mapping_takes_no_part() -> None:
    assert content_hash({"a": 1, "b": 2}) == content_hash({"b": 2, "a": 1})


def test_what_cannot_be_walked_is_refused() -> None:
    with pytest.raises(TypeError, match="no content hash for object"):
        content_hash(("strap", object()))


LEAVES = st.one_of(st.none(), st.booleans(), st.integers(), st.fractions(), st.text(), st.binary())
VALUES = st.recursive(LEAVES, lambda inner: st.lists(inner, max_size=4).map(tuple), max_leaves=12)


@given(VALUES, VALUES)
def test_hashes_are_equal_exactly_when_the_values_are_written_alike(one: object, other: object) -> None:
    assert (content_hash(one) == content_hash(other)) == (repr(one) == repr(other))


def test_points_hash_as_any_pairs_and_parts_as_the_whole() -> None:
    """The numbers were taken when points had no way of their own."""
    ring = ((1.0, 2.5), (0.1, -3.0))
    assert content_hash(ring) == "1d5026fb4776dc8a"
    assert content_hash((("a", ring, 2),)) == content_hash((("a", walked(ring), 2),)) == "6fb31d8c62f3b3ad"
    assert content_hash(((1, 2.0),)) != content_hash(((1.0, 2.0),))
