"""The blouse: a darted bodice that goes on to the hip, open down the front, with or without collar and sleeves."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from ..blocks.armhole import armhole
from ..blocks.blouse import Below, back_fish_eyes, below_waist, front_fish_eyes, lengthened, level_waist
from ..blocks.bodice import Block, back_block, front_block, shoulder_darted
from ..blocks.button_stand import BUTTON_RULES, ButtonStand, button_stand
from ..blocks.collar import Collar, depth_of, flat_collar, stand_collar
from ..blocks.fish_eye import FishEye
from ..blocks.neck import Shoulder, shoulder_seam
from ..blocks.neck_shapes import Neck, neck_of
from ..blocks.sleeve import Sleeve
from ..bodice_quarters import BodiceQuarters, bodice_quarters
from ..body import Body, body_from
from ..curve import Line
from ..errors import UnknownChoice
from ..layers import Layers
from ..path import Path
from ..report import Warning_
from ..rules import DRESS_RULES, HouseRule, Rules
from ..spec import GarmentSpec
from ..tolerance import INCH
from .dress import BACK_SHOULDER_EASE, NEEDS, equal_armholes, moved_start, reaching
from .sleeve_part import sleeve_needs, sleeve_part

BLOUSE_NEEDS = (*NEEDS, "hip")
BLOUSE_RULES = (
    *(rule for rule in DRESS_RULES if rule.key not in ("hem", "centre_back_allowance")),
    HouseRule("hem", "hem allowance", None, 0, 6),
    *BUTTON_RULES,
    HouseRule("collar_depth", "collar depth", None, 0.75, 4),
)
"""What a blouse can be told."""

HEM = 1.0 * INCH
"""A blouse is turned up by so much unless the house says otherwise. Common practice, no source."""

BUTTON_ABOVE_HEM = 3.0 * INCH
"""The lowest button keeps so far from the hem, that the fronts part when she sits. Common practice, no source."""

BUTTON_UNDER_STAND = 1.75 * INCH
"""Under a stand collar, which has a button of its own, the next one lies so far below the neck. Common practice, no source."""


@dataclass(frozen=True)
class Blouse:
    """All that was drawn, for the reports to read. Waist darts are `front_darts` and `back_darts`, inside the pieces."""

    spec: GarmentSpec
    body: Body
    rules: Rules
    layers: Layers
    q: BodiceQuarters
    neck: Neck
    shoulder: Shoulder
    front: Block
    back: Block
    front_darts: tuple[FishEye, ...]
    back_darts: tuple[FishEye, ...]
    below: Below
    stand: ButtonStand
    collar: Collar | None
    sleeve: Sleeve | None
    shift: float
    shoulder_ease: float
    warnings: tuple[Warning_, ...]

    @property
    def cut_on(self) -> bool:
        """Tell whether the front facing is cut in one with the front."""
        return self.spec.options["facing"] == "cut-on"


def draw_blouse(spec: GarmentSpec) -> Blouse:
    """Draw every block; raises DraftingError where one can't be right."""
    rules = Rules(spec.rules, str(spec.options["fit"]), BLOUSE_RULES)
    layers = Layers(spec.layers, False)
    sleeved = spec.options["sleeve.kind"] != "none"
    _check_collar(spec.options)
    warnings = rules.check()
    body = body_from(spec.measures, rules, needs=(*BLOUSE_NEEDS, *sleeve_needs(spec)))
    shaped, ease = (reaching(body), BACK_SHOULDER_EASE) if sleeved else (body, 0.0)
    shift = equal_armholes(shaped, rules) if sleeved else 0.0
    q, found = bodice_quarters(body, rules, shifted=shift)
    warnings += [each for each in found if each.code != "front-dart-wide"]  # two fish-eye darts share what is too wide for one
    (front_hole, held), (back_hole, held_back) = (armhole(shaped, q, half=half) for half in ("front", "back"))
    warnings += held + held_back
    seam = shoulder_seam(body, q)
    neck = neck_of(str(spec.options["neckline"]), body, rules, seam, q.front.bust, spec.alterations)
    asked = spec.options.get("length") or spec.alterations.get("length_from_waist")
    below = below_waist(q, body["waist"], body["hip"], body["waist_to_hip"], float(asked) if asked else body["waist_to_hip"])
    if below.ease_hip > q.ease_hip + 1e-6:
        warnings.append(Warning_("hip-drafted-by-waist", "The hip is smaller than the waist: it was drafted by the waist, with {0} of ease.", (below.ease_hip,)))
    front, back, found = _blocks(q, neck, seam, front_hole.path, back_hole.path, ease, str(spec.options["darts"]), below)
    warnings += found
    stand = _stand(spec, rules, q, neck, below)
    collar, found = _collar(spec.options, neck, seam, rules, stand)
    warnings += found
    sleeve = None
    if sleeved:
        sleeve, found = sleeve_part(spec, body, rules, front_hole.path, back.armhole)
        warnings += found
    return Blouse(spec, body, rules, layers, q, neck, seam, front, back, front_fish_eyes(q, below), back_fish_eyes(q, below), below, stand, collar,
                  sleeve, shift, ease, tuple(warnings + _layer_warnings(layers)))


def _check_collar(options: Mapping[str, object]) -> None:
    if options["collar"] != "none" and options["neckline"] != "round":
        raise UnknownChoice("collar", options["collar"], ("none", "a round neckline"),
                            why=f"It is sewn to the base of the neck, and the neckline is {'V' if options['neckline'] == 'v' else options['neckline']}.")


def _blocks(q: BodiceQuarters, neck: Neck, seam: Shoulder, front_hole: Path, back_hole: Path, ease: float, darts: str, below: Below) -> tuple[
    Block, Block, list[Warning_]]:
    slide = (seam.tip - seam.neck).unit() * ease
    back_arm = back_hole if not ease else Path((moved_start(back_hole.strokes[0], slide), *back_hole.strokes[1:]))
    back = back_block(q, neck.back, Path.of(Line(neck.end, seam.tip + slide)), back_arm, 0.0, level_waist(q.side.waist, q.back_bust - q.back_side))
    front, warnings = front_block(q, neck.front, Path.of(Line(neck.end, seam.tip)), front_hole, back.side_length(),
                                  level_waist(q.front.waist, q.front_bust - q.front_side))
    if darts == "shoulder":
        front = shoulder_darted(front, q.bust_point)
    return lengthened(front, below), lengthened(back, below), warnings


def _collar(options: Mapping[str, object], neck: Neck, seam: Shoulder, rules: Rules, stand: ButtonStand) -> tuple[Collar | None, list[Warning_]]:
    """Draw the collar; a stand laps over the button stand and is buttoned, a flat one ends at the centre front."""
    kind = str(options["collar"])
    if kind == "none":
        return None, []
    depth, warnings = depth_of(kind, rules.given.get("collar_depth"))
    if kind == "flat":
        return flat_collar(neck.back, neck.front, seam.tip, depth), warnings
    return stand_collar(neck.back.length(), neck.front.length(), stand.width, depth), warnings


def _stand(spec: GarmentSpec, rules: Rules, q: BodiceQuarters, neck: Neck, below: Below) -> ButtonStand:
    """Place the buttons: from the neck to 3 in above the hem, one at the level of the bust point."""
    top = neck.front.start.y + (BUTTON_UNDER_STAND if spec.options["collar"] == "stand" else 0.0)
    bottom = q.front.waist + below.to_hem - BUTTON_ABOVE_HEM
    return button_stand(rules, top, bottom, through=(spec.alterations.get("button_level", q.front.bust),))


def _layer_warnings(layers: Layers) -> list[Warning_]:
    """Return which layers have no cloth; what a blouse has stayed are its collar and facings."""
    found = layers.warnings()
    return [replace(each, text="No stay is among the order's cloths: collar, facings and button stand are cut without one.")
            if each.code == "no-stay" else each for each in found]
