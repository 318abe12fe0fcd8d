"""Sleeves: straight, short, fitted, bell, flutter and puff under a set-in cap, and the cap sleeve. Bicep line at y = 0, crown
above it at x = 0."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from ..curve import Cubic, Line
from ..errors import ImpossibleMeasure
from ..offset import Finish
from ..path import Path
from ..piece import Dart, Dimension, Edge, Piece
from ..point import Point
from ..report import LaidOver, Warning_
from ..rules import Rules
from ..tolerance import INCH
from .sleeve_cap import Cap
from .sleeve_fitted import FittedSeams

FLARES = {"bell": 30.0, "flutter": 150.0}
"""Degrees from one underarm seam to the other."""

PUFF = 1.5
STEPS = 48
SHORT_UNDERARM = 2.5 * INCH
FLUTTER_UNDERARM = 1.5 * INCH
ROLLED, HEM_SHARE = 0.25 * INCH, 0.025
"""A flared hem is turned up by at most this share of its radius, or rolled by ¼ in. The drafting method, section 8."""


@dataclass(frozen=True, slots=True)
class Sleeve:
    """A sleeve piece with its cap's halves as lengths, mm.

    `ease` is how much longer its cap is than what it is sewn to; `band` the band that its hem is gathered into; `opening` how
    far its seam stays open above the hem; `covers` how much of front and back armhole it covers, where not all of it.
    """

    kind: str
    piece: Piece
    cap_front: float
    cap_back: float
    ease: float
    band: Piece | None = None
    opening: float = 0.0
    covers: tuple[float, float] | None = None
    laid: tuple[LaidOver, ...] = ()

    @property
    def hem(self) -> Path:
        return self.piece.edge("hem").path

    @property
    def back_seam(self) -> tuple[str, ...]:
        """The names of the back seam's parts, from the underarm down."""
        return tuple(e.name for e in self.piece.edges if e.name.startswith("underarm back"))

    @property
    def wide(self) -> float:
        """The width from the front's underarm (or notch) to the back's, mm."""
        back = self.piece.edge("cap back" if self.covers else "cap")
        return abs(self.piece.edges[0].path.start.x - back.path.end.x)


def hem_level(kind: str, cap: Cap, length: float | None) -> float:
    """Return how far below the bicep line the hem lies; a length is from the shoulder tip."""
    if length is None:
        return FLUTTER_UNDERARM if kind == "flutter" else SHORT_UNDERARM
    level = length - cap.height
    if level < INCH:
        raise ImpossibleMeasure("sleeve.length", length, "A sleeve {value} long ends above the underarm; it must be at least {needed}.",
                                needed=cap.height + INCH)
    return level


def taper_deg(bicep: float, hem: float, level: float) -> float:
    """Return the slant of each sleeve seam from the bicep line to a hem of `hem` mm, `level` below."""
    return math.degrees(math.atan2((bicep - hem) / 2, level))


def tapered(kind: str, cap: Cap, rules: Rules, hem: float, level: float) -> Sleeve:
    """Draw a sleeve that narrows evenly from the bicep line to its hem, square to both seams there."""
    inset = (cap.bicep - hem) / 2
    left, right = Point(-cap.front_width, 0.0), Point(cap.back_width, 0.0)
    foot_left, foot_right = Point(left.x + inset, level), Point(right.x - inset, level)
    return _sleeve(kind, cap, rules, cap.front + cap.back, (Path.of(Line(right, foot_right)),), Path.of(Line(left, foot_left)),
                   _square_hem(foot_right, foot_left, right, left))


def fitted(cap: Cap, rules: Rules, seams: FittedSeams, opening: float) -> Sleeve:
    """Put a fitted sleeve together from its seams; its back seam stays open by `opening` above the wrist."""
    foot_left, foot_right = seams.front.end, seams.back[1].end
    hem = _square_hem(foot_right, foot_left, foot_right - seams.back[1].arrives(), foot_left - seams.front.arrives())
    made = _sleeve("fitted", cap, rules, cap.front + cap.back, seams.back, seams.front, hem, seams.dart)
    return opened(made, opening)


def opened(sleeve: Sleeve, opening: float) -> Sleeve:
    """Return the sleeve with its seam left open by `opening` mm above the hem."""
    return replace(sleeve, opening=opening, piece=replace(sleeve.piece, remarks=("seam left open below the notches",)))


def capped(edges: tuple[Path, Path, Path], rules: Rules, covers: tuple[float, float], ease: float) -> Sleeve:
    """Put a cap sleeve together from its front and back edges and its hem, which is turned narrowly."""
    front, back, hem = edges
    sa, crown = rules["seam_allowance"], front.end
    piece = Piece(
        name="sleeve", title="Cap sleeve", seam_allowance=sa, group="sleeve",
        edges=(Edge("cap front", front, sa), Edge("cap back", back, sa), Edge("hem", hem, ROLLED, Finish.HEM)),
        grain=(Point(0.0, crown.y * 0.8), Point(0.0, 0.0)),
        dimensions=(Dimension(front.start, back.end), Dimension(crown, Point(0.0, 0.0))),
    )
    return Sleeve("cap", piece, front.length(), back.length(), ease, covers=covers)


def _square_hem(right: Point, left: Point, over_right: Point, over_left: Point) -> Path:
    """Return the hem from back to front, square to both seams."""
    width = right.x - left.x
    leave = (right - over_right).unit()
    arrive = (left - over_left).unit()
    first = Point(-leave.y, leave.x) * (width / 3)
    last = Point(arrive.y, -arrive.x) * (width / 3)
    return Path.of(Cubic(right, right + first, left + last, left))


def flared(kind: str, cap: Cap, rules: Rules, flare_deg: float, level: float) -> Sleeve:
    """Spread the sleeve by `flare_deg`: every plumb line turns evenly from one seam to the other, the cap keeps its length."""
    whole = cap.front + cap.back
    total = whole.length()
    count = 2 * STEPS
    old = [whole.at(total * i / count) for i in range(count + 1)]
    turns = [flare_deg * (0.5 - i / count) for i in range(count + 1)]
    edge = [Point(0.0, 0.0)]
    for i in range(count):
        edge.append(edge[-1] + (old[i + 1] - old[i]).turned((turns[i] + turns[i + 1]) / 2))
    hem = [p + Point(0.0, level - q.y).turned(turn) for p, q, turn in zip(edge, old, turns, strict=True)]
    crown = edge[_nearest(old)]
    move = Point(-crown.x, -cap.height - crown.y)
    edge, hem = [p + move for p in edge], [p + move for p in hem]
    foot = Path.through(*reversed(hem))
    made = _sleeve(kind, cap, rules, Path.through(*edge), (Path.through(edge[-1], hem[-1]),), Path.through(edge[0], hem[0]), foot)
    return _with_hem(made, max(ROLLED, HEM_SHARE * foot.length() / math.radians(flare_deg)))


def _nearest(points: list[Point]) -> int:
    return min(range(len(points)), key=lambda i: abs(points[i].x))


def puffed(cap: Cap, rules: Rules, front_notch: float, back_notch: float, level: float) -> Sleeve:
    """Slide the sleeve apart between its notches (by half their distance) and raise the crown: gathers for cap and band."""
    whole = cap.front + cap.back
    first, last = whole.at(front_notch), whole.at(whole.length() - back_notch)
    width = last.x - first.x
    slide, rise = (PUFF - 1.0) * width, PUFF * INCH

    def moved(point: Point) -> Point:
        share = min(1.0, max(0.0, (point.x - first.x) / width))
        smooth = share * share * (3 - 2 * share)
        return Point(point.x + slide * (smooth - 0.5), point.y - rise * math.sin(math.pi * share) ** 2)

    count = 2 * STEPS
    edge = Path.through(*(moved(whole.at(whole.length() * i / count)) for i in range(count + 1)))
    foot_right, foot_left = Point(edge.end.x, level), Point(edge.start.x, level)
    made = _sleeve("puff", cap, rules, edge, (Path.of(Line(edge.end, foot_right)),), Path.of(Line(edge.start, foot_left)),
                   Path.of(Line(foot_right, foot_left)))
    return replace(_with_hem(made, rules["seam_allowance"], Finish.EXTENDED), ease=edge.length() - whole.length())


def _with_hem(sleeve: Sleeve, allowance: float, finish: Finish = Finish.HEM) -> Sleeve:
    edges = tuple(replace(e, allowance=min(e.allowance, allowance), finish=finish) if e.name == "hem" else e for e in sleeve.piece.edges)
    return replace(sleeve, piece=replace(sleeve.piece, edges=edges))


def _sleeve(kind: str, cap: Cap, rules: Rules, edge: Path, back: tuple[Path, ...], front: Path, hem: Path, dart: Dart | None = None) -> Sleeve:
    """Walk the sleeve: cap, back seam (in two where `dart` opens it), hem, front seam."""
    sa = rules["seam_allowance"]
    top = min(edge.polyline(), key=lambda point: point.y)
    seam = (Edge("underarm back", back[0], sa),) if dart is None else (
        Edge("underarm back 1", back[0], sa), Edge("dart 1 a", dart.legs[0]), Edge("dart 1 b", dart.legs[1].reversed()),
        Edge("underarm back 2", back[1], sa))
    foot = back[-1].end
    piece = Piece(
        name="sleeve", title="Sleeve", seam_allowance=sa, group="sleeve", darts=(dart,) if dart else (),
        edges=(
            Edge("cap", edge, sa),
            *seam,
            Edge("hem", hem, min(rules.get("hem", INCH), INCH), Finish.HEM),
            Edge("underarm front", front.reversed(), sa),
        ),
        grain=(Point(0.0, top.y * 0.5), Point(0.0, (dart.point.y if dart else max(foot.y, front.end.y)) * 0.85)),
        dimensions=(Dimension(edge.start, edge.end), Dimension(front.end, foot), Dimension(top, Point(top.x, edge.start.y)),
                    Dimension(back[0].start, foot)),
    )
    return Sleeve(kind, piece, cap.front.length(), cap.back.length(), 0.0)


def check_width(hem: float, bicep: float) -> list[Warning_]:
    """Return a warning where a straight sleeve's hem would be wider than its bicep line."""
    if hem <= bicep:
        return []
    return [Warning_("sleeve-hem-held", "The sleeve's hem was held to its width at the upper arm, {0}.", (bicep,))]
