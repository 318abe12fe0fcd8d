"""The checks from outside can fail: a right result, spoiled in one place, is found out by the check meant for it."""

import copy

import pytest

from tests.outside import faults
from tests.outside.contract import breaches
from tests.outside.geometry import edge_of, named


@pytest.fixture(scope="module")
def right(astm_run) -> dict:
    return astm_run.result("curvy-10")


@pytest.fixture
def result(right) -> dict:
    return copy.deepcopy(right)


def found(find, result: dict) -> list[str]:
    return list(find(result))


def test_a_right_result_has_no_fault(right):
    assert faults.all_faults(right) == []


def test_a_piece_named_twice(result):
    result["pieces"][1]["name"] = result["pieces"][0]["name"]
    assert found(faults.names, result)


def test_a_bow_tie(result):
    net = result["pieces"][0]["net"]
    net[1], net[len(net) // 2] = net[len(net) // 2], net[1]
    assert found(faults.outlines, result)


def test_a_closed_ring(result):
    result["pieces"][0]["net"].append(result["pieces"][0]["net"][0])
    assert found(faults.outlines, result)


def test_an_edge_left_out_of_the_walk(result):
    del result["pieces"][0]["edges"][1]
    assert found(faults.walks, result)


def test_an_edge_moved_by_a_millimetre(result):
    edge = result["pieces"][0]["edges"][1]
    edge["line"] = [[x + 1, y] for x, y in edge["line"]]
    assert found(faults.walks, result)


def test_a_cutting_line_inside_the_sewing_line(result):
    piece = result["pieces"][0]
    piece["cut_line"] = [[0.98 * x, 0.98 * y] for x, y in piece["net"]]
    assert found(faults.cutting_lines, result)


def test_an_allowance_that_was_not_cut(result):
    edge_of(named(result)["centre cup"], "cup seam")["allowance"] += 3
    assert found(faults.cutting_lines, result)


def test_a_fold_off_the_middle(result):
    edge_of(named(result)["band"], "fold")["line"][0][0] += 0.5
    assert found(faults.folds, result)


@pytest.mark.parametrize("level", ["bust", "under_bust", "waist", "hip"])
def test_a_girth_off_by_a_sixteenth(result, level):
    """0.0625 in over the whole girth is beyond the 0.05 that is allowed, whichever stretch it sits in."""
    girth = next(girth for girth in result["girths"] if girth["level"] == level)
    girth["body"] -= 0.0625 * 25.4
    assert any("body and ease" in fault for fault in found(faults.girths, result))


def test_a_girth_that_is_not_the_sum_of_its_stretches(result):
    result["girths"][0]["finished"] += 1
    assert found(faults.girths, result)


def test_a_stretch_that_ends_inside_the_piece(result):
    stretch = next(s for s in result["girths"][0]["across"] if "line" in s)
    stretch["line"][-1][0] -= 2
    assert found(faults.girths, result)


def test_a_mated_edge_longer_by_a_millimetre(result):
    seam = next(s for s in result["seams"] if s["ease"] == 0)
    line = edge_of(named(result)[seam["a"][0]["piece"]], seam["a"][0]["edge"])["line"]
    (x0, y0), (x1, y1) = line[0], line[1]
    run = ((x1 - x0) ** 2 + (y1 - y0) ** 2) ** 0.5
    line[0] = [x0 - (x1 - x0) / run, y0 - (y1 - y0) / run]
    assert any("against" in fault for fault in found(faults.seams, result))


def test_a_seam_taken_from_the_list(result):
    result["seams"] = [s for s in result["seams"] if "cup seam" not in str(s["a"])]
    assert found(faults.sewn, result)


def test_a_notch_moved_on_one_side_only(result):
    piece = next(p for p in result["pieces"] if any(n["mate"] for n in p["notches"]))
    next(n for n in piece["notches"] if n["mate"])["at"] += 3
    assert found(faults.notches, result)


def test_both_notches_moved_with_their_mates_but_apart(result):
    """Each still names the other; only the distances from the same end differ."""
    pieces = named(result)
    centre, side = pieces["centre cup"], pieces["side cup"]
    mine = next(n for n in centre["notches"] if n["edge"] == "cup seam" and n["mate"])
    theirs = next(n for n in side["notches"] if n["edge"] == "cup seam" and abs(n["at"] - mine["mate"]["at"]) < 0.01)
    mine["at"] += 3
    theirs["mate"]["at"] += 3
    assert any("same end" in fault for fault in found(faults.notches, result))


def test_a_dart_with_one_leg_too_long(result):
    dart = named(result)["back"]["darts"][0]
    x, y = dart["legs"][0][0]
    dart["legs"][0].insert(0, [x, y + 1])
    assert found(faults.darts, result)


def test_a_dart_that_closes_with_a_kink(result):
    back = named(result)["back"]
    edge = next(e for e in back["edges"] if e["name"] == "waist 1")
    edge["line"] = [[x, y + 0.2 * (x - edge["line"][0][0])] for x, y in edge["line"]]
    assert found(faults.dart_closings, result)


def test_a_corner_that_kinks_across_a_seam(result):
    edge = edge_of(named(result)["centre cup"], "top")
    middle = edge["line"][0][0]
    edge["line"] = [[x, y + 0.2 * abs(x - middle)] for x, y in edge["line"]]
    assert found(faults.corners, result)


def test_a_curve_drawn_with_too_few_points(result):
    edge = edge_of(named(result)["centre cup"], "cup seam")
    edge["line"] = [edge["line"][0], edge["line"][len(edge["line"]) // 2], edge["line"][-1]]
    assert found(faults.curves, result)


@pytest.mark.parametrize(
    ("path", "value"),
    [
        (("engine",), 1),
        (("order",), ""),
        (("measures", "bust"), 900),
        (("pieces", 0, "on_fold"), 1),
        (("pieces", 0, "side"), "middle"),
        (("pieces", 0, "edges", 0, "line"), []),
        (("pieces", 0, "cut", 0, "count"), 0),
        (("girths", 0, "across"), []),
        (("seams", 0, "ease"), None),
        (("checks", 0, "pass"), "yes"),
    ],
)
def test_a_value_that_breaks_the_contract(result, path, value):
    place = result
    for step in path[:-1]:
        place = place[step]
    place[path[-1]] = value
    assert breaches(result)


@pytest.mark.parametrize("key", ["order", "levels", "side_levels", "girths", "pieces", "lays", "steps", "warnings", "checks"])
def test_a_key_that_is_left_out(result, key):
    del result[key]
    assert breaches(result) == [f"result.{key}: missing"]
