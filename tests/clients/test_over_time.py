"""Measures over time: the line and its table, two dates, what is estimated, and when to measure again."""

import re
from datetime import date, timedelta
from decimal import Decimal

import pytest
from django.urls import reverse
from django.utils import timezone
from hypothesis import given
from hypothesis import strategies as st

from clients.again import again
from clients.differences import differences
from clients.estimates import estimates
from clients.growth import grown
from clients.history import History
from clients.measures import BY_KEY
from clients.models import Measuring
from clients.over_time import BOTTOM, LEFT, RIGHT, TOP, plot
from drafting.engine.body import ESTIMATED_BY_RULE, body_from
from drafting.engine.garments import KINDS
from tests.clients.book import AGREEING, inch, make_client, measured
from workshop.models import Workshop
from workshop.templatetags.workshop_tags import day

DAYS = (date(2025, 9, 14), date(2026, 2, 2), date(2026, 3, 2), date(2026, 3, 12))


@pytest.fixture
def ines(salt_lane):
    return make_client()


def newest_first(client):
    return list(client.measurings.newest_first().with_readings())


def dates(client):
    return [(each.taken_on, each.lengths()) for each in newest_first(client)]


def percent(text: str) -> float:
    return float(text.removesuffix("%"))


# The line -------------------------------------------------------------------------------------------------------


def test_days_lie_on_their_true_distances(ines, hester):
    for day, waist in zip(DAYS, ("27 1/2", "28", "28", "28 1/2"), strict=True):
        measured(ines, hester, day, waist=waist)
    drawn = plot("waist", dates(ines), "in")
    assert [point.text for point in drawn.points] == ["27½", "28", "28", "28½"]
    assert [point.change for point in drawn.points] == ["", "+½", "", "+½"]
    across = [percent(point.x) for point in drawn.points]
    assert (across[0], across[-1]) == (LEFT, RIGHT)
    for day, x in zip(DAYS, across, strict=True):
        assert x == pytest.approx(LEFT + (RIGHT - LEFT) * (day - DAYS[0]).days / (DAYS[-1] - DAYS[0]).days, abs=0.01)
    assert [float(point.y) for point in drawn.points] == sorted((float(point.y) for point in drawn.points), reverse=True)
    assert [point.dated for point in drawn.points] == [True, True, False, True]


def test_a_quarter_inch_is_not_drawn_as_a_mountain(ines, hester):
    for day, waist in zip(DAYS[:2], ("28", "28 1/4"), strict=True):
        measured(ines, hester, day, waist=waist)
    low, high = (float(point.y) for point in plot("waist", dates(ines), "in").points)
    assert 0 < low - high <= (BOTTOM - TOP) / 8


def test_a_measure_taken_once_is_a_point_and_one_never_taken_is_nothing(ines, hester):
    measured(ines, hester, DAYS[0], waist="28")
    drawn = plot("waist", dates(ines), "in")
    assert (len(drawn.points), drawn.strokes) == (1, ())
    assert plot("hip", dates(ines), "in") is None


@given(st.lists(st.tuples(st.integers(0, 4000), st.integers(300, 1500)), min_size=1, max_size=14, unique_by=lambda each: each[0]))
def test_every_point_lies_within_the_drawing(taken):
    drawn = plot("waist", [(date(2020, 1, 1) + timedelta(days=day), {"waist": Decimal(mm)}) for day, mm in sorted(taken, reverse=True)], "in")
    for point in drawn.points:
        assert LEFT - 0.01 <= percent(point.x) <= RIGHT + 0.01
        assert TOP - 0.1 <= float(point.y) <= BOTTOM + 0.1
    dated = [percent(point.x) for point in drawn.points if point.dated]
    assert dated[-1] == percent(drawn.last.x)
    assert all(b - a >= 14.9 for a, b in zip(dated, dated[1:], strict=False))


def test_the_page_has_the_line_and_the_same_as_a_table(as_apprentice, ines, hester):
    for day, waist in zip(DAYS[:2], ("27 1/2", "28"), strict=True):
        measured(ines, hester, day, waist=waist)
    page = as_apprentice.get(reverse("clients:over-time", args=[ines.pk, "waist"])).content.decode()
    assert "Waist: 27½ on 14" in page.replace("\u00a0", " ")
    assert "<td>28</td><td>+½</td>" in page
    assert as_apprentice.get(reverse("clients:over-time", args=[ines.pk, "hat"])).status_code == 404
    assert "was not taken yet" in as_apprentice.get(reverse("clients:over-time", args=[ines.pk, "hip"])).content.decode()


# Two dates ------------------------------------------------------------------------------------------------------


def test_two_dates_are_told_apart_and_more_than_the_tapes_noise_is_marked(ines, hester):
    old = measured(ines, hester, DAYS[0], waist="28", bust="36", bust_span="7", neck="14")
    new = measured(ines, hester, DAYS[1], waist="28 1/2", bust="36 5/8", bust_span="7 3/8")
    rows = {row.measure.key: (row.old, row.new, row.change, row.much) for row in differences(old, new, "in")}
    assert rows == {
        "bust": ("36", "36⅝", "+⅝", True), "waist": ("28", "28½", "+½", False), "neck": ("14", "·", "", False), "bust_span": ("7", "7⅜", "+⅜", True),
    }  # fmt: skip


def test_any_two_dates_can_be_chosen_in_either_order(as_seamstress, ines, hester):
    first, _, last = (measured(ines, hester, day, waist=waist) for day, waist in zip(DAYS[:3], ("27", "28", "29"), strict=True))
    url = reverse("clients:compare", args=[ines.pk])
    for query in ({"old": first.pk, "new": last.pk}, {"old": last.pk, "new": first.pk}):
        page = as_seamstress.get(url, query).content.decode()
        assert re.search(r"<td>27</td><td>29</td><td class=\"changed\">\+2</td>", page)
    assert re.search(r"<td>28</td><td>29</td>", as_seamstress.get(url).content.decode())
    assert as_seamstress.get(url, {"old": "x", "new": "999999"}).status_code == 200


# Estimated ------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("bust", ["31 1/4", "36 1/4", "46"])
def test_estimates_are_those_of_the_draft(bust):
    kind = KINDS["bustier-gown"]
    taken = {key: inch(value) for key, value in {"under_bust": 29, "waist": 28, "hip": 39, "shoulder": 15, "shoulder_to_bust": 10, "shoulder_to_under_bust": 13, "shoulder_to_waist": "16.5", "armhole_depth": "6.5"}.items()}
    taken["bust"] = inch(bust.replace(" 1/4", ".25"))
    rules = {rule.key: rule.in_mm(rule.default) for rule in kind.rules if rule.key == "back_neck_depth"}
    body = body_from({key: float(mm) for key, mm in taken.items()}, rules, needs=())
    ours = estimates(taken)
    assert set(ours) == set(ESTIMATED_BY_RULE)
    for key, mm in ours.items():
        assert float(mm) == pytest.approx(body[key], abs=1e-6), key


def test_an_estimate_stands_in_the_newest_dates_only_and_says_so(as_seamstress, ines, hester):
    measured(ines, hester, DAYS[0], **{key: text for key, text in AGREEING.items() if key != "bust_span"})
    measured(ines, hester, DAYS[1], **{key: text for key, text in AGREEING.items() if key not in ("bust_span", "waist_to_hip")})
    rows = {row.measure.key: row.cells for row in History(newest_first(ines), "in").rows}
    assert [(cell.text, cell.estimated) for cell in rows["bust_span"]] == [("est. 7¼", True), ("·", False)]
    assert [(cell.text, cell.estimated) for cell in rows["waist_to_hip"]] == [("est. 8", True), ("8", False)]
    assert '<span class="estimated">est. 7¼</span>' in as_seamstress.get(ines.get_absolute_url()).content.decode()


def test_only_measures_of_the_list_are_estimated():
    assert set(estimates({key: inch(20) for key in ("bust", "under_bust", "hip", "shoulder", "shoulder_to_waist")})) <= {key for key, each in BY_KEY.items() if each.estimated}


# When to measure again ------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("days", "born", "weeks", "flag"),
    [
        (90, None, None, None), (91, None, None, "91 days old"), (28, date(2016, 5, 1), None, ""), (29, date(2016, 5, 1), None, "29 days old"),
        (29, date(1990, 5, 1), None, None), (0, None, 22, None), (1, None, 22, "measure at every visit"), (200, None, 30, "200 days old"),
    ],
)  # fmt: skip
def test_old_measures_growing_and_changing_bodies_are_measured_again(ines, hester, days, born, weeks, flag):
    today = date(2026, 3, 12)
    ines.born_on = born
    measuring = Measuring(client=ines, taken_by=hester, taken_on=today - timedelta(days=days), weeks=weeks)
    said = again(ines, measuring, today)
    assert (said.flag if said else None) == flag


def test_stale_measures_are_marked_on_the_clients_page(as_apprentice, ines, hester):
    measured(ines, hester, timezone.localdate() - timedelta(days=120), waist="28")
    page = as_apprentice.get(ines.get_absolute_url()).content.decode()
    assert '<span class="flag-wait">120 days old</span>' in page
    assert "Measure again before cutting." in page


def test_how_long_measures_are_good_is_a_house_rule(as_owner, ines, hester):
    measured(ines, hester, timezone.localdate() - timedelta(days=60), waist="28")
    url = ines.get_absolute_url()
    assert "60 days old" not in as_owner.get(url).content.decode()
    Workshop.objects.update(good_for_days=45)
    assert "60 days old" in as_owner.get(url).content.decode()
    assert "Measures are good for 45 days." in as_owner.get(url).content.decode()


def test_of_those_who_grow_the_growth_is_said_and_drawn_with_what_can_be_let_down(as_owner, ines, hester):
    """A skirt's length from 24 to 25 inches in 56 days: an inch of hem lasts 8 weeks."""
    today = timezone.localdate()
    measured(ines, hester, today - timedelta(days=63), height="50", skirt_length="24")
    measured(ines, hester, today - timedelta(days=7), height="50 3/4", skirt_length="25")
    assert "At that rate" not in as_owner.get(ines.get_absolute_url()).content.decode()
    told = {"name": "Ines Varga", "phone": "", "note": "", "consent_on": "", "born_on": str(today - timedelta(days=9 * 365)), "to_let_down": "blue one: hem 3 in, two tucks"}
    assert as_owner.post(f"{ines.get_absolute_url()}edit/", told).status_code == 302
    page = as_owner.get(ines.get_absolute_url()).content.decode()
    assert "Height: ¾\u00a0in more in 8 weeks." in page
    assert "Skirt length: 1\u00a0in more in 8 weeks. At that rate 1\u00a0in of hem or tuck lasts about 8 weeks." in page
    assert f"Next from {day(today + timedelta(days=21))}." in page
    assert "Tucks and deep hems: blue one: hem 3 in, two tucks" in page
    assert ">Height</a>" in page[page.index("Change over time") :]


def test_the_form_shows_what_it_saves_so_that_a_birthday_is_not_lost_by_saving(as_owner, ines):
    ines.born_on = date(2017, 5, 1)
    ines.save()
    assert 'value="2017-05-01"' in as_owner.get(f"{ines.get_absolute_url()}edit/").content.decode()


def test_weeks_of_pregnancy_stand_with_the_measures(as_owner, ines, hester):
    measuring = measured(ines, hester, timezone.localdate(), waist="34")
    Measuring.objects.filter(pk=measuring.pk).update(weeks=24)
    assert '<span class="taker">week 24</span>' in as_owner.get(ines.get_absolute_url()).content.decode()


@pytest.mark.parametrize(
    ("days", "now", "said"),
    [
        (27, "25", []), (28, "24", ["Skirt length: no change in 4 weeks."]), (367, "25", []),
        (56, "23", ["Skirt length: 1\u00a0in less than 8 weeks ago. Read the tape once more."]),
    ],
)  # fmt: skip
def test_growth_is_said_only_where_the_tape_can_tell_it(days, now, said):
    today = date(2026, 3, 12)
    assert grown([(today, {"skirt_length": inch(int(now))}), (today - timedelta(days=days), {"skirt_length": inch(24)})], "in") == said
