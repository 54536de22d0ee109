"""What the page library leaves out of the tags, put in: scopes of table heads, boxes of figures, words of links."""

from typing import Any

import pydyf

POINTS = 0.75  # of a CSS pixel


def mend_tags(pdf: Any) -> None:
    """Mends the structure of a tagged PDF in place (ISO 14289-1: 7.3 figures, 7.5 scope of TH, 7.18 links)."""
    pages = {thing.reference: thing for thing in pdf.objects if _is(thing, "Type", "/Page")}
    for thing in pdf.objects:
        if _is(thing, "S", "/TH"):
            thing["A"] = pydyf.Dictionary({"O": "/Table", "Scope": "/Column"})
        elif _is(thing, "S", "/Figure"):
            _mend_figure(thing, pages)
        elif _is(thing, "Subtype", "/Link"):
            _mend_link(thing)


def _is(thing: object, key: str, value: str) -> bool:
    return isinstance(thing, pydyf.Dictionary) and thing.get(key) == value


def _mend_figure(figure: pydyf.Dictionary, pages: dict[bytes, pydyf.Dictionary]) -> None:
    """The library gives a figure's box in CSS pixels with y down; it belongs in points with y up."""
    page, attributes = pages.get(figure.get("Pg", b"")), figure.get("A")
    if page is None or not isinstance(attributes, dict) or "BBox" not in attributes:
        return
    left, top, right, bottom = (float(side) * POINTS for side in attributes["BBox"])
    height = float(page["MediaBox"][3])
    attributes["BBox"] = pydyf.Array([round(side, 2) for side in (left, height - bottom, right, height - top)])


def _mend_link(link: pydyf.Dictionary) -> None:
    action = link.get("A")
    address = action.get("URI") if isinstance(action, dict) else None
    if "Contents" not in link:
        link["Contents"] = address if address is not None else pydyf.String("page")
    link["F"] = 4  # printed with the page
