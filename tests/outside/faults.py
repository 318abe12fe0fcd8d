"""What is wrong with a result, found on its polygons alone: each function answers a list of sentences, empty if right.

Tolerances are the contract's: girths 0.05 in, mated seams 0.5 mm, joined corners 5 degrees, polylines 0.1 mm.
"""

from collections.abc import Iterator
from itertools import pairwise

from shapely import LineString, Point

from tests.outside.geometry import INCH, along, edge_of, interior_deg, length, named, ring, same_way, unseen_arc
from tests.outside.joins import JOINS
from tests.outside.top_faults import marked, top_faults

GIRTH = 0.05 * INCH
SEAM = 0.5
CORNER = 5.0
CURVE = 0.1
ON_LINE = 0.1


def all_faults(result: dict) -> list[str]:
    finders = (
        names, outlines, walks, cutting_lines, folds, girths, seams, sewn, notches, darts, dart_closings, corners, curves, top_faults,
    )  # fmt: skip
    return [fault for find in finders for fault in find(result)]


def names(result: dict) -> Iterator[str]:
    seen = [piece["name"] for piece in result["pieces"]]
    yield from (f"two pieces are called {name}" for name in set(seen) if seen.count(name) > 1)
    for piece in result["pieces"]:
        edges = [edge["name"] for edge in piece["edges"]]
        yield from (f"{piece['name']}: two edges {name}" for name in set(edges) if edges.count(name) > 1)
        if piece["of"] is not None and piece["of"] not in seen:
            yield f"{piece['name']} is made of {piece['of']}, which is no piece"


def outlines(result: dict) -> Iterator[str]:
    for piece in result["pieces"]:
        rings = [("net", piece["net"]), ("cut_line", piece["cut_line"])]
        rings += [(f"cut_line of {cut['cloth']}", cut["cut_line"]) for cut in piece["cut"] if "cut_line" in cut]
        for what, points in rings:
            polygon = ring(points)
            if points[0] == points[-1]:
                yield f"{piece['name']}: {what} is closed"
            if not polygon.is_valid or not polygon.exterior.is_simple or polygon.area < 100:
                yield f"{piece['name']}: {what} is not a simple outline"


def walks(result: dict) -> Iterator[str]:
    for piece in result["pieces"]:
        edges = piece["edges"]
        for before, after in zip([edges[-1], *edges[:-1]], edges, strict=True):
            gap = Point(before["line"][-1]).distance(Point(after["line"][0]))
            if gap > 1e-3:
                yield f"{piece['name']}: {after['name']} starts {gap:.3f} mm from the end of {before['name']}"
        walked = [point for edge in edges for point in edge["line"]]
        outline = ring(piece["net"]).exterior
        same = [a for a, b in pairwise([*walked, walked[0]]) if a != b] == piece["net"]
        off = 0.0 if same else LineString([*walked, walked[0]]).hausdorff_distance(outline)
        if off > ON_LINE:
            yield f"{piece['name']}: the edges stray {off:.3f} mm from net"
        total = sum(length(edge["line"]) for edge in edges)
        if abs(total - outline.length) > ON_LINE:
            yield f"{piece['name']}: the edges are {total:.2f} mm, net is {outline.length:.2f}"


def cutting_lines(result: dict) -> Iterator[str]:
    for piece in result["pieces"]:
        cut, net = ring(piece["cut_line"]), ring(piece["net"])
        if not cut.is_valid or not net.is_valid:
            continue  # told by outlines()
        if net.difference(cut).area > 0.01 and net.difference(cut.buffer(0.02)).area > 0.01:
            yield f"{piece['name']}: the cutting line does not hold net"
        for edge in piece["edges"]:
            whole = length(edge["line"])
            if edge["name"].startswith("dart") or whole < 4 * edge["allowance"]:
                continue
            reach = Point(along(edge["line"], whole / 2)).distance(cut.exterior)
            if abs(reach - edge["allowance"]) > 0.15:
                yield f"{piece['name']}: {edge['name']} is cut {reach:.2f} mm out, allowance {edge['allowance']:.2f}"


def folds(result: dict) -> Iterator[str]:
    for piece in result["pieces"]:
        fold = [edge for edge in piece["edges"] if edge["name"] == "fold"]
        if piece["on_fold"] != bool(fold):
            yield f"{piece['name']}: on_fold is {piece['on_fold']}, fold edges {len(fold)}"
        for edge in fold:
            if edge["allowance"] != 0 or any(abs(x) > 1e-6 for x, _ in edge["line"]):
                yield f"{piece['name']}: the fold is not at x = 0 without allowance"
        if fold and min(x for x, _ in piece["cut_line"]) < -1e-6:
            yield f"{piece['name']}: the cutting line crosses the fold"


def girths(result: dict) -> Iterator[str]:
    pieces = named(result)
    on = {stretch.get("piece") for girth in result["girths"] for stretch in girth["across"]}
    within = {name: (ring(piece["net"]).buffer(ON_LINE), edges_and_marks(piece)) for name, piece in pieces.items() if name in on}
    for girth in result["girths"]:
        level, total = girth["level"], 0.0
        for stretch in girth["across"]:
            if "gap" in stretch:
                total += stretch["gap"]
                continue
            line, (cloth, ends) = stretch["line"], within[stretch["piece"]]
            for end in (line[0], line[-1]):
                off = min(each.distance(Point(end)) for each in (*ends, *beside(stretch, girth)))
                if off > ON_LINE:
                    yield f"{level}: an end of the stretch on {stretch['piece']} is {off:.2f} mm off its outline"
            if not cloth.covers(LineString(line)) and LineString(line).difference(cloth).length > ON_LINE:
                yield f"{level}: the stretch on {stretch['piece']} leaves the piece"
            span = abs(line[-1][0] - line[0][0]) if stretch["by"] == "extent" else length(line)
            total += span * stretch["count"]
        if abs(total - girth["finished"]) > ON_LINE:
            yield f"{level}: the pieces come to {total:.2f} mm, finished says {girth['finished']:.2f}"
        wanted = girth["body"] + girth["ease"]
        if level in ("bust", "under_bust", "waist", "hip") and abs(total - wanted) > GIRTH:
            yield f"{level}: the pieces come to {total / INCH:.3f} in, body and ease to {wanted / INCH:.3f}"


def edges_and_marks(piece: dict) -> list:
    """Where a level may begin and end on a piece: its sewing line, a centre line or a dart inside it."""
    inside = [LineString(line) for kind in ("centre line", "dart") for line in marked(piece, kind)]
    return [ring(piece["net"]).exterior, *inside]


def beside(stretch: dict, girth: dict) -> list:
    """Where other stretches of the same piece begin and end: between two darts a level goes on through whole cloth."""
    others = [each["line"] for each in girth["across"] if each is not stretch and each.get("piece") == stretch["piece"]]
    return [Point(line[at]) for line in others for at in (0, -1)]


def seams(result: dict) -> Iterator[str]:
    pieces = named(result)
    for seam in result["seams"]:
        sides = []
        for side in ("a", "b"):
            run = sum(length(edge_of(pieces[ref["piece"]], ref["edge"])["line"]) for ref in seam[side])
            if abs(run - seam[f"length_{side}"]) > CURVE:
                yield f"{seam['name']}: side {side} measures {run:.3f}, says {seam[f'length_{side}']:.3f}"
            sides.append(run)
        if abs(sides[0] - sides[1] - seam["ease"]) > SEAM:
            yield f"{seam['name']}: {sides[0]:.2f} against {sides[1]:.2f} mm, ease {seam['ease']:.2f}"


FREE = ("fold", "top", "armhole", "hem", "centre back", "vent", "waist under lacing", "neck", "dart", "outer edge",
        "inner edge", "end", "other end", "overlap", "facing hem", "stand", "lower edge")
"""Edges that are faced, turned, hung or closed; where there is a lining they stand in a seam with it."""


def sewn(result: dict) -> Iterator[str]:
    """Every edge of an outside piece is sewn to something, but for those where the garment ends or opens."""
    plain = [piece["name"].removeprefix("left ").removeprefix("right ") for piece in result["pieces"]]
    tops = [name for name in plain if not name.startswith(("skirt", "waistband", "godet"))]
    hung = any(name.startswith("skirt" if tops else "waistband") for name in plain)
    free = FREE if hung else (*FREE, "waist", "basque edge", "lower edge")
    free += ("centre front",) if "fly shield" in plain else ()  # a fly's facing is cut on there
    met = {(ref["piece"], ref["edge"]) for seam in result["seams"] for ref in (*seam["a"], *seam["b"])}
    for piece in result["pieces"]:
        if piece["of"] is not None or piece["name"] == "modesty panel":
            continue
        fly = ("centre front",) if piece["name"].endswith("trousers front") else ()  # it opens there
        for edge in piece["edges"]:
            if not edge["name"].startswith((*free, *fly)) and (piece["name"], edge["name"]) not in met:
                yield f"{piece['name']}: {edge['name']} is in no seam"


def notches(result: dict) -> Iterator[str]:
    pieces = named(result)
    single = {}
    for seam in result["seams"]:
        if len(seam["a"]) == len(seam["b"]) == 1 and abs(seam["ease"]) < 1e-6:
            a, b = ((ref["piece"], ref["edge"]) for ref in (seam["a"][0], seam["b"][0]))
            single[a], single[b] = b, a
    for piece in result["pieces"]:
        for notch in piece["notches"]:
            where = f"{piece['name']}: notch on {notch['edge']} at {notch['at']:.1f}"
            if notch["edge"] not in [edge["name"] for edge in piece["edges"]]:
                yield f"{where}: no such edge"
                continue
            line = edge_of(piece, notch["edge"])["line"]
            if not -1e-6 <= notch["at"] <= length(line) + 1e-6:
                yield f"{where}: beyond the edge"
            mate = notch["mate"]
            if mate is None:
                continue
            other = pieces.get(mate["piece"])
            if other is None or mate["edge"] not in [edge["name"] for edge in other["edges"]]:
                yield f"{where}: its mate is on no edge"
                continue
            back = [n for n in other["notches"] if n["edge"] == mate["edge"] and abs(n["at"] - mate["at"]) < 0.01]
            if not back:
                yield f"{where}: there is no notch where its mate should be"
            if single.get((piece["name"], notch["edge"])) == (mate["piece"], mate["edge"]):
                theirs = edge_of(other, mate["edge"])["line"]
                reached = mate["at"] if same_way(line, theirs) else length(theirs) - mate["at"]
                if abs(reached - notch["at"]) > SEAM:
                    yield f"{where}: its mate is {reached:.1f} from the same end"


def darts(result: dict) -> Iterator[str]:
    for piece in result["pieces"]:
        for number, dart in enumerate(piece["darts"], 1):
            left, right = dart["legs"]
            if abs(length(left) - length(right)) > SEAM:
                yield f"{piece['name']}: dart {number} has legs of {length(left):.2f} and {length(right):.2f} mm"
            for leg in dart["legs"]:
                if Point(leg[-1]).distance(Point(dart["point"])) > 1e-3:
                    yield f"{piece['name']}: a leg of dart {number} misses its point"
                if ring(piece["net"]).exterior.distance(Point(leg[0])) > ON_LINE:
                    yield f"{piece['name']}: the mouth of dart {number} is not on net"


def dart_closings(result: dict) -> Iterator[str]:
    """Closed, the two parts of the edge that a dart opens on meet without a kink."""
    for piece in result["pieces"]:
        edges = [edge["name"] for edge in piece["edges"]]
        for first in [name for name in edges if name.startswith("dart") and name.endswith(" a")]:
            at = edges.index(first)
            second = f"{first[:-1]}b"
            if edges[(at + 1) % len(edges)] != second:
                yield f"{piece['name']}: {first} is not followed by {second}"
                continue
            before, after = edges[at - 1], edges[(at + 2) % len(edges)]
            meets = interior_deg(piece, before, first) + interior_deg(piece, second, after)
            if abs(meets - 180) > CORNER:
                yield f"{piece['name']}: closed, {first[:-2]} leaves a kink of {meets - 180:.1f} degrees"


def curves(result: dict) -> Iterator[str]:
    for piece in result["pieces"]:
        for edge in piece["edges"]:
            # What is neatened and sewn to nothing is itself drawn in strokes from point to point.
            limit = 2 * CURVE if edge["name"] == "outer edge" else CURVE
            if (unseen := unseen_arc(edge["line"])) > limit:
                yield f"{piece['name']}: {edge['name']} is drawn {unseen:.2f} mm short"


def corners(result: dict) -> Iterator[str]:
    pieces = named(result)
    for one, *one_edges, other, first, second in JOINS:
        if "side band" in pieces and "band" in (one, other) and "band seam" not in one_edges:
            continue  # then the side belongs to the side band
        if "middle cup" in pieces and {one, other} == {"centre cup", "side cup"}:
            continue  # then the middle cup lies between them
        if one in pieces and other in pieces and has_edges(pieces[one], one_edges) and has_edges(pieces[other], (first, second)):
            meets = corner_between(pieces[one], *one_edges) + corner_between(pieces[other], first, second)
            if abs(meets - 180) > CORNER:
                yield f"{one} and {other}: {one_edges[0]} and {one_edges[1]} join with a kink of {meets - 180:.1f} degrees"


def has_edges(piece: dict, names) -> bool:
    """Whether a piece has these edges, or numbered parts of them: a band ends at the waist or in a basque."""
    return set(names) <= {edge["name"].rstrip(" 0123456789") for edge in piece["edges"]}


def corner_between(piece: dict, first: str, second: str) -> float:
    """The inside angle where two edges meet, whichever comes first on the walk."""
    edges = [edge["name"] for edge in piece["edges"]]
    for before, after in zip(edges, [*edges[1:], edges[0]], strict=True):
        if {before.rstrip(" 0123456789").removesuffix(" godet"), after.rstrip(" 0123456789").removesuffix(" godet")} == {first, second}:
            return interior_deg(piece, before, after)
    raise AssertionError(f"{piece['name']}: {first} and {second} do not meet")
