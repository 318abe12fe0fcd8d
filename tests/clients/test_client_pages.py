"""Finding, adding, changing and seeing a client."""

from datetime import date, timedelta

import pytest
from django.urls import reverse
from django.utils import timezone

from clients import panels
from clients.models import Client
from tests.clients.book import make_client, measured

ADD, LIST = reverse("clients:add"), reverse("clients:list")
VALID = {"name": "Ines Varga", "phone": "07700 900418", "note": "Prefers a message.", "consent_on": "2026-03-02"}


@pytest.fixture
def ines(salt_lane):
    return make_client()


def test_a_page_opened_before_shows_what_was_put_right_since(as_seamstress, hester):
    ines = make_client()
    reading = measured(ines, hester, waist="28").current()["waist"]
    for _ in range(2):
        assert ">28</a>" in as_seamstress.get(ines.get_absolute_url()).content.decode()
    reading.correct("28 3/4", "in", by=hester, why="Read again.")
    page = as_seamstress.get(ines.get_absolute_url()).content.decode()
    assert ">28¾</a>" in page
    assert "“Read again.”" in page


def test_a_name_alone_is_enough(as_seamstress):
    answer = as_seamstress.post(ADD, {"name": "  Zoë   Łukasz "})
    zoe = Client.objects.get()
    assert answer.status_code == 302
    assert answer.url == zoe.get_absolute_url()
    assert (zoe.name, zoe.name_folded, zoe.phone) == ("Zoë Łukasz", "zoe lukasz", "")


def test_everything_that_was_typed_is_kept(as_owner):
    as_owner.post(ADD, VALID)
    ines = Client.objects.get()
    assert (ines.phone_digits, ines.note, ines.consent_on) == ("07700900418", "Prefers a message.", date(2026, 3, 2))


@pytest.mark.parametrize(
    ("spoiled", "text"),
    [
        ({"name": "  "}, "Name is empty. Write it here."),
        ({"phone": "ask the sister"}, "I can&#x27;t read “ask the sister” as a number"),
        ({"consent_on": "12th of May"}, "I can&#x27;t read this day."),
        ({"consent_on": (timezone.localdate() + timedelta(days=2)).isoformat()}, "This day is still to come."),
        ({"consent_on": "1026-03-02"}, "This day is too long ago."),
        ({"name": "x" * 121}, "120"),
        ({"name": "In\x00es"}, "Null characters"),
    ],
)
def test_a_spoiled_field_is_refused_and_what_was_typed_stays(as_owner, spoiled, text):
    answer = as_owner.post(ADD, VALID | spoiled)
    assert answer.status_code == 422
    assert Client.objects.count() == 0
    page = answer.content.decode()
    assert text in page
    assert "Prefers a message." in page


def test_a_name_already_in_the_book_is_asked_about_and_may_be_a_second_person(as_owner, ines):
    answer = as_owner.post(ADD, VALID | {"name": "INES VARGA"})
    assert answer.status_code == 422
    assert "Ines Varga is in the book already" in answer.content.decode()
    assert as_owner.post(ADD, VALID | {"second": "on"}).status_code == 302
    assert Client.objects.count() == 2


def test_a_change_is_saved_and_found_by(as_owner, ines):
    answer = as_owner.post(reverse("clients:edit", args=[ines.pk]), VALID | {"name": "Ágnes Varga", "phone": "01632 960123"})
    assert answer.status_code == 302
    assert list(Client.objects.matching("agnes", with_phone=True)) == [ines]
    assert list(Client.objects.matching("0123", with_phone=True)) == [ines]


def test_a_refused_change_keeps_the_name_in_the_head_and_the_text_in_the_field(as_owner, ines):
    answer = as_owner.post(reverse("clients:edit", args=[ines.pk]), VALID | {"name": "", "note": "new note"})
    page = answer.content.decode()
    assert answer.status_code == 422
    assert "Ines Varga" in page
    assert "new note" in page
    ines.refresh_from_db()
    assert ines.name == "Ines Varga"


@pytest.mark.parametrize("name", ["list", "show"])
def test_pages_that_only_show_refuse_to_be_posted_to(as_owner, ines, name):
    assert as_owner.post(reverse(f"clients:{name}", args=[ines.pk] if name == "show" else [])).status_code == 405


def test_the_list_finds_by_name_and_by_phone(as_seamstress, ines):
    make_client("Marit Solheim", phone="07700 900401")
    for sought in ("varg", "418"):
        page = as_seamstress.get(LIST, {"q": sought}).content.decode()
        assert "Ines Varga" in page
        assert "Marit Solheim" not in page


def test_a_search_by_htmx_answers_the_list_alone(as_seamstress, ines):
    page = as_seamstress.get(LIST, {"q": "ines"}, headers={"hx-request": "true"}).content.decode()
    assert "Ines Varga" in page
    assert "<html" not in page


def test_a_search_for_nobody_offers_to_add_them(as_seamstress, ines):
    page = as_seamstress.get(LIST, {"q": "Thea & Co"}).content.decode()
    assert f"{ADD}?name=Thea%20%26%20Co" in page


def test_an_empty_book_says_how_to_start(as_owner):
    assert "A name is enough to start." in as_owner.get(LIST).content.decode()


def test_the_way_to_take_measures_leads_over_the_list(as_seamstress, as_apprentice, ines):
    to_measure = reverse("clients:measure", args=[ines.pk])
    assert to_measure in as_seamstress.get(LIST, {"measure": 1}).content.decode()
    assert to_measure not in as_apprentice.get(LIST, {"measure": 1}).content.decode()


def test_long_lists_come_in_pages(as_owner):
    Client.objects.bulk_create([Client(name=f"Client {n:03}") for n in range(120)])
    assert "Page 3 of 3" in as_owner.get(LIST, {"page": 3}).content.decode()
    assert "Page 3 of 3" in as_owner.get(LIST, {"page": "99"}).content.decode()
    assert "Page 1 of 3" in as_owner.get(LIST, {"page": "<x>"}).content.decode()


def test_a_clients_page_shows_phone_note_and_measures(as_seamstress, ines, hester):
    ines.note = "Prefers <b>a message</b>."
    ines.save(update_fields=["note"])
    measured(ines, hester, about={"worn": "long-line bra", "shoes": "2 in heels"})
    page = as_seamstress.get(ines.get_absolute_url()).content.decode()
    for text in ("07700 900418", "Prefers &lt;b&gt;a message&lt;/b&gt;.", "36¼", "Hester", "long-line bra", "2 in heels"):
        assert text in page
    assert reverse("clients:measure", args=[ines.pk]) in page


def test_every_figure_leads_to_where_it_is_put_right(as_seamstress, as_apprentice, ines, hester):
    reading = measured(ines, hester).current()["waist"]
    to_correct = f'<a href="{reverse("clients:correct", args=[reading.pk])}">28</a>'
    assert to_correct in as_seamstress.get(ines.get_absolute_url()).content.decode()
    assert to_correct not in as_apprentice.get(ines.get_absolute_url()).content.decode()


def test_an_apprentice_sees_the_client_but_no_phone_on_any_page(as_apprentice, ines, hester):
    measured(ines, hester)
    for url in (LIST, f"{LIST}?q=ines", ines.get_absolute_url()):
        page = as_apprentice.get(url).content.decode()
        assert "Ines Varga" in page
        assert "900418" not in page
        assert "07700" not in page
        assert "clients/1/measure" not in page
    assert "36¼" in as_apprentice.get(ines.get_absolute_url()).content.decode()


def test_an_apprentice_cant_guess_a_phone_by_searching(as_apprentice, ines):
    assert "Nobody in the book" in as_apprentice.get(LIST, {"q": "418"}).content.decode()


def test_an_unknown_client_is_not_found(as_owner, salt_lane):
    assert as_owner.get(reverse("clients:show", args=[999])).status_code == 404


@pytest.fixture
def registered():
    """Panels registered by a test are gone after it."""
    before = list(panels._panels)
    yield panels.register
    panels._panels[:] = before


def test_other_parts_of_the_workshop_add_their_panels(as_apprentice, ines, registered):
    seen = []

    def panel(client, user):
        seen.append((client, user.role))
        return "clients/_taken.html", {"card": {"taken": 7, "all": "<26>"}}

    registered(panel)
    registered(panel)
    registered(lambda client, user: None)
    page = as_apprentice.get(ines.get_absolute_url()).content.decode()
    assert seen == [(ines, "apprentice")]
    assert "7 of &lt;26&gt; taken" in page
