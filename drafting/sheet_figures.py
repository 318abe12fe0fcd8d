"""The drawings of the job sheet: pieces at a scale that a plain ruler reads, the key of lines, lines to check by."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from django.utils.safestring import SafeString, mark_safe

from drafting.cut_list import cut_count, is_same_line
from drafting.laid_over_picture import laid_over_svg, laid_over_title, laid_over_words
from drafting.linework import KINDS, PAPER_FONT, Linework, as_image, clean
from drafting.pictures import is_one_way, piece_svg
from drafting.polyline import bounds
from workshop.length import INCH

SCALES = {
    INCH: ((1 / 8, "⅛ on paper is 1 in of cloth"), (1 / 16, "¹⁄₁₆ on paper is 1 in of cloth"),
           (1 / 32, "¹⁄₃₂ on paper is 1 in of cloth")),
    "metric": ((1 / 10, "1 : 10, 1 mm on paper is 1 cm of cloth"), (1 / 20, "1 : 20, 1 mm on paper is 2 cm of cloth"),
               (1 / 40, "1 : 40, 1 mm on paper is 4 cm of cloth")),
}  # fmt: skip
LAID_OVER = {INCH: (1 / 4, "¼ on paper is 1 in of cloth"), "metric": (1 / 4, "1 : 4, 1 mm on paper is 4 mm of cloth")}
TALLEST, WIDEST = 78.0, 150.0
"""A piece that comes out taller or wider than this on paper, mm, is drawn at the next smaller scale."""


@dataclass(frozen=True, slots=True)
class Figure:
    svg: SafeString
    name: str
    count: str


@dataclass(frozen=True, slots=True)
class FigureGroup:
    scale: str
    figures: tuple[Figure, ...]


def figure_groups(
    order_file: Mapping, result: Mapping, fmt: Callable[[float], str], unit: str
) -> tuple[tuple[FigureGroup, ...], str]:
    """Return the drawings by scale, and a sentence on the layers that are shaped as their outside piece."""
    pieces = {piece["name"]: piece for piece in result["pieces"]}
    one_way = {cloth["name"] for cloth in order_file["cloths"] if cloth.get("one_way")}
    scales = SCALES.get(unit, SCALES["metric"])
    drawn: dict[str, list[Figure]] = {words: [] for _, words in scales}
    same: list[str] = []
    for piece in result["pieces"]:
        outside = pieces.get(piece["of"])
        if (
            outside
            and is_same_line(piece["net"], outside["net"])
            and is_same_line(piece["cut_line"], outside["cut_line"])
        ):
            same.append(clean(piece.get("title") or piece["name"]))
            continue
        scale, words = _scale_for(piece, scales)
        svg = piece_svg(piece, result, scale=scale, for_paper=True, fmt=fmt, one_way=is_one_way(piece, one_way))
        drawn[words].append(
            Figure(
                mark_safe(as_image(svg, _named(piece))),
                _named(piece),
                cut_count(piece, piece["cut"][0]) if piece["cut"] else "",
            )
        )
    groups = tuple(FigureGroup(words, tuple(figures)) for words, figures in drawn.items() if figures) + _laid_over(result, fmt, unit)
    return groups, f"Cut as the outside piece, so not drawn: {', '.join(same)}." if same else ""


def _laid_over(result: Mapping, fmt: Callable[[float], str], unit: str) -> tuple[FigureGroup, ...]:
    """Return the sleeve's cap laid over the armholes; none without a set-in sleeve."""
    scale, words = LAID_OVER.get(unit, LAID_OVER["metric"])
    figures = tuple(
        Figure(mark_safe(as_image(laid_over_svg(one, scale=scale, for_paper=True, fmt=fmt), laid_over_title(one))), laid_over_title(one), laid_over_words(one, fmt))
        for one in result.get("laid_over", ())
    )
    return (FigureGroup(words, figures),) if figures else ()


def _scale_for(piece: Mapping, scales) -> tuple[float, str]:
    left, top, right, bottom = bounds(piece["cut_line"])
    for scale, words in scales:
        if (bottom - top) * scale <= TALLEST and (right - left) * scale <= WIDEST:
            return scale, words
    return scales[-1]


def _named(piece: Mapping) -> str:
    title = clean(piece.get("title") or piece["name"])
    return f"{piece['number']} {title}" if piece.get("number") else title


def key_of_lines() -> tuple[tuple[SafeString, str], ...]:
    """Return a sample of each kind of line with its words."""
    samples = []
    for kind in KINDS.values():
        sketch = Linework(scale=1.0, for_paper=True)
        if kind.name == "notch":
            sketch.draw("cut", [[(0, 0), (13, 0)]])
            sketch.draw("notch", [[(x, 0), (x, 1.6)] for x in (3, 8.5, 9.6)])
            sketch.draw("sew", [[(0, 1.6), (13, 1.6)]])
        elif kind.name == "dimension":
            sketch.draw("dimension", [[(0, 0.8), (13, 0.8)], [(-0.7, 1.5), (0.7, 0.1)], [(12.3, 1.5), (13.7, 0.1)]])
        else:
            sketch.draw(kind.name, [[(0, 0.8), (13, 0.8)]])
            if kind.name == "grain":
                for at, toward in ((0, 2.2), (13, 10.8)):
                    sketch.solid([(at, 0.8), (toward, 0.2), (toward, 1.4)])
            if kind.name == "sew":
                sketch.ring((13.9, 0.8))
        samples.append((mark_safe(as_image(sketch.svg(title=kind.word), "")), kind.word))
    return tuple(samples)


def ruler() -> SafeString:
    """Return a line of 100 mm and one of 4 in, to hold a ruler to."""
    marks = []
    for far, y, words in ((100.0, 2.0, "100 mm"), (101.6, 6.0, "4 in")):
        ends = "".join(f"M{x:.4f} {y - 1.2}L{x:.4f} {y + 1.2}" for x in (2, 2 + far))
        for line in (f"M2 {y}L{2 + far:.4f} {y}", ends):
            marks.append(f'<path d="{line}" stroke="#000" stroke-width="0.25"/>')
        place = f'x="{4 + far:.4f}" y="{y + 0.85}" font-size="2.35" font-family="{PAPER_FONT}"'
        marks.append(f"<text {place}>{words}</text>")
    size = 'width="118mm" height="8mm" viewBox="0 0 118 8"'
    svg = f'<svg xmlns="http://www.w3.org/2000/svg" {size}>{"".join(marks)}</svg>'
    return mark_safe(as_image(svg, "Lines of 100 mm and of 4 in"))
