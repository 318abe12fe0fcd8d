"""An order of several garments: each its own draft, cloths, ticks and cut; one put away and taken up again."""

import pytest
from django.utils import timezone

from drafting.cut_list import cut_list
from orders.calling_off import copy
from orders.dates.bench import Bench
from orders.dates.promise import quarters_of
from orders.garment.making_draft import make_draft, what_is_behind
from orders.garment.order_file import order_file
from orders.garment.several import add_garment, put_away
from orders.models import Cloth, Garment, Order
from orders.stages import NotNow, Stage
from orders.work import cutting
from orders.work.cutting_table import table_shown, tick
from tests.orders.book import cut_order, drafted_order, fresh, make_order, measured_order, signed_order
from tests.orders.pages import text, url

TODAY = timezone.localdate


def two(by, first=drafted_order, **given) -> tuple[Order, Garment, Garment]:
    """A gown and a skirt with cloths of its own."""
    order = first(by)
    gown = order.garments.get()
    skirt = add_garment(order=order, kind="skirt", by=by, **given)
    return fresh(order), gown, skirt


def both_drafted(by) -> tuple[Order, Garment, Garment]:
    order, gown, skirt = two(by)
    make_draft(garment=skirt, by=by)
    return fresh(order), Garment.objects.get(pk=gown.pk), Garment.objects.get(pk=skirt.pk)


def test_a_second_garment_brings_its_own_cloths_and_leaves_the_first_ones_draft_good(hester):
    order, gown, skirt = two(hester)
    assert [(cloth.name, cloth.garment_id) for cloth in order.cloths.filter(garment=skirt)] == [("outside cloth, skirt", skirt.pk)]
    assert [cloth["name"] for cloth in order_file(skirt)["cloths"] if "shell" in cloth["for"]] == ["outside cloth, skirt"]
    assert "outside cloth, skirt" not in [cloth["name"] for cloth in order_file(gown)["cloths"]]
    assert what_is_behind(gown) == ""


def test_a_second_garment_can_share_the_orders_cloths(hester):
    order, _, skirt = two(hester, own_cloths=False)
    assert not order.cloths.filter(garment=skirt).exists()
    assert "outside cloth" in [cloth["name"] for cloth in order_file(skirt)["cloths"]]


def test_one_more_garment_is_looked_at_before_the_first_cut(as_owner, hester):
    order = signed_order(hester)
    as_owner.post(url("add-garment", order.number), {"kind": "skirt", "title": "Overskirt", "cloths": "own"})
    assert not fresh(order).is_signed_off and fresh(order).title == "Bustier gown and overskirt"
    page = text(as_owner.get(order.get_absolute_url()))
    assert "Draft it: overskirt" in page and "overskirt: everything outside" in page


def test_a_name_stands_once_and_a_cut_order_takes_no_more(as_owner, hester):
    order, *_ = two(hester)
    again = as_owner.post(url("add-garment", order.number), {"kind": "skirt", "title": "skirt", "cloths": "own"})
    assert again.status_code == 422 and "“skirt” is on this order already" in text(again)
    assert add_garment(order=order, kind="skirt", by=hester).title == "Skirt 2"
    with pytest.raises(NotNow, match="is cut. Write another order"):
        add_garment(order=cut_order(hester), kind="skirt", by=hester)


def test_the_bench_counts_the_hours_of_both(hester):
    order, *_ = two(hester)
    bench = Bench()
    assert sum(quarters_of(order, bench)) == 4 * (bench.hours_of("bustier-gown") + bench.hours_of("skirt"))


def test_each_is_cut_on_its_own_day_and_the_order_with_the_last(as_owner, hester):
    order, gown, skirt = both_drafted(hester)
    cutting.sign_off(order=order, by=hester)
    as_owner.post(url("cut-garment", order.number, gown.pk))
    gown.refresh_from_db()
    assert gown.cut_draft_id and gown.was_cut_on == TODAY() and fresh(order).stage == Stage.MEASURED
    assert "cut" in text(as_owner.get(order.get_absolute_url()))
    with pytest.raises(NotNow, match="Bustier gown is cut"):
        put_away(garment=gown, by=hester, today=TODAY())
    as_owner.post(url("cut-garment", order.number, skirt.pk))
    assert fresh(order).stage == Stage.CUT and fresh(order).was_cut_on == TODAY()


def test_what_was_cut_alone_stays_on_the_table_while_the_other_is_drafted_again(hester):
    order, gown, skirt = both_drafted(hester)
    cutting.sign_off(order=order, by=hester)
    cutting.cut(order=order, only=gown, by=hester, today=TODAY())
    make_draft(garment=Garment.objects.get(pk=skirt.pk), by=hester)
    order = fresh(order)
    assert not order.is_signed_off
    shown = {table.garment.pk: table for table in table_shown(order)}
    key = shown[gown.pk].cloths[0].pieces[0].key
    assert tick(garment=Garment.objects.get(pk=gown.pk), key=key, by=hester).piece == key
    with pytest.raises(NotNow, match="not signed off"):
        tick(garment=Garment.objects.get(pk=skirt.pk), key=shown[skirt.pk].cloths[0].pieces[0].key, by=hester)


def test_one_is_put_away_with_its_cloths_and_taken_up_again(as_owner, hester):
    order, gown, skirt = both_drafted(hester)
    as_owner.post(url("put-away", order.number, skirt.pk))
    assert fresh(order).title == "Bustier gown" and "outside cloth, skirt" not in [cloth.name for cloth in order.cloths.all()]
    page = text(as_owner.get(order.get_absolute_url()))
    assert "Take it up again" in page and "put away" in page
    with pytest.raises(NotNow, match="all that S-001 is for"):
        put_away(garment=gown, by=hester, today=TODAY())
    as_owner.post(url("take-up", order.number, skirt.pk))
    assert [garment.draft_id for garment in order.garments.all()] == [gown.draft_id, skirt.draft_id]
    assert {(change.thing, change.label) for change in order.changes.all()} >= {("Skirt", "put away"), ("Skirt", "garment")}


def test_when_the_one_not_cut_is_put_away_the_order_is_cut(hester):
    order, gown, skirt = both_drafted(hester)
    cutting.sign_off(order=order, by=hester)
    cutting.cut(order=order, only=gown, by=hester, today=TODAY())
    put_away(garment=Garment.objects.get(pk=skirt.pk), by=hester, today=TODAY())
    assert fresh(order).stage == Stage.CUT and fresh(order).was_cut_on == TODAY()


def test_two_cloths_for_one_use_are_for_two_garments(as_owner, hester):
    order, _, skirt = two(hester, first=measured_order)
    given = {"name": "blue wool", "used_for": ["shell"], "width": "60", "whose": "workshop", "garment": ""}
    assert "already cut from outside cloth" in text(as_owner.post(url("add-cloth", order.number), given))
    Cloth.objects.filter(garment=skirt).delete()
    assert as_owner.post(url("add-cloth", order.number), given | {"garment": str(skirt.pk)}).status_code == 302
    assert Cloth.objects.get(name="blue wool").garment_id == skirt.pk


def test_each_garments_pieces_are_listed_from_its_own_cloth(hester):
    _, gown, skirt = both_drafted(hester)
    listed = [row.name.lower() for row in cut_list(skirt.draft.order_file, skirt.draft.result, str)]
    assert "outside cloth, skirt" in listed and "outside cloth" not in listed


def test_the_same_again_copies_every_garment_with_its_own_cloths(hester):
    order, *_ = two(hester)
    new = copy(order=order, by=hester, today=TODAY(), collect_on=None, occasion_on=None)
    assert [garment.title for garment in new.garments.all()] == ["Bustier gown", "Skirt"]
    assert new.cloths.get(name="outside cloth, skirt").garment.title == "Skirt"


def test_only_those_at_the_table_put_garments_on_an_order(as_apprentice, hester):
    order = make_order(hester)
    assert as_apprentice.get(url("add-garment", order.number)).status_code == 403
    assert "Add a garment" not in text(as_apprentice.get(order.get_absolute_url()))
