"""Signing in and out, and the wait after wrong passwords."""

from datetime import timedelta

import pytest
from django.contrib.sessions.models import Session
from django.test import Client as Browser
from django.utils import timezone

from tests.cast import PASSWORD
from workshop import throttle
from workshop.models import SignInAttempts

WRONG = "another row of words"


def sign_in(browser, name="hester", password=PASSWORD, **more):
    return browser.post("/sign-in/", {"name": name, "password": password, **more})


def test_the_right_password_leads_to_today(as_nobody, hester):
    answer = sign_in(as_nobody)
    assert (answer.status_code, answer.url) == (302, "/")
    assert as_nobody.get("/you/").status_code == 200


def test_it_leads_back_to_the_page_that_was_asked_for(as_nobody, hester):
    asked = as_nobody.get("/settings/?a=b")
    assert asked.url == "/sign-in/?next=/settings/%3Fa%3Db"
    page = as_nobody.get(asked.url)
    assert page.context["next"] == "/settings/?a=b"
    assert sign_in(as_nobody, next=page.context["next"]).url == "/settings/?a=b"


@pytest.mark.parametrize(
    "elsewhere", ["https://elsewhere.example/", "//elsewhere.example", "javascript:alert(1)", "\\\\e"]
)
def test_it_never_leads_to_another_site(as_nobody, hester, elsewhere):
    assert sign_in(as_nobody, next=elsewhere).url == "/"


@pytest.mark.parametrize("typed", ["Hester", " HESTER ", "hester"])
def test_a_phones_capital_letter_makes_no_difference(as_nobody, hester, typed):
    assert sign_in(as_nobody, name=typed).status_code == 302


def test_a_wrong_password_is_refused_in_plain_words_and_the_name_stays(as_nobody, hester):
    answer = sign_in(as_nobody, password=WRONG)
    assert answer.status_code == 422
    page = answer.content.decode()
    assert "That name and password don't go together." in page
    assert 'value="hester"' in page
    assert WRONG not in page


def test_an_unknown_name_gets_the_same_answer_as_a_wrong_password(as_nobody, hester):
    unknown, wrong = (
        sign_in(Browser(REMOTE_ADDR=f"192.0.2.{n}"), name=name, password=WRONG).content.decode()
        for n, name in enumerate(("nobody", "hester"))
    )

    def without_tokens(page):
        return [line for line in page.replace("nobody", "hester").splitlines() if "csrf" not in line.lower()]

    assert without_tokens(unknown) == without_tokens(wrong)


def test_somebody_whose_sign_in_is_stopped_stays_out(as_nobody, hester):
    hester.is_active = False
    hester.save(update_fields=["is_active"])
    assert sign_in(as_nobody).status_code == 422


def test_stopping_a_sign_in_ends_what_is_open(as_apprentice, pim):
    assert as_apprentice.get("/you/").status_code == 200
    pim.is_active = False
    pim.save(update_fields=["is_active"])
    assert as_apprentice.get("/you/").url == "/sign-in/?next=/you/"


def test_signing_in_changes_the_session_and_the_form_token(as_nobody, hester):
    as_nobody.get("/sign-in/")
    before = as_nobody.cookies["csrftoken"].value
    session = as_nobody.session
    session["somebody"] = "planted"
    session.save()
    planted = session.session_key
    sign_in(as_nobody)
    assert as_nobody.session.session_key != planted
    assert as_nobody.cookies["csrftoken"].value != before


def test_the_session_cookie_is_closed_to_scripts_and_other_sites(as_nobody, hester, settings):
    sign_in(as_nobody)
    cookie = as_nobody.cookies[settings.SESSION_COOKIE_NAME]
    assert (cookie["httponly"], cookie["samesite"]) == (True, "Lax")


def test_signing_out_ends_the_session_and_empties_the_browsers_store(as_owner):
    answer = as_owner.post("/sign-out/")
    assert (answer.status_code, answer.url, answer.headers["Clear-Site-Data"]) == (302, "/sign-in/", '"cache"')
    assert Session.objects.count() == 0
    assert as_owner.get("/you/").status_code == 302


def test_signing_out_needs_a_form_of_ours(hester):
    browser = Browser(enforce_csrf_checks=True)
    browser.force_login(hester)
    assert browser.get("/sign-out/").status_code == 405
    answer = browser.post("/sign-out/")
    assert answer.status_code == 403
    assert "Not saved" in answer.content.decode()


def test_whoever_is_signed_in_is_not_asked_again(as_owner):
    assert as_owner.get("/sign-in/").url == "/"


def test_the_sixth_wrong_password_has_to_wait_and_is_told_how_long(as_nobody, hester):
    for _ in range(throttle.FREE_FOR_NAME):
        assert sign_in(as_nobody, password=WRONG).status_code == 422
    answer = sign_in(as_nobody)
    assert answer.status_code == 429
    assert answer.headers["Retry-After"] == "2"
    assert "Wait 2 seconds, then try again." in answer.content.decode()


def test_after_the_wait_the_right_password_works(as_nobody, hester):
    for _ in range(throttle.FREE_FOR_NAME):
        sign_in(as_nobody, password=WRONG)
    SignInAttempts.objects.update(last_failed_at=timezone.now() - timedelta(seconds=3))
    assert sign_in(as_nobody).status_code == 302


def test_a_guesser_elsewhere_does_not_lock_her_out(as_nobody, hester):
    guesser = Browser(REMOTE_ADDR="198.51.100.7")
    for _ in range(12):
        sign_in(guesser, password=WRONG)
    assert sign_in(guesser).status_code == 429
    assert sign_in(as_nobody).status_code == 302


def nonsense_from_here(tries: int) -> None:
    for n in range(tries):
        throttle.note_failure(name=f"nonsense{n}", address="127.0.0.1", now=timezone.now())


def test_whatever_nonsense_comes_from_an_address_the_right_password_gets_in_there(as_nobody, hester):
    nonsense_from_here(3 * throttle.FREE_FOR_ADDRESS)
    assert sign_in(as_nobody).status_code == 302


@pytest.mark.parametrize("name", ["hester", "nobody"])
def test_at_an_address_that_tried_many_names_each_name_has_one_guess_known_or_not(as_nobody, hester, name):
    nonsense_from_here(throttle.FREE_FOR_ADDRESS)
    assert sign_in(as_nobody, name=name, password=WRONG).status_code == 422
    assert sign_in(as_nobody, name=name, password=WRONG).status_code == 429


def test_her_wait_there_runs_from_her_own_slip_and_nonsense_after_it_adds_none(as_nobody, hester):
    nonsense_from_here(2 * throttle.FREE_FOR_ADDRESS)
    slip = timezone.now()
    throttle.note_failure(name="hester", address="127.0.0.1", now=slip)
    later = slip + throttle.LONGEST_WAIT
    for n in range(20):
        throttle.note_failure(name=f"more{n}", address="127.0.0.1", now=later)
    assert throttle.seconds_to_wait(name="hester", address="127.0.0.1", now=slip) == 300
    assert throttle.seconds_to_wait(name="hester", address="127.0.0.1", now=later) == 0
    assert throttle.seconds_to_wait(name="hester", address="203.0.113.9", now=slip) == 0


@pytest.mark.django_db
def test_each_failure_doubles_the_wait_up_to_five_minutes_and_a_quiet_hour_clears_it():
    now = timezone.now()
    waits = []
    for _ in range(16):
        throttle.note_failure(name="hester", address="192.0.2.1", now=now)
        waits.append(throttle.seconds_to_wait(name="hester", address="192.0.2.1", now=now))
    assert waits == [0, 0, 0, 0, 2, 4, 8, 16, 32, 64, 128, 256, 300, 300, 300, 300]
    later = now + timedelta(minutes=61)
    assert throttle.seconds_to_wait(name="hester", address="192.0.2.1", now=later) == 0
    throttle.note_failure(name="dunya", address="192.0.2.1", now=later)
    assert sorted(SignInAttempts.objects.values_list("failures", flat=True)) == [1, 1]


@pytest.mark.django_db
def test_no_typed_name_is_kept_in_the_clear():
    throttle.note_failure(name="my password by mistake", address="192.0.2.1", now=timezone.now())
    kept = " ".join(SignInAttempts.objects.values_list("bucket", flat=True))
    assert "password" not in kept
    assert "192.0.2.1" not in kept


@pytest.mark.parametrize(
    ("hops", "forwarded", "address"),
    [(0, "203.0.113.5", "127.0.0.1"), (1, "1.2.3.4, 203.0.113.5", "203.0.113.5"), (1, "", "127.0.0.1")],
)
def test_only_our_own_proxys_word_is_taken_for_the_address(rf, settings, hops, forwarded, address):
    settings.PROXY_HOPS = hops
    headers = {"X-Forwarded-For": forwarded} if forwarded else {}
    assert throttle.address_of(rf.get("/", headers=headers)) == address
