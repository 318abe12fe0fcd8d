"""Yokes: they meet the cups with the upper dart closed, the back at the shoulder, and lie over the neck with room."""

import pytest
from shapely import LineString

from drafting.engine import GarmentSpec, draft
from drafting.engine.errors import DraftingError, ImpossibleMeasure
from drafting.engine.tolerance import INCH
from tests.engine.bodies import ROUND, mm, some_bodies

KINDS = ["full", "neck-frame"]


def gown(yoke, body=None, **options):
    chosen = {"skirt.kind": "none", "yoke": yoke, **options}
    return draft(GarmentSpec("bustier-gown", chosen, mm(body or ROUND), {}, {"shell": "crepe", "lining": "silk"}))


def piece(drafted, name):
    return next(p for p in drafted.pieces if p.name == name)


@pytest.mark.parametrize("yoke", KINDS)
@pytest.mark.parametrize("edge", ["straight", "sweetheart", "v"])
def test_yoke_and_cup_are_one_shape_cut_in_two(yoke, edge):
    """With the upper dart closed the side cup slides back under the yoke: their joined armhole is one smooth line."""
    drafted = gown(yoke, top_edge=edge)
    made, side = piece(drafted, "yoke"), piece(drafted, "side cup")
    slide = next(f.value for f in drafted.figures if f.name == "upper bust dart")
    corner = side.edge("armhole").path.start
    assert made.edge("armhole").path.end.x == pytest.approx(corner.x - slide)
    above, below = made.edge("armhole").path.arrives(), side.edge("armhole").path.leaves()
    assert above.angle_deg == pytest.approx(below.angle_deg, abs=1e-6)
    assert drafted.failed == ()


@pytest.mark.parametrize("yoke", KINDS)
def test_the_neckline_and_the_armhole_run_on_over_the_shoulder(yoke):
    drafted = gown(yoke)
    corners = {c.name: c.figure for c in drafted.checks if c.name.startswith("corner: shoulder")}
    assert set(corners) == {"corner: shoulder at the armhole", "corner: shoulder at the neck"}
    assert max(corners.values()) < 0.01


def test_a_full_yoke_passes_over_the_neck_with_half_an_inch_to_spare():
    drafted = gown("full")
    found = {f.name: f.value for f in drafted.figures}
    assert found["finished neckline"] >= (15 + 0.5) * INCH - 0.01
    measured = sum(LineString([(p.x, p.y) for p in piece(drafted, name).edge("neck").path.polyline()]).length for name in ("yoke", "back"))
    assert 2 * measured == pytest.approx(found["finished neckline"], abs=0.1)


def test_a_framing_yoke_is_a_pair_and_a_full_one_lies_on_the_fold():
    assert {c.count for c in piece(gown("neck-frame"), "yoke").cuts} == {2}
    assert {c.count for c in piece(gown("full"), "yoke").cuts} == {1}


def test_a_shoulder_too_narrow_for_a_seam_is_refused():
    with pytest.raises(ImpossibleMeasure) as refused:
        gown("full", {**ROUND, "shoulder": 9.5, "across_front": 9.4, "across_back": 9.4, "armhole_depth": 7})
    assert "houlder" in refused.value.sentence(lambda length: f"{length / INCH:g} in")


@pytest.mark.parametrize("yoke", KINDS)
def test_every_invariant_holds_on_many_bodies_or_the_draft_refuses(yoke):
    drawn = 0
    for body in some_bodies(40):
        try:
            drafted = gown(yoke, body, top_edge="sweetheart", closure="back-lacing")
        except DraftingError:
            continue
        drawn += 1
        assert [c.name for c in drafted.failed] == []
    assert drawn >= 30
