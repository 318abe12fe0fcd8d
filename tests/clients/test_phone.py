"""What a phone sends, once or more often, late or at once: each reading is in the book once, or refused with a sentence."""

import json
import threading
from datetime import timedelta
from uuid import uuid4

import pytest
from django.db import connection
from django.urls import reverse
from django.utils import timezone

from clients import expected
from clients.models import READ_AGAIN, Confirmed, Measuring, Reading, Sent
from clients.sending import KEPT_FOR, forget_old
from tests.cast import browser_of, make_person, make_workshop
from tests.clients.book import inch, make_client, measured


@pytest.fixture
def ines(salt_lane):
    return make_client()


@pytest.fixture
def url(ines):
    return reverse("clients:take", args=[ines.pk])


def sending(token=None, **changes) -> dict:
    valid = {"token": str(token or uuid4()), "taken_on": timezone.localdate().isoformat(), "unit": "in", "written": {"waist": "28 1/2"}}
    return valid | changes


def send(browser, url: str, sent, key=None):
    body = sent if isinstance(sent, (str, bytes)) else json.dumps(sent)
    return browser.post(url, body, "application/json", headers={"Idempotency-Key": str(key or uuid4())})


def test_a_reading_begins_the_measuring_and_the_next_joins_it(as_seamstress, dunya, url):
    token = uuid4()
    for key, text in (("waist", "28 1/2"), ("hip", "39")):
        answer = send(as_seamstress, url, sending(token, written={key: text}, about={"worn": "long-line bra"}))
        assert answer.status_code == 200, answer.content
        assert list(answer.json()["kept"]) == [key]
    measuring = Measuring.objects.with_readings().get()
    assert (str(measuring.token), measuring.taken_by, measuring.worn) == (str(token), dunya, "long-line bra")
    assert measuring.lengths() == {"waist": inch("28.5"), "hip": inch(39)}


def test_the_same_key_and_body_get_the_same_answer_and_write_once(as_seamstress, url):
    key, sent = uuid4(), sending()
    first, second = send(as_seamstress, url, sent, key), send(as_seamstress, url, sent, key)
    assert first.status_code == second.status_code == 200
    assert first.content == second.content
    assert Reading.objects.count() == Sent.objects.count() == 1


def test_a_repeat_that_comes_after_a_correction_does_not_undo_it(as_seamstress, hester, url):
    key, sent = uuid4(), sending()
    send(as_seamstress, url, sent, key)
    Reading.objects.get().correct("29", "in", by=hester, why="Wrong side of the tape.")
    assert send(as_seamstress, url, sent, key).status_code == 200
    assert Measuring.objects.with_readings().get().lengths() == {"waist": inch(29)}


def test_the_same_key_with_another_body_is_refused(as_seamstress, url):
    key, token = uuid4(), uuid4()
    send(as_seamstress, url, sending(token), key)
    answer = send(as_seamstress, url, sending(token, written={"waist": "30"}), key)
    assert answer.status_code == 422
    assert "sent before with something else in it" in answer.json()["refused"]
    assert Reading.objects.count() == 1


def test_the_same_key_from_somebody_else_is_refused(as_seamstress, as_owner, url):
    key, sent = uuid4(), sending()
    send(as_seamstress, url, sent, key)
    assert send(as_owner, url, sent, key).status_code == 422


def test_the_key_is_kept_in_the_same_transaction_as_the_reading(as_seamstress, url, monkeypatch):
    def broken(self, **kwargs):
        raise RuntimeError("the disk is full")

    monkeypatch.setattr("django.db.models.query.QuerySet.create", broken)
    with pytest.raises(RuntimeError):
        send(as_seamstress, url, sending())
    monkeypatch.undo()
    assert Measuring.objects.count() == Reading.objects.count() == Sent.objects.count() == 0


def test_a_refused_thing_is_not_remembered_so_that_it_can_be_put_right(as_seamstress, url):
    key = uuid4()
    assert send(as_seamstress, url, sending(written={"waist": "28 5/7"}), key).status_code == 422
    assert Sent.objects.count() == 0


@pytest.mark.parametrize(
    ("spoiled", "text"),
    [
        ({"written": {"waist": "28 5/7"}}, "I can't read “28 5/7”"),
        ({"written": {"hat": "22"}}, "No measure is called “hat”."),
        ({"written": {}}, "No measure is written yet."),
        ({"written": []}, "I can't read what this phone sent."),
        ({"token": "x"}, "I can't read whose measures these are."),
        ({"unit": "yd"}, "in inches or in centimetres"),
        ({"taken_on": "soon"}, "I can't read the day"),
        ({"taken_on": "2999-01-01"}, "This phone says that it is 2999-01-01. Set its clock, then send again."),
        ({"about": {"weeks": "60"}}, "Weeks of pregnancy: “60” is outside 1 to 44 weeks."),
        ({"about": {"client": "2"}}, "I can't read what this phone sent."),
        ({"sure": ["hat"]}, "No measure is called “hat”."),
    ],
)
def test_what_cant_be_kept_is_refused_with_what_to_do(as_seamstress, url, spoiled, text):
    answer = send(as_seamstress, url, sending() | spoiled)
    assert (answer.status_code, answer.json()["refused"].startswith(text) or text in answer.json()["refused"]) == (422, True), answer.json()
    assert Measuring.objects.count() == 0


@pytest.mark.parametrize("key", ["", "x", "1234"])
def test_without_a_key_nothing_is_taken(as_seamstress, url, key):
    answer = as_seamstress.post(url, json.dumps(sending()), "application/json", headers={"Idempotency-Key": key})
    assert answer.status_code == 400
    assert Reading.objects.count() == 0


def test_a_body_longer_than_any_card_and_a_client_that_is_gone_are_refused(as_seamstress, url):
    assert send(as_seamstress, url, sending(about={"note": "x" * 20_000})).status_code == 422
    gone = reverse("clients:take", args=[99])
    assert "no longer in the book" in send(as_seamstress, gone, sending()).json()["refused"]


def test_a_card_begun_for_another_client_is_refused(as_seamstress, url):
    token = uuid4()
    send(as_seamstress, url, sending(token))
    other = reverse("clients:take", args=[make_client("Marit Solheim").pk])
    assert "another client" in send(as_seamstress, other, sending(token, written={"waist": "30"})).json()["refused"]


def test_a_phone_an_hour_ahead_is_taken_as_today(as_seamstress, url):
    tomorrow = timezone.localdate() + timedelta(days=1)
    assert send(as_seamstress, url, sending(taken_on=tomorrow.isoformat())).status_code == 200
    assert Measuring.objects.get().taken_on == timezone.localdate()


def test_the_unit_is_the_one_in_which_it_was_written(as_seamstress, url):
    send(as_seamstress, url, sending(unit="cm", written={"waist": "71,2"}))
    assert Reading.objects.get().mm == 712


def test_the_tape_read_again_is_a_correction(as_seamstress, url):
    token = uuid4()
    for text in ("28", "28 1/2"):
        send(as_seamstress, url, sending(token, written={"waist": text}))
    assert list(Reading.objects.order_by("pk").values_list("written", "why")) == [("28", ""), ("28 1/2", READ_AGAIN)]


def test_what_was_worn_goes_by_itself_once_there_is_a_measuring(as_seamstress, url):
    token = uuid4()
    send(as_seamstress, url, sending(token, about={"worn": "long-line bra"}))
    send(as_seamstress, url, sending(token, written={}, about={"shoes": "2 in heels"}))
    measuring = Measuring.objects.get()
    assert (measuring.worn, measuring.shoes) == ("long-line bra", "2 in heels")


def test_a_second_phone_is_another_measuring_never_a_conflict(as_seamstress, as_owner, url):
    send(as_seamstress, url, sending())
    send(as_owner, url, sending(written={"waist": "29"}))
    assert Measuring.objects.count() == 2


def test_a_reading_that_looks_odd_and_was_kept_is_not_asked_about_again(as_seamstress, dunya, ines, url):
    measured(ines, dunya, timezone.localdate() - timedelta(days=10), waist="28")
    token = uuid4()
    send(as_seamstress, url, sending(token, written={"waist": "32 1/2"}))
    odd = "4½ more than on"
    assert odd in as_seamstress.get(ines.get_absolute_url()).content.decode()
    send(as_seamstress, url, sending(token, written={"waist": "32 1/2"}, sure=["waist"]))
    assert Confirmed.objects.get().by == dunya
    for page in (ines.get_absolute_url(), reverse("clients:measure", args=[ines.pk])):
        assert odd not in as_seamstress.get(page).content.decode()
    # Another figure is another question.
    send(as_seamstress, url, sending(token, written={"waist": "33 1/2"}))
    assert "5½ more than on" in as_seamstress.get(ines.get_absolute_url()).content.decode()


def test_measures_that_contradict_each_other_and_were_kept_are_settled(as_seamstress, ines, url):
    token = uuid4()
    send(as_seamstress, url, sending(token, written={"under_bust": "37"}))
    send(as_seamstress, url, sending(token, written={"bust": "36"}, sure=["bust"]))
    said = "Under-bust 37 is more than bust 36"
    assert said not in as_seamstress.get(ines.get_absolute_url()).content.decode()
    send(as_seamstress, url, sending(token, written={"under_bust": "38"}))
    assert "Under-bust 38 is more than bust 36" in as_seamstress.get(ines.get_absolute_url()).content.decode()


def test_old_answers_are_forgotten_and_newer_ones_kept(as_seamstress, url):
    send(as_seamstress, url, sending())
    assert KEPT_FOR >= timedelta(days=30)
    assert forget_old(timezone.now() + timedelta(days=30)) == 0
    assert forget_old(timezone.now() + KEPT_FOR + timedelta(days=1)) == 1


def test_the_phone_is_told_who_comes_today_and_who_was_measured_last(as_seamstress, dunya, ines, monkeypatch):
    marit, other = make_client("Marit Solheim"), make_client("Zoë Łukasz")
    measured(ines, dunya, waist="28")
    monkeypatch.setattr(expected, "_clients_of", [lambda day: [marit.pk, marit.pk, 999]])
    told = as_seamstress.get(reverse("clients:at-hand")).json()
    assert [each["name"] for each in told["clients"]] == ["Marit Solheim", "Ines Varga"]
    assert str(other.pk) not in [each["card"] for each in told["clients"]]


def test_the_phones_own_part_may_answer_for_the_whole_workshop_and_is_never_stale(as_nobody):
    answer = as_nobody.get(reverse("clients:worker"))
    assert answer.headers["Service-Worker-Allowed"] == "/"
    assert answer.headers["Cache-Control"] == "no-cache"
    assert answer.headers["Content-Type"].startswith("text/javascript")
    shell = json.loads(answer.content.decode().split("\n")[0].removeprefix("const known = ").removesuffix(";"))["shell"]
    from django.contrib.staticfiles import finders

    assert all(finders.find(each.removeprefix("/static/")) for each in shell if each.startswith("/static/"))


def test_the_page_for_no_network_names_nobody(as_seamstress, dunya):
    page = as_seamstress.get(reverse("clients:off-line")).content.decode()
    assert "Dunya" not in page
    assert "chalk-phone" not in page


def test_the_manifest_has_icons_that_are_there(as_nobody):
    from django.contrib.staticfiles import finders

    told = as_nobody.get(reverse("clients:manifest")).json()
    assert told["name"] == "Salt Lane Sewing Room"
    assert {each["sizes"] for each in told["icons"]} == {"192x192", "512x512"}
    assert all(finders.find(each["src"].removeprefix("/static/")) for each in told["icons"])


@pytest.mark.django_db(transaction=True)
def test_eight_at_once_write_each_reading_once(transactional_db):
    make_workshop()
    client, people = make_client(), [make_person(f"p{n}", role="seamstress") for n in range(4)]
    url = reverse("clients:take", args=[client.pk])
    sent = [(sending(), uuid4()) for _ in range(4)]
    answers = []

    def repeat(person, thing, key):
        browser = browser_of(person)
        answers.extend(send(browser, url, thing, key).status_code for _ in range(3))
        connection.close()

    threads = [threading.Thread(target=repeat, args=(people[n % 4], *sent[n % 4])) for n in range(8)]
    for each in threads:
        each.start()
    for each in threads:
        each.join()
    assert answers == [200] * 24
    assert Measuring.objects.count() == Reading.objects.count() == 4
