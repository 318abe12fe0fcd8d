"""The skirt of a whole garment, for any top that says how long its waist edges are."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Protocol

from ..blocks.basque_skirt import Traced
from ..blocks.skirt import SkirtHalf
from ..blocks.skirt_gore_pieces import godet_piece, gore_pieces
from ..blocks.skirt_hem import HemLengths, hem_allowance, lengthened_half
from ..blocks.skirt_pieces import skirt_back, skirt_front, vent_height
from ..blocks.skirt_walking import SHORT_STEP, USUAL_HEIGHT, USUAL_KNEE, walking_warnings
from ..body import Body
from ..errors import ImpossibleMeasure, UnknownChoice
from ..path import Path
from ..piece import Piece
from ..report import Girth, Stretch, Warning_
from ..rules import Rules
from ..spec import GarmentSpec
from ..tolerance import INCH
from ..zips import SKIRT_ZIP
from .basque_part import hung_lining, hung_shape
from .skirt_shapes import Shape, lining_under, shape_of


class HasWaist(Protocol):
    """Levels with a waist."""

    waist: float


class AnyQuarters(Protocol):
    """What a skirt must know of what it hangs from: waist levels front and side, and the eases, mm."""

    front: HasWaist
    side: HasWaist
    ease_waist: float
    ease_hip: float


LINING_HIP = 0.125 * INCH
LINING_SHORTER = 1.0 * INCH
LINING_HEM = 1.0 * INCH
SHORTEST_BELOW_HIP = 2 * INCH
CIRCLE_UNDER = 0.5 * INCH

LEAST_OPENING = 2 * INCH
"""Below a basque a skirt still opens so far, or its closing could not be sewn in. Judgement."""

STEEPEST_HEM = 1.2
"""A hem that falls by more than this per length (50 degrees) runs down rather than along. Judgement."""


@dataclass(frozen=True, slots=True)
class Skirt:
    """One layer of the skirt: its drawn shape and its pieces, front to back. `waist_ease` is by how much the top's waist is longer
    than the skirt's, front and back (negative where the skirt is gathered); `hip_lines` lie on the pieces that they name."""

    shape: Shape
    front: SkirtHalf
    back: SkirtHalf
    pieces: tuple[Piece, ...]
    hip_lines: tuple[tuple[str, Path], ...]
    lengths: HemLengths
    vent: float
    opening: float
    length: float
    waist_ease: tuple[float, float] = (0.0, 0.0)

    @property
    def plan(self):
        """The figures that the shape was drawn from."""
        return self.shape.plan

    @property
    def hem_round(self) -> float:
        """The hem all round, mm, godets included."""
        return sum(2 * piece.repeats * piece.edge("hem").path.length() for piece in self.pieces)

    @property
    def ends_alike(self) -> bool:
        """Whether the skirt is equally long all round."""
        return self.lengths.is_plain


def skirt_part(
    spec: GarmentSpec, body: Body, rules: Rules, q: AnyQuarters, top_waist: tuple[float, float], gap: float, *, lining: bool = False,
    traced: Traced | None = None
) -> tuple[Skirt, list[Warning_]]:
    """Draw the skirt that meets a top's front and back waist (mm, a quarter each, lacing gap left out); `traced` is the edge of a
    basque, where it hangs from one.

    Raises ImpossibleMeasure for one that ends above the hip line, and whatever its shape refuses.
    """
    if lining:
        spec = _of_lining(spec)
    depth, length = body["waist_to_hip"], float(spec.options["skirt.length"])
    _long_enough("skirt.length", length, depth)
    kind = str(spec.options["skirt.kind"])
    hip = (body["hip"] + q.ease_hip) / 4
    net, waist_y = (top_waist[0], top_waist[1] + gap / 2), (q.front.waist, q.side.waist)
    eases = waist_eases(spec, net)
    own_hip = hip + (LINING_HIP if lining and kind not in ("circle", "gathered") else 0.0)
    if traced:
        shape = hung_shape(spec, body, rules, own_hip, traced, waist_y, length, length, eases)
        if kind == "gathered":
            eases = net[0] - shape.front.waist.length, net[1] - shape.back.waist.length
    else:
        shape = shape_of(spec, body, rules, own_hip, (net[0] - eases[0], net[1] - eases[1]), waist_y, length, length)
    lengths = hem_lengths(spec, shape, depth, traced.depths if traced else (0.0, 0.0, 0.0))
    cut_length = length
    if lining:
        cut_length = length - LINING_SHORTER
        if kind in ("circle", "gathered"):
            eases = (0.0, 0.0)
            shape = (hung_lining(shape, body, hip + LINING_HIP, traced, waist_y, cut_length) if traced
                     else lining_under(shape, body, hip + LINING_HIP, net, waist_y, cut_length))
        elif traced:
            shape = hung_shape(spec, body, rules, hip + LINING_HIP, traced, waist_y, cut_length, length, eases)
        else:
            shape = shape_of(spec, body, rules, hip + LINING_HIP, net, waist_y, cut_length, length)
        lengths = replace(lengths, across_front=shape.hems[0], across_back=shape.hems[1])
    front, back = (lengthened_half(half, lengths, is_back=half is shape.back) if not shape.gores else half for half in (shape.front, shape.back))
    vent, walk = _walking(body, shape, length, lining=lining)
    vent = spec.alterations.get("vent", vent)  # left and right are vented alike
    hem, held = hem_allowance((gore.hem for gore in shape.drawn) if shape.gores else (front.hem, back.hem), LINING_HEM if lining else rules["hem"])
    pieces, lines = _pieces(shape, (front, back), rules, lengths, hem, gap / 2, max(0.0, vent - (length - cut_length)))
    opening = _opening(body, q, kind, depth)
    if traced:
        opening = max(LEAST_OPENING, opening - traced.drop)
    made = Skirt(shape, front, back, pieces, lines, lengths, vent, opening, cut_length, eases)
    return made, [*shape.warnings, *held, *walk]


def _long_enough(key: str, length: float, depth: float) -> None:
    if length < depth + SHORTEST_BELOW_HIP:
        raise ImpossibleMeasure(key, length, "A skirt {value} long ends above the hip line; it must be at least {needed}.",
                                needed=depth + SHORTEST_BELOW_HIP)


def _of_lining(spec: GarmentSpec) -> GarmentSpec:
    """A lining has no godets, its own flare must do; a hem that was asked for is wider by as much as its hips are."""
    options = dict(spec.options)
    if options.get("skirt.godets"):
        options["skirt.godets"] = False
    if options.get("skirt.sweep"):
        options["skirt.sweep"] = float(options["skirt.sweep"]) + 4 * LINING_HIP
    return replace(spec, options=options)


def hem_lengths(spec: GarmentSpec, shape: Shape, depth: float, above: tuple[float, float, float] = (0.0, 0.0, 0.0)) -> HemLengths:
    """Return how much longer than the plain hem the side and the back are to be; a train lengthens the back alone. `above` is what of
    the side, the back and the front lies above the skirt's edge, in a basque.

    A length is measured down the cloth from the waist: at the centres straight down, at the side along the seam. A side that was
    not given lies half-way between front and back, a train left out. Raises ImpossibleMeasure for a hem too steep to be one.
    """
    o = spec.options
    asked = {key: float(o[f"skirt.{key}"]) for key in ("length_side", "length_back", "train") if o.get(f"skirt.{key}")}
    if not asked:
        return HemLengths(0.0, 0.0, 0.0, *shape.hems)
    for key in ("length_side", "length_back"):
        if key in asked:
            _long_enough(f"skirt.{key}", asked[key], depth)
    if o.get("skirt.godets"):
        raise UnknownChoice("skirt.godets", True, ("a skirt without godets, or one equally long all round",), why="Godets are cut for one length.")
    centre_front, centre_back = shape.centre_lengths
    back_plain = centre_back + above[1]
    back = asked.get("length_back", back_plain) - back_plain
    side = asked["length_side"] - shape.front.side.length() - above[0] if "length_side" in asked else back / 2
    front = float(o["skirt.length"]) - centre_front - above[2] if shape.seamed else 0.0
    lengths = HemLengths(front, side, back + asked.get("train", 0.0), *shape.hems)
    if _steepest(lengths) > STEEPEST_HEM:
        _refuse_steep(lengths, asked)
    return lengths


def _steepest(lengths: HemLengths) -> float:
    """Return the greatest fall of the hem per length of it."""
    return max(abs(lengths.at(lengths.whole * i / 40)[1]) for i in range(41))


def _refuse_steep(lengths: HemLengths, asked: dict[str, float]) -> None:
    """Raise ImpossibleMeasure for a hem that falls too fast, with the train that would do where there is one."""
    if "train" in asked:
        low, high = 0.0, asked["train"]
        for _ in range(30):
            middle = (low + high) / 2
            fits = _steepest(replace(lengths, back=lengths.back - asked["train"] + middle)) <= STEEPEST_HEM
            low, high = (middle, high) if fits else (low, middle)
        raise ImpossibleMeasure("skirt.train", asked["train"], "This skirt's hem is too narrow for a train of {value}: it would run down more than along. "
                                "At most {needed} fits; choose a wider skirt for more.", needed=low)
    key = "length_back" if "length_back" in asked else "length_side"
    raise ImpossibleMeasure(f"skirt.{key}", asked[key], "With {value} the hem would run down more than along: from front to back it is only {needed} "
                            "long. Choose lengths nearer to each other, or a wider skirt.", needed=lengths.whole)


def _pieces(shape: Shape, halves: tuple[SkirtHalf, SkirtHalf], rules: Rules, lengths: HemLengths, hem: float, under_lacing: float,
            vent: float) -> tuple[tuple[Piece, ...], tuple[tuple[str, Path], ...]]:
    front, back = halves
    if not shape.gores:
        pieces = skirt_front(front, rules, hem=hem), skirt_back(back, rules, hem=hem, under_lacing=under_lacing, vent=vent)
        return pieces, (("skirt front", front.hip_line), ("skirt back", back.hip_line))
    godet = getattr(shape.plan, "godet", 0.0)
    made = gore_pieces(shape.drawn, rules, lengths, hem=hem, under_lacing=under_lacing, godets=bool(godet))
    if not godet:
        return made.pieces, made.hip_lines
    seam = made.pieces[0].edge("front seam godet").path.length()
    hem_godet, _ = hem_allowance((made.pieces[0].edge("hem").path,), hem)
    return (*made.pieces, godet_piece(seam, shape.plan.spread, rules, hem=hem_godet, count=shape.gores)), made.hip_lines


def waist_eases(spec: GarmentSpec, net: tuple[float, float]) -> tuple[float, float]:
    """Return by how much each quarter of the top's waist is longer than the skirt's: a circle's gives on the bias and is cut ½ in
    under all round, a gathered skirt is fuller."""
    kind = spec.options["skirt.kind"]
    if kind == "circle":
        return CIRCLE_UNDER / 4, CIRCLE_UNDER / 4
    if kind == "gathered":
        more = float(spec.options["skirt.fullness"]) - 1.0
        return -more * net[0], -more * net[1]
    return 0.0, 0.0


def _walking(body: Body, shape: Shape, length: float, *, lining: bool) -> tuple[float, list[Warning_]]:
    """Return the height of a straight skirt's vent, and what the wearer's step says to the skirt at every level."""
    height, knee = body.measures.get("height", USUAL_HEIGHT), body.measures.get("knee", USUAL_KNEE)
    depth, step = body["waist_to_hip"], SHORT_STEP if shape.kind == "mermaid" else None
    if lining and shape.kind != "straight":
        return 0.0, []
    if shape.kind == "straight":
        vent, found = vent_height(shape.girth_at, length, depth, height, knee)
    else:
        start = shape.plan.below if step else depth
        vent, found = 0.0, walking_warnings(shape.girth_at, depth, length, height, knee, start=start, **({"step": step} if step else {}))
    if (vent or found or step) and not {"height", "knee"} <= body.measures.keys():
        found.append(Warning_("walking-assumed", "Height or knee were not measured: the step is reckoned for {0} tall and a knee of {1}.",
                              (height, knee)))
    return vent, found


def _opening(body: Body, q: AnyQuarters, kind: str, depth: float) -> float:
    """Return how far below the waist the skirt must open to pass over the hips: waist + 2z at least hip + 1 in, and a usual zip's length where
    there is room above the hip line."""
    most = depth - INCH
    if kind in ("straight", "mermaid"):
        return most
    needed = (body["hip"] + INCH - (body["waist"] + q.ease_waist)) / 2
    return min(max(SKIRT_ZIP, needed), most)


def hip_girth(skirt: Skirt, body: Body, ease: float) -> Girth:
    """Return the finished hip along the skirt's hip line; a flared or gathered skirt has more `ease` (mm) than was asked for."""
    meant = 2 * sum(line.length() for _, line in skirt.hip_lines) - body["hip"]
    return Girth("hip", body["hip"], max(ease, meant), tuple(Stretch(name, line.polyline(), "length", 2) for name, line in skirt.hip_lines))
