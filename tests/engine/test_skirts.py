"""Skirts: circle radii against printed figures, gathers by arithmetic, and every skirt on every top."""

import math

import pytest

from drafting.engine import GarmentSpec, draft
from drafting.engine.blocks.skirt import plan_circle
from drafting.engine.errors import ImpossibleMeasure, UnknownChoice
from drafting.engine.tolerance import INCH, SEAM
from tests.engine.bodies import ROUND, mm

FULL = {**ROUND, "across_front": 13.4, "across_back": 14.2}


def gown(body=None, *, kind="bustier-gown", **options):
    chosen = {"skirt.length": 26 * INCH, **options}
    return draft(GarmentSpec(kind, chosen, mm(body or FULL), {}, {"shell": "crepe", "lining": "silk"}))


def piece(drafted, name):
    return next(p for p in drafted.pieces if p.name == name)


@pytest.mark.parametrize(
    ("waist_cm", "fraction", "radius_cm"),
    [(60, 1, 9.55), (60, 0.75, 12.73), (60, 0.5, 19.10), (60, 0.25, 38.20), (68, 1, 10.82), (68, 0.5, 21.65), (72, 0.75, 15.28),
     (80, 1, 12.73), (80, 0.25, 50.93)],
)  # fmt: skip
def test_a_circle_skirt_has_the_published_radius(waist_cm, fraction, radius_cm):
    """r = C/(2 pi f): rule at coutureschmiede.com/2014/10/crossover-pleat-circle-skirt-draft.html, worked for these waists."""
    quarter = waist_cm * 10 / 4
    plan = plan_circle(fraction, 10.0, (quarter, quarter), 200.0)
    assert quarter / plan.fan / 10 == pytest.approx(radius_cm, abs=0.005)


def test_a_circle_skirt_s_waist_and_hem_are_arcs_of_one_centre():
    front = piece(gown(**{"skirt.kind": "circle", "skirt.fraction": 0.5}), "skirt front")
    waist, hem = front.edge("waist").path, front.edge("hem").path
    angle = math.pi / 4
    assert hem.length() - waist.length() == pytest.approx(angle * 26 * INCH, abs=1e-3)


def test_a_circle_s_waist_is_cut_half_an_inch_under_and_stayed():
    drafted = gown(**{"skirt.kind": "circle", "skirt.fraction": 0.5})
    waist = sum(piece(drafted, name).edge("waist").path.length() for name in ("skirt front", "skirt back"))
    assert 2 * waist == pytest.approx((30 + 0.5 - 0.5) * INCH, abs=1e-3)
    assert any("stay the waist" in step.text for step in drafted.making)


def test_a_gathered_skirt_is_its_fullness_times_the_waist():
    drafted = gown(**{"skirt.kind": "gathered", "skirt.fullness": 2.5})
    waist = sum(piece(drafted, name).edge("waist").path.length() for name in ("skirt front", "skirt back"))
    assert 2 * waist == pytest.approx(2.5 * 30.5 * INCH, abs=1e-3)
    seam = next(s for s in drafted.seams if s.name == "waist, front")
    assert seam.ease == pytest.approx(-1.5 * 30.5 / 4 * INCH)
    assert any("Gather the skirt's waist" in step.text for step in drafted.making)


def test_a_quarter_circle_too_tight_over_the_hips_is_refused_with_what_would_do():
    with pytest.raises(UnknownChoice) as refused:
        gown({**FULL, "hip": 46}, **{"skirt.kind": "circle", "skirt.fraction": 0.25})
    assert "0.5" in refused.value.choices and "half" in refused.value.sentence(str)


def test_a_circle_whose_waist_is_too_small_a_hole_is_refused():
    tiny = {**FULL, "bust": 27, "high_bust": 26, "under_bust": 22, "waist": 9, "bust_span": 6, "shoulder": 13, "across_front": 11,
            "across_back": 11.5, "waist_to_hip": 12, "hip": 22}
    with pytest.raises(ImpossibleMeasure):
        gown(tiny, **{"skirt.kind": "circle", "skirt.fraction": 1.0})


@pytest.mark.parametrize(("kind", "closure"), [("bustier-gown", "back-zip"), ("bustier-gown", "back-lacing"), ("fitted-dress", "back-zip")])
@pytest.mark.parametrize(
    "skirt", [{"skirt.kind": "straight"}, {"skirt.kind": "a-line"}, {"skirt.kind": "circle", "skirt.fraction": 0.75}, {"skirt.kind": "gathered"}]
)
def test_every_skirt_meets_every_top(kind, closure, skirt):
    drafted = gown(kind=kind, closure=closure, lined=True, **skirt)
    pieces = {p.name: p for p in drafted.pieces}
    for seam in drafted.seams:
        assert abs(seam.difference(pieces)) <= SEAM, seam.name
    assert drafted.failed == ()
    assert next(g for g in drafted.girths if g.level == "hip").finished >= (42 + 2) * INCH - 1.3


def skirt(body=None, **options):
    measures = mm(body or {"waist": 28, "hip": 39, "waist_to_hip": 8, "height": 65, "knee": 14})
    return draft(GarmentSpec("skirt", options, measures, {}, {"shell": "wool", "lining": "silk", "stay": "fusible"}))


def test_a_skirt_alone_asks_for_two_girths_and_sits_on_an_inch_of_ease():
    drafted = skirt({"waist": 28, "hip": 39}, **{"skirt.kind": "straight"})
    waist = next(g for g in drafted.girths if g.level == "waist")
    assert waist.finished == pytest.approx(29 * INCH)
    assert drafted.failed == ()


def test_a_waistband_is_as_long_as_the_waist_it_is_sewn_to():
    for kind in ("straight", "a-line", "circle", "gathered"):
        drafted = skirt(**{"skirt.kind": kind})
        seam = next(s for s in drafted.seams if s.name == "waistband")
        assert abs(seam.difference({p.name: p for p in drafted.pieces})) <= SEAM, kind


@pytest.mark.parametrize(("hem", "vent"), [(36, 5.625), (34, 7.0)])
def test_a_vent_starts_where_the_walking_loop_needs_it(hem, vent):
    """The method's own trial for size 36, length 25: hem 36 gives 5⅝, hem 34 gives 7 (before the least of 6 in)."""
    from drafting.engine.blocks.skirt_walking import needed_girth
    from drafting.engine.solve import root

    joint = 7 * INCH
    free = root(lambda z: needed_girth(z, 65 * INCH, 14 * INCH) - hem * INCH, 1.0, 18 * INCH, name="vent")
    assert (25 * INCH - joint - free) / INCH == pytest.approx(vent, abs=0.3)


def test_the_walking_loop_at_the_knee_is_the_knee_and_twenty_six():
    """Knee 14, height 65: 40 round, the same trial."""
    from drafting.engine.blocks.skirt_walking import needed_girth

    assert needed_girth(16.06 * INCH, 65 * INCH, 14 * INCH) / INCH == pytest.approx(40, abs=0.25)


def test_a_skirt_without_a_hip_is_refused_by_name():
    from drafting.engine.errors import MissingMeasure

    with pytest.raises(MissingMeasure) as refused:
        skirt({"waist": 28})
    assert "hip" in refused.value.sentence(str)


def test_a_skirt_whose_cutting_line_crosses_its_fold_is_not_for_cutting():
    drafted = skirt({"waist": 0.04, "hip": 60, "height": 65, "knee": 14}, **{"skirt.kind": "straight", "waist_finish": "petersham"})
    assert "outline: skirt front" in [check.name for check in drafted.failed]
