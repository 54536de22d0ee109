"""Several editions printed at once, each on a core of its own where the system can part a process in two."""

import os
from collections.abc import Sequence

from publisher.checks import Proof
from publisher.edition.printed import PrintedEdition, print_set, set_edition
from publisher.edition.printing import load_weasyprint
from publisher.edition.requests import Request
from publisher.parting import may_part
from publisher.template_pages import Edition


def print_editions(
    proof: Proof, editions: Sequence[Edition], requests: Sequence[Request] = ()
) -> tuple[PrintedEdition, ...]:
    """The editions in the order asked for, each with the pages asked for. Raises MissingPango, DrawingFailed, NoSuchLanguage."""
    made = [set_edition(proof, edition, requests) for edition in editions]
    if len(made) < 2 or not may_part():
        return tuple(map(print_set, made))
    from concurrent.futures import ProcessPoolExecutor
    from concurrent.futures.process import BrokenProcessPool
    from multiprocessing import get_context

    # Loaded before the process is parted, so that it is loaded once.
    load_weasyprint()
    workers = min(len(made) - 1, max((os.cpu_count() or 2) - 1, 1))
    try:
        with ProcessPoolExecutor(workers, mp_context=get_context("fork")) as pool:
            others = pool.map(print_set, made[1:])
            return (print_set(made[0]), *others)
    except BrokenProcessPool:
        # A process that was ended from outside; what it was to print can be printed here.
        return tuple(map(print_set, made))
