"""All pieces of a sheet as one drawing at full size, in the lines of the job sheet."""

from __future__ import annotations

import math
from collections.abc import Iterable

from drafting.linework import Linework
from drafting.paper.piece_lines import NotchLine, PieceLines
from drafting.polyline import XY, gap, length, outward, readable, walked

WRITING = 1.35
"""Words along an edge, over the usual height of words in a drawing: 3.2 mm."""
INSIDE = 1.6
"""They stand so far inside the sewing line, mm."""
BROAD_LETTER = 0.57
ARROW = (4.0, 1.2)
"""Length and half width of the grain's head, mm."""


class SheetDrawing:
    """Gathers placed pieces; `svg` and `corner` are then what is laid on the page, and where (mm)."""

    def __init__(self) -> None:
        self._sketch = Linework(scale=1.0, for_paper=True)

    def add(self, piece: PieceLines, *, one_way: bool) -> None:
        """Draw a piece where it lies on the sheet."""
        sketch = self._sketch
        sketch.draw("level", [line for _, line in piece.levels])
        named = {edge.name.rstrip(" 0123456789") for edge in piece.edges}
        for name, line in piece.levels:
            if name not in named:
                self._level_name(name, line)
        self._grain(piece.grain, one_way)
        sketch.draw("bone", piece.bones)
        sketch.draw("let-out", piece.let_out)
        sketch.draw("mark", piece.marks)
        sketch.draw("sew", _joined(piece.sew))
        for point in piece.dart_points:
            sketch.ring(point)
        sketch.draw("cut", piece.cut)
        sketch.draw("fold", piece.fold)
        sketch.draw("fold", piece.centre)
        sketch.draw("notch", [stroke for notch in piece.notches for stroke in notch.strokes])
        for notch in piece.notches:
            self._letter(notch)
        for edge in piece.edges:
            self._along(edge.said, edge.line, piece, word_side=-1)
        for words, lines in (("on the fold", piece.fold), ("centre", piece.centre)):
            for line in lines:
                self._along((words,), line, piece, word_side=1)

    @property
    def corner(self) -> XY:
        left, top, _, _ = self._sketch.box
        return left - EDGE, top - EDGE

    def svg(self, title: str) -> str:
        return self._sketch.svg(title=title, edge=EDGE)

    def _grain(self, line: Iterable[XY], one_way: bool) -> None:
        """Draw the grain with a head at each end, or on one-way cloth at its first end only (the top of the piece)."""
        head, tail = list(line)[0], list(line)[-1]
        self._sketch.draw("grain", [[head, tail]])
        far = math.dist(head, tail)
        if far == 0:
            return
        long, half = min(ARROW[0], far / 3), min(ARROW[1], far / 10)
        for at, toward in ((head, tail), (tail, head))[: 1 if one_way else 2]:
            ux, uy = (toward[0] - at[0]) / far, (toward[1] - at[1]) / far
            foot = (at[0] + ux * long, at[1] + uy * long)
            self._sketch.solid([at, (foot[0] - uy * half, foot[1] + ux * half), (foot[0] + uy * half, foot[1] - ux * half)])

    def _level_name(self, name: str, line: Iterable[XY]) -> None:
        """Write a body level's name on its line, near its left end."""
        line = sorted((list(line)[0], list(line)[-1]))
        wide = BROAD_LETTER * self._sketch.text_height * WRITING * len(name)
        if math.dist(*line) > wide + 14:
            at, ahead = walked(line, 7 + wide / 2)
            away = INSIDE + self._sketch.text_height * WRITING / 2
            self._sketch.words(name, (at[0] + ahead[1] * away, at[1] - ahead[0] * away), angle=readable(ahead), size=WRITING)

    def _letter(self, notch: NotchLine) -> None:
        if notch.letter:
            (x0, y0), (x1, y1) = notch.strokes[0][0], notch.strokes[0][-1]
            into = (x1 - x0) * notch.inward[0] + (y1 - y0) * notch.inward[1]
            away = 3.2 + max(into, 0.0)
            at = (notch.at[0] + notch.inward[0] * away, notch.at[1] + notch.inward[1] * away)
            self._sketch.words(notch.letter, at, bold=True, size=WRITING)

    def _along(self, wordings: Iterable[str], line: Iterable[XY], piece: PieceLines, *, word_side: int) -> None:
        """Write the first of the wordings that has room along a line, inside the piece, where it is straightest."""
        line = list(line)
        tall = self._sketch.text_height * WRITING
        for said in wordings:
            wide = BROAD_LETTER * tall * len(said)
            spot = _straightest(line, wide, [notch.at for notch in piece.notches])
            if spot:
                at, ahead, sag = spot
                out = outward(ahead, piece.turn)
                inward = (-out[0], -out[1])
                if word_side > 0:
                    inward = _toward(at, inward, piece)
                away = INSIDE + tall / 2 + sag
                place = (at[0] + inward[0] * away, at[1] + inward[1] * away)
                self._sketch.words(said, place, angle=readable(ahead), size=WRITING)
                return


EDGE = 0.5


def _toward(at: XY, way: XY, piece: PieceLines) -> XY:
    """Return the direction, of `way` and its opposite, that leads to the piece's middle."""
    middle = tuple(sum(axis) / len(piece.net) for axis in zip(*piece.net))
    ahead = (middle[0] - at[0]) * way[0] + (middle[1] - at[1]) * way[1]
    return way if ahead >= 0 else (-way[0], -way[1])


def _straightest(line: list[XY], wide: float, keep_off: list[XY]) -> tuple[XY, XY, float] | None:
    """Return place, direction and bulge of the straightest stretch that is `wide` mm long and clear of notches."""
    whole = length(line)
    room = whole - wide - 6
    if room < 0:
        return None
    best = None
    for step in range(9):
        start = 3 + room * (0.5 + (step + 1) // 2 * (-1 if step % 2 else 1) / 8)
        first, last = walked(line, start)[0], walked(line, start + wide)[0]
        far = math.dist(first, last)
        if far < 0.9 * wide:
            continue
        ahead = ((last[0] - first[0]) / far, (last[1] - first[1]) / far)
        chord = [first, last]
        sag = max(gap(walked(line, start + wide * share / 6)[0], chord) for share in range(1, 6))
        if any(gap(notch, chord) < 4 for notch in keep_off):
            sag += 3
        if best is None or sag < best[2] - 0.3:
            middle = ((first[0] + last[0]) / 2, (first[1] + last[1]) / 2)
            best = (middle, ahead, sag)
    return best if best and best[2] < 6 else None


def _joined(lines: Iterable[Iterable[XY]]) -> list[list[XY]]:
    """Return the lines with those that follow on each other made one, so that dashes run on."""
    joined: list[list[XY]] = []
    for line in lines:
        if joined and math.dist(joined[-1][-1], line[0]) < 0.01:
            joined[-1] = [*joined[-1], *line[1:]]
        else:
            joined.append(list(line))
    return joined
