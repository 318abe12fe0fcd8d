"""Messages filled in and opened elsewhere; an order called off with what is kept; the same again."""

from datetime import timedelta
from decimal import Decimal
from urllib.parse import parse_qs, unquote, urlsplit

import pytest
from django.urls import reverse
from django.utils import timezone

from orders.models import MessageText, Order
from orders.money import payments
from orders.stages import Stage
from orders.texts import PLACES, READY, filled, mail_link, sms_link, unknown_in
from tests.clients.book import make_client
from tests.orders.book import cut_order, fresh, garment_of, make_order


def url(name: str, *args) -> str:
    return reverse(f"orders:{name}", args=args)


def text(answer) -> str:
    return answer.content.decode()


def test_every_ready_text_names_only_what_can_be_filled_in():
    assert [unknown_in(each.text) for each in READY] == [[] for _ in READY]
    assert all("{" not in filled(each.text, dict.fromkeys(PLACES, "x")) for each in READY)


def test_a_text_comes_filled_in_and_is_opened_in_the_phones_own_messages(as_seamstress, hester):
    order = make_order(hester, make_client("Ọláyinká Adéfarẹ", phone="+44 7700 900835"))
    answer = as_seamstress.get(url("message", order.number), {"text": "deposit"})
    assert "Hello Ọláyinká, the deposit for your bustier gown (S-001) is £240." in answer.context["written"]
    link = urlsplit(answer.context["sms"])
    assert (link.scheme, link.path) == ("sms", "+447700900835")
    assert parse_qs(link.query)["body"] == [answer.context["written"]]
    assert answer.context["sms"].replace("&", "&amp;") in text(answer)


def test_a_changed_text_is_what_the_links_then_hold(as_owner, hester):
    order = make_order(hester)
    typed = "Come at three & bring “both” shoes?\nHester"
    answer = as_owner.post(url("message", order.number), {"written": typed})
    assert parse_qs(urlsplit(answer.context["sms"]).query)["body"] == [typed]
    assert unquote(answer.context["mail"].split("body=")[1]) == typed.replace("\n", "\r\n")  # RFC 6068


def test_what_is_not_there_yet_is_said_and_never_left_empty(as_owner, hester):
    order = make_order(hester, collect_on=None, price=None, deposit=None)
    assert "[no fitting booked]" in as_owner.get(url("message", order.number), {"text": "fitting"}).context["written"]
    assert "[write the amount here]" in as_owner.get(url("message", order.number), {"text": "balance"}).context["written"]


def test_links_are_escaped_whatever_is_typed():
    assert sms_link("07700 900418", "a&b=c#d+e") == "sms:07700900418?body=a%26b%3Dc%23d%2Be"
    assert mail_link("A & B", "x") == "mailto:?subject=A%20%26%20B&body=x"


def test_the_workshops_own_texts_are_kept_and_a_place_that_is_not_there_is_refused(as_seamstress, hester):
    refused = as_seamstress.post(url("texts"), {"title": "Thanks", "text": "Hello {nmae}"})
    assert refused.status_code == 422 and "There is nothing for {nmae}." in text(refused)
    as_seamstress.post(url("texts"), {"title": "Thanks", "text": "Thank you, {name}."})
    own = MessageText.objects.get()
    order = make_order(hester)
    assert as_seamstress.get(url("message", order.number), {"text": f"own-{own.pk}"}).context["written"] == "Thank you, Ines."
    as_seamstress.post(url("remove-text", own.pk))
    assert not MessageText.objects.exists()


def paid(hester, amount=240) -> Order:
    order = make_order(hester)
    payments.take(order=order, kind="deposit", amount=Decimal(amount), method="cash", by=hester, taken_on=timezone.localdate())
    return order


def test_the_owner_keeps_part_of_the_deposit_and_the_rest_goes_back(as_owner, hester):
    order = paid(hester)
    assert 'name="kept" value="240"' in text(as_owner.get(url("call-off", order.number)))
    page = text(as_owner.post(url("call-off", order.number), {"why": "moved away", "kept": "100", "method": "transfer"}, follow=True))
    order = fresh(order)
    assert (order.stage, order.kept, order.paid, order.balance) == (Stage.CALLED_OFF, 100, 100, 0)
    assert order.payments.get(kind="refund").amount == -140
    assert "£140 is given back." in page


def test_a_called_off_orders_price_adds_up_and_its_days_are_not_to_come(as_owner, hester):
    """Kept 100 less what was paid 240, and given back 140, is nothing; the money is the payer's, and goes back to her."""
    order = paid(hester)
    order.paid_by = make_client("Marit Solheim")
    order.keep("paid_by", by=hester)
    assert 'by <span class="name">Marit Solheim</span>' in text(as_owner.get(url("call-off", order.number)))
    assert 'give it back to <span class="name">Marit Solheim</span>' in text(as_owner.get(url("refund", order.number)))
    as_owner.post(url("call-off", order.number), {"why": "moved away", "kept": "100", "method": "transfer"})
    assert order.payments.get(kind="refund").why == "to Marit Solheim; moved away"
    page = text(as_owner.get(url("show", order.number)))
    assert "Kept for what was done</th><td>£100</td>" in page
    assert "<b>Called off</b>" in page and "<b>Collection</b>" not in page and "<b>To cut</b>" not in page


def test_more_than_is_paid_cannot_be_kept_and_nothing_changes(as_owner, hester):
    order = paid(hester)
    answer = as_owner.post(url("call-off", order.number), {"why": "moved away", "kept": "300", "method": "cash"})
    assert answer.status_code == 422 and "£240 is paid, so £300 can" in text(answer)
    assert (fresh(order).stage, fresh(order).paid) == (Stage.BOOKED, 240)


def test_a_seamstress_calls_off_and_leaves_the_money_to_the_owner(as_seamstress, hester):
    order = paid(hester)
    assert 'name="kept"' not in text(as_seamstress.get(url("call-off", order.number)))
    as_seamstress.post(url("call-off", order.number), {"why": "moved away", "kept": "0"})
    assert (fresh(order).stage, fresh(order).paid, fresh(order).balance) == (Stage.CALLED_OFF, 240, 0)


@pytest.mark.parametrize("share, kept", [("100", "240"), ("50", "120")])
def test_what_is_usually_kept_is_the_houses_share_of_the_deposit(as_owner, hester, salt_lane, share, kept):
    salt_lane.bench = {"kept_share": share}
    salt_lane.save()
    assert f'name="kept" value="{kept}"' in text(as_owner.get(url("call-off", paid(hester, 300).number)))


def test_the_same_again_takes_garment_choices_and_cloths_along_and_no_draft(as_seamstress, hester):
    order = cut_order(hester)
    day = (timezone.localdate() + timedelta(days=90)).isoformat()
    as_seamstress.post(url("copy", order.number), {"collect_on": day, "occasion_on": day})
    new = Order.objects.get(copied_from=order)
    old, made = garment_of(order), garment_of(new)
    assert (made.kind, made.options, made.title, made.draft, made.cut_draft) == (old.kind, old.options, old.title, None, None)
    assert [cloth.name for cloth in new.cloths.all()] == [cloth.name for cloth in order.cloths.all()]
    assert not any(cloth.is_in for cloth in new.cloths.all())
    assert (new.stage, new.price, new.collect_on.isoformat()) == (Stage.ASKED, None, day)
