"""What is kept of the parts around a page: never what another person, or the workshop before a change, would see."""

import pytest

from tests.cast import browser_of, make_person
from workshop.models import Person, Workshop

pytestmark = pytest.mark.django_db


def page_for(person: Person, address: str = "/you/") -> str:
    return browser_of(person).get(address).content.decode()


def test_two_people_on_one_page_each_see_their_own_name(salt_lane, hester, pim):
    for _ in range(2):
        assert f"Signed in as <b>{hester}</b>, owner" in page_for(hester)
        assert f"Signed in as <b>{pim}</b>, apprentice" in page_for(pim)


def test_who_gets_another_role_sees_its_words_at_once(salt_lane, pim):
    assert ">Settings</a>" not in page_for(pim)
    Person.objects.filter(pk=pim.pk).update(role="owner", display_name="Pim Aske")
    page = page_for(pim)
    assert ">Settings</a>" in page
    assert "Signed in as <b>Pim Aske</b>, owner" in page


def test_a_workshop_that_moves_says_so_on_the_next_page(salt_lane, hester):
    assert "<b>Salt Lane Sewing Room</b>" in page_for(hester)
    Workshop.objects.update(name="Rope Walk & Daughters", town="Farhaven")
    assert "<b>Rope Walk &amp; Daughters</b><span>Farhaven</span>" in page_for(hester)


def test_the_current_word_is_each_pages_own(salt_lane, hester):
    assert 'href="/settings/" aria-current="page"' in page_for(hester, "/settings/")
    assert 'href="/clients/" aria-current="page"' in page_for(hester, "/clients/")
    assert 'href="/settings/" aria-current="page"' in page_for(hester, "/settings/")


def test_nobody_signed_in_sees_no_word_of_those_who_were(salt_lane, hester):
    page_for(hester)
    page = browser_of(None).get("/sign-in/").content.decode()
    assert "Signed in as" not in page
    assert 'name="chalk-phone"' not in page
    assert make_person("nell").display_name not in page
