"""The cloth shelf: received, checked, cut from, an offcut kept, and a client's cloth given back."""

from decimal import Decimal

import pytest
from django.utils import timezone

from orders.cloth import shelf
from orders.cloth.fields import written_again
from orders.cloth.shelf_forms import shrinkage
from orders.models import Cloth, Order, ShelfCloth
from orders.stages import NotNow
from tests.clients.book import make_client
from tests.orders.book import drafted_order, fresh, make_order
from workshop.forms import Written

pytestmark = pytest.mark.django_db
YARD = Decimal("914.4")


def received(order, by, yards=4, whose="workshop", name="outside cloth") -> ShelfCloth:
    cloth = order.cloths.select_related("order__client").get(name=name)
    return shelf.receive(
        cloth=cloth, length=Written(f"{yards} yd", YARD * yards), width=Written("54 in", Decimal("1371.6")), place="shelf 2", dye_lot="7",
        whose=whose, by=by, today=timezone.localdate(),
    )  # fmt: skip


def test_what_comes_in_is_on_hand_for_its_order(hester):
    order = make_order(hester)
    received(order, hester)
    cloth = order.cloths.get(name="outside cloth")
    assert (cloth.on_hand_written, cloth.on_hand_mm, cloth.width_mm) == ("4 yd", YARD * 4, Decimal("1371.6"))
    assert order.changes.filter(label="on hand").exists()


def test_of_two_lengths_the_longer_one_is_laid(hester):
    order = make_order(hester)
    received(order, hester, yards=2)
    received(order, hester, yards=3)
    assert order.cloths.get(name="outside cloth").on_hand_mm == YARD * 3


def test_a_check_changes_what_the_order_is_laid_on_and_withdraws_a_sign_off(as_seamstress, hester):
    order = drafted_order(hester)
    on_shelf = received(order, hester)
    order.garments.update(signed_off_by=hester, signed_off_at=timezone.now())
    given = {"face": "the shiny side", "faults": "12, 40, 3, 2", "usable": "52", "before": "10", "after": "9 1/2", "bleed": "badly", "iron": "well"}
    address = f"/orders/shelf/{on_shelf.pk}/check/"
    refused = as_seamstress.post(address, given | {"after": ""})
    assert refused.status_code == 422 and 'value="the shiny side"' in refused.content.decode()
    assert as_seamstress.post(address, given).status_code == 302
    cloth = Cloth.objects.get(pk=on_shelf.cloth_id)
    assert cloth.width_mm == Decimal("1320.8") and cloth.shrink_percent == Decimal("5.0")
    assert written_again(cloth.prints["flaws"]) == "12, 40, 3, 2"
    assert not fresh(order).is_signed_off
    page = as_seamstress.get(f"/orders/shelf/{on_shelf.pk}/").content.decode()
    assert "the shiny side" in page and "it bleeds" in page and "<dd>5%</dd>" in page


@pytest.mark.parametrize(("before", "after", "lost"), [("250", "237.5", "5.0"), ("254", "241.3", "5.0"), ("254", "254", "0"), ("300", "291.1", "3.0")])
def test_a_washed_square_says_what_a_yard_loses(before, after, lost):
    """Needed / (1 - s), check-values section 4: s is what was lost of what there was before washing."""
    assert shrinkage(Decimal(before), Decimal(after)) == Decimal(lost)


@pytest.mark.parametrize(("before", "after"), [("250", "260"), ("250", "150")])
def test_a_square_that_grew_or_lost_half_is_measured_again(before, after):
    with pytest.raises(ValueError, match="once more"):
        shrinkage(Decimal(before), Decimal(after))


def test_what_is_left_of_ours_is_free_for_another_order(hester):
    order = make_order(hester)
    on_shelf = received(order, hester)
    Order.objects.filter(pk=order.pk).update(stage="cut")
    on_shelf.refresh_from_db()
    with pytest.raises(NotNow, match="more than lay there"):
        shelf.note_left(on_shelf=on_shelf, length=Written("5 yd", YARD * 5), width=None, place="", by=hester)
    shelf.note_left(on_shelf=on_shelf, length=Written("3/4 yd", YARD * 3 / 4), width=None, place="box", by=hester)
    assert on_shelf.order is None
    other = make_order(hester, kind="skirt").cloths.select_related("order__client").get(name="outside cloth")
    shelf.put_to(on_shelf=on_shelf, cloth=other, by=hester)
    other.refresh_from_db()
    assert other.on_hand_mm == YARD * 3 / 4
    assert [act.what for act in on_shelf.acts.all()] == [
        f"put to {other.order.number}, outside cloth", f"cut from for {order.number}: 3/4 yd left of 4 yd", f"received, 4 yd, for {order.number}",
    ]  # fmt: skip


def test_a_clients_cloth_is_cut_for_nobody_else_and_goes_back_to_her(as_seamstress, hester):
    order = make_order(hester)
    on_shelf = received(order, hester, whose="client")
    Order.objects.filter(pk=order.pk).update(stage="called_off", is_open=False)
    assert [each.pk for each in shelf.shelf_shown().to_give_back] == [on_shelf.pk]
    assert "goes back to" in as_seamstress.get("/orders/shelf/").content.decode()
    other = make_order(hester, kind="skirt", client=None).cloths.select_related("order__client").get(name="outside cloth")
    on_shelf = ShelfCloth.objects.get(pk=on_shelf.pk)
    if other.order.client_id != order.client_id:
        with pytest.raises(NotNow, match="cut for nobody else"):
            shelf.put_to(on_shelf=on_shelf, cloth=other, by=hester)
    with pytest.raises(NotNow, match="Give it back"):
        shelf.end(on_shelf=on_shelf, how="gone", by=hester)
    as_seamstress.post(f"/orders/shelf/{on_shelf.pk}/end/back/")
    assert ShelfCloth.objects.get(pk=on_shelf.pk).state == "back"
    assert shelf.shelf_shown().is_empty


def test_cloth_comes_in_and_is_found_by_its_dye_lot(as_seamstress, as_apprentice, hester):
    order = make_order(hester)
    cloth = order.cloths.get(name="lining")
    given = {"length": "3 1/2", "width": "45", "whose": "workshop", "dye_lot": "LOT-88", "place": "shelf 4"}
    refused = as_seamstress.post(f"/orders/{order.number}/cloth/{cloth.pk}/receive/", given | {"length": "0"})
    assert refused.status_code == 422 and 'value="LOT-88"' in refused.content.decode()
    as_seamstress.post(f"/orders/{order.number}/cloth/{cloth.pk}/receive/", given)
    assert "lot LOT-88" in as_apprentice.get("/orders/shelf/?q=lot-88").content.decode()
    assert "Nothing on the shelf" in as_apprentice.get("/orders/shelf/?q=crepe").content.decode()
    as_seamstress.post("/orders/shelf/add/", {"cloth": "white lawn", "length": "2", "width": "44"})
    free = shelf.shelf_shown().free
    assert [each.name for each in free] == ["white lawn"]
    assert as_seamstress.post(f"/orders/shelf/{free[0].pk}/left/", {"length": ""}).status_code == 422
    as_seamstress.post(f"/orders/shelf/{free[0].pk}/left/", {"length": "0"})
    assert ShelfCloth.objects.get(pk=free[0].pk).state == "used"


def test_a_clients_cloth_waits_for_her_order_and_is_cut_for_nobody_else(as_seamstress, hester):
    ines = make_order(hester).client
    given = {"cloth": "green linen", "length": "3", "width": "54", "name": ines.name}
    asks = as_seamstress.post("/orders/shelf/add/", given)
    assert asks.status_code == 422 and "That name is in the book" in asks.content.decode()
    as_seamstress.post("/orders/shelf/add/", given | {"who": ines.pk})
    [linen] = shelf.shelf_shown().clients
    assert (linen.client, linen.order, linen.goes_back) == (ines, None, False)
    hers, other = make_order(hester, ines, kind="skirt"), make_order(hester, make_client("Marit Solheim"), kind="skirt")
    page = as_seamstress.get(f"/orders/shelf/{linen.pk}/").content.decode()
    assert f"{hers.number} {ines.name}" in page and other.number not in page
    cloth = hers.cloths.get(name="outside cloth")
    assert "green linen, 3\xa0yd, lies here already" in as_seamstress.get(f"/orders/{hers.number}/cloth/{cloth.pk}/receive/").content.decode()
    as_seamstress.post(f"/orders/shelf/{linen.pk}/put/", {"cloth": cloth.pk})
    cloth.refresh_from_db()
    assert (cloth.on_hand_mm, cloth.whose) == (YARD * 3, "client")


def test_a_clients_cloth_is_told_of_where_she_stands_at_the_door(as_owner, hester):
    order = make_order(hester, deposit=None, price=Decimal(0))
    received(order, hester, yards=1, whose="client")
    Order.objects.filter(pk=order.pk).update(stage="ready")
    page = as_owner.get(f"/orders/{order.number}/").content.decode()
    assert "The client’s own cloth" in page and "outside cloth, 1\xa0yd, shelf 2" in page
    told = as_owner.post(f"/orders/{order.number}/step/collected/", follow=True).content.decode()
    assert "own cloth lies here, give it back: outside cloth, 1\xa0yd, shelf 2." in told
    as_owner.post(f"/orders/shelf/{ShelfCloth.objects.get().pk}/end/back/")
    assert "own cloth" not in as_owner.get(f"/orders/{order.number}/").content.decode()


def test_what_a_client_brought_for_no_order_is_given_back_as_well(as_seamstress, hester):
    as_seamstress.post("/orders/shelf/add/", {"cloth": "velvet", "length": "1", "width": "44", "name": "Runa Holm"})
    velvet = ShelfCloth.objects.get()
    assert velvet.client.name == "Runa Holm" and "It is given back to" in as_seamstress.get(f"/orders/shelf/{velvet.pk}/").content.decode()
    as_seamstress.post(f"/orders/shelf/{velvet.pk}/end/back/")
    assert shelf.shelf_shown().is_empty


def test_what_was_cut_from_is_never_free_as_it_came_in(as_seamstress, as_owner, hester):
    """3 yd came in and the lay took 1¾ of them; then the order was called off. Whoever takes it measures it first."""
    order = make_order(hester)
    on_shelf = received(order, hester, yards=3)
    Cloth.objects.filter(pk=on_shelf.cloth_id).update(needs_mm=YARD * 7 / 4)
    Order.objects.filter(pk=order.pk).update(stage="cut", was_cut_on=timezone.localdate())
    order.garments.update(was_cut_on=timezone.localdate())
    assert "about 1¼\xa0yd left by the lay" in as_owner.get(f"/orders/{order.number}/call-off/").content.decode()
    as_seamstress.post(f"/orders/{order.number}/call-off/", {"why": "The day is off."})
    shown = shelf.shelf_shown()
    assert ([each.pk for each in shown.cut_from], shown.free) == ([on_shelf.pk], [])
    assert "about 1¼\xa0yd left by the lay" in as_seamstress.get("/orders/shelf/").content.decode()
    other = make_order(hester, make_client("Marit Solheim"), kind="skirt").cloths.select_related("order__client").get(name="outside cloth")
    with pytest.raises(NotNow, match="Write down what is left"):
        shelf.put_to(on_shelf=ShelfCloth.objects.get(), cloth=other, by=hester)
    as_seamstress.post(f"/orders/shelf/{on_shelf.pk}/left/", {"length": "1 1/4"})
    assert [each.length_mm for each in shelf.shelf_shown().free] == [YARD * 5 / 4]


def test_free_cloth_is_offered_first_to_the_line_of_its_name(hester):
    first, second = make_order(hester), make_order(hester, make_client("Marit Solheim"), kind="skirt")
    second.cloths.filter(name="outside cloth").update(name="Green crepe")
    crepe = shelf.put_down(
        name="green crepe", received_on=timezone.localdate(), by=hester, what="received",
        **shelf.sizes(Written("3 yd", YARD * 3), Written("54 in", Decimal("1371.6"))),
    )  # fmt: skip
    assert shelf.cloths_to_put_to(crepe)[0][0] == second
    assert first in [order for order, _ in shelf.cloths_to_put_to(crepe)]


def test_an_order_and_the_shelf_that_differ_are_asked_which_is_right(as_seamstress, hester):
    order = make_order(hester)
    on_shelf = received(order, hester, yards=3)
    card = f"/orders/shelf/{on_shelf.pk}/"
    assert "Which is right?" not in as_seamstress.get(card).content.decode()
    hers = {"whose": "client", "on_hand_written": "2 yd", "on_hand_mm": YARD * 2, "width_written": "50 in", "width_mm": Decimal(1270)}
    order.cloths.filter(pk=on_shelf.cloth_id).update(**hers)
    assert "says: the client&#x27;s, 2\xa0yd, 50 in wide" in as_seamstress.get(card).content.decode()
    assert f"{order.number} says otherwise" in as_seamstress.get("/orders/shelf/").content.decode()
    as_seamstress.post(f"{card}settle/order/")
    now = ShelfCloth.objects.get()
    assert (now.whose, now.client, now.length_mm, now.width_mm) == ("client", order.client, YARD * 2, 1270)
    order.cloths.filter(pk=on_shelf.cloth_id).update(whose="workshop")
    as_seamstress.post(f"{card}settle/shelf/")
    assert order.cloths.get(pk=on_shelf.cloth_id).whose == "client"


def test_part_of_a_name_is_asked_about_and_whose_it_is_can_be_put_right(as_seamstress, hester):
    delphine = make_client("Delphine Orrick")
    given = {"cloth": "green linen", "length": "3", "width": "54", "name": "Delphine"}
    asks = as_seamstress.post("/orders/shelf/add/", given)
    assert asks.status_code == 422 and "Did you mean somebody in the book?" in asks.content.decode() and "Delphine Orrick" in asks.content.decode()
    as_seamstress.post("/orders/shelf/add/", given | {"who": "new"})
    linen = ShelfCloth.objects.get()
    assert linen.client.name == "Delphine"
    as_seamstress.post(f"/orders/shelf/{linen.pk}/whose/", {"name": "Delphine Orrick", "who": delphine.pk})
    assert ShelfCloth.objects.get().client == delphine
    as_seamstress.post(f"/orders/shelf/{linen.pk}/whose/", {"name": ""})
    assert (ShelfCloth.objects.get().client, ShelfCloth.objects.get().whose) == (None, "workshop")
