"""A fitted dress with a basque: its pointed edge, and the skirt that hangs from it, front and back, to half a millimetre."""

from dataclasses import replace

import pytest

from drafting.engine import GarmentSpec, draft
from drafting.engine.checks import seam_checks
from drafting.engine.errors import ImpossibleMeasure, UnknownChoice
from drafting.engine.spec import FitNote
from drafting.engine.tolerance import INCH
from tests.engine.bodies import mm, some_bodies
from tests.engine.reference_paths import BODY
from tests.engine.test_basque import edge_length, pieces

DARTS = ("side", "shoulder", "princess-shoulder", "princess-armhole")
CLOSURES = ("back-zip", "side-zip", "back-lacing", "buttons")
SKIRTS = ({"skirt.kind": "straight"}, {"skirt.kind": "a-line"}, {"skirt.kind": "circle", "skirt.fraction": 1.0}, {"skirt.kind": "gored", "skirt.gores": 8},
          {"skirt.kind": "mermaid", "skirt.length": 40 * INCH}, {"skirt.kind": "gathered"})  # fmt: skip


def spec(body=None, *, rules=None, **options):
    chosen = {"waist": "basque", "neckline": "boat", "lined": True, "skirt.kind": "a-line", "skirt.length": 28 * INCH, **options}
    return GarmentSpec("fitted-dress", chosen, mm(body or BODY), rules or {}, {"shell": "crepe", "lining": "silk"})


def half(drafted, names, edge, suffix=""):
    made = pieces(drafted)
    return sum(edge_length(made[f"{name}{suffix}"], edge) for name in names if f"{name}{suffix}" in made)


@pytest.mark.parametrize("closure", CLOSURES)
@pytest.mark.parametrize("darts", DARTS)
def test_the_skirt_meets_the_basque_front_and_back_however_the_dress_is_shaped_and_closed(darts, closure):
    turn = 4 * DARTS.index(darts) + CLOSURES.index(closure)
    for number, body in enumerate(some_bodies(2, seed=turn)):
        skirt = SKIRTS[(turn + number) % 6]
        try:
            drafted = draft(spec(body, darts=darts, closure=closure, **skirt))
        except ImpossibleMeasure as refused:
            assert refused.measure == "shoulder_to_bust"  # the one body whose bust lies at its underarm
            continue
        assert [c.name for c in drafted.failed] == []
        under = INCH / 8 if skirt["skirt.kind"] == "circle" else 0.0
        for suffix in ("", " lining") if closure != "buttons" else ("",):
            if skirt["skirt.kind"] == "gathered" and not suffix:
                continue
            less = under if not suffix else 0.0
            basque = half(drafted, ("front", "side front"), "basque edge", suffix), half(drafted, ("back",), "basque edge", suffix)
            edges = half(drafted, ("skirt front", "skirt side front"), "waist", suffix), half(drafted, ("skirt back", "skirt side back"), "waist", suffix)
            assert edges == pytest.approx((basque[0] - less, basque[1] - less), abs=0.5), (suffix, skirt)


def test_the_point_lies_as_deep_as_the_house_has_it_and_the_side_seams_stay_alike():
    plain, pointed = (draft(spec(waist=waist, rules={"basque_depth": 4 * INCH, "basque_side": INCH})) for waist in ("straight", "basque"))
    waist = pointed.levels.waist
    assert pieces(pointed)["front"].edge("fold").path.start.y - waist == pytest.approx(4 * INCH)
    sides = [half(drafted, (name,), "side") for drafted in (plain, pointed) for name in ("front", "back")]
    assert sides[0] == pytest.approx(sides[1], abs=0.5) and sides[2] == pytest.approx(sides[3], abs=0.5)
    assert INCH < sides[2] - sides[0] < 1.2 * INCH
    girths = [{girth.level: girth.finished for girth in drafted.girths} for drafted in (plain, pointed)]
    assert girths[0]["bust"] == pytest.approx(girths[1]["bust"], abs=0.5) and girths[0]["waist"] == pytest.approx(girths[1]["waist"], abs=0.5)


def test_left_and_right_may_differ_and_still_meet_in_the_point():
    drafted = draft(replace(spec(darts="princess-shoulder"), one_side={"left": {"waist": 31.5 * INCH, "hip": 42 * INCH}}))
    assert [c.name for c in drafted.failed] == []
    assert {"left side front", "right side front"} <= pieces(drafted).keys()


def test_a_note_that_moves_the_back_s_waist_is_refused_with_what_would_do():
    with pytest.raises(UnknownChoice) as refused:
        draft(replace(spec(), fit_notes=(FitNote("back waist", "both", INCH / 2),)))
    assert "straight" in refused.value.sentence(str)


def test_a_front_that_is_spoiled_no_longer_meets_its_skirt():
    drafted = draft(spec())
    made = pieces(drafted)
    made["front"] = made["front"].mapped(lambda point: replace(point, x=point.x * 1.01))
    assert "seam: waist, front" in {c.name for c in seam_checks(drafted.seams, made) if not c.passed}


def test_the_steps_say_how_deep_and_how_long_the_edge_is_and_what_it_is_walked_against():
    drafted = draft(spec())
    texts = [step.written(lambda length: f"{length / INCH:.2f}")[0] for step in drafted.steps]
    whole = half(drafted, ("front",), "basque edge") / INCH
    assert any(text.startswith("Basque") and "4.40 below it, the point" in text for text in texts), texts
    assert any(f"basque {whole:.2f}" in text for text in texts)
    assert "basque waist" in drafted.summary
