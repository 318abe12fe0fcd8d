"""Work given out: gone, due back, owed; Today says what is not back."""

from datetime import timedelta

from django.utils import timezone

from orders.models import OutWork
from tests.orders.book import fresh, make_order
from tests.orders.pages import text, url


def in_days(number: int) -> str:
    return (timezone.localdate() + timedelta(days=number)).isoformat()


def given(**changes) -> dict:
    return {"what": "Beading of the bodice", "to_whom": "Bead room, Quay Street", "gone_on": in_days(-9), "due_back": in_days(-2), "cost": "85"} | changes


def test_what_is_not_back_by_its_day_is_on_the_order_and_on_today(as_owner, as_apprentice, hester):
    order = make_order(hester)
    as_owner.post(url("give-out", order.number), given())
    page = text(as_owner.get(order.get_absolute_url()))
    assert "Due back from Bead room, Quay Street on" in page and ": Beading of the bodice." in page and "£85 owed" in page
    assert "not back" in text(as_owner.get("/"))
    assert "£85" not in text(as_apprentice.get(order.get_absolute_url()))


def test_back_and_paid_it_is_no_concern_and_stays_on_the_order(as_owner, hester):
    order = make_order(hester)
    as_owner.post(url("give-out", order.number), given())
    out = OutWork.objects.get()
    as_owner.post(url("out-back", order.number, out.pk))
    assert OutWork.objects.get().back_on == timezone.localdate() and fresh(order).not_back == []
    as_owner.post(url("out-work", order.number, out.pk), given(back_on=in_days(0), paid_on=in_days(0), version=out.version + 1))
    page = text(as_owner.get(order.get_absolute_url()))
    assert "£85 paid" in page and "Due back from" not in page
    told = {(change.thing, change.label) for change in order.changes.all()}
    assert told >= {("out-work Beading of the bodice", label) for label in ("given out", "back", "paid")}


def test_what_is_owed_for_it_is_on_the_page_of_money_until_it_is_paid(as_owner, hester):
    order = make_order(hester)
    as_owner.post(url("give-out", order.number), given(due_back=in_days(3)))
    as_owner.post(url("give-out", order.number), given(what="Pleating", due_back=in_days(30), cost="40"))
    page = text(as_owner.get("/money/"))
    assert "<b>£125</b> is to be paid for work given out, <b>£85</b> of it this week" in page
    assert f"Pleating for {order.client.name}, S-001" in page
    for out in OutWork.objects.all():
        as_owner.post(url("out-work", order.number, out.pk), given(what=out.what, back_on=in_days(0), paid_on=in_days(0), version=out.version))
    assert "work given out" not in text(as_owner.get("/money/"))


def test_due_back_after_collection_is_said_at_once(as_owner, hester):
    order = make_order(hester)
    as_owner.post(url("give-out", order.number), given(due_back=in_days(20)))
    assert "back too late" in text(as_owner.get("/"))


def test_days_that_cant_be_are_said_and_what_was_typed_stays(as_seamstress, hester):
    order = make_order(hester)
    refused = as_seamstress.post(url("give-out", order.number), given(due_back=in_days(-10), back_on=in_days(3), paid_on=in_days(0), cost=""))
    page = text(refused)
    assert refused.status_code == 422 and not OutWork.objects.exists()
    assert all(each in page for each in ("That is before it goes", "has not come yet", "Write what was paid", "Bead room, Quay Street"))
