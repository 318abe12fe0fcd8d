"""What each fit note changes in the figures that a garment is drawn from.

A fit note says how much cloth more (plus) or less (minus) is wanted at a place, on each side that it names. It is drawn by
changing the figures that the blocks start from, so that every seam is trued again and every check holds; it is never cut
into finished pieces. Which figure a place stands for: common practice, no source.
"""

from __future__ import annotations

from dataclasses import dataclass

MEASURE, RULE, OPTION, ALTERATION = "measure", "rule", "option", "alteration"


@dataclass(frozen=True, slots=True)
class Effect:
    """`key` (a measure, a house rule, an option or an alteration, by `kind`) grows by `times` the note's amount.

    `girth` names the level whose finished girth follows, where the note changes a measure of the body that stays as it was:
    the change is then ease.
    """

    kind: str
    key: str
    times: float
    girth: str = ""


EFFECTS: dict[str, tuple[Effect, ...]] = {
    "bust": (Effect(RULE, "ease_bust", 2.0),),
    "under-bust": (Effect(MEASURE, "under_bust", 2.0, "under_bust"),),
    "side waist": (Effect(MEASURE, "waist", 2.0, "waist"),),
    "hip": (Effect(MEASURE, "hip", 2.0, "hip"),),
    "centre back": (Effect(RULE, "ease_bust", 1.0), Effect(MEASURE, "under_bust", 1.0, "under_bust"),
                    Effect(MEASURE, "waist", 1.0, "waist")),
    "top edge": (Effect(RULE, "top_edge_snug", -1.0),),
    "top edge height": (Effect(RULE, "top_edge_rise", 1.0),),
    "neckline": (Effect(RULE, "front_neck_depth", -1.0),),
    "neck width": (Effect(RULE, "neck_width", 1.0),),
    "shoulder": (Effect(RULE, "shoulder_slope", -1.0),),
    "shoulder width": (Effect(MEASURE, "shoulder", 2.0),),
    "armhole": (Effect(MEASURE, "armhole_depth", -1.0),),
    "bust point": (Effect(MEASURE, "shoulder_to_bust", -1.0),),
    "bust span": (Effect(MEASURE, "bust_span", 1.0),),
    "front waist": (Effect(MEASURE, "shoulder_to_waist", -1.0),),
    "back waist": (Effect(ALTERATION, "back_waist", 1.0),),
    "bodice length": (Effect(MEASURE, "shoulder_to_waist", 1.0), Effect(MEASURE, "nape_to_waist", 1.0)),
    "sleeve": (Effect(MEASURE, "upper_arm", 1.0), Effect(MEASURE, "elbow", 1.0), Effect(MEASURE, "wrist", 1.0)),
    "sleeve length": (Effect(OPTION, "sleeve.length", 1.0),),
    "hem": (Effect(OPTION, "skirt.length", 1.0),),
}
"""By the place's name in order files. Amounts: more cloth, higher, longer are plus."""

ONE_SIDED = frozenset({"bust", "under-bust", "side waist", "hip", "top edge", "shoulder", "shoulder width", "armhole", "sleeve",
                       "sleeve length"})
"""Places where left and right may differ; the others lie on the middle of the body or change both halves' common edge."""
