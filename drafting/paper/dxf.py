"""The pattern as DXF in the way of ASTM D6673: one block a piece, layers by number, millimetres, y up.

Layer numbers and text fields: ASTM D6673 as commonly implemented, from memory; check-by-reading is in the tests. A piece
on the fold is its half outline with the mirror line on layer 6. Text in other letters is written as DXF's own escapes.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from typing import TYPE_CHECKING

from shapely import LineString

from drafting.linework import clean
from drafting.paper.about import About, heading
from drafting.paper.choice import Choice
from drafting.paper.files_for_others import one_sheet
from drafting.paper.piece_lines import Line
from drafting.paper.spread import PlacedPiece
from drafting.polyline import XY, closed

if TYPE_CHECKING:
    from drafting.paper.dxf_writer import DxfWriter

BOUNDARY, TURN, CURVE, NOTCH, MIRROR, GRAIN, INTERNAL, DRILL, SEW, NOTE = "1", "2", "3", "4", "6", "7", "8", "13", "14", "15"
LAYERS = {BOUNDARY: 7, TURN: 1, CURVE: 8, NOTCH: 1, MIRROR: 6, GRAIN: 3, INTERNAL: 5, DRILL: 1, SEW: 4, NOTE: 7}
"""The layers with the colour number that each is shown in; they have no names but their numbers."""
CORNER_DEG = 15.0
"""Where the outline turns by more than this, its point is a turn point, else a curve point. Judgement."""
TEXT_HIGH = 4.0
THIN_WITHIN = 0.01
"""How far a line may stray from the draft's, mm: a tenth of what the result file promises, and half the points."""


def as_dxf(order_file: Mapping, result: Mapping, *, choice: Choice | None = None, about: About | None = None) -> bytes:
    """Return the DXF file. Raises NothingChosen."""
    from drafting.paper.dxf_writer import DxfWriter  # ezdxf: a third of a second, for those alone who ask for the file

    choice, about = choice or Choice(), about or About()
    head = heading(order_file, result, about)
    file = DxfWriter(LAYERS)
    names = []
    for piece in one_sheet(order_file, result, choice, about).pieces:
        with file.block(f"{head.order} {piece.title}", layer=BOUNDARY) as name:
            _piece(file, piece, result, head.stamps)
        names.append(name)
    file.page()
    said = [
        f"Style Name: {head.order} {head.garment}", f"Author: {head.workshop or 'not given'}", f"Sample Size: {head.client}, {head.measured}",
        "Units: METRIC", f"Draft: {head.draft}", *head.stamps, *([head.newer] if head.newer else []),
    ]  # fmt: skip
    _texts(file, said, (0.0, -10.0), layer=BOUNDARY)
    for name in names:
        file.add_block(name, layer=BOUNDARY)
    return file.done()


def _piece(file: DxfWriter, piece: PlacedPiece, result: Mapping, stamps: Iterable[str]) -> None:
    lines = piece.lines
    outline = _thinned(closed(lines.outline))
    _line(file, outline, BOUNDARY)
    for point, turns in _corners(outline[:-1]):
        file.add_point(_up(point), layer=TURN if turns else CURVE)
    for notch in lines.notches:
        for stroke in notch.strokes:
            file.add_mark(_up(stroke[1]), layer=NOTCH, depth=math.dist(*stroke), angle=_angle(stroke))
            file.add_line(_up(stroke[0]), _up(stroke[1]), layer=INTERNAL)
    for line in lines.fold:
        file.add_line(_up(line[0]), _up(line[-1]), layer=MIRROR)
    file.add_line(_up(lines.grain[-1]), _up(lines.grain[0]), layer=GRAIN)
    inner = (*lines.let_out, *lines.bones, *lines.marks, *lines.centre, *(line for _, line in lines.levels))
    for line in (*inner, *(edge.line for edge in lines.edges if edge.name.startswith("dart"))):
        _line(file, line, INTERNAL)
    for edge in lines.edges:
        if lines.sewn and edge.name != "fold" and not edge.name.startswith("dart"):
            _line(file, edge.line, SEW)
    for point in lines.dart_points:
        file.add_point(_up(point), layer=DRILL)
    count, cloths = _quantity(piece, result)
    fields = [f"Piece Name: {piece.title}", "Size: made to measure", f"Quantity: {count}", f"Material: {cloths}", *stamps]
    _texts(file, fields, piece.room.at, layer=BOUNDARY)
    _texts(file, piece.texts[1:], (piece.room.at[0], piece.room.at[1] + TEXT_HIGH * 1.5 * len(fields)), layer=NOTE)


def _quantity(piece: PlacedPiece, result: Mapping) -> tuple[str, str]:
    """Return how many of each cloth, and the cloths."""
    cuts = next(one["cut"] for one in result["pieces"] if one["name"] == piece.lines.name)
    return ", ".join(str(cut["count"]) for cut in cuts), clean(", ".join(cut["cloth"] for cut in cuts))


def _up(point: XY) -> XY:
    return (point[0], -point[1])


def _angle(stroke: Line) -> float:
    (x0, y0), (x1, y1) = _up(stroke[1]), _up(stroke[0])
    return math.degrees(math.atan2(y1 - y0, x1 - x0)) % 360


def _line(file: DxfWriter, line: Iterable[XY], layer: str) -> None:
    points = [_up(point) for point in _thinned(line)]
    whole = len(points) > 2 and points[0] == points[-1]
    file.add_polyline_2d(points[:-1] if whole else points, closed=whole, layer=layer)


def _thinned(line: Iterable[XY]) -> list[XY]:
    return list(LineString(line).simplify(THIN_WITHIN).coords)


def _texts(file: DxfWriter, texts: Iterable[str], at: XY, *, layer: str) -> None:
    for row, text in enumerate(texts):
        low = (at[0], -(at[1] + row * TEXT_HIGH * 1.5))
        file.add_text(" ".join(text.split()), insert=low, height=TEXT_HIGH, layer=layer)


def _corners(ring: Line) -> Iterable[tuple[XY, bool]]:
    """Return each point of an unclosed ring, and whether the outline turns there."""
    for before, at, after in zip((ring[-1], *ring[:-1]), ring, (*ring[1:], ring[0]), strict=True):
        turn = math.atan2(after[1] - at[1], after[0] - at[0]) - math.atan2(at[1] - before[1], at[0] - before[0])
        yield at, abs(math.degrees(math.atan2(math.sin(turn), math.cos(turn)))) > CORNER_DEG
