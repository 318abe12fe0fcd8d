"""What a phone must fetch before it can measure: the page, and all scripts, compressed as they are sent."""

import gzip

import pytest
from django.urls import reverse

from clients import bundle
from tests.clients.book import make_client, measured


def test_all_scripts_of_the_measuring_page_are_under_30_kb():
    assert len(gzip.compress(bundle.scripts().encode(), 6)) < 30_000


@pytest.mark.parametrize("times", [0, 12])
def test_the_measuring_page_is_under_14_kb_however_often_somebody_was_measured(as_seamstress, dunya, times):
    client = make_client()
    for _ in range(times):
        measured(client, dunya)
    page = as_seamstress.get(reverse("clients:measure", args=[client.pk]) + "?anew", headers={"Accept-Encoding": "gzip"})
    assert page.headers["Content-Encoding"] == "gzip"
    assert len(page.content) < 14_000
