"""Two drafts over each other. Distances: Shapely's own, asked another way; sizes of moves: reckoned by hand from the measures."""

import copy

import pytest
from shapely import LineString, Polygon, hausdorff_distance
from shapely.affinity import translate

from drafting.engine.compare import LEAST_ALLOWANCE, compare
from drafting.engine.garments import draft
from drafting.engine.outlines import plain_edge
from drafting.engine.result import as_result
from drafting.engine.spec import FitNote, GarmentSpec
from drafting.engine.tolerance import INCH
from tests.engine.bodies import ROUND, inches, mm

FULL = {**ROUND, "waist": 31.5}
"""A body whose band is one piece, and stays one when the waist grows by half an inch."""


def gown(rules: dict | None = None, **changed: float) -> dict:
    options = {"closure": "back-zip", "lined": True, "skirt.kind": "straight", "skirt.length": 40 * INCH}
    spec = GarmentSpec("bustier-gown", options, mm({**FULL, **changed}), mm(rules or {}), {"shell": "silk", "lining": "lawn"})
    return as_result(draft(spec), order="S-001", plain=inches, with_unit=inches)


@pytest.fixture(scope="module")
def cut() -> dict:
    return gown()


def square(name: str = "front", width: float = 100.0, height: float = 200.0, allowance: float = 25.4, *, at: tuple[float, float] = (0.0, 0.0), on_fold: bool = False) -> dict:
    """A piece whose every figure can be reckoned by hand: four straight edges, the last one the fold if it is on one."""
    x, y = at
    a, b, c, d = [x, y], [x + width, y], [x + width, y + height], [x, y + height]
    m = 0.0 if on_fold else allowance
    names = ("top", "side", "hem", "fold" if on_fold else "centre")
    edges = [{"name": n, "line": line, "allowance": allowance} for n, line in zip(names, ([a, b], [b, c], [c, d], [d, a]), strict=True)]
    rim = [[x - m, y - allowance], [x + width + allowance, y - allowance], [x + width + allowance, y + height + allowance], [x - m, y + height + allowance]]
    return {"name": name, "title": name, "number": 1, "of": None, "on_fold": on_fold, "net": [a, b, c, d], "cut_line": rim, "edges": edges, "darts": [],
            "cut": [{"cloth": "silk", "role": "shell", "count": 1 if on_fold else 2}]}


def result(*pieces: dict, seams: tuple = ()) -> dict:
    return {"pieces": list(pieces), "seams": list(seams)}


def only(comparison):
    [piece] = comparison.pieces
    return piece


def test_the_same_draft_has_not_changed(cut):
    found = compare(cut, copy.deepcopy(cut))
    assert found.answer == "same"
    assert found.changed == ()


def test_a_piece_drawn_elsewhere_on_its_paper_is_the_same_piece():
    assert compare(result(square()), result(square(at=(-37.0, 12.0)))).answer == "same"


@pytest.mark.parametrize(("wider", "left", "answer"), [(6.0, 19.4, "let out"), (19.0, 6.4, "let out"), (19.2, 6.2, "again"), (40.0, -14.6, "again")])
def test_on_the_fold_the_side_takes_all_and_a_quarter_inch_must_stay(wider, left, answer):
    found = compare(result(square(on_fold=True)), result(square(width=100 + wider, on_fold=True)))
    piece = only(found)
    assert found.answer == answer
    assert piece.left == pytest.approx(left, abs=0.05)
    assert {edge.name: round(edge.amount, 1) for edge in piece.edges}["side"] == pytest.approx(wider, abs=0.05)
    assert piece.largest.at[0] == pytest.approx(100 + wider)


def test_off_the_fold_the_piece_is_slid_so_that_both_sides_give():
    piece = only(compare(result(square()), result(square(width=135.0))))
    assert piece.enough and piece.left == pytest.approx((50.8 - 35) / 2, abs=0.3)
    assert piece.slide[0] == pytest.approx(-17.5, abs=0.3)


def test_what_is_taken_in_is_told_with_its_sign_and_needs_no_cloth():
    found = compare(result(square(on_fold=True)), result(square(width=90.0, on_fold=True)))
    assert found.answer == "taken in"
    assert only(found).largest.amount == pytest.approx(-10.0)


def test_new_and_lost_pieces_are_named():
    found = compare(result(square("front"), square("panel")), result(square("front"), square("yoke")))
    assert [(p.name, p.state) for p in found.changed] == [("yoke", "new"), ("panel", "lost")]
    assert [p.name for p in found.again] == ["yoke"]


def test_a_seam_that_the_new_draft_does_without_can_stay_if_the_cloth_is_then_enough():
    two = square("band", on_fold=True), square("side band", width=60.0, at=(101.0, 0.0))
    seam = {"a": [{"piece": "band", "edge": "side"}], "b": [{"piece": "side band", "edge": "centre"}]}
    piece = compare(result(*two, seams=(seam,)), result(square("band", width=170.0, on_fold=True))).pieces[0]
    assert piece.enough and piece.kept == "side band"


def test_a_left_and_a_right_piece_are_held_against_the_pair_that_was_cut():
    right = square("right front", width=104.0)
    left = square("left front", width=104.0, at=(-104.0, 0.0))
    found = compare(result(square("front")), result(right, left))
    assert [(p.state, p.enough) for p in found.pieces] == [("changed", True), ("changed", True)]


def test_a_piece_that_is_no_longer_on_the_fold_is_held_against_the_whole_cloth_that_was_cut():
    old = square("front", on_fold=True)
    new = square("front", width=206.0, at=(-103.0, 0.0))
    assert only(compare(result(old), result(new))).left == pytest.approx(22.4, abs=0.3)


def test_a_gown_taken_in_on_one_side_needs_no_new_cloth(cut):
    options = {"closure": "back-zip", "lined": True, "skirt.kind": "straight", "skirt.length": 40 * INCH}
    notes = (FitNote("side waist", "left", -0.5 * INCH),)
    spec = GarmentSpec("bustier-gown", options, mm(FULL), {}, {"shell": "silk", "lining": "lawn"}, fit_notes=notes)
    found = compare(cut, as_result(draft(spec), order="S-001", plain=inches, with_unit=inches))
    assert not found.again
    assert {piece.was for piece in found.changed} >= {"back", "skirt front"} and all(piece.state == "changed" for piece in found.changed)
    assert max(abs(edge.amount) for piece in found.changed for edge in piece.edges if edge.name != "darts") < INCH


def test_half_an_inch_more_waist_is_taken_by_the_let_out_of_an_inch(cut):
    found = compare(cut, gown(waist=FULL["waist"] + 0.5))
    assert found.answer == "let out"
    by_name = {piece.name: piece for piece in found.changed}
    # The waist is in four quarters: each side seam goes out by an eighth, and nothing else of the band moves.
    side = {edge.name: edge.amount for edge in by_name["band"].edges}
    assert side["side"] == pytest.approx(0.125 * INCH, abs=0.02 * INCH)
    assert side["under-bust"] == pytest.approx(0.0, abs=0.1)
    assert by_name["band"].left >= LEAST_ALLOWANCE
    assert not {"centre cup", "side cup"} & by_name.keys()


def test_an_outgrown_let_out_names_the_pieces(cut):
    found = compare(cut, gown(waist=FULL["waist"] + 3.5))
    assert found.answer == "again"
    assert "band" in [piece.name for piece in found.again]
    assert all(piece.left < LEAST_ALLOWANCE for piece in found.again if piece.state == "changed")


def test_the_narrower_the_let_out_the_sooner_it_is_outgrown():
    more = {"waist": FULL["waist"] + 0.5}
    assert compare(gown({"let_out": 1}), gown({"let_out": 1}, **more)).answer == "let out"
    assert compare(gown({"let_out": 0.25}), gown({"let_out": 0.25}, **more)).answer == "again"


@pytest.mark.parametrize("measure", ["waist", "hip", "bust"])
def test_every_distance_is_shapelys_and_every_allowance_holds(cut, measure):
    now = gown(**{measure: FULL[measure] + 1})
    old = {piece["name"]: piece for piece in cut["pieces"]}
    new = {piece["name"]: piece for piece in now["pieces"]}
    for piece in compare(cut, now).changed:
        if piece.state != "changed":
            continue
        start = new[piece.name]
        moved = translate(Polygon(start["net"]), *piece.slide)
        cloth = Polygon(old[piece.name]["cut_line"])
        if piece.enough and not piece.kept:
            assert cloth.buffer(0.1).covers(moved)
        if any("dart" in edge["name"] for edge in start["edges"]):
            continue
        for edge in piece.edges:
            lines = [[LineString(e["line"]) for e in p["edges"] if plain_edge(e["name"]) == edge.name] for p in (old[piece.name], start)]
            if [len(each) for each in lines] == [1, 1] and piece.left >= LEAST_ALLOWANCE and piece.slide == (0.0, 0.0):
                assert abs(edge.amount) <= hausdorff_distance(lines[0][0], lines[1][0], densify=0.02) + 0.05
