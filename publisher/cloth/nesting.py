"""The nesting program run as a child: what it found by the deadline, whatever became of it. Millimetres, seconds."""

import contextlib
import json
import math
import subprocess
import sys
import threading
import time
from collections.abc import Sequence
from dataclasses import field, replace
from importlib.util import find_spec
from pathlib import Path
from typing import TextIO

from publisher.frozen import dataclass

NESTER = Path(__file__).with_name("nester.py")
OFTEN = 0.05  # seconds between looks whether to stop
Ring = Sequence[tuple[float, float]]


@dataclass(frozen=True, slots=True)
class Item:
    """A shape to lay, with how often, and by which degrees it may be turned."""

    ring: Ring
    count: int
    turns: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Strip:
    """What the solver is asked: items on a strip of `height` and any width, `gap` between them and to the borders."""

    height: float
    gap: float
    items: tuple[Item, ...]


@dataclass(frozen=True, slots=True)
class Nested:
    """One item of the strip turned about the origin, then shifted."""

    item: int
    x: float
    y: float
    turn: int


@dataclass(frozen=True, slots=True)
class Effort:
    """How long to look, and with how many threads; `seed` leads elsewhere, for another attempt; `stop` ends it early."""

    seconds: float
    workers: int = 1
    seed: int = 0
    stop: threading.Event = field(default_factory=threading.Event, compare=False)

    def left(self, since: float) -> "Effort":
        """What is left of it, begun at a time of the steady clock."""
        return replace(self, seconds=max(self.seconds - (time.monotonic() - since), 0.0))


def solver_installed() -> bool:
    """True where spyrrow can be imported."""
    return find_spec("spyrrow") is not None


def nest(strip: Strip, effort: Effort, enough: float = 0.0) -> tuple[Nested, ...] | None:
    """The narrowest layout found until the deadline, or until one is no wider than `enough`; None where there is none.

    The child is ended at the deadline. The solver's own time is no bound, and it panics on shapes it does not like.
    """
    # A path of a file, not a module: the child starts in a hundredth of the time that the product's modules take.
    command = [sys.executable, "-P", str(NESTER)]
    pipes = {"stdin": subprocess.PIPE, "stdout": subprocess.PIPE, "stderr": subprocess.DEVNULL}
    with contextlib.suppress(BrokenPipeError), subprocess.Popen(command, **pipes, text=True) as child:  # type: ignore[call-overload]
        listening = _Listening(child.stdout, enough)
        # Asked by a thread of its own: a child that does not listen must not hold up the clock.
        asking = threading.Thread(target=_ask, args=(child.stdin, _asked(strip, effort)), daemon=True)
        asking.start()
        try:
            until = time.monotonic() + effort.seconds
            while time.monotonic() < until and not effort.stop.is_set():
                if listening.done.wait(min(OFTEN, max(until - time.monotonic(), 0.0))):
                    break
        finally:
            child.kill()
            listening.thread.join()
            asking.join()
    return listening.best


def _ask(pipe: TextIO, text: str) -> None:
    """Writes the question, and leaves the pipe open: the child ends where this process does."""
    with contextlib.suppress(OSError):
        pipe.write(text)
        pipe.flush()


def _asked(strip: Strip, effort: Effort) -> str:
    asked = {
        "height": strip.height,
        "gap": strip.gap,
        "seconds": max(math.ceil(effort.seconds), 1),
        "workers": effort.workers,
        "seed": effort.seed,
        "items": [[list(item.ring), item.count, list(map(float, item.turns))] for item in strip.items],
    }
    return json.dumps(asked) + "\n"


class _Listening:
    """A thread that reads the child's lines and keeps the best layout."""

    def __init__(self, lines: object, enough: float) -> None:
        self._lines, self._enough, self._width = lines, enough, math.inf
        self.best: tuple[Nested, ...] | None = None
        self.done = threading.Event()
        self.thread = threading.Thread(target=self._listen, daemon=True)
        self.thread.start()

    def _listen(self) -> None:
        for line in self._lines:  # type: ignore[attr-defined]
            with contextlib.suppress(ValueError, TypeError):  # where it was cut off
                self._hear(*json.loads(line))
        self.done.set()

    def _hear(self, width: float, placed: list[list[float]]) -> None:
        if width < self._width:
            self._width = width
            self.best = tuple(Nested(int(item), x, y, round(turn) % 360) for item, x, y, turn in placed)
        if width <= self._enough:
            self.done.set()
