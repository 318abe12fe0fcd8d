"""Lays for every cloth of an order: which piece is cut from what, how often, and how each cloth is laid.

The one way in for the job sheet, the web and the tests.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Mapping
from typing import Any

from drafting.cloth_brief import HALF_INCH_MM, ClothBrief, Motif, read_cloths
from drafting.engine.lay import Lay, LayCloth, LayError, LayPiece, pieced, plan
from drafting.engine.lay.cloth import BEST, EIGHTH_YARD, FOLDED, TEN_CM
from drafting.engine.lay.errors import TooWide
from drafting.order_section import Section
from workshop.length import print_cloth, print_length

Warning_ = dict[str, str]
Seam = tuple[str, str]
STRAIGHT = 1e-6
"""A grain line that leans less than this (as a share of its length) runs along the cloth as drawn."""


def lays_for(order_file: Mapping[str, Any], result: Mapping[str, Any], *, seconds: float, **how: Any) -> list[dict]:
    """The result file's `lays[]`: one for each cloth that something is cut from and that can be laid. See `lays_and_warnings`."""
    return lays_and_warnings(order_file, result, seconds=seconds, **how)[0]


def lays_and_warnings(
    order_file: Mapping[str, Any],
    result: Mapping[str, Any],
    *,
    seconds: float,
    tries: int | None = None,
    seed: int = 1,
    step: float | None = None,
    progress: Callable[[str, int, float], object] | None = None,
    stop: Callable[[], bool] | None = None,
    wall: bool = True,
    seam: Seam | None = None,
) -> tuple[list[dict], list[Warning_]]:
    """Return the lays of an order and what is to be said about them; `seconds` of CPU are shared by its cloths.

    `progress(cloth, tries, length)` tells how a cloth goes. `step` is the shop's step, mm: ⅛ yd or 10 cm unless given.
    `tries` ends each lay by count: with seconds to spare and `wall` off, the same order gives the same lays anywhere.
    `seam`, a piece's name and "across" or "along", lays that piece in two parts.
    """
    unit = order_file["units"]
    how = {"seed": seed, "stop": stop, "wall": wall, "tries": tries}
    cloths = [(cloth, pieces) for cloth in cloths_of(order_file) if (pieces := with_seam(pieces_from(cloth, result), seam))]
    all_pieces = sum(len(pieces) for _, pieces in cloths)
    lays, warnings = [], []
    for cloth, pieces in cloths:
        share = seconds * len(pieces) / all_pieces
        tell = (lambda tries, length, name=cloth.name: progress(name, tries, length)) if progress else None
        try:
            lay = lay_pieces(cloth, pieces, unit, step, seconds=share, progress=tell, **how)
        except LayError as bad:
            text = bad.sentence(lambda mm: print_length(mm, unit, with_unit=True))
            warnings.append({"code": "no-lay", "text": f"{cloth.name} is not laid out. {text}"})
            continue
        lays.append(lay.as_result())
        warnings.extend(_short(lay, unit))
        warnings.extend(_motifs_of_no_piece(cloth, pieces))
    return lays, warnings


def cloths_of(order_file: Mapping[str, Any]) -> tuple[ClothBrief, ...]:
    """The cloths of an order file that has been read before."""
    return read_cloths(Section({"cloths": order_file["cloths"]}, "", order_file["units"], []))


def pieces_from(cloth: ClothBrief, result: Mapping[str, Any]) -> tuple[LayPiece, ...]:
    """What is cut from this cloth: each outline with its count, the grain along the cloth."""
    found: list[LayPiece] = []
    for piece in result["pieces"]:
        for cut in piece["cut"]:
            if cut["cloth"] == cloth.name:
                motif = next((motif for motif in cloth.motifs if motif.piece == piece["name"]), None)
                found.append(_lay_piece(piece, cut, match=piece["name"] in cloth.match, motif=motif))
    return tuple(found)


def with_seam(pieces: tuple[LayPiece, ...], seam: Seam | None) -> tuple[LayPiece, ...]:
    """The pieces with the one that `seam` names in two parts; as they are where it can't be."""
    if seam is None:
        return pieces
    found: list[LayPiece] = []
    for piece in pieces:
        found += (pieced(piece, seam[1]) if piece.name == seam[0] else None) or (piece,)
    return tuple(found)


def _lay_piece(piece: Mapping[str, Any], cut: Mapping[str, Any], *, match: bool, motif: Motif | None) -> LayPiece:
    outline = [(float(x), float(y)) for x, y in cut.get("cut_line") or piece["cut_line"]]
    lean = _lean(piece["grain"])
    on_fold = piece["on_fold"]
    if on_fold and lean:  # its fold is not the cloth's: it is cut whole
        outline = [*outline, *((-x, y) for x, y in reversed(outline) if x > STRAIGHT)]
        on_fold = False
    point = _motif_point(piece, motif) if motif else None
    if lean:
        outline = [_turned(corner, lean) for corner in outline]
        point = _turned(point, lean) if point else None
    paired = not piece["on_fold"] and piece["side"] == "both" and cut["count"] > 1
    return LayPiece(
        name=piece["name"],
        outline=tuple(outline),
        count=cut["count"],
        on_fold=on_fold,
        mirror="pair" if paired else "never",
        match=match or motif is not None,
        motif=point,
        singly=motif is not None,
    )


def _motif_point(piece: Mapping[str, Any], motif: Motif) -> tuple[float, float]:
    """Where on the piece the motif stands, in the draft's frame, mm: from its sewing line's inner edge and top."""
    xs, ys = zip(*piece["net"], strict=True)
    inner, top = (0.0 if piece["on_fold"] else min(xs)), min(ys)
    if motif.at:
        return inner + float(motif.at[0].mm), top + float(motif.at[1].mm)
    return (0.0 if piece["on_fold"] else (inner + max(xs)) / 2), (top + max(ys)) / 2


def _lean(grain: list[list[float]]) -> float:
    """How far the drawn grain leans from straight down, radians; 0 for a grain that runs straight down or up."""
    (x0, y0), (x1, y1) = grain
    along = math.hypot(x1 - x0, y1 - y0)
    return 0.0 if abs(x1 - x0) <= STRAIGHT * along else math.atan2(x1 - x0, y1 - y0)


def _turned(point: tuple[float, float], lean: float) -> tuple[float, float]:
    x, y = point
    return x * math.cos(lean) - y * math.sin(lean), x * math.sin(lean) + y * math.cos(lean)


def lay_cloth(cloth: ClothBrief, unit: str, layout: str, step: float | None = None) -> LayCloth:
    """The cloth as the planner takes it; raises BadCloth."""
    return LayCloth(
        width=float(cloth.width.mm),
        selvedge=float(cloth.selvedge.mm if cloth.selvedge else HALF_INCH_MM),
        layout=layout,
        one_way=cloth.one_way,
        repeat=float(cloth.repeat.mm) if cloth.repeat else 0.0,
        repeat_across=float(cloth.repeat_across.mm) if cloth.repeat_across else 0.0,
        length=float(cloth.on_hand.mm) if cloth.on_hand else None,
        flaws=tuple(tuple((float(x.mm), float(y.mm)) for x, y in flaw) for flaw in cloth.flaws),
        shrink=float(cloth.shrink or 0.0),
        name=cloth.name,
        first_motif=float(cloth.first_motif.mm) if cloth.first_motif else 0.0,
        step=step or (EIGHTH_YARD if unit == "in" else TEN_CM),
    )


def lay_pieces(cloth: ClothBrief, pieces: tuple[LayPiece, ...], unit: str, step: float | None, **how: Any) -> Lay:
    """Lay one cloth as it asks for; where it asks for nothing: folded if a piece is on the fold, and open if that is too narrow."""
    on_fold = any(piece.on_fold for piece in pieces)
    layout = cloth.layout or (FOLDED if on_fold else BEST)
    try:
        return plan(lay_cloth(cloth, unit, layout, step), pieces, stop_when_it_fits=False, **how)
    except TooWide:
        if cloth.layout or layout != FOLDED:
            raise
        return plan(lay_cloth(cloth, unit, "open", step), pieces, stop_when_it_fits=False, **how)


def _motifs_of_no_piece(cloth: ClothBrief, pieces: tuple[LayPiece, ...]) -> Iterator[Warning_]:
    names = {piece.name for piece in pieces}
    for motif in cloth.motifs:
        if motif.piece not in names:
            text = f"{cloth.name}: a motif is to stand on “{motif.piece}”, which is not cut from it. Name one of: {', '.join(sorted(names))}."
            yield {"code": "motif-of-no-piece", "text": text}


def _short(lay: Lay, unit: str) -> Iterator[Warning_]:
    if lay.cloth.length is None or lay.fits_on_hand:
        return
    there, takes = print_cloth(lay.cloth.length, unit), print_cloth(lay.needs, unit)
    least = print_cloth(lay.at_least / (1 - lay.cloth.shrink), unit)
    if lay.fits_on_hand is False:
        text = f"{lay.cloth.name}: {there} in hand can't be enough. At least {least} is needed; this lay takes {takes}."
        yield {"code": "cloth-not-enough", "text": text}
    else:
        text = f"{lay.cloth.name}: no lay was found within the {there} in hand. This one takes {takes}; at least {least} is needed."
        yield {"code": "no-lay-found", "text": text}
