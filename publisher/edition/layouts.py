"""Where the layouts are: beside the package in a checkout, inside it when installed from a wheel."""

from functools import cache
from pathlib import Path

import publisher


@cache
def layouts_folder() -> Path:
    """The folder of templates, words and fonts. Raises FileNotFoundError for a broken installation."""
    package = Path(publisher.__file__).resolve().parent
    for folder in (package / "_layouts", package.parent / "layouts"):
        if folder.is_dir():
            return folder
    raise FileNotFoundError("the layouts of the publisher are missing; install it again")


@cache
def font_file(bold: bool) -> Path:
    """The font of labels: regular or semi-bold."""
    return layouts_folder() / "fonts" / f"SourceSansPro-{'Semibold' if bold else 'Regular'}.ttf"
