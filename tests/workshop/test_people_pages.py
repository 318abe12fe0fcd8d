"""People: adding somebody, their role, their password, stopping a sign-in; and one's own page."""

import pytest

from tests.cast import PASSWORD
from workshop.models import Person

WELL = {
    "display_name": "Wren",
    "name": "Wren",
    "role": "seamstress",
    "password": "bobbins under the bench",
    "again": "bobbins under the bench",
}


def test_the_owner_adds_somebody_who_can_sign_in_at_once(as_owner, as_nobody):
    assert as_owner.post("/settings/people/add/", WELL).url == "/settings/people/"
    wren = Person.objects.get(username="wren")
    assert (wren.display_name, wren.role) == ("Wren", "seamstress")
    assert as_nobody.post("/sign-in/", {"name": "wren", "password": WELL["password"]}).status_code == 302
    assert "Wren can sign in as “wren”." in as_owner.get("/settings/people/").content.decode()


@pytest.mark.parametrize(
    ("spoil", "field", "sentence"),
    [
        ({"name": "DUNYA"}, "name", "“dunya” is somebody's sign-in name already. Choose another."),
        ({"role": "queen"}, "role", "Role: choose one of those shown."),
        ({"role": ""}, "role", "Role: choose one."),
        ({"display_name": ""}, "display_name", "Name is empty. Write it here."),
        ({"password": "short", "again": "short"}, "password", "It has fewer than 12 characters. Make it longer."),
        ({"name": "we\u200bird"}, "name", "A sign-in name has no spaces. Write it in one word."),
    ],
)
def test_one_thing_amiss_is_named_and_nobody_is_added(as_owner, dunya, spoil, field, sentence):
    answer = as_owner.post("/settings/people/add/", {**WELL, **spoil})
    assert answer.status_code == 422
    assert answer.context["form"].errors == {field: [sentence]}
    assert Person.objects.count() == 2


def test_a_role_is_changed_and_takes_hold_at_once(as_owner, as_apprentice, pim):
    assert not pim.may("measure")
    as_owner.post(f"/settings/people/{pim.pk}/", {"display_name": "Pim", "role": "seamstress"})
    pim.refresh_from_db()
    assert pim.may("measure")


def test_the_only_owner_stays_one(as_owner, hester):
    answer = as_owner.post(f"/settings/people/{hester.pk}/", {"display_name": "Hester", "role": "apprentice"})
    assert answer.status_code == 422
    assert "Hester is the only owner. Make somebody else an owner first." in answer.context["form"].errors["role"][0]
    as_owner.post(f"/settings/people/{hester.pk}/sign-in/", {"may_sign_in": "no"})
    hester.refresh_from_db()
    assert (hester.role, hester.is_active) == ("owner", True)


def test_with_a_second_owner_the_first_may_step_back(as_owner, hester, dunya):
    as_owner.post(f"/settings/people/{dunya.pk}/", {"display_name": "Dunya", "role": "owner"})
    as_owner.post(f"/settings/people/{hester.pk}/", {"display_name": "Hester", "role": "seamstress"})
    hester.refresh_from_db()
    assert hester.role == "seamstress"


def test_a_stopped_sign_in_can_be_given_back(as_owner, pim):
    as_owner.post(f"/settings/people/{pim.pk}/sign-in/", {"may_sign_in": "no"})
    pim.refresh_from_db()
    assert not pim.is_active
    assert "can't sign in" in as_owner.get("/settings/people/").content.decode()
    as_owner.post(f"/settings/people/{pim.pk}/sign-in/", {"may_sign_in": "yes"})
    pim.refresh_from_db()
    assert pim.is_active


def test_a_new_password_from_the_owner_signs_her_out_everywhere(as_owner, as_seamstress, dunya):
    new = {"password": "chalk and calendar and pins", "again": "chalk and calendar and pins"}
    assert as_owner.post(f"/settings/people/{dunya.pk}/password/", new).status_code == 302
    dunya.refresh_from_db()
    assert dunya.check_password(new["password"])
    assert as_seamstress.get("/you/").status_code == 302


def test_nobody_who_is_not_there_is_changed(as_owner):
    for address in ("/settings/people/99/", "/settings/people/99/password/", "/settings/people/99/sign-in/"):
        assert as_owner.post(address, {}).status_code == 404


def test_ones_own_password_changes_after_the_old_one_and_one_stays_in(as_apprentice, pim):
    new = {
        "change": "password",
        "old": PASSWORD,
        "password": "pins in the magnet dish",
        "again": "pins in the magnet dish",
    }
    answer = as_apprentice.post("/you/", {**new, "old": "not it at all, no"})
    assert answer.context["form"].errors == {"old": ["That is not your password. Type it once more."]}
    assert as_apprentice.post("/you/", new).status_code == 302
    pim.refresh_from_db()
    assert pim.check_password("pins in the magnet dish")
    assert as_apprentice.get("/you/").status_code == 200


def test_left_handed_keys_are_kept_with_the_person(as_seamstress, dunya):
    as_seamstress.post("/you/", {"hand": "save", "left_handed": "on"})
    dunya.refresh_from_db()
    assert dunya.left_handed
    as_seamstress.post("/you/", {"hand": "save"})
    dunya.refresh_from_db()
    assert not dunya.left_handed


def test_a_list_of_people_costs_the_same_however_many(as_owner, django_assert_num_queries):
    from tests.cast import make_person

    with django_assert_num_queries(4):
        as_owner.get("/settings/people/")
    for n in range(12):
        make_person(f"hand{n}")
    with django_assert_num_queries(4):
        as_owner.get("/settings/people/")
