"""The blouse's own list of corners and darts, its worked-out figures and what they say to the cutter."""

from __future__ import annotations

from shapely import LineString, Polygon

from ..blocks.fish_eye import FishEye
from ..body import estimate_warnings
from ..checks import corner_checks, dart_checks, girth_checks, notch_checks, outline_checks, seam_checks
from ..piece import Piece
from ..report import Check, Figure, Girth, Warning_
from ..seam import Seam, first_part, last_part
from ..tolerance import CORNER_SHOULDER_DEG, INCH, SEAM
from .blouse import Blouse
from .dress_checks import dart_corners, slant_warnings
from .sleeve_sewn import sleeve_corners, sleeve_figures

DART_CLEAR = 0.25 * INCH
"""A dart's lines lie at least so far inside the sewing line: closer, there is no cloth to sew it in."""


def checks_of(blouse: Blouse, pieces: dict[str, Piece], seams: tuple[Seam, ...], girths: tuple[Girth, ...]) -> tuple[Check, ...]:
    """Return every check of the draft, passed or not."""
    every = pieces.values()
    return tuple(seam_checks(seams, pieces) + girth_checks(girths) + outline_checks(every) + notch_checks(every) + dart_checks(every)
                 + _fish_eyes(blouse, pieces) + _buttons(blouse) + corner_checks(_corners(blouse, pieces))
                 + corner_checks(_shoulders(blouse, pieces), CORNER_SHOULDER_DEG))


def _fish_eyes(blouse: Blouse, pieces: dict[str, Piece]) -> list[Check]:
    """The legs of each fish-eye dart agree in pairs, and the dart lies inside its piece."""
    found = []
    for name, darts in (("front", blouse.front_darts), ("back", blouse.back_darts)):
        edge = Polygon([(p.x, p.y) for p in pieces[name].net])
        for i, dart in enumerate(darts, start=1):
            differs = max(abs(dart.inner.distance(end) - dart.outer.distance(end)) for end in (dart.top, dart.bottom))
            found.append(Check(f"fish-eye dart {i}: {name}", differs <= SEAM, differs, SEAM))
            line = LineString([(p.x, p.y) for p in (dart.top, dart.outer, dart.bottom, dart.inner, dart.top)])
            short = max(0.0, DART_CLEAR - edge.exterior.distance(line)) if edge.contains(line) else DART_CLEAR
            found.append(Check(f"fish-eye dart {i} inside: {name}", short == 0.0, short, 0.0))
    return found


def _buttons(blouse: Blouse) -> list[Check]:
    """One button sits at the bust, where a front opening gapes first."""
    level = blouse.spec.alterations.get("button_level", blouse.q.front.bust)
    off = min(abs(y - level) for y in blouse.stand.places)
    limit = blouse.stand.button + INCH / 4
    return [Check("a button at the bust point's level", off <= limit, off, limit)]


def _shoulders(blouse: Blouse, pieces: dict[str, Piece]):
    front, back = pieces["front"], pieces["back"]
    yield "shoulder at the armhole", ((front, last_part(front, "shoulder"), first_part(front, "armhole")), (back, "shoulder", first_part(back, "armhole")))
    if blouse.spec.options["neckline"] in ("round", "boat"):
        yield "shoulder at the neck", ((front, "neck", first_part(front, "shoulder")), (back, "neck", "shoulder"))


def _corners(blouse: Blouse, pieces: dict[str, Piece]):
    front, back = pieces["front"], pieces["back"]
    yield "underarm", ((front, last_part(front, "armhole"), first_part(front, "side")), (back, last_part(back, "armhole"), "side"))
    yield "hem at the side", ((front, last_part(front, "side"), "hem"), (back, "side", "hem"))
    yield "hem at the centre back", ((back, "hem", "fold"),)
    yield "neck at the centre back", ((back, "fold", "neck"),)
    yield from dart_corners(front)
    if blouse.sleeve:
        yield from sleeve_corners(blouse.sleeve, pieces["sleeve"])
    if blouse.collar:
        collar = pieces["flat collar" if blouse.collar.kind == "flat" else "collar stand"]
        outer = ("outer edge", "fold") if blouse.collar.kind == "flat" else ("fold", "top")
        yield "collar at the centre back", ((collar, *outer),)


def figure_warnings(blouse: Blouse) -> list[Warning_]:
    """Return what the finished figures say to the cutter."""
    also = ", or leave a slit at the side from hip to hem"
    return slant_warnings(blouse.front, blouse.back, also) + estimate_warnings(blouse.body)


def _total(darts: tuple[FishEye, ...]) -> float:
    return sum(dart.width for dart in darts)


def figures_of(blouse: Blouse) -> tuple[Figure, ...]:
    """Return the worked-out figures a cutter may want to see, mm."""
    q, stand = blouse.q, blouse.stand
    neck = 2 * (blouse.front.neck.length() + blouse.back.neck.length())
    values = [
        ("front longer than back, shoulder to waist", q.d), ("front waist darts", _total(blouse.front_darts)), ("back waist darts", _total(blouse.back_darts)),
        ("taken in at the side, front", q.front_side), ("taken in at the side, back", q.back_side),
        ("bust dart", blouse.front.bust_dart.width if blouse.front.bust_dart else 0.0), ("finished neckline", neck), ("neck of the body", blouse.body["neck"]),
        ("front armhole", blouse.front.armhole.length()), ("back armhole", blouse.back.armhole.length()), ("moved from front to back for the sleeve", blouse.shift),
        ("length from the waist", blouse.below.to_hem), ("button stand beyond the centre", stand.width), ("buttonhole", stand.hole),
    ]
    if blouse.collar:
        values.append(("collar, neck edge, half", blouse.collar.neck.length()))
        values.append(("collar depth", blouse.collar.depth))
    return (*(Figure(name, value) for name, value in values), *(sleeve_figures(blouse.sleeve) if blouse.sleeve else ()))
