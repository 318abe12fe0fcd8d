"""Several orders on one cloth: one lay, the total to buy, and each client's share of it."""

import pytest
from django.urls import reverse
from hypothesis import given
from hypothesis import strategies as st
from shapely import STRtree
from shapely.geometry import Polygon

from drafting.together import shares_of
from orders.cloth import together
from orders.cloth.laying import answer_now
from orders.models import Cloth
from tests.orders.book import cut_order, drafted_order
from tests.orders.paper.test_background import Quiet

ADDRESS = reverse("orders:together")


def text(answer) -> str:
    return answer.content.decode()


@pytest.fixture
def party(hester, monkeypatch):
    """Three bridesmaids' gowns of one cloth."""
    monkeypatch.setattr(together, "SECONDS", 1.5)
    orders = [drafted_order(hester) for _ in range(3)]
    for order in orders:
        answer_now(order, order.cloths.filter(name="outside cloth"))
    return list(Cloth.objects.filter(name="outside cloth").order_by("order__serial"))


def laid(cloths, hester):
    job = together.ask(cloths, by=hester)
    came = together.work(job.asked, Quiet())
    type(job).objects.filter(pk=job.pk).update(state="done", came=came)
    return came


def test_only_cloths_that_orders_share_are_offered(party, as_owner):
    page = text(as_owner.get(ADDRESS))
    assert page.count('name="of"') == 3 * 4  # each of the gown's four cloths, on three orders
    Cloth.objects.filter(pk=party[0].pk).update(name="another cloth")
    Cloth.objects.filter(pk=party[1].pk).update(width_mm=900)
    assert not any(each.name == "outside cloth" for each in together.shared_cloths())


def test_a_cut_order_s_cloth_is_not_offered(hester):
    cut_order(hester), cut_order(hester)
    assert together.shared_cloths() == []


def test_all_pieces_of_all_orders_lie_on_one_cloth_and_none_overlap(party, hester):
    lay = laid(party, hester)["lay"]
    alone = party[0].order.garments.get().draft.kept_lays.get(lay__cloth="outside cloth").lay
    assert len(lay["placed"]) == 3 * len(alone["placed"])
    shapes = [Polygon(placed["outline"]) for placed in lay["placed"]]
    for one, two in STRtree(shapes).query(shapes, predicate="intersects").T:
        assert one == two or shapes[one].intersection(shapes[two]).area < 1.0
    assert max(x for placed in lay["placed"] for x, _ in placed["outline"]) <= lay["usable"] + 0.01


def test_the_page_tells_the_total_and_shares_that_add_up_to_it(party, hester, as_owner):
    came = laid(party, hester)
    page = text(as_owner.get(together_address(party)))
    assert "Where each piece lies, for the chalk" in page and f"A1 centre cup of {party[0].order.number}, A2 " in page
    assert "to buy for all" in page and page.count('<th scope="row">A</th>') == 1
    steps = round(came["lay"]["to_buy"] / 114.3)
    shares = shares_of(steps, came["areas"])
    assert sum(shares.values()) == steps and max(shares.values()) - min(shares.values()) <= 1  # three alike
    assert "changed since" not in page and "style=" not in page


def test_a_changed_cloth_is_told(party, hester, as_owner):
    laid(party, hester)
    Cloth.objects.filter(pk=party[0].pk).update(one_way=True)
    assert "changed since" in text(as_owner.get(together_address(party)))


def test_it_is_asked_for_and_stopped_without_scripts(party, as_seamstress):
    keys = [cloth.pk for cloth in party]
    answer = as_seamstress.post(ADDRESS, {"of": keys})
    assert answer.status_code == 302
    page = text(as_seamstress.get(answer.url))
    assert "Waiting for another job" in page and '<noscript><meta http-equiv="refresh"' in page
    as_seamstress.post(reverse("orders:stop-together"), {"of": keys})
    assert 'name="of"' in text(as_seamstress.get(answer.url))


@pytest.mark.parametrize("one", ["too few", "two widths"])
def test_what_cannot_be_laid_together_is_said(party, as_owner, one):
    keys = [party[0].pk] if one == "too few" else [cloth.pk for cloth in party]
    Cloth.objects.filter(pk=party[0].pk).update(width_mm=900)
    answer = as_owner.post(ADDRESS, {"of": keys})
    assert answer.status_code == 422 and 'role="alert"' in text(answer)


def test_one_way_for_one_order_is_one_way_for_all(party, hester):
    Cloth.objects.filter(pk=party[2].pk).update(one_way=True)
    lay = laid(together.chosen([str(cloth.pk) for cloth in party]), hester)["lay"]
    assert {placed["turned"] for placed in lay["placed"]} == {0}


def together_address(cloths) -> str:
    return ADDRESS + "?" + "&".join(f"of={cloth.pk}" for cloth in cloths)


@given(st.integers(1, 400), st.lists(st.floats(1, 1e6), min_size=1, max_size=12))
def test_shares_add_up_and_none_is_off_by_a_step(total, areas):
    given_areas = {str(n): area for n, area in enumerate(areas)}
    shares = shares_of(total, given_areas)
    assert sum(shares.values()) == total
    assert all(abs(shares[n] - total * area / sum(areas)) < 1 + 1e-6 for n, area in given_areas.items())
