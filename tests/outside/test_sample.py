"""What is left out where not all bodies were asked for: no kind of garment, no choice, no size, least of all the smallest and the largest."""

import pytest

from tests.outside import test_basque_and_cups, test_every_garment, test_fitted_to_her, test_skirts_and_trousers
from tests.outside.bodies import SIZES, WAIST
from tests.outside.sample import SAMPLE, choices_of

OF_HER_HIP = "skirt.sweep"
"""A pegged skirt's hem goes by the body's hip, so that it is no choice of its own."""
SIZE_OF_WAIST = {waist: size for row in WAIST.values() for size, waist in zip(SIZES, row, strict=True)}


def kinds_by_size(orders: dict[str, dict]) -> dict[str, set[str]]:
    found: dict[str, set[str]] = {}
    for order in orders.values():
        found.setdefault(SIZE_OF_WAIST[order["measures"]["waist"]], set()).add(order["garment"]["kind"])
    return found


@pytest.mark.parametrize("module", [test_basque_and_cups, test_every_garment, test_fitted_to_her, test_skirts_and_trousers])
def test_a_sample_has_every_choice_and_every_size_and_at_the_ends_every_kind(module, monkeypatch):
    monkeypatch.setattr(SAMPLE, "everything", True)
    everything = module.orders()
    monkeypatch.setattr(SAMPLE, "everything", False)
    some = module.orders()
    assert some.items() < everything.items()
    choices, kept = (
        {each for order in orders.values() for each in choices_of(order) if each[1] != OF_HER_HIP} for orders in (everything, some)
    )
    assert choices == kept
    of_all, of_some = kinds_by_size(everything), kinds_by_size(some)
    assert list(of_all) == list(of_some)
    smallest, *_, largest = of_all
    assert of_all[smallest] == of_some[smallest] and of_all[largest] == of_some[largest]
