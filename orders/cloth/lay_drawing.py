"""One lay drawn for the screen as the cutter sees it, all in millimetres of cloth: the fold or left edge near her, the cut
end at her left. It is turned by a quarter, never mirrored: a piece for one side of the body is not drawn for the other.

Colours and line widths are the style sheet's. An em is an inch of cloth, so the box's font size is the zoom.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from html import escape
from typing import Any
from urllib.parse import urlencode

from django.utils.safestring import SafeString
from shapely.geometry import LineString, Point, Polygon
from shapely.ops import polylabel

from workshop.length import MM_PER, print_length

MM_PER_EM = 25.4
TEXT_PX = 13
ZOOMS = {"long": (7, 12), "far": (7, 12), "near": (10, 18)}
"""Pixels to the inch on a phone and on a desk; static/css/lay.css has the same. A long one is wider than the sheet on a desk too."""
NEAR_MM, LONG_MM = 1500, 2400
LETTER = 0.6  # of the size of type: the width of a bold letter, on average
TICKS = {"in": (float(MM_PER["yd"]) / 8, 4), "cm": (100.0, 5), "mm": (100.0, 5)}
"""Apart, mm; how many of them bear a figure."""
HALVES = ("", "½")


@dataclass(frozen=True)
class Sizes:
    zoom: str
    phone: float  # type on a phone, in millimetres of cloth
    desk: float


def sizes_of(lay: Mapping[str, Any]) -> Sizes:
    zoom = "near" if max(lay["length"], 2 * lay["usable"]) <= NEAR_MM else "far" if lay["length"] <= LONG_MM else "long"
    return Sizes(zoom, *(TEXT_PX * MM_PER_EM / px for px in ZOOMS[zoom]))


def lay_drawing(lay: Mapping[str, Any], numbers: Mapping[str, int], unit: str, *, told: str, links: str = "") -> SafeString:
    """The drawing; `numbers` has each piece's number, `told` says the whole of it in a sentence.

    With `links` every piece leads there, its name as `piece`: tapped, it is the one that is meant.
    """
    sizes = sizes_of(lay)
    lay = turned(lay)
    long, deep = drawn_length(lay), lay["deep"]
    left, top, low = 2.0, 2.8 * sizes.phone, 1.7 * sizes.phone
    width, height = long + 2 * left + 8, deep + top + low
    box = f"{-left:.1f} {-top:.1f} {width:.1f} {height:.1f}"
    lines = [
        f'<svg class="lay-drawing" width="{width / MM_PER_EM:.3f}em" height="{height / MM_PER_EM:.3f}em" viewBox="{box}" '
        f'role="{"group" if links else "img"}" aria-label="{escape(told)}">',
        f'<path class="lay-ground" d="M0 {deep - lay["usable"]:.2f}H{long:.2f}V{deep:.2f}H0Z"/>',
        *(f'<path class="lay-flaw" d="{path(ring)}"/>' for ring in lay.get("blocked", ())),
        *(cut_away(ring, numbers.get(name, "")) for ring, name in zip(lay.get("blocked", ()), lay.get("blocked_by", ()), strict=False)),
        *(line for placed in lay["placed"] for line in linked(piece(placed, lay, numbers, sizes), placed, links)),
        *(motif(placed, sizes) for placed in lay["placed"] if placed.get("motif")),
        *edges(lay, long, sizes),
        *ticks(lay, long, unit, sizes),
        "</svg>",
    ]
    return SafeString("".join(lines))


def drawn_length(lay: Mapping[str, Any]) -> float:
    """A crosswise fold halves what is seen."""
    return lay["length"] / (2 if lay["layout"] == "crosswise" else 1)


def deepest(lay: Mapping[str, Any]) -> float:
    return max([lay["usable"], lay.get("opened_usable", 0), *(x for placed in lay["placed"] for x, _ in placed["outline"])])


def turned(lay: Mapping[str, Any]) -> dict[str, Any]:
    """The lay with every x counted down from the far edge: drawn as (y, x) it is then turned, not mirrored. `deep` is x = 0."""
    deep = deepest(lay)

    def ring(outline: list) -> list:
        return [[deep - x, y] for x, y in outline]

    pieces = [each for each in lay["placed"] if not is_over_its_like(each, lay["placed"])]
    pieces = [each | {"over": any(is_over_its_like(other, [each]) for other in lay["placed"])} for each in pieces]
    placed = [
        each | {"outline": ring(each["outline"])} | ({"motif": ring([each["motif"]])[0]} if each.get("motif") else {})
        for each in pieces
    ]
    return {**lay, "placed": placed, "blocked": [ring(each) for each in lay.get("blocked", ())], "deep": deep}


def is_over_its_like(top: Mapping[str, Any], others: Iterable[Mapping[str, Any]]) -> bool:
    """Whether a piece of the upper layer alone lies exactly over one of the same name in the under layer: drawn once."""
    if top["layers"] != 1 or top.get("under"):
        return False
    return any(each.get("under") and each["piece"] == top["piece"] and each["outline"] == top["outline"] for each in others)


def edges(lay: Mapping[str, Any], long: float, sizes: Sizes) -> Iterator[str]:
    folded, crosswise = lay["layout"] == "folded", lay["layout"] == "crosswise"
    until, low = lay.get("opened_from", long) if folded else long, lay["deep"]
    far = low - lay["usable"]
    yield f'<path class="lay-edge" d="M0 {far:.2f}H{until:.2f}"/>'
    yield f'<path class="{"lay-fold" if folded else "lay-edge"}" d="M0 {low:.2f}H{until:.2f}"/>'
    yield f'<path class="lay-end" d="M0 {far:.2f}V{low:.2f}"/>'
    yield f'<path class="{"lay-fold" if crosswise else "lay-end"}" d="M{long:.2f} 0V{low:.2f}"/>'
    words = ("selvedges", "fold") if folded else ("selvedges" if crosswise else "selvedge", "selvedge")
    yield f'<text class="lay-word" x="0" y="{far - 0.35 * sizes.desk:.2f}">{words[0]}</text>'
    below = low + 1.25 * sizes.phone
    yield f'<text class="lay-word" x="0" y="{below:.2f}">{words[1]}</text>'
    if lay.get("one_way"):
        yield f'<text class="lay-word" x="{long:.2f}" y="{below:.2f}" text-anchor="end">one way: every top points left</text>'
    if lay.get("opened_from") is not None:
        at, top = lay["opened_from"], low - lay["opened_usable"]
        yield f'<path class="lay-opened" d="M{at:.2f} {low:.2f}V{top:.2f}H{long:.2f}M{at:.2f} {low:.2f}H{long:.2f}"/>'
        yield f'<text class="lay-word" x="{at:.2f}" y="{top - 0.35 * sizes.desk:.2f}">opened out from here</text>'


def ticks(lay: Mapping[str, Any], long: float, unit: str, sizes: Sizes) -> Iterator[str]:
    apart, group = TICKS[unit]
    high = 1.15 * sizes.phone
    for count in range(int(long / apart + 1e-9) + 1):
        at, figured = count * apart, count and count % group == 0
        yield f'<path class="lay-tick" d="M{at:.2f} {-high:.2f}v{-(0.5 if figured else 0.25) * sizes.phone:.2f}"/>'
        if figured and long - at > 4.2 * sizes.phone:
            figure = tick_words(count // group, unit)
            yield f'<text class="lay-word" x="{at:.2f}" y="{-1.75 * sizes.phone:.2f}" text-anchor="middle">{figure}</text>'
    yield f'<path class="lay-tick" d="M{long:.2f} {-high:.2f}v{-0.5 * sizes.phone:.2f}"/>'
    end = print_length(long, unit, with_unit=True)
    yield f'<text class="lay-name" x="{long:.2f}" y="{-1.75 * sizes.phone:.2f}" text-anchor="end">{end}</text>'


def tick_words(halves: int, unit: str) -> str:
    whole, half = divmod(halves, 2)
    if unit == "in":
        return f"{whole or ''}{HALVES[half]}\u00a0yd"
    return f"{whole}{'.5' if half else ''}\u00a0m"


def piece(placed: Mapping[str, Any], lay: Mapping[str, Any], numbers: Mapping[str, int], sizes: Sizes) -> Iterator[str]:
    yield f'<path class="lay-piece" d="{path(placed["outline"])}"/>'
    shape = Polygon([(y, x) for x, y in placed["outline"]])
    left, top, right, low = shape.bounds
    best = polylabel(shape, tolerance=max(min(right - left, low - top) / 20, 0.01))
    x, room = middle(shape, best)
    y = best.y - 0.1 * sizes.desk
    if placed.get("motif") and abs(placed["motif"][0] - best.y) < sizes.desk and abs(placed["motif"][1] - x) < room / 2:
        y += 1.6 * sizes.desk  # below the motif's mark
    name, number = escape(name_of(placed)), numbers.get(placed["piece"])
    whole = f"{number} {name}" if number else name
    words = len(whole) * LETTER
    if room > words * sizes.phone:
        yield text(whole, x, y)
    elif room > words * sizes.desk:
        yield text(whole, x, y, "at-desk") + text(number or "", x, y, "at-phone")
    else:
        yield text(number or "", x, y)
    yield arrow(placed, lay, x, y + 0.55 * sizes.desk, min(room * 0.35, 1.5 * sizes.desk), sizes.desk / 4)


def cut_away(ring: list, number: object) -> str:
    """The number of a piece that is cut already, where it lay."""
    at = polylabel(Polygon([(y, x) for x, y in ring]).buffer(0), tolerance=5)
    return text(number, at.x, at.y, "lay-cut")


def motif(placed: Mapping[str, Any], sizes: Sizes) -> str:
    """A ring with a cross in it where the print's motif must stand."""
    (x, y), arm = placed["motif"], 0.45 * sizes.desk
    ring = f"M{y - arm:.2f} {x:.2f}a{arm:.2f} {arm:.2f} 0 1 0 {2 * arm:.2f} 0a{arm:.2f} {arm:.2f} 0 1 0 {-2 * arm:.2f} 0"
    return f'<path class="lay-motif" d="{ring}h{2 * arm:.2f}M{y:.2f} {x - arm:.2f}v{2 * arm:.2f}"/>'


def linked(lines: Iterator[str], placed: Mapping[str, Any], links: str) -> Iterator[str]:
    if not links:
        yield from lines
        return
    yield f'<a class="lay-link" href="{escape(links + "?" + urlencode({"piece": placed["piece"]}))}">'
    yield f"<title>{escape(placed['piece'])}</title>"
    yield from lines
    yield "</a>"


def middle(shape: Polygon, best: Point) -> tuple[float, float]:
    """The middle of the piece at the height of its roomiest place, and how much room there is, mm."""
    left, _, right, _ = shape.bounds
    across = shape.intersection(LineString([(left - 1, best.y), (right + 1, best.y)]))
    parts = [part for part in getattr(across, "geoms", [across]) if part.bounds[0] - 1 <= best.x <= part.bounds[2] + 1]
    if not parts:
        return best.x, 0.0
    first, _, last, _ = parts[0].bounds
    return (first + last) / 2, (last - first) * 0.94


def arrow(placed: Mapping[str, Any], lay: Mapping[str, Any], x: float, y: float, half: float, barb: float) -> str:
    """Straight down the garment: an arrow at each end, on one-way cloth only toward the piece's top."""
    left, right = x - half, x + half
    to_left = f"M{left + barb:.2f} {y - barb / 2:.2f}L{left:.2f} {y:.2f}l{barb:.2f} {barb / 2:.2f}"
    to_right = f"M{right - barb:.2f} {y - barb / 2:.2f}L{right:.2f} {y:.2f}l{-barb:.2f} {barb / 2:.2f}"
    heads = (to_right if placed["turned"] else to_left) if lay.get("one_way") else to_left + to_right
    return f'<path class="lay-grain" d="M{left:.2f} {y:.2f}H{right:.2f}{heads}"/>'


def text(words: object, x: float, y: float, more: str = "") -> str:
    return f'<text class="lay-name{" " + more if more else ""}" x="{x:.2f}" y="{y:.2f}" text-anchor="middle">{words}</text>'


def name_of(placed: Mapping[str, Any]) -> str:
    words = placed["piece"]
    if placed.get("over"):
        return f"{words}, each layer by itself"
    if placed.get("under"):
        return f"{words}, under layer only"
    return f"{words}, mirrored" if placed["layers"] == 1 and placed["mirrored"] else words


def path(ring: list) -> str:
    return "M" + "L".join(f"{y:.2f} {x:.2f}" for x, y in ring) + "Z"
