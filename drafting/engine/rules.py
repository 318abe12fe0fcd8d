"""House rules: the workshop's defaults, which one garment may override. Lengths in mm, `front_share` a fraction."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from .errors import ImpossibleMeasure
from .report import Warning_
from .tolerance import INCH

EASES = {"corset": (0.0, 0.0, 2.0), "close": (1.0, 0.5, 2.0), "standard": (2.0, 1.0, 2.0), "loose": (4.0, 3.0, 4.0)}
"""Inches of ease at bust, waist and hip by fit; the bust's also serves the high bust, the waist's the under-bust."""


@dataclass(frozen=True, slots=True)
class HouseRule:
    """One rule: its key, its plain name, its default (inches, or a share; None where the draft works it out), limits."""

    key: str
    name: str
    default: float | None
    low: float
    high: float
    is_share: bool = False

    def in_mm(self, value: float) -> float:
        return value if self.is_share else value * INCH


BUSTIER_RULES = (
    HouseRule("neck_width", "neck width from the middle", None, 1.5, 5),
    HouseRule("front_neck_depth", "front neck depth of a full yoke", None, 1, 10),
    HouseRule("back_neck_depth", "back neck depth", 0.75, 0, 3),
    HouseRule("shoulder_slope", "drop of the shoulder tip", None, 0, 4),
    HouseRule("front_share", "front's share of the bust", 0.8, 0.5, 1.0, is_share=True),
    HouseRule("dart_toward_centre", "lower bust dart, part toward the centre", None, 0, 3),
    HouseRule("lower_intake", "lower bust dart width", None, 0.25, 6),
    HouseRule("upper_intake", "upper bust dart width", None, 0, 4),
    HouseRule("top_edge_rise", "top edge above the underarm at the side", 1.0, 0, 4),
    HouseRule("top_edge_dip", "dip of a sweetheart or V top edge", None, 0.25, 4),
    HouseRule("top_edge_snug", "taken out at each cup seam's head", None, 0, 0.5),
    HouseRule("seam_allowance", "seam allowance", 0.5, 0, 2),
    HouseRule("let_out", "let-out at the side seams", 1.0, 0, 4),
    HouseRule("centre_back_allowance", "allowance at the centre back", 1.0, 0, 4),
    HouseRule("hem", "hem allowance", 2.0, 0, 6),
    HouseRule("bone_width", "bone width", 0.25, 0.125, 1),
    HouseRule("bone_spacing", "bones apart along the under-bust, at most", 3.0, 1, 8),
    HouseRule("bone_clearance", "bone short of a stitching line", 0.25, 0, 2),
    HouseRule("wadding_thickness", "wadding, pressed", 0.125, 0, 1),
    HouseRule("lacing_gap", "lacing gap", 1.0, 0, 6),
    HouseRule("ease_bust", "ease at the bust", None, -4, 12),
    HouseRule("ease_waist", "ease at the waist", None, -4, 12),
    HouseRule("ease_hip", "ease at the hip", None, 0, 16),
)
"""What a bustier gown can be told. Defaults and limits: common practice, no source, unless drafting says otherwise."""

GOWN_RULES = (
    *BUSTIER_RULES,
    HouseRule("basque_depth", "basque below the waist at the centre front", 4.5, 0.5, 8),
    HouseRule("basque_side", "basque below the waist at the side", 0.75, 0, 4),
    HouseRule("strap_width", "strap, finished width", None, 0.25, 3),
    HouseRule("waist_stay", "waist stay less than the waist", None, 0, 2),
)
"""What a bustier gown can be told besides: its basque, straps and waist stay."""

BUTTON_RULES = (
    HouseRule("button", "button across", 0.5, 0.25, 2),
    HouseRule("button_stand", "button stand beyond the centre", None, 0.5, 3),
    HouseRule("button_spacing", "buttons apart, at most", 3.0, 1, 8),
)
"""What any garment with a button stand can be told."""

CORSET_RULES = (
    *(rule for rule in BUSTIER_RULES if rule.key not in (
        "front_neck_depth", "dart_toward_centre", "hem", "wadding_thickness")),
    HouseRule("lower_edge", "lower edge below the waist", 3.0, 0, 12),
)
"""What a panelled corset can be told."""

DRESS_RULES = (
    *(rule for rule in BUSTIER_RULES if rule.key in (
        "neck_width", "back_neck_depth", "shoulder_slope", "seam_allowance", "let_out", "centre_back_allowance", "hem",
        "ease_bust", "ease_waist", "ease_hip")),
    HouseRule("front_share", "front's share of the bust", 0.65, 0.5, 1.0, is_share=True),
    HouseRule("front_neck_depth", "front neck depth", None, 1, 10),
    HouseRule("cap_ease", "ease in the sleeve cap", 1.0, 0.25, 1.5),
)
"""What any bodice can be told, however it closes."""

CLOSING_RULES = (*(rule for rule in BUSTIER_RULES if rule.key == "lacing_gap"), *BUTTON_RULES)
"""What a bodice or dress can be told of its closing."""

BODICE_RULES = (*DRESS_RULES, *CLOSING_RULES)
FITTED_DRESS_RULES = (*BODICE_RULES, *(rule for rule in GOWN_RULES if rule.key in ("basque_depth", "basque_side")))


@dataclass(frozen=True, slots=True)
class Rules:
    """The rules in force for one garment: `given` by key (mm, shares), and the fit's ease."""

    given: Mapping[str, float]
    fit: str
    known: tuple[HouseRule, ...] = BUSTIER_RULES

    def __getitem__(self, key: str) -> float:
        """Return the rule in mm (or as a share); raises KeyError where the draft must work it out and none was given."""
        if key in self.given:
            return self.given[key]
        if key in ("ease_bust", "ease_waist", "ease_hip"):
            return EASES[self.fit][("ease_bust", "ease_waist", "ease_hip").index(key)] * INCH
        for rule in self.known:
            if rule.key == key and rule.default is not None:
                return rule.in_mm(rule.default)
        raise KeyError(key)

    def get(self, key: str, worked_out: float) -> float:
        """Return the rule that was given, or the value that the draft worked out."""
        return self.given.get(key, worked_out)

    def check(self) -> list[Warning_]:
        """Return which given rules this garment has no use for; raises ImpossibleMeasure for one beyond its limits."""
        known = {rule.key: rule for rule in self.known}
        for key, value in self.given.items():
            rule = known.get(key)
            if rule and not rule.in_mm(rule.low) - 1e-6 <= value <= rule.in_mm(rule.high) + 1e-6:
                if rule.is_share:
                    raise ImpossibleMeasure(key, value, f"House rule {rule.name}: {value:g} is outside {rule.low:g} to {rule.high:g}.")
                least_or_most = ("at least {needed}", rule.low) if value < rule.in_mm(rule.low) else ("at most {needed}", rule.high)
                raise ImpossibleMeasure(key, value, f"House rule {rule.name}: {{value}} was given; it can be {least_or_most[0]}.",
                                        needed=rule.in_mm(least_or_most[1]))
        unused = sorted(set(self.given) - set(known))
        return [Warning_("rule-not-used", f"House rule {key.replace('_', ' ')} changes nothing on this garment.") for key in unused]

    def in_force(self) -> dict[str, float]:
        """Return every rule that has a value before drafting, by key."""
        values = {}
        for rule in self.known:
            try:
                values[rule.key] = self[rule.key]
            except KeyError:
                continue
        return values
