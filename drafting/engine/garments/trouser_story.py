"""The by-hand steps of plain trousers, in the order in which they are chalked."""

from __future__ import annotations

from collections.abc import Mapping

from ..blocks.trousers import BACK_STRETCHED, Leg
from ..piece import Piece
from ..tolerance import INCH
from ..trace import Trace
from .skirt_finish import BAND_DEPTH, BAND_OVERLAP
from .trouser_pieces import FLY, NAMES, Trousers


def tell_trousers(made: Trousers, pieces: Mapping[str, Piece], trace: Trace) -> None:
    """Record the steps for front, back and waistband."""
    levels = made.figures.levels
    for leg, name in ((made.front, NAMES[0]), (made.back, NAMES[1])):
        is_back = name == NAMES[1]
        trace.chalk(name, "Rule the crease line straight down. Square across it at the waist, hip {0} down, fork {1}, knee {2}, hem {3}.", levels.hip, levels.fork,
                    levels.knee, levels.hem, marks="crease", why="The fork lies ⅜ in below the body rise, so that one can sit." if not is_back else
                    "The same levels as the front's, so that the legs hang alike.")
        _centre(made, leg, name, trace, is_back)
        _leg(made, leg, name, trace, is_back)
        _waist(leg, name, trace)
    if made.place == "front":
        trace.chalk(NAMES[0], "Fly: the seam stays open {0} down from the waist.", made.opening, marks="centre-front")
        trace.chalk("fly facing", "Cut a straight strip {0} long and {1} wide; round its lower outer corner.", made.opening, FLY, marks="outer-edge",
                    why="It faces the front that laps over; the zip is stitched to it.")
        trace.chalk("fly shield", "Cut a straight strip {0} long and {1} wide, folded along its middle.", made.opening + INCH, 2 * FLY, marks="end",
                    why="It lies behind the zip.")
    band = pieces["waistband"].edge("waist").path.length()
    trace.chalk("waistband", "Cut a straight strip {0} long and {1} wide, folded along its middle: {2} finished, with {3} to overlap.", band + BAND_OVERLAP,
                2 * BAND_DEPTH, BAND_DEPTH, BAND_OVERLAP, marks="waist")


def _centre(made: Trousers, leg: Leg, name: str, trace: Trace, is_back: bool) -> None:
    half, turn, fork = leg.figures, leg.crotch.strokes[0].end, leg.inside.start
    trace.chalk(name, "From the crease go {0} toward the centre and rule an upright. On the fork's level mark the fork {1} from the crease" +
                (", {2} lower." if is_back else "."), half.centre, half.fork, fork.y - made.figures.levels.fork, marks="fork", at=(fork,),
                why="The drop makes the back's inside leg a little shorter than the front's, to be stretched onto it." if is_back else
                "A twelfth of the hip and ⅝ in to the upright, a sixteenth of it and ¼ in on to the fork.")
    trace.chalk(name, "Centre seam: from {0} inside the upright at the waist straight to it {1} down the seam, then curve to the fork, {2} from the corner at its "
                "nearest. In all {3}.", half.centre_take, leg.straight, leg.hollow, leg.crotch.length(), marks="crotch-seam", at=(turn,),
                why="Front and back reach the fork in one line, so the joined seam has no corner there.")


def _leg(made: Trousers, leg: Leg, name: str, trace: Trace, is_back: bool) -> None:
    half = leg.figures
    trace.chalk(name, "Hip {0} across from the centre seam. Knee {1} to each side of the crease, hem {2}.", leg.hip_line[1].x - leg.hip_line[0].x, half.knee,
                half.hem, marks="hip knee hem", at=(leg.hip_line[1],), why="The front is narrower than the back at each level; side and inside leg share the difference.")
    trace.chalk(name, "Inside leg: rule it from the hem to the knee, hollow it by {0} from the knee to the fork. It measures {1}.", half.bow, leg.inside.length(),
                BACK_STRETCHED, marks="inside-leg", why="Stretched by {2} above the notch it meets the front's." if is_back else "")
    way = "inward" if leg.side_take >= 0 else "outward"
    trace.chalk(name, f"Side: straight from the hem to the knee, curve to the hip, then {way} by {{0}} at the waist. It measures {{1}}, front and back alike.",
                abs(leg.side_take), leg.side.length(), marks="side", at=(leg.waist.end,))


def _waist(leg: Leg, name: str, trace: Trace) -> None:
    for i, dart in enumerate(leg.waist.darts, start=1):
        before = sum(section.length() for section in leg.waist.sections[:i])
        trace.chalk(name, f"Dart {i}: {{0}} along the waist from the centre, {{1}} wide, {{2}} long.", before, dart.width, dart.legs[0].length(),
                    marks=f"dart-{i}", at=(dart.point,))
    waist = sum(section.length() for section in leg.waist.sections)
    centre, side = leg.waist.sections[0].start.y, leg.waist.end.y
    trace.chalk(name, "Waist {0} in all, darts closed, square to the centre seam, to each dart and to the side; at the side {1} " + _above(side)
                + " the waist's level" + (", at the centre {2} " + _above(centre) + " it." if abs(centre) > 0.5 else "."), waist, abs(side), abs(centre),
                marks="waist")


def _above(y: float) -> str:
    return "above" if y <= 0 else "below"
