"""Clients, measurings, readings: kept as written, never overwritten."""

from decimal import Decimal

import pytest
from django.db import IntegrityError, connection, models, transaction
from django.db.models import ProtectedError

from clients.folding import digits, fold
from clients.models import READ_AGAIN, AlreadyReplaced, Client, Reading, UnreadableMeasures
from clients.querysets import ReadingStands
from tests.clients.book import inch, make_client, measured
from workshop.length import UnreadableLength


@pytest.fixture
def ines(db):
    return make_client()


@pytest.fixture
def measuring(ines, dunya):
    return measured(ines, dunya, waist="28", bust="36 1/4", wrist="18.4cm")


# Readings -------------------------------------------------------------------------------------------------------


def test_a_reading_keeps_what_was_written_and_exact_millimetres(measuring, dunya):
    (reading,) = measuring.write_down({"hip": " 39 1/16 "}, "in", by=dunya)
    reading.refresh_from_db()
    assert (reading.written, reading.mm, reading.written_by) == ("39 1/16", Decimal("992.1875"), dunya)


def test_an_order_file_gets_the_measures_exactly(measuring):
    assert measuring.order_file_measures() == {"waist": "711.2mm", "bust": "920.75mm", "wrist": "184mm"}


def test_reading_the_tape_again_adds_a_reading_and_keeps_the_old_one(measuring, dunya):
    measuring.write_down({"waist": "28 1/2"}, "in", by=dunya)
    old, new = Reading.objects.filter(key="waist").order_by("pk")
    assert (old.written, old.replaces, old.why) == ("28", None, "")
    assert (new.written, new.replaces, new.why) == ("28 1/2", old, READ_AGAIN)


@pytest.mark.parametrize("same", ["28", "28.0", " 28 in", "71.12cm"])
def test_the_same_length_written_again_is_one_reading(measuring, dunya, same):
    assert measuring.write_down({"waist": same}, "in", by=dunya) == []
    assert Reading.objects.filter(key="waist").count() == 1


def test_nothing_is_written_when_one_measure_cant_be_read(measuring, dunya):
    with pytest.raises(UnreadableMeasures) as refused:
        measuring.write_down({"hip": "39", "knee": "28 5/7", "elbow": ""}, "in", by=dunya)
    assert set(refused.value.by_key) == {"knee", "elbow"}
    assert "28 5/7" in str(refused.value.by_key["knee"])
    assert Reading.objects.count() == 3


@pytest.mark.parametrize(("text", "word"), [("0", "no length"), ("0.0", "no length"), ("200", "longer than anybody"), ("5 yd", "longer than anybody")])
def test_what_no_body_measures_is_refused_and_quoted(measuring, dunya, text, word):
    with pytest.raises(UnreadableMeasures, match=word) as refused:
        measuring.write_down({"hip": text}, "in", by=dunya)
    assert f"“{text}”" in str(refused.value)


def test_an_unknown_measure_is_a_slip_in_the_program(measuring, dunya):
    with pytest.raises(KeyError):
        measuring.write_down({"hat": "22"}, "in", by=dunya)


def test_a_correction_says_which_it_replaces_and_why(measuring, dunya, hester):
    old = measuring.current()["waist"]
    new = old.correct("27 1/2", "in", by=hester, why="Read the wrong side of the tape.")
    assert (new.replaces, new.why, new.written_by, new.mm) == (old, "Read the wrong side of the tape.", hester, inch("27.5"))
    assert measuring.readings.model.objects.filter(measuring=measuring, key="waist").count() == 2


def test_only_the_last_reading_can_be_corrected(measuring, hester):
    old = measuring.current()["waist"]
    later = old.correct("27 1/2", "in", by=hester, why="slip")
    with pytest.raises(AlreadyReplaced) as refused:
        old.correct("29", "in", by=hester, why="slip")
    assert refused.value.later == later


def test_a_measure_that_was_not_taken_can_be_taken_out_and_put_back(measuring, hester, dunya):
    out = measuring.current()["wrist"].take_out(by=hester, why="That was the elbow.")
    again = type(measuring).objects.with_readings().get()
    assert "wrist" not in again.current()
    assert again.order_file_measures().keys() == {"waist", "bust"}
    again.write_down({"wrist": "6 1/4"}, "in", by=dunya)
    back = type(measuring).objects.with_readings().get().current()["wrist"]
    assert (back.replaces, back.written) == (out, "6 1/4")


def test_a_correction_that_cant_be_read_changes_nothing(measuring, hester):
    with pytest.raises(UnreadableLength):
        measuring.current()["waist"].correct("28 5/7", "in", by=hester, why="slip")
    assert Reading.objects.count() == 3


# No way to overwrite --------------------------------------------------------------------------------------------


def test_a_reading_that_stands_is_not_saved_again(measuring):
    reading = measuring.current()["waist"]
    reading.mm = inch(30)
    with pytest.raises(ReadingStands):
        reading.save()
    with pytest.raises(ReadingStands):
        reading.save(update_fields=["mm"])


def test_no_queryset_changes_or_deletes_readings(measuring):
    readings = Reading.objects.filter(measuring=measuring)
    for act in (lambda: readings.update(written="30"), readings.delete, lambda: Reading.objects.bulk_update(readings, ["mm"])):
        with pytest.raises(ReadingStands):
            act()
    with pytest.raises(ReadingStands):
        readings.first().delete()


def test_the_database_itself_refuses_to_change_a_reading(measuring):
    with pytest.raises(IntegrityError, match="A reading stands as it was written"), transaction.atomic():
        connection.cursor().execute("UPDATE clients_reading SET written = '30'")
    assert set(Reading.objects.values_list("written", flat=True)) == {"28", "36 1/4", "18.4cm"}


@pytest.mark.django_db(transaction=True)
def test_a_table_rebuilt_by_a_later_migration_still_refuses(measuring):
    longer = models.CharField(max_length=201, blank=True)
    longer.set_attributes_from_name("why")
    longer.model = Reading
    now = Reading._meta.get_field("why")
    for old, new in ((now, longer), (longer, now)):
        with connection.schema_editor() as editor:
            editor.alter_field(Reading, old, new, strict=True)
        with pytest.raises(IntegrityError, match="A reading stands"), transaction.atomic():
            connection.cursor().execute("UPDATE clients_reading SET written = '30'")


def test_a_client_with_measures_is_not_deleted(measuring, ines):
    with pytest.raises(ProtectedError):
        ines.delete()


@pytest.mark.parametrize(
    ("name", "spoil"),
    [
        ("reading_correction_says_why", {"why": ""}),
        ("reading_correction_says_why", {"replaces": None, "key": "hip"}),
        ("reading_holds_a_length", {"replaces": None, "why": "", "key": "hip", "mm": None, "written": ""}),
        ("reading_holds_a_length", {"mm": Decimal(0)}),
        ("reading_holds_a_length", {"written": ""}),
        ("reading_holds_a_length", {"mm": None}),
    ],
)
def test_the_database_refuses_a_spoiled_correction(measuring, dunya, name, spoil):
    old = measuring.current()["waist"]
    valid = {"measuring": measuring, "key": "waist", "written": "29", "mm": inch(29), "replaces": old, "why": "slip", "written_by": dunya}
    with pytest.raises(IntegrityError, match=name), transaction.atomic():
        Reading.objects.create(**{**valid, **spoil})
    Reading.objects.create(**valid)


@pytest.mark.parametrize("field", ["measuring_id, clients_reading.key", "replaces_id"])
def test_two_people_cant_both_have_the_last_word(measuring, dunya, field):
    old = measuring.current()["waist"]
    valid = {"measuring": measuring, "key": "waist", "written": "29", "mm": inch(29), "written_by": dunya}
    again = {**valid, "replaces": old, "why": "slip"} if field == "replaces_id" else valid
    if field == "replaces_id":
        Reading.objects.create(**again)
    with pytest.raises(IntegrityError, match=f"UNIQUE constraint failed: clients_reading.{field}"), transaction.atomic():
        Reading.objects.create(**again)


# Clients --------------------------------------------------------------------------------------------------------


def test_a_name_alone_is_enough(db):
    zoe = Client.objects.create(name="Zoë")
    assert (zoe.first_name, zoe.phone, str(zoe)) == ("Zoë", "", "Zoë")


@pytest.mark.parametrize(
    ("text", "folded"),
    [("Zoë Łukasz", "zoe lukasz"), ("BRÍD Ní  Mháille", "brid ni mhaille"), ("Ærø Ðóra", "aero dora"), ("Strauß", "strauss"),
     ("Nguyễn Thị", "nguyen thi"), ("İpek Yıldız", "ipek yildiz")],
)  # fmt: skip
def test_names_are_folded_to_what_people_type(text, folded):
    assert fold(text) == folded
    assert fold(folded) == folded


def test_digits_of_a_phone_are_plain():
    assert digits("+44 (0)7700 900-418") == "4407700900418"
    assert digits("٠٧٧٠٠") == "07700"


@pytest.mark.parametrize("sought", ["zoe", "ZOË", "luk", "łuk", "kasz zo", "oe"])
def test_any_part_of_a_name_finds_without_regard_to_accents(db, sought):
    make_client("Ines Varga")
    zoe = make_client("Zoë Łukasz")
    assert list(Client.objects.matching(sought, with_phone=True)) == [zoe]


@pytest.mark.parametrize("sought", ["418", "00 418", "07700 900418"])
def test_the_last_digits_of_a_phone_find(db, sought):
    ines, _ = make_client(), make_client("Marit Solheim", phone="07700 900 401")
    assert list(Client.objects.matching(sought, with_phone=True)) == [ines]
    assert list(Client.objects.matching(sought, with_phone=False)) == []


@pytest.mark.parametrize("sought", ["%", "_", "\\", "'", "ines%", "i_es"])
def test_signs_of_the_database_are_only_signs(db, sought):
    make_client()
    assert list(Client.objects.matching(sought, with_phone=True)) == []


def test_a_new_name_is_found_by_its_new_letters(ines):
    ines.name = "Ágnes Varga"
    ines.save(update_fields=["name", "name_folded"])
    assert Client.objects.matching("agnes", with_phone=False).get() == ines
