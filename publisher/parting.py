"""Work done in two processes at once: the process parts, and the values of its copy come back to it."""

import os
import pickle
import signal
import sys
import threading
from collections.abc import Callable
from typing import TypeVar

Here = TypeVar("Here")
There = TypeVar("There")

# Set to anything, the process stays whole.
WHOLE = "PUBLISHER_ONE_PROCESS"


def may_part() -> bool:
    """True on Linux with cores to spare and no second thread, which a copy of the process would lack."""
    return (
        sys.platform == "linux"
        and (os.cpu_count() or 1) > 1
        and threading.active_count() == 1
        and not os.environ.get(WHOLE)
    )


def both(here: Callable[[], Here], there: Callable[[], There]) -> tuple[Here, There]:
    """What both give; `there` is worked out by a copy of this process where it can part, else after `here`.

    `there` gives values that pickle can carry, and leaves nothing else behind. What goes wrong in the copy is done once
    more in this process, which then raises what `there` raises.
    """
    if not may_part():
        return here(), there()
    reading, writing = os.pipe()
    copy = os.fork()
    if copy == 0:
        _give(there, writing)
    os.close(writing)
    with os.fdopen(reading, "rb") as stream:
        try:
            first = here()
            given = stream.read()
        except BaseException:
            os.kill(copy, signal.SIGKILL)
            raise
        finally:
            _, ended = os.waitpid(copy, 0)
    return first, (there() if ended else pickle.loads(given))


def _give(there: Callable[[], object], writing: int) -> None:
    """Ends the copy: nothing that the process was going to do at its end, or to print, is done twice."""
    try:
        with os.fdopen(writing, "wb") as stream:
            pickle.dump(there(), stream, protocol=5)
        os._exit(0)
    finally:
        os._exit(1)
