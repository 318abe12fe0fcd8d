"""How a sleeve is sewn: its seams, notches and corners, its by-hand steps, what it takes beside cloth."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace

from ..blocks.sleeve import Sleeve
from ..path import Path
from ..piece import Notch, Piece
from ..report import Figure, Material
from ..seam import EdgeRef, Seam
from ..tolerance import INCH
from ..trace import Trace
from .sleeve_part import NOTCH_SHARE

Pair = Callable[..., None]


def parted_armholes(sleeve: Sleeve, pieces: tuple[Piece, ...], outer: str) -> tuple[Piece, ...]:
    """Return the pieces with the armholes of front (`outer`) and back parted where a cap sleeve ends: what lies below it
    is finished by itself."""
    if sleeve.covers is None:
        return pieces
    return tuple(_parted(piece, NOTCH_SHARE * length) if length else piece for piece, length in (
        (piece, _whole_armhole(sleeve, piece.name, outer)) for piece in pieces))


def _whole_armhole(sleeve: Sleeve, name: str, outer: str) -> float:
    shares = {outer: sleeve.covers[0], "back": sleeve.covers[1]}
    return shares.get(name, 0.0) / (1 - NOTCH_SHARE)


def _parted(piece: Piece, below: float) -> Piece:
    edges = []
    for edge in piece.edges:
        length = edge.path.length()
        if edge.name != "armhole" or length - below < INCH / 8:
            edges.append(edge)
            continue
        upper, lower = edge.path.split_at(length - below)
        edges += [replace(edge, name="armhole 1", path=upper), replace(edge, name="armhole 2", path=lower)]
    return replace(piece, edges=tuple(edges))


def sleeve_seams(sleeve: Sleeve, front_hole: tuple[EdgeRef, ...], back_hole: tuple[EdgeRef, ...]) -> list[Seam]:
    """Return the seams of a sleeve; `front_hole` and `back_hole` are the edges of each armhole half from the shoulder down."""
    if sleeve.covers is not None:
        halves = (("front", front_hole, sleeve.cap_front - sleeve.covers[0]), ("back", back_hole, sleeve.cap_back - sleeve.covers[1]))
        return [Seam(f"armhole, {half}", (("sleeve", f"cap {half}"),), _covered(hole), ease) for half, hole, ease in halves]
    seams = [
        Seam("armhole", (("sleeve", "cap"),), (*front_hole, *back_hole), sleeve.ease),
        Seam("sleeve", (("sleeve", "underarm front"),), tuple(("sleeve", name) for name in sleeve.back_seam)),
    ]
    if sleeve.band:
        round_ = sleeve.band.edge("sleeve edge").path.length()
        seams.append(Seam("sleeve band", (("sleeve", "hem"),), (("sleeve band", "sleeve edge"),), sleeve.hem.length() - round_))
        if not sleeve.opening:
            seams.append(Seam("ends of the sleeve band", (("sleeve band", "end"),), (("sleeve band", "other end"),)))
    return seams


def _covered(hole: tuple[EdgeRef, ...]) -> tuple[EdgeRef, ...]:
    """Return the part of an armhole half that a cap sleeve covers: all but its last edge."""
    return hole[:-1]


def notch_sleeve(sleeve: Sleeve, by_name: Mapping[str, Piece], outer: str, pair: Pair, found: dict[str, list[Notch]]) -> None:
    """Notch front (single) and back (double) at the same length from the underarm on armhole and cap alike, and the crown."""
    if sleeve.covers is not None:
        for half, piece, mark in (("front", outer, "single"), ("back", "back", "double")):
            edge = drawn_length(by_name[piece].edge("armhole 1").path)
            at = 0.0 if half == "front" else drawn_length(sleeve.piece.edge("cap back").path)
            pair(("sleeve", f"cap {half}"), at, (piece, "armhole 1"), edge, mark)
        found["sleeve"].append(Notch("cap front", drawn_length(sleeve.piece.edge("cap front").path)))
        return
    front, back = (by_name[name].edge("armhole").path.length() for name in (outer, "back"))
    cap = sleeve.piece.edge("cap").path
    at_front, at_back = (min(at, length) for at, length in ((sleeve_notch(by_name, outer), front), (NOTCH_SHARE * back, back)))
    pair(("sleeve", "cap"), at_front, (outer, "armhole"), front - at_front)
    pair(("sleeve", "cap"), cap.length() - at_back, ("back", "armhole"), back - at_back, "double")
    found["sleeve"].append(Notch("cap", cap.length() * sleeve.cap_front / (sleeve.cap_front + sleeve.cap_back)))
    if sleeve.opening:
        last = sleeve.back_seam[-1]
        length = sleeve.piece.edge(last).path.length()
        up = min(sleeve.opening, 0.6 * length)
        pair(("sleeve", "underarm front"), up, ("sleeve", last), length - up)


def drawn_length(path: Path) -> float:
    """Return a path's length as it is drawn, in short straight lines: a notch at the end of an edge lies no further, mm."""
    line = path.polyline()
    return sum(p.distance(q) for p, q in zip(line, line[1:], strict=False))


def sleeve_notch(by_name: Mapping[str, Piece], outer: str) -> float:
    """Return how far from the underarm the front's notch lies, mm: a share of the whole front armhole."""
    whole = sum(e.path.length() for name in {"front", outer} for e in by_name[name].edges if e.name.split(" ")[0] == "armhole")
    return NOTCH_SHARE * whole


def sleeve_corners(sleeve: Sleeve, piece: Piece):
    """Yield the sleeve's own corners: the underarm runs on from cap to cap, the hem from seam to seam."""
    if sleeve.kind in ("set-in", "short", "fitted"):
        first, last = sleeve.back_seam[0], sleeve.back_seam[-1]
        yield "sleeve's underarm", ((piece, "underarm front", "cap"), (piece, "cap", first))
        yield "sleeve's hem", ((piece, last, "hem"), (piece, "hem", "underarm front"))
    if piece.darts:
        yield "back seam over the elbow dart", ((piece, "underarm back 1", "dart 1 a"), (piece, "dart 1 b", "underarm back 2"))


def sleeve_figures(sleeve: Sleeve) -> tuple[Figure, ...]:
    """Return the sleeve's worked-out figures."""
    found = [Figure("sleeve cap", sleeve_cap_length(sleeve)), Figure("sleeve at the upper arm" if sleeve.covers is None else "cap sleeve, wide", sleeve.wide)]
    if sleeve.piece.darts:
        found.append(Figure("elbow dart", sleeve.piece.darts[0].width))
    if sleeve.kind in ("set-in", "fitted"):
        found.append(Figure("sleeve at the wrist", sleeve.hem.length()))
    found += [Figure(f"cap parts from the {one.name} armhole at the notch", one.apart) for one in sleeve.laid]
    return tuple(found)


def sleeve_cap_length(sleeve: Sleeve) -> float:
    """Return the length of the whole cap, mm."""
    return sum(e.path.length() for e in sleeve.piece.edges if e.name.startswith("cap"))


def tell_sleeve(sleeve: Sleeve, front_hole: Path, back_hole: Path, trace: Trace) -> None:
    """Record the by-hand steps, in chalking order."""
    piece = sleeve.piece
    if sleeve.covers is not None:
        _tell_cap_sleeve(sleeve, trace)
        return
    cap, hem = piece.edge("cap").path, sleeve.hem
    top = min(cap.polyline(), key=lambda point: point.y)
    trace.chalk("sleeve", "Rule the upper-arm line: {0} wide, {1} of it in front of the middle. Crown {2} above it.", cap.end.x - cap.start.x,
                abs(cap.start.x), -top.y, marks="cap", at=(cap.start, top, cap.end), why="The upper arm with its ease.")
    trace.chalk("sleeve", "Draw the cap through one turn of the curve in each half: front {0}, back {1}. Walk it round the armhole, {2} in front and {3} "
                "behind.", sleeve.cap_front, sleeve.cap_back, front_hole.length(), back_hole.length(), marks="cap",
                why="Height and width were solved for both halves of the armhole; all ease lies between the notches.")
    if piece.darts:
        _tell_fitted(sleeve, trace)
    else:
        seam = piece.edge("underarm back").path
        trace.chalk("sleeve", "Sleeve seam {0}, both alike; hem {1}, square to both.", seam.length(), hem.length(), marks="underarm hem", at=(seam.end,))
    for one in sleeve.laid:
        trace.chalk("sleeve", f"Lay the {one.name} of the cap over the {one.name} armhole, underarm on underarm, the upper-arm line on the underarm line. At "
                    "the notch they part by {0}.", one.apart, marks="cap", why="Below the notches cap and armhole lie on each other; over ½ in apart the "
                    "sleeve drags.")
    if sleeve.band:
        trace.chalk("sleeve band", "Cut a straight strip {0} long and {1} wide, folded along its middle"
                    + (", {2} of it to lap over." if sleeve.opening else "."), *_band_figures(sleeve), marks="sleeve",
                    why="The arm where the sleeve ends, and 1 in.")


def _tell_fitted(sleeve: Sleeve, trace: Trace) -> None:
    piece, dart = sleeve.piece, sleeve.piece.darts[0]
    upper, lower = (piece.edge(name).path for name in sleeve.back_seam)
    front = piece.edge("underarm front").path
    hinge = front.strokes[0].end
    trace.chalk("sleeve", "Elbow line {0} below the upper-arm line at the back: the elbow and 1 in wide, {1}. Taper to it alike on both sides.", upper.end.y,
                dart.legs[0].length() / 0.3, marks="underarm", at=(upper.end, hinge), why="A single taper to the wrist would be narrower than the elbow.")
    trace.chalk("sleeve", "Below it taper on to the wrist and 1½ in. Then turn the whole lower arm forward about the front's elbow point until the back seam "
                "opens by {0}: the dart, {1} long.", dart.width, dart.legs[0].length(), marks="underarm dart", at=(dart.point, lower.start),
                why="The arm hangs bent at the elbow.")
    trace.chalk("sleeve", "Round both seams over 2½ in at the elbow. Front seam {0}; back seam {1} and {2}, dart closed: as long. Hem {3}, square to both; "
                "leave the seam open {4} above it.", front.length(), upper.length(), lower.length(), sleeve.hem.length(), sleeve.opening, marks="underarm hem",
                at=(lower.end,), why="The hand must pass.")


def _tell_cap_sleeve(sleeve: Sleeve, trace: Trace) -> None:
    front, hem = sleeve.piece.edge("cap front").path, sleeve.hem
    crown = front.end
    trace.chalk("sleeve", "Rule a line {0} wide; crown {1} above it, {2} from its front end.", sleeve.wide, -crown.y, crown.x - front.start.x, marks="cap",
                at=(front.start, crown, hem.start), why="The width was solved from the armhole.")
    trace.chalk("sleeve", "Edge: front {0}, back {1}, in one curve, level at the crown. It goes from notch to notch: {2} of the front armhole and {3} of the "
                "back, {4} in all to ease.", sleeve.cap_front, sleeve.cap_back, *sleeve.covers, sleeve.ease, marks="cap")
    trace.chalk("sleeve", "Hem {0}, dipping ½ in below the line.", hem.length(), marks="hem")


def _band_figures(sleeve: Sleeve) -> tuple[float, ...]:
    piece = sleeve.band
    deep = piece.edge("other end").path.length()
    whole, sewn = piece.edge("inner edge").path.length(), piece.edge("sleeve edge").path.length()
    return (whole, deep, whole - sewn)


def sleeve_materials(sleeve: Sleeve) -> list[Material]:
    """Return what a sleeve takes beside cloth. Common practice, no source."""
    found = []
    if sleeve.covers is not None:
        below = sum(sleeve.covers) * NOTCH_SHARE / (1 - NOTCH_SHARE)
        found.append(Material("bias strip for each underarm, 1½ in wide", below + 2 * INCH, "mm", 2))
    if sleeve.kind == "fitted":
        found.append(Material("small buttons with loops, wrists", 8, "pieces"))
    if sleeve.band and sleeve.opening:
        found.append(Material("buttons, sleeve bands", 2, "pieces"))
    return found
