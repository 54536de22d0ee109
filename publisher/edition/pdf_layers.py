"""Layers of a PDF that a reader can switch off, one for each size; what several sizes share shows with any of them.

A text that belongs to sizes is set in a colour that says which, nearly black; here it becomes black, within its layer.
"""

import re
from collections.abc import Iterator, Sequence

import pydyf

COLOUR = re.compile(rb"(0|0?\.\d+) (0|0?\.\d+) (0|0?\.\d+) rg")
BLACK = b"0 0 0 rg"
MOST_SIZES = 18  # that colours tell apart: six of eight bits in each part, so that no text could be seen to be coloured


def layer_colour(sizes: Sequence[str], all_sizes: Sequence[str]) -> str:
    """The CSS colour of a text that shows with these sizes; "" for one that always shows."""
    which = sum(1 << all_sizes.index(size) for size in sizes)
    if not which or len(all_sizes) > MOST_SIZES:
        return ""
    return "#" + "".join(f"{which >> shift & 63:02x}" for shift in (12, 6, 0))


class Layers:
    """The layers of one PDF as they come to be used."""

    def __init__(self, pdf: pydyf.PDF, resources: pydyf.Dictionary, sizes: Sequence[str]) -> None:
        self._pdf, self._resources, self._sizes = pdf, resources, tuple(sizes)
        self._groups: dict[str, pydyf.Dictionary] = {}
        self._shared: dict[tuple[str, ...], pydyf.Dictionary] = {}

    def reference(self, sizes: tuple[str, ...]) -> bytes:
        """What a drawing names to show whenever one of these sizes does."""
        groups = [self._group(size) for size in sizes]
        if len(groups) == 1:
            only: bytes = groups[0].reference
            return only
        if sizes not in self._shared:
            members = pydyf.Array([group.reference for group in groups])
            self._shared[sizes] = pydyf.Dictionary({"Type": "/OCMD", "OCGs": members, "P": "/AnyOn"})
            self._pdf.add_object(self._shared[sizes])
        shared: bytes = self._shared[sizes].reference
        return shared

    def _group(self, size: str) -> pydyf.Dictionary:
        if size not in self._groups:
            self._groups[size] = pydyf.Dictionary({"Type": "/OCG", "Name": pydyf.String(size)})
            self._pdf.add_object(self._groups[size])
        return self._groups[size]

    def put_texts(self) -> None:
        """Puts every text of a size's colour into its layer."""
        if not self._sizes:
            return
        properties: dict[tuple[str, ...], str] = {}
        for stream in [thing for thing in self._pdf.objects if isinstance(thing, pydyf.Stream)]:
            if b"BT" in stream.stream:
                stream.stream = list(self._layered(stream.stream, properties))
        if properties:
            named = {name: self.reference(sizes) for sizes, name in properties.items()}
            self._resources["Properties"] = pydyf.Dictionary(named)

    def _layered(self, items: Sequence[object], properties: dict[tuple[str, ...], str]) -> Iterator[object]:
        """The drawing operators with those of texts in layers wrapped; a colour holds until the state is restored."""
        sizes: tuple[str, ...] = ()
        for item in items:
            colour = COLOUR.fullmatch(item) if isinstance(item, bytes) else None
            if colour is not None:
                sizes = self._told_by([float(part) for part in colour.groups()])
                yield BLACK if sizes else item
            elif item == b"Q":
                sizes = ()
                yield item
            elif item == b"BT" and sizes:
                yield f"/OC /{properties.setdefault(sizes, f'sizes{len(properties)}')} BDC".encode()
                yield item
            elif item == b"ET" and sizes:
                yield item
                yield b"EMC"
            else:
                yield item

    def _told_by(self, parts: Sequence[float]) -> tuple[str, ...]:
        which = 0
        for part in parts:
            which = which << 6 | round(part * 255)
        if which >> len(self._sizes):
            return ()
        return tuple(size for at, size in enumerate(self._sizes) if which >> at & 1)

    def list_groups(self) -> None:
        """What the reader can switch. No /Usage: with it some viewers take no notice of what is switched off."""
        if not self._groups:
            return
        order = [size for size in self._sizes if size in self._groups]
        order += [size for size in self._groups if size not in order]
        references = pydyf.Array([self._groups[size].reference for size in order])
        configuration = pydyf.Dictionary({"Name": pydyf.String("sizes"), "Order": references, "ON": references})
        self._pdf.catalog["OCProperties"] = pydyf.Dictionary({"OCGs": references, "D": configuration})
