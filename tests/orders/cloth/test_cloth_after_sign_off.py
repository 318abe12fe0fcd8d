"""What was signed off stands: a cloth that is another one since is looked at again, and a cut one stays."""

from orders.garment.making_draft import make_draft, what_is_behind
from tests.orders.book import cut_order, fresh, garment_of, signed_order

ANOTHER = {"name": "net", "used_for": ["sleeve"], "width": "60", "whose": "workshop"}


def as_it_is(cloth) -> dict:
    same = {"name": cloth.name, "used_for": cloth.used_for, "width": cloth.width_written, "whose": cloth.whose}
    return same | {"version": cloth.version}


def narrower(cloth) -> dict:
    return as_it_is(cloth) | {"width": "20"}


def test_a_narrower_cloth_asks_for_the_owners_eye_again(hester, as_seamstress):
    order = signed_order(hester)
    cloth = order.cloths.first()
    said = as_seamstress.post(f"/orders/{order.number}/cloth/{cloth.pk}/", narrower(cloth), follow=True).content.decode()
    assert "the owner looks at it again before the first cut" in said
    assert what_is_behind(garment_of(order)) == "cloths"
    as_seamstress.post(f"/orders/{order.number}/cut/")
    assert fresh(order).stage == "measured"
    make_draft(garment=garment_of(order), by=hester)
    assert what_is_behind(garment_of(order)) == ""


def test_another_cloth_and_one_taken_off_ask_for_it_too(hester, as_seamstress):
    order = signed_order(hester)
    as_seamstress.post(f"/orders/{order.number}/cloth/{order.cloths.last().pk}/remove/")
    assert not fresh(order).is_signed_off
    order = signed_order(hester)
    as_seamstress.post(f"/orders/{order.number}/cloth/", ANOTHER)
    assert order.cloths.filter(name="net").exists() and not fresh(order).is_signed_off


def test_what_is_on_hand_and_whose_it_is_do_not(hester, as_seamstress):
    for order in (signed_order(hester), cut_order(hester)):
        cloth = order.cloths.first()
        sent = as_it_is(cloth) | {"on_hand": "5", "whose": "client"}
        assert as_seamstress.post(f"/orders/{order.number}/cloth/{cloth.pk}/", sent).status_code == 302
        assert fresh(order).is_signed_off and order.cloths.first().on_hand_written == "5 yd"


def test_the_cloth_of_a_cut_order_is_not_rewritten(hester, as_seamstress):
    order = cut_order(hester)
    cloth = order.cloths.first()
    for sent in (narrower(cloth), as_it_is(cloth) | {"name": "another cloth"}, as_it_is(cloth) | {"one_way": "on"}):
        refused = as_seamstress.post(f"/orders/{order.number}/cloth/{cloth.pk}/", sent)
        assert refused.status_code == 422
        assert "is cut. The cloth that it was cut from stays on it, as it was written." in refused.content.decode()
    kept = order.cloths.get(pk=cloth.pk)
    assert (kept.name, kept.width_mm, kept.one_way) == (cloth.name, cloth.width_mm, False)


def test_no_cloth_comes_to_a_cut_order_nor_goes_from_it(hester, as_seamstress):
    order = cut_order(hester)
    count = order.cloths.count()
    assert as_seamstress.post(f"/orders/{order.number}/cloth/", ANOTHER).status_code == 422
    as_seamstress.post(f"/orders/{order.number}/cloth/{order.cloths.last().pk}/remove/")
    assert order.cloths.count() == count
