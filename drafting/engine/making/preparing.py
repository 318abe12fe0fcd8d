"""What is done to the pieces before any two are joined: marks, stay-stitching, stay, wadding."""

from __future__ import annotations

from ..draft import Draft
from ..piece import Piece
from ..act import Act, After, listed
from .joint import is_lining, stem
from .words import both

MARK, STAY_STITCH, FUSE, QUILT = 0.0, 1.0, 2.0, 3.0
GIVING = ("neck", "armhole")
"""Edges that stretch in handling. Common practice, no source."""


def preparing(draft: Draft) -> list[Act]:
    """Return the acts at the cutting table and the ironing board, each after the marks are made."""
    outside = [piece for piece in draft.pieces if not is_lining(piece)]
    marks = ["darts"] if any(p.darts or any(m.kind == "dart" for m in p.marks) for p in outside) else []
    marks += ["fold lines"] if any(p.on_fold for p in outside) else []
    marks += dict.fromkeys(f"{m.kind}s" for p in outside for m in p.marks if m.kind not in ("fold line", "centre line", "dart"))
    acts = [Act("mark", "mark", f"Thread-mark {listed((*marks, 'notches'))} on every piece before the paper comes off.",
                pieces=tuple(p.name for p in draft.pieces), rank=MARK)]
    after = (After("mark", "the marks come off with the paper"),)
    edges = [name for name in GIVING if any(stem(e.name) == name for p in outside for e in p.edges)]
    if edges:
        acts.append(Act("stay-stitch", "stay-stitch", f"Stay-stitch the {listed(f'{e}s' if e == 'armhole' else e for e in edges)}, inside the "
                        "sewing line.", pieces=tuple(p.name for p in outside if any(stem(e.name) in GIVING for e in p.edges)),
                        after=after, rank=STAY_STITCH))
    if fused := [p for p in draft.pieces if any(c.role == "stay" for c in p.cuts)]:
        acts.append(Act("fuse", "fuse", _fuse(fused), pieces=tuple(p.name for p in fused), after=after, rank=FUSE))
    if padded := [p for p in draft.pieces if any(c.role == "wadding" for c in p.cuts)]:
        words = listed(both(p) for p in padded)
        acts.append(Act("quilt", "quilt", f"Quilt the wadding to the {words}, then trim it out of the seam allowances.",
                        pieces=tuple(p.name for p in padded), after=(*after, After("fuse", "the stay lies under the wadding")), rank=QUILT))
    return acts


def _fuse(pieces: list[Piece]) -> str:
    outside = [p for p in pieces if not is_lining(p)]
    lining = [p for p in pieces if is_lining(p)] + [p for p in outside if _both_layers(p)]
    if not outside:
        return f"Fuse the stay to the {listed(both(p) for p in lining)} of the lining."
    text = f"Fuse the stay to the {listed(both(p) for p in outside)}"
    return f"{text} of the outside cloth, and to the {listed(both(p) for p in lining)} of the lining." if lining else f"{text}."


def _both_layers(piece: Piece) -> bool:
    counts = {cut.role: cut.count for cut in piece.cuts}
    return "lining" in counts and counts["stay"] > counts.get("shell", counts["stay"])
