"""Pages, sheets and ink of every demo and edition: `python tests/benchmark/ink.py`; `--all-pages`: those on request too."""

import statistics
import sys
from pathlib import Path

ROOT = Path(__file__).parents[2]
sys.path.insert(0, str(ROOT))

from publisher.edition import Request  # noqa: E402
from publisher.template_pages import EDITIONS  # noqa: E402
from tests.demo import DEMOS, printed_demo  # noqa: E402
from tests.pdfium_reading import blackness_of  # noqa: E402


def main() -> None:
    """Prints the table: ink is the share of a page that is black, per cent, mean and worst page."""
    requests = tuple(Request) if "--all-pages" in sys.argv[1:] else ()
    print(f"{'':40}{'':>7}{'template':>10}{'text pages':>18}{'template pages':>18}")
    print(f"{'':40}{'pages':>7}{'sheets':>10}{'mean':>10}{'worst':>8}{'mean':>10}{'worst':>8}")
    for demo in DEMOS:
        for edition in EDITIONS:
            printed = printed_demo(edition.name, demo, requests)
            inks = blackness_of(printed.pdf)
            parts = (inks[: -printed.template_pages], inks[-printed.template_pages :])
            figures = "".join(f"{statistics.mean(part):10.2f}{max(part):8.2f}" for part in parts)
            print(f"{demo + ', ' + edition.name:40}{printed.pages:7}{printed.template_pages:10}{figures}")


if __name__ == "__main__":
    main()
