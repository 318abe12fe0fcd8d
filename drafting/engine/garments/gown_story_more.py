"""The by-hand steps of what not every gown has: a cup in three, straps, and the waist stay."""

from __future__ import annotations

from ..blocks.straps import TO_ADJUST
from ..trace import Trace
from .bustier_gown import Gown, stay_length


def tell_outer_cups(gown: Gown, trace: Trace) -> None:
    """Record the steps for middle and side cup."""
    q, cups = gown.q, gown.outside.cups
    third, middle, side = cups.third, cups.middle, cups.side
    top, seam, edge = middle.edge("top").path, middle.edge("cup seam").path, side.edge("side").path
    second, other = middle.edge("side cup seam").path, side.edge("side cup seam").path
    low = middle.edge("under-bust").path
    trace.chalk("middle cup", "Draw the same levels. Mark the bust point {0} from the fold line, the top mark {1} beyond it, the under-bust mark {2} beyond "
                "it.", q.bust_point_x, cups.head / 2, q.lower - q.lower_to_centre, q.lower + q.second, q.second, marks="cup-seam",
                at=(cups.bust_point, top.start, seam.start), why="The lower dart is {3} wide, too much for one seam or asked for in two: the second takes {4}.")
    trace.chalk("middle cup", "Raise the under-bust mark by {0}. Draw the cup seam as on the centre cup and walk it: both are now {1}.", cups.m,
                seam.length(), marks="cup-seam", at=(seam.start,), why="This curve swings further out; without the raise it would be longer.")
    trace.chalk("middle cup", "Second seam: mark {0} along the top edge, and on the bust line, which drops evenly from the bust point to the side's bust, "
                "{1} beyond the bust point. Below it, {2} down, mark half of {3} on each side.", top.length(), third.point.x - cups.bust_point.x,
                low.start.y - third.point.y, q.second, marks="top side-cup-seam", at=(third.head, third.point, low.start, other.start),
                why="It ends at the bust line, so bust and chest stay as they are.")
    trace.chalk("middle cup", "Join top, bust line and the mark toward the centre, leaving each straight down: {0}. Lower edge level at both ends: {1}.",
                second.length(), low.length(), marks="side-cup-seam under-bust")
    trace.chalk("side cup", "From the same upper line go down to the mark toward the side: {0}, as on the middle cup.", other.length(), marks="side-cup-seam",
                at=(other.start, third.head))
    trace.chalk("side cup", "Along the top edge go on {0}; from there hollow the armhole {1} down to the underarm, {2} from the fold line, arriving level.",
                side.edge("top").path.length(), side.edge("armhole").path.length(), q.front_bust, marks="top armhole",
                at=(side.edge("top").path.end, edge.start), why="The armhole is drawn with the upper dart closed, then slid out by the dart.")
    trace.chalk("side cup", "From the underarm drop straight down {0} to the bust; from there curve to {1} from the fold line, {2} above the under-bust line.",
                edge.strokes[0].length(), third.side_x, q.d, marks="side", at=(edge.strokes[0].end, edge.end),
                why="The side is shorter than the front by what the tape climbs over the bust.")
    trace.chalk("side cup", "Curve the lower edge from its mark to the side, level at both ends. It measures {0}.", side.edge("under-bust").path.length(),
                low.length(), cups.centre.edge("under-bust").path.length(), q.under_bust, marks="under-bust",
                why="With the middle cup's {1} and the centre cup's {2} that makes the band's half, {3}.")


def tell_straps(gown: Gown, trace: Trace) -> None:
    """Record the steps for the straps."""
    made = gown.straps
    trace.chalk("strap", "Measure from the cup seam's head straight up to the middle of the shoulder, {0}, and down to the back's top edge, {1} from the "
                "centre back: {2}.", made.front, made.behind.x, made.back, made.length, marks="end", why="The upper dart is closed for it; together {3}.")
    trace.chalk("strap", "Cut two strips {0} long and {1} wide, folded along their middle: {2} finished, {3} left to adjust at the back.",
                made.length + TO_ADJUST, 2 * made.width, made.width, TO_ADJUST, marks="long-edge")


def tell_stay(gown: Gown, trace: Trace) -> None:
    """Record the waist stay: a ribbon that is cut, not drawn."""
    length = stay_length(gown)
    trace.chalk("band", "Waist stay: cut a ribbon {0} long between its hooks; mark its quarters, {1} apart, for centre front, side seams and closing.",
                length, length / 4, gown.body["waist"] - length, marks="waist",
                why="{2} less than the waist: it carries the weight of a top that nothing holds at the shoulder." if length < gown.body["waist"] - 0.01
                else "As long as the waist: the shoulders carry their part.")
