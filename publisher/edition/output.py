"""A pattern's output folder, replaced whole or not at all: built beside, exchanged in one step where the system can.

While an exchange goes on there are up to three folders: `build/NAME` (what readers see), `build/.NAME.new` (being
built) and `build/.NAME.old` (what was there before). Whatever moment a run is ended at, the next one mends it: a
missing `NAME` comes back from `.NAME.old`, and the two others are swept away.
"""

import ctypes
import json
import os
import shutil
import sys
from collections.abc import Callable, Mapping
from pathlib import Path

RECORD = "computed.json"
_AT_FDCWD = -100
_RENAME_EXCHANGE = 2  # Linux renameat2
_RENAME_SWAP = 2  # macOS renamex_np


class ForeignFiles(RuntimeError):
    """An output folder that holds what the product did not write."""

    def __init__(self, folder: Path, names: tuple[str, ...]) -> None:
        super().__init__(f"{folder} holds files that were not written by this command: {', '.join(names[:5])}")
        self.folder, self.names = folder, names


def exchange_output(into: Path, name: str, files: Mapping[str, bytes]) -> Path:
    """The folder `into/name` with exactly these files, exchanged whole. `files` holds computed.json, whose `files`
    lists all names. Raises ForeignFiles where the folder holds anything not listed by its own computed.json, OSError.
    """
    into.mkdir(parents=True, exist_ok=True)
    target, fresh, old = into / name, into / f".{name}.new", into / f".{name}.old"
    mend(target, fresh, old)
    foreign = foreign_files(target)
    if foreign:
        raise ForeignFiles(target, foreign)
    fresh.mkdir()
    for file, content in files.items():
        path = fresh / file
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(content)
    if not target.exists():
        fresh.rename(target)
    elif _swap(fresh, target):
        shutil.rmtree(fresh)
    else:
        target.rename(old)
        fresh.rename(target)
        shutil.rmtree(old)
    return target


def mend(target: Path, fresh: Path, old: Path) -> None:
    """Puts right what a run that was ended in between has left."""
    if old.exists() and not target.exists():
        old.rename(target)
    for left in (fresh, old):
        if left.exists():
            shutil.rmtree(left)


def foreign_files(target: Path) -> tuple[str, ...]:
    """Files of an output folder that its computed.json does not list."""
    if not target.exists():
        return ()
    present = {path.relative_to(target).as_posix() for path in target.rglob("*") if not path.is_dir()}
    return tuple(sorted(present - {RECORD} - set(recorded_files(target))))


def recorded_files(target: Path) -> tuple[str, ...]:
    """The files that computed.json lists; none where there is no such record."""
    record = read_record(target)
    listed = record.get("files", [])
    return tuple(map(str, listed)) if isinstance(listed, list) else ()


def read_record(target: Path) -> dict[str, object]:
    """computed.json of an output folder, or nothing where it is missing or spoilt."""
    try:
        record = json.loads((target / RECORD).read_text("utf-8"))
    except (OSError, ValueError):
        return {}
    return record if isinstance(record, dict) else {}


def _swap(first: Path, second: Path) -> bool:
    """Exchanges two folders in one step. False where the system or the disk cannot."""
    swap = _swapper()
    return swap is not None and swap(os.fsencode(first), os.fsencode(second)) == 0


def _swapper() -> Callable[[bytes, bytes], int] | None:
    try:
        library = ctypes.CDLL(None, use_errno=True)
        if sys.platform == "linux":
            exchange = library.renameat2
            return lambda first, second: int(exchange(_AT_FDCWD, first, _AT_FDCWD, second, _RENAME_EXCHANGE))
        if sys.platform == "darwin":
            swap = library.renamex_np
            return lambda first, second: int(swap(first, second, _RENAME_SWAP))
    except (AttributeError, OSError, TypeError):
        return None
    return None
