"""A program of its own: lays shapes on a strip with spyrrow, and prints every better layout it finds as a line of JSON.

On its input stands one line, `{"height", "gap", "seconds", "workers", "seed", "items": [[ring, count, turns], …]}`; a line
of output is `[width, [[item, x, y, turn], …]]`. It ends with its input, so that it never outlives whoever started it. It
imports nothing of the product, so that it starts at once. The one door to spyrrow.
"""

import json
import os
import sys
import threading
import time
from typing import Any

import spyrrow

FEASIBLE = (spyrrow.ReportType.ExplFeas, spyrrow.ReportType.CmprFeas, spyrrow.ReportType.Final)

TELLING = threading.Lock()


def main() -> None:
    """Reads the strip, lays the shapes, prints what is found."""
    asked = json.loads(sys.stdin.readline())
    threading.Thread(target=_end_with_input, daemon=True).start()
    items = [
        spyrrow.Item(str(at), [tuple(point) for point in ring], count, turns)
        for at, (ring, count, turns) in enumerate(asked["items"])
    ]
    strip = spyrrow.StripPackingInstance("cloth", asked["height"], items)
    config = spyrrow.StripPackingConfig(
        total_computation_time=asked["seconds"],
        num_workers=asked["workers"],
        min_items_separation=asked["gap"] or None,
        seed=asked["seed"],
    )
    progress = spyrrow.ProgressQueue()
    threading.Thread(target=_tell_progress, args=(progress,), daemon=True).start()
    try:
        _tell(strip.solve(config, progress))
    except BaseException:  # a panic is no Exception
        os._exit(1)
    os._exit(0)


def _end_with_input() -> None:
    sys.stdin.read()
    os._exit(2)


def _tell_progress(progress: Any) -> None:
    while True:
        time.sleep(0.02)
        found = [solution for report, solution in progress.drain() if report in FEASIBLE]
        if found:
            _tell(min(found, key=lambda solution: float(solution.width)))


def _tell(solution: Any) -> None:
    placed = [[int(one.id), *one.translation, one.rotation] for one in solution.placed_items]
    with TELLING:
        print(json.dumps([solution.width, placed]), flush=True)


if __name__ == "__main__":
    main()
