"""How hypothesis looks for counterexamples: the same ones in every run, so that a failure is a change's own.

`pytest --hypothesis-profile search` looks for new ones, and for longer.
"""

import os
from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import settings

settings.register_profile("steady", derandomize=True, deadline=None)
settings.register_profile("search", max_examples=2000, deadline=None)
settings.load_profile("steady")
# No test waits for cutting layouts but those that ask for them.
os.environ["PUBLISHER_NO_SOLVING"] = "1"


def pytest_addoption(parser: pytest.Parser) -> None:
    """`pytest --regild` writes the golden texts anew; look at every line that changed."""
    parser.addoption("--regild", action="store_true", help="write the golden texts anew")


@pytest.fixture
def golden(request: pytest.FixtureRequest) -> Callable[[str, str], None]:
    """Compares a text with the one kept beside the test, in its folder `golden`."""

    def compare(name: str, text: str) -> None:
        kept = Path(request.path).parent / "golden" / f"{name}.txt"
        if request.config.getoption("--regild"):
            kept.parent.mkdir(exist_ok=True)
            kept.write_text(text, "utf-8")
        assert text == kept.read_text("utf-8")

    return compare
