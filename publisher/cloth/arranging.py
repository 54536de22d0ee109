"""The shortest layout at hand that answers a question: rows, a kept answer, or either for a part, laid several times."""

from dataclasses import replace

from publisher.cloth.kept import kept_answer
from publisher.cloth.questions import Answer, Question, length_of, parts_of, repeated
from publisher.cloth.rows import in_rows, in_rows_on_the_fold
from publisher.frozen import dataclass

KeptFiles = tuple[tuple[str, bytes], ...]
NO_SHORTER = 1e-3  # mm


@dataclass(frozen=True, slots=True)
class Arranged:
    """An answer, what it takes (mm of cloth, or sheets), and whether it is `kept` or in `rows`.

    `answered`: there is a kept answer that holds, though it may be no shorter than this one.
    """

    answer: Answer
    used: float
    by: str
    answered: bool = False


def arrange(question: Question, kept: KeptFiles) -> Arranged:
    """The shortest; rows where nothing is shorter. Raises TooWide and TooLong."""
    best = _plain(question)
    if best.used <= question.bound + NO_SHORTER:
        return best  # nothing that is kept can be shorter
    answer = _kept(question, kept)
    for one in ([answer] if answer else []) + _in_parts(question, kept):
        if one.used < best.used - NO_SHORTER:
            best = one
    return replace(best, answered=answer is not None)


def arrange_folded(question: Question, kept: KeptFiles) -> Arranged | None:
    """The shortest on cloth that is folded double: kept, for the whole or for a part, or halves with rows behind them.

    For the sake of pairs alone there are no rows on folded cloth.
    """
    found: list[Arranged] = []
    if any(shape.on_the_fold for shape in question.shapes):
        rows = in_rows_on_the_fold(question)
        found.append(Arranged(rows, length_of(question, rows), "rows"))
        if found[0].used <= question.bound + NO_SHORTER:
            return found[0]
    answer = _kept(question, kept)
    found += [answer] if answer else []
    found += [_times(part, one, times) for times, part in parts_of(question) if (one := _kept(part, kept)) is not None]
    best = min(found, key=lambda one: one.used, default=None)
    return None if best is None else replace(best, answered=answer is not None)


def worth_solving(question: Question, arranged: Arranged) -> bool:
    """True unless what is at hand is as short as any layout can be."""
    return question.count > 1 and arranged.used > question.bound + NO_SHORTER


def _plain(question: Question) -> Arranged:
    answer = in_rows(question)
    return Arranged(answer, length_of(question, answer), "rows")


def _kept(question: Question, kept: KeptFiles) -> Arranged | None:
    answer = kept_answer(kept, question)
    return None if answer is None else Arranged(answer, length_of(question, answer), "kept")


def _in_parts(question: Question, kept: KeptFiles) -> list[Arranged]:
    # So that twice the order never takes more than twice the cloth, whatever a solver found for it.
    found: list[Arranged] = []
    for times, part in parts_of(question):
        for one in (_plain(part), _kept(part, kept)):
            if one is not None:
                found.append(_times(part, one, times))
    return found


def _times(part: Question, arranged: Arranged, times: int) -> Arranged:
    answer = repeated(part, arranged.answer, times)
    return Arranged(answer, length_of(part, answer), arranged.by)
