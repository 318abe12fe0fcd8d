"""Gored, panelled and mermaid skirts below a basque: its edge traced over gores that lie side by side."""

import math

import pytest
from shapely import LineString, Polygon
from shapely import Point as At

from drafting.engine import GarmentSpec, draft
from drafting.engine.blocks.basque_gore_plan import plan_hung_gores
from drafting.engine.blocks.basque_gores import hang_gores
from drafting.engine.blocks.basque_skirt import Traced
from drafting.engine.errors import DraftingError, ImpossibleMeasure
from drafting.engine.path import Path
from drafting.engine.point import Point
from drafting.engine.spec import FitNote
from drafting.engine.tolerance import INCH
from tests.engine.bodies import ROUND, mm, some_bodies

GORED = [{"skirt.kind": "gored", "skirt.gores": n} for n in (4, 6, 8)]
PANELLED = [{"skirt.kind": "circle", "skirt.fraction": 0.75, "skirt.panels": n} for n in (4, 6, 8)]
MERMAID = [{"skirt.kind": "mermaid", "skirt.gores": n, "skirt.godets": n == 8} for n in (6, 8)]
FRONTS, BACKS = ("skirt front", "skirt side front"), ("skirt back", "skirt side back")
LEVEL = Traced(Path.through(Point(0.0, 20.2), Point(90.0, 20.2)), 110.0, 200.0, 20.0, 20.2, 200.0, 0.0, 40.0, 0.0)
"""A basque that is all but level, 20 mm deep: then gores are the fans that they are at a waist."""


def gown(body=None, *, notes=(), rules=None, **options):
    chosen = {"waist": "basque", "skirt.length": 41 * INCH, **options}
    return draft(GarmentSpec("bustier-gown", chosen, mm(body or ROUND), rules or {}, {"shell": "satin", "lining": "silk", "stay": "fusible"},
                             fit_notes=notes))


def edges(drafted, names, start, suffix=""):
    """Measured on the polylines that are cut, by Shapely; the parts of a half together."""
    return sum(LineString([(p.x, p.y) for p in edge.path.polyline()]).length for piece in drafted.pieces if piece.name in [f"{n}{suffix}" for n in names]
               for edge in piece.edges if edge.name.rstrip(" 0123456789") == start)


def halves(drafted, suffix=""):
    """Yield (basque, skirt) in mm, front and back; what lies under a lacing gap is not sewn to it."""
    yield edges(drafted, ("band", "side band"), "basque edge"), edges(drafted, FRONTS, "waist", suffix)
    yield edges(drafted, (f"back{suffix}",), "basque edge"), edges(drafted, BACKS, "waist", suffix)


def test_below_a_level_edge_a_gore_is_the_fan_that_it_is_at_a_waist():
    """Closed form: edge n over half a gore, flare f, come-in t over the depth h: hip = f (n sin(f + a)/(f + a) + h sin f + t cos f)/sin f,
    a the slant at the edge, its tangent 1.5 t/h; here h = 180, 8 gores, a quarter's hip of 250 mm."""
    plan, front, back = hang_gores(8, 0.06, 250.0, LEVEL, (0.0, 0.0))
    panel, h, n, f = front[1], 180.0, 50.0, 0.06
    t = plan.lean * h
    a = math.atan(1.5 * plan.lean)
    hip = f * (n * math.sin(f + a) / (f + a) + h * math.sin(f) + t * math.cos(f)) / math.sin(f)
    assert panel.hip_line.length() / 2 == pytest.approx(hip, abs=0.2)
    assert sum(p.hip_line.length() for p in (*front, *back)) == pytest.approx(500.0, abs=0.1)
    assert panel.edge.length() == pytest.approx(100.0, abs=0.01)
    assert panel.edge.leaves().angle_deg == pytest.approx(math.degrees(f + a), abs=0.3)  # the edge falls a little


def test_a_full_circle_in_panels_below_a_level_edge_has_the_circle_s_own_hem():
    """Hem of a full circle below an edge C long, L below it: C + 2 pi L."""
    fan = math.pi / 2
    _, front, back = hang_gores(8, fan / 4, 0.0, LEVEL, (0.0, 0.0))
    hem = 2 * sum(panel.ended(500.0).hem.length() for panel in (*front, *back))
    assert hem == pytest.approx(800.0 + 2 * math.pi * (180.0 + 500.0), rel=3e-4)


def test_a_hem_too_narrow_for_the_hips_is_refused_with_the_least_that_clears_them():
    with pytest.raises(ImpossibleMeasure) as refused:
        gown(**GORED[1], **{"skirt.sweep": 40 * INCH})
    assert refused.value.needed == pytest.approx((42 + 2) * INCH, abs=1.0)
    drafted = gown(**GORED[1], **{"skirt.sweep": 110 * INCH})
    assert 2 * edges(drafted, (*FRONTS, *BACKS), "hem") == pytest.approx(110 * INCH, abs=0.5 * INCH)


def test_a_small_hip_lets_gores_flare_as_usual_and_a_round_one_more_where_seams_are_few():
    wide = plan_hung_gores(4, 320.0, LEVEL, 1000.0, None)
    assert math.degrees(plan_hung_gores(8, 210.0, LEVEL, 1000.0, None)) == pytest.approx(5.0)
    assert math.degrees(wide) > 5.0
    plan, _, _ = hang_gores(4, wide, 320.0, LEVEL, (0.0, 0.0))
    assert plan.lean == pytest.approx(0.2, abs=0.03)


@pytest.mark.parametrize("options", [*GORED, *PANELLED, *MERMAID], ids=str)
def test_every_gored_skirt_meets_its_basque_on_many_bodies_front_and_back(options):
    drawn = 0
    for i, body in enumerate(some_bodies(4, seed=1902)):
        closure = ("back-zip", "back-lacing", "side-zip")[i % 3]
        try:
            drafted = gown(body, closure=closure, **options)
        except DraftingError as refused:
            assert refused.sentence(lambda length: f"{length:.0f} mm").endswith(".")
            continue
        drawn += 1
        assert [c.name for c in drafted.failed] == []
        under = INCH / 8 if options["skirt.kind"] == "circle" else 0.0
        for basque, skirt in halves(drafted):
            assert skirt == pytest.approx(basque - under, abs=0.5)
        for basque, skirt in halves(drafted, " lining"):
            assert skirt == pytest.approx(basque, abs=0.5)
        hip = next(g for g in drafted.girths if g.level == "hip")
        assert hip.finished >= hip.body + 2 * INCH - 1.3
        assert not any(p.darts for p in drafted.pieces if p.name.startswith("skirt") and p.of is None), "a dart the cut-away swallows"
    assert drawn >= 3


@pytest.mark.parametrize("options", [GORED[0], GORED[1], GORED[2], PANELLED[0], MERMAID[0], MERMAID[1]], ids=str)
def test_two_sides_that_differ_at_the_hip_meet_the_basque_and_each_other(options):
    drafted = gown(notes=(FitNote("side hip", "left", 0.75 * INCH), FitNote("side waist", "right", -0.25 * INCH)), **options)
    assert [c.name for c in drafted.failed] == []
    assert {"left", "right"} <= {p.side for p in drafted.pieces if "skirt" in p.name} or any(
        "left and right differ" in p.remarks for p in drafted.pieces if p.name == "skirt front")
    by_name = {p.name: p for p in drafted.pieces}
    edge_seams = [s for s in drafted.seams if s.name.startswith("basque edge")]
    assert edge_seams and all(abs(s.difference(by_name)) <= 0.5 for s in edge_seams)


def test_the_cut_away_lies_a_seam_allowance_outside_the_traced_edge():
    drafted = gown(**GORED[1])
    for piece in [p for p in drafted.pieces if p.name.startswith("skirt") and p.of is None]:
        cut = Polygon([(p.x, p.y) for p in piece.cut_line]).exterior
        edge = next(e for e in piece.edges if e.name == "waist")
        inside = [p for p in edge.path.polyline()[2:-2] if p.x > edge.allowance + 1 or not piece.on_fold]
        assert all(At(p.x, p.y).distance(cut) == pytest.approx(edge.allowance, abs=0.2) for p in inside)


def test_a_train_and_a_side_length_hang_from_a_basque_too_and_its_steps_say_so():
    for options in (GORED[0], GORED[1], {"skirt.kind": "a-line"}):
        drafted = gown(**options, **{"skirt.length_side": 42 * INCH, "skirt.train": 10 * INCH})
        assert drafted.failed == ()
        made = {p.name: p for p in drafted.pieces}
        centre = made["skirt back"].edge("centre back").path.length() + made["back"].edge("centre back").path.end.y - drafted.side_levels.waist
        assert centre >= 41 * INCH
        texts = [step.written(lambda length: f"{length / INCH:.2f}")[0] for step in drafted.steps]
        assert any(text.startswith("Lower the hem") for text in texts)


@pytest.mark.parametrize("options", [GORED[1], MERMAID[1]], ids=str)
def test_the_steps_of_each_gore_hold_its_own_figures(options):
    drafted = gown(**options)
    texts = [step.written(lambda length: f"{length / INCH:.2f}")[0] for step in drafted.steps if "skirt" in step.piece]
    assert any("Walk it against the basque: front" in text for text in texts)
    assert sum(text.startswith("Above the hip the seam toward") for text in texts) == 4
    assert not any("-0.00" in text for text in texts)
    assert not any("{" in text for text in texts)
