"""The strapless gown: closed forms first, then invariants over many bodies, measured on the pieces."""

import itertools
import math

import pytest
from shapely import Polygon

from drafting.engine import GarmentSpec, draft
from drafting.engine.errors import DraftingError, ImpossibleMeasure, MissingMeasure, UnknownChoice
from drafting.engine.result import as_result
from drafting.engine.tolerance import INCH, SEAM
from tests.engine.bodies import NEEDED, ROUND, mm, some_bodies

CLOTHS = {"shell": "brocade", "lining": "lawn", "stay": "fusible"}


def gown(body=None, *, rules=None, cloths=CLOTHS, **options):
    chosen = {"skirt.kind": "a-line", "skirt.length": 40 * INCH, **options}
    return draft(GarmentSpec("bustier-gown", chosen, mm(body or ROUND), rules or {}, cloths))


def piece(drafted, name):
    return next(p for p in drafted.pieces if p.name == name)


def figure(drafted, name):
    return next(f.value for f in drafted.figures if f.name == name) / INCH


def codes(drafted):
    return {w.code for w in drafted.warnings}


def test_both_darts_follow_their_closed_forms_at_equal_ease():
    """drafting method, section 4: at equal ease U = 0.2 D and L = 0.4 D for a front's share of 0.8. D is 5 here."""
    body = {**ROUND, "high_bust": 38}
    drafted = gown(body, fit="corset")
    assert figure(drafted, "upper bust dart") == pytest.approx(1.0)
    assert figure(drafted, "lower bust dart") == pytest.approx(2.0)
    assert figure(drafted, "lower dart toward the centre") == pytest.approx(2 / 3)


def test_a_dart_shared_evenly_needs_no_truing():
    drafted = gown(fit="corset", rules={"dart_toward_centre": 1.0 * INCH})
    assert figure(drafted, "side cup raised for the cup seam") == pytest.approx(0.0, abs=1e-6)


def test_the_truing_move_agrees_with_the_published_trial():
    """The method's own trial: ½ + 1½ over a cup 3 deep gives a move of 0.42 in, thirds give 0.27."""
    half = gown(fit="corset", rules={"dart_toward_centre": 0.5 * INCH})
    thirds = gown(fit="corset")
    assert figure(half, "side cup raised for the cup seam") == pytest.approx(0.42, abs=0.01)
    assert figure(thirds, "side cup raised for the cup seam") == pytest.approx(0.27, abs=0.01)


def test_a_lacing_gap_is_left_out_of_both_backs_and_of_nothing_else():
    laced, zipped = gown(closure="back-lacing"), gown(closure="back-zip")
    assert piece(zipped, "back").edge("top").path.length() - piece(laced, "back").edge("top").path.length() == pytest.approx(0.5 * INCH)
    for girth in laced.girths[:4]:
        assert girth.gap == INCH
    assert [g.finished for g in laced.girths] == pytest.approx([g.finished for g in zipped.girths], abs=0.1)


def test_the_skirt_under_a_lacing_gap_closes_while_the_bodice_gapes():
    back = piece(gown(closure="back-lacing"), "skirt back")
    assert back.edge("waist under lacing").path.length() == pytest.approx(0.5 * INCH, abs=1e-6)


def test_wadding_is_added_to_the_bust_and_shown_beside_the_ease():
    """Three pressed thicknesses of ⅛ in: the outside cloth lies that much further out over the front."""
    padded = gown(cloths={**CLOTHS, "wadding": "batting"}, fit="corset")
    bust = next(g for g in padded.girths if g.level == "bust")
    assert (bust.ease, bust.wadding) == pytest.approx((0.375 * INCH, 0.375 * INCH))
    assert bust.finished == pytest.approx((40 + 0.375) * INCH, abs=0.05 * INCH)


def test_a_lining_is_an_eighth_smaller_in_the_cup_and_an_eighth_lower_at_the_edge():
    drafted = gown()
    outside, lining = piece(drafted, "side cup"), piece(drafted, "side cup lining")
    assert outside.edge("top").path.length() - lining.edge("top").path.length() == pytest.approx(0.125 * INCH)
    assert lining.edge("top").path.start.y - outside.edge("top").path.start.y == pytest.approx(0.125 * INCH)


def test_a_hem_on_a_fan_is_its_hip_line_plus_the_flare():
    """Circle geometry: an arc that lies h further out on a fan of angle t is h·t longer."""
    drafted = gown()
    for name in ("skirt front", "skirt back"):
        hem = piece(drafted, name).edge("hem").path
        hip = next(s for g in drafted.girths if g.level == "hip" for s in g.stretches if s.piece == name)
        angle = math.radians(abs(hem.arrives().angle_deg - hem.leaves().angle_deg))
        assert hem.length() - hip.amount == pytest.approx(angle * 32 * INCH, abs=0.1)


def test_a_straight_skirt_drops_straight_down_from_the_hip():
    front = piece(gown(**{"skirt.kind": "straight"}), "skirt front")
    below = front.edge("side").path.strokes[-1]
    assert below.start.x == pytest.approx(below.end.x)
    assert front.edge("hem").path.length() == pytest.approx(below.end.x)


def test_a_long_straight_skirt_gets_a_vent_and_a_short_one_none():
    long, short = gown(**{"skirt.kind": "straight"}), gown(**{"skirt.kind": "straight", "skirt.length": 18 * INCH})
    assert piece(long, "skirt back").has_edge("vent")
    assert not piece(short, "skirt back").has_edge("vent")


def test_darts_on_the_skirt_take_what_the_side_does_not():
    """waist suppression identity: half the hip less half the waist is all that is taken. [D], to 1 mm."""
    drafted = gown(**{"skirt.kind": "straight"})
    front, back = piece(drafted, "skirt front"), piece(drafted, "skirt back")
    darts = sum(d.width for p in (front, back) for d in p.darts)
    sides = sum(p.edge("hem").path.length() - p.edge("side").path.start.x for p in (front, back))
    hips = (42 + 2) / 2 * INCH
    waists = sum(e.path.length() for p in (front, back) for e in p.edges if e.name.startswith("waist"))
    assert waists == pytest.approx((30 + 0.5) / 2 * INCH, abs=1e-3)
    assert hips - waists == pytest.approx(darts + sides, abs=3.0)


@pytest.mark.parametrize(("kind", "dip"), [("sweetheart", 1.5), ("v", 2.5)])
def test_a_dipped_edge_dips_by_the_house_rule_but_stays_above_the_bust(kind, dip):
    drafted = gown({**ROUND, "shoulder_to_bust": 11, "shoulder_to_under_bust": 14}, top_edge=kind)
    centre, top = piece(drafted, "centre cup"), piece(drafted, "side cup").edge("top").path.start.y
    assert centre.edge("top").path.start.y - top == pytest.approx(dip * INCH)
    held = gown(rules={"top_edge_dip": 4 * INCH}, top_edge=kind)
    assert "dip-held" in codes(held)
    assert held.levels.bust - piece(held, "centre cup").edge("top").path.start.y == pytest.approx(1.5 * INCH)
    assert drafted.failed == held.failed == ()


def test_a_bone_ends_three_quarters_inside_the_raw_edge():
    """Common practice, no source."""
    for bone in gown().bones:
        assert bone.casing - bone.bone >= 2 * 0.75 * INCH - 1e-6
        assert bone.channel - bone.bone >= 2 * 0.25 * INCH - 1e-6


def test_bones_in_the_band_lie_no_further_apart_than_the_house_allows():
    for apart in (1.5, 3.0):
        drafted = gown(rules={"bone_spacing": apart * INCH})
        places = sorted([0.0, piece(drafted, "band").edge("under-bust").path.length(), *(b.start.x for b in drafted.bones if b.place.startswith("band"))])
        assert max(b - a for a, b in zip(places, places[1:], strict=False)) <= apart * INCH + 1e-6


def test_a_waist_far_smaller_than_the_under_bust_parts_the_band():
    drafted = gown({**ROUND, "waist": 25})
    assert "band-in-two" in codes(drafted)
    assert piece(drafted, "side band").edge("band seam").path.length() == pytest.approx(piece(drafted, "band").edge("band seam").path.length())
    assert not drafted.failed


def test_a_flat_back_has_no_dart():
    drafted = gown(fit="corset", rules={"front_share": 0.95})
    assert piece(drafted, "back").darts == ()
    assert not drafted.failed


def test_estimates_that_shape_the_whole_draft_make_it_a_toile():
    body = {k: v for k, v in ROUND.items() if k in NEEDED}
    assert gown(body).toile_only
    full = {**ROUND, "across_front": 13.4, "across_back": 14.2}
    assert not gown(full).toile_only


def test_a_missing_measure_stops_the_draft_and_is_named():
    body = {k: v for k, v in ROUND.items() if k != "armhole_depth"}
    with pytest.raises(MissingMeasure) as refused:
        gown(body)
    assert "armhole depth" in refused.value.sentence(str)


def test_a_gown_without_a_skirt_needs_no_hip():
    body = {k: v for k, v in {**ROUND, "waist": 33}.items() if k != "hip"}
    drafted = gown(body, **{"skirt.kind": "none"})
    assert {p.name for p in drafted.pieces if p.of is None} == {"centre cup", "side cup", "band", "back"}


@pytest.mark.parametrize("option", [{"yoke": "half"}, {"skirt.kind": "bubble"}, {"sleeve": "puff"}])
def test_what_it_can_not_draw_is_refused_by_name(option):
    with pytest.raises(UnknownChoice):
        gown(**option)


def test_a_lacing_gap_that_reaches_the_skirt_s_darts_is_refused_with_the_most_that_fits():
    with pytest.raises(ImpossibleMeasure) as refused:
        gown(closure="back-lacing", rules={"lacing_gap": 5.9 * INCH}, **{"skirt.kind": "straight"})
    assert refused.value.measure == "lacing_gap"
    assert refused.value.needed < 5.9 * INCH


def test_a_rule_beyond_its_limits_is_refused_with_the_limit():
    with pytest.raises(ImpossibleMeasure) as refused:
        gown(rules={"seam_allowance": 3 * INCH})
    assert "at most" in refused.value.sentence(lambda mm: f"{mm / INCH:g} in")


@pytest.mark.parametrize("skirt", ["straight", "a-line"])
@pytest.mark.parametrize("closure", ["back-zip", "back-lacing"])
@pytest.mark.parametrize("fit", ["corset", "loose"])
def test_every_invariant_holds_or_the_draft_refuses(skirt, closure, fit):
    drawn = 0
    for body in some_bodies(30):
        try:
            drafted = gown(body, closure=closure, fit=fit, **{"skirt.kind": skirt})
        except DraftingError as refused:
            assert refused.sentence(lambda mm: f"{mm:.0f} mm").endswith(".")
            continue
        drawn += 1
        assert [c.name for c in drafted.failed] == []
        pieces = {p.name: p for p in drafted.pieces}
        for seam in drafted.seams:
            assert abs(seam.difference(pieces)) <= SEAM, seam.name
        for p in drafted.pieces:
            assert Polygon([(q.x, q.y) for q in p.net]).is_valid
    assert drawn >= 26


def test_a_draft_of_the_same_body_is_the_same_to_the_digit():
    first, second = gown(), gown()
    assert [p.cut_line for p in first.pieces] == [p.cut_line for p in second.pieces]


def test_a_seam_that_is_spoiled_fails_its_check():
    """The checks measure the pieces: stretch one edge and the draft must say so."""
    from dataclasses import replace

    from drafting.engine.checks import seam_checks

    drafted = gown()
    pieces = {p.name: p for p in drafted.pieces}
    band = pieces["band"]
    pieces["band"] = band.mapped(lambda point: replace(point, x=point.x * 1.01))
    failed = {c.name for c in seam_checks(drafted.seams, pieces) if not c.passed}
    assert {"seam: under-bust", "seam: waist, front"} <= failed


def test_every_step_by_hand_carries_the_client_s_own_numbers():
    drafted = gown()
    texts = [step.written(lambda mm: f"{mm / INCH:.2f}")[0] for step in drafted.steps]
    assert any("go across the bust line 4.00" in text for text in texts)
    assert not any("{" in text for text in texts)
    assert {step.piece for step in drafted.steps} >= {"centre cup", "side cup", "band", "back", "skirt front", "skirt back"}


def test_the_steps_are_numbered_as_they_are_read_piece_by_piece():
    """The waist stay is chalked on the band after the back; its number follows the band's others."""
    steps = as_result(gown(), order="S-1", plain=str, with_unit=str)["steps"]
    assert [step["number"] for step in steps] == list(range(1, len(steps) + 1)) and len(steps) == len(gown().steps)
    runs = [piece for piece, _ in itertools.groupby(step["piece"] for step in steps)]
    assert len(runs) == len(set(runs)) and "band" in runs


def test_a_waist_that_no_band_can_be_shaped_for_is_refused():
    with pytest.raises(ImpossibleMeasure) as refused:
        gown({**ROUND, "waist": 66, "hip": 70})
    assert refused.value.measure == "waist"
