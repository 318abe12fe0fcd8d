"""Worked drafts out of old handbooks: each rule as a small function, held to its printed results, then our draft held to it.

Sources (public domain): Woman's Institute, tight-fitting foundation waist (haabet.dk/CorsetCloseFitting, par. 30 and 48); Rosenfeld,
The Practical Designer, 1911, lesson 142, and 1918, woman's first foundation (wikisource); School Sewing, foundation shirt waist and
one-piece sleeve (chestofbooks.com). To a sixteenth of an inch.
"""

import math

import pytest

from tests.outside.bodies import order_file
from tests.outside.geometry import INCH, edge_of, length, named
from tests.outside.running import jobsheet

SIXTEENTH = 1 / 16


def womans_institute(neck, bust, front, chest, width_of_back, length_of_back, depth, armhole) -> dict[str, float]:
    """The foundation waist's points as distances, inches; the back's on the centre-back line AC and the bust line from B."""
    half_back, eighth = width_of_back / 2, armhole / 8
    corner = (neck / 6, depth + 0.5)  # E: half an inch above A
    tip = (half_back + 0.625, armhole / 2 - eighth)  # K: I is armhole/2 less an eighth of it above G, K ⅝ out from I
    shoulder = math.dist(corner, tip)
    return {
        "A-B": depth, "A-C": length_of_back, "B-D": depth / 3, "E": neck / 6, "B-F": bust / 2, "B-G": half_back, "G-G2": eighth,
        "G-H": armhole / 2, "H-I": eighth, "K across": tip[0], "K up": tip[1], "E-K": shoulder, "J-L": shoulder - 1, "L-M": neck / 6,
        "M-N": front - neck / 6, "M-O": neck / 4, "O-P": 2.5, "P-Q": chest / 2, "F-G2": bust / 2 - half_back - eighth,
        "N-N2": (bust / 2 - half_back - eighth) / 3,
    }  # fmt: skip


INSTITUTE = {"neck": 13, "bust": 38, "front": 21.5, "chest": 14, "width_of_back": 13.5, "length_of_back": 15, "depth": 7, "armhole": 15}


@pytest.mark.parametrize(("name", "printed"), [
    ("A-B", 7), ("A-C", 15), ("B-D", 2 + 1 / 3), ("E", 2.167), ("B-F", 19), ("B-G", 6.75), ("G-G2", 1.875), ("G-H", 7.5), ("H-I", 1.875),
    ("K across", 7.375), ("K up", 5.625), ("E-K", 5.54), ("J-L", 4.54), ("L-M", 2.167), ("M-N", 19 + 1 / 3), ("M-O", 3.25), ("P-Q", 7), ("F-G2", 10.375),
    ("N-N2", 3.458)])  # fmt: skip
def test_the_womans_institute_s_foundation_waist(name, printed):
    assert womans_institute(**INSTITUTE)[name] == pytest.approx(printed, abs=SIXTEENTH)


def rosenfeld_1911(size, depth, nape_to_waist) -> dict[str, float]:
    """Lesson 142: fractions of the size are of its half; the half back is half of B-G and 1¼."""
    half = size / 2
    two_thirds, sixth, twelfth = half * 2 / 3, half / 6, half / 12
    return {"A-B": depth, "A-C": nape_to_waist, "C-D": 6, "B-G": two_thirds, "B-H": two_thirds / 2, "half back": two_thirds / 2 + 1.25, "A-K": sixth,
            "K-L": 1, "D-Z": twelfth, "G-F": sixth}


@pytest.mark.parametrize(("name", "printed"), [
    ("A-B", 7), ("A-C", 15.5), ("C-D", 6), ("B-G", 12), ("B-H", 6), ("half back", 7.25), ("A-K", 3), ("K-L", 1), ("D-Z", 1.5), ("G-F", 3)])
def test_rosenfeld_s_shirt_waist_of_1911(name, printed):
    assert rosenfeld_1911(36, 7, 15.5)[name] == pytest.approx(printed, abs=SIXTEENTH)


def rosenfeld_1918(size) -> dict[str, float]:
    """Woman's first foundation: two thirds of the half size across, the back line 1½ beyond its middle, a shoulder of a third."""
    half = size / 2
    across = half * 2 / 3
    return {"A-D": across, "B-H": across / 2 + half / 12, "A-I": across / 2 + half / 12, "A-J": half / 6, "J-K": 1, "K-L": half / 3}


@pytest.mark.parametrize(("name", "printed"), [("A-D", 12), ("B-H", 7.5), ("A-I", 7.5), ("A-J", 3), ("J-K", 1), ("K-L", 6)])
def test_rosenfeld_s_foundation_of_1918(name, printed):
    assert rosenfeld_1918(36)[name] == pytest.approx(printed, abs=SIXTEENTH)


def rosenfeld_measures(size) -> tuple[float, float, float]:
    """Bust, waist and hip by the size, 1918: size + 3; size less a third of it and 1; waist and half the size."""
    waist = size - (size / 3 - 1)
    return size + 3, waist, waist + size / 2


@pytest.mark.parametrize(("size", "printed"), [(36, (39, 25, 43)), (34, (37, 23.667, 40.667)), (40, (43, 27.667, 47.667))])
def test_rosenfeld_s_measures_by_size(size, printed):
    assert rosenfeld_measures(size) == pytest.approx(printed, abs=SIXTEENTH)


def school_sewing_neck(neck) -> float:
    """The front neck, as far out as down: 2 for a neck of 12, an eighth more for each half inch."""
    return 2 + (neck - 12) / 4


def school_sewing_sleeve(armhole) -> dict[str, float]:
    """The one-piece foundation sleeve: cap 4 high, half as wide as half the armhole and ½; the under-curve's two marks."""
    return {"cap": 4, "width": 2 * (armhole / 2 + 0.5), "N": armhole / 5, "O": 2 * armhole / 5}


@pytest.mark.parametrize(("neck", "printed"), [(12, 2), (13, 2.25)])
def test_school_sewing_s_neck(neck, printed):
    assert school_sewing_neck(neck) == pytest.approx(printed, abs=SIXTEENTH)


@pytest.mark.parametrize(("name", "printed"), [("cap", 4), ("width", 17), ("N", 3.2), ("O", 6.4)])
def test_school_sewing_s_sleeve_for_an_armhole_of_16(name, printed):
    assert school_sewing_sleeve(16)[name] == pytest.approx(printed, abs=SIXTEENTH)


BODY = {"under_bust": 33, "waist": 29, "hip": 41, "shoulder_to_bust": 10.5, "shoulder_to_under_bust": 13.5, "shoulder_to_waist": 17.5, "nape_to_waist": 15.5,
        "armhole_depth": 6.2, "upper_arm": 11.5, "wrist": 6.25, "sleeve_length": 23}
"""What the handbooks leave to the eye. Invented."""


@pytest.fixture(scope="module")
def run(tmp_path_factory):
    institute = {**BODY, "bust": INSTITUTE["bust"], "neck": INSTITUTE["neck"], "across_front": INSTITUTE["chest"], "across_back": INSTITUTE["width_of_back"],
                 "shoulder": 2 * womans_institute(**INSTITUTE)["K across"]}
    wide = {**BODY, "bust": 36, "under_bust": 31, "neck": 16, "shoulder": 15.5}
    orders = [order_file(name, body) | {"garment": {"kind": kind, "closure": closure, "lined": False, "sleeve": {"kind": "set-in"}, "rules": rules}}
              for name, kind, closure, body, rules in (
                  ("institute", "bodice", "back-zip", institute, {"neck_width": INSTITUTE["neck"] / 6}), ("neck", "blouse", "buttons", wide, {}))]
    done = jobsheet(tmp_path_factory.mktemp("worked") / "out", *orders)
    assert done.status == 0, done.err
    return done


def test_our_shoulder_seam_is_the_womans_institute_s_on_its_own_measures(run):
    """Their point K and neck width (a sixth of the neck) given, our fall of the shoulder draws their seam of 5.54."""
    front = named(run.result("institute"))["front"]
    assert length(edge_of(front, "shoulder")["line"]) / INCH == pytest.approx(womans_institute(**INSTITUTE)["E-K"], abs=SIXTEENTH)


def test_our_across_back_is_the_womans_institute_s_half_back_and_reach(run):
    """Their half back of 6¾ at the armhole; ours has ⅜ more, half of what a sleeve needs to reach."""
    back = named(run.result("institute"))["back"]
    hollowest = min(x for x, _ in edge_of(back, "armhole")["line"])
    assert hollowest / INCH == pytest.approx(womans_institute(**INSTITUTE)["B-G"] + 0.375, abs=SIXTEENTH)


def test_our_sleeve_s_notch_is_school_sewing_s_first_mark(run):
    """An armhole's fifth from the underarm: 0.4 of each half."""
    for order in ("institute", "neck"):
        pieces = named(run.result(order))
        front, back = (length(edge_of(pieces[name], "armhole")["line"]) for name in ("front", "back"))
        notches = sorted(n["at"] for n in pieces["sleeve"]["notches"] if n["edge"] == "cap" and n["mate"])
        cap = length(edge_of(pieces["sleeve"], "cap")["line"])
        marks = notches[0] + cap - notches[-1]
        assert marks / 2 / INCH == pytest.approx(school_sewing_sleeve((front + back) / INCH)["N"], abs=SIXTEENTH)


def test_our_neck_is_school_sewing_s_within_a_quarter_across(run):
    """School Sewing at 16: 3 out and 3 down. Ours is a sixth and ¼ across; it goes deeper until the neck and ½ pass through."""
    neck = edge_of(named(run.result("neck"))["front"], "neck")["line"]
    across, deep = neck[-1][0] / INCH, neck[0][1] / INCH
    assert across == pytest.approx(school_sewing_neck(16), abs=0.25)
    assert school_sewing_neck(16) <= deep <= school_sewing_neck(16) + 1
