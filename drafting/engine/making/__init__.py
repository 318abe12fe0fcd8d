"""The order of making a garment, and what to lay ready for it, from its draft alone: pieces, cuts, seams, bones, closing.

No garment has a list of its own. Acts name what must be done before them (`act.After`); `act.in_order` sorts them.
"""

from __future__ import annotations

from dataclasses import replace

from ..draft import Draft
from ..act import Act, After, in_order
from .boning import boning
from .closing import Closing, closing_of
from .fastening import fastening
from .finishing import hems, pressing
from .joint import Joint, first_before, is_band, is_lining, joints_of, stem
from .layering import facings, lining
from .materials import materials_of
from .preparing import preparing
from .sewing import FIT, baste_acts, dart_acts, gather_acts, inside_darts, key_of, seam_act

__all__ = ["Act", "After", "in_order", "materials_of", "order_of_making", "with_making"]

STITCH_AFTER_FIT = "the fitting may move it"


def with_making(draft: Draft) -> Draft:
    """Return the draft with its order of making, and with its materials made complete."""
    closing = closing_of(draft)
    whole = replace(draft, materials=materials_of(draft, closing))
    return replace(whole, making=order_of_making(whole, closing))


def order_of_making(draft: Draft, closing: Closing | None = None) -> tuple[Act, ...]:
    """Return everything that is done to the cut pieces, each act after all that it needs."""
    closing = closing or closing_of(draft)
    joints = joints_of(draft.pieces, draft.seams)
    rules = list(first_before(joints))
    groups = list(dict.fromkeys(piece.group for piece in draft.pieces if not is_lining(piece)))
    sewn = [joint for joint in joints if joint.layer in ("outside", "between") and not joint.is_dart]
    acts = preparing(draft) + dart_acts(joints, groups) + inside_darts(draft.pieces, groups)
    acts += [_left_open(seam_act(joint, groups, i), joint, closing) for i, joint in enumerate(sewn)]
    acts += baste_acts(joints) + gather_acts(joints) + boning(draft) + fastening(draft, closing)
    acts += lining(draft, _sorted(joints, rules), closing) + facings(draft, joints) + hems(draft)
    if any(act.does == "baste" for act in acts):
        acts.append(Act("fit", "fit", _fitting(closing), rank=FIT))
    waits = _waits(acts, joints, rules, closing)
    acts = [replace(act, after=(*act.after, *waits.get(act.key, ()))) for act in acts]
    return in_order([*acts, pressing(draft, closing, acts)])


def _left_open(act: Act, joint: Joint, closing: Closing) -> Act:
    """Return a side seam's act with the left one left open where the garment closes at the side."""
    if closing.place != "side" or joint.layer != "outside" or stem(joint.name.removesuffix(", skirt")) != "side" or joint.name.endswith(", right"):
        return act
    return replace(act, text=f"{act.text} Leave the left one open where the zip goes.")


def _fitting(closing: Closing) -> str:
    pinned = f", pinned closed at the {closing.where}" if closing.place and closing.place != "side" else ""
    return f"The fitting: try it on{pinned}. Mark on the basted seams what is taken in or let out."


def _sorted(joints: list[Joint], rules) -> list[Joint]:
    """Return the lining's joints in the order in which they can be sewn."""
    waits: dict[str, list[After]] = {}
    for first, then, why in rules:
        waits.setdefault(then.name, []).append(After(first.name, why))
    by_name = {joint.name: joint for joint in joints}
    acts = [Act(joint.name, "stitch", "", after=tuple(waits.get(joint.name, ()))) for joint in joints]
    return [by_name[act.key] for act in in_order(acts)]


def _waits(acts: list[Act], joints: list[Joint], rules, closing: Closing) -> dict[str, list[After]]:
    """Return for each act what it must wait for: the rules of the corners, and those of the workshop's table."""
    waits: dict[str, list[After]] = {}

    def wait(key: str, first: str, why: str) -> None:
        if key != first and all(each.key != first for each in waits.setdefault(key, [])):
            waits[key].append(After(first, why))

    bastes = {name: act.key for act in acts if act.does == "baste" for name in act.pieces}
    for first, then, why in rules:
        wait(key_of(then), key_of(first), why)
        if then.let_out and then.layer == "outside" and not then.is_dart:
            wait(bastes[then.piece_names[0]] if then.piece_names[0] in bastes else key_of(then), key_of(first), why)
    outside = [joint for joint in joints if joint.layer == "outside"]
    late = {joint.name for joint in outside if joint.let_out}
    while more := {then.name for first, then, _ in rules if first.name in late} - late:
        late |= more
    for joint in outside:
        key = key_of(joint)
        for first in ("mark", "stay-stitch", "fuse", "quilt"):
            if first in ("mark", "stay-stitch") or _handles(acts, first, joint.piece_names):
                wait(key, first, {"fuse": "the stay is fused to flat pieces", "quilt": "the wadding is quilted to flat pieces"}.get(first, ""))
        if joint.let_out and not joint.is_dart:
            wait(key, bastes.get(joint.piece_names[0], "fit"), "")
            wait(key, "fit", STITCH_AFTER_FIT)
        if not joint.joins_groups and joint.name not in late and not is_band(joint) and "sleeve" not in joint.groups:
            wait("fit", key, "")
        wait(key, f"gather: {joint.name}", "it is gathered first")
        wait(key, f"hang: {joint.name}", "it hangs out before it is joined")
    for key in (*dict.fromkeys(bastes.values()), *(act.key for act in acts if act.key.startswith("darts inside"))):
        wait("fit", key, "")
    _wait_for_bones(acts, joints, wait)
    _wait_at_the_opening(acts, joints, closing, wait)
    _wait_at_edges(acts, joints, wait)
    return waits


def _handles(acts: list[Act], key: str, names) -> bool:
    return any(act.key == key and set(names) & set(act.pieces) for act in acts)


def _wait_for_bones(acts: list[Act], joints: list[Joint], wait) -> None:
    """Casings wait for the seams that they lie on; what would close over the bones waits for the bones."""
    boned = {name for act in acts if act.key == "casings" for name in act.pieces}
    for joint in joints:
        if not boned & set(joint.piece_names):
            continue
        if joint.layer == "outside" and not joint.joins_groups and not is_band(joint):
            wait("casings", key_of(joint), "casings lie on finished seams")
        elif joint.layer in ("outside", "between"):
            wait(key_of(joint), "bones", "it closes over the ends of the bones")
    if boned:
        wait("join lining", "bones", "it closes over the ends of the bones")
        wait("face", "bones", "it closes over the ends of the bones")


def _wait_at_the_opening(acts: list[Act], joints: list[Joint], closing: Closing, wait) -> None:
    """Seams that end in the opening are sewn before it is closed; the seam below it before the parts are joined."""
    centres = {each.piece.name: f"centre: {each.right}" for each in (*closing.edges, *closing.closed)}
    for joint in joints:
        if joint.layer != "outside":
            continue
        for name in set(joint.piece_names) & set(centres):
            if joint.is_dart:
                wait(centres[name], key_of(joint), "")
            elif joint.joins_groups or is_band(joint):
                wait(key_of(joint), centres[name], "the opening's seam is sewn while that part lies flat")
        if set(joint.piece_names) & set(centres) and not is_band(joint) and "sleeve" not in joint.groups:
            wait("close", key_of(joint), "it crosses finished seams")
            wait("close: below the lacing", key_of(joint), "it crosses finished seams")
    for each in closing.lower:
        wait("close", centres[each.piece.name], "it ends where that seam begins")
        wait("close: below the lacing", centres[each.piece.name], "it ends where that seam begins")
    for name, key in centres.items():
        wait(key, "mark", "")
        if _handles(acts, "fuse", [name]):
            wait(key, "fuse", "the stay is fused to flat pieces")
        wait(f"vent: {name}", key, "")
    for joint in joints:
        if is_band(joint):
            wait(key_of(joint), "fell lining", "the lining is caught in with it")
        if closing.is_sewn_on:
            wait("close", key_of(joint), "it is sewn onto finished edges")
        elif is_band(joint):
            wait(key_of(joint), "close", "the band closes over the top of it")
        elif joint.layer == "between":
            wait(key_of(joint), "close", "it is turned over the ends of the closing")


def _wait_at_edges(acts: list[Act], joints: list[Joint], wait) -> None:
    """Lining, facings and hems wait for every outside seam of the pieces that they finish."""
    wait("join lining", "straps", "the straps are caught in it")
    wait("face", "straps", "the straps are caught in it")
    for joint in joints:
        if joint.layer == "between":
            wait(key_of(joint), "straps", "the straps are caught in it")
            wait(key_of(joint), "lining" if "lining" in joint.layers else "facings", "it is made up first")
            continue
        if joint.layer != "outside":
            continue
        names, key = set(joint.piece_names), key_of(joint)
        if "sleeve" not in joint.groups and not is_band(joint):
            wait("join lining", key, "it is joined to finished seams")
            wait("face", key, "it runs on across finished seams")
            wait("fell lining", key, "it is joined to finished seams")
        for act in acts:
            if act.key.startswith("hem: ") and names & set(act.pieces) and key != act.key:
                early = act.does == "gather" and joint.joins_groups
                wait(*((key, act.key, "its hem is gathered first") if early else (act.key, key, "it crosses finished seams")))
    for act in acts:
        if act.key.startswith("hem: ") and act.does == "hem":
            for name in act.pieces:
                wait(act.key, f"centre: {name}", "it crosses finished seams")
                wait(act.key, f"vent: {name}", "it ends at the vent")
