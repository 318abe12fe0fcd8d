"""The by-hand steps of a bodice and its sleeve, in the order in which they would be chalked."""

from __future__ import annotations

from ..point import Point
from ..trace import Trace
from .dress import Dress
from .sleeve_sewn import tell_sleeve


def tell_dress(dress: Dress, trace: Trace) -> None:
    """Record the steps for front, back and sleeve."""
    _front(dress, trace)
    if dress.panels:
        _princess(dress, trace)
    else:
        _bust_dart(dress, trace)
    _back(dress, trace)
    if dress.sleeve:
        tell_sleeve(dress.sleeve, dress.front.armhole, dress.back.armhole, trace)


def _front(dress: Dress, trace: Trace) -> None:
    q, block = dress.q, dress.front
    arm = block.armhole
    trace.chalk("front", "Fold the paper. From the level of the side neck point mark on the fold: neck {0}, underarm {1}, bust {2}, waist "
                "{3}. Rule each straight across.", block.neck.start.y, q.front.chest, q.front.bust, q.front.waist, marks="fold",
                at=tuple(Point(0.0, y) for y in (q.front.chest, q.front.bust, q.front.waist)), why="Taken over the front, from the shoulder.")
    trace.chalk("front", "Side neck point {0} from the fold; shoulder tip {1} across and {2} down. The neckline ends {3} from the fold; the "
                "shoulder seam is {4}.", q.neck_width, dress.shoulder.tip.x, dress.shoulder.tip.y, dress.neck.end.x,
                dress.shoulder.tip.distance(dress.neck.end), marks="neck shoulder", at=(dress.neck.end, dress.shoulder.tip))
    pitch = arm.strokes[0].end
    if len(block.shoulder) == 1:
        trace.chalk("front", "Armhole: square down from the shoulder tip, hollowest {0} from the fold, to the underarm {1} from the fold, arriving "
                    "level. It measures {2}.", pitch.x, q.front_bust, arm.length(), marks="armhole", at=(pitch, arm.end),
                    why="The underarm lies at the front's part of bust and ease.")
    else:
        trace.chalk("front", "Armhole, drawn before the dart is moved: underarm {0} from the fold, arriving level. It measures {1}.",
                    q.front_bust, arm.length(), marks="armhole", why="The underarm lies at the front's part of bust and ease.")
    trace.chalk("front", "Bust point {0} from the fold on the bust line.", q.bust_point.x, marks="bust-point", at=(q.bust_point,),
                why="Half of the bust span.")
    if block.waist.dart:
        first = block.waist.sections[0]
        trace.chalk("front", "Waist dart: {0} along the waist from the fold, {1} wide, its point {2} below the bust point.", first.length(),
                    block.waist.dart.width, block.waist.dart.point.y - q.bust_point.y, marks="waist-dart", at=(block.waist.dart.point,),
                    why="What the waist has too much of when the side has taken its share.")
    trace.chalk("front", "Waist {0} in all, dart closed: square to the fold, to both legs and to the side, which comes inward by {1}.", q.waist,
                q.front_side, marks="waist", at=(block.waist.end,), why="A quarter of the waist with its ease.")


def _bust_dart(dress: Dress, trace: Trace) -> None:
    block, q = dress.front, dress.q
    if block.bust_dart is None:
        trace.chalk("front", "Side seam {0}, as long as the back's: no bust dart is needed.", block.side_length(), marks="side")
        return
    if len(block.side) == 2:
        trace.chalk("front", "Side dart: upper mark {0} below the underarm, {1} wide, both marks as far from the bust point. Sew it to {2} short of "
                    "the bust point. The side seam then measures {3}, as the back's.", block.side[0].length(), block.bust_dart.width,
                    block.bust_dart.point.distance(q.bust_point), block.side_length(), marks="side side-dart", at=(block.bust_dart.point,),
                    why="The front is longer than the back because it climbs over the bust.")
        return
    trace.chalk("front", "Shoulder dart: cut from the middle of the shoulder to the bust point and close the side dart; the shoulder opens by {0}. Sew it "
                "to {1} short of the bust point. Redraw the side: {2}, as the back's.", block.bust_dart.width,
                block.bust_dart.point.distance(q.bust_point), block.side_length(), marks="shoulder shoulder-dart", at=(block.bust_dart.point,),
                why="Turning about the bust point keeps the dart's angle.")


def _princess(dress: Dress, trace: Trace) -> None:
    seam, q = dress.panels.centre_seam, dress.q
    head = "armhole, at its hollowest" if dress.panels.centre_armhole else "middle of the shoulder"
    trace.chalk("front", f"Cut the front in two: from the {head} over the bust point to the waist, square to the edge it leaves, straight down at "
                "the bust point. The seam measures {0}: {1} above the bust point, {2} below.", seam.length(), seam.strokes[0].length(),
                seam.strokes[1].length(), marks="princess-seam", at=(seam.start, q.bust_point, seam.end), why="It takes both darts.")
    trace.chalk("side front", "Close the side dart by turning the outer part about the bust point. Draw the seam's other half and walk it: {0}, as the "
                "centre's. Side seam {1}, as the back's.", dress.panels.side_seam.length(), dress.panels.side.length(),
                marks="princess-seam side", at=(dress.panels.side_seam.start,))


def _closing(dress: Dress, trace: Trace) -> None:
    """Record what the closing changes at the centre back."""
    closing, top = dress.closing, dress.back.neck.start
    if closing.gap:
        trace.chalk("back", "Move the centre back in by {0} all the way down.", closing.gap / 2, marks="centre-back", at=(top,), why="Half of the lacing gap.")
    if closing.back_on_fold:
        trace.chalk("back", "Lay that edge on the fold" + (": slit it for {0} from the neck." if closing.slit else "."), closing.slit, marks="fold",
                    why="It opens in the left side seam." + (" The neckline alone would not pass over the head." if closing.slit else ""))
    if closing.stand:
        places = closing.stand.places
        trace.chalk("back", "Add a button stand of {0} beyond the centre and {1} to turn under. Buttons on the centre line: the first {2} below the neck, "
                    f"{len(places)} in all, the last {{3}} above the waist. Holes of {{4}}, from ⅛ beyond the centre line inward.", closing.stand.width,
                    closing.stand.facing, places[0] - top.y, dress.q.side.waist - places[-1], closing.stand.hole, marks="centre-back",
                    why="One sits on the bust line, where an opening gapes first; the others lie evenly between.")
    if dress.modesty:
        across, down = dress.modesty.edge("top").path, dress.modesty.edge("fold").path
        trace.chalk("modesty panel", "On the fold, {0} across and {1} high.", across.length(), down.length(), marks="panel-side")


def _back(dress: Dress, trace: Trace) -> None:
    q, block = dress.q, dress.back
    arm = block.armhole
    trace.chalk("back", "From a straight edge for the centre back mark, down from the side neck point's level: neck {0}, underarm {1}, bust {2}, waist "
                "{3}.", block.neck.start.y, q.side.chest, q.side.bust, q.side.waist, q.d, marks="centre-back",
                why="The back is {4} shorter than the front at the waist.")
    _closing(dress, trace)
    shoulder = block.shoulder[0]
    trace.chalk("back", "Neckline and shoulder as on the front; the shoulder seam is {0}.", shoulder.length(), dress.shoulder_ease,
                marks="neck shoulder", why="It is {1} longer than the front's and eased onto it, to round over the shoulder blade."
                if dress.shoulder_ease else "It meets the front's.")
    trace.chalk("back", "Armhole: hollowest {0} from the centre, to the underarm {1} from the centre, arriving level. It measures {2}.",
                arm.strokes[0].end.x, q.back_bust, arm.length(), marks="armhole", at=(arm.end,))
    if block.waist.dart:
        trace.chalk("back", "Waist dart: {0} along the waist from the centre, {1} wide, up to the bust line.", block.waist.sections[0].length(),
                    block.waist.dart.width, marks="waist-dart", at=(block.waist.dart.point,))
    trace.chalk("back", "Side seam straight down to the bust line, then inward by {0} at the waist: {1}.", q.back_side, block.side_length(), marks="side")
