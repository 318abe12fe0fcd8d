"""Phones for the browser tests."""

from datetime import timedelta
from urllib.parse import urlsplit

import pytest
from django.utils import timezone

from tests.browser.off_line import at_hand
from tests.browser.wire import Wire
from tests.clients.book import make_client, measured
from tests.conftest import PHONE


@pytest.fixture
def ines(dunya):
    ines = make_client()
    measured(ines, dunya, timezone.localdate() - timedelta(days=10))
    return ines


@pytest.fixture
def wire(live_server):
    wire = Wire((urlsplit(live_server.url).hostname, urlsplit(live_server.url).port))
    yield wire
    wire.close()


@pytest.fixture
def card(open_page, ines, dunya, let_in):
    """Ines's card on a phone, kept by it and ready to go on without a network."""
    page = open_page(PHONE, has_touch=True, is_mobile=True)
    let_in(page, dunya).goto(f"/clients/{ines.pk}/measure/")
    at_hand(page)
    return page
