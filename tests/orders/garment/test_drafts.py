"""From an order to its draft: the order file, what is refused and how it is said, newer measures."""

from datetime import date
from decimal import Decimal

import pytest

from drafting.brief import read_brief
from drafting.models import KeptDraft
from orders.garment import making_draft
from orders.garment.making_draft import NotDrafted, keep_old_measures, make_draft, newer_measuring, what_is_behind
from orders.garment.order_file import order_file
from orders.stages import Stage
from tests.clients.book import make_client, measured
from tests.orders.book import drafted_order, fresh, garment_of, make_order, measured_order
from workshop.models import Workshop


def test_an_order_is_an_order_file(hester):
    order = measured_order(hester, note="waist seam to sit on the belt mark\n\nown shoes")
    garment = garment_of(order)
    garment.options |= {"fit": "corset", "skirt.kind": "straight", "skirt.length": "27 1/2", "lined": "no"}
    garment.rules = {"let_out": "1 1/4"}
    file = order_file(garment)
    brief = read_brief(file)
    assert file["order"] == "S-001"
    assert file["client"] == "Ines"
    assert file["measures"]["bust"] == "920.75mm"  # 36¼ in × 25.4, by hand
    assert (brief.garment.fit, brief.garment.lined, brief.garment.skirt.kind) == ("corset", False, "straight")
    assert float(brief.garment.skirt.length.mm) == 27.5 * 25.4
    assert float(brief.garment.rules["let_out"].mm) == 1.25 * 25.4
    assert {cloth.name: cloth.used_for for cloth in brief.cloths}["outside cloth"] == ("shell",)
    assert brief.notes == ("waist seam to sit on the belt mark", "own shoes")
    assert brief.dates.collect == order.collect_on


def test_a_left_arm_that_differs_is_drafted_apart_where_there_is_an_arm_to_the_garment(hester):
    arms = {"upper_arm": "11", "upper_arm_left": "11 3/4", "armhole_depth_left": "6 1/4"}
    gown = garment_of(measured_order(hester))
    gown.measuring.write_down(arms, "in", by=hester)
    file = order_file(gown)
    assert "upper_arm_left" not in file["measures"]
    assert "measures_left" not in file  # the armholes are alike, and a strapless gown has no sleeve
    gown.kind, gown.options = "bodice", {"sleeve.kind": "set-in"}
    assert order_file(gown)["measures_left"] == {"upper_arm": "298.45mm"}  # 11 3/4 in × 25.4, by hand
    assert read_brief(order_file(gown)).one_side["left"]["upper_arm"].mm == Decimal("298.45")


def test_the_workshops_own_rules_stand_under_the_garments(hester):
    Workshop.objects.update(house_rules={"let_out": "1 1/2", "hem": "3", "cap_ease": "1"})
    garment = garment_of(measured_order(hester))
    garment.rules = {"let_out": "1"}
    assert order_file(garment)["garment"]["rules"] == {"let_out": "1", "hem": "3"}  # a gown has no sleeve cap


def test_a_skirt_that_is_not_there_has_no_length(hester):
    garment = garment_of(measured_order(hester))
    garment.options |= {"skirt.kind": "none", "skirt.length": "38"}
    assert order_file(garment)["garment"]["skirt"] == {"kind": "none"}


def test_a_draft_is_kept_and_the_order_is_measured(hester):
    order = drafted_order(hester)
    garment = garment_of(order)
    assert order.stage == Stage.MEASURED
    assert garment.draft.number == 1
    assert garment.draft_passed
    assert garment.draft.for_cutting
    assert what_is_behind(garment) == ""


def test_without_measures_nothing_is_drafted_and_the_remedy_is_named(hester):
    order = make_order(hester)
    with pytest.raises(NotDrafted) as refused:
        make_draft(garment=garment_of(order), by=hester)
    assert refused.value.texts == ["Ines is not measured yet. Take the measures, then draft."]
    assert (KeptDraft.objects.count(), fresh(order).stage) == (0, Stage.BOOKED)


def test_missing_measures_are_named_in_one_sentence(hester):
    client = make_client()
    measured(client, hester, date(2026, 3, 2), bust="36 1/4", waist="28")
    with pytest.raises(NotDrafted) as refused:
        make_draft(garment=garment_of(make_order(hester, client)), by=hester)
    (text,) = refused.value.texts
    assert text.startswith("Not among the measures of 2 March: under-bust, shoulder, ")
    assert text.endswith("Take them, then draft again.")


def test_a_body_that_cannot_be_drafted_is_refused_naming_two_measures(hester):
    """The under-bust comes above the bust line: one of the two was read wrongly."""
    order = measured_order(hester)
    garment = garment_of(order)
    garment.measuring.current()["shoulder_to_under_bust"].correct("9", "in", by=hester, why="to see")
    with pytest.raises(NotDrafted) as refused:
        make_draft(garment=garment, by=hester)
    assert "under-bust" in " ".join(refused.value.texts).lower().replace("under bust", "under-bust")
    assert garment_of(order).draft is None


def test_changed_choices_cloths_and_measures_each_leave_the_draft_behind(hester):
    order = drafted_order(hester)
    garment = garment_of(order)
    garment.options |= {"fit": "loose"}
    assert what_is_behind(garment) == "choices or house rules"
    garment = garment_of(order)
    order.cloths.filter(name="lining").update(name="silk lining")
    assert what_is_behind(garment) == "cloths"
    order.cloths.filter(name="silk lining").update(name="lining", on_hand_mm=4000)
    assert what_is_behind(garment_of(order)) == ""
    garment.measuring.current()["waist"].correct("28 1/4", "in", by=hester, why="read wrongly")
    assert what_is_behind(garment_of(order)) == "measures"


def test_a_fit_note_after_the_draft_leaves_it_behind_and_the_redraft_says_what_it_drew(hester, as_owner):
    order = drafted_order(hester)
    order.client.alterations = [{"place": "side waist", "side": "left", "amount": "-6.35mm"}]
    order.client.save(update_fields=["alterations"])
    assert what_is_behind(garment_of(order)) == "fit notes"
    draft = make_draft(garment=garment_of(order), by=hester)
    assert what_is_behind(garment_of(order)) == ""
    page = as_owner.get(draft.get_absolute_url()).content.decode()
    assert "Drawn in, from the fitting" in page
    assert "Take in ¼ at the side waist, left" in page


def test_newer_measures_wait_for_a_decision(hester):
    order = drafted_order(hester)
    garment = garment_of(order)
    assert newer_measuring(garment, garment.measuring) is None
    newest = measured(order.client, hester)
    assert newer_measuring(garment, newest) == newest
    keep_old_measures(garment=garment, measuring=newest, by=hester)
    assert newer_measuring(garment_of(order), newest) is None
    later = measured(order.client, hester)
    assert newer_measuring(garment_of(order), later) == later
    make_draft(garment=garment_of(order), by=hester, measuring=later)
    assert garment_of(order).measuring == later


def test_the_same_draft_is_not_kept_twice(hester):
    order = drafted_order(hester)
    make_draft(garment=garment_of(order), by=hester)
    assert KeptDraft.objects.count() == 1


def test_the_drawing_is_done_before_the_database_is_locked(hester, monkeypatch):
    """A slow draft must not keep others from writing."""
    from django.db import connection

    depth = len(connection.savepoint_ids)
    seen = []
    real = making_draft.draw
    monkeypatch.setattr(making_draft, "draw", lambda brief: seen.append(len(connection.savepoint_ids)) or real(brief))
    make_draft(garment=garment_of(measured_order(hester)), by=hester)
    assert seen == [depth]


def test_a_cloths_lengths_are_told_as_they_were_written(hester):
    """They are printed on the sheet: 6 yd, not its millimetres."""
    order = measured_order(hester)
    order.cloths.filter(name="lining").update(
        width_written="45 in", width_mm=1143, on_hand_written="2 1/2 yd", on_hand_mm=2286, one_way=True, shrink_percent=3
    )
    lining = next(cloth for cloth in order_file(garment_of(order))["cloths"] if cloth["name"] == "lining")
    assert lining == {
        "name": "lining", "for": ["lining"], "width": "45 in", "one_way": True, "on_hand": "2 1/2 yd", "shrink": 0.03
    }  # fmt: skip
    read = {cloth.name: cloth for cloth in read_brief(order_file(garment_of(order))).cloths}["lining"]
    assert (read.width.mm, read.on_hand.mm) == (1143, 2286)
