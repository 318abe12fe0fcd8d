"""Lays for every cloth of an order: what is cut from which, how often, and how each cloth is laid by itself."""

import pytest

from drafting.lays import lays_and_warnings, lays_for, pieces_from, cloths_of

RING = [[0.0, 100.0], [180.0, 100.0], [220.0, 600.0], [0.0, 600.0]]


def piece(name, *cuts, on_fold=False, side="both", of=None, ring=RING, grain=((50.0, 200.0), (50.0, 500.0)), **more):
    return {
        "name": name,
        "of": of,
        "on_fold": on_fold,
        "side": side,
        "cut_line": ring,
        "net": ring,
        "cut": list(cuts),
        "grain": [list(point) for point in grain],
    } | more


def cut(cloth, role="shell", count=1, **more):
    return {"cloth": cloth, "role": role, "count": count} | more


def order(*cloths, units="in"):
    return {"units": units, "cloths": list(cloths)}


def test_on_fold_pieces_lie_on_the_fold_and_pairs_come_of_one_placing():
    result = {"pieces": [piece("front", cut("wool"), on_fold=True), piece("back", cut("wool", count=2))]}
    (lay,) = lays_for(order({"name": "wool", "for": ["shell"], "width": 45}), result, seconds=0.3)
    assert lay["layout"] == "folded" and lay["usable"] == pytest.approx((45 - 1) * 25.4 / 2)
    assert [(p["piece"], p["layers"], p["gives"]) for p in lay["placed"]] == [("front", 2, 1), ("back", 2, 2)]
    assert min(x for x, _ in lay["placed"][0]["outline"]) == 0


def test_a_band_cut_twice_on_the_fold_is_placed_twice():
    result = {"pieces": [piece("band", cut("stay", "stay", 2), on_fold=True)]}
    (lay,) = lays_for(order({"name": "stay", "for": ["stay"], "width": 36}), result, seconds=0.2)
    assert [p["gives"] for p in lay["placed"]] == [1, 1]


def test_each_layer_is_laid_on_its_own_cloth_with_its_own_line():
    short = [[0.0, 100.0], [150.0, 100.0], [150.0, 300.0], [0.0, 300.0]]
    result = {
        "pieces": [
            piece("cup", cut("silk", count=2), cut("batting", "wadding", 2, cut_line=short)),
            piece("cup lining", cut("lawn", "lining", 2), of="cup"),
        ]
    }
    cloths = [
        {"name": "silk", "for": ["shell"], "width": 45},
        {"name": "lawn", "for": ["lining"], "width": 45},
        {"name": "batting", "for": ["wadding"], "width": 60},
        {"name": "unused", "for": ["stay"], "width": 36},
    ]
    lays = {lay["cloth"]: lay for lay in lays_for(order(*cloths), result, seconds=0.4)}
    assert set(lays) == {"silk", "lawn", "batting"}
    assert lays["batting"]["length"] == pytest.approx(200, abs=0.01)
    assert lays["lawn"]["placed"][0]["piece"] == "cup lining"


def test_a_piece_of_one_side_is_cut_as_it_is_drawn():
    result = {"pieces": [piece("overlap", cut("wool"), side="left")]}
    (lay,) = lays_for(order({"name": "wool", "for": ["shell"], "width": 45, "layout": "open"}), result, seconds=0.2)
    assert not lay["placed"][0]["mirrored"]


def test_a_piece_with_a_slanting_grain_is_turned_so_that_its_grain_runs_along_the_cloth():
    bias = piece("flutter", cut("silk"), grain=((0.0, 0.0), (100.0, 100.0)))
    (cloth,) = cloths_of(order({"name": "silk", "for": ["shell"], "width": 45}))
    outline = pieces_from(cloth, {"pieces": [bias]})[0].outline
    (x0, y0), (x1, y1) = outline[0], outline[1]
    # The upper edge ran straight across; with the 45° grain straight down it slants by 45°.
    assert abs(x1 - x0) == pytest.approx(abs(y1 - y0)) and x1 > x0


def test_where_folded_cloth_is_too_narrow_it_is_laid_open_unless_folding_was_asked_for():
    wide = [[0.0, 0.0], [600.0, 0.0], [600.0, 700.0], [0.0, 700.0]]
    result = {"pieces": [piece("front", cut("wool"), on_fold=True), piece("train", cut("wool", count=2), ring=wide)]}
    cloth = {"name": "wool", "for": ["shell"], "width": 45}
    (lay,) = lays_for(order(cloth), result, seconds=0.4)
    assert lay["layout"] == "open"
    lays, warnings = lays_and_warnings(order(cloth | {"layout": "folded"}), result, seconds=0.4)
    assert lays == []
    assert warnings[0]["code"] == "no-lay" and "train" in warnings[0]["text"] and "wool" in warnings[0]["text"]


def test_cloth_that_is_short_is_told_and_how_surely():
    result = {"pieces": [piece("front", cut("wool", count=1))]}
    short = {"name": "wool", "for": ["shell"], "width": 45, "on_hand": "12 in"}
    lays, warnings = lays_and_warnings(order(short), result, seconds=0.3)
    assert lays[0]["fits_on_hand"] is False and lays[0]["on_hand"] == pytest.approx(12 * 25.4)
    assert warnings[0]["code"] == "cloth-not-enough" and "can't be enough" in warnings[0]["text"]


def test_the_shops_step_follows_the_unit_and_shrinkage_is_bought():
    result = {"pieces": [piece("front", cut("wool"))]}
    cloth = {"name": "wool", "for": ["shell"], "width": "45 in", "shrink": 0.1}
    (inches,) = lays_for(order(cloth), result, seconds=0.2)
    (metric,) = lays_for(order(cloth, units="cm"), result, seconds=0.2)
    assert inches["needs"] == pytest.approx(500 / 0.9)
    assert inches["to_buy"] / 914.4 == pytest.approx(0.625) and metric["to_buy"] == pytest.approx(600)


def test_progress_names_the_cloth():
    told = []
    result = {"pieces": [piece(f"p{n}", cut("wool", count=2)) for n in range(4)]}
    lays_for(
        order({"name": "wool", "for": ["shell"], "width": 45}),
        result,
        seconds=0.3,
        progress=lambda cloth, tries, length: told.append((cloth, length)),
    )
    assert told and told[0][0] == "wool"
