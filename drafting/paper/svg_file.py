"""The pattern as one SVG in millimetres, a named layer for each kind of line, a piece's lines marked with its name."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping

from drafting.linework import KINDS, number, safe
from drafting.paper.about import About, heading
from drafting.paper.choice import Choice
from drafting.paper.files_for_others import one_sheet
from drafting.paper.piece_lines import Line, PieceLines
from drafting.paper.spread import PlacedPiece

LAYERS: dict[str, tuple[str, Callable[[PieceLines], Iterable[Line]]]] = {
    "cut": ("cut line", lambda lines: lines.cut),
    "fold": ("on the fold", lambda lines: (*lines.fold, *lines.centre)),
    "sew": ("sewing line, dart", lambda lines: lines.sew),
    "let-out": ("let-out", lambda lines: lines.let_out),
    "notch": ("notches", lambda lines: [stroke for notch in lines.notches for stroke in notch.strokes]),
    "grain": ("grain", lambda lines: (lines.grain,)),
    "bone": ("bone channels", lambda lines: lines.bones),
    "mark": ("centre line, buttonholes, buttons", lambda lines: lines.marks),
    "level": ("body levels", lambda lines: [line for _, line in lines.levels]),
}


def as_svg(order_file: Mapping, result: Mapping, *, choice: Choice | None = None, about: About | None = None) -> bytes:
    """Return the SVG file, UTF-8. Layer “outline” holds each piece's closed outline, unseen. Raises NothingChosen."""
    choice, about = choice or Choice(), about or About()
    head = heading(order_file, result, about)
    spread = one_sheet(order_file, result, choice, about)
    (wide, high), *_ = spread.sizes
    title = ", ".join(filter(None, (*head.stamps, head.line, head.workshop)))
    layers = [_layer("outline", "outline, closed", _outlines(spread.pieces), 'fill="none" stroke="none"')]
    for name, (words, lines_of) in LAYERS.items():
        paths = "".join(_path(piece, lines_of(piece.lines)) for piece in spread.pieces)
        layers.append(_layer(name, words, paths, _stroke(name)))
    layers.append(_layer("words", "labels", "".join(map(_label, spread.pieces)), 'font-family="sans-serif" text-anchor="middle"'))
    return (
        f'<?xml version="1.0" encoding="UTF-8"?>\n<svg xmlns="http://www.w3.org/2000/svg" width="{number(wide)}mm"'
        f' height="{number(high)}mm" viewBox="0 0 {number(wide)} {number(high)}"><title>{safe(title)}</title>\n{"".join(layers)}</svg>\n'
    ).encode()


def _layer(name: str, words: str, marks: str, style: str) -> str:
    return f'<g id="{name}" class="layer" {style}><title>{safe(words)}</title>{marks}</g>\n'


def _stroke(name: str) -> str:
    kind = KINDS[name]
    dashes = f' stroke-dasharray="{" ".join(map(number, kind.dashes))}"' if kind.dashes else ""
    ends = ' stroke-linecap="round"' if kind.round_ends else ""
    return f'fill="none" stroke="#000" stroke-width="{number(kind.paper)}"{dashes}{ends}'


def _outlines(pieces: Iterable[PlacedPiece]) -> str:
    return "".join(f'<path data-piece="{safe(piece.lines.name)}" d="{_data(piece.lines.outline)}Z"/>' for piece in pieces)


def _path(piece: PlacedPiece, lines: Iterable[Line]) -> str:
    data = "".join(_data(line) for line in lines)
    return f'<path data-piece="{safe(piece.lines.name)}" d="{data}"/>' if data else ""


def _data(line: Line) -> str:
    return "M" + "L".join(f"{number(x)} {number(y)}" for x, y in line)


def _label(piece: PlacedPiece) -> str:
    room, size = piece.room, piece.room.writing
    first = room.at[1] - size * 1.3 * (len(piece.texts) - 1) / 2
    turn = f' transform="rotate({number(room.angle)} {number(room.at[0])} {number(room.at[1])})"' if room.angle % 360 else ""
    rows = "".join(
        f'<tspan x="{number(room.at[0])}" y="{number(first + row * size * 1.3)}" font-weight="{400 if row else 700}">{safe(text)}</tspan>'
        for row, text in enumerate(piece.texts)
    )
    return f'<text data-piece="{safe(piece.lines.name)}" font-size="{number(size)}"{turn}>{rows}</text>'
