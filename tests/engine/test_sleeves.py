"""Sleeves beside the plain set-in one: fitted, cap, puff with its band; what each asks for; the cap over the armhole."""

import math

import pytest

from drafting.engine import GarmentSpec, draft
from drafting.engine.blocks.cap_sleeve import cap_edges
from drafting.engine.checks import inner_angle
from drafting.engine.errors import DraftingError, ImpossibleMeasure, MissingMeasure
from drafting.engine.tolerance import INCH, SEAM
from tests.engine.bodies import ROUND, mm, some_bodies

ARM = {"upper_arm": 11.5, "wrist": 6.25, "elbow": 10, "sleeve_length": 23, "shoulder_to_elbow": 13.5}
BODY = {**ROUND, **ARM, "across_front": 13.4, "across_back": 14.2}
KINDS = ("set-in", "fitted", "short", "puff", "bell", "flutter", "cap")


def sleeved(kind, body=None, *, garment="bodice", length=None, **options):
    chosen = {"sleeve.kind": kind, **options} | ({"sleeve.length": length * INCH} if length else {})
    return draft(GarmentSpec(garment, chosen, mm(body or BODY), {}, {"shell": "linen"}))


def piece(drafted, name):
    return next(p for p in drafted.pieces if p.name == name)


def seam(drafted, name):
    return next(s for s in drafted.seams if s.name == name)


def figures(drafted):
    return {f.name: f.value for f in drafted.figures}


def test_a_fitted_sleeve_s_back_seam_less_its_dart_is_as_long_as_the_front():
    drafted = sleeved("fitted")
    pieces = {p.name: p for p in drafted.pieces}
    assert [edge for _, edge in seam(drafted, "sleeve").b] == ["underarm back 1", "underarm back 2"]
    assert abs(seam(drafted, "sleeve").difference(pieces)) < 0.001
    assert drafted.failed == ()


def test_a_fitted_sleeve_passes_over_upper_arm_elbow_and_wrist_with_their_ease():
    """The drafting method, section 7: bicep + 1½, elbow + 1, wrist + 1½."""
    sleeve = piece(sleeved("fitted"), "sleeve")
    cap = sleeve.edge("cap").path
    assert cap.end.x - cap.start.x == pytest.approx(13 * INCH)
    dart = sleeve.darts[0]
    assert dart.legs[0].start.distance(sleeve.edge("underarm front").path.strokes[-1].start) > 10 * INCH
    assert dart.legs[0].length() == pytest.approx(0.3 * 11 * INCH, rel=0.02)
    foot = sleeve.edge("hem").path
    assert foot.start.distance(foot.end) == pytest.approx(7.75 * INCH, abs=0.02 * INCH)


def test_the_elbow_lies_where_the_arm_bends_and_the_hem_at_the_wrist():
    """Shoulder to elbow and sleeve length, from the crown down; the lower arm is turned forward, which keeps its length."""
    sleeve = piece(sleeved("fitted"), "sleeve")
    top = min(p.y for p in sleeve.edge("cap").path.polyline())
    corner, other = (leg.start for leg in sleeve.darts[0].legs)
    assert corner.y - top == pytest.approx(13.5 * INCH, abs=0.01 * INCH)
    foot = sleeve.edge("hem").path
    lower = other.distance(foot.start)
    assert math.sqrt(lower**2 - (((11 - 7.75) / 2) * INCH) ** 2) == pytest.approx(9.5 * INCH, abs=0.05 * INCH)


def test_the_forearm_turns_toward_the_front():
    sleeve = piece(sleeved("fitted"), "sleeve")
    hem = sleeve.edge("hem").path
    middle = hem.start.toward(hem.end, 0.5)
    assert middle.x < sleeve.edge("cap").path.start.toward(sleeve.edge("cap").path.end, 0.5).x - 0.5 * INCH


def test_closed_the_elbow_dart_leaves_no_kink_in_the_back_seam():
    sleeve = piece(sleeved("fitted"), "sleeve")
    whole = inner_angle(sleeve, "underarm back 1", "dart 1 a") + inner_angle(sleeve, "dart 1 b", "underarm back 2")
    assert whole == pytest.approx(180, abs=0.01)


def test_a_fitted_sleeve_is_left_open_at_the_wrist_by_notches_at_one_height():
    drafted = sleeved("fitted")
    sleeve = piece(drafted, "sleeve")
    front, back = (next(n for n in sleeve.notches if n.edge == edge) for edge in ("underarm front", "underarm back 2"))
    assert front.at == pytest.approx(4 * INCH)
    assert sleeve.edge("underarm back 2").path.length() - back.at == pytest.approx(4 * INCH)


def test_an_arm_wide_at_the_elbow_widens_the_sleeve_and_says_so():
    drafted = sleeved("fitted", {**BODY, "elbow": 12.5})
    assert "sleeve-widened-for-elbow" in {w.code for w in drafted.warnings}
    assert figures(drafted)["sleeve at the upper arm"] == pytest.approx(13.5 * INCH)
    assert drafted.failed == ()


@pytest.mark.parametrize(("changed", "named"), [({"wrist": 10.5}, "wrist"), ({"shoulder_to_elbow": 6}, "shoulder to elbow"), ({"sleeve_length": 17}, "sleeve length")])
def test_an_arm_out_of_order_is_refused_by_its_measure(changed, named):
    with pytest.raises(ImpossibleMeasure) as refused:
        sleeved("fitted", {**BODY, **changed})
    assert named in refused.value.sentence(lambda mm: f"{mm / INCH:.2f} in").lower()


@pytest.mark.parametrize(("kind", "length", "needs"), [
    ("fitted", None, {"upper_arm", "elbow", "wrist", "sleeve_length", "shoulder_to_elbow"}), ("set-in", None, {"upper_arm", "wrist", "sleeve_length"}),
    ("short", None, {"upper_arm"}), ("puff", None, {"upper_arm"}), ("puff", 17, {"upper_arm", "shoulder_to_elbow"}), ("bell", None, {"upper_arm", "sleeve_length"}),
    ("bell", 15, {"upper_arm"}), ("flutter", None, {"upper_arm"}), ("cap", None, set())])  # fmt: skip
def test_each_sleeve_asks_only_for_the_measures_that_it_needs(kind, length, needs):
    bare = {key: value for key, value in BODY.items() if key not in ARM}
    if not needs:
        assert sleeved(kind, bare, length=length).failed == ()
        return
    with pytest.raises(MissingMeasure) as refused:
        sleeved(kind, bare, length=length)
    assert set(refused.value.keys) == needs
    assert sleeved(kind, {**bare, **{key: ARM[key] for key in ARM}}, length=length).failed == ()


@pytest.mark.parametrize(("front", "back"), [(4.2, 4.4), (5, 5), (6.4, 6.2)])
def test_a_cap_sleeve_s_edge_is_its_part_of_the_armhole_and_half_an_inch(front, back):
    """The drafting method, section 7: edge = 0.6 of the armhole + ½, notch to notch; edge over hem 1.1 to 1.2; height 2 to 3."""
    fore, aft, hem, warnings = cap_edges(front * INCH, back * INCH, None)
    edge = fore.length() + aft.length()
    assert edge == pytest.approx((front + back + 0.5) * INCH, abs=1e-4)
    assert fore.end.is_at(aft.start, 1e-6)
    assert 2 * INCH - 1e-6 <= -fore.end.y <= 3 * INCH + 1e-6
    if not warnings:
        assert 1.1 - 1e-4 <= edge / hem.length() <= 1.2 + 1e-4
    assert max(p.y for p in hem.polyline()) == pytest.approx(0.5 * INCH, abs=0.2)


def test_a_cap_sleeve_goes_from_notch_to_notch_and_leaves_the_rest_of_the_armhole():
    drafted = sleeved("cap")
    front, back, sleeve = (piece(drafted, name) for name in ("front", "back", "sleeve"))
    for made, half in ((front, "front"), (back, "back")):
        upper, lower = (made.edge(f"armhole {n}").path.length() for n in (1, 2))
        assert upper / (upper + lower) == pytest.approx(0.6)
        ease = sleeve.edge(f"cap {half}").path.length() - upper
        assert ease == pytest.approx({"front": 0.45, "back": 0.55}[half] * 0.5 * INCH, abs=1e-3)
    assert any(m.item.startswith("bias strip") for m in drafted.materials)
    assert drafted.failed == ()


def test_a_cap_sleeve_of_a_length_that_it_cannot_have_is_held_and_says_so():
    drafted = sleeved("cap", length=6)
    assert "cap-sleeve-held" in {w.code for w in drafted.warnings}
    assert drafted.failed == ()


def test_a_short_puff_s_band_is_the_upper_arm_and_an_inch_and_closed():
    drafted = sleeved("puff")
    band = piece(drafted, "sleeve band")
    assert band.edge("sleeve edge").path.length() == pytest.approx(12.5 * INCH)
    assert not band.has_edge("overlap")
    assert {s.name for s in drafted.seams} >= {"sleeve band", "ends of the sleeve band"}


def test_a_puff_under_the_elbow_has_a_band_that_opens():
    drafted = sleeved("puff", length=18.25)
    band = piece(drafted, "sleeve band")
    assert band.edge("overlap").path.length() == pytest.approx(INCH)
    # Halfway from elbow (13½) to wrist (23): halfway from 10 to 6¼, and 1 in.
    assert band.edge("sleeve edge").path.length() == pytest.approx((8.125 + 1) * INCH)
    assert {m.kind for m in band.marks} == {"fold line", "buttonhole", "button"}
    assert "ends of the sleeve band" not in {s.name for s in drafted.seams}
    assert drafted.failed == ()


def test_the_puff_s_gathers_in_cap_and_band_are_what_sliding_it_apart_gave():
    drafted = sleeved("puff")
    pieces = {p.name: p for p in drafted.pieces}
    gathered = seam(drafted, "armhole").ease
    assert gathered > 5 * INCH
    assert abs(seam(drafted, "armhole").difference(pieces)) <= SEAM


@pytest.mark.parametrize(("kind", "most"), [("bell", 1.0), ("flutter", 0.35)])
def test_a_flared_hem_is_turned_no_deeper_than_its_curve_allows(kind, most):
    """The drafting method, section 8: hem allowance at most 0.025 of the hem's radius."""
    sleeve = piece(sleeved(kind), "sleeve")
    assert 0.25 * INCH <= sleeve.edge("hem").allowance <= most * INCH


def test_the_cap_is_laid_over_both_armholes_and_parts_by_what_is_said():
    drafted = sleeved("set-in")
    assert [one.name for one in drafted.laid_over] == ["front", "back"]
    for one in drafted.laid_over:
        assert one.cap[0].is_at(one.armhole[-1], 1e-9)
        assert one.cap[-1].x < one.cap[0].x and one.cap[-1].y < one.cap[0].y
        assert figures(drafted)[f"cap parts from the {one.name} armhole at the notch"] == pytest.approx(one.apart)
    warned = [w for w in drafted.warnings if w.code == "cap-parts-from-armhole"]
    assert len(warned) == sum(one.apart > 0.5 * INCH for one in drafted.laid_over)


def test_a_cap_that_runs_with_its_armhole_is_not_warned_of():
    near = {**BODY, "bust": 38.5, "under_bust": 33, "neck": 15, "shoulder": 15.875, "across_front": 13.75, "across_back": 14.5, "shoulder_to_bust": 10.75,
            "shoulder_to_under_bust": 13.875, "shoulder_to_waist": 17.75, "nape_to_waist": 16, "armhole_depth": 6.25, "upper_arm": 11.75}
    drafted = sleeved("set-in", near)
    assert max(one.apart for one in drafted.laid_over) < 0.5 * INCH
    assert "cap-parts-from-armhole" not in {w.code for w in drafted.warnings}


@pytest.mark.parametrize("ease", [0.5, 1, 1.5])
def test_a_sleeve_s_cap_ease_lies_between_a_half_and_one_and_a_half(ease):
    """Common practice, no source: ½ to 1½ over the whole armhole."""
    drafted = draft(GarmentSpec("bodice", {"sleeve.kind": "set-in"}, mm(BODY), {"cap_ease": ease * INCH}, {"shell": "linen"}))
    values = figures(drafted)
    assert values["sleeve cap"] - values["front armhole"] - values["back armhole"] == pytest.approx(ease * INCH, abs=0.1)


@pytest.mark.parametrize("darts", ["side", "shoulder", "princess-shoulder", "princess-armhole"])
@pytest.mark.parametrize("kind", ["fitted", "cap", "puff"])
def test_every_invariant_holds_or_the_draft_refuses(kind, darts):
    drawn = 0
    for body in some_bodies(14, seed=1884):
        body = {**body, "elbow": 0.88 * body["upper_arm"], "shoulder_to_elbow": 13.5}
        try:
            drafted = sleeved(kind, body, darts=darts, length=17 if kind == "puff" else None)
        except DraftingError as refused:
            assert refused.sentence(lambda length: f"{length:.0f} mm").endswith(".")
            continue
        drawn += 1
        assert [c.name for c in drafted.failed] == []
    assert drawn >= 10


@pytest.mark.parametrize("kind", KINDS)
def test_a_sleeve_tells_its_steps_in_the_client_s_figures(kind):
    told = [step for step in sleeved(kind).steps if step.piece == "sleeve"]
    assert len(told) >= 3
    for step in told:
        text, why = step.written(lambda mm: f"{mm / INCH:.3f}")
        assert "{" not in text + why
