"""Measured again after the cut: the answer stands on Today and in the list of orders until the owner has settled it."""

import pytest
from django.utils import timezone

from orders.demo.cast import CLIENTS
from orders.garment import after_cut
from orders.models import Garment
from tests.clients.book import measured
from tests.orders.book import cut_order, drafted_order, garment_of
from tests.orders.garment.test_comparing import grown, page


@pytest.fixture
def cut(hester):
    return cut_order(hester)


def settle(browser, order, measuring):
    return browser.post(f"/orders/{order.number}/garment/{garment_of(order).pk}/settled/", {"measuring": measuring.pk}, follow=True)


@pytest.mark.parametrize(("more", "said", "flag"), [(0.625, "The let-out takes it.", "let-out takes it"), (4.5, " again: ", "cut again")])
def test_today_and_the_list_say_whether_the_let_out_takes_it_or_what_to_cut_again(as_seamstress, cut, hester, more, said, flag):
    grown(cut, hester, waist=more)
    told = as_seamstress.get("/").content.decode()
    assert "after it was cut" in told and said in told and flag in told
    assert f"/orders/{cut.number}/garment/{garment_of(cut).pk}/compare/" in told
    assert flag in as_seamstress.get("/orders/").content.decode()


def test_less_than_the_tapes_noise_is_not_said(as_seamstress, cut, hester):
    grown(cut, hester, waist=0.25)
    assert "after it was cut" not in as_seamstress.get("/").content.decode()


def test_the_owner_settles_it_and_then_nothing_is_said_until_she_is_measured_again(as_owner, cut, hester):
    newest = grown(cut, hester, waist=4.5)
    assert "Settled: say no more of it" in page(as_owner, cut)
    assert "Settled" in settle(as_owner, cut, newest).content.decode()
    assert "after it was cut" not in as_owner.get("/").content.decode()
    assert "Cut these" not in page(as_owner, cut)
    grown(cut, hester, waist=5)
    assert "Cut these" in page(as_owner, cut)


def test_a_seamstress_is_not_offered_to_settle_it_and_can_not(as_seamstress, cut, hester):
    newest = grown(cut, hester, waist=4.5)
    assert "Settled: say no more of it" not in page(as_seamstress, cut)
    settle(as_seamstress, cut, newest)
    assert Garment.objects.get(order=cut).kept_past_id is None


def test_before_it_is_cut_there_is_nothing_to_settle(as_owner, hester):
    order = drafted_order(hester)
    newest = measured(order.client, hester, on=timezone.localdate(), **CLIENTS["ines"].written_before())
    assert "is not cut yet" in settle(as_owner, order, newest).content.decode()


def test_of_more_orders_than_can_be_drafted_while_one_waits_the_list_says_only_that_they_were_measured(as_owner, cut, hester, monkeypatch):
    monkeypatch.setattr(after_cut.Asked, "__init__", lambda self: self.__dict__.update(left=0, found={}))
    grown(cut, hester, waist=4.5)
    assert "Open it to see whether the let-out takes it" in as_owner.get("/").content.decode()
