"""What is wrong with a top's inside lines, its buttons and its sleeve's cap, found on the result alone; empty if right.

Limits: legs of a dart 0.5 mm; a dart ¼ in inside its piece; buttonholes on the centre line, a button within one button of the bust
level (common practice, no source).
"""

from collections.abc import Iterator
from itertools import pairwise

from shapely import LineString, Point, Polygon

from tests.outside.geometry import INCH, along, length

LEGS = 0.5
CLEAR = 0.25 * INCH
ON_LINE = 0.1
NOTCH_SHARE = 0.4
"""Notches of sleeve and armhole lie at 0.4 of each half from the underarm: the drafting method, section 7."""


def top_faults(result: dict) -> Iterator[str]:
    for piece in result["pieces"]:
        yield from inner_darts(piece)
        yield from buttons(piece, result)
    yield from caps(result)


def marked(piece: dict, kind: str) -> list:
    return [mark["line"] for mark in piece.get("marks", ()) if mark["kind"] == kind]


def inner_darts(piece: dict) -> Iterator[str]:
    """A dart with two points: four legs from its two sides at the waist, equal in pairs, well inside the piece."""
    legs = marked(piece, "dart")
    if len(legs) % 4:
        yield f"{piece['name']}: {len(legs)} legs are no whole darts"
        return
    net = Polygon(piece["net"])
    for number in range(0, len(legs), 4):
        dart = legs[number : number + 4]
        for one, other in (dart[:2], dart[2:]):
            if abs(length(one) - length(other)) > LEGS or Point(one[-1]).distance(Point(other[-1])) > ON_LINE:
                yield f"{piece['name']}: legs of {length(one):.2f} and {length(other):.2f} mm don't meet in a point"
        if any(Point(dart[side][0]).distance(Point(dart[side + 2][0])) > ON_LINE for side in (0, 1)):
            yield f"{piece['name']}: a dart's upper and lower half don't meet at the waist"
        lines = [LineString(leg) for leg in dart]
        if not all(net.contains(line) and net.exterior.distance(line) >= CLEAR - ON_LINE for line in lines):
            yield f"{piece['name']}: a dart comes nearer than ¼ in to the sewing line"


def buttons(piece: dict, result: dict) -> Iterator[str]:
    """Buttonholes lie level across the centre line, evenly above and below the bust, one of them at its level."""
    holes, spots, centres = (marked(piece, kind) for kind in ("buttonhole", "button", "centre line"))
    if not holes or not centres or not piece["name"].endswith("front"):
        return
    net, centre = Polygon(piece["net"]), LineString(centres[0])
    if len(holes) != len(spots):
        yield f"{piece['name']}: {len(holes)} buttonholes for {len(spots)} buttons"
    for hole in holes:
        line = LineString(hole)
        if not net.contains(line) or line.distance(centre) > ON_LINE:
            yield f"{piece['name']}: a buttonhole lies off the centre line or off the piece"
    levels = sorted(spot[0][1] for spot in spots)
    across = length(holes[0])
    if min(abs(level - result["levels"]["bust"]) for level in levels) > across:
        yield f"{piece['name']}: no button near the bust level"
    if any(b - a < across for a, b in pairwise(levels)):
        yield f"{piece['name']}: two buttonholes run into each other"


def caps(result: dict) -> Iterator[str]:
    """The cap laid over the armhole: both in their true length, from one underarm, parting by what is said."""
    for one in result.get("laid_over", ()):
        armhole, cap, name = one["armhole"], one["cap"], one["name"]
        half, _, side = name.partition(", ")
        pieces = {"front": ("front", "side front"), "back": ("back",)}[half]
        pieces += tuple(f"{side or 'right'} {piece}" for piece in pieces)
        whole = sum(length(e["line"]) for p in result["pieces"] if p["name"] in pieces for e in p["edges"]
                    if e["name"] in ("armhole", f"armhole, {side or 'right'}"))
        if whole and abs(length(armhole) - whole) > ON_LINE:
            yield f"cap over {name} armhole: drawn {length(armhole):.1f} mm, on the pieces {whole:.1f}"
        if Point(armhole[-1]).distance(Point(cap[0])) > ON_LINE:
            yield f"cap over {name} armhole: they don't begin at one underarm"
        apart = Point(along(cap, NOTCH_SHARE * length(armhole))).distance(LineString(armhole))
        if abs(apart - one["apart"]) > ON_LINE:
            yield f"cap over {name} armhole: {apart:.2f} mm apart at the notch, says {one['apart']:.2f}"
