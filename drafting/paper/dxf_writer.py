"""Writes a DXF file of release 12, the oldest that every program reads: layers, blocks, and what is drawn in each.

ezdxf's r12writer writes the entities. It knows no blocks and no layers, so those lines stand here (DXF reference of release 12).
Building ezdxf's whole document and writing that takes five times as long; the tests read each file back with it.
"""

from __future__ import annotations

import io
from collections.abc import Iterable, Iterator, Mapping
from contextlib import contextmanager

from ezdxf.addons.r12writer import R12FastStreamWriter

from drafting.polyline import XY

RELEASE_12 = "AC1009"
MILLIMETRES = 4
"""The number that stands for them in $INSUNITS; releases before 2000 leave that line unread."""
NAME_MOST = 31
"""Characters of a name in release 12: letters, digits, - and _."""


class DxfWriter(R12FastStreamWriter):
    """Blocks first, each within `block`; then, after `page`, what is drawn on the page itself; `done` gives the file."""

    def __init__(self, layers: Mapping[str, int]) -> None:
        """`layers` is name → colour number."""
        self.stream = io.StringIO()
        self._names: set[str] = set()
        self._section("HEADER", [
            (9, "$ACADVER"), (1, RELEASE_12), (9, "$DWGCODEPAGE"), (3, "ANSI_1252"), (9, "$INSUNITS"), (70, MILLIMETRES),
            (9, "$MEASUREMENT"), (70, 1),
        ])  # fmt: skip
        rows = [line for name, colour in layers.items() for line in ((0, "LAYER"), (2, name), (70, 0), (62, colour), (6, "CONTINUOUS"))]
        self._section("TABLES", [
            (0, "TABLE"), (2, "LTYPE"), (70, 1), (0, "LTYPE"), (2, "CONTINUOUS"), (70, 0), (3, "Solid line"), (72, 65), (73, 0), (40, 0), (0, "ENDTAB"),
            (0, "TABLE"), (2, "LAYER"), (70, len(layers)), *rows, (0, "ENDTAB"),
        ])  # fmt: skip
        self._lines([(0, "SECTION"), (2, "BLOCKS")])

    def _lines(self, pairs: Iterable[tuple[int, object]]) -> None:
        self.stream.write("".join(f"{code}\n{value}\n" for code, value in pairs))

    def _section(self, name: str, pairs: Iterable[tuple[int, object]]) -> None:
        self._lines([(0, "SECTION"), (2, name), *pairs, (0, "ENDSEC")])

    @contextmanager
    def block(self, wanted: str, *, layer: str) -> Iterator[str]:
        """Write a block around what is drawn meanwhile; gives its name, made of `wanted` and not used before."""
        name = self._free(wanted)
        self._lines([(0, "BLOCK"), (8, layer), (2, name), (70, 0), (10, 0), (20, 0), (30, 0), (3, name)])
        yield name
        self._lines([(0, "ENDBLK"), (8, layer)])

    def _free(self, wanted: str) -> str:
        plain = "".join(mark if mark.isascii() and (mark.isalnum() or mark in "-_") else "_" for mark in wanted).upper()
        name, count = plain[:NAME_MOST], 1
        while name in self._names:
            count += 1
            name = f"{plain[: NAME_MOST - 3]}_{count}"
        self._names.add(name)
        return name

    def page(self) -> None:
        """End the blocks; what is drawn from here on stands on the page."""
        self._lines([(0, "ENDSEC"), (0, "SECTION"), (2, "ENTITIES")])

    def add_block(self, name: str, *, layer: str) -> None:
        """Show a block on the page, at its own place."""
        self._lines([(0, "INSERT"), (8, layer), (2, name), (10, 0), (20, 0), (30, 0)])

    def add_mark(self, at: XY, *, layer: str, depth: float, angle: float) -> None:
        """Add a point with a depth (its thickness, mm) and a direction (degrees): a notch."""
        self._lines([(0, "POINT"), (8, layer), (10, round(at[0], 6)), (20, round(at[1], 6)), (30, 0), (39, round(depth, 6)), (50, round(angle, 4))])

    def done(self) -> bytes:
        """Return the file; what its code page has no place for is written as DXF's own escapes."""
        import ezdxf.lldxf.encoding  # noqa: F401 - registers the escapes

        self.close()
        return self.stream.getvalue().encode("cp1252", errors="dxfreplace")
