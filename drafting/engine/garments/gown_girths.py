"""Finished girths of a gown, measured on its pieces between matched points at each level."""

from __future__ import annotations

from dataclasses import replace

from ..path import Path
from ..point import Point
from ..report import Girth, Stretch
from .bustier_gown import Gown
from .skirt_part import hip_girth


def girths_of(gown: Gown) -> tuple[Girth, ...]:
    """Return chest, bust, under-bust, waist and, with a skirt, hip. Every half goes round twice."""
    q, body = gown.q, gown.body
    girths = [] if _dips_below_chest(gown) else [_chest_girth(gown)]
    girths += [
        Girth("bust", body["bust"], q.ease_bust + q.wadding, _bust(gown), gown.gap, q.wadding),
        Girth("under_bust", body["under_bust"], q.ease_waist, _under_bust(gown), gown.gap),
        Girth("waist", body["waist"], q.ease_waist, _waist(gown), gown.gap),
    ]
    if gown.skirt:
        girths.append(hip_girth(gown.skirt, body, q.ease_hip))
    return tuple(girths)


def _chest_girth(gown: Gown) -> Girth:
    """The chest is not held to an ease of its own: what it came to is its ease (chest_slack tells how far that is from meant)."""
    girth = Girth("chest", gown.body["high_bust"], 0.0, _chest(gown), gown.gap, gown.q.wadding)
    return replace(girth, ease=girth.finished - girth.body)


def _dips_below_chest(gown: Gown) -> bool:
    """A sweetheart or V edge may dip through the chest line: then no tape lies there to compare with."""
    return gown.outside.cups.centre.edge("top").path.start.y > gown.q.front.chest


def chest_slack(gown: Gown) -> float:
    """Return by how much the chest line between the seams is looser than high bust + ease, mm (negative: snugger)."""
    spans = sum(stretch.amount for stretch in _chest(gown)) * 2 + gown.gap
    return spans - gown.body["high_bust"] - gown.q.ease_bust - gown.q.wadding


def _bust(gown: Gown) -> tuple[Stretch, ...]:
    q, bust, side = gown.q, gown.q.front.bust, gown.q.side.bust
    cups, outer = gown.outside.cups, Point(q.front_bust, side)
    beyond = (Stretch("side cup", (cups.bust_point, outer), "extent", 2),)
    if cups.third:
        beyond = (Stretch("middle cup", (cups.bust_point, cups.third.point), "extent", 2), Stretch("side cup", (cups.third.point, outer), "extent", 2))
    return (_level("centre cup", 0.0, q.bust_point_x, bust), *beyond, _level("back", gown.gap / 2, q.back_bust, side))


def _chest(gown: Gown) -> tuple[Stretch, ...]:
    """The chest line; only bust, under-bust, waist and hip are held to body + ease, this one reports its slack."""
    q, y = gown.q, gown.q.front.chest
    cups = gown.outside.cups
    centre, start = cups.centre.edge("cup seam").path, _x_at(cups.over_bust.edge("cup seam").path.reversed(), y)
    beyond = (_level("side cup", start, q.front_bust, y),)
    if cups.middle:
        cut = _x_at(cups.middle.edge("side cup seam").path, y)
        beyond = (_level("middle cup", start, cut, y), _level("side cup", cut, q.front_bust, y))
    return (_level("centre cup", 0.0, _x_at(centre, y), y), *beyond, _level("back", gown.gap / 2, q.back_bust, y))


def _under_bust(gown: Gown) -> tuple[Stretch, ...]:
    made, y = gown.outside.back, gown.q.side.under_bust
    bands = tuple(_along(p.name, p.edge("under-bust").path) for p in gown.outside.band.pieces)
    side = made.piece.edge("side").path
    joint = side.strokes[2].start.x
    if not made.dart_width:
        return (*bands, _level("back", gown.gap / 2, joint, y))
    half = made.dart_width / 2
    return (*bands, _level("back", gown.gap / 2, made.dart_x - half, y), _level("back", made.dart_x + half, joint, y))


def _waist(gown: Gown) -> tuple[Stretch, ...]:
    made = gown.outside
    bands = tuple(Stretch(piece.name, ends, "extent", 2) for piece, ends in zip(made.band.pieces, made.band.at_waist, strict=True))
    return bands + tuple(_along("back", path) for path in made.back.at_waist)


def _level(piece: str, x0: float, x1: float, y: float) -> Stretch:
    return Stretch(piece, (Point(x0, y), Point(x1, y)), "extent", 2)


def _along(piece: str, path: Path) -> Stretch:
    return Stretch(piece, path.polyline(), "length", 2)


def _x_at(path: Path, y: float) -> float:
    """Where the drawn line (the polyline that is cut and checked, not the curve behind it) crosses the level y."""
    line = path.polyline()
    for p, q in zip(line, line[1:], strict=False):
        if min(p.y, q.y) <= y <= max(p.y, q.y) and p.y != q.y:
            return p.x + (q.x - p.x) * (y - p.y) / (q.y - p.y)
    return path.at(0.0).x
