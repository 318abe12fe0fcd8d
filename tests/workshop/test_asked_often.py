"""Questions put into SQL once and asked for one after the other."""

from decimal import Decimal

import pytest
from django.db.models import F

from clients.models import Client, Measuring, Reading
from orders.models import Order
from tests.clients.book import make_client, measured
from tests.orders.book import make_order
from workshop.asked_often import AskedOften, RowsAskedOften


def test_each_gets_an_answer_of_their_own(db):
    names = AskedOften(lambda pk: Client.objects.filter(pk=pk).values_list("name"))
    ines, marit = make_client(), make_client("Marit Solheim")
    assert (names(ines.pk), names(marit.pk), names(0)) == ([(ines.name,)], [("Marit Solheim",)], [])


def test_a_question_that_names_something_else_last_is_refused(db):
    with pytest.raises(ValueError, match="last value"):
        AskedOften(lambda pk: Client.objects.filter(pk=pk).exclude(name="nobody").values_list("name"))(1)


def test_models_come_with_what_the_question_brings(hester):
    named = RowsAskedOften(lambda name: Measuring.objects.filter(client__name=name).select_related("client").annotate(twice=F("client__id") * 2))
    ines = make_client()
    measured(ines, hester, bust="36")
    measured(make_client("Marit Solheim"), hester, bust="37")
    for client in (ines, Client.objects.get(name="Marit Solheim")):
        [found] = named(client.name)
        plain = Measuring.objects.select_related("client").get(client=client)
        assert (found, found.client, found.taken_on, found.token, found.twice) == (plain, client, plain.taken_on, plain.token, client.pk * 2)
    assert named("Nobody Noname") == []


def test_tuples_hold_each_value_as_django_has_it(hester):
    lengths = RowsAskedOften(lambda pk: Reading.objects.filter(measuring=pk).order_by("pk").values_list("key", "mm", "written_at"))
    measuring = measured(make_client(), hester, bust="36", waist="28")
    assert lengths(measuring.pk) == list(Reading.objects.filter(measuring=measuring).order_by("pk").values_list("key", "mm", "written_at"))


def test_a_value_that_the_question_does_not_hold_is_refused(db):
    with pytest.raises(ValueError, match="must stand in the question"):
        RowsAskedOften(lambda pk: Client.objects.filter(pk=1))(1)


def test_each_row_has_an_amount_as_it_is_kept_and_a_list_of_its_own(hester):
    asked = RowsAskedOften(lambda stage: Order.objects.filter(stage=stage).order_by("pk"))
    for price, told in ((340, []), (340, []), (None, []), (Decimal("340.500"), [{"on": "2026-03-12", "amount": "240"}])):
        order = make_order(hester)
        Order.objects.filter(pk=order.pk).update(price=price, deposit=None, instalments=told)
    for _ in range(2):  # the second time what was read is known
        found = asked(order.stage)
        assert [(str(each.price), each.instalments) for each in found] == [(str(each.price), each.instalments) for each in Order.objects.order_by("pk")]
        found[0].instalments.append("more")
        assert found[1].instalments == []
