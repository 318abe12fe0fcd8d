"""The checks of a top's inside lines can fail: a right blouse, spoiled in one place, is found out by the check meant for it."""

import copy

import pytest

from tests.outside import faults, top_faults
from tests.outside.bodies import astm_body
from tests.outside.geometry import named
from tests.outside.running import jobsheet
from tests.outside.test_tops_in_sizes import order


@pytest.fixture(scope="module")
def right(tmp_path_factory) -> dict:
    file = order("blouse", astm_body("10", "curvy"), fit="close", collar="flat", sleeve={"kind": "set-in"})
    return jobsheet(tmp_path_factory.mktemp("blouse") / "out", file).result("blouse")


@pytest.fixture
def result(right) -> dict:
    return copy.deepcopy(right)


def of_kind(result: dict, piece: str, kind: str) -> list[dict]:
    return [mark for mark in named(result)[piece]["marks"] if mark["kind"] == kind]


def test_a_right_blouse_has_no_fault(right):
    assert faults.all_faults(right) == []
    assert of_kind(right, "back", "dart") and of_kind(right, "front", "buttonhole") and right["laid_over"]


def test_a_dart_with_one_side_wider(result):
    of_kind(result, "back", "dart")[1]["line"][0][0] += 3
    assert list(top_faults.inner_darts(named(result)["back"]))


def test_a_dart_that_leaves_the_piece(result):
    for mark in of_kind(result, "back", "dart"):
        mark["line"] = [[x + 400, y] for x, y in mark["line"]]
    assert list(top_faults.inner_darts(named(result)["back"]))


def test_half_a_dart(result):
    named(result)["back"]["marks"] = of_kind(result, "back", "dart")[:2]
    assert list(top_faults.inner_darts(named(result)["back"]))


def test_a_waist_that_begins_in_the_middle_of_nowhere(result):
    girth = next(g for g in result["girths"] if g["level"] == "waist")
    girth["across"][0]["line"][0][0] += 15
    assert any("off its outline" in fault for fault in faults.girths(result))


def test_buttons_that_all_miss_the_bust(result):
    for mark in (*of_kind(result, "front", "button"), *of_kind(result, "front", "buttonhole")):
        mark["line"] = [[x, y + 36] for x, y in mark["line"]]
    assert any("bust" in fault for fault in top_faults.top_faults(result))


def test_a_buttonhole_off_the_centre(result):
    hole = of_kind(result, "front", "buttonhole")[2]
    hole["line"] = [[x + 20, y] for x, y in hole["line"]]
    assert any("centre line" in fault for fault in top_faults.top_faults(result))


def test_a_button_without_a_hole(result):
    named(result)["front"]["marks"].remove(of_kind(result, "front", "buttonhole")[0])
    assert any("for" in fault for fault in top_faults.top_faults(result))


def test_a_cap_that_parts_by_more_than_it_says(result):
    result["laid_over"][0]["apart"] += 2
    assert list(top_faults.caps(result))


def test_a_cap_that_is_laid_elsewhere(result):
    result["laid_over"][1]["cap"] = [[x + 5, y] for x, y in result["laid_over"][1]["cap"]]
    assert list(top_faults.caps(result))


def test_a_collar_too_long_for_its_neck(result):
    edge = next(e for e in named(result)["flat collar"]["edges"] if e["name"] == "neck")
    edge["line"] = [[1.01 * x, y] for x, y in edge["line"]]
    assert any("collar to the neck" in fault for fault in faults.seams(result))
