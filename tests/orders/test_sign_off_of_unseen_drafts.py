"""What the owner signs off is what the owner has looked at: a draft made meanwhile is not cut on that word."""

import re

import pytest

from clients.models import Measuring
from orders.demo.cast import CLIENTS
from orders.garment import making_draft
from orders.versions import ChangedMeanwhile
from orders.work import cutting
from tests.clients.book import measured
from tests.orders.book import drafted_order, fresh, garment_of


def measured_again(order, by) -> Measuring:
    """The same client a little later, half an inch longer from waist to hip."""
    written = CLIENTS["ines"].written_before() | {"waist_to_hip": "8 1/2"}
    return measured(order.client, by, **written)


def test_a_sign_off_given_while_a_new_draft_is_drawn_is_not_for_that_draft(hester, dunya, monkeypatch):
    order = drafted_order(hester)
    looked_at = garment_of(order).draft_id
    drawn = making_draft.drawn

    def slowly(file):
        cutting.sign_off(order=fresh(order), by=hester)
        return drawn(file)

    garment, newer = garment_of(order), measured_again(order, dunya)
    monkeypatch.setattr(making_draft, "drawn", slowly)
    with pytest.raises(ChangedMeanwhile):
        making_draft.make_draft(garment=garment, by=dunya, measuring=newer)
    assert garment_of(order).draft_id == looked_at and fresh(order).is_signed_off


def test_a_sign_off_from_a_page_of_an_older_draft_is_asked_again(hester, as_owner, dunya):
    order = drafted_order(hester)
    page = as_owner.get(f"/orders/{order.number}/").content.decode()
    form = re.search(rf'<form[^>]*action="/orders/{order.number}/sign-off/".*?</form>', page, re.S)[0]
    shown = dict(re.findall(r'name="([^"]+)" value="([^"]*)"', form))
    making_draft.make_draft(garment=garment_of(order), by=dunya, measuring=measured_again(order, dunya))
    answer = as_owner.post(f"/orders/{order.number}/sign-off/", shown, follow=True)
    assert not fresh(order).is_signed_off
    assert f"{order.number} was drafted again after this page was opened." in answer.content.decode()


def test_the_draft_that_was_shown_is_signed_off(hester, as_owner):
    order = drafted_order(hester)
    as_owner.post(f"/orders/{order.number}/sign-off/", {"draft": garment_of(order).draft_id})
    assert fresh(order).is_signed_off


@pytest.mark.parametrize("sent", [{}, {"draft": "nonsense"}, {"draft": "²"}])
def test_a_sign_off_that_names_no_draft_signs_nothing(hester, as_owner, sent):
    order = drafted_order(hester)
    as_owner.post(f"/orders/{order.number}/sign-off/", sent)
    assert not fresh(order).is_signed_off
