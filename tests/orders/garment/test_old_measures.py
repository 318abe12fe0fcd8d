"""Measures that are no longer good are marked where an order uses them, until it is cut."""

from datetime import timedelta

from django.utils import timezone

from clients.models import Measuring
from orders.work import cutting
from tests.orders.book import signed_order
from workshop.models import Workshop


def test_an_order_marks_measures_older_than_the_house_allows_until_it_is_cut(as_owner, hester):
    order = signed_order(hester)
    Measuring.objects.update(taken_on=timezone.localdate() - timedelta(days=60))
    flag = '<span class="flag-wait">60 days old</span>'
    assert flag not in as_owner.get(order.get_absolute_url()).content.decode()
    Workshop.objects.update(good_for_days=59)
    assert flag in as_owner.get(order.get_absolute_url()).content.decode()
    cutting.cut(order=order, by=hester, today=timezone.localdate())
    assert flag not in as_owner.get(order.get_absolute_url()).content.decode()
