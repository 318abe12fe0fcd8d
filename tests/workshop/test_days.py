"""Days in the workshop's language: beside Babel's own formats, Django's own translations, and on the pages themselves."""

import subprocess
import sys
from datetime import UTC, date, datetime, timedelta

import pytest
from babel import Locale
from babel.dates import format_date, format_skeleton
from django.utils import translation
from django.utils.dates import MONTHS, WEEKDAYS
from fontTools.ttLib import TTFont

from tests.workshop.test_fonts import FONTS, NOTO
from workshop.days import ENGLISH, LANGUAGES, Form, month_name, weekday_name, written
from workshop.models import Workshop
from workshop.templatetags import workshop_tags

OTHERS = ["fr", "pt", "yo"]
HELD = "\u00a0"

#: A day of each month and of each weekday, both ends of a year, a leap day, and the nights when clocks change in 2026.
DAYS = [date(2026, number, 12) for number in range(1, 13)]
DAYS += [date(2026, 3, 2) + timedelta(days=number) for number in range(7)]
DAYS += [date(2025, 12, 31), date(2026, 1, 1), date(2028, 2, 29), date(2026, 3, 29), date(2026, 10, 25)]


@pytest.mark.parametrize("language", OTHERS)
@pytest.mark.parametrize("on", DAYS, ids=str)
def test_a_day_is_written_as_babel_writes_it(on, language):
    def said(form):
        return written(on, form, language).replace(HELD, " ")

    full, long = format_date(on, "full", language), format_date(on, "long", language)
    assert (said(Form.WEEKDAY_DAY_YEAR), said(Form.DAY_YEAR)) == (full, long)
    assert said(Form.DAY) == format_skeleton("MMMMd", on, locale=language)
    assert full.startswith(said(Form.WEEKDAY_DAY)) and str(on.year) not in said(Form.WEEKDAY_DAY)
    assert said(Form.WEEKDAY_DAY).endswith(said(Form.DAY))
    assert said(Form.SHORT_WEEKDAY_DAY) == format_skeleton("MMMEd", on, locale=language).removesuffix(".")
    assert said(Form.SHORT_WEEKDAY_DAY_YEAR) == format_skeleton("yMMMEd", on, locale=language)
    assert said(Form.SHORT_DAY) == format_skeleton("MMMd", on, locale=language).removesuffix(".")
    assert said(Form.MONTH_YEAR) == format_skeleton("yMMMM", on, locale=language)
    names = Locale.parse(language)
    assert said(Form.MONTH) == names.months["stand-alone"]["wide"][on.month]
    assert said(Form.WEEKDAY) == names.days["stand-alone"]["wide"][on.weekday()]
    assert said(Form.SHORT_WEEKDAY) == names.days["stand-alone"]["abbreviated"][on.weekday()].removesuffix(".")


@pytest.mark.parametrize("on", DAYS, ids=str)
def test_in_english_it_is_written_as_british_english_is_without_a_comma(on):
    british = {Form.DAY_YEAR: "d MMMM y", Form.WEEKDAY_DAY: "EEEE d MMMM", Form.MONTH_YEAR: "MMMM y", Form.SHORT_WEEKDAY: "EEE"}
    assert {form: written(on, form).replace(HELD, " ") for form in british} == {
        form: format_date(on, pattern, "en_GB") for form, pattern in british.items()
    }
    short = format_date(on, "EEE d MMM", "en_GB").replace("Sept", "Sep")  # three letters in every month, as columns want it
    assert written(on, Form.SHORT_WEEKDAY_DAY).replace(HELD, " ") == short


@pytest.mark.parametrize("language", ["en", "fr", "pt"])
def test_months_and_weekdays_are_those_of_djangos_translators_too(language):
    with translation.override(language):
        months = [str(MONTHS[number]).lower() for number in range(1, 13)]
        weekdays = [str(WEEKDAYS[number]).lower() for number in range(7)]
    assert [month_name(number, language).lower() for number in range(1, 13)] == months
    assert [weekday_name(number, language).lower().removesuffix("-feira") for number in range(7)] == [
        name.removesuffix("-feira") for name in weekdays
    ]


def test_each_language_is_offered_with_a_day_as_it_writes_it():
    for language, title in LANGUAGES:
        assert title.split(": ")[1] == written(date(2026, 3, 12), Form.WEEKDAY_DAY, language).replace(HELD, " ")


@pytest.mark.parametrize("font", NOTO)
def test_the_fonts_have_every_letter_of_every_language(font):
    have = TTFont(FONTS / font).getBestCmap()
    text = "".join(written(on, form, language) for on in DAYS for form in Form for language, _ in LANGUAGES)
    assert [letter for letter in sorted(set(text)) if ord(letter) not in have] == []


def test_english_days_do_not_load_babel():
    code = "import sys, datetime; from workshop.days import *; written(datetime.date(2026, 3, 12), Form.DAY); sys.exit('babel' in sys.modules)"
    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0


@pytest.fixture
def in_french(salt_lane):
    Workshop.objects.update(days_in="fr")
    with Workshop.kept():
        yield


def test_a_moment_is_written_by_the_workshops_clock_at_the_years_end_and_when_clocks_change(in_french, settings):
    settings.TIME_ZONE = "Europe/Paris"
    assert workshop_tags.day_of_year(datetime(2025, 12, 31, 23, 30, tzinfo=UTC)) == "1 janvier 2026"
    assert workshop_tags.day_of_year(datetime(2026, 3, 28, 23, 30, tzinfo=UTC)) == "29 mars 2026"
    assert workshop_tags.day_of_year(datetime(2026, 10, 24, 22, 30, tzinfo=UTC)) == "25 octobre 2026"
    assert workshop_tags.day_of_year(datetime(2026, 10, 25, 23, 30, tzinfo=UTC)) == "26 octobre 2026"


def test_outside_a_request_days_are_english_and_ask_nothing():
    assert workshop_tags.language_now() == ENGLISH
