"""The by-hand steps of a gown's top, in the order in which they would be chalked, with the check after each solved value."""

from __future__ import annotations

from ..blocks.panel import OVERLAP
from ..point import Point
from ..trace import Trace
from .basque_story import tell_back_basque, tell_band_basque
from .bustier_gown import Gown
from .gown_story_more import tell_outer_cups, tell_stay, tell_straps


def tell_top(gown: Gown, trace: Trace) -> None:
    """Record the steps for cups, band, back, yoke or straps, modesty panel and waist stay."""
    _levels(gown, trace)
    _centre_cup(gown, trace)
    if gown.outside.cups.third:
        tell_outer_cups(gown, trace)
    else:
        _side_cup(gown, trace)
    _band(gown, trace)
    if gown.basque:
        tell_band_basque(gown, trace)
    _back(gown, trace)
    if gown.basque:
        tell_back_basque(gown, trace)
    if gown.yoke:
        _yoke(gown, trace)
    if gown.straps:
        tell_straps(gown, trace)
    if gown.panel:
        trace.chalk("modesty panel", "On folded paper draw {0} across and {1} down: half the panel.",
                    gown.panel.edge("top").path.length(), gown.panel.edge("panel side").path.length(), OVERLAP, marks="top",
                    why="It lies {2} under the back on each side of the gap.")
    tell_stay(gown, trace)


def _levels(gown: Gown, trace: Trace) -> None:
    q = gown.q
    trace.chalk("centre cup", "Fold the paper. From the level of the side neck point mark on the fold: top edge {0}, bust "
                "line {1}, under-bust {2}, waist {3}. Rule each straight across.", gown.top, q.front.bust,
                q.front.under_bust, q.front.waist, q.d, marks="fold",
                at=tuple(Point(0.0, y) for y in (gown.top, q.front.bust, q.front.under_bust, q.front.waist)),
                why="Shoulder to bust, to under-bust and to waist are taken over the front. Side seam and back lie {4} higher from the "
                    "under-bust down, because the front tape climbs over the bust.")


def _centre_cup(gown: Gown, trace: Trace) -> None:
    q, cups = gown.q, gown.outside.cups
    bp, head = cups.bust_point, cups.centre.edge("cup seam").path.start
    foot = cups.centre.edge("cup seam").path.end
    trace.chalk("centre cup", "From the fold go across the bust line {0} and mark the bust point.", bp.x, marks="bust-point",
                at=(bp,), why="Half of the bust span.")
    trace.chalk("centre cup", "On the under-bust line, straight down from the bust point, mark {0} toward the fold: {1} from the fold.",
                q.lower_to_centre, foot.x, marks="cup-seam", at=(foot,),
                why="The lower dart is bust less under-bust, the front's share of it; a third or more goes toward the centre.")
    trace.chalk("centre cup", "On the top edge mark {0} toward the fold from straight above the bust point: {1} from the fold.",
                cups.head / 2, head.x, marks="top cup-seam", at=(head,),
                why="Half of the upper dart, with a little more so that a strapless edge lies snug."
                if cups.head > q.upper + 0.01 else "Half of the upper dart.")
    edge = cups.centre.edge("top").path
    if edge.start.y > gown.top:
        trace.chalk("centre cup", "On the fold mark {0} below the top edge and curve up from there to the top mark, arriving level: {1}.",
                    edge.start.y - gown.top, edge.length(), q.front.bust - edge.start.y, marks="top", at=(edge.start, head),
                    why="The lowest point stays {2} above the bust.")
    trace.chalk("centre cup", "Join top mark, bust point and under-bust mark with a smooth curve that leaves each mark straight "
                "down. It measures {0}: {1} above the bust point, {2} below.",
                cups.centre.edge("cup seam").path.length(), cups.centre.edge("cup seam").path.strokes[0].length(),
                cups.centre.edge("cup seam").path.strokes[1].length(), marks="cup-seam", at=(head, bp, foot),
                why="Straight down at both ends meets the level lines square, so the joined edges run on without a corner.")


def _side_cup(gown: Gown, trace: Trace) -> None:
    q, cups = gown.q, gown.outside.cups
    side = cups.side
    top, seam, edge = side.edge("top").path, side.edge("cup seam").path, side.edge("side").path
    trace.chalk("side cup", "Draw the same levels. Mark the bust point {0} from the fold line, the top mark {1} beyond it, the "
                "under-bust mark {2} beyond it.", q.bust_point_x, cups.head / 2, q.lower - q.lower_to_centre, q.lower, cups.head,
                marks="cup-seam", at=(cups.bust_point, top.start, seam.start),
                why="The other parts of both darts, which are {3} wide below and {4} at the top edge.")
    trace.chalk("side cup", "Along the top edge go {0} from the top mark; from there hollow the armhole {1} down to the underarm, "
                "{2} from the fold line, arriving level.", top.length(), side.edge("armhole").path.length(), q.front_bust,
                marks="top armhole", at=(top.end, edge.start), why="The armhole is drawn with the upper dart closed, then slid out by the dart.")
    trace.chalk("side cup", "From the underarm drop straight down {0} to the bust; from there curve to {1} from the fold line, "
                "{2} above the under-bust line.", edge.strokes[0].length(), cups.side_x, q.d, marks="side",
                at=(edge.strokes[0].end, edge.end), why="The side is shorter than the front by what the tape climbs over the bust.")
    trace.chalk("side cup", "Raise the under-bust mark by {0}. Draw the cup seam as on the centre cup and walk it: both are now {1}.",
                cups.m, seam.length(), marks="cup-seam", at=(seam.start,),
                why="The side's curve swings further out; without the raise it would be longer than the centre's.")
    trace.chalk("side cup", "Curve the lower edge from the raised mark to the side, level at both ends. It measures {0}.",
                side.edge("under-bust").path.length(), cups.centre.edge("under-bust").path.length(), q.under_bust,
                marks="under-bust", at=(seam.start, edge.end), why="With the centre cup's {1} that makes the band's half, {2}.")


def _band(gown: Gown, trace: Trace) -> None:
    q, pieces = gown.q, gown.outside.band.pieces
    depth = q.front.waist - q.front.under_bust
    trace.chalk("band", "On the fold draw the band {0} deep: {1} across at the top, {2} at the waist.", depth, q.under_bust,
                q.under_bust - gown.shape.side, marks="under-bust waist",
                why="A quarter of under-bust and of waist, each with its ease.")
    trace.chalk(pieces[-1].name, "Join the ends for the side seam, leaving and arriving straight down: {0}. Notch the top edge {1} "
                "from the fold for the cup seam.", pieces[-1].edge("side").path.length(), gown.outside.band.cup_seam_at, marks="side")
    if gown.shape.rest:
        trace.chalk("band", "At the cup seam's notch cut the band in two. At the waist take {0} off each part there, curving up to the notch.",
                    gown.shape.rest / 2, marks="band-seam", why="More than the side seam alone can hold without pulling.")


def _yoke(gown: Gown, trace: Trace) -> None:
    yoke = gown.yoke
    shoulder, arm, seam, neck = (yoke.edge(name).path for name in ("shoulder", "armhole", "yoke seam", "neck"))
    trace.chalk("yoke", "On the side neck point's level mark the neck {0} from the fold line; shoulder tip {1} across and {2} down. The "
                "shoulder seam is {3}.", shoulder.start.x, shoulder.end.x, shoulder.end.y, shoulder.length(), marks="shoulder",
                at=(shoulder.start, shoulder.end), why="The slope of the shoulder is a good third of its width.")
    trace.chalk("yoke", "Armhole from the tip, square to the shoulder, down to the top edge's level: {0} from the fold line there.",
                arm.end.x, marks="armhole", at=(arm.end,))
    trace.chalk("yoke", "Lower edge along the cups' top edge with the upper dart closed: {0}.", seam.length(), marks="yoke-seam",
                why="The side cup was slid out by the dart; closed, it slides back and meets the yoke edge for edge.")
    trace.chalk("yoke", "Curve the neckline, square to the shoulder: {0}.", neck.length(), marks="neck", at=(neck.start, neck.end))


def _back(gown: Gown, trace: Trace) -> None:
    q, made = gown.q, gown.outside.back
    piece = made.piece
    side, centre = piece.edge("side").path, made.centre.reversed()
    ruled = "the fold" if gown.side_opening else "a straight edge"
    trace.chalk("back", f"From {ruled} for the centre back mark, down " "from the side neck point's level: {5} {0}, "
                "underarm {1}, bust {2}, under-bust {3}, waist {4}.".replace("{5}", "neck" if gown.yoke else "top edge"),
                centre.end.y, q.side.chest, q.side.bust, q.side.under_bust, q.side.waist, q.d, marks="centre-back",
                why="The back is {5} shorter than the front from the under-bust down.")
    if gown.gap:
        trace.chalk("back", "Move the centre back in by {0} all the way down: half of the lacing gap.", gown.gap / 2, marks="centre-back")
    arm = piece.edge("armhole").path
    if gown.yoke:
        neck, tip = piece.edge("neck").path, piece.edge("shoulder").path.end
        trace.chalk("back", "Neck {0} from the body's centre on the side neck point's level; curve down to the centre, {1}. Shoulder tip {2} "
                    "across and {3} down; the shoulder seam is {4}.", neck.end.x, neck.length(), tip.x, tip.y,
                    piece.edge("shoulder").path.length(), marks="neck shoulder", at=(neck.end, tip), why="It meets the yoke's shoulder.")
        trace.chalk("back", "Armhole from the tip to the underarm, {0} from the body's centre: it leaves the shoulder square, is hollowest "
                    "{1} from the centre, and arrives level. It measures {2}.", q.back_bust, arm.strokes[0].end.x, arm.length(),
                    marks="armhole", at=(arm.strokes[0].end, side.start))
    else:
        trace.chalk("back", "Underarm {0} from the body's centre. Hollow the armhole up to the top edge, {1} along the top.", q.back_bust,
                    piece.edge("top").path.length(), marks="armhole top", at=(side.start,), why="The back's share of bust and ease.")
    if made.dart_width:
        trace.chalk("back", "Dart: {0} from the body's centre, its point on the bust line; {1} wide at the under-bust, {2} at the "
                    "waist.", made.dart_x, made.dart_width, piece.darts[0].width, marks="dart-1", at=(piece.darts[0].point,),
                    why="What the back has too much of at the under-bust, so that its side seam stays straight down.")
    tail = gown.outside.band.basque.tail_length if gown.basque else 0.0
    trace.chalk("back", "Side seam straight down from the underarm, then in at the waist. Walk it against cup and band: both are {0}. "
                "For that the waist moves {1} at the side.", side.length() - tail, abs(made.moved), marks="side", at=(made.at_waist[0].start,))
    if gown.shape.rest:
        where = "at the dart" if gown.side_opening else "by half at the dart and half at the centre back"
        trace.chalk("back", f"Take the rest of the waist, {{0}}, in {where}.", gown.shape.rest, marks="waist")
