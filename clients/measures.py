"""The measures that a dressmaker takes: the one list that every screen, check and draft names them by.

`term` is what the standards call the measure. `term_source` names the standard only where its
own words were read; elsewhere the term is from memory and the field stays empty. Clause numbers
are left out until somebody holds a copy. The plausible ranges are wide on purpose (28 to 70 round
the bust) and common practice, no source: outside them the tape is worth a second look, no more.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from decimal import Decimal

GIRTH, WIDTH, LENGTH = "girth", "width", "length"
KINDS = ((GIRTH, "Girths"), (WIDTH, "Widths"), (LENGTH, "Lengths"))

MM_PER_INCH = Decimal("25.4")
#: Less than half of the least that is usual, or more than double the most, is no measure of a body: common practice, no source.
FAR = 2

ISO_1989 = "ISO 8559:1989"
ASTM_2011 = "ASTM D5585-11"
GB_2017 = "GB/T 22044-2017"


@dataclass(frozen=True, slots=True)
class Measure:
    """One measure: its name, how to take it, the standard's term, the range in which it is plausible."""

    key: str
    name: str
    how: str
    term: str
    term_source: str
    kind: str
    low_in: float
    high_in: float
    estimated: bool = False
    #: Of a measure of the left arm: the one that it differs from, taken on the right.
    right: str = ""

    @property
    def low_mm(self) -> Decimal:
        return Decimal(str(self.low_in)) * MM_PER_INCH

    @property
    def high_mm(self) -> Decimal:
        return Decimal(str(self.high_in)) * MM_PER_INCH

    def is_plausible(self, mm: Decimal) -> bool:
        return self.low_mm <= mm <= self.high_mm

    def is_possible(self, mm: Decimal) -> bool:
        """Whether a draft is made with it at all; it may be written down in any case."""
        return self.low_mm / FAR <= mm <= self.high_mm * FAR


MEASURES: tuple[Measure, ...] = (
    Measure(
        "bust", "Bust",
        "Round the fullest part, over both bust points, level at the back. Snug, with no finger under the tape.",
        "bust girth", ISO_1989, GIRTH, 28, 70,
    ),
    Measure(
        "high_bust", "High bust",
        "Above the breasts, close up under the arms and level across the back. Snug.",
        "upper chest", ASTM_2011, GIRTH, 26, 64, estimated=True,
    ),
    Measure(
        "under_bust", "Under-bust",
        "Round the ribs just below the breasts, level, on an easy breath out. Snug.",
        "under-bust", ASTM_2011, GIRTH, 22, 62,
    ),
    Measure(
        "waist", "Waist",
        "Round the narrowest part, where a cord tied there settles. Snug, with no finger under the tape.",
        "waist girth", ISO_1989, GIRTH, 20, 66,
    ),
    Measure(
        "hip", "Hip",
        "Round the fullest part of the seat, feet together, the tape level all the way. Snug.",
        "hip girth", ISO_1989, GIRTH, 28, 76,
    ),
    Measure(
        "neck", "Neck",
        "Round the base of the neck, where a plain neckline would sit, over the bone at the nape.",
        "neck-base girth", ISO_1989, GIRTH, 11, 24, estimated=True,
    ),
    Measure(
        "upper_arm", "Upper arm",
        "Round the fullest part above the elbow, the arm hanging.",
        "upper-arm girth", ISO_1989, GIRTH, 7, 24,
    ),
    Measure(
        "elbow", "Elbow",
        "Round the elbow with the arm bent to a right angle, over the point of the bone.",
        "elbow girth", ISO_1989, GIRTH, 6.5, 20,
    ),
    Measure(
        "wrist", "Wrist",
        "Round the wrist, over the bone on the outside.",
        "wrist girth", ISO_1989, GIRTH, 4.5, 11,
    ),
    Measure(
        "thigh", "Thigh",
        "Round the fullest part of the thigh, close up to the fork, the weight on both feet. Snug.",
        "thigh girth", ISO_1989, GIRTH, 14, 44,
    ),
    Measure(
        "knee", "Knee",
        "Round the knee over the middle of the kneecap, the leg straight.",
        "knee girth", ISO_1989, GIRTH, 10, 28,
    ),
    Measure(
        "shoulder", "Shoulder",
        "Across the back from shoulder tip to shoulder tip. The tip is the outermost bone: lift the arm to find it.",
        "shoulder width", ISO_1989, WIDTH, 11, 22,
    ),
    Measure(
        "across_front", "Across front",
        "From arm crease to arm crease, half-way between shoulder tip and underarm.",
        "front chest width", GB_2017, WIDTH, 9, 22, estimated=True,
    ),
    Measure(
        "across_back", "Across back",
        "From arm crease to arm crease over the back, half-way between shoulder tip and underarm, the arms hanging.",
        "back width", ISO_1989, WIDTH, 9.5, 24, estimated=True,
    ),
    Measure(
        "bust_span", "Bust span",
        "Straight from bust point to bust point, the tape not dipping between them.",
        "bust point width", "", WIDTH, 4.5, 16, estimated=True,
    ),
    Measure(
        "shoulder_to_bust", "Shoulder to bust",
        "From the side of the neck, where it meets the shoulder, straight to the bust point.",
        "neck-shoulder point to breast point", ISO_1989, LENGTH, 7, 19,
    ),
    Measure(
        "shoulder_to_under_bust", "Shoulder to under-bust",
        "From the side of the neck over the bust point, then close in to the crease below the breast.",
        "", "", LENGTH, 9, 23,
    ),
    Measure(
        "shoulder_to_waist", "Shoulder to waist",
        "From the side of the neck over the bust point, then straight down to the cord at the waist.",
        "neck shoulder to waist", ISO_1989, LENGTH, 12, 27,
    ),
    Measure(
        "nape_to_waist", "Nape to waist",
        "From the bone at the base of the neck down the middle of the back to the cord at the waist.",
        "cervical to waist (back)", ISO_1989, LENGTH, 11, 22, estimated=True,
    ),
    Measure(
        "armhole_depth", "Armhole depth",
        "From the shoulder tip straight down to a strip of card held level under the arm.",
        "", "", LENGTH, 4, 12,
    ),
    Measure(
        "waist_to_hip", "Waist to hip",
        "Down the side from the cord at the waist to the level where the hip was taken.",
        "waist to hips", ISO_1989, LENGTH, 4, 14, estimated=True,
    ),
    Measure(
        "waist_to_knee", "Waist to knee",
        "Down the front from the cord at the waist to the middle of the kneecap.",
        "waist to knee", "", LENGTH, 15, 33,
    ),
    Measure(
        "body_rise", "Body rise",
        "Sitting upright on a hard, flat chair: down the side from the cord at the waist to the chair.",
        "body rise", ISO_1989, LENGTH, 7, 18,
    ),
    Measure(
        "inside_leg", "Inside leg",
        "From the fork straight down the inside of the leg to where the trousers are to end, in the shoes for the day.",
        "inside leg length", "", LENGTH, 14, 40,
    ),
    Measure(
        "sleeve_length", "Sleeve length",
        "From the shoulder tip over the bent elbow to the wrist bone.",
        "arm length", ISO_1989, LENGTH, 15, 33,
    ),
    Measure(
        "shoulder_to_elbow", "Shoulder to elbow",
        "From the shoulder tip to the point of the bent elbow.",
        "upper-arm length", ISO_1989, LENGTH, 8, 20,
    ),
    Measure(
        "height", "Height",
        "Standing straight against a wall without shoes, floor to the top of the head.",
        "stature", "", LENGTH, 48, 82,
    ),
    Measure(
        "skirt_length", "Skirt length",
        "From the cord at the waist down the front to where the hem is to hang, in the shoes for the day.",
        "", "", LENGTH, 8, 60,
    ),
    Measure(
        "dress_length", "Dress length",
        "From the side of the neck over the bust to the waist, then straight down to the hem, in the day's shoes.",
        "", "", LENGTH, 24, 76,
    ),
)  # fmt: skip

#: Taken on the right arm of everybody, and on the left where it differs: the draft then has two sides.
OF_AN_ARM = ("upper_arm", "elbow", "wrist", "armhole_depth", "sleeve_length", "shoulder_to_elbow")


def _left(measure: Measure) -> Measure:
    how = "The left arm, where it differs from the right. Taken as on the right."
    return replace(measure, key=f"{measure.key}_left", name=f"{measure.name}, left", how=how, term="", term_source="", right=measure.key)


LEFT: tuple[Measure, ...] = tuple(_left(measure) for key in OF_AN_ARM for measure in MEASURES if measure.key == key)

#: Everything that can be written down; MEASURES are what is asked for of everybody.
BY_KEY: dict[str, Measure] = {measure.key: measure for measure in (*MEASURES, *LEFT)}


def of_kind(kind: str) -> tuple[Measure, ...]:
    """The measures of one kind (girth, width or length), in the order in which they are taken."""
    return tuple(measure for measure in MEASURES if measure.kind == kind)
