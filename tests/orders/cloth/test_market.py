"""The market list: what all open orders want, together, ticked off, in few questions."""

from decimal import Decimal

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.utils import timezone

from orders.cloth.market import market_list
from orders.cloth.shelf import put_down
from orders.models import Bought, Cloth, Garment, Order
from tests.clients.book import make_client
from tests.orders.book import drafted_order, garment_of, make_order
from tests.orders.test_queries import MOST, add_orders, asked, many

pytestmark = pytest.mark.django_db
ZIP = {"item": "zip", "amount": 558.8, "unit": "mm", "count": 1}
THREAD = {"item": "thread", "amount": 2, "unit": "reels", "count": 1}
HOOK = {"item": "hook and eye above the zip", "amount": 1, "unit": "pieces", "count": 1}


@pytest.fixture
def two(hester) -> list[Order]:
    """Two orders that want a zip of one length, thread and a hook, by what their drafts said."""
    orders = [make_order(hester), make_order(hester, kind="skirt")]
    for order in orders:
        order.garments.update(materials=[ZIP, THREAD, HOOK])
        order.cloths.all().delete()
    return orders


def lines(unit="in") -> dict:
    return {line.name: line for group in market_list(unit).groups for line in group.lines}


def test_the_list_holds_what_the_drafts_of_all_open_orders_ask_for(hester):
    order = drafted_order(hester)
    materials = garment_of(order).draft.result["materials"]
    found = {want.what.lower() for group in market_list("in").groups if group.key != "cloth" for line in group.lines for want in line.wants}
    assert found == {each["item"] for each in materials if "width" not in each["item"]}


def test_like_things_of_several_orders_are_one_line_with_their_sum(two):
    found = lines()
    assert (found["Zip, 22\xa0in"].total, found["Thread"].total, found["Hook and eye above the zip"].total) == ("2", "4 reels", "2")
    assert found["Thread"].numbers == ["S-001", "S-002"]


def test_what_is_to_match_the_cloth_stands_with_its_name_where_it_has_one(two):
    for order, name in zip(two, ("rose crepe", "outside cloth"), strict=True):
        Cloth.objects.create(order=order, name=name, used_for=["shell"], width_written="54 in", width_mm=1372)
    found = lines()
    assert found["Thread"].numbers == ["S-001 rose crepe", "S-002"]
    assert found["Hook and eye above the zip"].numbers == ["S-001", "S-002"]
    assert "Rose crepe, 54 in wide" in found


def test_a_line_is_ticked_and_unticked_by_whoever_goes_to_the_market(as_apprentice, two):
    line = lines()["Thread"]
    as_apprentice.post("/orders/market/tick/", {"line": "Thread", "orders": line.ticks, "bought": "yes", "group": "thread"})
    assert lines()["Thread"].is_bought and Bought.objects.count() == 2
    as_apprentice.post("/orders/market/tick/", {"line": "Thread", "orders": line.ticks, "bought": "yes", "group": "thread"})  # pressed twice
    assert Bought.objects.count() == 2
    as_apprentice.post("/orders/market/tick/", {"line": "Thread", "orders": lines()["Thread"].ticks, "bought": "no", "group": "thread"})
    assert not lines()["Thread"].is_bought


def test_what_a_new_draft_asks_for_anew_is_to_be_bought_again(as_apprentice, two):
    as_apprentice.post("/orders/market/tick/", {"line": "Zip, 22\xa0in", "orders": lines()["Zip, 22\xa0in"].ticks, "bought": "yes"})
    two[0].garments.update(materials=[ZIP | {"amount": 609.6}])
    found = lines()
    assert found["Zip, 22\xa0in"].is_bought and not found["Zip, 24\xa0in"].is_bought


def test_cloth_is_wanted_by_what_the_lay_says_is_short_and_a_clients_own_is_not(hester):
    order = drafted_order(hester)
    drafts = [garment_of(order).draft_id]
    for name, change in (("lining", {"whose": "client"}), ("outside cloth", {"on_hand_mm": 2000, "on_hand_written": "2 m"})):
        order.cloths.filter(name=name).update(**change)
    shell = order.cloths.get(name="outside cloth")
    Cloth.objects.filter(pk=shell.pk).update(needs_mm=Decimal("2914.4"), laid_for=shell.laid_key(drafts))
    cloth = next(group for group in market_list("in").groups if group.key == "cloth")
    totals = {line.name.partition(",")[0]: line.total for line in cloth.lines}
    assert totals == {"Outside cloth": "1\xa0yd", "Fusible stay": "no lay yet", "Wadding": "no lay yet"}


def test_a_cloths_line_says_its_width_what_no_lay_has_said_and_what_lies_free(as_apprentice, hester):
    order, undrafted = drafted_order(hester), make_order(hester, make_client("Marit Solheim"))
    Cloth.objects.filter(name="outside cloth").update(width_written="54 in")
    shell = order.cloths.get(name="outside cloth")
    Cloth.objects.filter(pk=shell.pk).update(needs_mm=Decimal("914.4"), laid_for=shell.laid_key([garment_of(order).draft_id]))
    put_down(
        name="Outside cloth", received_on=timezone.localdate(), by=hester, what="received", width_written="45 in", width_mm=1143, length_written="2 yd",
        length_mm=Decimal("1828.8"),
    )  # fmt: skip
    line = lines()["Outside cloth, 54 in wide"]
    assert line.total == f"1\xa0yd, without {undrafted.number}: no lay yet"
    assert line.lying == "Lies free on the shelf: 2\xa0yd, 45 in wide"
    assert line.ticks == str(order.pk)
    page = as_apprentice.get("/orders/market/").content.decode()
    assert line.lying in page and 'value="Outside cloth, 54 in wide"' in page and 'value="Lining' not in page


def test_nothing_is_bought_for_what_is_sewn_or_called_off(two):
    Order.objects.filter(pk=two[0].pk).update(stage="sewn")
    Order.objects.filter(pk=two[1].pk).update(stage="called_off", is_open=False)
    assert market_list("in").groups == []


def test_a_tick_that_cannot_be_read_changes_nothing(as_apprentice, two):
    for sent in ({"line": "Busk", "orders": "1"}, {"line": "Thread", "orders": "no order 999999"}, {}):
        as_apprentice.post("/orders/market/tick/", sent)
    assert Bought.objects.count() == 0


def test_what_another_order_came_to_want_meanwhile_is_not_ticked_unseen(as_apprentice, two):
    as_apprentice.post("/orders/market/tick/", {"line": "Thread", "orders": str(two[0].pk), "bought": "yes"})
    assert [want.order.pk for want in lines()["Thread"].open] == [two[1].pk]


def test_the_list_reads_no_drawing_and_asks_as_often_for_200_orders_as_for_10(as_apprentice, hester):
    first = many(hester, 10)
    few = asked(as_apprentice, "/orders/market/")
    add_orders(first, garment_of(first), 190, hester, timezone.localdate())
    Garment.objects.update(materials=[ZIP, THREAD, HOOK])
    with CaptureQueriesContext(connection) as seen:
        as_apprentice.get("/orders/market/")
    assert len(seen) == few <= MOST
    assert not [query["sql"] for query in seen if '"result"' in query["sql"]]
