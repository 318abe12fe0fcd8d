"""The gown's own list of corners, and the warnings that follow from its finished figures."""

from __future__ import annotations

from ..body import estimate_warnings
from ..checks import corner_checks, dart_checks, girth_checks, notch_checks, outline_checks, seam_checks
from ..piece import Piece
from ..report import Check, Girth, Warning_
from ..seam import Seam
from ..tolerance import INCH, SLANT_WARNED_DEG
from .basque_part import basque_pulls
from .bustier_gown import Gown
from .gown_girths import chest_slack
from .skirt_seams import skirt_corners

Slants = tuple[tuple[str, str, float, float], ...]

CHEST_SLACK = 1.0 * INCH
TOP_EDGE_SLACK = 0.25 * INCH


CUP_SLANT_DEG = 45.0
"""A cup seam slants more than a side seam must: it lies over the bust, and is stayed. Judgement."""


def checks_of(gown: Gown, pieces: tuple[Piece, ...], seams: tuple[Seam, ...], girths: tuple[Girth, ...]) -> tuple[Check, ...]:
    """Return every check of the draft, passed or not."""
    by_name = {piece.name: piece for piece in pieces}
    return tuple(
        seam_checks(seams, by_name) + girth_checks(girths) + outline_checks(pieces) + notch_checks(pieces)
        + dart_checks(pieces) + corner_checks(_corners(gown, by_name))
    )


def _corners(gown: Gown, by_name: dict[str, Piece]):
    made = gown.outside
    centre, over, side, back = by_name["centre cup"], by_name[made.cups.over_bust.name], by_name["side cup"], by_name["back"]
    band, lower = by_name[made.band.pieces[-1].name], made.band.lower_edge
    yield "top edge at the cup seam", ((centre, "top", "cup seam"), (over, "cup seam", "top"))
    yield "under-bust at the cup seam", ((centre, "cup seam", "under-bust"), (over, "under-bust", "cup seam"))
    if made.cups.middle:
        yield "top edge at the side cup seam", ((over, "top", "side cup seam"), (side, "side cup seam", "top"))
        yield "under-bust at the side cup seam", ((over, "side cup seam", "under-bust"), (side, "under-bust", "side cup seam"))
    yield "underarm", ((side, "armhole", "side"), (back, "armhole", "side"))
    yield f"{lower} at the side", ((band, "side", lower), (back, "side", made.back.lower_edges[0].name))
    if gown.basque:
        yield from _basque_corners(gown, by_name)
    if gown.yoke:
        yoke = by_name["yoke"]
        yield "armhole at the yoke", ((yoke, "armhole", "yoke seam"), (side, "top", "armhole"))
        yield "shoulder at the armhole", ((yoke, "shoulder", "armhole"), (back, "shoulder", "armhole"))
        yield "shoulder at the neck", ((yoke, "neck", "shoulder"), (back, "neck", "shoulder"))
    if gown.spec.options["top_edge"] == "straight":
        yield "top edge at the fold", ((centre, "fold", "top"),)
    if gown.skirt:
        yield from skirt_corners(by_name, pointed=bool(gown.basque))


def _basque_corners(gown: Gown, by_name: dict[str, Piece]):
    """The basque's edge runs on across the band seam and the closed back dart, and square over the centre back."""
    back = by_name["back"]
    if gown.outside.band.basque.edge.parted:
        band, outer = by_name["band"], by_name["side band"]
        yield "basque edge at the band seam", ((band, "band seam", "basque edge"), (outer, "basque edge", "band seam"))
    if back.darts:
        yield "basque edge over the back dart", ((back, "basque edge 1", "dart 1 a"), (back, "dart 1 b", "basque edge 2"))
    yield "basque edge at the centre back", ((back, back.edges[-2].name, back.edges[-1].name),)


def figure_warnings(gown: Gown, slanting: Slants) -> list[Warning_]:
    """Return what the finished figures say to the cutter."""
    found = []
    slack = chest_slack(gown)
    if slack > CHEST_SLACK:
        found.append(Warning_("chest-loose", "The chest line comes out {0} looser than meant. Pin the top edge at the "
                              "first fitting.", (slack,)))
    elif slack > TOP_EDGE_SLACK and not gown.yoke:
        found.append(Warning_("top-edge-loose", "The finished top edge is {0} looser than the body there: take it in at the "
                              "cup seams, or hold it with elastic.", (slack,)))
    for piece, edge, slant, most in slanting:
        if slant > most:
            found.append(Warning_("steep-slant", f"The {edge} of the {piece} slants {slant:.0f}° from straight down: it will "
                                  "stretch when sewn. Stay it with tape."))
    if gown.shape.rest:
        behind = "the back dart" if gown.side_opening else "the centre back"
        found.append(Warning_("band-in-two", "The waist is taken in more than the side seam can hold: {0} a quarter goes "
                              f"into a seam through the band and {behind}.", (abs(gown.shape.rest),)))
    return found + _basque_warnings(gown) + estimate_warnings(gown.body)


def _basque_warnings(gown: Gown) -> list[Warning_]:
    if not gown.basque:
        return []
    made, found = gown.outside, []
    edge = made.band.basque.edge
    if edge.parted:
        found.append(Warning_("basque-in-two", "Under the cup seam the basque needs {0} more than its ease gives: the band is cut in two there, and each "
                              "part springs out by {1}.", (edge.spring, edge.spring / 2)))
    return found + basque_pulls("front", edge.short) + basque_pulls("back", made.back.short)


def slants(gown: Gown) -> Slants:
    """Return (piece, edge, greatest slant in degrees, limit) for the seams that run down the body."""
    cups, back = gown.outside.cups, gown.outside.back.piece
    return tuple(
        (piece.name, edge, piece.edge(edge).path.greatest_slant_deg(), most)
        for piece, edge, most in (
            (cups.centre, "cup seam", CUP_SLANT_DEG), (cups.over_bust, "cup seam", CUP_SLANT_DEG),
            *(((cups.middle, "side cup seam", CUP_SLANT_DEG),) if cups.middle else ()),
            (cups.side, "side", SLANT_WARNED_DEG), (back, "side", SLANT_WARNED_DEG),
        )
    )
