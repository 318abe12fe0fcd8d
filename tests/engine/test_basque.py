"""Basques: closed forms first, then skirts against their basque on many bodies, front and back, to half a millimetre."""

import math
from dataclasses import replace

import pytest
from shapely import LineString

from drafting.engine import GarmentSpec, draft
from drafting.engine.blocks.basque import bow, inward
from drafting.engine.blocks.spread import mean_depth, spread
from drafting.engine.checks import corner_checks, seam_checks
from drafting.engine.curve import Cubic
from drafting.engine.errors import DraftingError, MissingMeasure, UnknownChoice
from drafting.engine.path import Path
from drafting.engine.point import Point
from drafting.engine.tolerance import INCH
from tests.engine.bodies import ROUND, mm, some_bodies

SKIRTS = ("straight", "a-line", "circle", "gathered")
PEAR = {**ROUND, "waist": 27, "hip": 46}
COLUMN = {**ROUND, "waist": 33, "hip": 34}


def gown(body=None, *, rules=None, **options):
    chosen = {"waist": "basque", "skirt.kind": "a-line", "skirt.length": 40 * INCH, **options}
    if chosen["skirt.kind"] == "circle":
        chosen.setdefault("skirt.fraction", 0.5)
    return draft(GarmentSpec("bustier-gown", chosen, mm(body or ROUND), rules or {}, {"shell": "satin", "lining": "silk", "stay": "fusible"}))


def pieces(drafted):
    return {piece.name: piece for piece in drafted.pieces}


def edge_length(piece, start):
    """Measured on the polyline that is cut, by Shapely; numbered parts together."""
    return sum(LineString([(p.x, p.y) for p in e.path.polyline()]).length for e in piece.edges if e.name.rstrip(" 0123456789") == start)


def halves(drafted, suffix=""):
    """Yield (basque, skirt) in mm, front and back."""
    made = pieces(drafted)
    yield sum(edge_length(made[name], "basque edge") for name in ("band", "side band") if name in made), edge_length(made[f"skirt front{suffix}"], "waist")
    yield edge_length(made[f"back{suffix}"], "basque edge"), edge_length(made[f"skirt back{suffix}"], "waist")


def codes(drafted):
    return {w.code for w in drafted.warnings}


def test_a_spread_edge_keeps_its_length_and_widens_what_lies_below_by_the_angle():
    """drafting method, section 7: a straight edge spread by 90 degrees is the quarter of a full circle."""
    straight = Path.through(Point(0, 0), Point(180, 0))
    quarter = spread(straight, math.pi / 2)
    assert quarter.edge.length() == pytest.approx(180, abs=0.01)
    assert quarter.level(700.0).length() == pytest.approx(math.pi / 2 * (180 / (math.pi / 2) + 700), abs=0.05)
    slanting = Path.of(Cubic(Point(0, 110), Point(60, 80), Point(120, 25), Point(180, 20)))
    for theta in (0.0, 0.1, 0.8, 1.57):
        made = spread(slanting, theta)
        assert made.edge.length() == pytest.approx(slanting.length(), abs=0.01)
        assert made.level(200.0).length() == pytest.approx(180 + theta * (200 - mean_depth(slanting, 0.0)), abs=0.05)


def test_a_bow_leaves_and_arrives_as_it_is_told_and_its_length_does_not_jump():
    start, leaving, arriving = Point(0.0, 0.0), inward(0.6), inward(0.1)
    made = bow(start, leaving, Point(-90.0, 30.0), arriving)
    assert made.direction(0.0).unit().dot(leaving) == pytest.approx(1.0)
    assert made.direction(1.0).unit().dot(arriving) == pytest.approx(1.0)
    lengths = [bow(start, leaving, Point(-60.0 - i / 20, 30.0), arriving).length() for i in range(800)]
    steps = [b - a for a, b in zip(lengths, lengths[1:], strict=False)]
    assert max(steps) < 0.1 and min(steps) > 0.0


def test_the_depths_follow_the_house_rules_and_are_held_with_a_word():
    drafted = gown(rules={"basque_depth": 4 * INCH, "basque_side": 1 * INCH})
    band, outer = pieces(drafted)["band"], pieces(drafted)["side band"]
    assert band.edge("fold").path.start.y - drafted.levels.waist == pytest.approx(4 * INCH)
    assert outer.edge("side").path.end.y - drafted.levels.waist == pytest.approx(1 * INCH)
    held = gown(rules={"basque_depth": 7 * INCH, "basque_side": 4 * INCH})
    assert {"basque-held", "basque-side-held"} <= codes(held)
    assert held.rules["basque_depth"] == pytest.approx(0.55 * 8 * INCH)
    assert held.rules["basque_side"] == pytest.approx((0.55 * 8 - 1.5) * INCH)
    assert held.failed == ()


def test_where_the_hips_need_it_the_band_springs_out_under_the_cup_seam_half_and_half():
    """drafting method, section 6: the front needs the skirt's front dart times depth/4; beyond 1/4 in the band is cut in two."""
    drafted = gown(PEAR)
    figures = {f.name: f.value for f in drafted.figures}
    total = (46 + 2) / 4 - (27 + 0.5) / 4
    dart = 0.9 * total - 1.5
    depth = figures["basque below the waist under the cup seam"]
    assert figures["sprung out there"] == pytest.approx(dart * depth / 4, rel=1e-6)
    band, outer = pieces(drafted)["band"], pieces(drafted)["side band"]
    seams = [p.edge("band seam").path for p in (band, outer.mapped(lambda p: p))]
    assert seams[0].length() == pytest.approx(seams[1].length(), abs=0.01)
    assert "basque-in-two" in codes(drafted)


def test_a_straight_figure_keeps_its_band_in_one():
    drafted = gown(COLUMN)
    assert "side band" not in pieces(drafted)
    assert drafted.failed == ()


def test_a_gathered_skirt_is_as_full_as_asked_only_where_the_basque_is_level():
    """drafting method, section 8: k = 2 gives about 1.77 along the whole pointed edge."""
    basque, skirt = next(halves(gown(**{"skirt.kind": "gathered", "skirt.fullness": 2.0})))
    assert skirt / basque == pytest.approx(1.77, abs=0.15)


def test_a_circle_that_would_be_tight_over_the_hips_is_refused_with_those_that_would_do():
    with pytest.raises(UnknownChoice) as refused:
        gown(PEAR, **{"skirt.kind": "circle", "skirt.fraction": 0.25})
    assert refused.value.key == "skirt.fraction" and refused.value.choices


def test_a_basque_without_a_skirt_asks_for_the_hip():
    assert gown(**{"skirt.kind": "none"}).failed == ()
    with pytest.raises(MissingMeasure):
        gown({k: v for k, v in ROUND.items() if k != "hip"}, **{"skirt.kind": "none"})


def test_the_centre_front_s_bone_stops_half_an_inch_above_the_point():
    drafted = gown()
    point = pieces(drafted)["band"].edge("fold").path.start
    centre = next(b for b in drafted.bones if b.place == "centre front")
    assert point.y - centre.end.y == pytest.approx(0.5 * INCH)
    for bone in drafted.bones:
        assert 0 < bone.bone < bone.channel


@pytest.mark.parametrize("kind", ["straight", "a-line"])
def test_a_tailored_skirt_has_its_hip_and_no_more_than_its_ease(kind):
    drafted = gown(**{"skirt.kind": kind})
    hip = next(g for g in drafted.girths if g.level == "hip")
    assert hip.finished == pytest.approx((42 + 2) * INCH, abs=0.05 * INCH)


@pytest.mark.parametrize("skirt", SKIRTS)
@pytest.mark.parametrize("closure", ["back-zip", "back-lacing", "side-zip"])
def test_every_invariant_holds_on_many_bodies_and_each_skirt_meets_its_basque(skirt, closure):
    drawn = 0
    for body in some_bodies(16, seed=7):
        try:
            drafted = gown(body, closure=closure, top_edge="sweetheart", **{"skirt.kind": skirt})
        except DraftingError as refused:
            assert refused.sentence(lambda length: f"{length:.0f} mm").endswith(".")
            continue
        drawn += 1
        assert [c.name for c in drafted.failed] == []
        under = INCH / 8 if skirt == "circle" else 0.0
        for basque, edge in halves(drafted) if skirt != "gathered" else ():
            assert edge == pytest.approx(basque - under, abs=0.5)
        for basque, edge in halves(drafted, " lining"):
            assert edge == pytest.approx(basque, abs=0.5)
    assert drawn >= 15


def test_over_a_very_round_hip_the_lining_of_a_circle_is_in_gores():
    """An A-line's front would flare more than cloth can fall there; its lining was refused, and the circle with it."""
    for hip, in_gores in ((48, False), (52, True)):
        drafted = gown({**PEAR, "hip": hip}, **{"skirt.kind": "circle", "skirt.fraction": 1.0})
        assert pieces(drafted)["skirt front lining"].has_edge("centre front") is in_gores
        assert drafted.failed == ()
        for basque, edge in halves(drafted, " lining"):
            assert edge == pytest.approx(basque, abs=0.5)


def test_a_darted_back_levelled_at_its_centre_is_still_as_long_as_its_basque():
    """A body whose back had to be levelled by so much that its edge came out 0.59 mm short."""
    full = {"bust": 55.3, "under_bust": 47.5, "waist": 40, "hip": 58.1, "neck": 19.3, "shoulder": 20.4, "shoulder_to_bust": 15.1,
            "shoulder_to_under_bust": 18.1, "shoulder_to_waist": 22.1, "nape_to_waist": 19.6, "armhole_depth": 7.7}  # fmt: skip
    drafted = gown(full, **{"skirt.kind": "circle", "skirt.fraction": 1.0})
    assert [c.name for c in drafted.failed] == []


def test_a_basque_that_is_spoiled_fails_its_checks():
    """Stretch the side band a little, then turn its lower edge: seam and corner must say so."""
    drafted = gown()
    made = pieces(drafted)
    made["side band"] = made["side band"].mapped(lambda point: replace(point, x=point.x * 1.01))
    failed = {c.name for c in seam_checks(drafted.seams, made) if not c.passed}
    assert {"seam: basque edge, front", "seam: under-bust"} <= failed
    made["side band"] = made["side band"].mapped(lambda point: Point(point.x, point.y + 0.2 * point.x))
    at_seam = corner_checks([("seam", ((made["band"], "band seam", "basque edge"), (made["side band"], "basque edge", "band seam")))])
    assert not at_seam[0].passed


def test_the_steps_hold_the_basque_s_own_numbers_and_a_check_for_each_solved_one():
    drafted = gown(**{"skirt.kind": "straight"})
    texts = [step.written(lambda length: f"{length / INCH:.2f}")[0] for step in drafted.steps]
    assert any("4.40 below the waist, the point" in text for text in texts)
    assert any("Walk it against the basque: skirt" in text for text in texts)
    assert any("Walk the band seams" in text for text in texts)
    assert not any("{" in text for text in texts)
