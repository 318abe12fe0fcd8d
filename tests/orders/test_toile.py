"""A toile where one is wanted: fitted before the cloth is cut. The sign-off waits for it, and is never blocked."""

from datetime import timedelta

from django.utils import timezone

from orders.booking import book_fitting
from orders.models import Order
from orders.paper.printing import spoken_against
from orders.work import cutting
from tests.orders.book import drafted_order, fresh
from tests.orders.pages import text, url


def with_toile(by) -> Order:
    order = drafted_order(by)
    order.toile_wanted = True
    order.keep("toile_wanted", by=by)
    return fresh(order)


def test_it_is_asked_for_with_the_promise(as_owner, hester):
    order = drafted_order(hester)
    days = {"collect_on": order.collect_on.isoformat(), "cut_on": order.cut_on.isoformat(), "price": "580", "deposit": "240"}
    as_owner.post(url("promise", order.number), days | {"toile_wanted": "on", "version": order.version})
    assert fresh(order).toile_wanted
    page = text(as_owner.get(order.get_absolute_url()))
    assert "toile fitted" in page and "no fitting of it is booked" in page and "Next: Deposit not in" in page


def test_a_booked_fitting_of_it_waits_and_a_done_one_ends_the_matter(as_owner, hester):
    order, today = with_toile(hester), timezone.localdate()
    as_owner.post(url("add-fitting", order.number), {"day": (today + timedelta(days=1)).isoformat(), "time": "10:00", "is_toile": "on"})
    fitting = order.fittings.get()
    assert fitting.is_toile and "Cut after it." in text(as_owner.get(order.get_absolute_url()))
    assert "fitting, of the toile" in text(as_owner.get(order.get_absolute_url()))
    book_fitting(order=order, at=timezone.now(), booked_by=hester, is_toile=True).mark_done(by=hester, today=today)
    assert not fresh(order).toile_waits and "Cut after it." not in text(as_owner.get(order.get_absolute_url()))


def test_it_is_printed_before_you_cut_and_blocks_nothing(hester):
    order = with_toile(hester)
    assert "The toile is not fitted yet. Fit it before you cut." in spoken_against(order)
    cutting.sign_off(order=order, by=hester)
    cutting.cut(order=fresh(order), by=hester, today=timezone.localdate())
    assert not fresh(order).toile_waits
