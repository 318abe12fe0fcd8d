"""What a dressmaker does by hand: common practice, no source. The tool's rule lands within a quarter of an inch.

Lower bust dart ½ toward the centre and 1¼ toward the side for D of 4⅜ (D is bust less under-bust), 1½ to 2 toward
the side for D to 6¼; about 1 across at the chest line from the upper dart; a bone at least ¾ short of the cloth's raw
edge; a casing strip folded to ¾ for a ¼ bone.
"""

import pytest
from shapely import LineString, Polygon

from tests.outside.bodies import order_file, test_body
from tests.outside.geometry import INCH, edge_of, named, x_at
from tests.outside.running import jobsheet

QUARTER = 0.25


@pytest.fixture(scope="module")
def run(tmp_path_factory):
    bodies = {
        "small": test_body(35.375, 31, 28),
        "fuller": test_body(37.25, 31, 28),
        "middle": test_body(36, 31, 28),
    }
    orders = [order_file(name, body, fit="corset") for name, body in bodies.items()]
    orders.append(order_file("laced", bodies["middle"], closure="back-lacing"))
    done = jobsheet(tmp_path_factory.mktemp("practice") / "out", *orders)
    assert done.status == 0, done.err
    return done


def lower_dart(result: dict) -> tuple[float, float]:
    """How far the lower dart goes toward the centre and toward the side of the bust point, inches."""
    pieces, levels = named(result), result["levels"]
    centre, side = (edge_of(pieces[name], "cup seam")["line"] for name in ("centre cup", "side cup"))
    foot_of = [max(line, key=lambda point: point[1])[0] for line in (centre, side)]
    bust_point = x_at(centre, levels["bust"])
    return (bust_point - foot_of[0]) / INCH, (foot_of[1] - bust_point) / INCH


def test_a_small_bust_has_a_half_toward_the_centre_and_one_and_a_quarter_toward_the_side(run):
    centre, side = lower_dart(run.result("small"))
    assert centre == pytest.approx(0.5, abs=QUARTER)
    assert side == pytest.approx(1.25, abs=QUARTER)


def test_a_fuller_bust_has_one_and_a_half_to_two_toward_the_side(run):
    _, side = lower_dart(run.result("fuller"))
    assert 1.5 - QUARTER <= side <= 2 + QUARTER


@pytest.mark.parametrize("order", ["small", "middle"])
def test_the_upper_dart_is_about_an_inch_across_at_the_chest_line(run, order):
    """For the bodies that practice speaks of; a fuller bust (D of 6¼) takes 1¼, a fifth of D and the edge's snugness."""
    result = run.result(order)
    pieces, chest = named(result), result["levels"]["chest"]
    centre, side = (x_at(edge_of(pieces[name], "cup seam")["line"], chest) for name in ("centre cup", "side cup"))
    assert (side - centre) / INCH == pytest.approx(1, abs=QUARTER)


@pytest.mark.parametrize("order", ["small", "middle", "fuller", "laced"])
def test_a_bone_ends_three_quarters_short_of_the_raw_edge(run, order):
    result = run.result(order)
    pieces = named(result)
    assert result["bones"]
    for bone in result["bones"]:
        ends = [pieces[name] for name in bone.get("pieces") or [bone["piece"]]]
        raw = raw_length(bone, ends)
        assert raw - bone["bone"] >= 2 * 0.75 * INCH - 0.1, bone.get("place")
        assert 0 < bone["bone"] < bone["channel"]


def raw_length(bone: dict, pieces: list[dict]) -> float:
    """From raw edge to raw edge along the line of the bone's channel, over the pieces that it runs through."""
    (x0, y0), (x1, y1) = bone["from"], bone["to"]
    reach = 200 / ((x1 - x0) ** 2 + (y1 - y0) ** 2) ** 0.5
    line = LineString([(x0 - (x1 - x0) * reach, y0 - (y1 - y0) * reach), (x1 + (x1 - x0) * reach, y1 + (y1 - y0) * reach)])
    cloth = [Polygon(piece["cut_line"]).buffer(0.05) for piece in pieces]
    joined = cloth[0]
    for further in cloth[1:]:
        joined = joined.union(further)
    inside = joined.intersection(line)
    return max(part.length for part in getattr(inside, "geoms", [inside]))


def test_a_casing_strip_folds_to_three_quarters_for_a_quarter_bone(run):
    result = run.result("middle")
    assert result["rules"]["bone_width"] == pytest.approx(0.25 * INCH)
    widths = {m["item"]: m["amount"] for m in result["materials"] if "casing" in m["item"] and "width" in m["item"]}
    assert any("folded" in item and width == pytest.approx(0.75 * INCH) for item, width in widths.items()), widths
