"""What an edition is printed with beside its own words and lines: layouts, fonts, this product and its libraries."""

from importlib.metadata import PackageNotFoundError, version
from pathlib import PurePath

import publisher
from publisher.edition.layouts import layouts_folder

# What a PDF may look different with.
LIBRARIES = ("fonttools", "jinja2", "markdown", "pillow", "pydyf", "segno", "shapely", "svgwrite", "weasyprint")
# What a maker begins from; no edition is made of it.
STARTER = "starter"

Ingredients = tuple[tuple[str, bytes | str], ...]


def ingredients() -> Ingredients:
    """Each file of the layouts by its name with its bytes, and the versions of the product and of its libraries."""
    folder = layouts_folder()
    files = sorted((path.relative_to(folder), path) for path in folder.rglob("*") if path.is_file())
    layouts = tuple((name.as_posix(), path.read_bytes()) for name, path in files if _prints(name))
    return (*layouts, ("publisher", publisher.__version__), *((name, _version(name)) for name in LIBRARIES))


def _prints(name: PurePath) -> bool:
    """True for all but the starter and what editors and systems leave about."""
    return name.parts[0] != STARTER and not any(part.startswith(".") for part in name.parts)


def _version(library: str) -> str:
    try:
        return version(library)
    except PackageNotFoundError:  # put there by other means than a package
        return ""
