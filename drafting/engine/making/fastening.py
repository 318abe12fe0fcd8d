"""The opening of a garment as acts: the seam below it, the vent, and what closes it."""

from __future__ import annotations

from ..draft import Draft
from ..piece import Piece
from ..act import Act, After, listed
from ..tolerance import INCH
from .closing import LOOPS_APART, Closing, Open
from .joint import first, has, is_lining
from .words import both, capital

CENTRE, VENT, CLOSE, PANEL, SHIELD, SLIT, STRAPS, SEW_ON = 27.0, 28.0, 35.0, 36.0, 36.5, 43.5, 39.0, 80.0
FLY_UNDER = 0.125 * INCH
"""So far outside the centre line the under side of a fly is turned, so that the lap hides it. Common practice, no source."""
TOP_EDGES = {"neck": "neck", "top": "top edge", "waist": "waist", "front edge": "front edge"}


def fastening(draft: Draft, closing: Closing) -> list[Act]:
    """Return the seam under the opening, the vent, what closes the garment, and the panel behind a lacing."""
    acts = [_plain_centre(each) for each in closing.closed if not each.is_other_side]
    acts += [_below(each, draft) for each in closing.lower if each.sewn > 1.0 and not each.is_other_side]
    for piece in draft.pieces:
        if piece.of is None and piece.side != "left" and has(piece, "vent"):
            acts.append(Act(f"vent: {piece.name}", "vent", "Leave the vent open {0} above the hem; face its edges, reinforce its top.",
                            (first(piece, "vent").path.length(),), (), (piece.name,),
                            (After(f"centre: {piece.name}", "the vent begins where that seam ends"),), VENT))
    if closing.place:
        acts += _close(draft, closing)
    return acts + _slits(draft) + _straps(draft)


def _slits(draft: Draft) -> list[Act]:
    """Return the slit in a neckline that lets the head through: faced, then cut."""
    acts = []
    for piece in draft.pieces:
        for mark in (m for m in piece.marks if m.kind == "slit" and not is_lining(piece) and piece.group != "facing"):
            acts.append(Act(f"slit: {piece.name}", "face", f"Slit of the {piece.name}, {{0}}: stitch the facing on round the mark, cut between the stitching to "
                            "its end, turn, press; loop and button at its top.", (mark.start.distance(mark.end),), (), (piece.name,),
                            (After("fuse", ""), After("mark", "it is cut along its mark")), SLIT))
    return acts


def _straps(draft: Draft) -> list[Act]:
    straps = [p for p in draft.pieces if "strap" in p.name and not is_lining(p)]
    if not straps:
        return []
    sewn = tuple(After(f"stitch: {seam.name}", "they are sewn first") for seam in draft.seams if any(name == p.name for p in straps for name, _ in seam.a))
    return [Act("straps", "close", "Turn the straps, press; pin them to the top edge at their marks, fit their length, and baste.", (), (),
                tuple(p.name for p in straps), (*sewn, After("fit", "their length is fitted")), STRAPS)]


def _plain_centre(each: Open) -> Act:
    name = each.edge.name
    return Act(f"centre: {each.piece.name}", "stitch", f"{capital(name)} seam of the {both(each.piece)}: {{0}}. Press open.",
               (each.edge.path.length(),), (), (each.piece.name,), rank=CENTRE)


def _below(each: Open, draft: Draft) -> Act:
    lower = "vent" if has(each.piece, "vent") else "hem"
    return Act(f"centre: {each.piece.name}", "stitch",
               f"{capital(each.edge.name)} of the {each.piece.group}: from the opening, {{0}} below the waist, to the {lower}, {{1}}. Press open.",
               (each.opening, each.sewn), (), (each.piece.name,), rank=CENTRE)


def _close(draft: Draft, closing: Closing) -> list[Act]:
    pieces = tuple(dict.fromkeys(each.piece.name for each in closing.edges))
    means, where = closing.means, closing.where
    length = closing.above + closing.below
    if "lacing" in means:
        return _lacing(draft, closing, pieces)
    if "zip" in means:
        top = _top(closing.upper or closing.lower)
        to = "to {1} below the waist" if closing.below else "all the way down"
        text = f"Zip into the {where}, from the {top} {to}: {{0}}." if closing.edges else f"Zip into the {where}, in the seam left open for it."
        shorten = " Shorten a longer one at its lower end: stitch over the teeth, cut below."
        if any(p.name == "fly shield" for p in draft.pieces):
            return _fly(length, shorten, pieces)
        return [Act("close", "close", text + shorten, (length, closing.below), (), pieces, rank=CLOSE)]
    marks = [m for p in draft.pieces for m in p.marks if p.of is None and m.kind in ("button", "buttonhole", "eyelet")]
    words = {"buttons": "Buttonholes, then buttons", "hooks": "Hooks and eyes", "busk": "Busk: the loops on the wearer's right, the studs on her left",
             "ties": "Ties", "elastic": "Elastic"}.get(means, f"{capital(means.replace('-', ' '))} closing")
    many = f", {sum(m.kind == marks[0].kind for m in marks)} of them" if marks else ""
    along = f", along {{0}} of the {where}" if closing.edges else f" at the {where}"
    return [Act("close", "close", f"{words}{many}{along}.", (length,), (), pieces, rank=SEW_ON if closing.is_sewn_on else CLOSE)]


def _fly(length: float, shorten: str, pieces: tuple[str, ...]) -> list[Act]:
    """Return the acts of a fly, lapped right over left, as a woman's usually is."""
    zip_ = ("Fly, {0} from the waist: stitch the facing to the wearer's right front, turn it under along the centre; on her left turn the edge under {1} outside "
            "the centre. Stitch the zip close to the left edge; lap right over left, stitch the other tape to the facing alone; topstitch the right along it.")
    shield = "Fly shield: fold lengthwise, right sides together, stitch its foot, turn, press, neaten; stitch it behind the zip to the wearer's left, its foot free."
    return [Act("close", "close", zip_ + shorten, (length, FLY_UNDER), (), (*pieces, "fly facing"), rank=CLOSE),
            Act("shield", "close", shield, (), (), ("fly shield",), (After("close", "it lies behind the zip"),), SHIELD)]


def _lacing(draft: Draft, closing: Closing, pieces: tuple[str, ...]) -> list[Act]:
    upper = tuple(dict.fromkeys(each.piece.name for each in closing.upper)) or pieces
    beside = "; a bone on each side of the row" if draft.bones else ""
    acts = [Act("close", "close", f"Loops or eyelets down both sides of the {closing.where}, {{0}} apart along {{1}}{beside}.",
                (LOOPS_APART, closing.above or closing.below), (), upper, rank=CLOSE)]
    if closing.lower and closing.upper and closing.gap:
        acts.append(Act("close: below the lacing", "close", "Finish the {0} of waist that lies under the lacing on each side; zip of {1} below it, "
                        "hook at the waist.", (closing.gap / 2, closing.below), (), tuple(each.piece.name for each in closing.lower), rank=CLOSE))
    for piece in draft.pieces:
        if piece.name == "modesty panel":
            acts.append(_panel(piece))
    return acts


def _panel(piece: Piece) -> Act:
    return Act("panel", "close", "Modesty panel: outside cloth and lining right sides together, turn, press; tack it to the wearer's left, "
               "under the lacing.", (), (), (piece.name,), (After("close", "it lies under the lacing"),), PANEL)


def _top(edges: tuple[Open, ...]) -> str:
    """Return what the opening begins at: the edge next to its upper end."""
    for each in edges:
        names = [e.name for e in each.piece.edges]
        at = names.index(each.edge.name)
        ends = {names[at - 1]: each.edge.path.start, names[(at + 1) % len(names)]: each.edge.path.end}
        upper = min(ends, key=lambda name: ends[name].y)
        return next((word for key, word in TOP_EDGES.items() if upper.startswith(key)), listed([upper]))
    return "top"
