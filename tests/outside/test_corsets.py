"""Panelled corsets for the twelve sizes of ASTM D5585-11, measured on the polygons that jobsheet writes.

Body girths: the standard's Table 1. Lengths: bodies.py says where each comes from.
"""

import itertools
import math

import pytest
from shapely import Point, Polygon

from tests.outside.bodies import SIZES, astm_body, order_file
from tests.outside.conftest import FIGURES
from tests.outside.geometry import INCH, edge_of, length, named, slice_width, x_at
from tests.outside.running import jobsheet

EASE = {"corset": {"bust": 0.0, "under_bust": 0.0, "waist": 0.0, "hip": 2.0}, "close": {"bust": 1.0, "under_bust": 0.5, "waist": 0.5, "hip": 2.0}}
"""Inches: the order file's contract with the method's table of ease."""
GAP = 1.5
CASES = [(panels, figure, size) for panels, figure, size in itertools.product((3, 4), FIGURES, SIZES)]


def name_of(panels: int, figure: str, size: str) -> str:
    return f"{panels}-{figure}-{size}"


def fit_of(size: str) -> str:
    return ("corset", "close")[SIZES.index(size) % 2]


@pytest.fixture(scope="module")
def run(tmp_path_factory):
    orders = []
    for panels, figure, size in CASES:
        order = order_file(name_of(panels, figure, size), astm_body(size, figure))
        order["garment"] = {"kind": "corset", "fit": fit_of(size), "panels": panels, "top_edge": "sweetheart", "closure": "back-lacing",
                            "lined": True, "rules": {"lower_edge": 8, "lacing_gap": GAP}}
        orders.append(order)
    return jobsheet(tmp_path_factory.mktemp("corsets") / "out", *orders)


def climbing(across: float, up: float) -> float:
    """The length of a line that leaves and arrives level over `across` and climbs by `up`: a cubic with handles of a third,
    summed over 4,000 chords."""
    def at(t: float) -> tuple[float, float]:
        return across * t, up * (3 * t * t - 2 * t**3)  # handles of a third run across evenly

    return sum(math.dist(at(i / 4000), at((i + 1) / 4000)) for i in range(4000))


@pytest.mark.parametrize(("panels", "figure", "size"), CASES)
def test_girths_measured_without_the_results_own_stretches_are_body_and_ease(run, panels, figure, size):
    """Widths by level, and across the side front, where a level climbs, along the line that it would be chalked along."""
    result, body, ease = run.result(name_of(panels, figure, size)), astm_body(size, figure), EASE[fit_of(size)]
    pieces, fold, sides = named(result), result["levels"], result["side_levels"]
    front, across = pieces["front"], pieces["side front"]
    behind = [piece for name, piece in pieces.items() if name in ("back", "side back")]
    inner, outer = edge_of(across, "front seam")["line"], edge_of(across, "side")["line"]
    for level in ("bust", "under_bust", "waist"):
        y, side_y = fold[level], sides[level]
        wide = x_at(outer, side_y) - x_at(inner, y)
        half = slice_width(front["net"], y) + (wide if level == "bust" else climbing(wide, y - side_y))
        half += sum(slice_width(piece["net"], side_y - 0.01) for piece in behind) + GAP / 2 * INCH
        assert 2 * half / INCH == pytest.approx(body[level] + ease[level], abs=0.05), level
    lower = sum(length(edge_of(piece, "lower edge")["line"]) for piece in (front, across, *behind)) + GAP / 2 * INCH
    assert 2 * lower / INCH == pytest.approx(body["hip"] + ease["hip"], abs=0.05)


@pytest.mark.parametrize(("panels", "figure", "size"), CASES)
def test_no_seam_slants_so_far_that_a_bone_would_not_lie(run, panels, figure, size):
    """The method's limit is 45° from straight down; here it is read off the chords of the drawn lines."""
    pieces = named(run.result(name_of(panels, figure, size)))
    for piece, edge in (("front", "front seam"), ("side front", "front seam"), ("side front", "side"), ("back", "side" if panels == 3 else "back seam")):
        line = edge_of(pieces[piece], edge)["line"]
        slants = [math.degrees(math.atan2(abs(x1 - x0), abs(y1 - y0))) for (x0, y0), (x1, y1) in itertools.pairwise(line)]
        assert max(slants) <= 45, (piece, edge)


@pytest.mark.parametrize(("panels", "figure", "size"), CASES)
def test_bones_lie_on_their_panel_and_are_shorter_than_their_channel(run, panels, figure, size):
    result = run.result(name_of(panels, figure, size))
    pieces = named(result)
    for bone in result["bones"]:
        net = Polygon(pieces[bone["piece"]]["net"]).buffer(0.5)
        assert all(net.covers(Point(bone[end])) for end in ("from", "to")), bone["place"]
        assert 0 < bone["bone"] < bone["channel"]
