"""A client's own cloth that is still here after she collected: Today says so, with what to do, in no question of its own."""

import pytest
from django.utils import timezone

from orders.after.behind import leftovers
from orders.cloth.shelf import end, put_down, put_right
from orders.models import Order, ShelfCloth
from tests.orders.book import make_order
from tests.orders.pages import text
from tests.orders.test_queries import MOST, asked, many

pytestmark = pytest.mark.django_db


@pytest.fixture
def over(hester) -> Order:
    order = make_order(hester)
    Order.objects.filter(pk=order.pk).update(stage="collected", is_open=False, closed_on=timezone.localdate())
    return order


def length(order, by, **values) -> ShelfCloth:
    given = {"name": "rose crepe", "place": "blue box", "width_written": "54 in", "width_mm": 1372, "length_written": "27 in", "length_mm": 686}
    return put_down(by=by, what="received", order=order, client=order.client, whose="client", received_on=timezone.localdate(), **given | values)


def test_her_cloth_is_listed_with_where_it_is_given_back_or_taken_over(as_apprentice, over, hester):
    held = length(over, hester)
    length(make_order(hester, over.client), hester, name="ivory satin")  # of an order in hand
    today = text(as_apprentice.get("/"))
    assert "Clients’ own, still here" in today and "rose crepe, ¾ yd, blue box. Collected" in today.replace("\u00a0", " ") and "ivory satin" not in today
    assert f'<a href="/orders/shelf/{held.pk}/">Give it back, or take it over' in today
    end(on_shelf=held, how="back", by=hester)
    other = length(over, hester)
    assert "rose crepe" in text(as_apprentice.get("/"))
    put_right(on_shelf=other, client=None, by=hester)
    assert "still here" not in text(as_apprentice.get("/"))


def test_what_else_was_left_over_is_listed_until_it_is_given_back(as_owner, as_apprentice, over):
    Order.objects.filter(pk=over.pk).update(leftovers="3 buttons, a strip of lace")
    today = text(as_owner.get("/"))
    assert "3 buttons, a strip of lace. Collected" in today and f'<a href="/orders/{over.number}/leftovers/">Give it back<' in today
    assert "leftovers/" not in text(as_apprentice.get("/"))
    Order.objects.filter(pk=over.pk).update(leftovers_on=timezone.localdate())
    assert "still here" not in text(as_owner.get("/"))


def test_it_costs_today_no_question_and_what_is_left_over_is_found_by_its_index(as_owner, over, hester):
    many(hester, 5)
    few = asked(as_owner, "/")
    for _ in range(30):
        length(over, hester)
    assert asked(as_owner, "/") == few <= MOST
    assert "order_leftovers_here" in leftovers().explain()
