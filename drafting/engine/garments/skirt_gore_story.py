"""The by-hand steps of a gored, panelled or mermaid skirt: one half gore in front, one behind, then all gores from these."""

from __future__ import annotations

from ..blocks.skirt_mermaid import MermaidPlan
from ..path import Path
from ..piece import Piece
from ..trace import Trace
from .skirt_part import Skirt

WORDS = {4: "a seam at the centre front, the sides and the centre back", 6: "the front gore on the fold, a seam through its quarter, the side",
         8: "a seam at the centre front, in the middle of each quarter, at the sides and the centre back"}


def tell_gores(skirt: Skirt, trace: Trace) -> None:
    """Record the steps for every gore; each is walked from its middle line outward, both sides alike."""
    gores = skirt.shape.gores
    for piece in skirt.pieces:
        if piece.name == "godet":
            tell_godet(piece, trace)
        else:
            _gore(skirt, piece, gores, trace)


def _gore(skirt: Skirt, piece: Piece, gores: int, trace: Trace) -> None:
    name = piece.name
    half = skirt.back if name.endswith("back") else skirt.front
    upper = skirt.plan.upper if isinstance(skirt.plan, MermaidPlan) else skirt.plan
    is_half = gores == 6 and name in ("skirt front", "skirt back")
    times, middle = (1, "the fold" if piece.on_fold else "the centre back") if is_half else (2, "its middle line")
    hem_at = half.hem.start.y - half.waist.sections[0].start.y
    trace.chalk(name, f"Rule {middle}: waist, hip line {{0}} down, hem {{1}} down.", upper.depth, hem_at, marks="grain",
                why=f"{gores} gores: {WORDS[gores]}.")
    trace.chalk(name, "Hip line {0} from " + middle + ("" if is_half else " to each side, {1} in all") + ". " +
                ("It curves up by {2}." if half.hip_line.start.y - half.hip_line.end.y > 0.1 else "It runs level."),
                half.hip_line.length(), times * half.hip_line.length(), half.hip_line.start.y - half.hip_line.end.y, marks="hip",
                at=(half.hip_line.end,) if is_half else ())
    if isinstance(skirt.plan, MermaidPlan):
        tell_below_narrowest(skirt.plan, half.side, half.hem.length(), name, trace)
    else:
        trace.chalk(name, "From there each edge runs straight down to the hem, which measures {0} from the middle and is square to both.", half.hem.length(),
                    marks="hem", why="Every line of the gore runs out from one point, so the hem is as far from the hip line everywhere.")
    for i, dart in enumerate(piece.darts, start=1):
        trace.chalk(name, f"Dart {i}: {{0}} wide, {{1}} long" + (", on the middle line." if len(piece.darts) == 1 and not is_half else "."), dart.width,
                    dart.legs[0].length(), marks=f"dart-{i}", at=(dart.point,), why="More than an edge should take in one curve.")
    waist = sum(e.path.length() for e in piece.edges if e.name.startswith("waist"))
    trace.chalk(name, "Waist {0} in all, darts closed; it rises by {1} from the middle to each edge and is square to both.", waist,
                half.waist.sections[0].start.y - half.waist.end.y, marks="waist",
                why="Cut under for the bias; tape holds it to the waist." if skirt.waist_ease[0] > 0 else "All gores together meet the waist edge for edge.")
    if piece.has_edge("waist under lacing"):
        trace.chalk(name, "Of that waist {0} next to the centre lies unsewn under the lacing.", piece.edge("waist under lacing").path.length(),
                    marks="waist-under-lacing")
    trace.chalk(name, ("Curve each edge from the waist to the hip, coming inward by {0} at the waist. " if half.side_take > 0.1 else
                       "Rule each edge from the waist on. ") + "Each seam measures {1}, all alike.", half.side_take, half.side.length(),
                marks="side", at=(half.waist.end,) if is_half else ())


def tell_below_narrowest(plan: MermaidPlan, side: Path, hem: float, name: str, trace: Trace) -> None:
    """Record a mermaid's gore from the hip down; `side` is its seam, drawn about its middle, `hem` half its hem."""
    top, out, end = side.strokes[1].end, side.strokes[2].end, side.strokes[3].end
    trace.chalk(name, "Narrowest line {0} below the waist: {1} from the middle; each edge comes in {2} from the hip, straight down at both ends.", plan.below,
                top.x, plan.taper, marks="narrow", why="A hand's breadth above the knee, as wide as a short step needs.")
    trace.chalk(name, "From there bend each edge outward over {0}, then rule it to the hem, {1} from the middle. The hem measures {2} from the middle, square to both.",
                out.y - top.y, end.x, hem, marks="hem")


def tell_godet(piece: Piece, trace: Trace) -> None:
    """Record the one step of a godet."""
    trace.chalk("godet", "On folded paper swing an arc of {0} about a point on the fold and mark {1} along it: half the godet.",
                piece.edge("side").path.length(), piece.edge("hem").path.length(), marks="side hem",
                why="Its sides are as long as the opening below the narrowest line, so its hem lies evenly.")
