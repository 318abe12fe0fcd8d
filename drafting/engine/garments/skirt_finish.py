"""How a skirt ends at the waist: a band, a facing, or turned onto petersham ribbon inside."""

from __future__ import annotations

import math
from collections.abc import Mapping

from ..curve import arc
from ..errors import UnknownChoice
from ..path import Path
from ..piece import Dimension, Edge, Piece
from ..point import Point
from ..report import Material
from ..rules import Rules
from ..seam import Seam
from ..spec import Choice, Option
from ..tolerance import INCH
from ..zips import zip_to_buy
from .skirt_part import Skirt
from .skirt_seams import BACKS, FRONTS, halves_of, waist_refs

BAND_DEPTH = 1.25 * INCH
BAND_OVERLAP = 1.25 * INCH
FACING_DEPTH = 2.5 * INCH
RIBBON_TO_TURN = 1.5 * INCH
"""Petersham is cut longer than the waist by this, to turn in both its ends. Common practice, no source."""

WAIST_FINISH = Option("waist_finish", "Waist finished with", (
    Choice("band", "a waistband"), Choice("facing", "a facing"), Choice("petersham", "petersham ribbon inside")), "band")


def waistband(rules: Rules, waist: float) -> Piece:
    """Draw the band: its `waist` edge is sewn to the skirt; the overlap, its other edge and its ends are not."""
    sa, depth = rules["seam_allowance"], 2 * BAND_DEPTH
    a, b, c = Point(0.0, 0.0), Point(waist + BAND_OVERLAP, 0.0), Point(waist + BAND_OVERLAP, depth)
    d, e = Point(waist, depth), Point(0.0, depth)
    return Piece(
        name="waistband", title="Waistband", seam_allowance=sa, group="skirt",
        edges=(Edge("inner edge", Path.through(a, b), sa), Edge("end", Path.through(b, c), sa), Edge("overlap", Path.through(c, d), sa),
               Edge("waist", Path.through(d, e), sa), Edge("other end", Path.through(e, a), sa)),
        grain=(Point(waist * 0.1, depth / 2), Point(waist * 0.9, depth / 2)),
        dimensions=(Dimension(a, b), Dimension(b, c)), remarks=("fold along the middle",),
    )


def check_finish(finish: str, kind: str) -> None:
    """Raise UnknownChoice for a gathered skirt without a band: nothing else holds its gathers to the waist."""
    if kind == "gathered" and finish != "band":
        raise UnknownChoice("waist_finish", finish, ("band",), why="A gathered skirt is gathered onto a band.")


def facings(made: Skirt, rules: Rules) -> tuple[Piece, Piece]:
    """Return front and back facing, drawn along the waist with darts and gores closed; edge for edge with the skirt."""
    pieces = {piece.name: piece for piece in made.pieces}
    return (_facing(pieces, FRONTS, "skirt front facing", "Skirt front facing", rules),
            _facing(pieces, BACKS, "skirt back facing", "Skirt back facing", rules))


def _facing(pieces: Mapping[str, Piece], half: tuple[str, ...], name: str, title: str, rules: Rules) -> Piece:
    """Every stroke of the waist is an arc: laid end to end they are the closed waist, and arcs of the same turn lie inside it."""
    sa, at, heading = rules["seam_allowance"], Point(0.0, 0.0), 0.0
    upper, lower, below = [], [], Point(0.0, FACING_DEPTH)
    for piece in halves_of(pieces, half):
        for edge in piece.edges:
            for stroke in edge.path.strokes if edge.name.startswith("waist") else ():
                turn = math.remainder(stroke.direction(1.0).angle_deg - stroke.direction(0.0).angle_deg, 360.0)
                length = stroke.length()
                upper += arc(at, heading, turn, length)
                lower += arc(below, heading, turn, length - math.radians(turn) * FACING_DEPTH)
                at, below, heading = upper[-1].end, lower[-1].end, heading + turn
    waist, outer, on_fold = Path(tuple(upper)), Path(tuple(lower)), half is FRONTS
    centre = Path.through(outer.start, waist.start)
    last = Edge("fold", centre) if on_fold else Edge("centre back", centre, rules["centre_back_allowance"])
    return Piece(
        name=name, title=title, on_fold=on_fold, seam_allowance=sa, group="facing",
        edges=(Edge("waist", waist, sa), Edge("side", Path.through(at, below), sa), Edge("outer edge", outer.reversed(), 0.25 * sa), last),
        grain=(Point(0.12 * at.x, 0.2 * FACING_DEPTH), Point(0.12 * at.x, 0.8 * FACING_DEPTH)),
        dimensions=(Dimension(waist.start, outer.start),), remarks=("neaten the outer edge",),
    )


def finish_seams(finish: str, made: Skirt, pieces: Mapping[str, Piece]) -> list[Seam]:
    """Return the seams of the band, or of the facings; ribbon is sewn to the skirt's own waist."""
    front, back = waist_refs(pieces, FRONTS), waist_refs(pieces, BACKS)
    if finish == "band":
        both = (*front, *back)
        return [Seam("waistband", (("waistband", "waist"),), (*both, *both), 2 * sum(made.waist_ease))]
    if finish == "facing":
        return [Seam("waist, front facing", front, (("skirt front facing", "waist"),)),
                Seam("waist, back facing", back, (("skirt back facing", "waist"),)),
                Seam("side, facings", (("skirt front facing", "side"),), (("skirt back facing", "side"),))]
    return []


def finish_materials(finish: str, made: Skirt, waist: float) -> tuple[Material, ...]:
    """Return the opening's zip, and what the waist's finish needs. Common practice, no source."""
    zip_ = Material("zip", zip_to_buy(made.opening), "mm", 1)
    if finish == "band":
        return (zip_, Material("hook and bar", 1, "pieces", 1))
    if finish == "petersham":
        return (zip_, Material("petersham ribbon, 1 in wide", waist + RIBBON_TO_TURN, "mm", 1), Material("hook and eye above the zip", 1, "pieces", 1))
    return (zip_, Material("hook and eye above the zip", 1, "pieces", 1))
