"""How often a page asks the database: the same for one row and for many."""

from datetime import timedelta
from uuid import uuid4

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from django.utils import timezone

from clients.models import Client
from tests.clients.book import AGREEING, make_client, measured

ALL_26 = AGREEING | {
    "neck": "14 1/2", "upper_arm": "11", "elbow": "9 1/2", "wrist": "6 1/4", "knee": "14", "waist_to_knee": "23",
    "sleeve_length": "23", "shoulder_to_elbow": "13", "height": "65", "skirt_length": "40", "dress_length": "56",
}  # fmt: skip


def asked(browser, url: str, *, data=None) -> int:
    with CaptureQueriesContext(connection) as queries:
        answer = browser.post(url, data) if data else browser.get(url)
    assert answer.status_code in (200, 302)
    return len(queries)


@pytest.fixture
def ines(salt_lane):
    return make_client()


def measured_often(client, people, times: int) -> None:
    for number in range(times):
        by = people[number % len(people)]
        measuring = measured(client, by, timezone.localdate() - timedelta(days=30 * number), **ALL_26)
        measuring.current()["waist"].correct("27 3/4", "in", by=people[-1], why="Read again.")


def test_a_clients_page_asks_no_more_for_twelve_measurings_than_for_one(as_seamstress, ines, hester, dunya):
    measured_often(ines, [dunya], 1)
    few = asked(as_seamstress, ines.get_absolute_url())
    measured_often(ines, [hester, dunya], 11)
    assert asked(as_seamstress, ines.get_absolute_url()) == few <= 8


def test_the_list_asks_no_more_for_a_thousand_clients_than_for_ten(as_seamstress, hester, ines):
    url = reverse("clients:list")
    Client.objects.bulk_create([Client(name=f"Client {n}") for n in range(10)])
    measured(ines, hester)
    few = asked(as_seamstress, url)
    Client.objects.bulk_create([Client(name=f"Client {n}") for n in range(1000)])
    assert asked(as_seamstress, url) == few <= 6
    assert asked(as_seamstress, url + "?q=client") <= 6


def test_the_card_asks_no_more_after_twelve_measurings_than_after_one(as_seamstress, ines, hester):
    url = reverse("clients:measure", args=[ines.pk])
    measured_often(ines, [hester], 1)
    few = asked(as_seamstress, url)
    measured_often(ines, [hester], 11)
    assert asked(as_seamstress, url) == few <= 8


def test_keeping_a_card_asks_no_more_for_all_measures_than_for_one(as_seamstress, ines):
    url = reverse("clients:measure", args=[ines.pk])

    def card(measures: dict[str, str]) -> dict[str, str]:
        return {"token": str(uuid4()), "taken_on": timezone.localdate().isoformat()} | {f"m-{key}": text for key, text in measures.items()}

    few = asked(as_seamstress, url, data=card({"waist": "28"}))
    assert asked(as_seamstress, url, data=card(ALL_26)) == few
