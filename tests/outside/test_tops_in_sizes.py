"""Blouses in the twelve sizes of ASTM D5585-11, measured on the polygons; and the dressmaker's guides for neck, shoulder and armhole.

Body girths: ASTM D5585-11e1, Table 1 (bodies.py says where the lengths come from). Guides: common practice, no source. Girths
within 0.05 in.
"""

import math

import pytest
from shapely import LineString, Polygon

from tests.outside.bodies import SIZES, astm_body, order_file, test_body
from tests.outside.contract import breaches
from tests.outside.faults import all_faults
from tests.outside.geometry import INCH, edge_of, length, named
from tests.outside.running import jobsheet
from tests.outside.test_every_garment import with_arms
from tests.outside.top_faults import marked

EASE = {"close": (1, 0.5, 2), "standard": (2, 1, 2), "loose": (4, 3, 4)}
"""Ease at bust, waist and hip by fit, inches: the order file's contract with the method's table of ease."""

FIGURES = ("curvy", "straight")
FITS = tuple(EASE)
COLLARS = ("none", "stand", "flat")


def order(name: str, body: dict, **choices) -> dict:
    garment = {"kind": "blouse", "closure": "buttons", "lined": False} | choices
    return order_file(name, with_arms(body)) | {"garment": garment}


def orders() -> dict[str, dict]:
    made = {}
    for n, size in enumerate(SIZES):
        for m, figure in enumerate(FIGURES):
            name = f"{figure}-{size}"
            made[name] = order(name, astm_body(size, figure), fit=FITS[n % 3], collar=COLLARS[(n + m) % 3], sleeve=[None, {"kind": "set-in"}][(n + m) % 2], length=9)
    made["guide"] = order("guide", {**test_body(36, 31, 28), "neck": 16}, sleeve={"kind": "set-in"})
    return made


@pytest.fixture(scope="module")
def run(tmp_path_factory):
    return jobsheet(tmp_path_factory.mktemp("tops") / "out", *orders().values())


ASTM = [f"{figure}-{size}" for figure in FIGURES for size in SIZES]


@pytest.mark.parametrize("name", ASTM)
def test_each_size_is_drafted_without_a_fault(run, name):
    result = run.result(name)
    assert breaches(result) == []
    assert [check["check"] for check in result["checks"] if not check["pass"]] == []
    assert all_faults(result) == []


@pytest.mark.parametrize("figure", FIGURES)
@pytest.mark.parametrize("size", SIZES)
def test_girths_measured_on_the_outlines_are_body_and_ease(run, size, figure):
    """Not from `across`: bust by where the side stands at the bust level, waist and hip cut straight through front and back."""
    result, body = run.result(f"{figure}-{size}"), astm_body(size, figure)
    fit = orders()[f"{figure}-{size}"]["garment"]["fit"]
    pieces, levels, sides = named(result), result["levels"], result["side_levels"]
    front, back = pieces["front"], pieces["back"]
    underarm = [max(x for x, y in edge_of(piece, name)["line"]) for piece, name in ((front, "armhole"), (back, "armhole"))]
    waist = across(front, levels["waist"]) - darts(front) + across(back, sides["waist"]) - darts(back)
    hip = across(front, levels["hip"]) + across(back, sides["hip"])
    found = [2 * half / INCH for half in (sum(underarm), waist, hip)]
    wanted = [body[key] + ease for key, ease in zip(("bust", "waist", "hip"), EASE[fit], strict=True)]
    assert found == pytest.approx(wanted, abs=0.05)


def across(piece: dict, y: float) -> float:
    """How much of the level lies on the piece, from its centre line outward."""
    return Polygon(piece["net"]).intersection(LineString([(0, y), (2000, y)])).length


def darts(piece: dict) -> float:
    """What the darts inside a piece take at the waist."""
    legs = marked(piece, "dart")
    return sum(math.dist(legs[i][0], legs[i + 1][0]) for i in range(0, len(legs), 4))


@pytest.mark.parametrize("name", [name for name, file in orders().items() if file["garment"].get("collar", "none") != "none"])
def test_the_collar_is_as_long_as_the_neckline_on_the_pieces(run, name):
    pieces = named(run.result(name))
    collar = pieces.get("collar stand") or pieces["flat collar"]
    edges = [("back", "neck"), ("front", "neck"), *([("front", "neck lap")] if collar["name"] == "collar stand" else [])]
    neckline = sum(length(edge_of(pieces[piece], edge)["line"]) for piece, edge in edges)
    assert length(edge_of(collar, "neck")["line"]) == pytest.approx(neckline, abs=0.5)


@pytest.mark.parametrize("name", ["guide", *ASTM])
def test_the_shoulder_tip_is_half_the_shoulder_measure_from_the_centre(run, name):
    result = run.result(name)
    tip = edge_of(named(result)["front"], "armhole")["line"][0]
    assert tip[0] == pytest.approx(result["measures"]["shoulder"]["value"] / 2, abs=0.1)


def test_a_neck_near_16_is_cut_near_3_by_3(run):
    """Three inches is a guide, and the neck must pass through: so the depth may be up to an inch more."""
    neck = edge_of(named(run.result("guide"))["front"], "neck")["line"]
    assert neck[-1][0] / INCH == pytest.approx(3, abs=0.25)
    assert 3 <= neck[0][1] / INCH <= 4


def test_an_armhole_is_near_7_deep_for_a_bust_near_36(run):
    """From the shoulder tip straight down to the underarm, on the front as drawn."""
    hole = edge_of(named(run.result("guide"))["front"], "armhole")["line"]
    assert (hole[-1][1] - hole[0][1]) / INCH == pytest.approx(7, abs=0.5)


@pytest.mark.parametrize("name", ["guide", *(name for name, file in orders().items() if file["garment"]["sleeve"])])
def test_a_sleeve_s_cap_is_a_half_to_one_and_a_half_longer_than_the_armhole(run, name):
    pieces = named(run.result(name))
    hole = sum(length(edge_of(pieces[piece], "armhole")["line"]) for piece in ("front", "back"))
    assert 0.5 <= (length(edge_of(pieces["sleeve"], "cap")["line"]) - hole) / INCH <= 1.5
