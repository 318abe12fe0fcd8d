"""Where on a garment a fitting is noted, and what can be done there: the words, and the sign that the draft reads.

Less cloth (take in, lower, shorten) is a minus, more cloth a plus. An amount is the cloth at that place on each side that is
named, all layers of the seam together: take in ¼ at the side waist, both sides, makes the waist ½ smaller. A sway back is the
back waist raised; a top edge that gapes is taken in. Common practice, no source.
"""

from __future__ import annotations

from dataclasses import dataclass

BOTH, LEFT, RIGHT = "both", "left", "right"
SIDES = ((BOTH, "both sides"), (LEFT, "left"), (RIGHT, "right"))

TAKE_IN, LET_OUT = "take in", "let out"
LOWER, RAISE = "lower", "raise"
SHORTEN, LENGTHEN = "shorten", "lengthen"
SIGNS = {TAKE_IN: -1, LET_OUT: 1, LOWER: -1, RAISE: 1, SHORTEN: -1, LENGTHEN: 1}

WIDER = (TAKE_IN, LET_OUT)


@dataclass(frozen=True, slots=True)
class Place:
    """`key` is what the order file calls it; `acts` are the less and the more; `sided` where left and right may differ."""

    key: str
    acts: tuple[str, str] = WIDER
    sided: bool = True

    def act(self, sign: int) -> str:
        return self.acts[sign > 0]


PLACES: tuple[Place, ...] = (
    Place("top edge"), Place("top edge height", (LOWER, RAISE), sided=False), Place("bust"), Place("under-bust"), Place("side waist"),
    Place("hip"), Place("centre back", sided=False), Place("neckline", (LOWER, RAISE), sided=False), Place("neck width", sided=False),
    Place("shoulder", (LOWER, RAISE)), Place("shoulder width"), Place("armhole", (LOWER, RAISE)), Place("bust point", (LOWER, RAISE), sided=False),
    Place("bust span", sided=False), Place("front waist", (LOWER, RAISE), sided=False), Place("back waist", (LOWER, RAISE), sided=False),
    Place("bodice length", (SHORTEN, LENGTHEN), sided=False), Place("sleeve"), Place("sleeve length", (SHORTEN, LENGTHEN)),
    Place("hem", (SHORTEN, LENGTHEN), sided=False),
)  # fmt: skip

BY_PLACE = {place.key: place for place in PLACES}
