"""Princess seams: a front cut in two through its bust dart, the bust point and its waist dart."""

from __future__ import annotations

from dataclasses import dataclass

from ..curve import Cubic
from ..errors import NoSolution, UnknownChoice
from ..path import Path
from ..point import Point
from ..solve import root
from .bodice import Block

HANDLE = 0.35
"""Handles beside the bust point, as a share of the height: as in a cup seam, so that the line passes it straight down."""


@dataclass(frozen=True, slots=True)
class Panels:
    """The front's two seams, both walked from their head over the bust point to the waist (or a basque's edge), equally long; and the
    parts of the upper edges that lie on either side of the heads. `side` edges are already turned with the closed dart; `edges` are
    a basque's, from the centre to the side."""

    centre_seam: Path
    side_seam: Path
    centre_shoulder: Path
    side_shoulder: Path | None
    centre_armhole: Path | None
    side_armhole: Path
    side: Path
    waist_centre: Path
    waist_side: Path
    edges: tuple[Path, Path] | None = None

    @property
    def lower(self) -> tuple[Path, Path]:
        """The edges that a skirt is sewn to, from the centre to the side."""
        return self.edges or (self.waist_centre, self.waist_side)


def shoulder_princess(block: Block, bust_point: Point) -> Panels:
    """Cut a front whose dart has been turned to the shoulder. Raises UnknownChoice where the front has no two darts."""
    if len(block.shoulder) != 2:
        raise _no_darts()
    centre, side = _seams(block, bust_point, block.shoulder[0].end, _square(block.shoulder[0].arrives()),
                          block.shoulder[1].start, _square(block.shoulder[1].leaves()))
    return Panels(centre, side, block.shoulder[0], block.shoulder[1], None, block.armhole, block.side[0],
                  block.waist.sections[0], block.waist.sections[1])


def armhole_princess(block: Block, bust_point: Point, turned_side: Path) -> Panels:
    """Cut a front with a side dart from the armhole's pitch: the part below it turns until the side dart is closed.

    `turned_side` is the side seam after that turn.
    """
    if len(block.side) != 2:
        raise _no_darts()
    upper, lower = block.armhole.split_at(block.armhole.strokes[0].length())
    turned = lower.mapped(lambda point: point.turned(block.dart_angle, bust_point))
    centre, side = _seams(block, bust_point, upper.end, _square(upper.arrives()), turned.start, _square(turned.leaves()))
    return Panels(centre, side, block.shoulder[0], None, upper, turned, turned_side, block.waist.sections[0], block.waist.sections[1])


def _no_darts() -> UnknownChoice:
    return UnknownChoice("darts", "princess", ("side",), why="This front is too flat for a princess seam: it has no bust dart to cut through.")


def _square(along: Point) -> Point:
    """Return the direction into the piece, square to an edge that is walked clockwise."""
    return -along.outward()


def _seams(block: Block, bust_point: Point, head: Point, into: Point, side_head: Point, side_into: Point) -> tuple[Path, Path]:
    """Draw both seams; above the bust point the side's curve is fuller or flatter until it is as long as the centre's."""
    dart = block.waist.dart
    if dart is None:
        raise _no_darts()
    lower = [_lower(bust_point, mouth) for mouth in dart.legs]
    fixed = _upper(head, into, bust_point, HANDLE)

    def excess(share: float) -> float:
        return _upper(side_head, side_into, bust_point, share).length() - fixed.length()

    try:
        side = _upper(side_head, side_into, bust_point, root(excess, 0.05, 0.75, name="princess seam"))
    except NoSolution:
        raise UnknownChoice("darts", "princess", ("side", "shoulder"), why="Its two sides can't be made equally long on this body.") from None
    return Path.of(fixed, lower[0]), Path.of(side, lower[1])


def _upper(head: Point, into: Point, bust_point: Point, share: float) -> Cubic:
    reach = share * head.distance(bust_point)
    return Cubic(head, head + into * reach, Point(bust_point.x, bust_point.y - reach), bust_point)


def _lower(bust_point: Point, dart_leg: Path) -> Cubic:
    """Leave the bust point straight down and arrive at the waist along the dart's leg, to which the waist is square."""
    mouth, leg = dart_leg.start, -dart_leg.leaves()
    height = mouth.y - bust_point.y
    return Cubic(bust_point, Point(bust_point.x, bust_point.y + HANDLE * height), mouth - leg * (HANDLE * height), mouth)
