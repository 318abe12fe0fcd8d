"""Dimension lines outside a piece: where each one goes, so that no figure lies on another."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Mapping

from drafting.linework import Linework
from drafting.polyline import XY, bounds, closed, gap, reach, readable

FIRST, BETWEEN, TICK, CLEAR = 2.6, 1.7, 0.75, 0.9
"""Millimetres on paper: piece to first line, figure to next line, half an end stroke, start of a helping line."""
STRAIGHT = 0.12
"""A dimension that strays by less than this share from level or straight down is drawn so."""

Way = str  # "level", "down", "slant"


def way_of(start: XY, end: XY, value: object) -> Way:
    """Return how a dimension runs: the direction that its figure belongs to, else the one that it lies along."""
    dx, dy = abs(end[0] - start[0]), abs(end[1] - start[1])
    if dx < 0.5 or dy < 0.5:
        return "down" if dx < 0.5 else "level"
    if isinstance(value, int | float):
        for way, straight in (("level", dx), ("down", dy), ("slant", math.hypot(dx, dy))):
            if abs(value - straight) <= 1.0:
                return way
    if dy < STRAIGHT * dx:
        return "level"
    return "down" if dx < STRAIGHT * dy else "slant"


def draw_dimensions(
    sketch: Linework, dims: Iterable[Mapping], ring: list[XY], fmt: Callable[[float], str], *, words: Iterable[list[XY]] = ()
) -> None:
    """Draw each dimension outside `ring` (the cutting line) and the boxes of `words` beside it, with its figure as `fmt` writes it.

    Slanting ones lie nearest the piece, level and upright ones beyond them, and among each the short ones first.
    """
    left, top, right, bottom = bounds(ring)
    middle = ((left + right) / 2, (top + bottom) / 2)
    rows: dict[str, list[tuple[float, list[tuple[float, float]]]]] = {}
    slants: list[list[XY]] = []
    straight = []
    there = [closed(ring), *(closed(box) for box in words)]
    for dim in sorted(dims, key=lambda one: math.dist(one["from"], one["to"])):
        start, end, value = tuple(dim["from"]), tuple(dim["to"]), dim["value"]
        text = fmt(value) if isinstance(value, int | float) else str(value)
        way = way_of(start, end, value)
        if way == "slant":
            _slanting(sketch, start, end, text, there, slants)
        else:
            straight.append((start, end, text, way))
    box = sketch.box
    for start, end, text, way in straight:
        _straight(sketch, start, end, text, way, box, middle, rows)


def _straight(sketch, start, end, text, way, box, middle, rows) -> None:
    """Draw a level or upright dimension in the first free row of its side."""
    axis = 0 if way == "level" else 1
    other = 1 - axis
    late = (start[other] + end[other]) / 2 > middle[other] if axis == 0 else True
    edge = box[other + 2] if late else box[other]
    outward = 1 if late else -1
    low, high = sorted((start[axis], end[axis]))
    figure = 0.62 * sketch.text_height * len(text)
    tall = sketch.text_height
    beside = axis == 0 and figure > 0.58 * (high - low)
    spread = (low, high + figure + sketch.on_paper(2)) if beside else (low, high)
    if axis == 1 and tall > high - low:
        spread = ((low + high - tall) / 2, (low + high + tall) / 2)
    depth = sketch.on_paper(BETWEEN) + (tall if axis == 0 else figure)
    offset = _free_row(
        rows.setdefault(f"{way}{outward}", []), spread, depth, sketch.on_paper(FIRST), sketch.on_paper(0.8)
    )
    if axis == 0 and outward > 0:
        offset += 0.0 if beside else tall
    at = edge + outward * offset
    ends = [_placed(axis, start[axis], at), _placed(axis, end[axis], at)]
    helpers = []
    for point, foot in zip((start, end), ends):
        gone = sketch.on_paper(CLEAR) * outward
        if (foot[other] - point[other]) * outward > abs(gone):
            helpers.append(
                [
                    _placed(axis, point[axis], point[other] + gone),
                    _placed(axis, foot[axis], at + sketch.on_paper(0.8) * outward),
                ]
            )
    sketch.draw("dimension", [*helpers, ends, *_end_strokes(sketch, ends)])
    if axis == 0:
        place = (
            (high + sketch.on_paper(1.2), at) if beside else ((low + high) / 2, at - sketch.on_paper(0.5) - tall / 2)
        )
        sketch.words(text, place, anchor="start" if beside else "middle")
    else:
        sketch.words(text, (at + sketch.on_paper(0.9), (low + high) / 2), anchor="start")


def _placed(axis: int, along: float, across: float) -> XY:
    return (along, across) if axis == 0 else (across, along)


def _free_row(rows, spread, depth, first, apart) -> float:
    """Return the distance from the piece of the first row with room for `spread`, and note it there."""
    offset = first
    for index, (row_depth, taken) in enumerate(rows):
        if all(spread[1] + apart < low or spread[0] - apart > high for low, high in taken):
            taken.append(spread)
            rows[index] = (max(row_depth, depth), taken)
            return offset
        offset += row_depth
    rows.append((depth, [spread]))
    return offset


def _end_strokes(sketch: Linework, ends: list[XY]) -> list[list[XY]]:
    """Return the two oblique strokes that close a dimension line."""
    (x0, y0), (x1, y1) = ends
    turn = math.atan2(y1 - y0, x1 - x0) - math.pi / 4
    dx, dy = (sketch.on_paper(TICK) * 1.4 * part for part in (math.cos(turn), math.sin(turn)))
    return [[(x - dx, y - dy), (x + dx, y + dy)] for x, y in ends]


def _slanting(sketch: Linework, start: XY, end: XY, text: str, there: list[list[XY]], drawn: list[list[XY]]) -> None:
    """Draw a dimension along its own direction, beyond what is `there` where that is thinner, clear of those in `drawn`."""
    far = math.dist(start, end)
    ahead = ((end[0] - start[0]) / far, (end[1] - start[1]) / far)
    out = (ahead[1], -ahead[0])
    middle = ((start[0] + end[0]) / 2, (start[1] + end[1]) / 2)
    beyond = max(reach(line, middle, ahead, out, 0.55 * far) for line in there)
    behind = max(reach(line, middle, ahead, (-out[0], -out[1]), 0.55 * far) for line in there)
    if behind < beyond:
        out, beyond = (-out[0], -out[1]), behind
    away = beyond + sketch.on_paper(FIRST)
    apart = sketch.text_height + sketch.on_paper(BETWEEN)
    for _ in range(12):
        ends = [(x + out[0] * away, y + out[1] * away) for x, y in (start, end)]
        points = [tuple(p + (q - p) * share / 4 for p, q in zip(*ends)) for share in range(5)]
        if all(gap(point, line) >= apart for line in drawn for point in points):
            break
        away += apart / 3
    drawn.append(ends)
    clear = sketch.on_paper(CLEAR)
    helpers = [
        [(p[0] + out[0] * clear, p[1] + out[1] * clear), (q[0] + out[0] * clear * 0.8, q[1] + out[1] * clear * 0.8)]
        for p, q in zip((start, end), ends)
    ]
    sketch.draw("dimension", [*helpers, ends, *_end_strokes(sketch, ends)])
    lift = sketch.on_paper(0.5) + sketch.text_height / 2
    place = tuple((a + b) / 2 + o * lift for a, b, o in zip(*ends, out))
    sketch.words(text, place, angle=readable(ahead))


def extents(ring: list[XY]) -> list[dict]:
    """Return the two plain dimensions of a sewing line, width and height, for a piece that brings none."""
    left, top, right, bottom = bounds(ring)
    return [
        {"from": (left, bottom), "to": (right, bottom), "value": right - left},
        {"from": (right, top), "to": (right, bottom), "value": bottom - top},
    ]
