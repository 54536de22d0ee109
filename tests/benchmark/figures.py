"""Figures of steps, of every demo and unit system: `python tests/benchmark/figures.py`.

Time for all of a demo (panels, layout, SVG; the draft is there), the size of its SVGs, steps with a figure, and steps
with one that needed no `Shows:` by hand.
"""

import statistics
import sys
import time
from pathlib import Path

ROOT = Path(__file__).parents[2]
sys.path.insert(0, str(ROOT))

from publisher.edition.step_figures import build_step_figures  # noqa: E402
from publisher.edition.words import speaker  # noqa: E402
from publisher.terms import UnitSystem  # noqa: E402
from tests.demo import DEMOS, demo_proof  # noqa: E402

RUNS = 3


def main() -> None:
    """Prints the table: seconds are the least of a few runs, kB the median and the largest SVG."""
    print(f"{'':34}{'seconds':>9}{'kB median':>11}{'largest':>9}{'steps':>7}{'with figure':>13}{'no hand':>9}")
    steps_of_all, own_of_all = 0, 0
    for demo in DEMOS:
        proof = demo_proof(demo)
        steps = [step for section in proof.source.sections for step in section.steps]
        for units in UnitSystem:
            drafts, speak, times = proof.drafts_of(units), speaker("en", units), []
            for _ in range(RUNS):
                begin = time.perf_counter()
                figures = build_step_figures(proof, drafts, speak).figures
                times.append(time.perf_counter() - begin)
            sizes = [len(figure.svg.encode()) / 1000 for figure in figures.values()]
            own = sum(step.id in figures and not step.shows for step in steps)
            steps_of_all, own_of_all = steps_of_all + len(steps), own_of_all + own
            print(
                f"{demo + ', ' + units.value:34}{min(times):9.2f}{statistics.median(sizes):11.1f}{max(sizes):9.1f}"
                f"{len(steps):7}{len(figures):13}{own:9}"
            )
    print(f"without a hand: {own_of_all / steps_of_all:.1%}")


if __name__ == "__main__":
    main()
