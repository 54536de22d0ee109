"""What may be asked for beside the usual pages of an edition."""

from collections.abc import Iterable
from enum import Enum


class Request(Enum):
    """As on the command line, in the order of their pages."""

    DRAFTING_PAGE = "drafting-page"
    PIN_ON_LABELS = "pin-on-labels"


def requests_named(names: Iterable[object]) -> tuple[Request, ...]:
    """The requests of these names, each once, in the order of their pages. Names that are none are passed by."""
    wanted = {str(name) for name in names}
    return tuple(request for request in Request if request.value in wanted)
