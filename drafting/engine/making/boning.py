"""Casings and bones, and the ribbon that holds a boned top to the waist."""

from __future__ import annotations

from ..draft import Draft
from ..tolerance import INCH
from ..act import Act, After

CASING, BONE, RIBBON = 25.0, 26.0, 50.0
RIBBON_TO_TURN = 3 * INCH
RIBBON_UNDER = 0.5 * INCH
"""The waist stay is this much shorter than the waist, so that it carries the weight. Common practice, no source."""


def boning(draft: Draft) -> list[Act]:
    """Return casings, then bones, then the waist stay; without bones only the stay of a waist that a skirt hangs from."""
    if not draft.bones:
        return _stay(draft)
    number = sum(bone.count for bone in draft.bones)
    pieces = tuple(dict.fromkeys(name for bone in draft.bones for name in (bone.piece, *bone.pieces)))
    lengths = [bone.bone for bone in draft.bones]
    spread = "{0} to {1}" if max(lengths) - min(lengths) > 1.0 else "{0} each"
    acts = [
        Act("casings", "casing", f"Casings for the {number} bones of the list, {{0}} together: stitch them to the allowances, one end open.",
            (sum(bone.casing * bone.count for bone in draft.bones),), (), pieces, rank=CASING),
        Act("bones", "bone", f"Cut {number} bones to the list, {spread}: tip and cap both ends of each, slide them in and close the casings.",
            (min(lengths), max(lengths)), (), pieces, (After("casings", "bones go into their casings"),), BONE),
    ]
    if "waist" in draft.body.measures:
        acts.append(Act("waist stay", "stay", f"Waist stay: ribbon of {{0}} finished, hooked before the closing, {_caught(draft)}.",
                        (draft.body["waist"] - draft.rules.get("waist_stay", RIBBON_UNDER),), (), (),
                        (After("bones", "it is caught over the casings"),), RIBBON))
    return acts


def _stay(draft: Draft) -> list[Act]:
    """Return the waist stay for which the garment laid a ribbon ready; it is that ribbon less what is turned under."""
    ribbon = next((each.amount for each in draft.materials if each.item.startswith("waist stay")), 0.0)
    if not ribbon:
        return []
    return [Act("waist stay", "stay", f"Waist stay: ribbon of {{0}} finished, hooked at the closing, {_caught(draft)}.",
                (ribbon - RIBBON_TO_TURN,), (), (), (After("close", "it is hooked where the closing is"),), RIBBON)]


def _caught(draft: Draft) -> str:
    """Return what the stay hangs on: a waist seam's allowance, or, where none runs round the waist, those of the upright seams."""
    edges = {edge for seam in draft.seams for _, edge in (*seam.a, *seam.b)}
    if any(edge.startswith("waist") for edge in edges) and not any(edge.startswith("basque edge") for edge in edges):
        return "caught to the allowance at the waist only"
    return "caught at the waist to the allowances of the upright seams only"
