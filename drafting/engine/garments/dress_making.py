"""The order of making a bodice or dress, and what to lay ready for it."""

from __future__ import annotations

from ..report import Material
from ..trace import Step
from .dress import Dress
from .skirt_story import prepare_waist
from .sleeve_sewn import sew_sleeve, sleeve_materials


def making_of(dress: Dress) -> tuple[Step, ...]:
    """Return the steps in a workable order; each names its seams and their figures."""
    steps: list[Step] = []

    def add(text: str, *figures: float) -> None:
        steps.append(Step("", text, figures))

    front, back, lined = dress.front, dress.back, dress.layers.lined
    add("Thread-mark darts, fold lines and notches on every piece before the paper comes off. Stay-stitch necklines and armholes.")
    if not lined and dress.layers.stayed:
        add("Fuse the stay to the neck facings.")
    if dress.panels:
        add("Princess seams, {0}, centre to side, notch to notch over the bust point. Clip, press open over a ham.",
            dress.panels.centre_seam.length())
    elif front.bust_dart:
        where = "Shoulder" if len(front.shoulder) == 2 else "Side"
        add(f"{where} darts: {{0}} wide, to nothing. Press {'toward the centre' if where == 'Shoulder' else 'down'}.", front.bust_dart.width)
    if back.waist.dart or (front.waist.dart and not dress.panels):
        add("Waist darts: stitch to nothing, press toward the centre.")
    add("Shoulder seams, {0}: " + ("ease the back onto the front, press open." if dress.shoulder_ease else "stitch, press open."),
        sum(part.length() for part in front.shoulder))
    add("Baste the side seams, {0}, for the fitting; keep the let-out of {1}. After the fitting stitch and press open.",
        back.side_length(), dress.rules["let_out"])
    if dress.skirt:
        if any(piece.darts for piece in dress.skirt.pieces):
            add("Skirt darts: stitch from the waist to nothing, press toward the centre.")
        add("Skirt side seams, {0}; centre back from the opening ({1} below the waist) to the hem.", dress.skirt.front.side.length(),
            dress.skirt.opening)
        if dress.skirt.vent:
            add("Leave the vent open {0} above the hem; face its edges, reinforce its top.", dress.skirt.vent)
        prepare_waist(dress.skirt, add)
        add("Skirt to bodice at the waist, side seam to side seam: {0} a quarter.", dress.q.waist)
        add("Zip into the centre back, from the neck to {0} below the waist.", dress.skirt.opening)
    else:
        add("Zip or buttons into the centre back.")
    if lined:
        add("Make up the lining the same way, ⅛ smaller at neck and armholes; join it at the neck, right sides together, clip, understitch.")
    else:
        add("Join the neck facings at the shoulders; facing to neck, right sides together; clip, understitch, catch down at the shoulders.")
    if dress.sleeve:
        sew_sleeve(dress.sleeve, add)
    elif not lined:
        add("Face or bind the armholes.")
    if dress.skirt:
        add("Hang the dress a day, level the hem at {0} from the waist at the centre front, turn up {1} and sew it by hand.",
            dress.skirt.length, dress.skirt.pieces[0].edge("hem").allowance)
    else:
        add("Face or bind the waist edge.")
    add("Press, check against the measures, sew on a hook and eye above the zip.")
    return tuple(steps)


def materials_of(dress: Dress) -> tuple[Material, ...]:
    """Return fastening and thread. Common practice, no source."""
    opening = dress.skirt.opening if dress.skirt else 0.0
    centre = dress.q.side.waist - dress.back.neck.start.y
    found = [Material("zip, open at the top", centre + opening, "mm", 1), Material("hook and eye above the zip", 1, "pieces", 1)]
    found += sleeve_materials(dress.sleeve) if dress.sleeve else []
    found.append(Material("thread", 2, "reels", 1))
    return tuple(found)
