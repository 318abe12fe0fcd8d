"""Taking measures card by card, as without scripts, and putting one right."""

import re
from datetime import timedelta
from uuid import uuid4

import pytest
from django.urls import reverse
from django.utils import timezone

from clients import expected
from clients.measures import BY_KEY
from clients.models import Measuring, Reading
from tests.clients.book import AGREEING, make_client, measured


@pytest.fixture
def ines(salt_lane):
    return make_client()


@pytest.fixture
def url(ines):
    return reverse("clients:measure", args=[ines.pk])


def card(token=None, **changes: str) -> dict[str, str]:
    """A whole card as a browser sends it: every measure's field, most of them empty."""
    about = {"token": str(token or uuid4()), "worn": "long-line bra", "shoes": "", "posture": "", "note": "", "weeks": "", "taken_on": timezone.localdate().isoformat()}
    fields = {f"m-{key}": changes.pop(key, "") for key in BY_KEY}
    return about | fields | changes


# The whole card -------------------------------------------------------------------------------------------------


def test_a_whole_card_is_kept_and_leads_to_the_client(as_seamstress, dunya, ines, url):
    answer = as_seamstress.post(url, card(**AGREEING, posture="left shoulder low"))
    assert (answer.status_code, answer.url) == (302, ines.get_absolute_url())
    measuring = Measuring.objects.with_readings().get()
    assert {key: each.written for key, each in measuring.current().items()} == AGREEING
    assert (measuring.taken_by, measuring.worn, measuring.posture) == (dunya, "long-line bra", "left shoulder low")
    assert "are in the book." in as_seamstress.get(ines.get_absolute_url()).content.decode()


def test_a_card_sent_twice_is_written_once(as_seamstress, url):
    fields = card(**AGREEING)
    as_seamstress.post(url, fields)
    assert as_seamstress.post(url, fields).status_code == 302
    assert Measuring.objects.count() == 1
    assert Reading.objects.count() == len(AGREEING)


def test_one_unreadable_measure_keeps_everything_typed_and_writes_nothing(as_seamstress, url):
    answer = as_seamstress.post(url, card(waist="28 5/7", bust="36 1/4", note="tired", worn="bustier"))
    page = answer.content.decode()
    assert answer.status_code == 422
    assert "I can&#x27;t read “28 5/7”" in page
    assert "Use halves, quarters, eighths or sixteenths" in page
    for typed in ('value="28 5/7"', 'value="36 1/4"', 'value="bustier"', "tired"):
        assert typed in page
    assert Measuring.objects.count() == Reading.objects.count() == 0


def test_an_empty_card_says_so(as_seamstress, url):
    answer = as_seamstress.post(url, card())
    assert answer.status_code == 422
    assert "No measure is written yet." in answer.content.decode()
    assert Measuring.objects.count() == 0


def test_a_day_to_come_is_refused_with_the_readings_still_typed(as_seamstress, url):
    answer = as_seamstress.post(url, card(waist="28", taken_on=(timezone.localdate() + timedelta(days=2)).isoformat()))
    page = answer.content.decode()
    assert answer.status_code == 422
    assert "This day is still to come." in page
    assert 'value="28"' in page
    assert Measuring.objects.count() == 0


def test_a_measure_rubbed_out_on_the_card_stays_in_the_book(as_seamstress, url):
    token = uuid4()
    as_seamstress.post(url, card(token, waist="28", hip="39"))
    answer = as_seamstress.post(url, card(token, hip="39"))
    assert answer.status_code == 422
    assert "28 is in the book." in answer.content.decode()
    assert Reading.objects.count() == 2


def test_implausible_measures_are_kept_and_pointed_out_on_the_clients_page(as_seamstress, ines, url):
    as_seamstress.post(url, card(under_bust="38", bust="36 1/4", wrist="3"))
    page = as_seamstress.get(ines.get_absolute_url()).content.decode()
    assert Reading.objects.count() == 3
    assert "Under-bust 38 is more than bust 36¼." in page
    assert "3 is outside the usual 4½ to 11." in page


# Coming back to a card -------------------------------------------------------------------------------------------


def test_opening_the_card_writes_nothing(as_seamstress, url):
    as_seamstress.get(url)
    assert Measuring.objects.count() == 0


def test_a_reload_shows_what_is_in_the_book_already(as_seamstress, as_owner, url):
    fields = card(waist="28 1/2")
    as_seamstress.post(url, fields)
    page = as_seamstress.get(url).content.decode()
    assert 'value="28 1/2"' in page
    assert fields["token"] in page
    assert fields["token"] not in as_seamstress.get(url, {"anew": 1}).content.decode()
    assert fields["token"] not in as_owner.get(url).content.decode()


def test_a_card_has_its_own_address_whatever_day_it_is_for(as_seamstress, url):
    fields = card(waist="28 1/2", taken_on=(timezone.localdate() - timedelta(days=21)).isoformat())
    as_seamstress.post(url, fields)
    assert 'value="28 1/2"' in as_seamstress.get(url, {"card": fields["token"]}).content.decode()
    # Old measures written in today are not what is being taken today.
    assert 'value="28 1/2"' not in as_seamstress.get(url).content.decode()
    assert as_seamstress.get(url, {"card": "x"}).status_code == 200


def test_the_card_shows_the_change_and_what_is_odd(as_seamstress, ines, hester, url):
    measured(ines, hester, timezone.localdate() - timedelta(days=10), waist="28", bust="36")
    as_seamstress.post(url, card(waist="32 1/2", bust="93"))
    page = as_seamstress.get(url).content.decode()
    assert "4½ more" in page
    assert "Read the tape once more? If it is right, keep it." in page
    assert "Was it 93 cm, which is 36⅝?" in page


def test_a_contradiction_shows_on_both_measures(as_seamstress, url):
    as_seamstress.post(url, card(bust="36 1/4", under_bust="38"))
    assert as_seamstress.get(url).content.decode().count("Under-bust 38 is more than bust 36¼.") == 2


def test_a_card_of_another_client_is_not_found(as_seamstress, url):
    fields = card(waist="28")
    as_seamstress.post(url, fields)
    other = reverse("clients:measure", args=[make_client("Marit Solheim").pk])
    assert as_seamstress.post(other, fields | {"m-waist": "30"}).status_code == 404
    assert Reading.objects.count() == 1


def test_weeks_of_pregnancy_are_noted_with_the_measures(as_seamstress, url):
    assert "outside 1 to 44 weeks" in as_seamstress.post(url, card(waist="28", weeks="60")).content.decode()
    as_seamstress.post(url, card(waist="28", weeks="22"))
    assert Measuring.objects.get().weeks == 22


def test_the_garments_measures_come_first(as_seamstress, ines, url, monkeypatch):
    from clients import expected

    monkeypatch.setattr(expected, "_wanted_by", [lambda client: [expected.Wanted("Bustier gown", ("waist", "bust"))]])
    page = as_seamstress.get(url).content.decode()
    assert '"wanted": ["bust", "waist"], "wantedTitle": "Bustier gown"' in page


@pytest.mark.parametrize("token", ["", "x", "1234", "\x00"])
def test_a_broken_token_still_keeps_the_readings(as_seamstress, url, token):
    assert as_seamstress.post(url, card(waist="28") | {"token": token}).status_code == 302
    assert Reading.objects.count() == 1


# Putting right --------------------------------------------------------------------------------------------------


@pytest.fixture
def waist(ines, hester):
    return measured(ines, hester).current()["waist"]


def to_correct(reading) -> str:
    return reverse("clients:correct", args=[reading.pk])


def test_a_correction_takes_its_place_and_says_why(as_seamstress, dunya, waist):
    answer = as_seamstress.post(to_correct(waist), {"written": "28 1/2", "why": "Wrong side of the tape."})
    assert (answer.status_code, answer.url) == (302, waist.measuring.client.get_absolute_url())
    new = Reading.objects.get(replaces=waist)
    assert (new.written, new.why, new.written_by) == ("28 1/2", "Wrong side of the tape.", dunya)
    page = as_seamstress.get(answer.url).content.decode()
    assert "28, now 28½" in page
    assert "Wrong side of the tape." in page


def test_a_measure_is_taken_out(as_seamstress, waist):
    as_seamstress.post(to_correct(waist), {"written": "", "take_out": "on", "why": "That was the hip."})
    assert "waist" not in Measuring.objects.with_readings().get().current()


@pytest.mark.parametrize(
    ("spoiled", "text"),
    [
        ({"why": ""}, "Say why it is put right."),
        ({"written": ""}, "Nothing is written here."),
        ({"written": "28 5/7"}, "“28 5/7”"),
        ({"written": "28.0"}, "is what stands already"),
        ({"written": "9" * 70}, "60"),
    ],
)
def test_a_spoiled_correction_is_refused_with_its_words_kept(as_seamstress, waist, spoiled, text):
    valid = {"written": "28 1/2", "why": "Wrong side of the tape."}
    answer = as_seamstress.post(to_correct(waist), valid | spoiled)
    page = answer.content.decode()
    assert answer.status_code == 422
    assert text in page
    assert (valid | spoiled)["why"] in page
    assert Reading.objects.filter(replaces=waist).count() == 0


def test_two_corrections_at_once_are_both_seen(as_seamstress, waist, hester):
    waist.correct("29", "in", by=hester, why="Read again.")
    answer = as_seamstress.post(to_correct(waist), {"written": "28 1/2", "why": "Wrong side."})
    page = answer.content.decode()
    assert answer.status_code == 409
    assert "Hester put this right" in page
    assert "29\u00a0in now" in page
    assert 'value="28 1/2"' in page
    later = Reading.objects.get(replaces=waist)
    assert to_correct(later) in page
    assert as_seamstress.get(to_correct(waist)).url == to_correct(later)


def test_a_likely_value_stands_in_the_field_already(as_seamstress, waist):
    assert 'value="93 cm"' in as_seamstress.get(to_correct(waist), {"value": "93 cm"}).content.decode()


def test_a_metric_workshop_measures_in_centimetres(as_seamstress, salt_lane, ines, url):
    salt_lane.unit = "cm"
    salt_lane.save(update_fields=["unit"])
    as_seamstress.post(url, card(waist="71,2"))
    assert Reading.objects.get().mm == 712
    page = as_seamstress.get(url).content.decode()
    assert "In centimetres" in page
    assert 'data-part=".5"' in page
    assert "71.2" in as_seamstress.get(ines.get_absolute_url()).content.decode()


# What a garment in hand needs ------------------------------------------------------------------------------------


@pytest.fixture
def skirt(monkeypatch):
    wanted = expected.Wanted("Half-circle skirt", ("waist", "hip", "height"), ("height",))
    monkeypatch.setattr("clients.card.wanted_by", lambda client: [wanted])


def headed(page: str, heading: str) -> str:
    """The page from that heading on."""
    return page.split(heading, 1)[1]


def test_what_a_garment_in_hand_needs_is_asked_first(as_seamstress, url, skirt):
    page = as_seamstress.get(url).content.decode()
    first, others = headed(page, "For the half-circle skirt").split("Other measures, not needed for the half-circle skirt")
    assert re.findall(r'name="m-(\w+)"', first) == ["waist", "hip", "height"]
    assert len(re.findall(r'name="m-(\w+)"', others)) == len(BY_KEY) - 3


def test_it_says_which_measures_may_be_left_out(as_seamstress, url, skirt):
    page = as_seamstress.get(url).content.decode()

    def line(key: str) -> str:
        return page.split(f'name="m-{key}"', 1)[1].split("</li>")[0]

    assert "May be left out" not in line("waist")
    assert "May be left out." in line("height")
    assert "May be left out" not in line("neck")  # it stands under “not needed for”


def test_without_an_order_those_may_be_left_out_that_a_draft_works_out(as_seamstress, url):
    page = as_seamstress.get(url).content.decode()
    assert page.count("May be left out: the draft can work it out, and says so.") == sum(each.estimated for each in BY_KEY.values())


def test_with_nothing_in_hand_every_measure_stands_in_one_list(as_seamstress, url):
    page = as_seamstress.get(url).content.decode()
    assert "not needed for" not in page
    assert len(re.findall(r'name="m-(\w+)"', page)) == len(BY_KEY)
