"""The dress's own list of corners, and the warnings that follow from its finished figures."""

from __future__ import annotations

from ..blocks.bodice import Block
from ..body import estimate_warnings
from ..checks import corner_checks, dart_checks, girth_checks, notch_checks, outline_checks, seam_checks
from ..piece import Piece
from ..report import Check, Figure, Girth, Warning_
from ..seam import Seam, first_part, last_part
from ..tolerance import CORNER_SHOULDER_DEG, SLANT_WARNED_DEG
from .basque_part import basque_pulls
from .dress import Dress
from .skirt_seams import skirt_corners
from .sleeve_sewn import sleeve_corners, sleeve_figures


def checks_of(dress: Dress, pieces: dict[str, Piece], seams: tuple[Seam, ...], girths: tuple[Girth, ...]) -> tuple[Check, ...]:
    """Return every check of the draft, passed or not."""
    every = pieces.values()
    return tuple(seam_checks(seams, pieces) + girth_checks(girths) + outline_checks(every) + notch_checks(every) + dart_checks(every)
                 + corner_checks(_corners(dress, pieces)) + corner_checks(_shoulders(dress, pieces), CORNER_SHOULDER_DEG))


def _shoulders(dress: Dress, pieces: dict[str, Piece]):
    front, back = pieces["front"], pieces["back"]
    at_tip = pieces["side front"] if dress.panels and dress.panels.side_shoulder else front
    yield "shoulder at the armhole", ((at_tip, last_part(at_tip, "shoulder"), first_part(at_tip, "armhole")), (back, "shoulder", first_part(back, "armhole")))
    if dress.spec.options["neckline"] in ("round", "boat"):
        yield "shoulder at the neck", ((front, "neck", first_part(front, "shoulder")), (back, "neck", "shoulder"))


def _corners(dress: Dress, pieces: dict[str, Piece]):
    front, back = pieces["front"], pieces["back"]
    outer, lower = pieces["side front"] if dress.panels else front, dress.front.lower_edge
    yield "underarm", ((outer, last_part(outer, "armhole"), first_part(outer, "side")), (back, last_part(back, "armhole"), "side"))
    yield f"{lower} at the side", ((outer, last_part(outer, "side"), first_part(outer, lower)), (back, "side", first_part(back, lower)))
    if dress.spec.options["neckline"] != "v":
        yield "neck at the fold", ((front, "fold", "neck"),)
    if dress.panels:
        head = "armhole" if dress.panels.centre_armhole else "shoulder"
        yield "head of the princess seam", ((front, last_part(front, head), "princess seam"), (outer, "princess seam", first_part(outer, head)))
        yield f"{lower} at the princess seam", ((front, "princess seam", lower), (outer, lower, "princess seam"))
    if dress.sleeve:
        yield from sleeve_corners(dress.sleeve, pieces["sleeve"])
    yield from dart_corners(front)
    yield from dart_corners(back)
    if dress.skirt:
        yield from skirt_corners(pieces, pointed=bool(dress.basque))


def dart_corners(piece: Piece):
    """Yield the corner that an edge makes over each dart in it, once the dart is sewn."""
    names = [e.name for e in piece.edges]
    for i in range(1, len(piece.darts) + 1):
        a, b = names.index(f"dart {i} a"), names.index(f"dart {i} b")
        edge = names[a - 1].rpartition(" ")[0]
        yield f"{edge} over dart {i}, {piece.name}", ((piece, names[a - 1], names[a]), (piece, names[b], names[b + 1]))


def figure_warnings(dress: Dress) -> list[Warning_]:
    """Return what the finished figures say to the cutter."""
    pulls = [warning for where, block in (("front", dress.front), ("back", dress.back)) if block.below for warning in basque_pulls(where, block.below.short)]
    return slant_warnings(dress.front, dress.back) + pulls + estimate_warnings(dress.body)


def slant_warnings(front: Block, back: Block, also: str = "") -> list[Warning_]:
    """Return a warning for each side that slants too far to be sewn without a stay; `also` is what else would do."""
    found = []
    for piece, block in (("front", front), ("back", back)):
        slant = max(part.greatest_slant_deg() for part in block.side)
        if slant > SLANT_WARNED_DEG:
            found.append(Warning_("steep-slant", f"The side of the {piece} slants {slant:.0f}° from straight down: it will stretch when "
                                  f"sewn. Stay it with tape{also}."))
    return found


def figures_of(dress: Dress) -> tuple[Figure, ...]:
    """Return the worked-out figures a cutter may want to see, mm."""
    q = dress.q
    neck = 2 * (dress.front.neck.length() + dress.back.neck.length()) + dress.closing.gap
    values = [("front longer than back, shoulder to waist", q.d), ("front waist dart", dress.front.waist.dart.width if dress.front.waist.dart else 0.0),
              ("back waist dart", dress.back.waist.dart.width if dress.back.waist.dart else 0.0), ("taken in at the side, front", q.front_side), ("taken in at the side, back", q.back_side),
              ("bust dart", dress.front.bust_dart.width if dress.front.bust_dart else 0.0), ("finished neckline", neck),
              ("neck of the body", dress.body["neck"]), ("front armhole", dress.front.armhole.length()),
              ("back armhole", dress.back.armhole.length()), ("moved from front to back for the sleeve", dress.shift)]
    return (*(Figure(name, value) for name, value in values), *(sleeve_figures(dress.sleeve) if dress.sleeve else ()))
