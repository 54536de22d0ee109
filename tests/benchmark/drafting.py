"""Time of cut lines round curved pieces: `python tests/benchmark/drafting.py`. Not part of the tests: machines are noisy."""

import math
import time
from collections.abc import Callable

from publisher.geometry import Cubic, Path, Point, offset_outline, smooth_ring

SEGMENTS, AIM = 40, 2.0  # curved segments a piece; seconds for 200 pieces


def smooth(number: int) -> Path:
    """A ring of curves whose radius swells and shrinks, no two pieces alike, so that nothing can be remembered."""
    return smooth_ring(corners(number))


def cornered(number: int) -> Path:
    """The same corners, with curves between them that bulge out and in by turns."""
    spots = corners(number)
    curves = []
    for at, (start, end) in enumerate(zip(spots, (*spots[1:], spots[0]), strict=True)):
        chord = end - start
        aside = chord.right() * (0.2 if at % 2 else -0.2)
        curves.append(Cubic(start, start + chord * 0.3 + aside, end - chord * 0.3 + aside, end))
    return Path(tuple(curves))


def corners(number: int) -> list[Point]:
    """Where the curves of a piece meet."""
    turns = [2 * math.pi * at / SEGMENTS for at in range(SEGMENTS)]
    radii = [200 + 30 * math.sin(3 * turn + number) + 8 * math.sin(7 * turn) for turn in turns]
    return [Point(radius * math.cos(turn), radius * math.sin(turn)) for turn, radius in zip(turns, radii, strict=True)]


def seconds(piece: Callable[[int], Path], count: int) -> tuple[float, int]:
    """The time to offset so many pieces by 10 mm, and the segments that came of it."""
    pieces = [[(Path((segment,)), 10.0) for segment in piece(number).segments] for number in range(count)]
    start = time.perf_counter()
    drawn = sum(len(offset_outline(edges)[0].segments) for edges in pieces)
    return time.perf_counter() - start, drawn


def main() -> None:
    """Prints a line for each number of pieces: time a piece tells whether it stays linear."""
    for name, piece in (("smooth", smooth), ("cornered", cornered)):
        seconds(piece, 5)
        for count in (50, 100, 200, 400):
            taken, drawn = seconds(piece, count)
            aim = f"  (aim ≤ {AIM} s)" if count == 200 else ""
            print(
                f"{count:4} {name:8} pieces of {SEGMENTS} curves {taken:6.2f} s  {1000 * taken / count:5.2f} ms a piece  "
                f"{drawn / count / SEGMENTS:4.2f} segments a curve{aim}"
            )


if __name__ == "__main__":
    main()
