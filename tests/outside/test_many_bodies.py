"""The 260 women of `bdims` and 2,000 made-up bodies, each with a garment of every kind, choices drawn at random (fixed seed).

Each is drafted so that every invariant holds on its pieces, or refused in a sentence that says what was read and what would do.
Every eightieth body; all with --all-bodies. Rates and reasons stand in the README: `python -m tests.outside.rates` prints its table.
"""

import pytest

from drafting.engine.garments import KINDS
from tests.outside.many_bodies import every, generated, women
from tests.outside.proving import FAULTY, RIGHT, prove

#: Fewer than this are right, and something broke: refusals are for measures outside the stated limits.
LEAST_RIGHT = 0.95


@pytest.fixture(scope="module")
def bodies(request) -> list:
    return every(1 if request.config.getoption("--all-bodies") else 80)


def test_the_women_of_bdims_are_260_and_the_others_2000():
    """The means are those of the published table: chest 86.1, waist 69.8, hip 95.7 cm."""
    assert (len(women()), len(generated())) == (260, 2000)
    means = {key: sum(body[key] for body in women()) / 260 * 2.54 for key in ("high_bust", "waist", "hip")}
    assert means == pytest.approx({"high_bust": 86.06, "waist": 69.80, "hip": 95.65}, abs=0.01)
    busts = [body["bust"] * 2.54 for body in generated()]
    assert (min(busts), max(busts)) == pytest.approx((70, 150), abs=0.5)


@pytest.mark.parametrize("kind", list(KINDS))
def test_every_body_has_its_garment_right_or_is_refused_in_a_sentence_that_helps(kind, bodies):
    outcomes = {which: prove(kind, body, which) for which, body in bodies}
    faulty = [f"{which}: {each.why} {dict(each.options)}" for which, each in outcomes.items() if each.how == FAULTY]
    assert not faulty, f"{len(faulty)} of {len(bodies)}\n" + "\n".join(faulty[:5])
    right = sum(each.how == RIGHT for each in outcomes.values())
    refused = [f"{which}: {each.said}" for which, each in outcomes.items() if each.how != RIGHT]
    assert right >= LEAST_RIGHT * len(bodies), "\n".join(refused[:10])
