"""Each garment of an order has its own sign-off and its own cut; a change of one leaves the other's word standing."""

from datetime import timedelta

import pytest
from django.urls import reverse
from django.utils import timezone

from drafting.sheet_page import sheet_page
from orders.garment.making_draft import make_draft
from orders.garment.several import put_away, take_up
from orders.how_far import days_shown
from orders.in_hand import eyes_of, rows_of
from orders.models import Garment, Order
from orders.paper.printing import said_beside, spoken_against
from orders.stages import NotNow, Stage
from orders.work import cutting
from tests.orders.book import drafted_order, fresh, signed_order
from tests.orders.garment.test_several import both_drafted
from tests.orders.pages import text, url

TODAY = timezone.localdate
ONE, ALL = "Sign this one off", "Sign off for cutting: all 2"


def now(garment: Garment) -> Garment:
    return Garment.objects.select_related("order__client", "measuring", "draft", "cut_draft", "signed_off_by").get(pk=garment.pk)


def signed(order: Order) -> list[bool]:
    return [garment.is_signed_off for garment in order.garments.all()]


def post(browser, name: str, order: Order, *args, **sent):
    return browser.post(url(name, order.number, *args), sent, follow=True)


def test_the_owner_signs_one_off_and_it_is_cut_while_the_other_waits(as_owner, as_apprentice, hester):
    order, gown, skirt = both_drafted(hester)
    page = text(as_owner.get(order.get_absolute_url()))
    assert page.count(ONE) == 2 and ALL in page and "Before you sign it off: deposit not in; cloths not in." in page
    assert "Skirt may be cut." in text(post(as_owner, "sign-off-garment", order, skirt.pk, draft=skirt.draft_id))
    assert signed(order) == [False, True] and not fresh(order).is_signed_off
    page = text(as_apprentice.get(order.get_absolute_url()))
    assert page.count("Cut this one") == 1 and "not signed off yet" in page and ONE not in page
    assert "S-001 Bustier gown is not signed off." in text(post(as_apprentice, "cut-garment", order, gown.pk, all_the_same="yes"))
    assert "S-001 Bustier gown is not signed off." in text(post(as_apprentice, "cut", order, all_the_same="yes"))
    post(as_apprentice, "cut-garment", order, skirt.pk, all_the_same="yes")
    assert now(skirt).was_cut_on == TODAY() and now(gown).cut_draft is None and fresh(order).stage == Stage.MEASURED
    page = text(as_owner.get(order.get_absolute_url()))
    assert "Sign off for cutting: bustier gown" in page and "<b>Signed off: skirt</b>" in page


def test_a_garment_whose_draft_failed_a_check_is_not_offered_for_sign_off(as_owner, hester):
    order, gown, _ = both_drafted(hester)
    Garment.objects.filter(pk=gown.pk).update(draft_passed=False)
    assert text(as_owner.get(order.get_absolute_url())).count(ONE) == 1


def test_one_press_signs_off_all_that_are_left_at_one_moment(as_owner, hester):
    order, gown, skirt = both_drafted(hester)
    refused = text(post(as_owner, "sign-off", order, draft=gown.draft_id))
    assert "drafted again after this page was opened" in refused and signed(order) == [False, False]
    post(as_owner, "sign-off", order, draft=[gown.draft_id, skirt.draft_id])
    assert signed(order) == [True, True] and now(gown).signed_off_at == now(skirt).signed_off_at
    assert "Cut: all 2" in text(as_owner.get(order.get_absolute_url()))
    post(as_owner, "cut", order, all_the_same="yes")
    assert fresh(order).stage == Stage.CUT and all(garment.cut_draft_id for garment in order.garments.all())


@pytest.mark.parametrize("change", ["choices", "draft", "away"])
def test_a_change_of_one_withdraws_its_own_sign_off_alone(as_owner, hester, change):
    order, gown, skirt = both_drafted(hester)
    cutting.sign_off(order=order, by=hester)
    if change == "choices":
        chosen = {key.replace(".", "_"): value for key, value in now(skirt).options.items()}
        sent = chosen | {"skirt_length": "31", "then": "keep", "version": now(skirt).version}
        assert as_owner.post(url("garment", order.number, skirt.pk), sent).status_code == 302
    elif change == "draft":
        make_draft(garment=now(skirt), by=hester)
    else:
        put_away(garment=now(skirt), by=hester, today=TODAY())
        take_up(garment=Garment.everything.get(pk=skirt.pk), by=hester)
    assert signed(order) == [True, False]
    cutting.cut(order=fresh(order), only=gown, by=hester, today=TODAY())
    assert now(gown).cut_draft_id == gown.draft_id


def test_a_cloth_of_one_is_looked_at_again_for_it_and_a_common_one_for_all(as_owner, hester):
    order, _, skirt = both_drafted(hester)
    cutting.sign_off(order=order, by=hester)
    for cloth, left in ((order.cloths.get(garment=skirt, used_for=["shell"]), [True, False]), (order.cloths.filter(garment=None).first(), [False, False])):
        sent = {"name": cloth.name, "used_for": cloth.used_for, "width": "50", "whose": "workshop", "garment": cloth.garment_id or "", "version": cloth.version}
        assert "the owner looks at it again" in text(as_owner.post(url("cloth", order.number, cloth.pk), sent, follow=True))
        assert signed(order) == left


def test_what_speaks_against_one_is_kept_with_it_and_printed_on_its_sheet_alone(as_owner, hester):
    order, gown, skirt = both_drafted(hester)
    order.cloths.exclude(garment=skirt).update(on_hand_mm=90_000, on_hand_written="90 m")
    order.deposit = None
    order.keep("deposit", by=hester)
    day = reverse("orders:cutting-day", args=[order.cut_on.isoformat()])
    page = text(as_owner.get(day))
    assert page.count("Why it is cut all the same") == 2 and "Sign off all the same: all 2" in page  # for the skirt, and for both at once
    address = reverse("orders:all-the-same", args=[order.cut_on.isoformat(), order.number])
    as_owner.post(address, {"garment": gown.pk, "draft": gown.draft_id})
    assert "Say in a few words why" in text(as_owner.post(address, {"garment": skirt.pk, "draft": skirt.draft_id}, follow=True))
    assert signed(order) == [True, False]
    as_owner.post(address, {"garment": skirt.pk, "draft": skirt.draft_id, "why": "It comes at noon"})
    assert "Why: It comes at noon" in text(as_owner.get(day))
    printed = [sheet_page(each.draft.order_file, each.draft.result, workshop_name="Salt Lane", draft_number=1, extra=said_beside(order, each)) for each in (now(gown), now(skirt))]
    assert printed[0].signed_off.startswith("Signed off for cutting by Hester") and "all the same" not in printed[0].signed_off
    assert printed[1].signed_off.endswith("Against it: outside cloth, skirt not in. Why: It comes at noon")


def test_the_table_and_the_days_pack_say_which_of_them_waits(hester):
    order, _, skirt = both_drafted(hester)
    waits = "Not signed off yet. The owner looks at it before the first cut."
    assert waits in spoken_against(fresh(order))
    cutting.sign_off(order=order, only=skirt, by=hester)
    assert f"Bustier gown: n{waits[1:]}" in spoken_against(fresh(order))
    cutting.sign_off(order=order, by=hester)
    assert not any("signed off" in said for said in spoken_against(fresh(order)))


def test_choices_sent_from_a_page_older_than_the_sign_off_are_asked_about_and_not_lost(as_seamstress, hester):
    order, _, skirt = both_drafted(hester)
    chosen = {key.replace(".", "_"): value for key, value in now(skirt).options.items()}
    sent = chosen | {"skirt_length": "31", "then": "keep", "version": now(skirt).version}
    cutting.sign_off(order=order, by=hester)
    asked = as_seamstress.post(url("garment", order.number, skirt.pk), sent)
    assert asked.status_code == 409 and "It is signed off as it was saved: a change takes that back." in text(asked)
    assert 'value="31"' in text(asked) and signed(order) == [True, True]
    as_seamstress.post(url("garment", order.number, skirt.pk), sent | {"version": now(skirt).version})
    assert now(skirt).options["skirt.length"] == "31" and signed(order) == [True, False]


def cut_days(order: Order) -> list[tuple[str, str]]:
    return [(row.title, row.detail) for row in days_shown(fresh(order), TODAY()) if row.title in ("Cut", "To cut")]


def test_of_two_cut_on_two_days_each_day_says_which(hester):
    order, gown, skirt = both_drafted(hester)
    cutting.sign_off(order=order, by=hester)
    cutting.cut(order=fresh(order), only=skirt, by=hester, today=TODAY() - timedelta(days=2))
    assert cut_days(order) == [("Cut", "Skirt"), ("To cut", "Bustier gown")]
    (row,) = rows_of(Order.objects.filter(pk=order.pk), order.cut_on, eyes_of(hester))
    assert "outside cloth, skirt" not in next(concern.text for concern in row.concerns if concern.flag == "cloths not in")
    cutting.cut(order=fresh(order), only=gown, by=hester, today=TODAY())
    assert cut_days(order) == [("Cut", "Skirt"), ("Cut", "Bustier gown")]


def test_an_order_of_one_garment_reads_as_an_order(as_owner, hester):
    order = drafted_order(hester)
    page = text(as_owner.get(order.get_absolute_url()))
    assert ">Sign off for cutting</button>" in page and ONE not in page
    page = text(as_owner.get(signed_order(hester).get_absolute_url()))
    assert ">Cut</button>" in page and "<b>Signed off</b>" in page and "Cut this one" not in page


def test_what_is_put_away_or_cut_is_not_signed_off(hester):
    order, gown, skirt = both_drafted(hester)
    put_away(garment=skirt, by=hester, today=TODAY())
    for only, said in ((skirt, "S-001 Skirt is put away"), (gown, "S-001 Bustier gown is cut already")):
        with pytest.raises(NotNow, match=said):
            cutting.sign_off(order=fresh(order), only=only, by=hester)
        if only is skirt:
            cutting.sign_off(order=fresh(order), by=hester)
            cutting.cut(order=fresh(order), by=hester, today=TODAY())
