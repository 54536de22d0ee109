"""A pattern folder read from disk into bytes, within bounds and never outside itself."""

import errno
from pathlib import Path

from publisher.source.reader import LARGEST, PATTERN, STEPS
from publisher.terms import Finding, Place, Severity

MOST_KEPT = 600  # six sizes of a pattern, four materials in four widths, single and folded, in both systems: 384
LARGEST_KEPT = 1_000_000
MOST_DRAWINGS = 50
LARGEST_DRAWING = 2_000_000
PICTURE_KINDS = (".jpg", ".jpeg", ".png")
MOST_PICTURES = 50
LARGEST_PICTURE = 20_000_000


def read_folder(folder: Path) -> tuple[dict[str, bytes], tuple[Finding, ...]]:
    """What the product reads of a folder: pattern.yaml, steps.md, kept/*.json, images/*.svg, and the photographs there.

    A file that is missing, or holds a byte more than it may, is told by whoever reads it.
    """
    files: dict[str, bytes] = {}
    found: list[Finding] = []
    for name in (PATTERN, STEPS):
        _read(folder, folder / name, LARGEST, files, found)
    kept = sorted((folder / "kept").glob("*.json")) if (folder / "kept").is_dir() else []
    for path in kept[:MOST_KEPT]:
        _read(folder, path, LARGEST_KEPT, files, found)
    images = folder / "images"
    drawings = sorted(path for path in images.glob("*") if path.suffix.lower() == ".svg") if images.is_dir() else []
    for path in drawings[:MOST_DRAWINGS]:
        _read(folder, path, LARGEST_DRAWING, files, found)
    if len(drawings) > MOST_DRAWINGS:
        says = f"images/ holds {len(drawings)} drawings, more than {MOST_DRAWINGS}"
        left_out = drawings[MOST_DRAWINGS].relative_to(folder).as_posix()
        found.append(_error("too-much", left_out, says, "keep only those that the pattern uses"))
    pictures = (
        sorted(path for path in images.glob("*") if path.suffix.lower() in PICTURE_KINDS) if images.is_dir() else []
    )
    for path in pictures[:MOST_PICTURES]:
        _read(folder, path, LARGEST_PICTURE, files, found)
    if len(pictures) > MOST_PICTURES:
        says = f"images/ holds {len(pictures)} photographs, more than {MOST_PICTURES}"
        left_out = pictures[MOST_PICTURES].relative_to(folder).as_posix()
        found.append(_error("too-much", left_out, says, "keep only those that the pattern uses"))
    return files, tuple(found)


def _read(folder: Path, path: Path, largest: int, files: dict[str, bytes], found: list[Finding]) -> None:
    name = path.relative_to(folder).as_posix()
    try:
        if not path.resolve().is_relative_to(folder.resolve()):
            found.append(
                _error("outside-folder", name, f"{name} leads out of the pattern folder", "put the file itself there")
            )
        elif path.is_file():
            with path.open("rb") as file:
                files[name] = file.read(largest + 1)
    except RuntimeError:  # how Python 3.11 and 3.12 tell a link that leads back to itself
        found.append(_loop(name))
    except OSError as reason:
        if reason.errno == errno.ELOOP:
            found.append(_loop(name))
            return
        found.append(
            _error(
                "unreadable-file", name, f"{name} cannot be read: {reason.strerror}", "look at who may read the file"
            )
        )


def _loop(name: str) -> Finding:
    says = f"{name} is a link that leads back to itself"
    return _error("unreadable-file", name, says, "put the file itself there")


def _error(name: str, file: str, says: str, mend: str) -> Finding:
    return Finding(name, Severity.ERROR, Place(file, 1, 1, 1, 2), says, mend)
