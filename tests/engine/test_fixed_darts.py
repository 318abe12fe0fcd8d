"""Bust darts of fixed figures, for a dressmaker who has her own. Common practice, no source: ½ and 1¼ below, about 1 above."""

import pytest

from drafting.engine.garments import draft
from drafting.engine.spec import GarmentSpec
from drafting.engine.tolerance import INCH
from tests.engine.bodies import ROUND, mm, some_bodies


def gown(measures, **rules):
    return draft(GarmentSpec("bustier-gown", {"intakes": "fixed", "skirt.kind": "none"}, measures, {k: v * INCH for k, v in rules.items()}))


def figures(made) -> dict[str, float]:
    return {figure.name: figure.value / INCH for figure in made.figures}


def test_the_usual_figures_are_drawn_whatever_the_body():
    found = figures(gown(mm(ROUND)))
    assert found["lower bust dart"] == pytest.approx(1.75)
    assert found["lower dart toward the centre"] == pytest.approx(0.5)
    assert found["upper bust dart"] == pytest.approx(1.0)
    assert found["lower bust dart worked out for this body"] == pytest.approx(2.125)  # 0.4 D and a quarter of the ease


def test_her_own_figures_come_before_the_usual_ones():
    found = figures(gown(mm(ROUND), lower_intake=2.0, dart_toward_centre=0.75))
    assert (found["lower bust dart"], found["lower dart toward the centre"]) == (pytest.approx(2.0), pytest.approx(0.75))


def test_girths_hold_all_the_same_or_the_draft_says_so():
    drafted = 0
    for body in some_bodies(40, seed=7):
        try:
            made = gown(mm(body))
        except Exception as refused:  # noqa: BLE001 - which, is asked below
            assert type(refused).__name__ in ("ImpossibleMeasure", "NoSolution"), refused
            continue
        drafted += 1
        assert not made.failed, [check.name for check in made.failed]
    assert drafted >= 36
