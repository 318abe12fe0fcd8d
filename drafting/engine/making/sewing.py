"""Darts and seams as acts: what is stitched to what, how long, and how it is pressed."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from ..piece import Piece
from ..act import Act, After, listed
from .joint import Joint, half_of, is_band, is_lining, stem
from .words import called, capital, eases, has_notches, is_curved, pieces_in_words, plain

DART, FLAT, BASTE, FIT, STITCH = 10.0, 12.0, 20.0, 21.0, 22.0
GATHER, JOIN, SLEEVE, BAND = 29.0, 30.0, 46.0, 48.0


def key_of(joint: Joint) -> str:
    """Return the act that sews a joint: its own, its piece's darts, or all of the lining."""
    if joint.is_dart and joint.layer == "outside":
        return f"darts: {joint.piece_names[0]}"
    if joint.layer == "lining":
        return "lining"
    return "facings" if joint.layer == "facing" else f"stitch: {joint.name}"


def dart_acts(joints: Iterable[Joint], groups: list[str]) -> list[Act]:
    """Return one act for each outside piece with darts."""
    by_piece: dict[str, list[Joint]] = {}
    for joint in joints:
        if joint.is_dart and joint.layer == "outside":
            by_piece.setdefault(joint.piece_names[0], []).append(joint)
    return [_darts(name, found, groups.index(found[0].pieces[name].group)) for name, found in by_piece.items()]


def _darts(name: str, joints: list[Joint], group: int) -> Act:
    piece = joints[0].pieces[name]
    widths = [dart.width for dart in piece.darts]
    lengths = [dart.legs[0].length() for dart in piece.darts]
    each = "; ".join(f"{{{2 * i}}} wide, {{{2 * i + 1}}} long" for i in range(len(widths)))
    figures = tuple(value for pair in zip(widths, lengths, strict=True) for value in pair)
    toward = listed("down" if _is_level(dart) else "toward the centre" for dart in piece.darts)
    word = "Dart" if len(widths) == 1 else "Darts"
    return Act(f"darts: {name}", "dart", f"{word} of the {plain(name)}: {each}. Stitch to nothing; press {toward}.", figures,
               tuple(j.name for j in joints), (name,), rank=DART + group * 0.1)


def inside_darts(pieces: Iterable[Piece], groups: list[str]) -> list[Act]:
    """Return the fish-eye darts, with two points, that are marked inside a piece, four lines each."""
    acts = []
    for piece in pieces:
        lines = [mark for mark in piece.marks if mark.kind == "dart"]
        if not lines or is_lining(piece):
            continue
        sets = [[p for mark in lines[i:i + 4] for p in (mark.start, mark.end)] for i in range(0, len(lines), 4)]
        sizes = [size for each in sets for size in (max(p.x for p in each) - min(p.x for p in each), max(p.y for p in each) - min(p.y for p in each))]
        text = "; ".join(f"{{{2 * i}}} wide, {{{2 * i + 1}}} long" for i in range(len(sets)))
        word = "Fish-eye dart" if len(sets) == 1 else "Fish-eye darts"
        acts.append(Act(f"darts inside: {piece.name}", "dart", f"{word} of the {plain(piece.name)}: {text}. Stitch from the middle out to each "
                        "point; clip the middle, press toward the centre.", tuple(sizes), (), (piece.name,), rank=DART + groups.index(piece.group) * 0.1))
    return acts


def _is_level(dart) -> bool:
    leg = dart.point - dart.legs[0].start
    return abs(leg.x) > abs(leg.y)


def seam_act(joint: Joint, groups: list[str], order: int) -> Act:
    """Return the act that stitches and presses one joint."""
    text, figures = sentence(joint)
    return Act(key_of(joint), "stitch", f"{text} {_press(joint)}", figures, tuple(s.name for s in joint.seams), joint.piece_names,
               rank=_rank(joint, groups) + order * 0.001)


def _rank(joint: Joint, groups: list[str]) -> float:
    if "sleeve" in joint.groups and joint.joins_groups:
        return SLEEVE
    if joint.layer == "between":
        return 44.0 if "facing" in joint.layers else 41.0
    if is_band(joint):
        return BAND
    if joint.joins_groups:
        return JOIN
    return (STITCH if joint.let_out else FLAT) + groups.index(next(iter(joint.groups))) * 0.1


def sentence(joint: Joint) -> tuple[str, tuple[float, ...]]:
    """Return “Cup seams: centre cup to side cup, {0}.” and its figures, the shorter side of each seam."""
    figures = [min(pair) for pair in joint.lengths]
    if joint.is_mirrored:
        sides = f"{pieces_in_words(joint, joint.a)}, right to left"
    elif set(n for n, _ in joint.a) == set(n for n, _ in joint.b):
        sides = "" if len(joint.piece_names) == 1 else pieces_in_words(joint, joint.a)
    else:
        sides = f"{pieces_in_words(joint, joint.a)} to {pieces_in_words(joint, joint.b)}"
    if joint.layer == "between" and "lining" in joint.layers:
        sides = f"lining to {pieces_in_words(joint, [r for r in joint.refs if not is_lining(joint.pieces[r[0]])])}"
    if len(figures) > 1:
        halves = [half_of(seam) for seam in joint.seams]
        length = ", ".join(f"{half} half {{{i}}}" for i, half in enumerate(halves)) if all(halves) else "{0} each"
    else:
        length = "{0} from the centre to the end" if joint.crosses_centre and not is_band(joint) else "{0}"
    ease = ""
    if amount := eases(joint):
        to_lining = "lining" in joint.layers and joint.layer == "between"
        layer = "lining" if any(is_lining(joint.pieces[name]) for name, _ in joint.longer) else "outside"
        what = f"the {layer if to_lining else pieces_in_words(joint, joint.longer)}"
        ease = f" Ease {{{len(figures)}}} of {what} in{', between the notches' if has_notches(joint) else ''}."
        figures.append(amount)
    elif joint.gathers:
        ease = f" Spread the gathers of the {pieces_in_words(joint, joint.longer)} evenly."
    elif has_notches(joint):
        length += ", notch to notch"
    sides = f"{sides}, " if sides else ""
    return f"{capital(called(joint))}: {sides}{length}.{ease}", tuple(figures)


def _press(joint: Joint) -> str:
    if joint.layer == "between":
        return "Right sides together; grade, clip, understitch."
    if is_band(joint):
        return "Turn the band over the seam and fell it down inside."
    if "sleeve" in joint.groups and joint.joins_groups:
        return "Crown to the shoulder seam; press the allowances into the sleeve."
    if joint.joins_groups:
        return "Press the allowances up."
    return "Clip the curves, press open over a ham." if is_curved(joint) else "Press open."


def baste_acts(joints: Iterable[Joint]) -> list[Act]:
    """Return, for each part of the garment, the basting of the seams that can be let out; and the fitting that it is for."""
    by_group: dict[str, list[Joint]] = {}
    for joint in joints:
        if joint.let_out and not joint.is_dart and joint.layer == "outside":
            by_group.setdefault(joint.group_of(joint.piece_names[0]), []).append(joint)
    acts = []
    for group, found in by_group.items():
        figures = [min(pair) for joint in found for pair in joint.lengths] + [min(joint.let_out for joint in found)]
        words = listed(f"{called(joint)}, {{{i}}}" for i, joint in enumerate(found))
        acts.append(Act(f"baste: {group}", "baste", f"Baste for the fitting: {words}. Keep the let-out of {{{len(figures) - 1}}}.",
                        tuple(figures), (), tuple(dict.fromkeys(n for j in found for n in j.piece_names)), rank=BASTE))
    return acts


def gather_acts(joints: Iterable[Joint]) -> list[Act]:
    """Return what is gathered before it is joined, and what is hung and taped because it gives on the bias."""
    acts = []
    for joint in joints:
        if joint.layer != "outside" or joint.is_dart:
            continue
        side = joint.longer
        if joint.gathers:
            figures = tuple(min(pair) for pair in joint.lengths)
            halves = [half_of(seam) for seam in joint.seams]
            to = ", ".join(f"{half} half to {{{i}}}" for i, half in enumerate(halves)) if len(figures) > 1 else "to {0}"
            owner = joint.group_of(side[0][0])
            edge = stem(side[0][1])
            acts.append(Act(f"gather: {joint.name}", "gather", f"Gather the {owner}'s {edge}, three rows within the allowance: {to}.", figures,
                            (), tuple(dict.fromkeys(n for n, _ in side)), rank=(SLEEVE if owner == "sleeve" else GATHER) - 0.5))
        elif "skirt" in joint.groups and eases(joint) and any(joint.group_of(n) == "skirt" for n, _ in _shorter(joint)):
            names = tuple(dict.fromkeys(n for n, _ in _shorter(joint)))
            acts.append(Act(f"hang: {joint.name}", "stay", "Hang the skirt a day before its waist is sewn; stay the waist with tape, easing it "
                            "to the measure.", (), (), names, rank=GATHER))
    return acts


def _shorter(joint: Joint):
    return joint.b if joint.longer is joint.a else joint.a


def in_layer(joints: Iterable[Joint], layer: str) -> list[Joint]:
    return [joint for joint in joints if joint.layer == layer]


def after(*pairs: tuple[str, str]) -> tuple[After, ...]:
    return tuple(After(key, why) for key, why in pairs)


def by_group(pieces: Iterable[Piece]) -> Mapping[str, list[Piece]]:
    """Return the outside pieces by the part of the garment that they belong to."""
    found: dict[str, list[Piece]] = {}
    for piece in pieces:
        found.setdefault(piece.group, []).append(piece)
    return found
