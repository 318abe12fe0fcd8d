"""The by-hand steps of a skirt: its front and back, or its gores (skirt_gore_story.py)."""

from __future__ import annotations

from ..piece import Piece
from ..trace import Trace
from .skirt_gore_story import tell_gores
from .skirt_part import Skirt


def tell_skirt(skirt: Skirt, trace: Trace) -> None:
    """Record the steps for the skirt's pieces."""
    if skirt.shape.gores:
        tell_gores(skirt, trace)
    else:
        for half, piece, side in ((skirt.front, skirt.pieces[0], "fold"), (skirt.back, skirt.pieces[1], "centre back")):
            _half(skirt, half, piece, side, trace)
    tell_lowered(skirt, trace)


def tell_lowered(skirt: Skirt, trace: Trace) -> None:
    """Record how the hem is lowered where front, side and back are not equally long."""
    if not skirt.ends_alike:
        lengths = skirt.lengths
        trace.chalk(skirt.pieces[-1].name, "Lower the hem: {0} at the side, {1} at the centre back, nothing at the centre front. Draw it smooth, level at both "
                    "centres, without a corner at the side seam.", lengths.side, lengths.back, marks="hem",
                    why="The lengths that were asked for; front and back meet at the side seam at the same length.")


def _half(skirt: Skirt, half, piece: Piece, side: str, trace: Trace) -> None:
    name, plan = piece.name, skirt.plan
    waist = sum(section.length() for section in half.waist.sections)
    trace.chalk(name, "On the {}: waist, hip line {{0}} down, hem {{1}} down.".format(side), plan.depth, skirt.length,
                marks=side.replace(" ", "-"))
    if plan.fan:
        trace.chalk(name, "Spread the hem: the hip line curves up to {0} at the side and measures {1}; the hem measures {2}"
                    + (", everywhere {3} below it." if skirt.ends_alike else ", {3} below it before it is lowered."),
                    half.hip_line.start.y - half.hip_line.end.y, half.hip_line.length(), half.hem.length(),
                    skirt.length - plan.depth, marks="hem", why="The front dart is closed into flare: the waist lies flat and the hem opens."
                    if half.side_take else "A part of a circle: every line from the waist to the hem runs straight out from one point.")
    elif not tell_pegged(name, half, skirt, trace):
        trace.chalk(name, "Hip line {0} across; from there the side seam drops straight down.", half.hip_line.length(), marks="side",
                    why="A quarter of the hip with its ease; the back has a little more than the front.")
    for i, dart in enumerate(half.waist.darts, start=1):
        before = sum(section.length() for section in half.waist.sections[:i])
        trace.chalk(name, "Dart {}: {{0}} along the waist from the centre, {{1}} wide, {{2}} long.".format(i), before, dart.width,
                    dart.legs[0].length(), marks=f"dart-{i}", at=(dart.point,))
    trace.chalk(name, "Waist {0} in all, darts closed, {1} higher at the side than at the centre; square to the centre, to both legs of "
                "each dart and to the side.", waist, half.waist.sections[0].start.y - half.waist.end.y, marks="waist",
                why=meets(skirt))
    if piece.has_edge("waist under lacing"):
        trace.chalk(name, "Of that waist {0} next to the centre lies unsewn under the lacing; {1} meets the top.",
                    piece.edge("waist under lacing").path.length(), waist - piece.edge("waist under lacing").path.length(),
                    marks="waist-under-lacing")
    trace.chalk(name, ("Curve the side from the waist to the hip, coming inward by {0} at the waist. " if half.side_take else "") +
                "Side seam in all {1}, front and back alike.", half.side_take, half.side.length(), marks="side", at=(half.waist.end, half.hip_line.end))


def tell_pegged(name: str, half, skirt: Skirt, trace: Trace) -> bool:
    """Record the side and hem of a pegged half; False for one that is not."""
    peg = skirt.shape.peg
    if not peg or not peg.taper:
        return False
    end = half.side.end
    trace.chalk(name, "Hip line {0} across; from there bend the side seam inward over {1}, then rule it to the hem: {2} inside straight down, {3} lower than "
                "the hem at the centre. Draw the hem, {4}, square to both.", half.hip_line.length(), peg.bend, half.hip_line.end.x - end.x,
                end.y - half.hem.start.y, half.hem.length(), marks="side hem", at=(half.hip_line.end, end),
                why="Pegged: turned up, the hem's allowance spreads as the seam does, so it lies flat.")
    return True


def meets(skirt: Skirt) -> str:
    """Return the reason for the waist edge's length."""
    if skirt.waist_ease[0] > 0:
        return "It is cut a little under, for it gives on the bias; tape holds it to the waist."
    if skirt.waist_ease[0] < 0:
        return "It is gathered onto the waist."
    return "It meets the top's waist edge for edge."
