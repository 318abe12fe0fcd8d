"""Deny by default, what templates are told, and what goes out with each answer."""

import pytest
from django.contrib.auth.models import AnonymousUser
from django.http import HttpResponse
from django.template import Context, Template
from django.test import Client as Browser
from django.urls import path

from tests.cast import make_person
from workshop import people
from workshop import urls as workshop_urls
from workshop.access import every_view_is_marked, may, needs, open_to_all
from workshop.models import Workshop
from workshop.people import UnknownCapability


def unmarked(request):
    return HttpResponse("secret")


@open_to_all
def broken(request):
    raise RuntimeError("on purpose")


@needs("see_money")
def owed(request):
    return HttpResponse("£340")


urlpatterns = [
    path("unmarked/", unmarked, name="unmarked"),
    path("owed/", owed),
    path("broken/", broken),
    *workshop_urls.urlpatterns,
]


@pytest.mark.urls(__name__)
def test_a_view_without_a_mark_is_refused_to_everybody_and_named_by_check(as_owner, as_nobody):
    assert as_owner.get("/unmarked/").status_code == 403
    assert as_nobody.get("/unmarked/").url == "/sign-in/?next=/unmarked/"
    assert [error.msg for error in every_view_is_marked(None)] == [
        "The view of unmarked says nothing about who may use it."
    ]


@pytest.mark.urls(__name__)
def test_a_mark_lets_in_who_has_the_capability(as_seamstress, as_apprentice):
    assert as_seamstress.get("/owed/").content == "£340".encode()
    assert as_apprentice.get("/owed/").status_code == 403


@pytest.mark.urls(__name__)
def test_a_fragment_asked_for_after_the_session_ended_takes_its_whole_page_along(as_nobody):
    headers = {"HX-Request": "true", "HX-Current-URL": "http://testserver/clients/3/"}
    answer = as_nobody.get("/owed/", headers=headers)
    assert answer.headers["HX-Redirect"] == "/sign-in/?next=/clients/3/"


@pytest.mark.urls(__name__)
def test_a_fault_of_ours_says_so_in_the_same_look(salt_lane):
    browser = Browser(raise_request_exception=False)
    answer = browser.get("/broken/")
    assert answer.status_code == 500
    assert "The fault is in the program, not in what you typed." in answer.content.decode()


def test_an_address_that_leads_nowhere_says_so(as_nobody):
    answer = as_nobody.get("/nothing/here/")
    assert answer.status_code == 404
    assert "The address leads to no page." in answer.content.decode()


def test_roles_hold_what_the_workshop_agreed():
    owner, seamstress, apprentice = (people.MAY[role] for role in ("owner", "seamstress", "apprentice"))
    assert apprentice == {"see_work", "tick_work", "see_clients", "print_sheets"}
    assert seamstress - apprentice == {
        "see_phone", "see_money", "measure", "edit_clients", "edit_orders", "take_payment", "draft"
    }  # fmt: skip
    assert owner - seamstress == {"set_price", "refund", "sign_off", "run_workshop"}


def test_a_capability_that_is_not_there_is_a_fault_and_never_a_quiet_no(hester, rf):
    request = rf.get("/")
    request.user = hester
    with pytest.raises(UnknownCapability):
        needs("see_monney")
    with pytest.raises(UnknownCapability):
        hester.may("see_monney")
    with pytest.raises(UnknownCapability):
        Template("{% if may.see_monney %}x{% endif %}").render(Context(may(request)))


@pytest.mark.parametrize(("who", "shown"), [("hester", "£"), ("pim", ""), (None, "")])
def test_templates_are_told_what_this_person_may(salt_lane, rf, who, shown):
    request = rf.get("/")
    request.user = make_person(who) if who else AnonymousUser()
    assert Template("{% if may.see_money %}£{% endif %}").render(Context(may(request))) == shown


def test_every_answer_carries_the_content_policy(as_nobody):
    for address in ("/sign-in/", "/health/", "/nothing/"):
        answer = as_nobody.get(address)
        policy = answer.headers["Content-Security-Policy"]
        assert "default-src 'none'" in policy
        assert "script-src 'self'" in policy
        assert "unsafe" not in policy
        assert "no-store" in answer.headers["Cache-Control"]


def test_no_page_of_ours_holds_inline_style_or_script(as_owner, hester):
    for address in (
        "/settings/",
        "/settings/people/",
        f"/settings/people/{hester.pk}/",
        "/you/",
        "/settings/people/add/",
    ):
        page = as_owner.get(address).content.decode()
        assert " style=" not in page
        assert "<style" not in page
        assert " onclick" not in page
        assert page.count("<script") == page.count("<script src=")


def test_the_workshop_is_read_once_a_request(salt_lane, django_assert_num_queries):
    with Workshop.kept(), django_assert_num_queries(1):
        assert [Workshop.current().name for _ in range(3)] == ["Salt Lane Sewing Room"] * 3


def test_health_answers_to_anybody(db):
    assert Browser().get("/health/").content == b"ok\n"
