"""The by-hand steps of a gored, panelled or mermaid skirt that hangs from a basque."""

from __future__ import annotations

import math
from dataclasses import dataclass

from ..blocks.skirt_gores import Gore
from ..blocks.skirt_mermaid import MermaidPlan
from ..path import Path
from ..piece import Piece
from ..point import Point
from ..trace import Trace
from .skirt_gore_story import tell_below_narrowest, tell_godet
from .skirt_part import Skirt

PARTED = {4: "not at all: one gore a half", 6: "a third of the way across: half a gore beside the centre, a whole one beside the side",
          8: "half-way across: two gores a half"}


@dataclass(frozen=True, slots=True)
class HungFrom:
    """What the steps of a skirt say of the basque above it: the `piece` whose edge is traced from the point to a `seam`, what lies
    `closed` meanwhile, and in mm its depth at the centre front, the hip's, its drop at the centre back, the length of the front half's
    edge, of its part to that seam, and of the back half's with what lies under a lacing gap."""

    piece: str
    seam: str
    closed: str
    depth: float
    to_hip: float
    drop: float
    front: float
    centre_part: float
    back: float


def tell_hung_gores(above: HungFrom, skirt: Skirt, trace: Trace) -> None:
    """Record the steps for every gore below a basque."""
    drawn, made = skirt.shape.drawn, skirt.pieces
    half = len(drawn) // 2
    front, back = (sum(gore.sections[0].length() for gore in part) for part in (drawn[:half], drawn[half:]))
    trace.chalk("skirt front", f"Trace the basque's edge with its seams closed, front and back. Part it, straight down, {PARTED[skirt.shape.gores]}. Walk it "
                "against the basque: front {0} to {1}, back {2} to {3}.", front, above.front, back, above.back,
                marks="waist", why="The seam allowance lies outside it, so the pieces cut away are that much smaller than the basque."
                if skirt.waist_ease[0] <= 0 else "It is cut a little under, for it gives on the bias; tape holds it to the basque.")
    for gore, piece in zip(drawn, made, strict=False):
        _gore(skirt, gore, piece, trace)
    if made[-1].name == "godet":
        tell_godet(made[-1], trace)


def _gore(skirt: Skirt, gore: Gore, piece: Piece, trace: Trace) -> None:
    plan, name = skirt.plan, piece.name
    is_mermaid = isinstance(plan, MermaidPlan)
    flare = 0.0 if is_mermaid else plan.flare
    is_half = abs(gore.inner.start.x) < 1e-6
    middle = ("the fold" if piece.on_fold else "the centre back") if is_half else "its middle line"
    width, depths, ins = _above_the_hip(gore, flare, is_half)
    trace.chalk(name, f"Rule {middle}. Hip line {{0}} {'from it' if is_half else 'in all, half to each side'}; the basque's edge lies {{1}} above it toward the "
                "centre, {2} toward the side, along the seams.", width, *depths, marks="hip grain", at=(gore.outer.strokes[0].end,) if is_half else (),
                why="" if name.endswith("back") else
                "The edge is deeper toward the centre front, so the seams there are shorter; each meets its neighbour.")
    tops = "to its top" if is_half else "between their tops"
    trace.chalk(name, f"Above the hip {_coming_in(ins, is_half)}. Draw the edge {tops}, its own part of the traced one bent with the seams: {{2}}.", *ins,
                gore.sections[0].length(), marks="waist", at=(gore.sections[0].end,) if is_half else (),
                why="What the body still grows there, shared over all seams: no dart is left below the edge." if max(ins) > 0.1 else "")
    if piece.has_edge("waist under lacing"):
        trace.chalk(name, "Of that edge {0} next to the centre lies unsewn under the lacing.", piece.edge("waist under lacing").path.length(),
                    marks="waist-under-lacing")
    if is_mermaid:
        tell_below_narrowest(plan, gore.outer, gore.hem.length() / (1 if is_half else 2), name, trace)
        return
    trace.chalk(name, "From the hip rule each seam straight down, {0} to the hem; flaring, the hem measures {1} in all, square to both.",
                gore.outer.strokes[-1].length(), gore.hem.length(), marks="hem side",
                why="Every line of the gore runs out from one point, so the hem is as far from the hip line everywhere.")


def _coming_in(ins: tuple[float, float], is_half: bool) -> str:
    """Return how the seams toward the centre and the side run above the hip, which come in by `ins`."""
    if max(ins) <= 0.1:
        return "the seam runs straight" if is_half else "both seams run straight"
    if ins[0] <= 0.1:
        return "the seam toward the side comes in by {1}" + ("" if is_half else ", the one at the centre runs straight")
    return "the seam toward the centre comes in by {0}, the one toward the side by {1}"


def _above_the_hip(gore: Gore, flare: float, is_half: bool) -> tuple[float, tuple[float, float], tuple[float, float]]:
    """Return the hip line's length, and for the seams toward centre and side how far above the hip the edge lies and what each comes in."""
    inner = gore.inner if is_half else gore.inner.mapped(lambda point: Point(-point.x, point.y))
    left = (gore.hip_line.start.y - gore.inner.start.y, 0.0) if is_half else _steps(inner, flare)
    right = _steps(gore.outer, flare)
    return gore.hip_line.length(), (left[0], right[0]), (left[1], right[1])


def _steps(seam: Path, flare: float) -> tuple[float, float]:
    """Return how far a seam's uppermost stroke goes up along the flare's line from the hip, and how far in."""
    step = seam.strokes[0].end - seam.start
    return step.dot(Point(math.sin(flare), math.cos(flare))), step.dot(Point(math.cos(flare), -math.sin(flare)))
