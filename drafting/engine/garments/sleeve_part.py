"""The sleeve of a whole garment: its kind, its width and length from the arm, its cap from the armholes."""

from __future__ import annotations

import math

from ..blocks.sleeve import FLARES, Sleeve, check_width, flared, hem_level, puffed, taper_deg, tapered
from ..blocks.sleeve_cap import FLAT, Cap, cap
from ..body import Body
from ..path import Path
from ..report import Warning_
from ..rules import Rules
from ..spec import GarmentSpec
from ..tolerance import INCH

ARM_EASE = 2.0 * INCH
WRIST_EASE = 3.5 * INCH
ELBOW_EASE = 1.5 * INCH
BAND_EASE = 1.0 * INCH
MOST_SHORT_TAPER_DEG = 10.0
NOTCH_SHARE = 0.4
"""Notches lie this share of each armhole half from the underarm; all of the cap's ease lies between them."""


def sleeve_part(spec: GarmentSpec, body: Body, rules: Rules, front_hole: Path, back_hole: Path) -> tuple[Sleeve, list[Warning_]]:
    """Draw the sleeve for both armhole halves (each from shoulder to underarm); raises DraftingError where none fits."""
    kind, ease = str(spec.options["sleeve.kind"]), rules["cap_ease"]
    bicep = body["upper_arm"] + ARM_EASE
    front, back = front_hole.length(), back_hole.length()
    asked = spec.options.get("sleeve.length")
    length = float(asked) if asked else (body.measures.get("sleeve_length") if kind in ("set-in", "bell") else None)
    plain = cap(bicep, front, back, ease, 0.0)
    level = hem_level("short" if length is None else kind, plain, length) if kind != "flutter" else hem_level(kind, plain, length)
    if kind in FLARES:
        return flared(plain, rules, FLARES[kind], level), _flat(plain, front + back + ease)
    if kind == "puff":
        return puffed(plain, rules, NOTCH_SHARE * front, NOTCH_SHARE * back, body["upper_arm"] + BAND_EASE, level), _flat(plain, front + back + ease)
    hem, warnings = _hem(kind, body, bicep, level)
    made = cap(bicep, front, back, ease, taper_deg(bicep, hem, level))
    warnings += _elbow(kind, body, bicep, hem, level) + _flat(made, front + back + ease)
    return tapered(made, rules, hem, level), warnings


def _hem(kind: str, body: Body, bicep: float, level: float) -> tuple[float, list[Warning_]]:
    if kind == "set-in" and "wrist" in body.measures and level > 10 * INCH:
        wanted = body["wrist"] + WRIST_EASE
        return min(wanted, bicep), check_width(wanted, bicep)
    return bicep - 2 * min(0.5 * INCH, level * math.tan(math.radians(MOST_SHORT_TAPER_DEG))), []


def _elbow(kind: str, body: Body, bicep: float, hem: float, level: float) -> list[Warning_]:
    """Return a warning where the sleeve is too narrow at the elbow, taken as halfway down the underarm."""
    if kind != "set-in" or "elbow" not in body.measures or level < 10 * INCH:
        return []
    there, needed = (bicep + hem) / 2, body["elbow"] + ELBOW_EASE
    if there >= needed:
        return []
    return [Warning_("sleeve-narrow-at-elbow", "At the elbow the sleeve is {0} round; {1} lets it bend.", (there, needed))]


def _flat(made: Cap, round_: float) -> list[Warning_]:
    if made.bicep / round_ <= FLAT:
        return []
    return [Warning_("sleeve-cap-flat", "The sleeve's cap is flat for so wide an arm: it will lie in folds under the arm when it hangs. "
                     "Make a toile.")]
