"""Lining and facings as acts: making them up, joining them to the outside, and what is bound where there is neither."""

from __future__ import annotations

from collections.abc import Sequence

from ..draft import Draft
from ..piece import Edge
from ..tolerance import INCH
from ..act import Act, After, listed
from .closing import Closing, unsewn
from .joint import Joint, first, has, is_lining, stem
from .words import both, called

MAKE_UP, JOIN, FELL, FACINGS, FACE = 40.0, 41.0, 42.0, 43.0, 45.0
SMALLER = 0.125 * INCH
"""A lining cut by the outside's own pieces is sewn this much smaller at neck and armholes, so that it rolls inward."""

RAW = {"neck": "neck", "top": "top edge", "armhole": "armholes", "waist": "waist edge", "front edge": "front edges"}
"""Edges that must be finished if nothing is sewn to them, in words."""


def lining(draft: Draft, joints: Sequence[Joint], closing: Closing) -> list[Act]:
    """Return the acts of the lining, in the order of its own seams; `joints` are all of the draft's, sorted."""
    lined = [p for p in draft.pieces if is_lining(p) or any(c.role == "lining" for c in p.cuts)]
    lined = [p for p in lined if p.name != "modesty panel"]
    if not lined:
        return []
    own = [joint for joint in joints if joint.layer == "lining" and not joint.is_dart]
    groups = {joint.group_of(name) for joint in joints for name in joint.piece_names}
    acts = [_make_up(lined, own, joints)]
    between = [joint for joint in joints if joint.layer == "between" and "lining" in joint.layers]
    made = After("lining", "the lining is made up first")
    if not between and groups != {"skirt"}:
        edges = listed(word for word in (RAW[e] for e in ("neck", "armhole", "top")) if any(RAW[e2] == word for e2 in _raw(draft)))
        if edges:
            acts.append(Act("join lining", "join lining", f"Lining to outside at the {edges}, right sides together: ease the outside onto it, so that "
                            "the seam rolls inward. Grade, clip, understitch.", (), (), tuple(p.name for p in lined), (made,), JOIN))
    whole = tuple(p.name for p in lined)
    joined = (made, *(After(f"stitch: {joint.name}", "it hangs from that seam") for joint in between),
              After("join lining", "it hangs from that seam"),
              *(() if closing.is_sewn_on else (After("close", "it is felled to the closing"),)))
    shorter = _shorter(draft)
    if groups == {"skirt"} or not any(p.group == "top" for p in draft.pieces):
        text, joined = "Baste the lining to the outside along the waist, wrong sides together", (made,)
    elif shorter:
        text = "Fell the lining to the waist seam and the closing"
    else:
        text = "Fell the lining to the closing and the lower edge"
    hem = "; hem it {0} shorter than the outside." if shorter else "."
    acts.append(Act("fell lining", "join lining", f"{text}{hem}", (shorter,), (), whole, joined, FELL))
    return acts


def _make_up(lined, own: list[Joint], joints: Sequence[Joint]) -> Act:
    pieces = tuple(p.name for p in lined)
    seams = tuple(s.name for j in joints if j.layer == "lining" for s in j.seams)
    tucks = " Lay the skirt's darts as tucks." if any(p.darts and p.name.startswith("skirt") and is_lining(p) for p in lined) else ""
    said = [{(name.removesuffix(" lining"), edge) for name, edge in joint.refs} for joint in own]
    untold = {name for joint in joints if joint.layer == "outside" and not joint.is_dart and not joint.joins_groups
              and set(joint.refs) not in said for name in joint.piece_names}
    rest = [p for p in lined if not is_lining(p) and p.name in untold]
    figures = tuple(min(pair) for joint in own for pair in joint.lengths)
    words, at = [], 0
    for joint in own:
        many = len(joint.seams)
        words.append(f"{called(joint)} {' and '.join(f'{{{at + i}}}' for i in range(many))}")
        at += many
    text = f"Make up the lining, in this order: {', '.join(words)}.{tucks}" if own else ""
    if rest:
        text += (" " if text else "") + (f"Make up the lining of the {listed(both(p) for p in rest)} in the order of the outside, "
                                         f"{{{at}}} smaller at neck and armholes.")
        figures = (*figures, SMALLER)
    return Act("lining", "line", text or "Make up the lining in the order of the outside.", figures, seams, pieces,
               (After("fuse", "its stay is fused first" if any(c.role == "stay" for p in lined for c in p.cuts) else ""), After("mark", "")),
               MAKE_UP)


def _shorter(draft: Draft) -> float:
    """Return by how much the lining is shorter than the outside at the hem, mm; 0 where no lining reaches it."""
    by_name = {piece.name: piece for piece in draft.pieces}
    for piece in draft.pieces:
        if piece.of in by_name and has(piece, "hem") and has(by_name[piece.of], "hem"):
            return max(0.0, _lowest(first(by_name[piece.of], "hem")) - _lowest(first(piece, "hem")))
    return 0.0


def _lowest(edge: Edge) -> float:
    return max(y for stroke in edge.path.strokes for y in (stroke.start.y, stroke.end.y))


def _raw(draft: Draft) -> list[str]:
    found = [stem(edge.name) for _, edge in unsewn(draft, RAW)]
    return list(dict.fromkeys(name for name in found if name in RAW))


def facings(draft: Draft, joints: Sequence[Joint]) -> list[Act]:
    """Return the making up of facings, and what is faced or bound where there is no lining."""
    acts = []
    own = [joint for joint in joints if joint.layer == "facing"]
    pieces = [p for p in draft.pieces if p.group == "facing"]
    if pieces:
        words = ", ".join(f"{called(joint)} {{{i}}}" for i, joint in enumerate(own))
        text = f"Facings: {words}; press open. Neaten the outer edge." if own else "Facings: neaten the outer edge."
        acts.append(Act("facings", "face", text, tuple(joint.lengths[0][0] for joint in own), tuple(s.name for j in own for s in j.seams),
                        tuple(p.name for p in pieces), (After("fuse", "the stay is fused first"), After("mark", "")), FACINGS))
    is_lined = any(is_lining(p) or any(c.role == "lining" for c in p.cuts) for p in draft.pieces if p.name != "modesty panel")
    raw = [name for name in _raw(draft) if not (is_lined and name != "waist")]
    if is_lined and any(p.group == "top" and has(p, "hem") for p in draft.pieces):
        raw = []
    if raw:
        text = f"Face or bind the {listed(RAW[name] for name in raw)}."
        if raw == ["waist"] and draft.spec.options.get("waist_finish") == "petersham":
            text = "Petersham along the waist, its edge on the sewing line; turn it inside and catch it down at the seams."
        acts.append(Act("face", "face", text, (), (), tuple(dict.fromkeys(p.name for p, _ in unsewn(draft, raw))), rank=FACE))
    return acts
