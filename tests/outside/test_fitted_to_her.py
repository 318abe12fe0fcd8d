"""Fit notes and two different sides, read back from the result files alone.

What a note changes: common practice, no source. A note of ¼ on both sides is ½ in the girth; on one side ¼.
"""

import itertools

import pytest
from shapely import Polygon

from tests.outside.bodies import astm_body, order_file
from tests.outside.contract import breaches
from tests.outside.faults import all_faults
from tests.outside.geometry import edge_of, length, named
from tests.outside.running import jobsheet
from tests.outside.sample import SAMPLE
from tests.outside.test_every_garment import SKIRTS, plain, with_arms

INCH = 25.4
GARMENTS = {
    "bustier": {"kind": "bustier-gown", "top_edge": "sweetheart", "skirt": SKIRTS[1]},
    "laced": {"kind": "bustier-gown", "yoke": "full", "closure": "back-lacing", "skirt": SKIRTS[3]},
    "framed": {"kind": "bustier-gown", "yoke": "neck-frame", "skirt": SKIRTS[0]},
    "dress": {"kind": "fitted-dress", "neckline": "boat", "sleeve": {"kind": "set-in"}, "skirt": SKIRTS[0]},
    "princess": {"kind": "fitted-dress", "neckline": "square", "darts": "princess-armhole", "sleeve": {"kind": "bell"}, "skirt": SKIRTS[2]},
    "bodice": {"kind": "bodice", "neckline": "v", "darts": "shoulder", "lined": True},
    "skirt": {"kind": "skirt", "skirt": SKIRTS[0], "lined": True},
}  # fmt: skip
LEFT = [
    {"place": "bust", "side": "left", "amount": "1/2"}, {"place": "side waist", "side": "left", "amount": "1/4"},
    {"place": "hip", "side": "left", "amount": "3/8"}, {"place": "shoulder", "side": "right", "amount": "-3/8"},
    {"place": "sleeve", "side": "left", "amount": "3/8"},
]  # fmt: skip
BOTH = [
    {"place": "side waist", "side": "both", "amount": "-1/4"}, {"place": "bust", "side": "both", "amount": "1/4"},
    {"place": "hip", "side": "both", "amount": "1/2"}, {"place": "armhole", "side": "both", "amount": "-1/4"},
    {"place": "bust point", "side": "both", "amount": "-1/4"}, {"place": "neckline", "side": "both", "amount": "-1/2"},
]  # fmt: skip
WITH = {"plain": {}, "both": {"fit_notes": BOTH}, "left": {"fit_notes": LEFT},
        "hollow": {"fit_notes": [{"place": "back waist", "side": "both", "amount": "3/8"}]},
        "measured": {"measures_right": {"armhole_depth": "6 3/4"}}}


def orders() -> dict[str, dict]:
    files = {}
    combined = itertools.product(("4", "10", "16"), enumerate(GARMENTS.items()), enumerate(WITH.items()))
    for size, (g, (name, garment)), (h, (how, more)) in combined:
        if size != "10" and not SAMPLE.by_turns(g + h + (size == "16")):  # the size between has all of them
            continue
        if name == "skirt" and how in ("measured", "hollow"):
            continue
        body = with_arms(astm_body(size, "curvy" if size == "10" else "straight"))
        order = order_file(f"{name}-{size}-{how}", body, **garment)
        order["garment"] = plain(order["garment"]) if garment["kind"] != "bustier-gown" else order["garment"]
        if garment["kind"] == "bodice":
            order["garment"].pop("skirt", None)
        if garment["kind"] == "skirt":
            order["measures"] = {"waist": body["waist"], "hip": body["hip"]}
        files[order["order"]] = {**order, **more}
    return files


@pytest.fixture(scope="module")
def run(tmp_path_factory):
    return jobsheet(tmp_path_factory.mktemp("fitted") / "out", *orders().values())


@pytest.mark.parametrize("name", [name for name in orders() if not name.endswith("plain")])
def test_what_is_fitted_to_her_has_no_fault(run, name):
    assert (run.folder / name / "result.json").exists(), [line for line in run.err.splitlines() if name in line]
    result = run.result(name)
    if not name.startswith("skirt"):
        assert breaches(result) == []
    assert [check["check"] for check in result["checks"] if not check["pass"]] == []
    open_waist = name.startswith("bodice")  # nothing hangs from it
    assert [fault for fault in all_faults(result) if not (open_waist and "waist" in fault and "is in no seam" in fault)] == []


def finished(result: dict) -> dict[str, float]:
    return {girth["level"]: girth["finished"] / INCH for girth in result["girths"]}


@pytest.mark.parametrize("garment", ["bustier", "dress", "princess", "bodice", "skirt"])
@pytest.mark.parametrize("how, waist, bust", [("both", -0.5, 0.5), ("left", 0.25, 0.5)])
def test_the_finished_girths_follow_the_notes(run, garment, how, waist, bust):
    before, after = (finished(run.result(f"{garment}-10-{each}")) for each in ("plain", how))
    assert after["waist"] - before["waist"] == pytest.approx(waist, abs=0.03)
    if "bust" in before:
        assert after["bust"] - before["bust"] == pytest.approx(bust, abs=0.03)


@pytest.mark.parametrize("garment", GARMENTS)
def test_left_and_right_are_cut_apart_where_they_differ(run, garment):
    result = run.result(f"{garment}-10-left")
    sides = {piece["side"]: piece for piece in result["pieces"]}
    assert {"left", "right"} <= set(sides)
    for piece in result["pieces"]:
        if piece["side"] != "both":
            assert all(cut["count"] == 1 for cut in piece["cut"] if cut["role"] in ("shell", "lining"))
    middles = {piece["name"]: Polygon(piece["net"]).centroid.x for piece in result["pieces"]}
    for name in (name for name in middles if name.startswith("right ") and "sleeve" not in name):
        # Right side up on the table, the wearer's right lies on the left before, and on the right behind.
        behind = "back" in name
        assert (middles[name] > 0) is behind and (middles[name.replace("right", "left")] > 0) is not behind, name
    assert all(Polygon(piece["net"]).exterior.is_ccw == Polygon(result["pieces"][0]["net"]).exterior.is_ccw for piece in result["pieces"])


def test_the_lower_shoulder_is_lower_on_its_side_alone(run):
    pieces = {piece["name"]: piece for piece in run.result("dress-10-left")["pieces"]}
    tips = {side: max(y for x, y in next(e for e in pieces["front"]["edges"] if e["name"] == f"shoulder, {side}")["line"])
            for side in ("left", "right")}
    assert (tips["right"] - tips["left"]) / INCH == pytest.approx(0.375, abs=0.001)


def test_a_note_that_no_line_of_the_garment_answers_is_told_and_not_called_drawn(run):
    result = run.result("skirt-10-both")
    assert {note["place"]: note["drawn"] for note in result["fit_notes"]} == {
        "side waist": True, "bust": False, "hip": True, "armhole": False, "bust point": False, "neckline": False}
    told = [warning["text"] for warning in result["warnings"] if warning["code"] == "fit-note-not-applied"]
    assert len(told) == 4 and all("Chalk it in before cutting" in text for text in told)


@pytest.mark.parametrize("garment", ["dress", "princess", "bodice"])
def test_a_hollow_back_is_shorter_at_the_centre_back_alone(run, garment):
    before, after = (named(run.result(f"{garment}-10-{how}"))["back"] for how in ("plain", "hollow"))
    centre = [edge_of(piece, "centre back")["line"] for piece in (before, after)]
    assert (length(centre[0]) - length(centre[1])) / INCH == pytest.approx(0.375, abs=0.01)
    sides = [edge_of(piece, "side")["line"] for piece in (before, after)]
    assert length(sides[0]) == pytest.approx(length(sides[1]), abs=0.5)


def test_alike_sides_stay_a_pair(run):
    names = {piece["name"] for piece in run.result("dress-10-both")["pieces"]}
    assert "back" in names and "right back" not in names
