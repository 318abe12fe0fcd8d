"""Bones of a corset: one along every seam, the centre front, both edges of the back, and between where seams lie far apart."""

from __future__ import annotations

import math

from ..blocks.corset_panels import Panel
from ..path import Path
from ..point import Point
from ..report import Bone, Material
from .corset import EYELET_INSIDE, Corset
from .gown_bones import bone_of


def bones_of(corset: Corset) -> tuple[Bone, ...]:
    """Return the bones from the fold out."""
    front = corset["front"]
    bones = [bone_of(corset.rules, "centre front", "front", front.left.start, front.left.end, 1)]
    for panel in corset.outside:
        bones += _inside(corset, panel)
        if panel.left_name in ("front seam", "back seam"):
            bones.append(_along(corset, panel.left_name, panel.left, panel.name))
        if panel.right_name == "side" and "front" in panel.name:
            bones.append(_along(corset, "side", panel.right, panel.name))
    back, width = corset["back"], corset.rules["bone_width"]
    inset = [width / 2] if not corset.gap else [width / 2, width * 1.5 + 2 * EYELET_INSIDE]
    names = ("centre back",) if not corset.gap else ("centre back, at the edge", "centre back, inside the eyelets")
    for name, x in zip(names, inset, strict=True):
        aside = Point(x, 0.0)
        bones.append(bone_of(corset.rules, name, "back", back.left.start + aside, back.left.end + aside, 2))
    return tuple(bones)


def _along(corset: Corset, name: str, path: Path, piece: str) -> Bone:
    """Return the bone along a seam, told on one of the two panels that it joins."""
    other = next(p.name for p in corset.outside if p.name != piece and name in (p.left_name, p.right_name))
    place = {"front seam": "seam under the bust point", "side": "side seam", "back seam": "back seam"}[name]
    return bone_of(corset.rules, place, piece, path.start, path.end, 2, (piece, other), path.length())


def _inside(corset: Corset, panel: Panel) -> list[Bone]:
    """Return bones within a panel so that none along the under-bust lie further apart than the house allows.

    In front they run from the under-bust down, clear of the bust; behind from the top edge. Under a dart one runs along it.
    """
    q, fig, apart = corset.q, corset.fig, corset.rules["bone_spacing"]
    behind = "back" in panel.name
    y_left, y_right = (q.side.under_bust,) * 2 if behind else (q.front.under_bust, q.side.under_bust if panel.right_name == "side" else q.front.under_bust)
    spans = [(_x_at(panel.left, y_left), _x_at(panel.right, y_right), panel.lower[0], y_left, y_right)]
    bones: list[Bone] = []
    if panel.darts:
        foot = [leg.start for leg in panel.darts[1].legs]
        take = fig.front_seam.under_bust
        inner, outer = Point(q.bust_point_x - take, y_left), Point(q.bust_point_x + take, y_left)
        beside = q.bust_point_x - max(take, fig.front_seam.waist, q.bust_point_x - foot[0].x) - corset.rules["bone_width"]
        at = panel.lower[0].distance_where(lambda point: point.x - beside)
        bones.append(bone_of(corset.rules, "beside the dart under the bust", panel.name, Point(beside, y_left),
                             panel.lower[0].at(at or 0.0), 2))
        spans = [(0.0, inner.x, panel.lower[0], y_left, y_left), (outer.x, _x_at(panel.right, y_right), panel.lower[1], y_left, y_right)]
    for left, right, lower, high_left, high_right in spans:
        gaps = max(1, math.ceil((right - left) / apart - 1e-9))
        for i in range(1, gaps):
            share = i / gaps
            start = Point(left + (right - left) * share, high_left + (high_right - high_left) * share)
            end = lower.at(lower.length() * share)
            if behind:
                start = Point(start.x, panel.top[0].start.y)
                if start.x > panel.top[-1].end.x:
                    start = Point(start.x, q.side.under_bust)
            bones.append(bone_of(corset.rules, f"{panel.title.lower()}, between its seams", panel.name, start, end, 2))
    return bones


def _x_at(path: Path, y: float) -> float:
    at = path.distance_at_level(y)
    return path.at(at).x if at is not None else path.end.x


def materials_of(corset: Corset) -> tuple[Material, ...]:
    """Return what a corset needs that can't be read from its draft: a zip that opens all the way down."""
    if corset.gap:
        return ()
    return (Material("zip that comes apart", corset["back"].left.length(), "mm", 1), Material("hook and eye above the zip", 1, "pieces", 1))
