"""One piece of a result, drawn: for the sheet with every width in millimetres, for the screen with lines to touch.

Made from the result alone. What is returned is whole, escaped SVG with numbers that no language changes.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Collection, Iterable, Mapping

from drafting.dimensions import draw_dimensions, extents
from drafting.linework import Linework, number, safe, word_box
from drafting.piece_marks import BAR, dart_legs, long_lines, small_strokes
from drafting.polyline import (
    XY,
    closed,
    gap,
    holds,
    length,
    outward,
    ray,
    reach,
    readable,
    thinned,
    turning,
    walked,
    without_side,
)

Fmt = Callable[[float], str]


def whole_millimetres(mm: float) -> str:
    """Write a length as whole millimetres, where no workshop has said how it writes them."""
    return f"{mm:.0f}"


def piece_svg(
    piece: Mapping,
    result: Mapping,
    *,
    scale: float,
    for_paper: bool,
    fmt: Fmt = whole_millimetres,
    one_way: bool = False,
    touch: bool = True,
    moved: Collection[str] = (),
) -> str:
    """Return the SVG of one piece of `result`; the edges named in `moved` stand out on a screen.

    On paper `scale` is paper over cloth, lines carry their widths, and the dimensions stand outside the piece. On a
    screen 1 em is `1 / scale` inches of cloth (so `scale=1` is an em to the inch), every edge takes focus and carries
    `data-piece`, `data-edge` and `data-length`. `fmt` writes a length for people; `one_way` leaves the grain one arrow.
    Without `touch` a screen's picture is for looking at only.
    """
    sketch = Linework(scale=scale, for_paper=for_paper)
    net, ring = _points(piece["net"]), _points(piece["cut_line"])
    edges = [(edge["name"], _points(edge["line"]), edge["allowance"]) for edge in piece["edges"]]
    turn = turning(net)
    sketch.ground(ring, _role(piece))
    for line in _levels(piece, result):
        sketch.draw("level", [line])
    _grain(sketch, _points(piece["grain"]), one_way)
    sketch.draw("bone", _bones(piece, result))
    sketch.draw("let-out", [_points(line) for line in piece.get("let_out", ())])
    sketch.draw("mark", [*long_lines(piece), *small_strokes(piece, sketch.on_paper(BAR))])
    _sewing_lines(sketch, piece, edges, for_paper)
    _cut_and_fold(sketch, ring, edges)
    _notches(sketch, piece, edges, ring, turn)
    _moved(sketch, [line for name, line, _ in edges if name in moved])
    _spot_number(sketch, piece, net, _bones(piece, result))
    beside = _let_out_words(sketch, piece, result, ring, net, fmt)
    _fold_words(sketch, edges, ring, turn)
    if for_paper:
        draw_dimensions(sketch, piece.get("dims") or extents(net), ring, fmt, words=beside)
    elif touch:
        _lines_to_touch(sketch, piece, edges, fmt)
    return sketch.svg(title=_title(piece), attributes={"class": "piece-drawing", "data-piece": piece["name"]})


def pieces_svg(
    result: Mapping,
    *,
    scale: float,
    for_paper: bool,
    fmt: Fmt = whole_millimetres,
    one_way_cloths: Iterable[str] = (),
) -> dict[str, str]:
    """Return name → SVG for every piece of the result, all at one scale."""
    napped = set(one_way_cloths)
    return {
        piece["name"]: piece_svg(
            piece, result, scale=scale, for_paper=for_paper, fmt=fmt, one_way=is_one_way(piece, napped)
        )
        for piece in result["pieces"]
    }


def is_one_way(piece: Mapping, one_way_cloths: set[str]) -> bool:
    """Tell whether any cloth that the piece is cut from has a direction."""
    return any(cut["cloth"] in one_way_cloths for cut in piece["cut"])


def _points(line: Iterable) -> list[XY]:
    return [(float(x), float(y)) for x, y in line]


def _role(piece: Mapping) -> str:
    role = piece["cut"][0]["role"] if piece["cut"] else "shell"
    return role if role in ("lining", "stay", "wadding") else "shell"


def _title(piece: Mapping) -> str:
    name = piece.get("title") or piece["name"]
    return f"{piece['number']} {name}" if piece.get("number") else name


def _levels(piece: Mapping, result: Mapping) -> list[list[XY]]:
    """Return the stretches of this piece at the body's levels, as the girths were measured along them."""
    return [
        _points(across["line"])
        for girth in result.get("girths", ())
        for across in girth["across"]
        if across.get("piece") == piece["name"]
    ]


def _bones(piece: Mapping, result: Mapping) -> list[list[XY]]:
    """Return this piece's bone channels: along the seam where a channel lies on one, else straight down it.

    A channel that runs on into the next piece stops at this one's sewing line; that on the fold shows on both.
    """
    seams, net = [_points(edge["line"]) for edge in piece["edges"]], _points(piece["net"])
    lines = []
    for bone in result.get("bones", ()):
        ends = [tuple(bone["from"]), tuple(bone["to"])]
        on_fold = piece["on_fold"] and abs(ends[0][0]) < 0.1 and abs(ends[1][0]) < 0.1
        if bone["piece"] == piece["name"] or (on_fold and piece["name"] in bone.get("pieces", ())):
            on = (
                line for line in seams if _same_ends(ends, [line[0], line[-1]]) or _same_ends(ends, [line[-1], line[0]])
            )
            line = next(on, None) or _within(ends, net)
            if line:
                lines.append(line)
    return lines


def _within(ends: list[XY], net: list[XY]) -> list[XY] | None:
    """Return the part of a line that lies between the piece's highest and lowest point; None where there is none."""
    (x0, y0), (x1, y1) = ends
    low, high = min(y for _, y in net), max(y for _, y in net)
    if abs(y1 - y0) < 0.01:
        return ends
    shares = sorted(min(max((y - y0) / (y1 - y0), 0.0), 1.0) for y in (low, high))
    if shares[1] - shares[0] < 1e-6:
        return None
    return [(x0 + (x1 - x0) * share, y0 + (y1 - y0) * share) for share in shares]


def _same_ends(one: list[XY], other: list[XY]) -> bool:
    return all(math.dist(a, b) < 0.1 for a, b in zip(one, other))


def _grain(sketch: Linework, line: list[XY], one_way: bool) -> None:
    """Draw the grain with a head at each end, or on one-way cloth at the first end only (the top)."""
    tail, head = line[-1], line[0]
    if head[1] > tail[1] and one_way:
        tail, head = head, tail
    sketch.draw("grain", [[tail, head]])
    far = math.dist(tail, head)
    if far == 0:
        return
    long, half = min(sketch.on_paper(2.2), far / 3), min(sketch.on_paper(0.65), far / 10)
    for at, toward in ((head, tail), (tail, head))[: 1 if one_way else 2]:
        dx, dy = (toward[0] - at[0]) / far, (toward[1] - at[1]) / far
        foot = (at[0] + dx * long, at[1] + dy * long)
        sketch.solid([at, (foot[0] - dy * half, foot[1] + dx * half), (foot[0] + dy * half, foot[1] - dx * half)])


def _sewing_lines(sketch: Linework, piece: Mapping, edges, for_paper: bool) -> None:
    """Draw the sewing line (one path on paper), the darts' legs among it, and the ring at each dart's point."""
    sewn = [line for name, line, _ in edges if name != "fold"]
    joined: list[list[XY]] = []
    for line in sewn:
        if for_paper and joined and math.dist(joined[-1][-1], line[0]) < 0.01:
            joined[-1] = [*joined[-1], *line[1:]]
        else:
            joined.append(line)
    sketch.draw("sew", joined)
    for dart in piece.get("darts", ()):
        legs = [_points(leg) for leg in dart["legs"]]
        if not any(name.startswith("dart") for name, _, _ in edges):
            sketch.draw("sew", legs)
        sketch.ring(tuple(dart["point"]))
    inner = dart_legs(piece)
    sketch.draw("sew", inner)
    for point in dict.fromkeys(leg[-1] for leg in inner):
        sketch.ring(point)


def _cut_and_fold(sketch: Linework, ring: list[XY], edges) -> None:
    """Draw the cutting line where cloth is cut, and the fold from one end of it to the other."""
    folds = [line for name, line, _ in edges if name == "fold"]
    if not folds:
        sketch.draw("cut", [ring], closing=True)
        return
    lines = without_side(ring, folds[0])
    sketch.draw("cut", lines)
    ends = [lines[-1][-1], lines[0][0]] if lines[0][0] != lines[-1][-1] else [folds[0][0], folds[0][-1]]
    sketch.draw("fold", [ends])


def _notches(sketch: Linework, piece: Mapping, edges, ring: list[XY], turn: int) -> None:
    """Draw each notch from the sewing line to the cutting line; a double one as two strokes."""
    lines = {name: (line, allowance) for name, line, allowance in edges}
    strokes = []
    for notch in piece.get("notches", ()):
        line, allowance = lines[notch["edge"]]
        half = sketch.on_paper(0.55) if notch["mark"] == "double" else 0.0
        for shift in (-half, half) if half else (0.0,):
            at, ahead = walked(line, min(max(notch["at"] + shift, 0.0), length(line)))
            out = outward(ahead, turn)
            far = ray(at, out, ring)
            far = allowance if far is None or far > 2.5 * max(allowance, 1.0) else far
            strokes.append([at, (at[0] + out[0] * far, at[1] + out[1] * far)])
    sketch.draw("notch", strokes)


def _moved(sketch: Linework, lines: list[list[XY]]) -> None:
    """Lay over the sewing line what the last choice moved, as a touched line is drawn."""
    if lines:
        sketch.raw(f'<path class="moved" d="{sketch.path_data(lines)}" fill="none" vector-effect="non-scaling-stroke"/>')


def _spot_number(sketch: Linework, piece: Mapping, net: list[XY], bones: list[list[XY]]) -> None:
    """Write the piece's number at the roomiest place inside it."""
    if not piece.get("number"):
        return
    coarse = thinned(net, sketch.on_paper(0.4))
    marks = [closed(coarse), _points(piece["grain"]), *bones]
    marks += [_points(leg)[::4] + [tuple(dart["point"])] for dart in piece.get("darts", ()) for leg in dart["legs"]]
    marks += dart_legs(piece)
    left, top = (min(axis) for axis in zip(*coarse))
    right, bottom = (max(axis) for axis in zip(*coarse))
    spots = [(left + (right - left) * i / 9, top + (bottom - top) * j / 9) for i in range(1, 9) for j in range(1, 9)]
    inside = [spot for spot in spots if holds(coarse, spot)] or [((left + right) / 2, (top + bottom) / 2)]
    best = max(inside, key=lambda spot: min(gap(spot, mark) for mark in marks))
    sketch.words(str(piece["number"]), best, bold=True, size=1.3)


def _let_out_words(sketch: Linework, piece, result, ring: list[XY], net: list[XY], fmt: Fmt) -> list[list[XY]]:
    """Write “let-out” and its amount beside the cut, along each let-out line that is long enough; return the words' boxes."""
    amount = result.get("rules", {}).get("let_out")
    text = f"let-out {fmt(amount)}" if isinstance(amount, int | float) else "let-out"
    centre, boxes = tuple(sum(axis) / len(net) for axis in zip(*net)), []
    for raw in piece.get("let_out", ()):
        line = _points(raw)
        if length(line) < sketch.text_height * 2:
            continue
        at, ahead = walked(line, length(line) / 2)
        out = (ahead[1], -ahead[0])
        if (centre[0] - at[0]) * out[0] + (centre[1] - at[1]) * out[1] > 0:
            out = (-out[0], -out[1])
        half = 0.3 * sketch.text_height * len(text)
        far = reach(closed(ring), at, ahead, out, half) + sketch.on_paper(0.6) + sketch.text_height / 2
        place = (at[0] + out[0] * far, at[1] + out[1] * far)
        sketch.words(text, place, angle=readable(ahead))
        boxes.append(word_box(text, place, sketch.text_height, anchor="middle", angle=readable(ahead)))
    return boxes


def _fold_words(sketch: Linework, edges, ring: list[XY], turn: int) -> None:
    """Write “on the fold” along the fold, outside the piece."""
    for name, line, _ in edges:
        if name == "fold" and length(line) > 0:
            at, ahead = walked(line, length(line) / 2)
            out = outward(ahead, turn)
            far = sketch.on_paper(0.7) + sketch.text_height / 2
            sketch.words("on the fold", (at[0] + out[0] * far, at[1] + out[1] * far), angle=readable(ahead))


def _lines_to_touch(sketch: Linework, piece: Mapping, edges, fmt: Fmt) -> None:
    """Lay over each edge a wide clear line that takes focus and says its name and length."""
    for name, line, _ in edges:
        said = f"{name[:1].upper()}{name[1:]}, {fmt(length(line))}"
        data = "M" + "L".join(f"{number(x)} {number(y)}" for x, y in line)
        sketch.raw(
            f'<path class="touch" tabindex="0" role="img" aria-label="{safe(said)}" data-piece="{safe(piece["name"])}"'
            f' data-edge="{safe(name)}" data-length="{safe(fmt(length(line)))}" d="{data}"'
            ' fill="none" stroke="transparent"'
            f' stroke-width="14" vector-effect="non-scaling-stroke"><title>{safe(said)}</title></path>'
        )
