"""The by-hand steps of a basque, and of a skirt that hangs from one, with the check after each solved value."""

from __future__ import annotations

from ..blocks.skirt import SkirtHalf
from ..piece import Piece
from ..trace import Trace
from .basque_gore_story import HungFrom, tell_hung_gores
from .bustier_gown import Gown
from .skirt_part import Skirt
from .skirt_story import tell_lowered, tell_pegged


def tell_band_basque(gown: Gown, trace: Trace) -> None:
    """Record the steps below the band's waist."""
    band, made = gown.outside.band, gown.outside.band.basque
    basque, edge, pieces = made.figures, made.edge, band.pieces
    outer = pieces[-1]
    trace.chalk("band", "Basque: on the fold mark {0} below the waist, the point. At the side go on below the waist for {1}, outward by {2}, leaving "
                "the waist straight down.", basque.depth, basque.side, made.tail.end.x - band.at_waist[-1][1].x, marks="fold side",
                at=(pieces[0].edge("basque edge").path.end, made.tail.end), why="It is the first part of the side seam's curve to the hip.")
    if not edge.parted:
        trace.chalk("band", "Curve the lower edge from the side, square to its seam there, down to the point: {0}.",
                    pieces[0].edge("basque edge").path.length(), marks="basque-edge")
        return
    seams = [piece.edge("band seam").path.length() for piece in pieces]
    cut = "" if gown.shape.rest else "Cut the band in two at the cup seam's notch. "
    trace.chalk("band", f"{cut}On that seam mark {{0}} below the waist. Spring each part out by {{1}} at that level, straight "
                "down where it leaves the waist.", edge.at_seam, edge.spring / 2, marks="band-seam", at=(pieces[0].edge("basque edge").path.start,),
                why="So deep below the waist the hips need more than the ease gives: it opens under the cup seam, half on each part.")
    trace.chalk("band", "Lower edge of the band from that mark to the point, one even bend: {0}.", pieces[0].edge("basque edge").path.length(),
                marks="basque-edge", at=(pieces[0].edge("basque edge").path.end,))
    trace.chalk(outer.name, "Lower edge of the side band from its mark to the side, square to the side seam: {0}. Walk the band seams: {1} and {2}. Laid "
                "together along the seam, the two edges run on without a corner.", outer.edge("basque edge").path.length(), *seams, marks="basque-edge",
                why="The depth under the cup seam is found so that they do.")


def tell_back_basque(gown: Gown, trace: Trace) -> None:
    """Record the steps below the back's waist."""
    made = gown.outside.back
    centre, side = made.centre, made.piece.edge("side").path
    trace.chalk("back", "Basque: go on below the waist with the front's own side seam, and straight down at the centre for {0}. Side seam in all {1}, "
                "front and back alike.", made.drop, side.length(), marks="side centre-back", at=(side.end, centre.end),
                why="A little deeper than at the side, so that the edge lies level over the back.")
    if made.dart_width:
        trace.chalk("back", "Carry the dart on to the edge, {0} wide there.", made.dart_at_edge, marks="dart-1", why="Below the waist the body grows, and "
                    "the dart gives it back as far as it can.")
    trace.chalk("back", "Lower edge level from the centre, then up to the side, square to its seam: {0} in all.", made.back_length, marks="basque-edge")


def hung_from(gown: Gown) -> HungFrom:
    """Return what a skirt's steps say of a gown's basque."""
    return HungFrom("band", "cup seam", "band seam", gown.basque.depth, gown.basque.to_hip, gown.outside.back.drop, gown.outside.band.front_length,
                    _centre_part(gown), gown.outside.back_waist + gown.gap / 2)


def tell_hung(above: HungFrom, skirt: Skirt, trace: Trace) -> None:
    """Record the steps for a skirt below a basque: its front and back, or its gores (basque_gore_story.py)."""
    if skirt.shape.gores:
        tell_hung_gores(above, skirt, trace)
    else:
        _tell_two(above, skirt, trace)
    tell_lowered(skirt, trace)


def _tell_two(above: HungFrom, skirt: Skirt, trace: Trace) -> None:
    traced = skirt.front.waist.length
    name = "skirt front"
    trace.chalk(name, "On the fold mark, from the waist's level, the basque's point {0}, hip line {1}, hem {2} down.", above.depth,
                above.to_hip, skirt.length, marks="fold")
    plan = skirt.plan
    if plan.times != 1.0:
        trace.chalk(name, f"Trace the basque's edge with the {above.closed} closed and draw it {plan.times:g} times as wide, as deep as it is: {{0}}. It is "
                    "gathered onto {1}.", traced, above.front, marks="waist",
                    why="Where the edge slants, gathering gives a little less than on the level.")
    else:
        trace.chalk(name, f"Trace the {above.piece}'s edge from the point to the {above.seam}, {{0}}; from there to the side an even bend of {{1}}, darts "
                    "closed. Walk it against the basque: skirt {2}, basque {3}.", above.centre_part, above.front - above.centre_part, traced, above.front,
                    marks="waist", at=(skirt.front.waist.end,),
                    why="The seam allowance lies outside it, so the piece cut away is that much smaller than the basque." if skirt.waist_ease[0] <= 0
                    else "It is cut a little under, for it gives on the bias; tape holds it to the basque.")
    for dart in skirt.front.waist.darts:
        trace.chalk(name, "Dart: {0} along the edge from the point, {1} wide, {2} long, its middle straight down.", skirt.front.waist.sections[0].length(),
                    dart.width, dart.legs[0].length(), marks="dart-1", at=(dart.point,),
                    why="What the basque has not let out by there; the front then hangs straight.")
    _fan(name, skirt.front, plan.fan_front, above.to_hip, skirt, trace)
    _side(name, skirt.front, skirt, trace)
    name = "skirt back"
    back = skirt.pieces[-1]
    trace.chalk(name, "On the centre back mark, from the waist's level, the basque's edge {0}, hip line {1}, hem {2} down.", above.drop,
                above.to_hip, skirt.length, marks="centre-back")
    for i, dart in enumerate(skirt.back.waist.darts, start=1):
        before = sum(section.length() for section in skirt.back.waist.sections[:i])
        trace.chalk(name, f"Dart {i}: {{0}} along the edge from the centre, {{1}} wide, {{2}} long.", before, dart.width, dart.legs[0].length(),
                    marks=f"dart-{i}", at=(dart.point,), why="What the basque has not taken up already.")
    trace.chalk(name, "Upper edge {0} in all, darts closed, square to the centre and to the side. Walk it against the back's basque: {1}.",
                skirt.back.waist.length, above.back, marks="waist", at=(skirt.back.waist.end,))
    _under_lacing(back, trace)
    _fan(name, skirt.back, plan.fan_back, above.to_hip, skirt, trace)
    _side(name, skirt.back, skirt, trace)


def _centre_part(gown: Gown) -> float:
    """The length of the front's edge from the point to the cup seam."""
    band = gown.outside.band
    whole = band.pieces[0].edge("basque edge").path
    if band.basque.edge.parted:
        return whole.length()
    return whole.length() - (whole.distance_where(lambda p: p.x - band.cup_seam_at) or 0.0)


def _under_lacing(piece: Piece, trace: Trace) -> None:
    if piece.has_edge("waist under lacing"):
        trace.chalk(piece.name, "Of that edge {0} next to the centre lies unsewn under the lacing.", piece.edge("waist under lacing").path.length(),
                    marks="waist-under-lacing")


def _fan(name: str, half: SkirtHalf, fan: float, to_hip: float, skirt: Skirt, trace: Trace) -> None:
    if fan:
        trace.chalk(name, "Slash from the hem to the edge and spread evenly, till the hip line measures {0}; the hem then measures {1}, "
                    + ("everywhere {2} below it." if skirt.ends_alike else "{2} below it before it is lowered."), half.hip_line.length(),
                    half.hem.length(), skirt.length - to_hip, marks="hem",
                    why="What the darts would take in is let out as flare: the edge keeps its length, and no dart is left in front.")
    elif not tell_pegged(name, half, skirt, trace):
        trace.chalk(name, "Hip line {0} across; from there the side seam drops straight down.", half.hip_line.length(), marks="side")


def _side(name: str, half: SkirtHalf, skirt: Skirt, trace: Trace) -> None:
    trace.chalk(name, ("Curve the side from the edge to the hip, coming inward by {0} at the edge. " if half.side_take > 1e-6 else "") +
                "Side seam in all {1}, front and back alike.", half.side_take, half.side.length(), marks="side", at=(half.waist.end, half.hip_line.end))
