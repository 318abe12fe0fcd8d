"""Whatever is typed into a measure is read, or refused with the same text shown again; the page never breaks."""

import html
import json
from uuid import uuid4

import pytest
from django.urls import reverse
from django.utils import timezone
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st

from clients.measures import BY_KEY
from clients.models import Measuring, Reading
from tests.clients.book import make_client
from workshop.length import parse_length

KEYS = st.sampled_from(sorted(BY_KEY))
DIGITS = st.integers(0, 99_999).map(str)
FRACTIONS = st.sampled_from(["", " 1/2", "¼", " 3/16", "⅞", "½½", " 5/7", " 1/0", "/", "³⁄₁₆", ".", ".5", ",25", "..", " 9/8"])
UNITS = st.sampled_from(["", " in", '"', "cm", " CM", "mm", "yd", "m", "''", "inches", "°", "”"])
BLANKS = st.sampled_from(["", " ", "\t", "\u00a0", "\u2009", "\n", "\r\n", "+", "-", "−", "\u200b"])
TAPE_LIKE = st.tuples(BLANKS, DIGITS, FRACTIONS, UNITS, BLANKS).map("".join)
ANYTHING = st.text(st.characters(codec="utf-8"), max_size=90)
TYPED = TAPE_LIKE | ANYTHING


@pytest.fixture
def url(salt_lane):
    return reverse("clients:measure", args=[make_client().pk])


def card(**measures: str) -> dict[str, str]:
    return {"token": str(uuid4()), "taken_on": timezone.localdate().isoformat()} | {f"m-{key}": text for key, text in measures.items()}


def shown_again(page: str, typed: str) -> bool:
    return f'value="{html.escape(typed.strip())}"' in page


unhurried = settings(max_examples=100, suppress_health_check=[HealthCheck.function_scoped_fixture])


@unhurried
@given(key=KEYS, typed=TYPED)
@example(key="waist", typed="28 5/7")
@example(key="waist", typed="28\x00")
@example(key="waist", typed="<script>alert(1)</script>")
@example(key="waist", typed='28" onfocus="x')
@example(key="waist", typed="１２")
def test_a_card_with_anything_typed_is_kept_or_shown_again(as_seamstress, url, key, typed):
    fields = card(**{key: typed})
    answer = as_seamstress.post(url, fields)
    kept = Reading.objects.filter(measuring__token=fields["token"])
    if answer.status_code == 302:
        (reading,) = kept
        assert reading.written == typed.strip()
        assert reading.mm == parse_length(typed.strip(), "in") > 0
    else:
        assert answer.status_code == 422
        assert not kept.exists()
        assert shown_again(answer.content.decode(), typed)


@unhurried
@given(key=KEYS, typed=TYPED)
def test_one_reading_of_anything_from_a_phone_is_kept_or_refused_with_its_text(as_seamstress, url, key, typed):
    token = str(uuid4())
    sent = {"token": token, "taken_on": timezone.localdate().isoformat(), "unit": "in", "written": {key: typed}}
    answer = as_seamstress.post(url.replace("measure", "take"), sent, "application/json", headers={"Idempotency-Key": str(uuid4())})
    kept = Reading.objects.filter(measuring__token=token).count()
    assert (answer.status_code, kept) in {(200, 1), (422, 0)}
    if answer.status_code == 422:
        assert answer.json()["refused"]


ANY_JSON = st.recursive(st.none() | st.booleans() | st.integers() | st.floats(allow_nan=False) | ANYTHING, lambda each: st.lists(each, max_size=3) | st.dictionaries(ANYTHING, each, max_size=3), max_leaves=6)
SENT = st.fixed_dictionaries({}, optional={name: ANY_JSON for name in ("token", "taken_on", "unit", "written", "sure", "about")})


@unhurried
@given(sent=SENT | ANY_JSON)
def test_whatever_a_phone_sends_is_answered_and_never_breaks(as_seamstress, url, sent):
    before = Reading.objects.count()
    body = json.dumps(sent)
    answer = as_seamstress.post(url.replace("measure", "take"), body, "application/json", headers={"Idempotency-Key": str(uuid4())})
    assert answer.status_code == 422
    assert Reading.objects.count() == before


@unhurried
@given(about=st.fixed_dictionaries({name: ANYTHING for name in ("worn", "shoes", "posture", "note", "taken_on", "token")}))
def test_whatever_is_noted_beside_the_measures_never_breaks_the_page(as_seamstress, url, about):
    answer = as_seamstress.post(url, card(waist="28") | about)
    assert answer.status_code in (302, 422)


@unhurried
@given(written=TYPED, why=ANYTHING)
def test_a_correction_of_anything_is_kept_or_shown_again(as_seamstress, url, written, why):
    fields = card(waist="28 1/16")
    as_seamstress.post(url, fields)
    reading = Measuring.objects.get(token=fields["token"]).readings.get()
    answer = as_seamstress.post(reverse("clients:correct", args=[reading.pk]), {"written": written, "why": why})
    assert answer.status_code in (302, 422)
    assert Reading.objects.filter(replaces=reading).count() == (answer.status_code == 302)


@unhurried
@given(sought=ANYTHING)
def test_a_search_for_anything_never_breaks_the_page(as_seamstress, url, sought):
    assert as_seamstress.get(reverse("clients:list"), {"q": sought, "page": sought}).status_code == 200
