"""Bodies made up at random (fixed seed), bust 70 to 150 cm: each is drafted right, or refused with a sentence."""

import random

import pytest

from tests.outside.bodies import order_file, test_body
from tests.outside.contract import breaches
from tests.outside.faults import all_faults
from tests.outside.running import jobsheet
from tests.outside.sample import SAMPLE

COUNT, STRAINED = (60, 40) if SAMPLE.everything else (30, 20)
CM = 1 / 2.54


def bodies() -> dict[str, dict]:
    """Girths and lengths that real bodies have, loosely: D 8 to 24 cm, the rest in proportion with a wide spread."""
    draw = random.Random(20260302)
    made = {}
    for number in range(COUNT):
        bust = draw.uniform(70, 150)
        under = bust - draw.uniform(8, min(24, 8 + (bust - 66) * 0.4))
        waist = under * draw.uniform(0.84, 1.02)
        hip = max(bust * draw.uniform(0.98, 1.12), waist + 8)
        body = test_body(bust * CM, under * CM, waist * CM, hip=hip * CM)
        for key in ("shoulder", "shoulder_to_waist", "nape_to_waist", "armhole_depth"):
            body[key] *= draw.uniform(0.985, 1.015)
        choices = {
            "fit": draw.choice(["corset", "close", "standard", "loose"]),
            "top_edge": draw.choice(["straight", "sweetheart", "v"]),
            "skirt": {"kind": draw.choice(["straight", "a-line"]), "length": draw.uniform(20, 44)},
            "closure": draw.choice(["back-zip", "back-lacing"]),
            "lined": draw.random() < 0.7,
            "waist": ("straight", "basque")[number % 2],
            "cups": ("by-rule", "two", "three")[number % 3],
            "straps": ("none", "shoulder")[number % 5 == 0],
        }
        made[f"body-{number:02}"] = order_file(f"body-{number:02}", body, **choices)
    return made


@pytest.fixture(scope="module")
def run(tmp_path_factory):
    return jobsheet(tmp_path_factory.mktemp("bodies") / "out", *bodies().values())


def test_no_body_ends_in_a_traceback(run):
    assert "Traceback" not in run.err


def test_most_bodies_are_drafted_and_the_rest_refused_in_a_sentence(run):
    names = bodies()
    drafted = [name for name in names if (run.folder / name / "result.json").exists()]
    assert len(drafted) >= 0.9 * COUNT, run.err
    refused = len(names) - len(drafted)
    assert sum(1 for line in run.err.splitlines() if "-order-" in line) >= refused


@pytest.mark.parametrize("name", list(bodies()))
def test_what_is_drafted_for_cutting_has_no_fault(run, name):
    if not (run.folder / name / "result.json").exists():
        pytest.skip("refused with a sentence")
    result = run.result(name)
    assert breaches(result) == []
    if all(check["pass"] for check in result["checks"]):
        assert all_faults(result) == []


def strained_orders() -> dict[str, dict]:
    """The same bodies with every measure off by up to 8 in 100 on its own, and house rules anywhere in their limits."""
    draw, basques = random.Random(9), random.Random(10)
    orders = {}
    for name, order in list(bodies().items())[:STRAINED]:
        measures = {key: inches * draw.uniform(0.92, 1.08) for key, inches in order["measures"].items()}
        rules = {
            "lacing_gap": draw.uniform(0, 3),
            "let_out": draw.uniform(0, 3),
            "seam_allowance": draw.uniform(0.25, 1),
            "top_edge_rise": draw.uniform(0, 3),
            "front_share": draw.uniform(0.5, 1),
            "hem": draw.uniform(0, 5),
            "centre_back_allowance": draw.uniform(0, 3),
            "bone_width": draw.uniform(0.2, 0.6),
        }
        if order["garment"]["waist"] == "basque":
            rules |= {"basque_depth": basques.uniform(0.5, 8), "basque_side": basques.uniform(0, 4)}
        orders[f"strained-{name}"] = order | {
            "order": f"strained-{name}",
            "measures": measures,
            "garment": order["garment"] | {"rules": rules, "cups": "by-rule"},  # a dart too small for three is refused in other words
        }
    return orders


@pytest.fixture(scope="module")
def strained(tmp_path_factory):
    return jobsheet(tmp_path_factory.mktemp("strained") / "out", *strained_orders().values())


def test_measures_that_contradict_each_other_are_refused_and_said_so(strained):
    refused = [line for line in strained.err.splitlines() if "-order-" in line]
    made = [name for name in strained_orders() if (strained.folder / name / "result.json").exists()]
    assert strained.status == (2 if refused else 0)
    assert len(refused) + len(made) == len(strained_orders())
    assert all(line.endswith("again.") for line in refused), refused


@pytest.mark.parametrize("name", list(strained_orders()))
def test_a_draft_of_odd_measures_and_rules_has_no_fault(strained, name):
    if not (strained.folder / name / "result.json").exists():
        pytest.skip("refused with a sentence")
    assert all_faults(strained.result(name)) == []
