"""Pegged skirts: a hem narrower than the hips, by arithmetic; its allowance; its vent; alone, on a top, below a basque, two-sided."""

import math

import pytest
from shapely import LineString, Polygon

from drafting.engine import GarmentSpec, draft
from drafting.engine.blocks.skirt_walking import needed_girth
from drafting.engine.errors import ImpossibleMeasure, UnknownChoice
from drafting.engine.spec import FitNote
from drafting.engine.tolerance import INCH
from tests.engine.bodies import ROUND, mm, some_bodies

BODY = {"waist": 28, "hip": 39, "waist_to_hip": 8, "height": 65, "knee": 14}


def skirt(hem, body=None, **options):
    chosen = {"skirt.kind": "straight", "skirt.length": 27 * INCH, "skirt.sweep": hem * INCH, **options}
    return draft(GarmentSpec("skirt", chosen, mm(body or BODY), {}, {"shell": "wool", "lining": "silk"}))


def pieces(drafted):
    return {p.name: p for p in drafted.pieces}


def test_the_hem_measures_what_was_asked_for_and_each_side_seam_slants_a_quarter_of_the_rest():
    """41 round the hips, 38 at the hem 19 below: four edges come in by 3/4 in each, less the hem's arch; the seam bends over 0.3 of the way."""
    drafted = skirt(38)
    made = pieces(drafted)
    assert 2 * sum(made[n].edge("hem").path.length() for n in ("skirt front", "skirt back")) / INCH == pytest.approx(38, abs=0.001)
    side = made["skirt front"].edge("side").path
    hip = next(s for s in drafted.girths[1].stretches if s.piece == "skirt front").amount
    slant = math.atan2(hip - side.end.x, (side.end.y - 8 * INCH) * (1 - 0.3 / 2))
    assert math.degrees(slant) == pytest.approx(math.degrees(math.atan(0.75 / 19.2 / 0.85)), abs=0.05)
    assert side.length() == pytest.approx(made["skirt back"].edge("side").path.length(), abs=0.05)


def test_a_hem_too_narrow_or_wider_than_the_hips_is_refused_with_what_would_do():
    with pytest.raises(ImpossibleMeasure) as narrow:
        skirt(30)
    assert skirt(narrow.value.needed / INCH + 0.01).failed == ()
    with pytest.raises(ImpossibleMeasure) as wide:
        skirt(50)
    assert wide.value.needed == pytest.approx(41 * INCH)


def test_the_turned_up_allowance_is_as_long_as_the_skirt_where_it_is_sewn():
    """Without its widened ends it would lack twice the hem's depth times the taper, a sixth of an inch in each quarter here."""
    front = pieces(skirt(38))["skirt front"]
    hem = front.edge("hem")
    deep = hem.allowance
    side = front.edge("side")
    lowest = [p for p in front.cut_line if p.y > hem.path.start.y + deep * 0.9]
    cut = max(p.x for p in lowest) - side.allowance
    level = side.path.end.y - deep
    line = LineString([(p.x, p.y) for p in side.path.polyline()]).intersection(LineString([(0, level), (1000, level)]))
    assert cut == pytest.approx(line.x, abs=0.6)
    assert cut - hem.path.start.x > 2.0


def test_the_vent_reaches_the_highest_level_where_the_pegged_skirt_is_narrower_than_a_step():
    """Held against the loop and the skirt's own girth, measured as a slice of its pieces."""
    drafted = skirt(38, **{"skirt.length": 30 * INCH})
    made = pieces(drafted)
    vent = made["skirt back"].edge("vent").path.length()
    top = 30 * INCH - vent
    outlines = [Polygon([(p.x, p.y) for p in made[n].net]) for n in ("skirt front", "skirt back")]
    girth = 2 * sum(LineString([(0, top), (1000, top)]).intersection(outline).length for outline in outlines)
    assert girth == pytest.approx(needed_girth(top - 7 * INCH, 65 * INCH, 14 * INCH), abs=0.6)


@pytest.mark.parametrize("share", [0.95, 0.99])
def test_every_check_holds_on_many_bodies_lined_and_with_uneven_hems(share):
    for body in some_bodies(8, seed=11):
        lengths = {"skirt.length_back": 27.5 * INCH} if share == 0.99 else {}
        assert skirt((body["hip"] + 2) * share, body, lined=True, **lengths).failed == ()


def test_a_pegged_skirt_hangs_from_a_top_and_a_basque_and_differs_left_and_right():
    for waist in ("straight", "basque"):
        chosen = {"waist": waist, "skirt.kind": "straight", "skirt.sweep": 43 * INCH, "skirt.length": 28 * INCH}
        drafted = draft(GarmentSpec("bustier-gown", chosen, mm(ROUND), {}, {"shell": "satin", "lining": "silk"},
                                    fit_notes=(FitNote("side waist", "left", 0.25 * INCH),)))
        assert drafted.failed == ()
        assert any(text.startswith("Pegged") for text in (drafted.title, *(s.why for s in drafted.steps if s.why)))


def test_a_skirt_that_flares_below_a_basque_can_t_be_pegged():
    with pytest.raises(UnknownChoice) as refused:
        draft(GarmentSpec("bustier-gown", {"waist": "basque", "skirt.kind": "straight", "skirt.sweep": 45 * INCH, "skirt.length": 28 * INCH},
                          mm({**ROUND, "waist": 27, "hip": 46}), {}, {"shell": "satin"}))
    assert refused.value.key == "skirt.sweep"
