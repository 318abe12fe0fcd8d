"""Bodies to draft for: the published girths of ASTM D5585-11, and lengths by stated rules.

Girths: ASTM D5585-11e1, Misses, Table 1, inches, read as far as the waist rows; curvy and straight waists.
Nape to waist and scye depth: ASTM D5585-95, Misses, from memory, sizes 6 to 16, interpolated by bust (and carried on
in a straight line outside those sizes). All other lengths: rules for test bodies only, common practice, no source.
"""

from fractions import Fraction

SIZES = ("00", "0", "2", "4", "6", "8", "10", "12", "14", "16", "18", "20")


def _row(text: str) -> list[float]:
    values = [part.strip() for part in text.split("|")]
    assert len(values) == len(SIZES)
    return [float(sum(Fraction(word) for word in value.split())) for value in values]


NECK_BASE = _row("13 1/4|13 1/2|13 3/4|14|14 1/4|14 5/8|14 7/8|15 1/8|15 1/2|15 3/4|16|16 3/8")
BUST = _row("31 1/8|31 3/4|33|34 1/8|35 1/4|36 1/4|37 1/4|38 3/4|40 3/8|42 1/8|44|46")
UNDER_BUST = _row("25 3/4|26 1/2|27 1/4|28|29|30|31|32 1/2|34|35 3/4|37 5/8|39 5/8")
WAIST = {
    "curvy": _row("23 7/8|24 5/8|25 3/8|26 1/8|27|28|29|30 3/4|32 1/2|34 1/2|36 3/4|39"),
    "straight": _row("25 3/8|26 1/8|26 7/8|27 5/8|28 1/2|29 1/2|30 1/2|32 1/4|34|36|38 1/4|40 1/2"),
}

BUST_1995 = (34, 35, 36, 37.5, 39, 40.5)
NAPE_TO_WAIST_1995 = (16, 16.25, 16.5, 16.75, 17, 17.25)
SCYE_DEPTH_1995 = (7.375, 7.5, 7.625, 7.75, 7.875, 8)


def by_bust(bust: float, column: tuple[float, ...]) -> float:
    """The 1995 table's column at a bust, in a straight line between sizes and beyond the outer two."""
    upper = next((n for n in range(1, len(BUST_1995)) if bust <= BUST_1995[n]), len(BUST_1995) - 1)
    low, high = BUST_1995[upper - 1], BUST_1995[upper]
    share = (bust - low) / (high - low)
    return column[upper - 1] + share * (column[upper] - column[upper - 1])


def test_body(bust: float, under_bust: float, waist: float, *, hip: float | None = None, neck: float | None = None) -> dict[str, float]:
    """Measures in inches of a body of these girths, its lengths by the rules for test bodies."""
    neck = bust / 4 + 5.5 if neck is None else neck
    shoulder = bust / 4 + 6.375
    drop = 0.36 * (shoulder / 2 - (neck / 6 + 0.25))
    nape_to_waist = by_bust(bust, NAPE_TO_WAIST_1995)
    return {
        "bust": bust,
        "under_bust": under_bust,
        "waist": waist,
        "hip": bust + 2.5 if hip is None else hip,
        "neck": neck,
        "shoulder": shoulder,
        "shoulder_to_bust": bust / 4 + 1.25,
        "shoulder_to_under_bust": bust / 4 + 4.25,
        "shoulder_to_waist": nape_to_waist + 0.75 + 0.2 * (bust - under_bust),
        "nape_to_waist": nape_to_waist,
        "armhole_depth": by_bust(bust, SCYE_DEPTH_1995) + 0.75 - drop,
    }


test_body.__test__ = False  # a body for tests, not a test


def astm_body(size: str, figure: str) -> dict[str, float]:
    """One of the twelve sizes; `figure` is curvy or straight."""
    n = SIZES.index(size)
    return test_body(BUST[n], UNDER_BUST[n], WAIST[figure][n], neck=NECK_BASE[n])


def order_file(name: str, measures: dict[str, float], **garment) -> dict:
    """An order file in inches for a bustier gown of these measures; `garment` changes its choices."""
    return {
        "order": name,
        "client": "Wilhelmina",
        "units": "in",
        "measured_on": "2026-03-02",
        "measures": measures,
        "garment": {
            "kind": "bustier-gown",
            "fit": "close",
            "top_edge": "straight",
            "yoke": "none",
            "waist": "straight",
            "skirt": {"kind": "a-line", "length": 38},
            "sleeve": None,
            "closure": "back-zip",
            "lined": True,
        }
        | garment,
        "cloths": [
            {"name": "brocade", "for": ["shell"], "width": 150},
            {"name": "lawn", "for": ["lining"], "width": 150},
            {"name": "woven fusible", "for": ["stay"], "width": 150},
            {"name": "cotton batting", "for": ["wadding"], "width": 150},
        ],
    }
