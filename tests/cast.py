"""A small fixed cast for every test: the Salt Lane Sewing Room, its three people and how they sign in.

Plain functions for those who want rows, fixtures for those who want them made.
"""

import pytest
from django.test import Client as Browser

from workshop.models import Person, Workshop

PASSWORD = "a long row of words"

PEOPLE = {"hester": ("Hester", "owner"), "dunya": ("Dunya", "seamstress"), "pim": ("Pim", "apprentice")}
SIGN_IN_NAME = {role: name for name, (_, role) in PEOPLE.items()}
ROLES = tuple(SIGN_IN_NAME)


def make_workshop(**changes) -> Workshop:
    given = {"name": "Salt Lane Sewing Room", "town": "Skerrow Harbour", "currency": "GBP", "unit": "in", "paper": "A4"}
    return Workshop.objects.create(pk=1, **{**given, **changes})


def make_person(sign_in_name: str, **changes) -> Person:
    display_name, role = PEOPLE.get(sign_in_name, (sign_in_name.capitalize(), "apprentice"))
    given = {"display_name": display_name, "role": role, "password": PASSWORD}
    return Person.objects.create_user(sign_in_name, **{**given, **changes})


def browser_of(person: Person | None) -> Browser:
    """A browser with that person signed in (nobody, for None)."""
    browser = Browser()
    if person is not None:
        browser.force_login(person)
    return browser


@pytest.fixture
def salt_lane(db) -> Workshop:
    """The workshop, set up in inches and pounds."""
    return make_workshop()


@pytest.fixture
def hester(salt_lane) -> Person:
    """The owner."""
    return make_person("hester")


@pytest.fixture
def dunya(salt_lane) -> Person:
    """The seamstress."""
    return make_person("dunya")


@pytest.fixture
def pim(salt_lane) -> Person:
    """The apprentice."""
    return make_person("pim")


@pytest.fixture
def as_owner(hester) -> Browser:
    return browser_of(hester)


@pytest.fixture
def as_seamstress(dunya) -> Browser:
    return browser_of(dunya)


@pytest.fixture
def as_apprentice(pim) -> Browser:
    return browser_of(pim)


@pytest.fixture
def as_nobody(salt_lane) -> Browser:
    """A browser that nobody has signed in with."""
    return browser_of(None)
