"""Measures out and in as CSV: harmless in a spreadsheet, looked at before they are written, and written once."""

import csv
from datetime import date
from io import StringIO
from uuid import uuid4

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.urls import reverse
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from clients.csv_in import LONGEST, NoTable, decoded, likely_columns, read_table
from clients.csv_out import harmless
from clients.models import Measuring, Reading
from tests.clients.book import AGREEING, inch, make_client, measured

MARCH = date(2026, 3, 2)


@pytest.fixture
def ines(salt_lane):
    return make_client()


@pytest.fixture
def url(ines):
    return reverse("clients:csv-in", args=[ines.pk])


def out(browser, client) -> list[list[str]]:
    answer = browser.get(reverse("clients:csv-out", args=[client.pk]))
    return list(csv.reader(StringIO(b"".join(answer.streaming_content).decode("utf-8-sig"), newline="")))


def file(text: str | bytes) -> SimpleUploadedFile:
    return SimpleUploadedFile("m.csv", text.encode() if isinstance(text, str) else text, "text/csv")


# Out ------------------------------------------------------------------------------------------------------------


def test_readings_and_their_corrections_go_out_one_a_line(as_seamstress, ines, hester):
    measured(ines, hester, MARCH, waist="28 1/2").current()["waist"].correct("29", "in", by=hester, why="Wrong side of the tape.")
    assert out(as_seamstress, ines)[1:] == [
        ["Ines Varga", "2026-03-02", "Hester", "Waist", "waist", "28 1/2", "723.9", ""],
        ["Ines Varga", "2026-03-02", "Hester", "Waist", "waist", "29", "736.6", "Wrong side of the tape."],
    ]


def test_all_clients_go_out_as_one_file_without_phone_numbers(as_owner, as_seamstress, ines, hester):
    measured(ines, hester, MARCH, waist="28")
    measured(make_client("Marit Solheim"), hester, MARCH, waist="30")
    text = b"".join(as_owner.get(reverse("clients:csv-all")).streaming_content).decode()
    assert "Ines Varga" in text and "Marit Solheim" in text
    assert "07700" not in text
    assert as_seamstress.get(reverse("clients:csv-all")).status_code == 403


@pytest.mark.parametrize("name", ["=1+1", "+44", "-2", "@sum", "\tx", "\r=1"])
def test_a_name_that_a_spreadsheet_would_run_is_shown_instead(as_seamstress, hester, salt_lane, name):
    client = make_client(name)
    measured(client, hester, MARCH, waist="28")
    assert out(as_seamstress, client)[1][0] == f"'{name}"


@given(st.text(max_size=30))
def test_no_cell_begins_like_a_formula(text):
    assert not harmless(text).startswith(("=", "+", "-", "@", "\t", "\r", "\n"))
    assert harmless(text).removeprefix("'") == text or text.startswith("'")


# In -------------------------------------------------------------------------------------------------------------


def test_what_went_out_comes_back_as_it_was(as_seamstress, ines, hester, url):
    measured(ines, hester, MARCH)
    text = "\n".join(",".join(f'"{cell}"' for cell in row) for row in out(as_seamstress, ines))
    other = make_client("Marit Solheim")
    url = reverse("clients:csv-in", args=[other.pk])
    page = as_seamstress.post(url, {"file": file(text)}).content.decode()
    assert f"{len(AGREEING)} of {len(AGREEING)} lines" in page
    assert not Measuring.objects.filter(client=other).exists()
    as_seamstress.post(url, {"text": text, "token": str(uuid4()), "unit": "in", "write": "on"})
    copy = Measuring.objects.with_readings().get(client=other)
    assert (copy.taken_on, copy.lengths()) == (MARCH, Measuring.objects.with_readings().get(client=ines).lengths())


def test_the_dry_run_says_what_would_change_and_writes_nothing(as_seamstress, ines, hester, url):
    measured(ines, hester, MARCH, waist="28", hip="39")
    text = "measure;written;date\nWaist;28 1/2;2026-03-02\nhip;39;2026-03-02\nBust;92 cm;2026-03-02\n"
    page = as_seamstress.post(url, {"file": file(text)}).content.decode()
    assert "2 of 3 lines" in page
    assert '<td>28</td><td class="changed">28½</td>' in page
    assert "<td>39</td><td>39</td>" in page
    assert '<td>·</td><td class="changed">36¼</td>' in page
    assert Reading.objects.count() == 2


def test_columns_and_unit_are_chosen_on_the_screen(as_seamstress, url):
    text = "when,body part,reading\n2026-03-02,waist,71.2\n"
    page = as_seamstress.post(url, {"file": file(text)}).content.decode()
    assert "1 of 1 lines can’t be kept." in page
    chosen = {"text": text, "column_measure": "1", "column_written": "2", "column_day": "0", "unit": "cm", "token": str(uuid4())}
    assert "1 of 1 lines" in as_seamstress.post(url, chosen).content.decode()
    as_seamstress.post(url, chosen | {"write": "on"})
    assert Reading.objects.get().mm == 712


def test_a_form_sent_twice_is_written_once(as_seamstress, url):
    sent = {"text": "measure,written\nwaist,28\nhip,39", "token": str(uuid4()), "unit": "in", "write": "on"}
    for _ in range(2):
        assert as_seamstress.post(url, sent).status_code == 302
    assert (Measuring.objects.count(), Reading.objects.count()) == (1, 2)


def test_lines_that_cant_be_kept_are_quoted_and_left_out_only_when_asked(as_seamstress, url):
    lines = ["measure,written,date", "hat,22,", "waist,28 5/7,", "hip,39,soon", "knee,14,2999-01-01", "bust,36,", "bust,37,"]
    sent = {"text": "\n".join(lines), "token": str(uuid4()), "unit": "in", "write": "on"}
    answer = as_seamstress.post(url, sent)
    page = answer.content.decode()
    assert answer.status_code == 422
    for text in ("No measure is called “hat”.", "“28 5/7”", "the day “soon”", "still to come", "Bust stands in this file twice"):
        assert text in page.replace("&#x27;", "'"), text
    assert Reading.objects.count() == 0
    as_seamstress.post(url, sent | {"leave_out": "on"})
    assert [(each.key, each.mm) for each in Reading.objects.all()] == [("bust", inch(36))]


@pytest.mark.parametrize(
    ("content", "text"),
    [(b"", "nothing in this file"), (b"waist", "I read no columns here."), (b'a,b\n"28,1', "A quotation mark is open"), (b"a,b\n" + b"x,1\n" * 2500, "more than 2000 lines"), (b"x" * (LONGEST + 1), "longer than 200 kB")],
    ids=["empty", "no columns", "open quotation", "too many", "too long"],
)  # fmt: skip
def test_what_is_no_table_is_refused(as_seamstress, url, content, text):
    answer = as_seamstress.post(url, {"file": file(content)} if content else {"text": ""})
    assert answer.status_code == 422
    assert text in answer.content.decode()


def test_files_of_other_spreadsheets_are_read():
    assert decoded("Höhe".encode("cp1252")) == decoded("\ufeffHöhe".encode()) == "Höhe"
    for mark in ",;\t":
        table = read_table(f"Date{mark}Measure{mark}Value\n2026-03-02{mark}waist{mark}'-1\n")
        assert likely_columns(table) == {"day": 0, "measure": 1, "written": 2}
        assert table.rows == (("2026-03-02", "waist", "-1"),)


@settings(max_examples=150, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(text=st.text(st.characters(codec="utf-8"), max_size=200), unit=st.text(max_size=4), columns=st.lists(st.text(max_size=3), min_size=3, max_size=3))
def test_any_file_is_looked_at_or_refused(as_seamstress, url, text, unit, columns):
    chosen = dict(zip(("column_measure", "column_written", "column_day"), columns, strict=True))
    answer = as_seamstress.post(url, {"text": f"measure,written\n{text}", "unit": unit, "token": text[:9]} | chosen)
    assert answer.status_code in (200, 422)
    try:
        read_table(text)
    except NoTable as refused:
        assert str(refused)


# On paper -------------------------------------------------------------------------------------------------------


def test_the_card_on_paper_is_blank_or_filled(as_apprentice, ines, hester):
    measured(ines, hester, MARCH, waist="28 1/2", upper_arm="11", upper_arm_left="11 3/8")
    url = reverse("clients:paper-card", args=[ines.pk])
    filled = as_apprentice.get(url).content.decode()
    assert "<dt>Waist</dt><dd>28½</dd>" in filled
    assert "<dt>Upper arm, left</dt><dd>11⅜</dd>" in filled
    blank = as_apprentice.get(url, {"blank": 1}).content.decode()
    assert "28½" not in blank
    assert blank.count("<dt>") == 29
