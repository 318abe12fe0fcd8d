"""A client's measures over time."""

from datetime import date

import pytest
from django.utils import timezone

from clients.history import History
from clients.models import Measuring
from tests.clients.book import make_client, measured
from workshop.templatetags.workshop_tags import day

SEPTEMBER, MARCH, LATER = date(2025, 9, 14), date(2026, 3, 2), date(2026, 3, 12)


@pytest.fixture
def ines(db):
    return make_client()


def history(client, unit="in") -> History:
    return History(client.measurings.newest_first().with_readings(), unit)


def row(table: History, key: str) -> list[tuple[str, str]]:
    (found,) = [row for row in table.rows if row.measure.key == key]
    return [(cell.change, cell.text) for cell in found.cells]


def test_dates_run_newest_first_and_measures_in_their_order(ines, hester, dunya):
    measured(ines, hester, SEPTEMBER, waist="27 1/2", bust="35 3/4")
    measured(ines, dunya, LATER, hip="39")
    measured(ines, dunya, MARCH, waist="28")
    table = history(ines)
    assert [measuring.taken_on for measuring in table.measurings] == [LATER, MARCH, SEPTEMBER]
    assert [row.measure.key for row in table.rows if not row.cells[0].estimated] == ["bust", "waist", "hip"]


def test_a_change_is_signed_and_reckoned_from_the_last_time_it_was_taken(ines, hester):
    measured(ines, hester, SEPTEMBER, waist="27 1/2", bust="36")
    measured(ines, hester, MARCH, bust="36")
    measured(ines, hester, LATER, waist="28", bust="35 3/4")
    assert row(history(ines), "waist") == [("+½", "28"), ("", "·"), ("", "27½")]
    assert row(history(ines), "bust") == [("−¼", "35¾"), ("", "36"), ("", "36")]


def test_a_change_too_small_to_print_is_no_change(ines, hester):
    measured(ines, hester, MARCH, waist="28")
    measured(ines, hester, LATER, waist="71.15cm")
    assert row(history(ines), "waist") == [("", "28"), ("", "28")]


def test_sixteenths_are_shown_as_they_were_read(ines, hester):
    measured(ines, hester, MARCH, bust_span="7 3/16")
    assert row(history(ines), "bust_span") == [("", "7³⁄₁₆")]


def test_two_measurings_of_a_day_stand_as_two(ines, hester, dunya):
    measured(ines, hester, MARCH, waist="28")
    measured(ines, dunya, MARCH, waist="28 1/4")
    assert row(history(ines), "waist") == [("+¼", "28¼"), ("", "28")]


def test_a_correction_shows_what_stood_and_why(ines, hester, dunya):
    reading = measured(ines, hester, MARCH, waist="28").current()["waist"]
    reading.correct("27 7/8", "in", by=dunya, why="Read the wrong side of the tape.")
    table = history(ines)
    assert row(table, "waist") == [("", "27⅞")]
    (one,) = table.put_right()
    assert (one.was, one.now, one.correction.why, one.correction.by_name) == (
        "28", "27⅞", "Read the wrong side of the tape.", "Dunya",
    )  # fmt: skip


def test_a_measure_taken_out_leaves_its_correction_to_be_seen(ines, hester):
    measured(ines, hester, MARCH, waist="28", wrist="9").current()["wrist"].take_out(by=hester, why="That was the elbow.")
    table = history(ines)
    assert [row.measure.key for row in table.rows] == ["waist"]
    assert [(one.was, one.now) for one in table.put_right()] == [("9", "taken out")]


def test_the_newest_measures_say_what_is_worth_a_second_look(ines, hester):
    measured(ines, hester, date(timezone.localdate().year, 1, 2), waist="28", bust="36", under_bust="31")
    measured(ines, hester, waist="32 1/2", bust="36", under_bust="37")
    doubts = history(ines).doubts(day)
    assert [doubt.text for doubt in doubts] == [
        "Under-bust: 6 more than on 2\u00a0January (31). Read the tape once more? If it is right, keep it.",
        "Waist: 4½ more than on 2\u00a0January (28). Read the tape once more? If it is right, keep it.",
        "Under-bust 37 is more than bust 36. One of the two was read wrongly.",
    ]
    assert [[reading.key for reading in doubt.readings] for doubt in doubts] == [["under_bust"], ["waist"], ["under_bust", "bust"]]


def test_what_was_put_right_since_raises_no_doubt(ines, hester):
    measured(ines, hester, MARCH, waist="28")
    measured(ines, hester, LATER, waist="38").current()["waist"].correct("28 1/4", "in", by=hester, why="slip of ten")
    assert history(ines).doubts(day) == []


def test_nobody_measured_yet_is_an_empty_history(ines):
    table = history(ines)
    assert not table
    assert table.doubts(day) == []
    assert Measuring.objects.count() == 0
