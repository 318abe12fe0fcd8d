"""The lays on the job sheet: each drawn to a scale that a plain ruler reads, and what it takes said in the trade's words."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise, zip_longest

from django.utils.safestring import SafeString, mark_safe

from drafting.linework import as_image, clean
from workshop.length import CLOTH_SLACK_MM, INCH, MM_PER, print_cloth, print_length

SCALES = {
    INCH: ((1 / 12, "1/12: 1 in on paper is 1 ft of cloth"), (1 / 24, "1/24: ½ in on paper is 1 ft of cloth"),
           (1 / 48, "1/48: ¼ in on paper is 1 ft of cloth")),
    "metric": ((1 / 10, "1 : 10, 1 cm on paper is 10 cm of cloth"), (1 / 20, "1 : 20, 1 cm on paper is 20 cm of cloth"),
               (1 / 50, "1 : 50, 1 cm on paper is 50 cm of cloth")),
}  # fmt: skip
WIDEST, TALLEST = 181.0, 225.0
"""What one strip may be long, and all strips of a lay together tall, in mm on paper: Letter's and A4's lesser."""
BESIDE = 11.0
"""What marks and words take above and below each strip, mm on paper."""
BREAKS = 24
"""Places that are tried for parting a long lay."""
EIGHTH, TENTH = float(MM_PER["yd"]) / 8, 100.0
LAYOUT = {"folded": "folded lengthwise", "open": "in one layer", "crosswise": "folded crosswise"}


@dataclass(frozen=True, slots=True)
class LayFigure:
    """One lay as the sheet shows it. `takes` is its sentence; `strips` are drawings."""

    cloth: str
    about: str
    takes: str
    scale: str
    strips: tuple[SafeString, ...]
    notes: tuple[str, ...]


def lay_figures(order_file: Mapping, result: Mapping, lays: Sequence[Mapping], unit: str) -> tuple[LayFigure, ...]:
    """Return the lays drawn, in their order; lengths in `unit`."""
    return tuple(_figure(order_file, result, lay, unit) for lay in lays)


def _figure(order_file: Mapping, result: Mapping, lay: Mapping, unit: str) -> LayFigure:
    from shapely import Polygon

    from drafting.sheet_lay_picture import lying, strip_svg

    pieces = {piece["name"]: piece for piece in result["pieces"]}
    across = {"": lay["usable"], "opened": lay.get("opened_usable", lay["usable"])}
    one_way = bool(lay.get("one_way"))
    placed = [
        lying(one, across[one.get("zone", "")], _words(one, lay, pieces.get(one["piece"], {})), one_way=one_way)
        for one in lay["placed"]
    ]
    blocked = [Polygon([(y, lay["usable"] - x) for x, y in ring]) for ring in lay.get("blocked", ())]
    cut = [f"{_words(dict(piece=name, layers=2), lay, pieces.get(name, {}))[1]}, cut" for name in lay.get("blocked_by", ())]
    scale, words = _scale(lay, unit)
    whole = (0.0, _drawn_length(lay))
    full: set[str] = set()
    small: set[str] = set()
    drawings = []
    for strip in _strips(lay, placed, scale):
        svg, written, short = strip_svg(
            strip, placed, zip_longest(blocked, cut, fillvalue="flaw"), scale=scale, unit=unit, selvedge=lay.get("selvedge", 0.0), whole=whole,
            title=f"Lay of {clean(lay['cloth'])}",
        )  # fmt: skip
        full, small = full | written, small | short
        drawings.append(mark_safe(as_image(svg, f"Lay of {clean(lay['cloth'])}")))
    return LayFigure(
        cloth=clean(lay["cloth"][:1].upper() + lay["cloth"][1:]),
        about=_about(lay, unit),
        takes=takes(lay, _shrink(order_file, lay), unit),
        scale=words,
        strips=tuple(drawings),
        notes=tuple(_notes(lay, pieces, small - full, _shrink(order_file, lay), unit)),
    )


def _drawn_length(lay: Mapping) -> float:
    """How long the lay lies on the table, mm: half of it where the cloth is folded across."""
    return lay["length"] / (2 if lay["layout"] == "crosswise" else 1)


def _scale(lay: Mapping, unit: str) -> tuple[float, str]:
    """Return the largest scale at which all strips stand on one page."""
    scales = SCALES.get(unit, SCALES["metric"])
    for scale, words in scales:
        strips = _segments(lay, scale)
        if sum(count * (across * scale + BESIDE) for _, _, across, _, count in strips) <= TALLEST:
            return scale, words
    return scales[-1]


def _segments(lay: Mapping, scale: float) -> list[tuple[float, float, float, str, int]]:
    """Return (start, end, across, zone, strips) of the lay, and of its end that is opened out."""
    end, opened = _drawn_length(lay), lay.get("opened_from")
    parts = [(0.0, end, lay["usable"], "")]
    if opened is not None:
        parts = [(0.0, opened, lay["usable"], ""), (opened, end, lay["opened_usable"], "opened")]
    longest = WIDEST / scale
    return [(*part, max(math.ceil((part[1] - part[0]) / longest - 1e-9), 1)) for part in parts if part[1] > part[0] + 0.1]


def _strips(lay: Mapping, placed: Sequence, scale: float) -> Iterator:
    """Yield the strips that the lay is drawn in: each as long as the paper takes, parted where the fewest pieces lie."""
    from drafting.sheet_lay_picture import Strip

    folded, end = lay["layout"] == "folded", _drawn_length(lay)
    way = "one way: every top points left" if lay.get("one_way") else ""
    for start, stop, across, zone, count in _segments(lay, scale):
        lines = [start, *_breaks(start, stop, count, WIDEST / scale, [one.shape for one in placed if one.zone == zone]), stop]
        double = folded and not zone
        for low, high in pairwise(lines):
            goes_on = "" if high >= end - 0.1 else "goes on below, opened out" if high >= stop - 0.1 else "goes on below"
            yield Strip(
                start=low,
                end=high,
                across=across,
                low="fold" if double else "selvedges" if lay["layout"] == "crosswise" else "selvedge",
                high="selvedges" if double or lay["layout"] == "crosswise" else "selvedge",
                zone=zone,
                left="fold" if lay["layout"] == "crosswise" else "",
                said="; ".join(part for part in (way, goes_on) if part),
            )


def _breaks(start: float, stop: float, count: int, longest: float, shapes: Sequence) -> Iterator[float]:
    """Yield where a stretch is parted so that no strip is longer than `longest`: where the least of the pieces is cut in two."""
    from shapely import LineString

    at = start
    for left in range(count - 1, 0, -1):
        low, high = max(stop - left * longest, at + longest / 4), min(at + longest, stop - left * longest / 5)
        spots = [high - (high - low) * n / BREAKS for n in range(BREAKS + 1)] if low < high else [high]
        cut = {
            spot: sum(shape.intersection(LineString([(spot, -1), (spot, 1e5)])).length for shape in shapes) for spot in spots
        }
        at = min(spots, key=cut.__getitem__)
        yield at


def _words(one: Mapping, lay: Mapping, piece: Mapping) -> tuple[str, ...]:
    """Return what to write on a placed piece: its number and name, and its number alone."""
    number = str(piece.get("number") or "")
    name = clean(piece.get("title") or one["piece"])
    full = f"{number} {name}".strip()
    if one["layers"] == 1 and one["mirrored"] and lay["layout"] != "crosswise":
        full += ", mirrored"
    if one.get("under"):
        full += ", under layer"
    return full, number or name[:3]


def _shrink(order_file: Mapping, lay: Mapping) -> float:
    return next((float(one.get("shrink") or 0) for one in order_file["cloths"] if one["name"] == lay["cloth"]), 0.0)


def _about(lay: Mapping, unit: str) -> str:
    wide = f"{print_length(lay['width'], unit, with_unit=True)} wide"
    return ", ".join([LAYOUT.get(lay["layout"], lay["layout"]), wide, *(["one way"] if lay.get("one_way") else [])])


def takes(lay: Mapping, shrink: float, unit: str) -> str:
    """Return what the lay takes, what no lay goes below, and what that means for the cloth in hand or to be bought."""
    needs, on_hand = lay.get("needs", lay["to_buy"]), lay["on_hand"]
    least, taken = print_cloth(lay["at_least"] / (1 - shrink), unit), print_cloth(needs, unit)
    said = f"At least {least}; this lay takes {taken}." if least != taken else f"This lay takes {taken}; none takes less."
    buy = print_cloth(lay["to_buy"], unit)
    if on_hand is None:
        return f"{said} To buy: {buy}."
    there = in_hand(on_hand, unit)
    if lay["fits_on_hand"]:
        left = left_over(on_hand - needs, unit)
        return f"{said} {there} in hand: {f'{left} left over' if left else 'just enough'}."
    short = print_cloth(needs - on_hand, unit)
    how = "can’t be enough" if lay["fits_on_hand"] is False else "is not enough for this lay; a closer one may do"
    return f"{said} {there} in hand {how}: short by {short}. To buy in one length: {buy}."


def in_hand(mm: float, unit: str) -> str:
    """Return a length of cloth that is there: in the shop's steps where it is whole ones, else as measured."""
    step = EIGHTH if unit == INCH else TENTH
    whole = abs(mm - round(mm / step) * step) <= float(CLOTH_SLACK_MM)
    return print_cloth(mm, unit) if whole else print_length(mm, unit, with_unit=True)


def left_over(mm: float, unit: str) -> str:
    """Return what is left, rounded down to ⅛ yd or 0.1 m; nothing for less than that."""
    step = EIGHTH if unit == INCH else TENTH
    count = math.floor((mm + float(CLOTH_SLACK_MM)) / step)
    return print_cloth(count * step, unit) if count > 0 else ""


def _notes(lay: Mapping, pieces: Mapping, named: set[str], shrink: float, unit: str) -> Iterator[str]:
    """Return what the drawing alone does not say."""
    if named:
        yield f"Numbers: {', '.join(sorted(named, key=_by_number))}."
    folded = lay["layout"] == "folded"
    on_fold = [one for one in lay["placed"] if folded and not one.get("zone") and pieces.get(one["piece"], {}).get("on_fold")]
    if on_fold:
        yield f"On the fold: {_numbers(on_fold, pieces)}."
    doubled = [one for one in lay["placed"] if lay["layout"] != "open" and one["layers"] == 1 and not one.get("zone")]
    for under, said in ((False, "Cut from the upper layer alone"), (True, "Dotted, cut from the under layer alone")):
        singly = [one for one in doubled if bool(one.get("under")) is under]
        if singly:
            yield f"{said}: {_numbers(singly, pieces)}."
    if lay.get("opened_from") is not None:
        from_ = print_length(lay["opened_from"], unit, with_unit=True)
        yield f"Open the cloth out from {from_} on: what lies there is cut in one layer."
    if any(one.get("motif") for one in lay["placed"]):
        yield "The cross on a piece is where the middle of a motif must lie. Cut such pieces one at a time, face up."
        if rows := motif_rows(lay, unit):
            yield rows
    if shrink:
        yield "Marked on cloth that is shrunk already; the amounts are as it comes from the shop."
    extra = lay.get("needs", 0) - lay["length"] / (1 - shrink)
    if lay.get("print") and extra > 1:
        yield f"The amount has one repeat more, {print_length(extra, unit, with_unit=True)}, to find where the print starts."
    for other in lay.get("compared", ()):
        if other["layout"] != lay["layout"]:
            yield f"{LAYOUT[other['layout']].capitalize()} it would take {print_cloth(other['length'] / (1 - shrink) + extra, unit)}."


def motif_rows(lay: Mapping, unit: str) -> str:
    """Return where the cloth must be cut off for the motifs to come where the lay has them; nothing where no motif is placed."""
    if not (lay.get("print") and lay["print"]["repeat"] and any(one.get("motif") for one in lay["placed"])):
        return ""
    start, repeat = (print_length(lay["print"][key], unit, with_unit=True) for key in ("start", "repeat"))
    return f"Cut the cloth’s end off so that the middle of a row of motifs lies {start} from it; one lies every {repeat}."


def _numbers(placed: Sequence[Mapping], pieces: Mapping) -> str:
    names = []
    for one in placed:
        piece = pieces.get(one["piece"], {})
        name = str(piece.get("number") or clean(piece.get("title") or one["piece"]))
        if name not in names:
            names.append(name)
    return ", ".join(sorted(names, key=_by_number))


def _by_number(name: str) -> tuple[int, str]:
    first = name.split()[0]
    return (int(first) if first.isdigit() else 999, name)
