"""Two people change one thing: the second sees both versions, line by line, and loses nothing."""

import re
from datetime import timedelta

import pytest
from django.urls import reverse
from django.utils import timezone

from orders.booking import book_fitting
from tests.orders.book import fresh, garment_of, make_order, measured_order


def in_days(number: int) -> str:
    return (timezone.localdate() + timedelta(days=number)).isoformat()


def radios(page: str, name: str) -> dict[str, bool]:
    """value -> ticked, of the page's choices for one field."""
    found = re.findall(rf'<input type="radio" name="{name}" value="([^"]*)"( checked)?>', page)
    return {value: bool(ticked) for value, ticked in found}


@pytest.fixture
def order(hester):
    return make_order(hester, cut_on=None, note="own shoes")


def promise(order, **changes) -> dict:
    page = {"collect_on": in_days(16), "price": "580", "deposit": "240", "note": "own shoes"}
    return {f"was-{name}": value for name, value in page.items()} | page | {"version": order.version} | changes


def test_both_versions_are_shown_and_what_was_typed_is_kept(as_owner, as_seamstress, order):
    url = reverse("orders:promise", args=[order.number])
    as_seamstress.post(url, promise(order, collect_on=in_days(15)))
    answer = as_owner.post(url, promise(order, note="own shoes\r\n2 in heel", price="600"))
    page = answer.content.decode()
    assert answer.status_code == 409
    assert "Dunya saved this at" in page
    assert radios(page, "collect_on") == {in_days(16): False, in_days(15): True}  # only Dunya changed it
    assert radios(page, "price") == {"600": True, "580": False}  # only Hester did
    assert "2 in heel" in page
    assert "the same in both" in page
    assert (fresh(order).collect_on.isoformat(), fresh(order).price) == (in_days(15), 580)


def test_what_was_picked_is_saved(as_owner, as_seamstress, order):
    url = reverse("orders:promise", args=[order.number])
    as_seamstress.post(url, promise(order, collect_on=in_days(15)))
    page = as_owner.post(url, promise(order, price="600")).content.decode()
    version = re.search(r'name="version" value="(\d+)"', page)[1]
    picked = {"collect_on": in_days(15), "price": "600", "deposit": "240", "note": "own shoes", "version": version}
    assert as_owner.post(url, picked).status_code == 302
    assert (fresh(order).collect_on.isoformat(), fresh(order).price) == (in_days(15), 600)


def test_a_form_without_its_version_is_never_saved_over_another(as_owner, order):
    url = reverse("orders:promise", args=[order.number])
    for version in ("", "x", "-1", "999999999999"):
        assert as_owner.post(url, promise(order, version=version)).status_code == 409
    assert fresh(order).version == order.version


def test_a_garments_choices_too(as_owner, as_seamstress, hester):
    order = measured_order(hester)
    garment = garment_of(order)
    url = reverse("orders:garment", args=[order.number, garment.pk])
    sent = {key.replace(".", "_"): value for key, value in garment.options.items()} | {"version": garment.version}
    as_seamstress.post(url, sent | {"fit": "loose"})
    answer = as_owner.post(url, sent | {"rule_let_out": "1 1/4", "then": "draft", "was-fit": "close", "was-rule_let_out": ""})
    page = answer.content.decode()
    assert answer.status_code == 409
    assert radios(page, "fit") == {"close": False, "loose": True}
    assert radios(page, "rule_let_out") == {"1 1/4": True, "": False}
    assert 'name="then" value="draft"' in page
    assert garment_of(order).options["fit"] == "loose"


def test_cloths_and_fittings_too(as_owner, as_seamstress, hester, order):
    cloth = order.cloths.get(name="lining")
    url = reverse("orders:cloth", args=[order.number, cloth.pk])
    sent = {"name": "lining", "used_for": ["lining"], "width": "45", "whose": "workshop", "version": cloth.version}
    as_seamstress.post(url, sent | {"on_hand": "3"})
    answer = as_owner.post(url, sent | {"used_for": ["lining", "sleeve"], "width": "54", "one_way": "on"})
    page = answer.content.decode()
    assert answer.status_code == 409
    assert radios(page, "width") == {"54": True, "45 in": False}
    assert radios(page, "one_way") == {"on": True, "": False}
    assert re.search(r'value="sleeve"[^>]* checked', page)
    fitting = book_fitting(order=order, at=timezone.now() + timedelta(days=2), booked_by=hester)
    url = reverse("orders:fitting", args=[order.number, fitting.pk])
    as_seamstress.post(url, {"day": in_days(3), "time": "9:00", "version": 1})
    answer = as_owner.post(url, {"day": in_days(4), "time": "9:00", "version": 1})
    assert answer.status_code == 409
    assert set(radios(answer.content.decode(), "day")) == {in_days(3), in_days(4)}


def test_hostile_text_stays_text(as_owner, as_seamstress, order):
    url = reverse("orders:promise", args=[order.number])
    as_seamstress.post(url, promise(order, collect_on=in_days(15)))
    page = as_owner.post(url, promise(order, note='"><script>alert(1)</script>')).content.decode()
    assert "<script>alert" not in page
    assert "&lt;script&gt;alert(1)" in page
