"""What a job sheet says before it is set: only what its own garment is made from."""

from datetime import date

import pytest

from drafting.dates_tape import marks_of
from drafting.sheet_extra import SheetExtra
from drafting.sheet_page import measures_for, sheet_page
from tests.paper.drafts import gown

TAKEN = {"upper_arm": {"value": 300.0, "estimated": False}, "inside_leg": {"value": 780.0, "estimated": False}}


def shown(order, result, extra=None):
    return sheet_page(order, result, workshop_name="Salt Lane", draft_number=4, extra=extra or SheetExtra())


def test_a_sheet_printed_again_tells_of_a_newer_draft():
    page = shown(*gown(), SheetExtra(digest="3f9a2c1b77aa", newer=6))
    assert page.before[0] == "Draft 6 is newer than this one. Ask which is cut."
    assert page.foot == "Salt Lane, S-014 Strapless bustier gown, draft 4 (3f9a2c1b), measures of 2 March 2026, draft 6 is newer"
    assert not any("newer" in line for line in (*shown(*gown()).before, shown(*gown()).foot))


def test_a_sheet_lists_the_measures_of_its_own_garment_and_no_others():
    order, result = gown()
    page = shown(order, result | {"measures": result["measures"] | TAKEN})
    names = [cell.name for row in page.measure_rows for cell in row if cell]
    assert len(names) == len(result["measures"])
    assert "Upper arm" not in names and "Bust" in names


@pytest.mark.parametrize(("garment", "asks"), [
    ({"kind": "bodice", "sleeve": {"kind": "short"}}, True), ({"kind": "bodice", "sleeve": None}, False), ({"kind": "trousers"}, False),
])  # fmt: skip
def test_an_arm_is_asked_for_only_with_a_sleeve(garment, asks):
    assert ("upper_arm" in measures_for(garment)) is asks


@pytest.mark.parametrize(("bones", "said"), [(True, True), (False, False)])
def test_care_speaks_of_bones_only_where_there_are_some(bones, said):
    from drafting.brief import read_brief
    from drafting.drawing import draw
    from tests.drafting.orders import example

    order = example()
    if not bones:
        order["garment"] = {"kind": "skirt", "skirt": {"kind": "a-line", "length": 26}}
    care = " ".join(draw(read_brief(order))["cautions"])
    assert ("bone" in care.lower()) is said
    assert "toile" in care and "Unplug the iron" in care


def test_the_first_day_of_an_enquiry_is_when_it_was_asked():
    days = {"booked": "2026-02-20", "collect": "2026-03-28"}
    assert [mark.word for mark in marks_of(days, is_asked=True)] == ["asked", "collect"]
    assert marks_of(days)[0].word == "booked" and marks_of(days)[0].day == date(2026, 2, 20)
