"""The sleeve of a whole garment: its kind, its width and length from the arm, its cap from the armholes."""

from __future__ import annotations

import math
from dataclasses import replace

from ..blocks.cap_sleeve import DIP, EASE, cap_edges
from ..blocks.laid_over import laid_over, laid_warnings
from ..blocks.sleeve import FLARES, Sleeve, capped, check_width, fitted, flared, hem_level, opened, puffed, taper_deg, tapered
from ..blocks.sleeve_band import sleeve_band
from ..blocks.sleeve_cap import FLAT, Cap, cap
from ..blocks.sleeve_fitted import MOST_FRONT_TURN_DEG, WRIST_OPENING, fitted_seams
from ..body import Body
from ..errors import MissingMeasure
from ..path import Path
from ..report import Warning_
from ..rules import Rules
from ..spec import Choice, GarmentSpec, Option
from ..tolerance import INCH

ARM_EASE, FITTED_ARM_EASE = 2.0 * INCH, 1.5 * INCH
WRIST_EASE, FITTED_WRIST_EASE = 3.5 * INCH, 1.5 * INCH
ELBOW_EASE, FITTED_ELBOW_EASE = 1.5 * INCH, 1.0 * INCH
BAND_EASE = 1.0 * INCH
LONG = 10 * INCH
"""A sleeve that goes further than this below the underarm goes toward the wrist."""

MAY_PASS_ELBOW = 8 * INCH
"""A puff longer than this from the shoulder may end under the elbow: then the elbow's place must be known."""

MOST_SHORT_TAPER_DEG = 10.0
SAME_TAPER_DEG = 0.05
"""Two tapers nearer than this part a hair's breadth at the elbow."""

NOTCH_SHARE = 0.4
"""Notches lie this share of each armhole half from the underarm; all of the cap's ease lies between them."""

SLEEVE_MEASURES = ("upper_arm", "elbow", "wrist", "sleeve_length", "shoulder_to_elbow")
"""All that some sleeve asks for; `sleeve_needs` says what one sleeve does."""

SLEEVE_OPTIONS = (
    Option("sleeve.kind", "Sleeve", (
        Choice("none", "none"), Choice("set-in", "straight"), Choice("fitted", "fitted"), Choice("short", "short"),
        Choice("puff", "puff"), Choice("bell", "bell"), Choice("flutter", "flutter"), Choice("cap", "cap")), "none"),
    Option("sleeve.length", "Sleeve length from the shoulder tip", (), None),
)


def sleeve_needs(spec: GarmentSpec) -> tuple[str, ...]:
    """Return the measures that this garment's sleeve can't be drafted without; none where it has no sleeve."""
    kind, length = str(spec.options["sleeve.kind"]), spec.options.get("sleeve.length")
    if kind in ("none", "cap"):
        return ()
    whole = () if length else ("sleeve_length",)
    if kind == "fitted":
        return ("upper_arm", "elbow", "wrist", *whole, "shoulder_to_elbow")
    if kind == "set-in":
        return ("upper_arm", "wrist", *whole)
    if kind == "bell":
        return ("upper_arm", *whole)
    if kind == "puff" and length and float(length) > MAY_PASS_ELBOW:
        under = float(length) > spec.measures.get("shoulder_to_elbow", math.inf)
        return ("upper_arm", "shoulder_to_elbow", *(("elbow", "wrist", "sleeve_length") if under else ()))
    return ("upper_arm",)


def sleeve_asks(kind: str, *, length_given: bool) -> tuple[str, ...]:
    """Return the measures to take for a sleeve of `kind` before it is drafted; a long puff may need more, and then says so."""
    spec = GarmentSpec("", {"sleeve.kind": kind or "none", "sleeve.length": 1.0 if length_given else None}, {})
    return sleeve_needs(spec)


def sleeve_part(spec: GarmentSpec, body: Body, rules: Rules, front_hole: Path, back_hole: Path) -> tuple[Sleeve, list[Warning_]]:
    """Draw the sleeve for both armhole halves (each from shoulder to underarm); raises DraftingError where none fits."""
    missing = tuple(key for key in sleeve_needs(spec) if key not in body.measures)
    if missing:
        raise MissingMeasure(missing)
    kind, asked = str(spec.options["sleeve.kind"]), spec.options.get("sleeve.length")
    length = float(asked) if asked else (body["sleeve_length"] if kind in ("set-in", "bell", "fitted") else None)
    if kind == "cap":
        return _cap_sleeve(rules, front_hole, back_hole, float(asked) if asked else None)
    ease = rules["cap_ease"]
    round_ = front_hole.length() + back_hole.length() + ease
    if kind == "fitted":
        made, drawn, warnings = _fitted(body, rules, front_hole, back_hole, float(length))
    else:
        made, drawn, warnings = _set_in(kind, body, rules, front_hole, back_hole, length)
    laid = laid_over(made, front_hole, back_hole, NOTCH_SHARE)
    return replace(drawn, laid=laid, ease=ease + drawn.ease), warnings + _flat(made, round_) + laid_warnings(laid)


def _set_in(kind: str, body: Body, rules: Rules, front_hole: Path, back_hole: Path, length: float | None) -> tuple[Cap, Sleeve, list[Warning_]]:
    bicep, ease, front, back = body["upper_arm"] + ARM_EASE, rules["cap_ease"], front_hole.length(), back_hole.length()
    plain = cap(bicep, front, back, ease, 0.0)
    level = hem_level(kind, plain, length)
    if kind in FLARES:
        return plain, flared(kind, plain, rules, FLARES[kind], level), []
    if kind == "puff":
        made = puffed(plain, rules, NOTCH_SHARE * front, NOTCH_SHARE * back, level)
        return plain, _banded(made, body, rules, length), []
    hem, warnings = _hem(kind, body, bicep, level)
    made = cap(bicep, front, back, ease, taper_deg(bicep, hem, level))
    warnings += _elbow(kind, body, made, bicep, hem, level)
    return made, tapered(kind, made, rules, hem, level), warnings


def _fitted(body: Body, rules: Rules, front_hole: Path, back_hole: Path, length: float) -> tuple[Cap, Sleeve, list[Warning_]]:
    bicep, elbow = body["upper_arm"] + FITTED_ARM_EASE, body["elbow"] + FITTED_ELBOW_EASE
    warnings = []
    if elbow > bicep:
        warnings.append(Warning_("sleeve-widened-for-elbow", "The sleeve was widened from {0} to {1} at the upper arm, to pass over the elbow.",
                                 (bicep, elbow)))
        bicep = elbow
    taper = 0.0
    for _ in range(4):  # the taper lifts the crown by a hair, which lifts the elbow's level
        made, drawn = cap(bicep, front_hole.length(), back_hole.length(), rules["cap_ease"], taper), taper
        level = body["shoulder_to_elbow"] - made.height
        taper = max(0.0, taper_deg(bicep, elbow, max(level, INCH)))
        if abs(taper - drawn) < SAME_TAPER_DEG:
            break
    seams = fitted_seams(made, elbow=elbow, wrist=body["wrist"] + FITTED_WRIST_EASE, elbow_level=level, wrist_level=length - made.height)
    if seams.front_turn_deg > MOST_FRONT_TURN_DEG + 1e-6:
        warnings.append(Warning_("sleeve-turns-at-elbow", f"The front seam turns by {seams.front_turn_deg:.0f}° at the elbow, over {MOST_FRONT_TURN_DEG:.0f}°: "
                                 "clip and stretch it there, or choose a straight sleeve."))
    return made, fitted(made, rules, seams, WRIST_OPENING), warnings


def _cap_sleeve(rules: Rules, front_hole: Path, back_hole: Path, length: float | None) -> tuple[Sleeve, list[Warning_]]:
    covers = tuple((1 - NOTCH_SHARE) * hole.length() for hole in (front_hole, back_hole))
    *edges, warnings = cap_edges(*covers, None if length is None else length - DIP)
    return capped(tuple(edges), rules, covers, EASE), warnings


def _banded(made: Sleeve, body: Body, rules: Rules, length: float | None) -> Sleeve:
    """Gather the hem into a band: upper arm and 1 in above the elbow; under it, the arm there and 1 in, and it opens."""
    under = length is not None and length > body.measures.get("shoulder_to_elbow", math.inf)
    if not under:
        return replace(made, band=sleeve_band(rules, body["upper_arm"] + BAND_EASE, opens=False))
    share = (length - body["shoulder_to_elbow"]) / max(body["sleeve_length"] - body["shoulder_to_elbow"], INCH)
    arm = body["elbow"] + (body["wrist"] - body["elbow"]) * min(1.0, share)
    return opened(replace(made, band=sleeve_band(rules, arm + BAND_EASE, opens=True)), WRIST_OPENING)


def _hem(kind: str, body: Body, bicep: float, level: float) -> tuple[float, list[Warning_]]:
    if kind == "set-in" and level > LONG:
        wanted = body["wrist"] + WRIST_EASE
        return min(wanted, bicep), check_width(wanted, bicep)
    return bicep - 2 * min(0.5 * INCH, level * math.tan(math.radians(MOST_SHORT_TAPER_DEG))), []


def _elbow(kind: str, body: Body, made: Cap, bicep: float, hem: float, level: float) -> list[Warning_]:
    """Return a warning where the sleeve is too narrow at the elbow: where it was measured, or halfway down the underarm."""
    if kind != "set-in" or "elbow" not in body.measures or level < LONG:
        return []
    at = body["shoulder_to_elbow"] - made.height if "shoulder_to_elbow" in body.measures else level / 2
    there, needed = bicep - (bicep - hem) * min(max(at / level, 0.0), 1.0), body["elbow"] + ELBOW_EASE
    if there >= needed:
        return []
    return [Warning_("sleeve-narrow-at-elbow", "At the elbow the sleeve is {0} round; {1} lets it bend.", (there, needed))]


def _flat(made: Cap, round_: float) -> list[Warning_]:
    if made.bicep / round_ <= FLAT:
        return []
    return [Warning_("sleeve-cap-flat", "The sleeve's cap is flat for so wide an arm: it will lie in folds under the arm when it hangs. "
                     "Make a toile.")]
