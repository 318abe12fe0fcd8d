"""The house rules that an owner can set: plain name, what it is when left blank, and its limits.

The keys are those of an order file. Blank means the engine's own rule, which may depend on the
measures and is therefore told in words. Limits that depend on the measures are the engine's.
"""

import re
from dataclasses import dataclass
from decimal import Decimal, InvalidOperation

from workshop.length import INCH, MM, UnreadableLength, parse_length, print_length

LENGTH, SHARE = "length", "share"
_IN = Decimal("25.4")


class BadRule(ValueError):
    """A house rule that can't stand: the sentence says what was read and what to do."""


@dataclass(frozen=True, slots=True)
class HouseRule:
    """One rule. Lengths are inches: `usual` is one, or words that hold some as {0.25}; limits are, unless a share."""

    key: str
    title: str
    group: str
    usual: str | Decimal
    low: Decimal
    high: Decimal
    help: str = ""
    kind: str = LENGTH

    def usual_text(self, unit: str) -> str:
        """What holds when the rule is left blank, in the workshop's unit."""
        if isinstance(self.usual, str):
            return in_unit(self.usual, unit)
        return print_length(self.usual * _IN, unit, step=16, with_unit=True)

    def help_text(self, unit: str) -> str:
        """What a field says below itself: the usual, the limits, a remark."""
        told = f"Blank: {self.usual_text(unit)}. Limits {self.limits_text(unit)}."
        return f"{told} {in_unit(self.help, unit)}".strip()

    def limits_text(self, unit: str) -> str:
        """The limits, in the workshop's unit: “0 to 2 in”."""
        if self.kind == SHARE:
            return f"{self.low.normalize():f} to {self.high.normalize():f}"
        low, high = (print_length(limit * _IN, unit, step=16) for limit in (self.low, self.high))
        return f"{low} to {high}\u00a0{unit}"

    def check(self, written: str, unit: str) -> str:
        """The text to keep ("" for blank), with its unit, so that it stands when the workshop changes its own.

        Raises BadRule with one clear sentence.
        """
        text = written.strip()
        if not text:
            return ""
        if self.kind == SHARE:
            size, kept = _share(text), text
        else:
            size, kept = _inches(text, unit)
        if not self.low <= size <= self.high:
            raise BadRule(f"“{text}” is outside the limits, {self.limits_text(unit)}. Blank keeps the usual.")
        return kept


def in_unit(words: str, unit: str) -> str:
    """Words in which each {inches} is printed in the workshop's unit: “neck ÷ 6 + {0.25}”."""
    return re.sub(r"\{([0-9.]+)\}", lambda m: print_length(Decimal(m[1]) * _IN, unit, step=16, with_unit=True), words)


def _inches(text: str, unit: str) -> tuple[Decimal, str]:
    """The length in inches, and the text with its unit where it was left out."""
    try:
        length = parse_length(text, unit)
        bare = parse_length(text, MM if unit == INCH else INCH) != length
    except UnreadableLength as refusal:
        raise BadRule(str(refusal)) from None
    return length / _IN, f"{text} {unit}" if bare else text


def _share(text: str) -> Decimal:
    plain = text.replace(",", ".")
    try:
        if len(plain) > 8 or not all(c in "0123456789." for c in plain):
            raise InvalidOperation
        return Decimal(plain)
    except InvalidOperation:
        raise BadRule(f"I can't read “{text[:40]}”. Write a share such as 0.8.") from None


def _rule(key: str, title: str, group: str, usual: str, low: str, high: str, help: str = "", kind: str = LENGTH):
    try:
        stands: str | Decimal = Decimal(usual)
    except InvalidOperation:
        stands = usual
    return HouseRule(key, title, group, stands, Decimal(low), Decimal(high), help, kind)


LATER = "When she is measured again"
SEAMS, EASE, TOP, BONES, BUTTONS, SKIRT = (
    "Seams and hems",
    "Ease",
    "Top and neck",
    "Bones, wadding and lacing",
    "Buttons",
    "Basque and sleeve",
)

HOUSE_RULES: tuple[HouseRule, ...] = (
    _rule("seam_allowance", "Seam allowance", SEAMS, "0.5", "0", "2"),
    _rule(
        "let_out", "Let-out at the side seams", SEAMS, "1", "0", "4", "What the side seams keep for a later fitting."
    ),
    _rule("centre_back_allowance", "Allowance at the centre back", SEAMS, "1", "0", "4"),
    _rule("hem", "Hem", SEAMS, "2", "0", "6", "Straight hems. Flared hems take less by themselves."),
    _rule("ease_bust", "Ease at the bust", EASE, "by the fit: corset 0, close {1}, standard {2}, loose {4}", "0", "12"),
    _rule(
        "ease_waist", "Ease at the waist", EASE, "by the fit: corset 0, close {0.5}, standard {1}, loose {3}", "0", "12"
    ),
    _rule("ease_hip", "Ease at the hip", EASE, "{2}, loose {4}", "2", "12", "{2.5} or more in stiff cloth."),
    _rule("neck_width", "Neck width, from the fold", TOP, "neck ÷ 6 + {0.25}", "1.5", "5"),
    _rule("front_neck_depth", "Front neck depth", TOP, "neck width + {0.25}", "1", "10"),
    _rule("back_neck_depth", "Back neck depth", TOP, "0.75", "0", "3"),
    _rule("shoulder_slope", "Shoulder slope", TOP, "about 20°, from the shoulder measure", "0", "4"),
    _rule(
        "front_share",
        "Front's share of the bust fullness",
        TOP,
        "0.8 in a bustier, 0.65 in a bodice",
        "0.5",
        "1",
        kind=SHARE,
    ),
    _rule(
        "dart_toward_centre",
        "Lower dart taken toward the centre",
        TOP,
        "{0.5} or a third of the dart, whichever is more",
        "0",
        "3",
        "Never over half of the dart.",
    ),
    _rule("lower_intake", "Lower dart width", TOP, "from bust and under-bust", "0.25", "6"),
    _rule("upper_intake", "Upper dart width", TOP, "half of bust less high bust", "0", "4"),
    _rule(
        "top_edge_rise",
        "Top edge above the chest line, at the side",
        TOP,
        "{1}, higher where the armhole slants",
        "0",
        "4",
    ),
    _rule("top_edge_dip", "Dip of a sweetheart or V top edge", TOP, "{1.5} sweetheart, {2.5} V", "0.25", "4"),
    _rule("bone_width", "Bone width", BONES, "0.25", "0.125", "1"),
    _rule("bone_spacing", "Bones at most this far apart", BONES, "3", "1", "8", "Along the under-bust seam."),
    _rule("bone_clearance", "Bone short of a stitching line", BONES, "0.25", "0.25", "2"),
    _rule("wadding_thickness", "Wadding, pressed thickness", BONES, "0.125", "0", "1"),
    _rule("lacing_gap", "Gap left open by lacing", BONES, "1", "0", "6"),
    _rule("lower_edge", "Lower edge of a corset, below the waist", BONES, "3", "0", "12", "At most the hip line."),
    _rule("button", "Button, across", BUTTONS, "0.5", "0.25", "2"),
    _rule("button_stand", "Button stand beyond the centre line", BUTTONS, "half a button and {0.25}, at least {0.5}", "0.5", "3"),
    _rule("button_spacing", "Buttons at most this far apart", BUTTONS, "3", "1", "8"),
    _rule("collar_depth", "Collar depth", BUTTONS, "{1.25} for a stand, {2.5} flat", "0.75", "4"),
    _rule("basque_depth", "Basque, depth at the centre", SKIRT, "4.5", "0.5", "8"),
    _rule("basque_side", "Basque, depth at the side", SKIRT, "0.75", "0", "4"),
    _rule("strap_width", "Strap, finished width", TOP, "by the bust: {0.5} to {1.25}", "0.25", "3"),
    _rule("waist_stay", "Waist stay, less than the waist", BONES, "{0.5} strapless, the waist itself under a yoke", "0", "2"),
    _rule("cap_ease", "Ease in the sleeve cap", SKIRT, "1", "0.25", "1.5", "{0.5} for print cotton, {0.25} for lace."),
)

HOUSE_RULES += (
    _rule("tape_noise", "Tape noise in a girth", LATER, "0.5", "0", "2", "A smaller change is the tape and the breath; half of it in a width or a length."),
    _rule("least_allowance", "Least allowance when letting out", LATER, "0.25", "0.125", "1", "What must stay beyond every new seam."),
)
"""Rules of the workshop's book, which no draft is made by."""

BY_KEY = {rule.key: rule for rule in HOUSE_RULES}


def in_force(key: str, workshop) -> Decimal:
    """A length that a house rule sets, mm: what the workshop wrote, else the usual. Raises KeyError, and TypeError for one told in words."""
    written = workshop.house_rules.get(key, "")
    return parse_length(written, workshop.unit) if written else Decimal(BY_KEY[key].usual) * _IN
