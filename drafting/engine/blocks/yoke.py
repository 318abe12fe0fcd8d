"""Yokes over a bustier: full (neck to cups, on the fold) or framing the neck (a pair, on the side cups only)."""

from __future__ import annotations

from ..curve import Line
from ..errors import UnknownChoice
from ..path import Path
from ..piece import Dimension, Edge, Piece, upright_grain
from ..point import Point
from ..rules import Rules
from ..tolerance import INCH
from .armhole import Armhole
from .neck import LEAST_FRAME, Frame, Shoulder, shoulder_line


def full_yoke(rules: Rules, seam: Shoulder, neck: Path, hole: Armhole, top: float, centre_edge: Path) -> Piece:
    """Draw half the full yoke, on the fold: it ends where the cups' top edges begin, upper dart closed."""
    sa, arm = rules["seam_allowance"], hole.path.split_at(hole.at_level(top))[0]
    lower = Path.of(Line(arm.end, centre_edge.end)) + centre_edge.reversed()
    if lower.end.y - neck.start.y < INCH:
        raise UnknownChoice("yoke", "full", ("none", "neck-frame"), why="The neckline comes within an inch of the top edge.")
    return Piece(
        name="yoke", title="Yoke", on_fold=True, seam_allowance=sa,
        edges=(
            Edge("neck", neck, sa),
            Edge("shoulder", shoulder_line(seam), sa),
            Edge("armhole", arm, sa),
            Edge("yoke seam", lower, sa),
            Edge("fold", Path.through(lower.end, neck.start)),
        ),
        grain=upright_grain(seam.neck.x * 0.6, neck.start.y, top, above=0.3, below=0.0),
        dimensions=(Dimension(seam.neck, seam.tip), Dimension(Point(0.0, top), Point(arm.end.x, top)),
                    Dimension(neck.start, lower.end)),
    )


def framing_yoke(rules: Rules, seam: Shoulder, frame: Frame, hole: Armhole, top: float) -> Piece:
    """Draw one half of a yoke that frames the neck; it sits on the side cup from the seam head to the armhole."""
    sa, arm = rules["seam_allowance"], hole.path.split_at(hole.at_level(top))[0]
    head = frame.front.end
    if arm.end.x - head.x < LEAST_FRAME:
        raise UnknownChoice("yoke", "neck-frame", ("full", "none"), why="Between cup seam and armhole there is too little edge "
                            "to set it on.")
    x = (head.x + arm.end.x) / 2
    return Piece(
        name="yoke", title="Yoke", seam_allowance=sa,
        edges=(
            Edge("shoulder", shoulder_line(seam, frame.middle), sa),
            Edge("armhole", arm, sa),
            Edge("yoke seam", Path.of(Line(arm.end, head)), sa),
            Edge("neck", frame.front.reversed(), sa),
        ),
        grain=upright_grain(x, frame.middle.y, top, above=0.3, below=0.15),
        dimensions=(Dimension(frame.middle, seam.tip), Dimension(head, arm.end)),
    )
