"""What pages print with: lengths, money, days, icons, the words of the navigation."""

from datetime import UTC, date, datetime
from decimal import Decimal

import pytest
from django.template import Context, Template
from django.utils import timezone

from tests.cast import make_workshop

pytestmark = pytest.mark.django_db


def printed(source: str, **given) -> str:
    return Template("{% load workshop_tags %}" + source).render(Context(given)).replace("\u00a0", " ")


def test_lengths_and_money_follow_the_workshop():
    make_workshop(unit="in", currency="GBP")
    given = {"mm": Decimal("723.9"), "less": Decimal("-6.35"), "sum": Decimal("340")}
    assert printed(
        "{{ mm|length }} {{ mm|length_with_unit }} {{ less|change }} {{ mm|cloth }} {{ sum|money }}", **given
    ) == ("28½ 28½ in −¼ ⅞ yd £340")


def test_a_metric_workshop_sees_centimetres():
    make_workshop(unit="cm", currency="NGN")
    assert printed("{{ mm|length }} {{ mm|cloth }} {{ sum|money }}", mm=723.9, sum=410000) == "72.4 0.8 m ₦410,000"


def test_sixteenths_on_request_and_a_dot_for_what_was_not_taken():
    make_workshop()
    assert printed("{{ mm|length:16 }} {{ none|length }} {{ none|money }} {{ none|day }}", mm=87.3125, none=None) == (
        "3⁷⁄₁₆ · · ·"
    )


def test_a_list_is_still_counted():
    assert printed("{{ some|length }}", some=[1, 2, 3]) == "3"


def test_a_day_has_its_year_only_where_it_is_another(monkeypatch):
    monkeypatch.setattr(timezone, "localdate", lambda: date(2026, 3, 12))
    source = "{{ d|day }}; {{ d|weekday }}; {{ d|short_day }}"
    assert printed(source, d=date(2026, 3, 12)) == "12 March; Thursday 12 March; Thu 12 Mar"
    assert printed("{{ d|day }}", d=date(2025, 12, 31)) == "31 December 2025"


def test_moments_are_told_by_the_workshops_clock(settings):
    settings.TIME_ZONE = "Europe/London"
    # Summer time: 23:30 by UTC is half past midnight of the next day in London (GB rules, from memory).
    assert (
        printed("{{ m|clock }} {{ m|day }}", m=datetime(timezone.localdate().year, 7, 1, 23, 30, tzinfo=UTC))
        == "0:30 2 July"
    )


def test_an_icon_is_named_only_where_it_stands_alone():
    assert 'aria-hidden="true"' in printed('{% icon "tick" %}')
    assert 'role="img" aria-label="Print"' in printed('{% icon "print" "Print" %}')
    assert "&lt;b&gt;" in printed('{% icon "print" title %}', title="<b>")


def test_every_icon_that_a_page_asks_for_is_drawn(settings):
    import re

    drawn = set(re.findall(r'<symbol id="([a-z-]+)"', (settings.BASE_DIR / "static/icons/icons.svg").read_text()))
    asked = set()
    for template in (settings.BASE_DIR / "templates").rglob("*.*"):
        asked |= set(re.findall(r'icon[ (]"([a-z-]+)"', template.read_text()))
    assert {"print", "alert", "tick", "phone", "back", "rub-out", "tape"} <= drawn
    assert asked <= drawn


def words_on(page: str) -> list[str]:
    import re

    nav = page[page.index('<nav class="nav"') : page.index("</nav>")]
    return re.findall(r">([A-Z][a-z]+)</a>", nav)


def test_settings_is_a_word_for_the_owner_alone(as_owner, as_apprentice):
    assert words_on(as_owner.get("/you/").content.decode())[-1] == "Settings"
    assert "Settings" not in words_on(as_apprentice.get("/you/").content.decode())


def test_take_measures_is_there_for_those_who_measure(as_seamstress, as_apprentice):
    assert "Take measures" in as_seamstress.get("/you/").content.decode()
    assert "Take measures" not in as_apprentice.get("/you/").content.decode()


def test_the_current_word_is_marked(as_owner):
    page = as_owner.get("/settings/people/").content.decode()
    assert '<a href="/settings/" aria-current="page">Settings</a>' in page
    assert page.count("aria-current") == 1
