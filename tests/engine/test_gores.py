"""Gored, panelled and mermaid skirts: printed figures, closed forms, limits, and every one of them on many bodies."""

import math

import pytest

from drafting.engine import GarmentSpec, draft
from drafting.engine.blocks.skirt_gores import MOST_TAKE, plan_gores
from drafting.engine.errors import ImpossibleMeasure, UnknownChoice
from drafting.engine.spec import FitNote
from drafting.engine.tolerance import INCH, SEAM
from tests.engine.bodies import mm, some_bodies

BODY = {"waist": 28, "hip": 39, "waist_to_hip": 8, "height": 65, "knee": 14, "waist_to_knee": 23}
GORED = [{"skirt.kind": "gored", "skirt.gores": n} for n in (4, 6, 8)]
PANELLED = [{"skirt.kind": "circle", "skirt.fraction": f, "skirt.panels": n} for f in (0.5, 1.0) for n in (4, 6, 8)]
MERMAID = [{"skirt.kind": "mermaid", "skirt.gores": n, "skirt.godets": g} for n in (6, 8) for g in (False, True)]


def skirt(body=None, **options):
    chosen = {"skirt.length": 40 * INCH, "lined": True, **options}
    return draft(GarmentSpec("skirt", chosen, mm(body or BODY), {}, {"shell": "wool", "lining": "silk"}))


def outside(drafted):
    return {p.name: p for p in drafted.pieces if p.of is None}


def waist_of(piece):
    return sum(e.path.length() for e in piece.edges if e.name.startswith("waist"))


def hip_of(drafted, name):
    girth = next(g for g in drafted.girths if g.level == "hip")
    return next(s.amount for s in girth.stretches if s.piece == name)


def warned(drafted, code):
    return next((w for w in drafted.warnings if w.code == code), None)


def test_six_gores_add_up_to_the_printed_half_waist_and_half_hip():
    """Ingalls, Text-Book on Domestic Art, Gored Skirt 38: half waist 12, half hip 19½; her gores' hips are 1.5 to 2.1 of their waists."""
    drafted = skirt({**BODY, "waist": 24 - 1, "hip": 39 - 2}, **GORED[1])  # what a skirt alone adds, taken off
    pieces = outside(drafted)
    names = ("skirt front", "skirt side front", "skirt side back", "skirt back")
    assert sum(waist_of(pieces[name]) for name in names) / INCH == pytest.approx(12, abs=0.01)
    assert sum(hip_of(drafted, name) for name in names) / INCH == pytest.approx(19.5, abs=0.01)
    assert all(1.5 <= hip_of(drafted, name) / waist_of(pieces[name]) <= 2.1 for name in names)


def test_five_eighths_and_all_shares_close_on_the_waist():
    """Five-gore underskirt, same book: front waist/8, side waist/6, back the rest of the half: 3 + 4 + 5 = 12. Ours share evenly: a sixth each."""
    pieces = outside(skirt({**BODY, "waist": 23, "hip": 37}, **GORED[1]))
    assert waist_of(pieces["skirt side front"]) / INCH == pytest.approx(24 / 6, abs=0.001)
    assert waist_of(pieces["skirt front"]) / INCH == pytest.approx(24 / 12, abs=0.001)


def test_one_side_gore_has_the_printed_waist_and_hip():
    """Five-gore underskirt, Ingalls: side gore waist/6 = 4 for waist 24, its hip, 6 in down, 1½ times that: 6. Six gores for a hip of 36 have
    it to the sixteenth; a front of half a gore, 2 at the waist, is 3 at the hip: the printed front of 3 is 4 there, by its own rule."""
    drafted = skirt({**BODY, "waist": 24 - 1, "hip": 36 - 2, "waist_to_hip": 6}, **GORED[1])
    pieces = outside(drafted)
    assert waist_of(pieces["skirt side front"]) / INCH == pytest.approx(4, abs=1 / 16)
    assert hip_of(drafted, "skirt side front") / INCH == pytest.approx(6, abs=1 / 16)
    assert hip_of(drafted, "skirt front") / INCH == pytest.approx(3, abs=1 / 16)


def test_nine_parts_of_the_printed_skirt_of_38_have_a_side_gore_s_share():
    """Gored Skirt 38, Ingalls: side gores 2⅔ at the waist and 4 at the hip, 1½ times; ours come to the same ratio where hip is 1½ waist,
    for any number of gores."""
    for gores in GORED:
        drafted = skirt({**BODY, "waist": 24 - 1, "hip": 36 - 2, "waist_to_hip": 6}, **gores)
        pieces = outside(drafted)
        assert all(hip_of(drafted, name) / waist_of(pieces[name]) == pytest.approx(1.5, abs=0.02) for name in ("skirt front", "skirt back"))


def test_each_edge_of_a_gore_takes_two_nths_of_the_difference():
    """take = 2S/n: S = (hip − waist)/4; eight gores without flare, round figures by hand: (41 − 29)/4 = 3, a quarter of 3 an edge."""
    plan = plan_gores(8, 41 * INCH / 4, (29 * INCH / 4,) * 2, 8 * INCH, 30 * INCH, 41 * INCH)
    assert (plan.flare, plan.dart) == (0.0, 0.0)
    assert plan.take == pytest.approx(2 * 3 * INCH / 8)


def test_four_gores_with_more_than_an_inch_and_a_quarter_an_edge_get_a_dart():
    plan = plan_gores(4, 46 * INCH / 4, (29 * INCH / 4,) * 2, 8 * INCH, 30 * INCH, 47 * INCH)
    need = (46 - 29) / 4 * INCH / 2
    assert need > MOST_TAKE
    assert plan.take + plan.flare * 8 * INCH + plan.dart == pytest.approx(need)
    drafted = skirt({**BODY, "waist": 26, "hip": 39}, **GORED[0], **{"skirt.sweep": 60 * INCH})
    front = outside(drafted)["skirt front"]
    assert len(front.darts) == 1
    middle = (front.edge("centre front").path.end.x + front.edge("side").path.start.x) / 2
    assert front.darts[0].point.x == pytest.approx(middle)
    rounder = outside(skirt({**BODY, "waist": 26, "hip": 44}, **GORED[0], **{"skirt.sweep": 60 * INCH}))
    assert [len(rounder[name].darts) for name in ("skirt front", "skirt back")] == [2, 2]


@pytest.mark.parametrize("gores", [4, 6, 8])
def test_the_hem_measures_what_was_asked_for(gores):
    drafted = skirt(**{"skirt.kind": "gored", "skirt.gores": gores, "skirt.sweep": 100 * INCH})
    assert next(f.value for f in drafted.figures if f.name == "hem, all round") / INCH == pytest.approx(100, abs=0.5)


def test_a_hem_narrower_than_the_hip_is_refused_with_the_least():
    with pytest.raises(ImpossibleMeasure) as refused:
        skirt(**GORED[1], **{"skirt.sweep": 38 * INCH})
    assert refused.value.needed == pytest.approx(41 * INCH)


def test_panels_of_a_circle_lie_on_the_circle_s_own_radius():
    """r = C/(2 pi f) (coutureschmiede.com): waist 29 less ½, three quarters of a circle, six panels; hem 2 pi f (r + L)."""
    drafted = skirt(**{"skirt.kind": "circle", "skirt.fraction": 0.75, "skirt.panels": 6, "skirt.length": 26 * INCH})
    radius = 28.5 / (2 * math.pi * 0.75)
    hem = sum(outside(drafted)[n].edge("hem").path.length() for n in ("skirt front", "skirt side front", "skirt side back", "skirt back"))
    assert 2 * hem / INCH == pytest.approx(2 * math.pi * 0.75 * (radius + 26), abs=0.05)


def test_a_mermaid_is_narrowest_where_a_short_step_allows():
    """30 for size 36 (knee 14, height 65), 3 above the knee, with three fifths of the step: the method's own trial."""
    drafted = skirt(**MERMAID[0])
    told = warned(drafted, "short-steps")
    below, narrow, short, full = (figure / INCH for figure in told.figures)
    assert below == pytest.approx(20)
    assert narrow == pytest.approx(30, abs=0.6)
    assert narrow >= short - 1e-6 and narrow < full
    at = next(s for s in drafted.seams if s.name == "side, skirt")
    piece = outside(drafted)[at.a[0][0]]
    assert min(abs(p.x) for p in piece.edge("side").path.polyline()) > 0


def test_a_mermaid_that_ends_at_its_narrowest_line_is_refused():
    with pytest.raises(ImpossibleMeasure) as refused:
        skirt(**MERMAID[0], **{"skirt.length": 24 * INCH})
    assert refused.value.needed == pytest.approx(26 * INCH)


def test_a_mermaid_of_four_gores_is_refused():
    with pytest.raises(UnknownChoice):
        skirt(**{"skirt.kind": "mermaid", "skirt.gores": 4})


def test_a_godet_s_hem_is_an_arc_about_its_point_as_far_as_its_sides_are_long():
    pieces = outside(skirt(**MERMAID[3]))
    godet, opening = pieces["godet"], pieces["skirt front"].edge("front seam godet").path.length()
    assert godet.edge("side").path.length() == pytest.approx(opening, abs=SEAM)
    assert all(p.distance(godet.edge("side").path.start) == pytest.approx(godet.edge("side").path.length(), abs=0.05)
               for p in godet.edge("hem").path.polyline())
    assert godet.pieces_of_a_cloth == 8


@pytest.mark.parametrize("options", [*GORED, *PANELLED, *MERMAID], ids=str)
def test_every_seam_of_every_gored_skirt_meets_on_many_bodies(options):
    drawn = 0
    for i, body in enumerate(some_bodies(24, seed=1902)):
        kind = ("skirt", "bustier-gown", "fitted-dress")[i % 3]
        closure = "back-lacing" if kind == "bustier-gown" and i % 2 else "back-zip"
        drafted = draft(GarmentSpec(kind, {"skirt.length": 41 * INCH, "lined": True, "closure": closure, **options}, mm(body), {}, {"shell": "crepe"}))
        pieces = {p.name: p for p in drafted.pieces}
        assert all(abs(seam.difference(pieces)) <= SEAM for seam in drafted.seams)
        assert drafted.failed == (), (kind, body)
        drawn += 1
    assert drawn == 24


def test_a_shorter_walk_is_told_with_its_figures():
    drafted = skirt({**BODY, "waist": 36, "hip": 37}, **{"skirt.kind": "a-line", "skirt.length": 38 * INCH})
    told = warned(drafted, "short-steps")
    assert told.figures[1] < told.figures[2]
    assert "a full step needs" in told.written(str)


def test_a_gored_skirt_flares_as_much_as_a_full_step_needs():
    assert warned(skirt(**GORED[1]), "short-steps") is None


@pytest.mark.parametrize("side", ["left", "right"])
def test_godets_stay_alike_where_a_note_makes_the_two_sides_differ(side):
    measures = mm(BODY)
    drafted = draft(GarmentSpec("skirt", {"skirt.length": 40 * INCH, **MERMAID[3]}, measures, {}, {"shell": "wool"},
                                fit_notes=(FitNote("side waist", side, 0.25 * INCH),)))
    assert [p.pieces_of_a_cloth for p in drafted.pieces if "godet" in p.name] == [8]
    assert drafted.failed == ()
