"""The by-hand steps of a panelled corset, in the order in which they would be chalked."""

from __future__ import annotations

from ..blocks.panel import OVERLAP
from ..path import Path
from ..trace import Trace
from .corset import Corset


def tell_corset(corset: Corset, trace: Trace) -> None:
    """Record the steps: levels, the front, the side seam with its check, the back, the panel behind the lacing."""
    _levels(corset, trace)
    _front(corset, trace)
    _side_front(corset, trace)
    _back(corset, trace)
    if corset.panel:
        top, foot = corset.panel.edge("top").path, corset.panel.edge("fold").path
        trace.chalk("modesty panel", "On the fold, {0} across and {1} high.", top.length(), foot.length(), corset.gap, OVERLAP,
                    marks="panel-side", why="It lies {3} under each edge; the gap is {2}.")


def _levels(corset: Corset, trace: Trace) -> None:
    q, fig = corset.q, corset.fig
    trace.chalk("front", "Fold the paper. From the level of the side neck point mark on the fold: top edge {0}, bust {1}, under-bust {2}, waist "
                "{3}, lower edge {4}. Rule each straight across.", fig.top, q.front.bust, q.front.under_bust, q.front.waist,
                q.front.waist + fig.depth, q.d, marks="fold", at=(corset["front"].left.start, corset["front"].left.end),
                why="Taken over the front, from the shoulder. At the side and behind, under-bust, waist and lower edge lie {5} higher.")


def _front(corset: Corset, trace: Trace) -> None:
    q, fig, panel = corset.q, corset.fig, corset["front"]
    takes = fig.front_seam
    trace.chalk("front", "From the fold go across the bust line {0} and mark the bust point. Rule a line straight down through it.", q.bust_point_x,
                marks="bust-point", why="Half of the bust span.")
    edge = panel.top[0]
    if edge.start.y > fig.top + 0.1:
        trace.chalk("front", "On the fold mark {0} below the top edge; curve up from there to the seam's head, arriving level.", edge.start.y - fig.top,
                    marks="top", at=(edge.start, edge.end))
    words = "Two darts over the bust point, half of each on either side of that line" if fig.panels == 2 else \
        "Centre panel: from that line go toward the fold"
    line = panel.darts[1].legs[0].reversed() if panel.darts else panel.right
    left = q.bust_point_x - line.end.x
    lower = "" if not fig.depth else f", {{3}} at the lower edge{'' if left >= 0 else ' (beyond the line)'}"
    trace.chalk("front", f"{words}: {{0}} at the top edge, {{1}} at the under-bust, {{2}} at the waist{lower}. Join the marks with curves that pass "
                "each straight down" + (", to nothing short of the bust point." if panel.darts else ": the seam measures {4}."),
                takes.top, takes.under_bust, takes.waist, abs(left), panel.right.length(), 2 * takes.under_bust,
                marks="dart-2 dart-1" if panel.darts else "front-seam", at=_marks(line),
                why="Half of what the seam takes; it takes {5} between bust and under-bust, and its part of waist and hip.")


def _side_front(corset: Corset, trace: Trace) -> None:
    q, fig = corset.q, corset.fig
    name = "side front" if fig.panels > 2 else "front"
    panel = corset[name]
    if fig.panels > 2:
        trace.chalk(name, "Draw the same levels and the line through the bust point. Mark the same distances on its other side: the seam is the "
                    "mirror image of the centre panel's, {0}.", panel.left.length(), marks="front-seam", at=_marks(panel.left))
    trace.chalk(name, "Top edge level for {0} from the seam's head; from there hollow the armhole {1} down to the underarm, {2} from the fold line, "
                "arriving level.", panel.top[-1].length(), panel.armhole.length(), q.front_bust, marks="top armhole",
                at=(panel.armhole.start, panel.armhole.end), why="The front's share of bust and ease.")
    takes, left = fig.side_seam, q.front_bust - panel.right.end.x
    lower = "" if not fig.depth else f", {{4}} {_way(left)} at the lower edge"
    trace.chalk(name, f"Side seam: straight down from the underarm to the bust. From that line mark {{0}} {_way(takes.under_bust)} at the under-bust, {{1}} "
                f"{_way(takes.waist)} at the waist{lower}, all {{2}} higher than on the fold. Join the marks with curves that pass each straight "
                "down: {3}.", abs(takes.under_bust), abs(takes.waist), q.d, panel.right.length(), abs(left), marks="side", at=_marks(panel.right),
                why="What is left to take when the other seams have taken their part: half of it here, half behind.")
    lowest = sum(path.length() for path in panel.lower)
    trace.chalk(name, "Draw the lower edge square to both sides of the panel: {0}. Walk the half's lower edge when the back is drawn; it must come to {1}.",
                lowest, sum(path.length() for each in corset.outside for path in each.lower), marks="lower-edge")


def _back(corset: Corset, trace: Trace) -> None:
    q, fig, panel = corset.q, corset.fig, corset["back"]
    outer = corset["side back"] if fig.back_seam else panel
    trace.chalk("back", "From a straight edge for the body's centre back mark, down from the side neck point's level: top edge {0}, underarm {1}, bust "
                "{2}, under-bust {3}, waist {4}, lower edge {5}.", fig.top, q.side.chest, q.side.bust, q.side.under_bust, q.side.waist,
                q.side.waist + fig.depth, q.d, marks="centre-back", why="From the under-bust down it lies {6} higher than on the front's fold.")
    if corset.gap:
        trace.chalk("back", "Move the centre back in by {0} all the way down.", corset.gap / 2, marks="centre-back", at=(panel.left.start, panel.left.end),
                    why="Half of the lacing gap.")
    if fig.back_seam:
        takes, left = fig.back_seam, fig.back_seam_x - panel.right.end.x
        lower = "" if not fig.depth else f", {{3}} at the lower edge{'' if left >= 0 else ' (there the panels lap over the line)'}"
        trace.chalk("back", "Rule a line straight down {0} from the body's centre. Back seam: nothing down to the bust, then on either side of that line "
                    f"{{1}} at the under-bust, {{2}} at the waist{lower}. Both edges measure {{4}}.", fig.back_seam_x, takes.under_bust, takes.waist,
                    abs(left), panel.right.length(), marks="back-seam", at=_marks(panel.right),
                    why="What the back has too much of at the under-bust, and its part of waist and hip.")
    trace.chalk(outer.name, "Underarm {0} from the body's centre; hollow the armhole up to the top edge, {1}. The side seam is the mirror image of the "
                "front's: {2}.", q.back_bust, outer.armhole.length(), outer.right.length(), marks="armhole side", at=_marks(outer.right),
                why="Mirrored edges are equally long: there is nothing to true.")


def _way(take: float) -> str:
    return "in" if take >= 0 else "out"


def _marks(path: Path) -> tuple:
    return (path.start, *(stroke.end for stroke in path.strokes))
