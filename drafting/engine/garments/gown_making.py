"""The order of making a gown: fuse, stitch, press, bone, join, line, hem, from what this gown really has."""

from __future__ import annotations

from ..report import Bone
from ..tolerance import INCH
from ..trace import Step
from .bustier_gown import Gown
from .gown_materials import LOOPS_APART
from .skirt_story import prepare_waist


def making_of(gown: Gown, bones: tuple[Bone, ...]) -> tuple[Step, ...]:
    """Return the steps in a workable order; each names its seams and their figures."""
    cups, layers = gown.outside.cups, gown.layers
    seam = cups.centre.edge("cup seam").path.length()
    under, waist = gown.q.under_bust, gown.outside.front_waist
    steps: list[tuple[str, tuple[float, ...]]] = []

    def add(text: str, *figures: float) -> None:
        steps.append((text, figures))

    add("Thread-mark bust points, fold lines and notches on every piece before the paper comes off.")
    if layers.stayed:
        add("Fuse the stay to cups and band of the outside cloth" + (" and of the lining." if layers.lined else "."))
    if layers.wadded:
        add("Quilt the wadding to the cups, then trim it out of the seam allowances.")
    add("Cup seams, centre cup to side cup, notch to notch over the bust point: both sides {0}. Clip, press open over a ham.", seam)
    if len(gown.outside.band.pieces) == 2:
        add("Band seams, band to side band: press open.")
    add("Cups to band: {0} from the fold to the side. The cup seam meets the band's notch.", under)
    if gown.yoke:
        add("Yoke to the cups' top edge: {0}. Clip the curve, press the allowances into the yoke.", gown.yoke.edge("yoke seam").path.length())
    if gown.outside.back.dart_width:
        add("Back darts: {0} wide at the under-bust, to nothing at the bust line. Press toward the centre.", gown.outside.back.dart_width)
    if gown.yoke:
        add("Shoulder seams, {0}: stitch, press open.", gown.yoke.edge("shoulder").path.length())
    add("Baste the side seams, {0}, for the fitting; keep the let-out of {1}.", gown.outside.back.piece.edge("side").path.length(),
        gown.rules["let_out"])
    add(f"After the fitting stitch the side seams and press them open. Sew casings for {sum(b.count for b in bones)} bones on the seams; "
        "cut the bones to the list, tip both ends, slide them in and close the casings.")
    if gown.gap:
        add("Loops down both sides of the centre back, {0} apart; a bone on each side of the row of loops.", LOOPS_APART)
    if gown.skirt:
        _skirt(gown, add, waist)
    elif not gown.gap:
        add("Zip into the centre back, from the top edge to the waist.")
    if layers.lined:
        _lining(gown, add)
    else:
        add("Face or bind neck and armholes." if gown.yoke else "Face or bind the top edge.")
    add("Waist stay: ribbon of {0} finished, hooked before the closing, caught to the waist seam's allowance only.",
        gown.body["waist"] - 0.5 * INCH)
    if gown.skirt:
        add("Hang the gown a day, level the hem at {0} from the waist at the centre front, turn up {1} and sew it by hand.",
            gown.skirt.length, gown.skirt.pieces[0].edge("hem").allowance)
    add("Press, check against the measures, sew on hooks.")
    return tuple(Step("", text, figures) for text, figures in steps)


def _skirt(gown: Gown, add, waist: float) -> None:
    if any(piece.darts for piece in gown.skirt.pieces):
        add("Skirt darts: stitch from the waist to nothing, press toward the centre.")
    add("Skirt side seams, {0}; centre back from the opening ({1} below the waist) to the hem.",
        gown.skirt.front.side.length(), gown.skirt.opening)
    if gown.skirt.vent:
        add("Leave the vent open {0} above the hem; face its edges, reinforce its top.", gown.skirt.vent)
    prepare_waist(gown.skirt, add)
    add("Skirt to top at the waist, side seam to side seam: front half {0}, back half {1}.", waist, gown.outside.back_waist)
    if gown.gap:
        add("Finish the {0} of skirt waist that lies under the lacing on each side; zip below it, hook at the waist. Tack the modesty "
            "panel to the wearer's left.", gown.gap / 2)
    else:
        add("Zip into the centre back, from the top edge to {0} below the waist.", gown.skirt.opening)


def _lining(gown: Gown, add) -> None:
    add("Make up the lining the same way; its skirt darts are laid as tucks." if gown.skirt else "Make up the lining the same way.")
    add(("Lining to outside at neck and armholes" if gown.yoke else "Lining to outside at the top edge") + ", right sides together: ease the outside cloth onto it, so that the seam rolls inward. "
        "Grade, clip, understitch.")
    if gown.skirt_lining:
        add("Fell the lining to the waist seam and the closing; hem it {0} shorter than the skirt.", gown.skirt.length - gown.skirt_lining.length)
