"""Cutting layouts in figures: `python tests/benchmark/nesting.py [SECONDS …]`. Not part of the tests: it takes minutes.

Open instances of irregular strip packing first: published length over ours (1 is a tie), two workers, 5 s and 20 s unless
seconds are given. Then every layout of the demos: rows beside what a solver finds in two seconds, both checked.
"""

import json
import statistics
import sys
import time
from collections.abc import Iterator
from pathlib import Path

ROOT = Path(__file__).parents[2]
sys.path.insert(0, str(ROOT))

from publisher.cloth.cuts import Cut, ask  # noqa: E402
from publisher.cloth.forms import form_of  # noqa: E402
from publisher.cloth.kept import holds  # noqa: E402
from publisher.cloth.nesting import Effort  # noqa: E402
from publisher.cloth.questions import Question, length_of  # noqa: E402
from publisher.cloth.rows import in_rows  # noqa: E402
from publisher.cloth.solving import FIRST_SECONDS, WORKERS, solve  # noqa: E402
from publisher.geometry import Line, Point  # noqa: E402
from publisher.geometry import Path as Outline  # noqa: E402
from publisher.pipeline import prove  # noqa: E402
from publisher.source import read_folder  # noqa: E402

INSTANCES = Path(__file__).parent / "instances"
HEIGHT = 3000.0  # mm: what all strips are scaled to, so that our tolerances in mm weigh alike


def instances() -> Iterator[tuple[str, float, Question]]:
    """Name, published length in mm, and the question."""
    for file in sorted(INSTANCES.glob("*.json")):
        told = json.loads(file.read_text("utf-8"))
        scale = HEIGHT / told["strip height"]
        cuts: list[Cut] = []
        for item in told["items"]:
            # A strip runs to the right, cloth away from you: a quarter turn.
            points = [Point(-y * scale, x * scale) for x, y in item["ring"]]
            left, low = min(point.x for point in points), min(point.y for point in points)
            points = [point - Point(left, low) for point in points]
            ring = Outline(tuple(Line(one, points[(at + 1) % len(points)]) for at, one in enumerate(points)))
            cuts += [Cut(file.stem, 1, form_of(ring), 0, False, tuple(item["turns"]))] * item["count"]
        yield file.stem, told["published length"] * scale, ask(cuts, HEIGHT, 0.0, None)[0]


def ratios(seconds: float) -> None:
    """Published length over ours for each instance, and the mean."""
    found: list[float] = []
    for name, published, question in instances():
        start = time.perf_counter()
        answer = solve(question, Effort(seconds, WORKERS))
        took = time.perf_counter() - start
        assert answer is not None
        assert holds(question, answer)
        found.append(published / length_of(question, answer))
        print(f"  {name:10} {question.count:3} pieces  {found[-1]:.3f}   {took:5.1f} s", flush=True)
    print(f"  mean {statistics.mean(found):.3f}  median {statistics.median(found):.3f}\n", flush=True)


def demos() -> None:
    """Rows beside what the solver finds, for each layout of the demos that may be shorter than in rows."""
    shares: list[float] = []
    for folder in sorted((ROOT / "content").iterdir()):
        files, _ = read_folder(folder)
        bare = {name: content for name, content in files.items() if not name.startswith("kept/")}
        proof, _ = prove(folder.name, bare)
        assert proof is not None
        for cloth in proof.cloths:
            for question in cloth.questions:
                if question.folded:
                    continue
                rows, answer = in_rows(question), solve(question, Effort(FIRST_SECONDS))
                assert answer is not None
                before, after = length_of(question, rows), length_of(question, answer)
                shares.append(after / before)
                unit = "sheets" if question.length else "mm"
                print(
                    f"  {folder.name:24} {cloth.variant!s:11} {question.width:5.0f} mm wide  "
                    f"rows {before:6.1f}  solver {after:6.1f} {unit}",
                    flush=True,
                )
    print(f"  mean of solver over rows {statistics.mean(shares):.3f}")


def main() -> None:
    """Prints the tables."""
    for seconds in [float(one) for one in sys.argv[1:]] or [5.0, 20.0]:
        print(f"published length over ours, {seconds:.0f} s, {WORKERS} workers (aim ≥ 0.93 at 5 s, ≥ 0.955 at 20 s)")
        ratios(seconds)
    print("demos: rows beside the solver, mm of cloth")
    demos()


if __name__ == "__main__":
    main()
