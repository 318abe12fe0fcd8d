"""Basques with every skirt below them, cups in three pieces, straps and side zips, read back from the result files alone.

Bodies: the twelve sizes of ASTM D5585-11e1, Misses, curvy or straight by turns (bodies.py says where each length comes from). Common practice,
no source: a basque about 5 in deep at the centre and 1/2 to 1 at the side; no front dart where the cut-away swallows it; the skirt's
cut-away lies a seam allowance outside the edge traced from the basque.
"""

import itertools

import pytest
from shapely import Point, Polygon

from tests.outside.bodies import SIZES, astm_body, order_file
from tests.outside.contract import breaches
from tests.outside.faults import all_faults, corner_between
from tests.outside.geometry import INCH, edge_of, length, named, slice_width, x_at
from tests.outside.running import jobsheet
from tests.outside.sample import SAMPLE

SKIRTS = (
    {"kind": "straight", "length": 26}, {"kind": "a-line", "length": 38}, {"kind": "circle", "fraction": 0.5, "length": 27},
    {"kind": "gathered", "fullness": 2, "length": 30}, {"kind": "circle", "fraction": 1, "length": 24},
)  # fmt: skip
GORED = (
    {"kind": "gored", "gores": 4, "length": 36}, {"kind": "gored", "gores": 6, "length": 36}, {"kind": "gored", "gores": 8, "length": 30},
    {"kind": "mermaid", "gores": 6, "length": 40}, {"kind": "mermaid", "gores": 8, "godets": True, "length": 40},
    {"kind": "circle", "fraction": 0.5, "panels": 6, "length": 27},
)  # fmt: skip
CLOSURES = ("back-zip", "back-lacing", "side-zip")
EDGES = ("straight", "sweetheart", "v")
EASE = {"bust": 1.0, "under_bust": 0.5, "waist": 0.5, "hip": 2.0}
WADDING = 3 * 0.125
SEAM = 0.5
GAP = 1.0
CUT_UNDER = INCH / 8
"""A circle's upper edge is cut 1/2 in under all round, for it gives on the bias: 1/8 a quarter."""


def orders() -> dict[str, dict]:
    made, turns = {}, itertools.count()
    for size in SIZES:
        n = next(turns)
        figures = ("curvy", "straight") if n % 2 else ("straight", "curvy")
        for number, skirt in enumerate((*(SKIRTS[:4] if n % 6 else SKIRTS), GORED[n % 6], GORED[(n + 3) % 6])):
            figure = figures[number % 2]
            if not SAMPLE.has(size, n + number):
                continue
            body = astm_body(size, figure)
            part = "-full" if skirt.get("fraction") == 1 else f"-{skirt.get('gores', skirt.get('panels'))}" if number > 3 else ""
            name = f"basque-{skirt['kind']}{part}-{size}-{figure}"
            made[name] = order_file(name, body, waist="basque", skirt=skirt, closure=CLOSURES[n % 3], top_edge=EDGES[n % 3], lined=n % 2 == 0)
        others = {
            "cups": {"cups": "three", "waist": ("straight", "basque")[n % 2], "straps": "shoulder", "closure": CLOSURES[(n + 1) % 3]},
            "yoke": {"cups": "three", "yoke": ("full", "neck-frame")[n % 2], "top_edge": "sweetheart", "closure": "back-lacing"},
            "side": {"closure": "side-zip", "skirt": ({"kind": "gored", "gores": 6, "length": 36}, SKIRTS[0])[n % 2]},
        }
        for number, (name, choices) in enumerate(others.items()):
            if SAMPLE.has(size, n + number):
                name = f"{name}-{size}-{figure}"
                made[name] = order_file(name, astm_body(size, figure), **choices)
    return made


ORDERS = orders()
BASQUES = [name for name, order in ORDERS.items() if order["garment"]["waist"] == "basque"]
THREE = [name for name, order in ORDERS.items() if order["garment"].get("cups") == "three"]


@pytest.fixture(scope="module")
def run(tmp_path_factory):
    return jobsheet(tmp_path_factory.mktemp("basques") / "out", *ORDERS.values())


@pytest.mark.parametrize("name", list(ORDERS))
def test_every_size_is_drafted_without_a_fault(run, name):
    assert (run.folder / name / "result.json").exists(), [line for line in run.err.splitlines() if name in line]
    result = run.result(name)
    assert breaches(result) == []
    assert [check["check"] for check in result["checks"] if not check["pass"]] == []
    assert all_faults(result) == []


def edges_length(piece: dict, name: str) -> float:
    """The length of an edge, its numbered parts together."""
    return sum(length(edge["line"]) for edge in piece["edges"] if edge["name"].rstrip(" 0123456789") == name)


@pytest.mark.parametrize("name", BASQUES)
def test_a_skirt_s_edge_is_as_long_as_its_basque_s_front_and_back(run, name):
    """Measured on the polygons, whatever the list of seams says: to 0.5 mm, a circle 1/8 in a quarter under, a gathered one fuller."""
    result, kind = run.result(name), ORDERS[name]["garment"]["skirt"]["kind"]
    for suffix in ("", " lining") if ORDERS[name]["garment"]["lined"] else ("",):
        pieces = named(result)
        front = sum(edges_length(pieces[band], "basque edge") for band in ("band", "side band") if band in pieces)
        back = edges_length(pieces[f"back{suffix}"], "basque edge")
        for half, edge in (("front", front), ("back", back)):
            skirt = sum(edges_length(pieces[gore], "waist") for gore in (f"skirt {half}{suffix}", f"skirt side {half}{suffix}") if gore in pieces)
            if kind == "gathered" and not suffix:
                assert 1.6 * edge < skirt < 2.02 * edge + GAP / 2 * INCH
            else:
                assert skirt == pytest.approx(edge - (CUT_UNDER if kind == "circle" and not suffix else 0), abs=SEAM), (half, suffix)


@pytest.mark.parametrize("name", BASQUES)
def test_a_basque_is_as_deep_as_practice_has_it_and_hangs_at_one_level_with_its_skirt(run, name):
    result = run.result(name)
    pieces, waist = named(result), result["levels"]["waist"]
    fold = edge_of(pieces["band"], "fold")["line"]
    deep = max(y for _, y in fold) - waist
    outer = pieces.get("side band", pieces["band"])
    side = edge_of(outer, "side")["line"][-1][1] - waist
    assert deep / INCH == pytest.approx(5, abs=0.75)
    assert 0.5 <= side / INCH <= 1
    assert deep == pytest.approx(max(y for _, y in fold) - waist)
    if pieces["skirt front"]["on_fold"]:  # a gore is drawn about its own middle
        skirt_point = min(y for _, y in edge_of(pieces["skirt front"], "fold")["line"])
        assert skirt_point == pytest.approx(max(y for _, y in fold), abs=SEAM)
    if ORDERS[name]["garment"]["skirt"]["kind"] == "straight":  # its lines hang straight down: level for level the same
        centre = result["side_levels"]["waist"]
        back = max(y for edge in pieces["back"]["edges"] if edge["name"] in ("centre back", "fold") for _, y in edge["line"]) - centre
        of_skirt = min(y for _, y in edge_of(pieces["skirt back"], "centre back")["line"]) - centre
        assert back == pytest.approx(of_skirt, abs=SEAM)


@pytest.mark.parametrize("name", BASQUES)
def test_no_front_dart_is_left_where_the_cut_away_swallows_it(run, name):
    result = run.result(name)
    front = named(result)["skirt front"]
    if ORDERS[name]["garment"]["skirt"]["kind"] != "straight":
        assert front["darts"] == []
    seam = edge_of(named(result)["band"], "basque edge")["line"]
    inner = max(x for x, _ in seam)
    for dart in front["darts"]:
        assert dart["legs"][0][0][0] > inner, "the dart stands in the pointed part"


@pytest.mark.parametrize("name", BASQUES)
def test_the_skirt_s_cut_away_lies_a_seam_allowance_outside_the_traced_edge(run, name):
    front = named(run.result(name))["skirt front"]
    cut = Polygon(front["cut_line"]).exterior
    for edge in front["edges"]:
        if edge["name"].startswith("waist"):
            for at in [at for at in edge["line"][2:-2] if at[0] > edge["allowance"] + 1 or not front["on_fold"]]:  # else the fold is nearer
                assert Point(at).distance(cut) == pytest.approx(edge["allowance"], abs=0.2)


@pytest.mark.parametrize("name", BASQUES)
def test_the_waist_inside_a_basque_is_body_and_ease(run, name):
    """Slices at the waist's level, where no edge lies any more: front at its level, back at its own."""
    result, body = run.result(name), ORDERS[name]["measures"]
    pieces = named(result)
    front = sum(slice_width(pieces[band]["net"], result["levels"]["waist"] - 0.01) for band in ("band", "side band") if band in pieces)
    girth = next(g for g in result["girths"] if g["level"] == "waist")
    back = sum(length(stretch["line"]) for stretch in girth["across"] if stretch.get("piece") == "back")
    gap = GAP if ORDERS[name]["garment"]["closure"] == "back-lacing" else 0
    assert 2 * (front + back) / INCH + gap == pytest.approx(body["waist"] + EASE["waist"], abs=0.05)


@pytest.mark.parametrize("name", THREE)
def test_three_cups_come_to_body_and_ease_measured_by_level_and_edge(run, name):
    result, order = run.result(name), ORDERS[name]
    pieces, sides, bust = named(result), result["side_levels"], result["levels"]["bust"]
    centre, middle, side, back = (pieces[key] for key in ("centre cup", "middle cup", "side cup", "back"))
    gap = GAP * INCH if order["garment"]["closure"] == "back-lacing" else 0
    over = x_at(edge_of(middle, "cup seam")["line"], bust)
    half = slice_width(centre["net"], bust) + x_at(edge_of(side, "side")["line"], sides["bust"]) - over
    half += slice_width(back["net"], sides["bust"] - 0.01)
    assert (2 * half + gap) / INCH == pytest.approx(order["measures"]["bust"] + EASE["bust"] + WADDING, abs=0.05)
    cups = sum(edges_length(cup, "under-bust") for cup in (centre, middle, side))
    bands = sum(edges_length(pieces[band], "under-bust") for band in ("band", "side band") if band in pieces)
    assert cups == pytest.approx(bands, abs=SEAM)


@pytest.mark.parametrize("name", THREE)
def test_both_cup_seams_share_the_lower_dart(run, name):
    """What the three pieces lack at the under-bust against the bust line is one dart, in two parts."""
    result = run.result(name)
    pieces, figures = named(result), {f["name"]: f["value"] for f in result["figures"]}
    feet = [max(edge_of(pieces[piece], seam)["line"], key=lambda point: point[1])[0] for piece, seam in (
        ("centre cup", "cup seam"), ("middle cup", "cup seam"), ("middle cup", "side cup seam"), ("side cup", "side cup seam"))]
    assert feet[1] - feet[0] + feet[3] - feet[2] == pytest.approx(figures["lower bust dart"], abs=0.01)
    assert feet[3] - feet[2] == pytest.approx(0.4 * figures["lower bust dart"], rel=0.02)


@pytest.mark.parametrize("name", [name for name in ORDERS if ORDERS[name]["garment"].get("straps") == "shoulder"])
def test_a_strap_is_a_pair_as_long_as_the_way_over_the_shoulder(run, name):
    result = run.result(name)
    pieces, body = named(result), ORDERS[name]["measures"]
    strap = pieces["strap"]
    assert [cut["count"] for cut in strap["cut"]] == [2]
    head = edge_of(pieces["centre cup"], "cup seam")["line"][0]
    neck_width, tip = body["neck"] / 6 + 0.25, body["shoulder"] / 2
    over = ((neck_width + tip) / 2 * INCH, result["levels"]["shoulder"] / 2)
    top = edge_of(pieces["back"], "top")
    mark = next(n["at"] for n in pieces["back"]["notches"] if n["edge"] == "top")
    behind = (top["line"][0][0] + mark, top["line"][0][1])
    finished = Point(head).distance(Point(over)) + Point(over).distance(Point(behind))
    assert length(edge_of(strap, "long edge")["line"]) == pytest.approx(finished + INCH, abs=0.1)


@pytest.mark.parametrize("name", [name for name in ORDERS if ORDERS[name]["garment"]["closure"] == "side-zip"])
def test_a_side_zip_lays_the_back_on_the_fold_and_buys_its_zip(run, name):
    result = run.result(name)
    pieces = named(result)
    assert pieces["back"]["on_fold"] and not any(edge["name"] == "centre back" for edge in pieces["back"]["edges"])
    zips = [m["amount"] for m in result["materials"] if m["item"].startswith("zip")]
    side = length(edge_of(pieces["back"], "side")["line"])
    assert len(zips) == 1 and zips[0] > side
    lower = [edge for edge in pieces["back"]["edges"] if edge["name"].startswith(("waist", "basque edge"))][-1]
    assert corner_between(pieces["back"], lower["name"].rstrip(" 0123456789"), "fold") == pytest.approx(90, abs=1)
