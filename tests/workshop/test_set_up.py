"""The first page of a new workshop: it comes once."""

import pytest
from django.test import Client as Browser

from workshop.models import Person, Workshop

WELL = {
    "workshop_name": "Salt Lane Sewing Room",
    "town": "Skerrow Harbour",
    "unit": "cm",
    "currency": "NGN",
    "paper": "Letter",
    "display_name": "Ọláyinká",
    "name": "Olayinka",
    "password": "seven needles and a thimble",
    "again": "seven needles and a thimble",
}
pytestmark = pytest.mark.django_db


@pytest.mark.parametrize("address", ["/settings/", "/you/", "/sign-in/", "/settings/people/"])
def test_until_then_every_page_leads_to_it(address):
    assert Browser().get(address).url == "/set-up/"


def test_it_sets_the_workshop_up_and_signs_the_owner_in():
    browser = Browser()
    answer = browser.post("/set-up/", WELL)
    assert (answer.status_code, answer.url) == (302, "/")
    workshop = Workshop.current()
    assert (workshop.name, workshop.town, workshop.unit, workshop.currency, workshop.paper, workshop.house_rules) == (
        "Salt Lane Sewing Room",
        "Skerrow Harbour",
        "cm",
        "NGN",
        "Letter",
        {},
    )
    owner = Person.objects.get()
    assert (owner.username, owner.display_name, owner.role) == ("olayinka", "Ọláyinká", "owner")
    assert owner.check_password(WELL["password"])
    assert browser.get("/settings/").status_code == 200


def test_once_done_it_cannot_be_done_again(salt_lane):
    browser = Browser()
    assert browser.get("/set-up/").url == "/sign-in/"
    assert browser.post("/set-up/", {**WELL, "workshop_name": "Taken over"}).url == "/sign-in/"
    assert Person.objects.count() == 0
    assert Workshop.objects.get().name == "Salt Lane Sewing Room"


def test_there_can_be_no_second_workshop(salt_lane):
    from django.db import IntegrityError

    with pytest.raises(IntegrityError):
        Workshop.objects.create(name="Second", currency="GBP", unit="in")


@pytest.mark.parametrize(
    ("spoil", "field", "sentence"),
    [
        ({"workshop_name": ""}, "workshop_name", "Name of the workshop is empty. Write it here."),
        ({"unit": "ell"}, "unit", "Lengths in: choose one of those shown."),
        ({"currency": "ZZZ"}, "currency", "Currency: choose one of those shown."),
        ({"paper": ""}, "paper", "Paper for job sheets: choose one."),
        ({"display_name": " "}, "display_name", "Your name is empty. Write it here."),
        ({"name": "two words"}, "name", "A sign-in name has no spaces. Write it in one word."),
        ({"password": "elevenchars", "again": "elevenchars"}, "password",
         "It has fewer than 12 characters. Make it longer."),
        ({"again": "something else again"}, "again", "The two passwords differ. Type both once more."),
        ({"password": "123456789012", "again": "123456789012"}, "password", "It is all figures. Add letters."),
        ({"password": "telechargement", "again": "telechargement"}, "password", "tried first"),
        ({"name": "needlesandpins", "password": "needlesandpins", "again": "needlesandpins"}, "password",
         "too much like the name"),
    ],
)  # fmt: skip
def test_one_thing_amiss_is_named_and_nothing_is_half_made(spoil, field, sentence):
    answer = Browser().post("/set-up/", {**WELL, **spoil})
    assert answer.status_code == 422
    form = answer.context["form"]
    assert list(form.errors) == [field]
    assert sentence in form.errors[field][0]
    assert form.fields[field].widget.attrs["autofocus"]
    page = answer.content.decode()
    assert "Not saved yet." in page
    assert "Skerrow Harbour" in page
    assert WELL["password"] not in page
    assert not Workshop.objects.exists()
    assert not Person.objects.exists()
