"""The by-hand steps of a blouse, in the order in which they would be chalked."""

from __future__ import annotations

from ..blocks.collar import OVERLAP, STAND_RISE
from ..blocks.facing import BEHIND_CENTRE
from ..blocks.fish_eye import FishEye
from ..point import Point
from ..tolerance import INCH
from ..trace import Trace
from .blouse import BUTTON_ABOVE_HEM, Blouse
from .blouse_pieces import FACINGS, facing_pieces, shoulder_facing
from .sleeve_sewn import tell_sleeve


def tell_blouse(blouse: Blouse, trace: Trace) -> None:
    """Record the steps for front, back, sleeve, collar and facings."""
    _front(blouse, trace)
    _bust_dart(blouse, trace)
    _opening(blouse, trace)
    _back(blouse, trace)
    if blouse.sleeve:
        tell_sleeve(blouse.sleeve, blouse.front.armhole, blouse.back.armhole, trace)
    if blouse.collar:
        _collar(blouse, trace)
    _facings(blouse, trace)


def _front(blouse: Blouse, trace: Trace) -> None:
    q, block, below = blouse.q, blouse.front, blouse.below
    arm, hip = block.armhole, q.front.waist + below.to_hip
    trace.chalk("front", "Rule the centre front. From the level of the side neck point mark on it: neck {0}, underarm {1}, bust {2}, waist {3}, hip {4}, "
                "hem {5}. Rule each straight across.", block.neck.start.y, q.front.chest, q.front.bust, q.front.waist, hip, q.front.waist + below.to_hem,
                marks="front-edge", at=tuple(Point(0.0, y) for y in (q.front.chest, q.front.bust, q.front.waist, hip)),
                why="Taken over the front, from the shoulder.")
    trace.chalk("front", "Side neck point {0} from the centre; shoulder tip {1} across and {2} down. The neckline ends {3} from the centre; the shoulder "
                "seam is {4}.", q.neck_width, blouse.shoulder.tip.x, blouse.shoulder.tip.y, blouse.neck.end.x,
                blouse.shoulder.tip.distance(blouse.neck.end), marks="neck shoulder", at=(blouse.neck.end, blouse.shoulder.tip))
    trace.chalk("front", "Armhole: square down from the shoulder tip, to the underarm {0} from the centre, arriving level. It measures {1}.", q.front_bust,
                arm.length(), marks="armhole", at=() if len(block.shoulder) == 2 else (arm.end,), why="The underarm lies at the front's part of bust and ease.")
    trace.chalk("front", "Bust point {0} from the centre on the bust line.", q.bust_point.x, marks="bust-point", at=(q.bust_point,), why="Half of the bust span.")
    trace.chalk("front", "Waist: {0} from the centre to the side, where it comes inward by {1}.", q.front_bust - q.front_side, q.front_side, marks="side",
                at=(Point(q.front_bust - q.front_side, q.front.waist),), why="A quarter of the waist with its ease, and the darts.")
    _darts(blouse.front_darts, "front", q.bust_point.y, trace)
    trace.chalk("front", "Hip: {0} from the centre to the side, {1} further out than the waist. Curve the side from waist to hip, straight down at both; "
                "below the hip straight down.", block.side[-1].end.x, below.run, marks="side hem", at=(block.side[-1].end,),
                why="Front and back go out alike, so that the side seams agree.")


def _darts(darts: tuple[FishEye, ...], piece: str, bust: float, trace: Trace) -> None:
    for i, dart in enumerate(darts, start=1):
        which = "" if len(darts) == 1 else ", first" if i == 1 else ", second"
        up = "the bust line" if dart.top.y - bust < INCH / 16 else "{2} below the bust line"
        trace.chalk(piece, f"Fish-eye dart{which}: its middle {{0}} from the centre, {{1}} wide at the waist, up to {up}, down to {{3}} "
                    "below the waist.", dart.top.x, dart.width, dart.top.y - bust, dart.bottom.y - dart.inner.y, marks="dart",
                    at=(dart.top, dart.inner, dart.outer, dart.bottom), why="What the waist has too much of when the side has taken its share."
                    if i == 1 else "One dart would be too wide to lie flat.")


def _bust_dart(blouse: Blouse, trace: Trace) -> None:
    block, q = blouse.front, blouse.q
    dart = block.bust_dart
    if dart is None:
        trace.chalk("front", "Side seam {0}, as long as the back's: no bust dart is needed.", block.side_length(), marks="side")
    elif len(block.side) == 2:
        trace.chalk("front", "Side dart: upper mark {0} below the underarm, {1} wide, both marks as far from the bust point. Sew it to {2} short of "
                    "the bust point. The side seam then measures {3} from underarm to hem, as the back's.", block.side[0].length(), dart.width,
                    dart.point.distance(q.bust_point), block.side_length(), marks="side dart", at=(dart.point,),
                    why="The front is longer than the back because it climbs over the bust.")
    else:
        trace.chalk("front", "Shoulder dart: cut from the middle of the shoulder to the bust point and close the side dart; the shoulder opens by {0}. Sew it "
                    "to {1} short of the bust point. Redraw the side: {2}, as the back's.", dart.width, dart.point.distance(q.bust_point), block.side_length(),
                    marks="shoulder dart", at=(dart.point,), why="Turning about the bust point keeps the dart's angle.")


def _opening(blouse: Blouse, trace: Trace) -> None:
    stand = blouse.stand
    places = ", ".join(f"{{{i}}}" for i in range(2, 2 + len(stand.places)))
    trace.chalk("front", "Button stand: {0} beyond the centre, down to the hem; carry the neckline on over it.", stand.width, marks="neck-lap front-edge",
                why="Half a button, and ¼ in beside it.")
    trace.chalk("front", f"Buttons on the centre line, {{1}} apart at most, below the side neck point's level: {places}. Buttonholes {{0}} long, level, from ⅛ in "
                "beyond the centre inward.", stand.hole, max(b - a for a, b in zip(stand.places, stand.places[1:], strict=False)), *stand.places, marks="buttonhole",
                at=tuple(Point(0.0, y) for y in stand.places),
                why=f"One sits at the bust point's level, where an opening gapes first; the lowest {BUTTON_ABOVE_HEM / INCH:g} in above the hem.")
    if blouse.cut_on:
        trace.chalk("front", "Front facing, cut on: fold the paper along the stand's edge and trace neck, {1} of the shoulder, and a line that follows the neck, "
                    "then runs {0} behind the centre to the hem.", *_facing_figures(blouse), marks="facing-neck facing-shoulder outer-edge",
                    why="Folded back it lies on the front line for line.")


def _back(blouse: Blouse, trace: Trace) -> None:
    q, block, below = blouse.q, blouse.back, blouse.below
    hip = q.side.waist + below.to_hip
    trace.chalk("back", "Fold the paper for the centre back. Mark down from the side neck point's level: neck {0}, underarm {1}, bust {2}, waist {3}, hip {4}, "
                "hem {5}.", block.neck.start.y, q.side.chest, q.side.bust, q.side.waist, hip, q.side.waist + below.to_hem, q.d, marks="fold",
                why="The back is {6} shorter than the front at the waist.")
    trace.chalk("back", "Neckline and shoulder as on the front; the shoulder seam is {0}.", block.shoulder[0].length(), blouse.shoulder_ease,
                marks="neck shoulder", why="It is {1} longer than the front's and eased onto it, to round over the shoulder blade."
                if blouse.shoulder_ease else "It meets the front's.")
    trace.chalk("back", "Armhole: hollowest {0} from the centre, to the underarm {1} from the centre, arriving level. It measures {2}.",
                block.armhole.strokes[0].end.x, q.back_bust, block.armhole.length(), marks="armhole", at=(block.armhole.end,))
    trace.chalk("back", "Side straight down to the bust line, inward by {0} at the waist, out by {1} to the hip, straight down from there: {2} in all.", q.back_side,
                below.run, block.side_length(), marks="side hem", at=(block.side[-1].end,))
    _darts(blouse.back_darts, "back", q.side.bust, trace)


def _collar(blouse: Blouse, trace: Trace) -> None:
    collar = blouse.collar
    if collar.kind == "stand":
        trace.chalk("collar stand", "Rule {0} from the fold: the back neck. Carry it on by {1} to the end, rising by {2} there: the front neck and the button "
                    "stand.", collar.shoulder, collar.neck.length() - collar.shoulder, STAND_RISE, marks="neck", at=(collar.neck.at(collar.shoulder),),
                    why="The collar's edge is as long as the neckline measures.")
        trace.chalk("collar stand", "Upper edge {0} above it all along, {1} long; round the front corner. Centre front {2} from the end.", collar.depth,
                    collar.outer.length(), blouse.stand.width, marks="top end", at=(collar.neck.at(collar.centre),),
                    why="Shorter than the neck edge, it leans toward the neck.")
        return
    trace.chalk("flat collar", "Lay back and front together at the shoulder, meeting at the neck and overlapping by {0} at the tips. Trace the neckline from centre "
                "back to centre front, then draw one even curve beside it, square to both centres: {1}.", OVERLAP, collar.neck.length(), collar.solved,
                marks="neck", at=(collar.neck.at(collar.shoulder),),
                why="The overlap makes the collar roll over its seam; the curve lies up to {2} from the traced line, and is as long.")
    trace.chalk("flat collar", "Outer edge {0} from the neck all round, square to the fold; round the front corner. It measures {1}.", collar.depth,
                collar.outer.length(), marks="outer-edge end", why="The under collar is cut alike.")


def _facings(blouse: Blouse, trace: Trace) -> None:
    behind, shoulder = _facing_figures(blouse)
    for piece in facing_pieces(blouse):
        if piece.name == FACINGS[0]:
            trace.chalk(piece.name, "Trace the front's edge, neck and {1} of the shoulder; the inner edge follows the neck, then runs {0} behind the centre to the "
                        "hem.", behind, shoulder, marks="neck front-edge outer-edge")
        else:
            trace.chalk(piece.name, "Trace the back's neck and {0} of the shoulder; outer edge as far from the neck all round.", shoulder, marks="neck outer-edge")


def _facing_figures(blouse: Blouse) -> tuple[float, float]:
    return BEHIND_CENTRE, shoulder_facing(blouse)
