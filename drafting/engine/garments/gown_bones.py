"""Bones of a gown: where their channels run, how short to cut each bone, and how much casing to lay ready."""

from __future__ import annotations

import math

from ..point import Point
from ..report import Bone
from ..rules import Rules
from ..tolerance import INCH
from .bustier_gown import Gown

SHORT_OF_RAW_EDGE = 0.75 * INCH
"""A bone ends at least this far inside the cloth's raw edge. Common practice, no source."""

ABOVE_POINT = 0.5 * INCH
"""The centre front's channel stops this far above a basque's point, which would wear through. Drafting method, section 6."""


def bones_of(gown: Gown) -> tuple[Bone, ...]:
    """Return the gown's bones: centre front, under the cup seams and between, side seams, both sides of the back."""
    q, r = gown.q, gown.rules
    u, w, top = q.front.under_bust, q.front.waist, gown.outside.cups.centre.edge("top").path.start.y
    foot = w + gown.basque.depth - ABOVE_POINT if gown.basque else w
    bones = [_bone(gown, "centre front", "centre cup", Point(0.0, top), Point(0.0, foot), 1, ("centre cup", "band"))]
    shape, at = gown.shape, gown.outside.band.cup_seam_at
    for place, x in _places(at, q.under_bust, r["bone_spacing"]):
        if place == "cup seam" and gown.basque and len(gown.outside.band.pieces) == 2:
            seam = gown.outside.band.pieces[0].edge("band seam").path
            bones.append(_bone(gown, f"band, {place}", "band", seam.start, seam.end, 2, ("band", "side band"), seam.length()))
            continue
        if place == "cup seam" and abs(shape.rest) > 1e-9:
            end = Point(at - shape.rest / 2, w)
            piece = "band"
        else:
            share = (x - at) / (q.under_bust - at) if x > at else 0.0
            end = Point(_at_waist(gown, x, share), w)
            piece = _band_piece(gown, x)
        if gown.basque:
            end = Point(end.x, _foot_level(gown, piece, end))
        bones.append(_bone(gown, f"band, {place}", piece, Point(x, u), end, 2))
    back = gown.outside.back.piece.edge("side").path
    bones.append(_bone(gown, "side seam", "back", back.start, back.end, 2, ("back", gown.outside.band.pieces[-1].name, "side cup"),
                       back.length()))
    bones += _centre_back(gown)
    return tuple(bones)


def _places(cup_seam: float, quarter: float, apart: float) -> list[tuple[str, float]]:
    """Return places along the half's under-bust: the cup seam, and even ones so that none lie further apart than `apart`."""
    places = [("cup seam", cup_seam)]
    for name, low, high in (("between centre and cup seam", 0.0, cup_seam), ("between cup seam and side", cup_seam, quarter)):
        gaps = max(1, math.ceil((high - low) / apart - 1e-9))
        places += [(name, low + (high - low) * i / gaps) for i in range(1, gaps)]
    return sorted(places, key=lambda place: place[1])


def _at_waist(gown: Gown, x: float, share: float) -> float:
    """Return where a band bone ends at the waist: the cup side straight down, the side part slanting with the seam."""
    take = gown.q.under_bust - gown.q.waist
    side = take if abs(gown.shape.rest) < 1e-9 else gown.shape.side
    start = x if abs(gown.shape.rest) < 1e-9 or share == 0.0 else x + gown.shape.rest / 2 * (1 - share)
    return start - side * share


def _foot_level(gown: Gown, piece: str, waist: Point) -> float:
    """Return the level of the basque's edge straight below a place at the waist."""
    made = next(p for p in gown.outside.band.pieces if p.name == piece)
    edge = made.edge("basque edge").path
    at = edge.distance_where(lambda p: p.x - waist.x)
    return edge.at(at).y if at is not None else waist.y + gown.basque.side


def _band_piece(gown: Gown, x: float) -> str:
    return gown.outside.band.pieces[-1 if x > gown.outside.band.cup_seam_at else 0].name


def _centre_back(gown: Gown) -> list[Bone]:
    centre = gown.outside.back.centre
    if gown.yoke:
        centre = centre.split_at(centre.distance_at_level(gown.top) or 0.0)[1]
    if gown.side_opening:
        return [_bone(gown, "centre back", "back", centre.start, centre.end, 1)]
    width = gown.rules["bone_width"]
    inset = [width] if not gown.gap else [width, width + 1.0 * INCH]
    bones = []
    for i, step in enumerate(inset):
        place = "centre back" if not gown.gap else ("lacing, at the edge" if i == 0 else "lacing, inside the loops")
        start, end = centre.start + Point(step, 0.0), centre.end + Point(step, 0.0)
        bones.append(_bone(gown, place, "back", start, end, 2))
    return bones


def _bone(gown: Gown, place: str, piece: str, start: Point, end: Point, count: int, pieces: tuple[str, ...] = (),
          channel: float | None = None) -> Bone:
    return bone_of(gown.rules, place, piece, start, end, count, pieces, channel)


def bone_of(rules: Rules, place: str, piece: str, start: Point, end: Point, count: int, pieces: tuple[str, ...] = (),
            channel: float | None = None) -> Bone:
    """Make one bone: channel less, at each end, the clearance (and never nearer than ¾ in to the raw edge). All mm; without a
    `channel` along a curved seam it runs straight from `start` to `end`."""
    allowance = rules["seam_allowance"]
    clearance = max(SHORT_OF_RAW_EDGE - allowance, rules["bone_clearance"])
    length = start.distance(end) if channel is None else channel
    return Bone(place, piece, start, end, length, length - 2 * clearance, length + 2 * allowance, count, pieces or (piece,))
