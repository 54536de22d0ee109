"""A piece too large for one page, laid over rows and columns of frames that meet edge to edge."""

import math
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import product

from publisher.geometry import Box, Movement, Path, Point, fills_box, polygon
from publisher.template_pages.values import Frame, JoiningMark, Neighbour, PlacedPiece, TemplatePage

CLEAR = 2.0  # mm a line keeps from the sheet's outer edge
MOST_TILES = 60
JOINS_AT = (0.25, 0.75)


@dataclass(frozen=True, slots=True)
class Sheet:
    """One way of laying a piece over frames; `tiles` are the (row, column) pairs, from 0, that hold something."""

    movement: Movement
    rows: int
    columns: int
    tiles: tuple[tuple[int, int], ...]


def best_sheet(outline: Path, frame: Frame) -> Sheet:
    """The sheet of fewest pages over both ways round and a few shifts; of equals the squarest, then the most central."""
    return min(
        (sheet for turns in (0, 1) for sheet in _sheets(outline, frame, turns)),
        key=lambda sheet: (len(sheet.tiles), abs(sheet.rows - sheet.columns), sheet.movement.quarter_turns),
    )


def _sheets(outline: Path, frame: Frame, turns: int) -> Iterator[Sheet]:
    turned = outline.moved(Movement(turns, Point(0.0, 0.0)))
    box = turned.box
    columns = max(math.ceil((box.width + 2 * CLEAR) / frame.width), 1)
    rows = max(math.ceil((box.height + 2 * CLEAR) / frame.height), 1)
    if rows * columns > 4 * MOST_TILES:
        yield Sheet(
            Movement(turns, Point(-box.left, -box.bottom)), rows, columns, tuple(product(range(rows), range(columns)))
        )
        return
    spare_x, spare_y = columns * frame.width - box.width, rows * frame.height - box.height
    area = polygon(turned, tolerance=0.1)
    for part_x, part_y in ((0.5, 0.5), *product((0.0, 1.0), repeat=2)):
        x = CLEAR + (spare_x - 2 * CLEAR) * part_x - box.left
        y = CLEAR + (spare_y - 2 * CLEAR) * part_y - box.bottom
        yield Sheet(
            Movement(turns, Point(x, y)),
            rows,
            columns,
            tuple(
                (row, column)
                for row, column in product(range(rows), range(columns))
                if fills_box(area, _tile(row, column, rows, frame, x, y), margin=1.0)
            ),
        )


def _tile(row: int, column: int, rows: int, frame: Frame, x: float, y: float) -> Box:
    """A tile's box in the coordinates of the turned piece before it was shifted by (x, y)."""
    left, top = column * frame.width - x, (rows - row) * frame.height - y
    return Box(left, top - frame.height, left + frame.width, top)


def tile_pages(
    piece: str, size: str | None, sheet: Sheet, frame: Frame, first_number: int, sheet_number: int
) -> list[TemplatePage]:
    """The template pages of a sheet, row by row, with joining marks and neighbours."""
    numbers = {tile: first_number + at for at, tile in enumerate(sheet.tiles)}
    labels = _labels(sheet)
    pages = []
    for (row, column), number in numbers.items():
        shift = Point(frame.left - column * frame.width, frame.top + (sheet.rows - row) * frame.height)
        beside = {side: other for side, other in _sides(row, column).items() if other in numbers}
        pages.append(
            TemplatePage(
                number=number,
                sheet=sheet_number,
                row=row + 1,
                column=column + 1,
                rows=sheet.rows,
                columns=sheet.columns,
                frame=frame,
                placed=(PlacedPiece(piece, size, sheet.movement, shift, frame),),
                joining_marks=tuple(
                    mark
                    for side, other in beside.items()
                    for mark in _marks(side, labels[frozenset(((row, column), other))], frame)
                ),
                neighbours=tuple(Neighbour(side, numbers[other]) for side, other in beside.items()),
                check_block=None,
            )
        )
    return pages


def _sides(row: int, column: int) -> dict[str, tuple[int, int]]:
    return {
        "left": (row, column - 1),
        "right": (row, column + 1),
        "top": (row - 1, column),
        "bottom": (row + 1, column),
    }


def _labels(sheet: Sheet) -> dict[frozenset[tuple[int, int]], str]:
    """A letter for each shared edge, row by row: A to Z, then AA."""
    labels: dict[frozenset[tuple[int, int]], str] = {}
    for row, column in sheet.tiles:
        for other in ((row, column + 1), (row + 1, column)):
            if other in sheet.tiles:
                labels[frozenset(((row, column), other))] = _letters(len(labels))
    return labels


def _letters(number: int) -> str:
    return ("" if number < 26 else _letters(number // 26 - 1)) + chr(ord("A") + number % 26)


def _marks(side: str, label: str, frame: Frame) -> Iterator[JoiningMark]:
    for at, part in enumerate(JOINS_AT, start=1):
        x = {"left": frame.left, "right": frame.left + frame.width}.get(side, frame.left + frame.width * part)
        y = {"top": frame.top, "bottom": frame.top + frame.height}.get(side, frame.top + frame.height * part)
        yield JoiningMark(Point(x, y), side, f"{label}{at}")
