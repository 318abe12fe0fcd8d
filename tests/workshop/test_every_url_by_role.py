"""Every address, by nobody and by each role, read and sent: compared with a table. One without a row fails."""

from types import SimpleNamespace
from urllib.parse import urlencode

import pytest
from django.conf import settings
from django.core.checks import run_checks
from django.urls import get_resolver, reverse

from tests.cast import SIGN_IN_NAME, browser_of, make_person, make_workshop
from tests.workshop.url_table import TABLE
from workshop.access import walk

LETTERS = {"owner": "o", "seamstress": "s", "apprentice": "a", None: "-"}
NAMES = sorted({name for name, _ in walk(get_resolver())})


def allowed(who: str | None, roles: str) -> bool:
    return roles == "all" or LETTERS[who] in roles.split()


@pytest.fixture
def cast(db):
    make_workshop()
    made = {}

    def once(what, make):
        if what not in made:
            made[what] = make()
        return made[what]

    return SimpleNamespace(people={role: make_person(name) for role, name in SIGN_IN_NAME.items()}, once=once)


def test_no_address_is_missing_from_the_table():
    assert [name for name in NAMES if name not in TABLE] == []


def test_no_row_is_left_of_an_address_that_is_gone():
    assert [name for name in TABLE if name not in NAMES] == []


def test_every_view_says_what_it_needs():
    assert [error for error in run_checks() if error.id == "workshop.E001"] == []


@pytest.mark.parametrize("who", LETTERS, ids=str)
@pytest.mark.parametrize("name", NAMES)
def test_each_role_gets_in_where_the_table_says_and_nowhere_else(cast, pressed_once, name, who):
    row = TABLE.get(name)
    assert row is not None, f"{name} has no row in tests/workshop/url_table.py"
    args = row.args(cast)
    url = reverse(name, kwargs=args) if isinstance(args, dict) else reverse(name, args=args)
    url += f"?{urlencode(query)}" if (query := row.query(cast)) else ""
    browser = browser_of(cast.people[who] if who else None)
    for method, roles in (("get", row.get), ("post", row.post)):
        answer = getattr(browser, method)(url)
        to_sign_in = answer.status_code == 302 and answer.url.startswith(reverse(settings.LOGIN_URL) + "?")
        told = f"{method} {url} by {who}: {answer.status_code} {answer.headers.get('Location', '')}"
        if allowed(who, roles):
            assert answer.status_code not in (401, 403, 404, 405, 500) and not to_sign_in, told
        elif roles == "" and who and allowed(who, row.get if method == "post" else row.post):
            assert answer.status_code == 405, told
        elif who is None:
            assert to_sign_in or (roles == "" and answer.status_code == 405), told
        else:
            assert answer.status_code == 403 or (roles == "" and answer.status_code == 405), told
