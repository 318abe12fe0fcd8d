"""The last acts: hems, pressing, and the check against the measures."""

from __future__ import annotations

from ..draft import Draft
from ..piece import Piece
from ..act import Act, After, listed
from .closing import Closing
from .joint import first, has, is_lining
from .words import both

SLEEVE_HEM, HEM, PRESS = 47.0, 60.0, 99.0
HANGS = ("skirt",)
BANDS = "sleeve bands, each"


def hems(draft: Draft) -> list[Act]:
    """Return one act for the hems of each part: what hangs is levelled first, a sleeve with a band is gathered into it."""
    sewn = {ref for seam in draft.seams for ref in (*seam.a, *seam.b)}
    by_group: dict[str, list[Piece]] = {}
    for piece in draft.pieces:
        if not is_lining(piece) and has(piece, "hem") and (piece.name, first(piece, "hem").name) not in sewn:
            by_group.setdefault(piece.group, []).append(piece)
    return [_hem(draft, group, found) for group, found in by_group.items()]


def _hem(draft: Draft, group: str, pieces: list[Piece]) -> Act:
    names = tuple(p.name for p in pieces)
    band = next((m for m in draft.materials if m.item == BANDS), None)
    if group == "sleeve" and band:
        return Act("hem: sleeve", "gather", "Gather the sleeve's hem into its band, {0} round.", (band.amount,), (), names, rank=45.2)
    deep = first(pieces[0], "hem").allowance
    if group in HANGS:
        length = draft.spec.options.get("skirt.length")
        level = ("level the hem at {1} from the waist at the centre front" if isinstance(length, (int, float)) and length else "level the hem")
        figures = (deep, float(length)) if "{1}" in level else (deep,)
        return Act(f"hem: {group}", "hem", f"Hang the {_garment(draft)} a day, {level}, turn up {{0}} and sew it by hand.", figures, (), names, rank=HEM)
    return Act(f"hem: {group}", "hem", f"Hems of the {listed(both(p) for p in pieces)}: turn up {{0}} and sew by hand.", (deep,), (), names,
               rank=SLEEVE_HEM if group == "sleeve" else HEM)


def _garment(draft: Draft) -> str:
    if "gown" in draft.spec.kind:
        return "gown"
    return "dress" if any(p.group == "top" for p in draft.pieces) else "skirt"


def pressing(draft: Draft, closing: Closing, others: list[Act]) -> Act:
    """Return the last act of all."""
    above = "hook and bar to the waistband" if any(p.name == "waistband" for p in draft.pieces) else "hook and eye above the zip"
    hook = {"zip": f", sew a {above}", "lacing": ", sew on hooks"}.get(closing.means, "")
    return Act("press", "press", f"Press, check against the measures{hook}.", after=tuple(After(act.key, "") for act in others), rank=PRESS)
