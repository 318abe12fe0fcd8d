"""A plain drawing of one lay, SVG in millimetres: pieces with their names, the length marked along the edge.

The lay is turned by a quarter, never mirrored: the fold or left edge lies low, the cut end at the left.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from html import escape
from typing import Any

from shapely.geometry import Polygon
from shapely.ops import polylabel

from workshop.length import MM_PER, print_length

MARGIN = 90.0
SCALE = 10
"""Drawn one to ten; every figure in the drawing is in millimetres of cloth."""

TICKS = {"in": (4.5, 4), "cm": (10, 5), "mm": (100, 5)}
"""Between ticks, in the unit; how many ticks make a long one with its figure. An eighth of a yard, or ten centimetres."""


def lay_svg(lay: Mapping[str, Any], unit: str, *, title: str = "") -> str:
    """Return the drawing of one entry of `lays[]`: the cloth's length runs to the right, its width up."""
    length = float(lay["length"])
    deep = max([lay["usable"], *(x for placed in lay["placed"] for x, _ in placed["outline"])])
    lay = turned(lay, deep)
    width, height = length + 2 * MARGIN, deep + 2 * MARGIN
    lines = [
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{width / SCALE:.2f}mm" height="{height / SCALE:.2f}mm" '
        f'viewBox="{-MARGIN:g} {-MARGIN:g} {width:.2f} {height:.2f}" role="img" '
        'font-family="sans-serif" fill="none" stroke="#1d1d1d" stroke-width="1.5">',
        f"<title>{escape(title or _said(lay, unit))}</title>",
        f'<rect x="0" y="{deep - lay["usable"]:.3f}" width="{length:.3f}" height="{lay["usable"]:.3f}" fill="#fbf7ee"/>',
        *_edges(lay, length, deep),
        *_ticks(length, unit),
        *(_flaw(ring) for ring in lay.get("blocked", ())),
        *(line for placed in lay["placed"] for line in _piece(placed)),
        f'<text x="0" y="{-MARGIN * 0.62:.2f}" font-size="34" stroke="none" fill="#1d1d1d">{escape(_said(lay, unit))}</text>',
        "</svg>",
    ]
    return "\n".join(lines) + "\n"


def _said(lay: Mapping[str, Any], unit: str) -> str:
    wide = print_length(lay["width"], unit, with_unit=True)
    long = print_length(lay["length"], unit, with_unit=True)
    way = ", one way: every top to the left" if lay.get("one_way") else ""
    return f"{lay['cloth']}, {wide} wide, {lay['layout']}{way}: {long} long. Drawn 1 to {SCALE}."


def turned(lay: Mapping[str, Any], deep: float) -> dict[str, Any]:
    """The lay with every x counted down from `deep`: drawn as (y, x) it is then turned by a quarter, not mirrored."""

    def ring(outline: list) -> list:
        return [[deep - x, y] for x, y in outline]

    placed = [each | {"outline": ring(each["outline"])} for each in lay["placed"]]
    return {**lay, "placed": placed, "blocked": [ring(each) for each in lay.get("blocked", ())]}


def _edges(lay: Mapping[str, Any], length: float, deep: float) -> Iterator[str]:
    folded = lay["layout"] == "folded"
    words = ("selvedges", "fold") if folded else ("selvedge", "selvedge")
    dashes = ' stroke-dasharray="18 6"' if folded else ""
    yield f'<path d="M0 {deep:.3f}H{length:.3f}" stroke-width="3"{dashes}/>'
    for y, word in ((deep - lay["usable"] - 8, words[0]), (deep + 28, words[1])):
        yield f'<text x="4" y="{y:.2f}" font-size="24" stroke="none" fill="#5a5a5a">{word}</text>'
    if lay.get("opened_from") is not None:
        at = lay["opened_from"]
        yield f'<path d="M{at:.3f} {deep:.3f}V{deep - lay["opened_usable"]:.3f}" stroke-dasharray="6 6"/>'
        yield f'<text x="{at + 4:.2f}" y="{deep - 28:.2f}" font-size="24" stroke="none" fill="#5a5a5a">opened out from here</text>'


def _ticks(length: float, unit: str) -> Iterator[str]:
    each, group = TICKS[unit]
    apart = each * float(MM_PER[unit])
    if length / apart > 2000:
        apart, each = length / 100, length / 100 / float(MM_PER[unit])
    for n in range(math.floor(length / apart + 1e-9) + 1):
        at, far = n * apart, 20 if n % group == 0 else 10
        yield f'<path d="M{at:.3f} 0v{-far}" stroke-width="1"/>'
        if n % group == 0 and n:
            yield (
                f'<text x="{at:.2f}" y="-26" font-size="26" text-anchor="middle" stroke="none" '
                f'fill="#1d1d1d">{escape(print_length(at, unit, with_unit=True))}</text>'
            )


def _flaw(ring: list[list[float]]) -> str:
    return f'<path d="{_path(ring)}" fill="#e3e3e3" stroke="#8a8a8a" stroke-dasharray="4 4"/>'


def _piece(placed: Mapping[str, Any]) -> Iterator[str]:
    ring = placed["outline"]
    yield f'<path d="{_path(ring)}" fill="#ffffff"/>'
    shape = Polygon([(y, x) for x, y in ring])
    left, top, right, low = shape.bounds
    at = polylabel(shape, tolerance=max(min(right - left, low - top) / 20, 0.01))
    room = 2 * at.distance(shape.exterior)
    name = _name(placed)
    size = max(min(32.0, room * 0.6, (right - left) / max(len(name), 1) * 1.5), min(room, 1.0))
    yield (
        f'<text x="{at.x:.2f}" y="{at.y + size * 0.35:.2f}" font-size="{size:.2f}" text-anchor="middle" stroke="none" '
        f'fill="#1d1d1d">{escape(name)}</text>'
    )
    half, end = min(room, right - left) * 0.35, min(size * 0.4, 8)
    y, x0, x1 = at.y + size * 0.7, at.x - half, at.x + half
    tip, way = (x0, 1) if not placed["turned"] else (x1, -1)
    yield f'<path d="M{x0:.2f} {y:.2f}H{x1:.2f}M{tip:.2f} {y:.2f}l{way * end:.2f} {-end / 2:.2f}m{-way * end:.2f} {end / 2:.2f}l{way * end:.2f} {end / 2:.2f}" stroke-width="1"/>'


def _name(placed: Mapping[str, Any]) -> str:
    words = [placed["piece"]]
    if placed["layers"] == 1 and placed["mirrored"]:
        words.append("mirrored")
    if placed.get("under"):
        words.append("under layer only")
    return ", ".join(words)


def _path(ring: list[list[float]]) -> str:
    return "M" + "L".join(f"{y:.3f} {x:.3f}" for x, y in ring) + "Z"
