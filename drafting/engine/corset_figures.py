"""Figures of a panelled corset: what each of its seams takes at every level, from the top edge to the hip.

Source: the drafting method, section 6, panelled corset. A half has up to four panels, with seams under the bust point, at the
side and down the middle of the back. Each seam takes half of its width from the panel on either side, mirrored, so its two
edges are equally long as drawn. Bust to under-bust goes to the bust-point seam and the back; the waist (R, a half) and the
hip (G, a half) are shared between the seams. What the side takes is not worked out by a share but solved: across the side
front a level climbs by d, and that slope must not make the girth longer.
"""

from __future__ import annotations

from dataclasses import dataclass

from .body import Body
from .curve import level_both_ends
from .errors import ImpossibleMeasure, UnknownChoice
from .point import Point
from .quarters import Quarters
from .rules import Rules
from .solve import root
from .tolerance import INCH

WAIST_SHARES = {4: (0.3, 0.3), 3: (0.3, 0.0), 2: (0.3, 0.0)}
"""Of R, what the bust-point seam and the back seam take, by panels a half; the side takes the rest."""

HIP_SHARES = {4: (0.25, 0.3), 3: (0.25, 0.0), 2: (0.25, 0.0)}
"""Of G, the same."""

LEAST_DART = 0.5 * INCH
"""A corset in two panels has a dart under the bust; it stays this wide down to the lower edge, or it would lap over itself."""

LEAST_UPPER_DART = 0.25 * INCH
"""The dart from the top edge is this wide at least: narrower, it would be lost in the stitching. Judgement."""

LEAVES_WAIST, REACHES_HIP = 0.15, 0.55
"""Handles of every seam from waist to hip, as shares of the height: half-way down it has then let out 0.70 of the whole. A
body has 0.71: high hip less waist over hip less waist, every size of ASTM D5585-95 (from memory). A curve alike at both
ends has 0.5, which is two inches too tight over the hip bones."""

LEAST_PANEL = 1.5 * INCH
"""A narrower panel can't take its bones and allowances. Judgement, tried on a prototype."""

LEVEL = 0.05
"""Two levels nearer than this, mm, are one: inches in binary don't come out even."""

LEAST_LOWER_EDGE = 0.5 * INCH
"""A lower edge nearer to the waist than this is the waist itself."""


@dataclass(frozen=True, slots=True)
class Takes:
    """Half of what a seam takes out of the two panels together, mm, at each level; negative where it lets out."""

    top: float
    bust: float
    under_bust: float
    waist: float
    hip: float


@dataclass(frozen=True, slots=True)
class CorsetFigures:
    """All in mm. `front_seam`, `side_seam` and `back_seam` are what they take; `back_seam` is None where there is none.

    `depth` is the lower edge below the waist, `cut` the parameter of a waist-to-hip curve at which it lies, `let_out` the share
    of G that a seam has let out there.
    """

    panels: int
    front_seam: Takes
    side_seam: Takes
    back_seam: Takes | None
    back_seam_x: float
    gap: float
    top: float
    depth: float
    hip_depth: float
    cut: float
    let_out: float
    waist_take: float
    hip_let: float


def corset_figures(body: Body, rules: Rules, q: Quarters, *, panels: int, top: float, head: float, gap: float, depth: float,
                   back_most: float, roll: float = 0.0) -> CorsetFigures:
    """Work out every seam's takes. `back_most` is how far out the back seam may stand; `roll` narrows a lining's bust.

    Raises NoSolution (with its remedy) or UnknownChoice where the panels can't be shaped so.
    """
    takes_w, takes_h = WAIST_SHARES[panels], HIP_SHARES[panels]
    waist_take = 2 * (q.under_bust - q.waist)
    hip = (body["hip"] + q.ease_hip) / 2
    hip_let = hip - 2 * q.waist
    waist_front = (q.lower + takes_w[0] * waist_take) / 2
    hip_front = waist_front - takes_h[0] * hip_let / 2
    if panels == 2:
        if q.lower < LEAST_DART:
            raise refuse_panels(panels, "Bust and under-bust are too alike for a dart under the bust.")
        head = max(head, LEAST_UPPER_DART)
        waist_front, hip_front = max(waist_front, LEAST_DART / 2), max(hip_front, LEAST_DART / 2)
    front = Takes((head + roll) / 2, roll / 2, q.lower / 2, waist_front, hip_front)
    back = None
    if panels == 4:
        under = (q.back_bust - q.under_bust) / 2
        waist_back = under + takes_w[1] * waist_take / 2
        back = Takes(0.0, 0.0, under, waist_back, waist_back - takes_h[1] * hip_let / 2)
    halves = (2 * q.under_bust, 2 * q.waist, hip)
    sides = [_side_take(q, front_take, back_take, half, gap, place) for front_take, back_take, half, place in zip(
        (front.under_bust, front.waist, front.hip), (back.under_bust, back.waist, back.hip) if back else (0.0, 0.0, 0.0), halves,
        ("under-bust", "waist", "hip"), strict=True)]
    hip_depth = q.front.hip - q.front.waist
    depth = 0.0 if depth < LEAST_LOWER_EDGE else hip_depth if depth > hip_depth - LEVEL else depth
    cut = _parameter_at(depth / hip_depth)
    return CorsetFigures(panels, front, Takes(0.0, 0.0, *sides), back, min(gap / 2 + (q.back_bust - gap / 2) / 2, back_most), gap, top, depth,
                         hip_depth, cut, cut * cut * (3 - 2 * cut), waist_take, hip_let)


def _side_take(q: Quarters, front: float, back: float, half: float, gap: float, place: str) -> float:
    """Return half of what the side seam takes at a level so that the half comes to `half` mm along it."""
    inner, outer = q.bust_point_x - front, q.bust_point_x + front
    if inner <= 0.0 or outer >= q.front_bust:
        raise ImpossibleMeasure("bust_span", 2 * q.bust_point_x, "Bust span {value} leaves no room for the seam under the bust point at the "
                                f"{place}. Measure bust span, bust and under bust again.")

    def excess(take: float) -> float:
        across = level_both_ends(Point(outer, 0.0), Point(q.front_bust - take, -q.d)).length()
        return inner + across + q.back_bust - take - 2 * back - half

    return root(excess, -10 * INCH, q.front_bust - outer - 0.25 * INCH, name=f"width of the side seam at the {place}",
                remedy="Measure waist, under bust and hip again.")


def _parameter_at(share: float) -> float:
    """Return the parameter of a waist-to-hip curve at which it is `share` of the way down."""
    if share <= 0.0 or share >= 1.0:
        return max(0.0, min(1.0, share))

    def excess(t: float) -> float:
        s = 1 - t
        return 3 * s * s * t * LEAVES_WAIST + 3 * s * t * t * (1 - REACHES_HIP) + t ** 3 - share

    return root(excess, 0.0, 1.0, name="place of the lower edge")


def refuse_panels(panels: int, why: str) -> UnknownChoice:
    """Return the refusal of a number of panels, with the numbers that would lie better."""
    more = tuple(str(n) for n in (3, 4) if n > panels)
    fewer = tuple(str(n) for n in (2, 3) if n < panels)
    return UnknownChoice("panels", panels, more or fewer, why=why)
