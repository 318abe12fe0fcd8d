"""Bodice and fitted dress: a darted bodice, with or without sleeves, alone or with a skirt mated to its waist."""

from __future__ import annotations

from dataclasses import dataclass, replace

from ..blocks.armhole import Armhole, armhole
from ..blocks.basque import Basque, basque_for
from ..blocks.basque_skirt import Traced
from ..blocks.bodice import Block, back_block, closed_side, front_block, moved_end, shoulder_darted
from ..blocks.bodice_basque import back_waist, front_waist, pointed_back, pointed_front, traced_below
from ..blocks.panel import modesty_panel
from ..blocks.neck import Shoulder, shoulder_seam
from ..blocks.neck_shapes import Neck, neck_of
from ..blocks.princess import Panels, armhole_princess, shoulder_princess
from ..blocks.sleeve import Sleeve
from ..bodice_quarters import BodiceQuarters, bodice_quarters
from ..body import Body, body_from
from ..curve import Line
from ..errors import NoSolution, UnknownChoice
from ..layers import Layers
from ..path import Path
from ..piece import Piece
from ..point import Point
from ..report import Warning_
from ..rules import BODICE_RULES, FITTED_DRESS_RULES, Rules
from ..solve import root
from ..spec import GarmentSpec
from ..tolerance import INCH
from .dress_closing import DressClosing, closing_of, opened_neck
from .skirt_part import Skirt, skirt_part
from .sleeve_part import sleeve_needs, sleeve_part

NEEDS = ("bust", "under_bust", "waist", "shoulder", "shoulder_to_bust", "shoulder_to_under_bust", "shoulder_to_waist", "armhole_depth")
REACH = {"across_front": 0.25 * INCH, "across_back": 0.75 * INCH}
"""A sleeved bodice is this much wider across than the body, so that the arms can reach."""

BACK_SHOULDER_EASE = 0.25 * INCH
MOST_SHIFT = 1.0 * INCH
LEAST_PRINCESS = 0.5 * INCH
"""A princess seam takes at least this much at the waist; narrower, it is only a line. Judgement."""


@dataclass(frozen=True)
class Dress:
    """All that was drawn, for the reports to read. `shift` is what moved from front to back to make the armholes alike."""

    spec: GarmentSpec
    body: Body
    rules: Rules
    layers: Layers
    q: BodiceQuarters
    neck: Neck
    shoulder: Shoulder
    front: Block
    panels: Panels | None
    back: Block
    sleeve: Sleeve | None
    skirt: Skirt | None
    skirt_lining: Skirt | None
    shift: float
    shoulder_ease: float
    front_hole: Path
    closing: DressClosing
    modesty: Piece | None
    warnings: tuple[Warning_, ...]
    basque: Basque | None = None
    traced: Traced | None = None


def draw_dress(spec: GarmentSpec) -> Dress:
    """Draw every block; raises DraftingError where one can't be right."""
    rules = Rules(spec.rules, str(spec.options["fit"]), FITTED_DRESS_RULES if "skirt.kind" in spec.options else BODICE_RULES)
    layers = Layers(spec.layers, bool(spec.options["lined"]))
    sleeve_kind, with_skirt = str(spec.options["sleeve.kind"]), spec.options.get("skirt.kind", "none") != "none"
    needs = NEEDS + (("hip",) if with_skirt else ()) + sleeve_needs(spec)
    warnings = rules.check()
    body = body_from(spec.measures, rules, needs=needs)
    shaped = reaching(body) if sleeve_kind != "none" else body
    ease = BACK_SHOULDER_EASE if sleeve_kind != "none" else 0.0
    shift = equal_armholes(shaped, rules) if sleeve_kind != "none" else 0.0
    darts = str(spec.options["darts"])
    q, found = bodice_quarters(body, rules, shifted=shift, least_front=LEAST_PRINCESS if darts.startswith("princess") else 0.0)
    front_hole, held = armhole(shaped, q, half="front")
    back_hole, held_back = armhole(shaped, q, half="back")
    warnings += found + held + held_back
    seam = shoulder_seam(body, q)
    neck = neck_of(str(spec.options["neckline"]), body, rules, seam, q.front.bust, spec.alterations)
    basque, found = _basque(spec, body, rules, q)
    warnings += found
    foot = q.side.waist + (basque.back if basque else 0.0)
    closing, found = closing_of(str(spec.options["closure"]), rules, q, neck, foot)
    warnings += found
    front, panels, back, found = _blocks(q, neck, seam, front_hole, back_hole, ease, darts, closing, spec.alterations.get("back_waist", 0.0), basque)
    warnings += found
    skirt = skirt_lining = traced = None
    if with_skirt:
        nets = tuple(sum(section.length() for section in block.lower.sections) for block in (front, back))
        traced = traced_below(front, back, basque, q.bust_point, closing.gap) if basque else None
        skirt, found = skirt_part(spec, body, rules, q, nets, closing.gap, traced=traced)
        warnings += found
        if layers.lined:
            skirt_lining, _ = skirt_part(spec, body, rules, q, nets, closing.gap, lining=True, traced=traced)
    sleeve = None
    if sleeve_kind != "none":
        sleeve, found = sleeve_part(spec, body, rules, front_hole.path, back.armhole)
        warnings += found
    modesty = modesty_panel(rules, back.neck.start.y, foot) if closing.gap else None
    return Dress(spec, body, rules, layers, q, neck, seam, front, panels, back, sleeve, skirt, skirt_lining, shift, ease, front_hole.path, closing, modesty,
                 tuple(warnings + layers.warnings()), basque, traced)


def _basque(spec: GarmentSpec, body: Body, rules: Rules, q: BodiceQuarters) -> tuple[Basque | None, list[Warning_]]:
    if spec.options["waist"] != "basque":
        return None, []
    if spec.alterations.get("back_waist"):
        raise UnknownChoice("waist", "basque", ("straight",), why="A basque lies over the hollow of the back: where the fit notes move the back's waist, "
                            "it needs a straight one.")
    return basque_for(body, rules, q)


def reaching(body: Body) -> Body:
    """Return the body with the across measures that a sleeved bodice needs."""
    wider = {key: min(body[key] + more, body["shoulder"]) for key, more in REACH.items()}
    return replace(body, measures={**body.measures, **wider})


def equal_armholes(body: Body, rules: Rules) -> float:
    """Return x, which moves from the front's bust quarter to the back's so that both armholes are equally long."""
    def longer(x: float) -> float:
        q, _ = bodice_quarters(body, rules, shifted=x)
        front, back = (armhole(body, q, half=half)[0].path.length() for half in ("front", "back"))
        return front - back

    if longer(0.0) <= 0:
        return 0.0
    try:
        return root(longer, 0.0, MOST_SHIFT, name="shift between the armholes", within=1e-6)
    except NoSolution:
        return MOST_SHIFT


def _blocks(q: BodiceQuarters, neck: Neck, seam: Shoulder, front_hole: Armhole, back_hole: Armhole, ease: float, darts: str,
            closing: DressClosing, raised: float, basque: Basque | None) -> tuple[Block, Panels | None, Block, list[Warning_]]:
    along = (seam.tip - seam.neck).unit()
    front_shoulder = Path.of(Line(neck.end, seam.tip))
    back_tip = seam.tip + along * ease
    slide = back_tip - seam.tip
    back_arm = back_hole.path if not ease else Path((moved_start(back_hole.path.strokes[0], slide), *back_hole.path.strokes[1:]))
    back = back_block(q, opened_neck(neck.back, closing), Path.of(Line(neck.end, back_tip)), back_arm, closing.gap / 2,
                      back_waist(q, closing.gap / 2) if basque else None, raised)
    front, warnings = front_block(q, neck.front, front_shoulder, front_hole.path, back.side_length(), front_waist(q) if basque else None)
    panels = None
    if darts in ("shoulder", "princess-shoulder"):
        front = shoulder_darted(front, q.bust_point)
    if darts == "princess-shoulder":
        panels = shoulder_princess(front, q.bust_point)
    elif darts == "princess-armhole":
        side, move = closed_side(front, q.bust_point) if len(front.side) == 2 else (front.side[0], 0.0)
        front = replace(front, waist=moved_end(front.waist, move))
        panels = armhole_princess(front, q.bust_point, side)
    if basque:
        front, panels = pointed_front(front, panels, basque, q.bust_point)
        back = pointed_back(back, basque)
    return front, panels, back, warnings


def moved_start(stroke, slide: Point):
    """Return the armhole's upper curve with its start (and the handle there) slid along the shoulder."""
    return replace(stroke, start=stroke.start + slide, out=stroke.out + slide)
