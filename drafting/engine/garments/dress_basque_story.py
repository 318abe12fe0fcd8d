"""The by-hand steps of a bodice that ends in a basque, and of the skirt that hangs from it."""

from __future__ import annotations

from ..trace import Trace
from .basque_gore_story import HungFrom
from .basque_story import tell_hung
from .dress import Dress


def tell_dress_basque(dress: Dress, trace: Trace) -> None:
    """Record the steps below the bodice's waist, front and back, then those of the skirt."""
    _front(dress, trace)
    _back(dress, trace)
    front = [section.length() for section in dress.front.lower.sections]
    name = "princess seam" if dress.panels else "dart" if len(front) > 1 else "level of the bust point"
    centre = dress.traced.front.length()
    back = sum(section.length() for section in dress.back.lower.sections) + dress.closing.gap / 2
    tell_hung(HungFrom("front", name, "princess seam" if dress.panels else "darts", dress.basque.depth, dress.basque.to_hip, dress.back.below.drop, sum(front),
                       centre, back), dress.skirt, trace)


def _front(dress: Dress, trace: Trace) -> None:
    block, basque = dress.front, dress.basque
    foot, sections = block.below, block.lower.sections
    outer = "side front" if dress.panels else "front"
    trace.chalk("front", "Basque: rule the waist level; darts and seams pass it straight down. On the fold mark {0} below it, the point.", basque.depth,
                marks="fold", at=(sections[0].start,))
    trace.chalk(outer, "At the side go on below the waist for {0}, outward by {1}, leaving the waist straight down.", basque.side,
                foot.tail.end.x - block.waist.end.x, marks="side", at=(foot.tail.end,), why="It is the first part of the side seam's curve to the hip.")
    if len(sections) == 1:
        trace.chalk("front", "Curve the lower edge from the side, square to its seam there, down to the point: {0}.", sections[0].length(), marks="basque-edge")
        return
    deep, wide = sections[0].end.y - block.waist.sections[0].start.y, block.waist.dart.width
    if dress.panels:
        trace.chalk("front", "Carry the princess seam on to {0} below the waist, on either part outward by {1} at that level, straight down where it leaves "
                    "the waist.", deep, (wide - foot.dart_at_edge) / 2, marks="princess-seam", at=(sections[0].end,),
                    why="Below the waist the body grows, and the seam gives it back, half on each part.")
    else:
        trace.chalk("front", "Carry the dart on to {0} below the waist, straight down where it leaves it, {1} wide there.", deep, foot.dart_at_edge,
                    marks="waist-dart", at=(sections[0].end,), why="Below the waist the body grows, and the dart gives it back as far as it can.")
    trace.chalk("front", "Lower edge from there to the point, one even bend: {0}.", sections[0].length(), marks="basque-edge", at=(sections[0].start,))
    trace.chalk(outer, "Lower edge on to the side, square to its seam: {0}. Closed, the two edges run on without a corner.", sections[1].length(),
                marks="basque-edge", why="The depth between them is found so that they do.")


def _back(dress: Dress, trace: Trace) -> None:
    foot = dress.back.below
    trace.chalk("back", "Basque: rule the waist level. Go on below it with the front's own side seam, and straight down at the centre for {0}. Side seam in "
                "all {1}, front and back alike.", foot.drop, dress.back.side_length(), marks="side centre-back", at=(foot.edge.end,),
                why="A little deeper than at the side, so that the edge lies level over the back.")
    if foot.edge.dart:
        trace.chalk("back", "Carry the dart on to the edge, {0} wide there.", foot.dart_at_edge, marks="waist-dart",
                    why="Below the waist the body grows, and the dart gives it back as far as it can.")
    trace.chalk("back", "Lower edge level from the centre, then up to the side, square to its seam: {0} in all.",
                sum(section.length() for section in foot.edge.sections), marks="basque-edge")
