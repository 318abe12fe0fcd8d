"""The lays in result files of whole orders, looked at by Shapely alone: inside the cloth, none on another, every piece there.

Ten orders: sizes of ASTM D5585-11e1, Misses (bodies.py), gowns and dresses, one-way and not, folded and open, short of cloth,
a print to match, a cloth that shrinks. Amounts: length / (1 − shrinkage), rounded up to ⅛ yd or 10 cm
(common practice, no source).
"""

import math
from itertools import combinations

import pytest
from shapely import Polygon, box, prepare

from tests.outside.bodies import astm_body, order_file
from tests.outside.contract import breaches
from tests.outside.running import jobsheet
from tests.outside.test_every_garment import plain, with_arms

HAIR = 0.01
"""Millimetres: what touches may share this, which no shears see."""

OUTSIDE = {
    "gown-4": {}, "gown-20": {"width": 60}, "one-way": {"one_way": True, "width": 54}, "open": {"layout": "open", "width": 45},
    "shrinks": {"shrink": 0.05, "width": 60}, "short": {"on_hand": "1yd", "width": 60}, "plenty": {"on_hand": "8yd", "width": 60},
    "print": {"repeat": 10, "match": ["skirt front", "skirt back"], "width": 60}, "dress": {"width": 60},
    "dress-circle": {"width": 60},
}  # fmt: skip


def orders() -> dict[str, dict]:
    made = {}
    for number, (name, cloth) in enumerate(OUTSIDE.items()):
        body = with_arms(astm_body(("4", "10", "16", "20")[number % 4], ("curvy", "straight")[number % 2]))
        choices = {"skirt": {"kind": "a-line", "length": 34}}
        if name.startswith("dress"):
            skirt = {"kind": "circle", "fraction": 0.5, "length": 22} if name == "dress-circle" else choices["skirt"]
            choices = {"kind": "fitted-dress", "fit": "standard", "neckline": "round", "darts": "side"}
            choices |= {"skirt": skirt, "sleeve": {"kind": "short"}}
        order = order_file(name, body, **choices)
        if name.startswith("dress"):
            order["garment"] = plain(order["garment"])
        order["cloths"][0] |= cloth
        made[name] = order
    return made


@pytest.fixture(scope="module")
def run(tmp_path_factory):
    return jobsheet(tmp_path_factory.mktemp("lays") / "out", *orders().values(), options=("--no-sheet",))


@pytest.fixture(params=list(OUTSIDE))
def result(run, request):
    return run.result(request.param)


def test_each_lay_keeps_the_contract(result):
    assert breaches(result) == []
    assert result["lays"], [warning["text"] for warning in result["warnings"]]


def test_every_outline_lies_on_the_cloth_and_none_on_another(result):
    for lay in result["lays"]:
        for zone in sorted({one.get("zone", "") for one in lay["placed"]}):
            shapes = [Polygon(one["outline"]) for one in lay["placed"] if one.get("zone", "") == zone]
            across = lay["opened_usable"] if zone else lay["usable"]
            ends = (lay["opened_from"], lay["length"]) if zone else (0, lay.get("opened_from", lay["length"]))
            cloth = box(0, ends[0], across, ends[1])
            for shape in shapes:
                assert shape.is_valid and shape.difference(cloth.buffer(HAIR)).area < HAIR
            for one, other in combinations(shapes, 2):
                prepare(one)
                assert not one.intersects(other) or one.buffer(-HAIR).intersection(other.buffer(-HAIR)).area < HAIR


def test_what_is_laid_is_every_piece_as_often_as_it_is_cut(result):
    for lay in result["lays"]:
        given: dict[str, int] = {}
        for one in lay["placed"]:
            given[one["piece"]] = given.get(one["piece"], 0) + one["gives"]
        wanted = {
            piece["name"]: cut["count"] for piece in result["pieces"] for cut in piece["cut"] if cut["cloth"] == lay["cloth"]
        }
        assert given == wanted
        for one in lay["placed"]:
            (area,) = [cut_area(p, lay["cloth"]) for p in result["pieces"] if p["name"] == one["piece"]]
            laid = Polygon(one["outline"]).area
            assert min(abs(laid - area), abs(laid - 2 * area)) < 1e-3 * area  # an on-fold piece may lie opened out


def cut_area(piece: dict, cloth: str) -> float:
    (cut,) = [cut for cut in piece["cut"] if cut["cloth"] == cloth]
    return Polygon(cut.get("cut_line") or piece["cut_line"]).area


def test_every_cloth_that_something_is_cut_from_is_laid_or_told_of(result):
    used = {cut["cloth"] for piece in result["pieces"] for cut in piece["cut"]}
    told = [warning["text"] for warning in result["warnings"] if warning["code"] == "no-lay"]
    for cloth in used - {lay["cloth"] for lay in result["lays"]}:
        assert any(text.startswith(cloth) for text in told)


def test_amounts_follow_from_the_length(result):
    shrink = {cloth["name"]: cloth.get("shrink", 0) for cloth in orders()[result["order"]]["cloths"]}
    repeat = {cloth["name"]: cloth.get("repeat", 0) * 25.4 for cloth in orders()[result["order"]]["cloths"]}
    for lay in result["lays"]:
        needs = lay["length"] / (1 - shrink[lay["cloth"]]) + repeat[lay["cloth"]]
        assert lay["to_buy"] == pytest.approx(math.ceil(needs / 114.3 - 1e-6) * 114.3)
        assert 0 < lay["at_least"] <= lay["length"] + HAIR
        area = sum(Polygon(one["outline"]).area * one["layers"] for one in lay["placed"])
        assert lay["used"] == pytest.approx(area / ((lay["width"] - 25.4) * lay["length"]), rel=1e-6)


def test_cloth_in_hand_is_enough_or_not(run):
    assert next(lay for lay in run.result("plenty")["lays"] if lay["on_hand"])["fits_on_hand"] is True
    short = run.result("short")
    assert next(lay for lay in short["lays"] if lay["on_hand"])["fits_on_hand"] is False
    assert "cloth-not-enough" in {warning["code"] for warning in short["warnings"]}


def test_the_same_file_twice_gives_the_same_result(run, tmp_path):
    """Lays are counted, not timed, so that scripts can compare results."""
    again = jobsheet(tmp_path / "out", orders()["one-way"], options=("--no-sheet",))
    one, two = (folder / "one-way" / "result.json" for folder in (run.folder, again.folder))
    assert one.read_bytes() == two.read_bytes()


def test_a_longer_search_can_be_asked_for_and_a_time_that_is_none_is_refused(tmp_path):
    longer = jobsheet(tmp_path / "out", orders()["gown-4"], options=("--no-sheet", "--lay-seconds", "0.5"))
    assert longer.status == 0 and longer.result("gown-4")["lays"]
    refused = jobsheet(tmp_path / "none", orders()["gown-4"], options=("--lay-seconds", "-1"))
    assert refused.status == 2 and "“-1” is no time to search for. Give seconds from 0.1 to 600." in refused.err
