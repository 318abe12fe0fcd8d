"""What an order's page keeps of its drawings in memory is never shown once it is something else, or to somebody else."""

from datetime import timedelta
from decimal import Decimal
from html import unescape

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.utils import timezone

from orders.garment import choosing, shown
from orders.garment.making_draft import make_draft
from orders.models import Garment
from orders.money.payments import take
from orders.whole_order import whole_order
from tests.cast import browser_of
from tests.orders.book import drafted_order, fresh, garment_of, make_order
from tests.orders.pages import text, url
from workshop.models import Workshop

pytestmark = pytest.mark.django_db


def page_of(browser, order) -> str:
    return text(browser.get(url("show", order.number)))


def box_of(page: str, rule: str) -> tuple[str, str]:
    """What stands in the box of a garment's own rule, and the help below it."""
    box, _, below = page.partition(f' name="rule_{rule}"')[2].partition(">")
    return box.partition('value="')[2].partition('"')[0], below.partition('_helptext">')[2].partition("<")[0]


def pieces_in(page: str) -> list[str]:
    return [part.partition("</figure>")[0] for part in page.split('<figure class="order-pieces')[1:]]


@pytest.fixture
def made(monkeypatch) -> list:
    """What was drawn anew, oldest first; nothing is kept before the test."""
    monkeypatch.setattr(choosing, "_kept", type(choosing._kept)(8))
    monkeypatch.setattr(shown, "_drawn", type(shown._drawn)(8))
    drawn, anew = choosing.drawn, []
    monkeypatch.setattr(choosing, "drawn", lambda form: anew.append(form.garment.pk) or drawn(form))
    return anew


def test_a_payment_is_on_the_page_as_soon_as_it_is_taken(as_owner, hester):
    order = make_order(hester)
    assert "£100" not in page_of(as_owner, order)
    take(order=order, kind=None, amount=Decimal(100), method="cash", by=hester, taken_on=timezone.localdate())
    page = page_of(as_owner, order)
    assert "£480" in page  # the balance of £580
    assert "£140 of its £240 is missing" in page


def test_orders_with_the_same_choices_share_what_is_drawn_of_them_and_nothing_else(as_owner, hester, made):
    first, second = make_order(hester), make_order(hester)
    pages = [page_of(as_owner, order) for order in (first, second, first)]
    assert made == [garment_of(first).pk]
    assert pages[0].count(f'id="garment-{garment_of(first).pk}"') == pages[1].count(f'id="garment-{garment_of(second).pk}"') == 1
    assert first.number not in pages[1]


def test_a_choice_that_is_kept_is_the_one_that_is_ticked(as_owner, hester, made):
    garment = garment_of(make_order(hester))
    for edge in ("straight", "sweetheart", "straight"):
        Garment.objects.filter(pk=garment.pk).update(options=garment.options | {"top_edge": edge})
        inputs = [part.partition(">")[0] for part in page_of(as_owner, garment.order).split("<input")[1:]]
        [ticked] = [each for each in inputs if 'name="top_edge"' in each and "checked" in each]
        assert f'value="{edge}"' in ticked
    assert len(made) == 2


def test_a_rule_of_the_garment_or_of_the_house_and_another_unit_are_seen_at_once(as_owner, hester, made):
    order = make_order(hester)
    assert box_of(page_of(as_owner, order), "let_out") == ("", "house rule: 1\u00a0in")
    Workshop.objects.update(house_rules={"let_out": "1 1/2"})
    assert box_of(page_of(as_owner, order), "let_out") == ("", "house rule: 1 1/2")
    Garment.objects.filter(order=order).update(rules={"let_out": "3/4"})
    assert box_of(page_of(as_owner, order), "let_out") == ("3/4", "house rule: 1 1/2")
    Workshop.objects.update(unit="cm", house_rules={})
    assert "In centimetres." in page_of(as_owner, order)


def test_what_was_sent_and_not_accepted_is_shown_as_typed_and_never_kept(as_owner, hester, made):
    order = make_order(hester)
    garment = garment_of(order)
    sent = {key.replace(".", "_"): value for key, value in garment.options.items()} | {"version": garment.version, "rule_let_out": "a lot"}
    refused = as_owner.post(url("garment", order.number, garment.pk), sent)
    assert refused.status_code == 422
    assert box_of(text(refused), "let_out")[0] == "a lot"
    assert box_of(page_of(as_owner, order), "let_out")[0] == ""


def test_a_new_draft_is_drawn_and_a_kept_one_is_not_read_again(as_owner, hester, made):
    order = drafted_order(hester)
    page = page_of(as_owner, order)
    assert pieces_in(page)
    with CaptureQueriesContext(connection) as seen:
        assert pieces_in(page_of(as_owner, order)) == pieces_in(page)
    [of_garments] = [query["sql"] for query in seen if "orders_garment" in query["sql"] and "measuring" in query["sql"]]
    assert garment_of(order).draft.digest in of_garments  # told, so that its result is left out
    garment = garment_of(order)
    garment.options = garment.options | {"top_edge": "sweetheart"}
    garment.keep("options", by=hester)
    make_draft(garment=garment_of(order), by=hester)
    assert "Pieces, checks and steps of draft 2" in page_of(as_owner, order)
    assert pieces_in(page_of(as_owner, order)) != pieces_in(page)


def test_a_drawing_that_went_meanwhile_is_drawn_again(as_owner, hester, made, monkeypatch):
    order = drafted_order(hester)
    page = page_of(as_owner, order)
    whole = whole_order(order.number, with_money=False, drawn=shown.drawn_already())
    monkeypatch.setattr(shown, "_drawn", type(shown._drawn)(8))
    [garment] = whole.garments
    for group in shown.drawn_of(garment.sheet_draft).pieces:
        assert all(unescape(piece) in page for piece in group.drawn)


def test_each_person_and_each_day_has_its_own_page(as_owner, as_apprentice, hester, monkeypatch):
    order = make_order(hester)
    assert "£580" in page_of(as_owner, order)
    for_pim = page_of(as_apprentice, order)
    assert "£" not in for_pim
    assert "Draft it" not in for_pim
    assert "days late" not in page_of(as_owner, order)
    past = fresh(order).collect_on + timedelta(days=2)
    monkeypatch.setattr(timezone, "localdate", lambda *given: past)
    assert "2 days late" in page_of(as_owner, order)


def test_two_people_one_after_the_other_send_their_own_tokens(hester, dunya):
    order = make_order(hester)
    pages = [page_of(browser_of(person), order) for person in (hester, dunya)]
    tokens = [{part.partition('"')[0] for part in page.split('name="csrfmiddlewaretoken" value="')[1:]} for page in pages]
    assert [len(each) for each in tokens] == [1, 1]
    assert tokens[0] != tokens[1]
