"""The thick book for measuring: its numbers, its repeatability, and that it is never put among real people."""

import pytest
from django.core.management import CommandError, call_command
from django.utils import timezone

from clients.models import Client
from orders.demo.filling import NotEmpty, fill
from orders.models import Fitting, Garment, Order, Payment
from orders.money.receipts import without_number
from tests.clients.book import make_client


def test_five_orders_and_ten_payments_a_client_and_two_hundred_open(hester, as_owner):
    done = fill(120, today=timezone.localdate(), by=hester)
    assert (done.clients, done.orders, done.fittings, done.payments) == (120, 600, 1200, 1200)
    assert (Client.objects.count(), Garment.objects.count(), Fitting.objects.count(), Payment.objects.count()) == (120, 600, 1200, 1200)
    assert Order.objects.in_hand().count() == 200
    assert not [order for order in Order.objects.all() if order.balance < 0]
    assert not Order.objects.paid_otherwise().exists() and not without_number().exists()
    for address in ("/", "/orders/", "/orders/calendar/", "/clients/"):
        assert as_owner.get(address).status_code == 200


def test_every_number_is_one_kept_for_drama(hester):
    fill(120, today=timezone.localdate(), by=hester)
    assert {client.phone[:9] for client in Client.objects.all()} == {"07700 900"}


def test_a_book_with_somebody_in_it_is_left_alone(hester):
    make_client()
    with pytest.raises(NotEmpty):
        fill(120, today=timezone.localdate(), by=hester)
    with pytest.raises(CommandError, match="in this book already"):
        call_command("fill", clients=120)
    assert (Client.objects.count(), Order.objects.count()) == (1, 0)
