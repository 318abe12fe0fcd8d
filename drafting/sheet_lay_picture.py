"""One strip of a lay, drawn to scale for the sheet: as the cutter sees the cloth, the fold or left edge near her, its start at her left.

The strip is the lay turned by a quarter, never mirrored: a piece for one side of the body is not drawn for the other.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from shapely import Point, Polygon, box, prepare
from shapely.geometry.base import BaseGeometry

from drafting.linework import PAPER_TEXT, Linework
from drafting.polyline import XY
from workshop.length import INCH, MM_PER, print_length

TICKS = {INCH: (float(MM_PER["yd"]) / 8, 2), "metric": (100.0, 5)}
"""Between ticks, mm: an eighth of a yard or a tenth of a metre; every how many one is long and has its figure."""

GREY, FLAW = "#ececec", "#bdbdbd"
NARROW = 0.57
"""The width of a broad letter over its height."""
SMALL = 0.75
CROSS = 2.0
"""Half the cross where a motif's middle must lie, mm on paper."""


@dataclass(frozen=True, slots=True)
class Strip:
    """A stretch of the cloth from `start` to `end` along it and `across` wide, mm; `low` and `high` name its long edges
    as drawn, `left` a fold at its start, `said` what stands at its lower right."""

    start: float
    end: float
    across: float
    low: str
    high: str
    zone: str = ""
    left: str = ""
    said: str = ""


@dataclass(frozen=True, slots=True)
class Lying:
    """A placed piece as it is drawn: its ring along and up, mm; what to write on it, the fullest wording first."""

    shape: Polygon
    words: tuple[str, ...]
    tip: int
    zone: str
    under: bool
    motif: tuple[float, float] | None = None


def lying(placed: Mapping, across: float, words: tuple[str, ...], *, one_way: bool) -> Lying:
    """Return a placed piece turned by a quarter; `tip` is −1 where its top points left, 1 right, 0 where either will do."""
    ring = [(float(y), across - float(x)) for x, y in placed["outline"]]
    tip = 0 if not one_way else -1 if placed["turned"] == 0 else 1
    motif = (float(placed["motif"][1]), across - float(placed["motif"][0])) if placed.get("motif") else None
    return Lying(Polygon(ring), words, tip, placed.get("zone", ""), bool(placed.get("under")), motif)


def strip_svg(strip: Strip, pieces: Iterable[Lying], flaws: Iterable[tuple[Polygon, str]], *, scale: float, unit: str, selvedge: float,
              whole: tuple[float, float], title: str) -> tuple[str, set[str], set[str]]:  # fmt: skip
    """Return the drawing, the words that are written out in full, and those that only their number stands for. `flaws` each have what to write on them. `whole` is where the lay starts and ends."""
    sketch = Linework(scale=scale, for_paper=True)
    window = box(strip.start, 0, strip.end, strip.across)
    _cloth(sketch, strip, selvedge)
    for flaw, said in flaws:
        for part in _parts(flaw.intersection(window)):
            _fill(sketch, part, FLAW)
            _word(sketch, part, (said, said.removesuffix(", cut")), tip=None)
    full: set[str] = set()
    small: set[str] = set()
    for piece in sorted(pieces, key=lambda piece: piece.under):  # the under layer's show through
        if piece.zone != strip.zone:
            continue
        parts = _parts(piece.shape.intersection(window))
        for part in parts:
            if not piece.under:
                _fill(sketch, part, GREY)
            line = part.exterior.intersection(piece.shape.exterior.buffer(0.01))
            if strip.low == "fold":
                line = line.difference(box(strip.start - 1, strip.across - 0.02, strip.end + 1, strip.across + 1))
            for run in getattr(line, "geoms", [line]):
                sketch.draw("let-out" if piece.under else "cut", [list(run.coords)])
        largest = max(parts, key=lambda part: part.area, default=None)
        for part in parts:
            if part is largest or part.area > 0.3 * piece.shape.area:
                wrote = _word(sketch, part.difference(_cross_box(sketch, piece)), piece.words, tip=piece.tip)
                (full if wrote == piece.words[0] else small).add(piece.words[0])
        if piece.motif and strip.start <= piece.motif[0] <= strip.end:
            (x, y), arm = piece.motif, sketch.on_paper(CROSS)
            sketch.draw("cut", [[(x - arm, y), (x + arm, y)], [(x, y - arm), (x, y + arm)]])
    _ends(sketch, strip, whole)
    _marks(sketch, strip, unit, selvedge, whole)
    return sketch.svg(title=title), full, small


def _cross_box(sketch: Linework, piece: Lying) -> Polygon:
    """Return the room that a motif's cross takes on the piece; nothing where it has none."""
    return Point(piece.motif).buffer(sketch.on_paper(CROSS), cap_style="square") if piece.motif else Polygon()


def _parts(shape: BaseGeometry) -> list[Polygon]:
    return [part for part in getattr(shape, "geoms", [shape]) if isinstance(part, Polygon) and part.area > 1.0]


def _fill(sketch: Linework, shape: Polygon, colour: str) -> None:
    sketch.raw(f'<path fill="{colour}" d="{sketch.path_data([list(shape.exterior.coords)[:-1]], closing=True)}"/>')


def _cloth(sketch: Linework, strip: Strip, selvedge: float) -> None:
    """The cloth's two long edges, each named; a fold is dashed, a selvedge a double line."""
    for word, y, out in ((strip.high, 0.0, -1), (strip.low, strip.across, 1)):
        edge = [(strip.start, y), (strip.end, y)]
        sketch.draw("fold" if word == "fold" else "grain", [edge])
        if word != "fold":
            sketch.draw("cut", [[(x, at + out * selvedge) for x, at in edge]])
    under = strip.across + (0 if strip.low == "fold" else selvedge) + sketch.on_paper(2.2)
    sketch.words(strip.low, (strip.start, under), anchor="start")
    sketch.words(strip.high, (strip.start, -selvedge - sketch.on_paper(4.7)), anchor="start")
    if strip.said:
        sketch.words(strip.said, (strip.end, under), anchor="end")


def _ends(sketch: Linework, strip: Strip, whole: tuple[float, float]) -> None:
    """The strip's two short edges: solid where the lay starts and ends, dashed where it goes on in another strip."""
    for x, real in ((strip.start, strip.start <= whole[0] + 0.1), (strip.end, strip.end >= whole[1] - 0.1)):
        kind = "cut" if real else "let-out"
        if x == strip.start and real and strip.left == "fold":
            kind = "fold"
        sketch.draw(kind, [[(x, 0), (x, strip.across)]])


def _marks(sketch: Linework, strip: Strip, unit: str, selvedge: float, whole: tuple[float, float]) -> None:
    """Ticks along the upper edge; figures in yards or metres, the lay's own end in full."""
    apart, each = TICKS.get(unit, TICKS["metric"])
    foot = -selvedge - sketch.on_paper(0.6)
    high = foot - sketch.on_paper(4.1)
    end = print_length(whole[1], unit, with_unit=True) if strip.end >= whole[1] - 0.1 else ""
    free = strip.start + sketch.on_paper(NARROW * PAPER_TEXT * len(strip.high) + 1)
    taken = strip.end - sketch.on_paper(NARROW * PAPER_TEXT * len(end) + 1) if end else strip.end
    ticks: list[list[XY]] = []
    for n in range(math.ceil(strip.start / apart - 1e-6), int(strip.end / apart + 1e-6) + 1):
        at, long = n * apart, n % each == 0
        ticks.append([(at, foot), (at, foot - sketch.on_paper(2.0 if long else 1.0))])
        text = f"{print_length(n * 25.4 / 8, INCH)}\u00a0yd" if unit == INCH else f"{n / 10:g}\u00a0m"
        half = sketch.on_paper(NARROW * PAPER_TEXT * len(text) / 2)
        if long and free <= at - half and at + half <= taken:
            sketch.words(text, (at, high))
    if end:
        ticks.append([(strip.end, foot), (strip.end, foot - sketch.on_paper(2.0))])
        after = max(strip.end, free + sketch.on_paper(NARROW * PAPER_TEXT * len(end)))  # a short lay: after the edge's name
        sketch.words(end, (after, high), anchor="end", bold=True)
    sketch.draw("dimension", ticks)


def _word(sketch: Linework, shape: BaseGeometry, words: tuple[str, ...], *, tip: int | None) -> str:
    """Write the fullest of `words` that fits inside the shape, its grain arrow below it; return what was written."""
    prepare(shape)
    height = sketch.text_height
    spots = list(_spots(shape))
    for text in (word for word in words if word):
        wide = max(NARROW * height * len(text), height * (2.6 if tip is not None else 1))
        tall, spare = height * (2.1 if tip is not None else 1.1), 0.25 * height
        for x, y in spots:
            if shape.contains(box(x - wide / 2 - spare, y - tall / 2, x + wide / 2 + spare, y + tall / 2)):
                if tip is None:
                    sketch.words(text, (x, y))
                else:
                    sketch.words(text, (x, y - 0.45 * height), bold=True)
                    _arrow(sketch, (x, y + 0.55 * height), min(wide, 6 * height), tip)
                return text
    last = next(word for word in reversed(words) if word)
    for x, y in spots:
        wide, tall = NARROW * height * len(last) * SMALL, height * SMALL
        if shape.contains(box(x - wide / 2, y - tall / 2, x + wide / 2, y + tall / 2)):
            sketch.words(last, (x, y), bold=True, size=SMALL)
            return last
    sketch.words(last, (spots[0] if spots else shape.representative_point().coords[0]), bold=True, size=SMALL)
    return last


def _arrow(sketch: Linework, middle: XY, long: float, tip: int) -> None:
    (x, y), half, head = middle, long / 2, sketch.on_paper(1.5)
    sketch.draw("grain", [[(x - half, y), (x + half, y)]])
    for way in (-1, 1):
        if tip in (0, way):
            end = x + way * half
            sketch.solid([(end, y), (end - way * head, y - head * 0.32), (end - way * head, y + head * 0.32)])


def _spots(shape: BaseGeometry) -> list[XY]:
    """Places to write at, the middle ones first: the middles of the clear stretches on a few levels."""
    left, top, right, bottom = shape.bounds
    middle = shape.representative_point()
    spots = [(shape.centroid.x, shape.centroid.y), (middle.x, middle.y)]
    for part in (0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.12, 0.88):
        y = top + (bottom - top) * part
        for run in _runs(shape, box(left - 1, y - 0.01, right + 1, y + 0.01)):
            spots += [(run[0] + (run[1] - run[0]) * share, y) for share in (0.5, 0.35, 0.65)]
    return spots


def _runs(shape: BaseGeometry, slit: Polygon) -> list[tuple[float, float]]:
    cut = shape.intersection(slit)
    bounds = [part.bounds for part in getattr(cut, "geoms", [cut]) if not part.is_empty]
    return sorted(((low, high) for low, _, high, _ in bounds), key=lambda run: run[0] - run[1])

