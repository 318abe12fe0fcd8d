"""Plain trousers: the block's formulas, trued seams, the fork, and every invariant on many bodies."""

import random

import pytest

from drafting.engine import GarmentSpec, draft
from drafting.engine.blocks.trousers import BACK_STRETCHED
from drafting.engine.checks import inner_angle
from drafting.engine.errors import ImpossibleMeasure, MissingMeasure
from drafting.engine.tolerance import INCH, SEAM
from tests.engine.bodies import mm, some_bodies

SIZE_12 = {"waist": 68 / 2.54, "hip": 94 / 2.54, "waist_to_hip": 20.6 / 2.54, "body_rise": 28 / 2.54, "inside_leg": 76 / 2.54}
"""Aldrich's size 12, from memory; inside leg invented."""


def trousers(body=None, **options):
    return draft(GarmentSpec("trousers", options, mm(body or SIZE_12), {}, {"shell": "wool", "stay": "fusible"}))


def pieces_of(drafted):
    return {p.name: p for p in drafted.pieces}


def some_seats(count):
    """Invented lower halves, from slight to very full, flat and round."""
    chance = random.Random(1851)
    for body in some_bodies(count, seed=1851):
        depth = chance.uniform(7, 9.5)
        yield {"waist": body["waist"], "hip": body["hip"], "waist_to_hip": depth, "inside_leg": chance.uniform(25, 36),
               "body_rise": depth + chance.uniform(1, 4) + body["hip"] / 40}


def test_front_and_back_are_drawn_by_the_handbook_s_formulas():
    """Aldrich, classic tailored trouser block, size 12 (hip 94 cm), from memory: upright hip/12 + 1.5 cm from the crease, fork hip/16 + 0.5 cm on,
    the back's upright a quarter nearer and its fork half as far again; knee 1.3 cm over the hem; front half a cm under, back over."""
    pieces = pieces_of(trousers(**{"trousers.hem": 440.0}))
    front, back = pieces["trousers front"], pieces["trousers back"]
    upright, reach = 940 / 12 + 15, 940 / 16 + 5
    assert front.edge("crotch seam").path.start.x == pytest.approx(-(upright + reach))
    assert front.edge("crotch seam").path.strokes[0].end.x == pytest.approx(-upright)
    assert back.edge("seat seam").path.start.x == pytest.approx(-(upright + 1.5 * reach))
    assert back.edge("seat seam").path.strokes[0].end.x == pytest.approx(-upright * 3 / 4)
    assert [round(abs(p.edge("hem").path.start.x - p.edge("hem").path.end.x)) for p in (front, back)] == [210, 230]
    assert front.edge("side").path.strokes[1].end.x == pytest.approx(110 + 13 - 5)


def test_waist_and_hip_are_the_body_s_and_their_ease():
    girths = {g.level: g for g in trousers().girths}
    assert girths["waist"].finished / INCH == pytest.approx(68 / 2.54 + 0.75, abs=0.01)
    assert girths["hip"].finished / INCH == pytest.approx(94 / 2.54 + 2.0, abs=0.01)


def test_the_outside_legs_are_equal_and_the_back_s_inside_leg_is_stretched():
    drafted = trousers()
    seams, pieces = {s.name: s for s in drafted.seams}, pieces_of(drafted)
    assert seams["side, trousers"].difference(pieces) == pytest.approx(0, abs=0.01)
    a, b = seams["inside leg"].lengths(pieces)
    assert a - b == pytest.approx(BACK_STRETCHED, abs=0.01)


def test_the_crotch_seam_runs_on_without_a_corner_at_the_fork():
    pieces = pieces_of(trousers())
    front, back = pieces["trousers front"], pieces["trousers back"]
    turned = inner_angle(front, "inside leg", "crotch seam") + inner_angle(back, "inside leg", "seat seam")
    assert turned == pytest.approx(180, abs=0.01)


def test_the_fork_lies_a_little_below_the_body_rise_and_the_hem_at_rise_and_inside_leg():
    levels = trousers().levels
    assert levels.fork == pytest.approx(290)
    assert levels.hem == pytest.approx(280 + 760)


def test_a_first_pair_is_for_a_toile():
    drafted = trousers()
    assert drafted.toile_only
    assert any(w.code == "toile-first" for w in drafted.warnings)


def test_a_back_zip_leaves_the_seat_seam_open_and_a_side_zip_does_not():
    back, side = (pieces_of(trousers(closure=closure))["trousers back"] for closure in ("back-zip", "side-zip"))
    assert back.has_edge("centre back") and not side.has_edge("centre back")
    whole = side.edge("seat seam").path.length()
    assert back.edge("seat seam").path.length() + back.edge("centre back").path.length() == pytest.approx(whole, abs=0.01)


def test_a_full_knee_widens_the_leg_and_a_full_thigh_is_told():
    drafted = trousers({**SIZE_12, "knee": 20, "thigh": 27})
    codes = {w.code: w for w in drafted.warnings}
    assert codes["knee-widened"].figures[0] == pytest.approx(23 * INCH)
    assert codes["thigh-tight"].figures[1] == pytest.approx(27 * INCH)


@pytest.mark.parametrize(
    ("changed", "measure"),
    [({"body_rise": 8}, "body_rise"), ({"waist_to_hip": 3}, "waist_to_hip")],
)
def test_levels_out_of_order_are_refused_by_the_measure_s_name(changed, measure):
    with pytest.raises(ImpossibleMeasure) as refused:
        trousers({**SIZE_12, **changed})
    assert refused.value.measure == measure


@pytest.mark.parametrize(("hem", "limit"), [(8, 11), (40, 32)])
def test_a_hem_that_no_leg_has_is_refused_with_the_limit(hem, limit):
    with pytest.raises(ImpossibleMeasure) as refused:
        trousers(**{"trousers.hem": hem * INCH})
    assert refused.value.needed == pytest.approx(limit * INCH)


def test_a_missing_body_rise_is_named():
    with pytest.raises(MissingMeasure) as refused:
        trousers({k: v for k, v in SIZE_12.items() if k != "body_rise"})
    assert "body rise" in refused.value.sentence(str)


def test_shorts_are_refused():
    with pytest.raises(ImpossibleMeasure):
        trousers(**{"trousers.length": 20 * INCH})


def test_a_fly_s_facing_is_as_long_as_its_opening_its_shield_covers_the_zip_and_a_side_zip_is_notched_where_it_ends():
    drafted = trousers(closure="front-zip")
    made = pieces_of(drafted)
    front, opening = made["trousers front"], next(f.value for f in drafted.figures if f.name == "opens below the waist")
    assert front.edge("centre front").path.length() == pytest.approx(opening)
    assert made["fly facing"].edge("outer edge").path.length() == pytest.approx(opening)
    assert made["fly shield"].edge("outer edge").path.length() == pytest.approx(opening + INCH)
    assert [act.key for act in drafted.making].index("shield") > [act.key for act in drafted.making].index("close")
    zip_ = next(m.amount for m in drafted.materials if m.item == "zip")
    assert zip_ + 0.2 * INCH >= opening and zip_ / INCH == pytest.approx(round(zip_ / INCH))
    side = trousers(closure="side-zip")
    opening = next(f.value for f in side.figures if f.name == "opens below the waist")
    assert any(n.at == pytest.approx(opening) and n.mate for n in pieces_of(side)["trousers back"].notches if n.edge == "side")


@pytest.mark.parametrize("closure", ["side-zip", "back-zip", "front-zip"])
def test_every_invariant_holds_on_many_seats(closure):
    for i, body in enumerate(some_seats(80)):
        hem = (None, 12 * INCH, 26 * INCH)[i % 3]
        drafted = trousers(body, closure=closure, **({"trousers.hem": hem} if hem else {}))
        pieces = pieces_of(drafted)
        assert all(abs(seam.difference(pieces)) <= SEAM for seam in drafted.seams)
        assert drafted.failed == (), body
