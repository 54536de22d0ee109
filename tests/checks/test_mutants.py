"""One broken demo of each kind is found by the check that should; `python tests/checks/mutate.py` breaks them all."""

import pytest

from tests.checks.mutate import KINDS, is_found, mutants

FIRST = {mutant.kind: mutant for mutant in reversed(list(mutants()))}


@pytest.mark.parametrize("kind", KINDS)
def test_the_first_mutant_of_each_kind_is_found(kind: str) -> None:
    found, names = is_found(FIRST[kind])
    assert found, f"{FIRST[kind].demo}: {FIRST[kind].what}: found {sorted(names)}, expected {FIRST[kind].expected}"
