"""A basque below a darted bodice: front and back go on below the waist to a pointed edge, their darts or princess seam with them.

Above the waist the block is what it was, but that its waist runs level, so that sides, darts and seams pass it straight down. Below
it the side swings out with the hip, and what a skirt's darts would let out is given back by the bodice's own: a dart narrows, as
far as it is wide; a princess seam springs out, half on each part. Shares and curves are those of basque.py, the bustier's own.
"""

from __future__ import annotations

from dataclasses import replace

from ..bodice_quarters import BodiceQuarters
from ..curve import Cubic, straight_down
from ..path import Path
from ..piece import Dart
from ..point import Point
from .back import LEAST_DART_AT_EDGE
from .basque import FULL_BY, SPRING_NEEDED, Basque, SideTail, back_edge, front_edge, seam_tail, side_tail
from .basque_skirt import Traced
from .bodice import SHORT_OF_POINT, Block
from .bodice_waist import BodiceWaist, Foot
from .princess import Panels

STRAIGHT, LEVEL_OFF = 1 / 3, 0.35
"""A dart's leg runs straight from its point for a third and arrives at the waist straight down. Judgement."""


def front_waist(q: BodiceQuarters) -> BodiceWaist:
    """Return the front's waist, level, its dart up to an inch below the bust point."""
    return _level(0.0, q.front.waist, q.waist, q.front_dart, Point(q.bust_point.x, q.bust_point.y + SHORT_OF_POINT))


def back_waist(q: BodiceQuarters, centre_x: float) -> BodiceWaist:
    """Return the back's waist, level, its dart half-way along it up to the bust line."""
    net = q.waist - centre_x
    return _level(centre_x, q.side.waist, net, q.back_dart, Point(centre_x + net / 2, q.side.bust))


def _level(start: float, y: float, net: float, width: float, apex: Point) -> BodiceWaist:
    ends = [start, start + net + width]
    if not width:
        return BodiceWaist((Path.through(Point(ends[0], y), Point(ends[1], y)),), None)
    mouths = tuple(Point(apex.x + sign * width / 2, y) for sign in (-1, 1))
    legs = tuple(Path.of(_leg(mouth, apex)) for mouth in mouths)
    sections = Path.through(Point(ends[0], y), mouths[0]), Path.through(mouths[1], Point(ends[1], y))
    return BodiceWaist(sections, Dart(apex, legs, width))


def _leg(mouth: Point, apex: Point) -> Cubic:
    return Cubic(mouth, mouth - Point(0.0, LEVEL_OFF * (mouth.y - apex.y)), apex.toward(mouth, STRAIGHT), apex)


def pointed_front(block: Block, panels: Panels | None, basque: Basque, bust_point: Point) -> tuple[Block, Panels | None]:
    """Carry a front on below its waist. Raises NoSolution where no depth at its dart or seam lets the edge run on smoothly."""
    waist, tail = block.waist, side_tail(basque, block.waist.end)
    level, dart = waist.sections[0].start.y, waist.dart
    if dart is None:
        made = front_edge(replace(basque, front_growth=0.0), level, tail, (bust_point.x, bust_point.x))
        edge = BodiceWaist((made.centre_part.reversed(),), None)
        return _with(block, Foot(edge, tail.path, tail.slant, basque.depth, 0.0, max(0.0, basque.front_needs(made.at_seam) - SPRING_NEEDED))), None
    mouths = tuple(leg.start for leg in dart.legs)
    most = basque.front_growth if panels else max(0.0, dart.width - LEAST_DART_AT_EDGE) * FULL_BY / min(basque.depth, FULL_BY)
    made = front_edge(replace(basque, front_growth=min(basque.front_growth, most)), level, tail, (mouths[0].x, mouths[1].x))
    sections = made.centre_part.reversed(), made.side_part.reversed()
    tails = seam_tail(mouths[0], sections[0].end), seam_tail(mouths[1], sections[1].start)
    legs = tuple(below.reversed() + leg for below, leg in zip(tails, dart.legs, strict=True))
    short = max(0.0, basque.front_needs(made.at_seam) - made.spring - SPRING_NEEDED)
    foot = Foot(BodiceWaist(sections, Dart(dart.point, legs, dart.width)), tail.path, tail.slant, basque.depth, dart.width - made.spring, short)
    if panels:
        panels = replace(panels, centre_seam=panels.centre_seam + tails[0], side_seam=panels.side_seam + tails[1], side=panels.side + tail.path,
                         edges=sections)
    return _with(block, foot), panels


def pointed_back(block: Block, basque: Basque) -> Block:
    """Carry a back on below its waist: a little deeper at the centre than at the side, its dart narrowing as far as the body grows."""
    waist, tail, drop = block.waist, side_tail(basque, block.waist.end), basque.back
    centre = waist.sections[0].start + Point(0.0, drop)
    needs, dart = basque.back_needs(drop), waist.dart
    if dart is None:
        edge = BodiceWaist((back_edge(tail, centre).reversed(),), None)
        return _with(block, Foot(edge, tail.path, tail.slant, drop, 0.0, max(0.0, needs - basque.ease_at(drop))))
    narrow = min(dart.width, max(LEAST_DART_AT_EDGE, dart.width - needs))
    mouths = tuple(Point(dart.point.x + sign * narrow / 2, centre.y) for sign in (-1, 1))
    legs = tuple(Path.of(straight_down(leg.start, mouth)).reversed() + leg for leg, mouth in zip(dart.legs, mouths, strict=True))
    sections = Path.through(centre, mouths[0]), back_edge(tail, mouths[1]).reversed()
    short = max(0.0, needs - (dart.width - narrow) - basque.ease_at(drop))
    return _with(block, Foot(BodiceWaist(sections, Dart(dart.point, legs, dart.width)), tail.path, tail.slant, drop, narrow, short))


def _with(block: Block, foot: Foot) -> Block:
    return replace(block, side=(*block.side[:-1], block.side[-1] + foot.tail), below=foot)


def traced_below(front: Block, back: Block, basque: Basque, bust_point: Point, gap: float) -> Traced:
    """Return the edge as it is traced for a skirt; `gap` is a lacing's, mm."""
    first, *rest = front.lower.sections
    if not rest:
        first = first.split_at(first.distance_where(lambda point: point.x - bust_point.x))[0]
    tail = SideTail(front.below.tail, front.below.tail.end, front.below.slant)
    swing = tail.end.x - front.waist.end.x
    length = sum(section.length() for section in front.lower.sections)
    return Traced(first.moved(0.0, -front.waist.sections[0].start.y), length - first.length(),
                  sum(section.length() for section in back.lower.sections) + gap / 2, basque.side, back.below.drop, basque.to_hip, tail.slant,
                  max(0.0, basque.side_growth - swing), basque.front_growth)
