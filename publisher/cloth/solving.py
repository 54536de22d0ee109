"""Questions answered as well as can be in some seconds: rows, boxes, and outlines nested; the shortest that holds."""

import os
import time
from collections.abc import Iterator, Sequence
from concurrent.futures import ThreadPoolExecutor, as_completed

from publisher.cloth.arranging import NO_SHORTER
from publisher.cloth.kept import holds
from publisher.cloth.nesting import Effort
from publisher.cloth.on_fold import in_rows_on_fold, nested_on_fold
from publisher.cloth.outlines import nested
from publisher.cloth.packing import in_boxes
from publisher.cloth.questions import Answer, Question, length_of
from publisher.cloth.rows import in_rows
from publisher.cloth.sheets import in_sheets

WORKERS = 2
FIRST_SECONDS, AGAIN_SECONDS = 2.0, 20.0  # for a layout, in one of the workers


def solve_all(questions: Sequence[Question], seconds: float, seed: int = 0) -> Iterator[tuple[Question, Answer]]:
    """Each question with the best answer found, as they come, in about `seconds` × their number ÷ workers."""
    workers = min(WORKERS, os.cpu_count() or 1)
    effort = Effort(seconds, 1 if len(questions) > 1 else workers, seed)
    with ThreadPoolExecutor(workers) as pool:
        asked = {pool.submit(solve, one, effort): one for one in questions}
        try:
            for done in as_completed(asked):
                answer = done.result()
                if answer is not None:
                    yield asked[done], answer
        finally:
            effort.stop.set()
            pool.shutdown(wait=False, cancel_futures=True)


def solve(question: Question, effort: Effort) -> Answer | None:
    """The shortest answer that holds, of all ways to find one; None where there is none."""
    best: Answer | None = None
    for answer in _ways(question, effort):
        if answer is None or not holds(question, answer):
            continue
        if best is None or length_of(question, answer) < length_of(question, best):
            best = answer
        if length_of(question, best) <= question.bound + NO_SHORTER:
            break
    return best


def _ways(question: Question, effort: Effort) -> Iterator[Answer | None]:
    start = time.monotonic()
    if question.folded:
        yield in_rows_on_fold(question)
        yield nested_on_fold(question, effort.left(start))
        return
    yield in_rows(question)
    if question.length is not None:
        yield in_sheets(question, effort, nested)
        return
    yield in_boxes(question)
    yield nested(question, effort.left(start))
