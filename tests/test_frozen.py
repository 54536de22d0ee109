"""Values made quickly are what the standard library's frozen dataclasses are, but for the guard at run time."""

import dataclasses
import pickle
from dataclasses import field

import pytest

from publisher.frozen import dataclass


@dataclass(frozen=True, slots=True)
class Quick:
    name: str
    place: int = field(default=0, compare=False)
    parts: tuple[int, ...] = field(default_factory=tuple, repr=False)


@dataclasses.dataclass(frozen=True, slots=True)
class Standard:
    name: str
    place: int = field(default=0, compare=False)
    parts: tuple[int, ...] = field(default_factory=tuple, repr=False)


@dataclass(frozen=True, slots=True)
class Wider(Quick):
    width: float = 1.0


@dataclass(frozen=True, slots=True)
class Single:
    amount: int


@dataclass(frozen=True, slots=True)
class Empty:
    pass


@dataclass(frozen=True, slots=True)
class Reckoned:
    amount: int
    double: int = 0

    def __post_init__(self) -> None:
        if self.amount < 0:
            raise ValueError("less than nothing")

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Reckoned)

    def __hash__(self) -> int:
        return 7

    def __repr__(self) -> str:
        return "reckoned"


GIVEN = [("hem",), ("hem", 1), ("hem", 0, (1, 2)), ("seam", 3, (2, 1))]


@pytest.mark.parametrize("first", GIVEN)
@pytest.mark.parametrize("second", GIVEN)
def test_equality_hash_and_text_are_the_standard_ones(first: tuple, second: tuple) -> None:  # type: ignore[type-arg]
    assert (Quick(*first) == Quick(*second)) is (Standard(*first) == Standard(*second))
    assert (hash(Quick(*first)) == hash(Quick(*second))) is (hash(Standard(*first)) == hash(Standard(*second)))
    assert repr(Quick(*first)) == repr(Standard(*first)).replace("Standard", "Quick")


def test_another_class_is_never_equal() -> None:
    assert Quick("hem") != Standard("hem")
    assert Quick("hem") != Wider("hem")
    assert Quick("hem").__eq__("hem") is NotImplemented


def test_one_field_and_none() -> None:
    assert Single(1) == Single(1) != Single(2)
    assert hash(Single(1)) == hash(Single(1)) != hash(Single(2))
    assert Empty() == Empty()
    assert {Empty(), Empty()} == {Empty()}
    assert repr(Empty()) == "Empty()"


def test_inherited_fields_take_part() -> None:
    assert Wider("hem", 0, (), 2.0) != Wider("hem")
    assert repr(Wider("hem")) == "Wider(name='hem', place=0, width=1.0)"
    assert not hasattr(Wider("hem"), "__dict__")


def test_own_methods_stay() -> None:
    assert Reckoned(1) == Reckoned(2)
    assert hash(Reckoned(1)) == 7
    assert repr(Reckoned(1)) == "reckoned"
    with pytest.raises(ValueError, match="less than nothing"):
        Reckoned(-1)


def test_what_reads_fields_sees_a_dataclass() -> None:
    assert dataclasses.is_dataclass(Quick)
    assert dataclasses.replace(Quick("hem", 4, (1,)), name="seam") == Quick("seam", 4, (1,))
    assert [one.name for one in dataclasses.fields(Wider)] == ["name", "place", "parts", "width"]
    assert pickle.loads(pickle.dumps(Wider("hem", 3, (1, 2), 4.0))) == Wider("hem", 3, (1, 2), 4.0)
    assert pickle.loads(pickle.dumps(Wider("hem", 3))).place == 3
    match Quick("hem", 1, (5,)):
        case Quick(name, place, parts):
            assert (name, place, parts) == ("hem", 1, (5,))


def test_it_is_for_frozen_and_slotted_values_alone() -> None:
    with pytest.raises(ValueError, match="frozen and slotted"):
        dataclass(frozen=False, slots=True)
