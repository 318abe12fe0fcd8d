"""Kept drafts: numbered, digested, and never changed."""

from datetime import UTC, datetime

import pytest
from django.db import IntegrityError, connection, transaction

from drafting.models import KeptDraft, digest_of
from tests.drafting.sample_result import sample_order, sample_result

NOON = datetime(2026, 3, 9, 12, 0, tzinfo=UTC)


def keep(**changes) -> KeptDraft:
    return KeptDraft.keep(order_file=sample_order(**changes), result=sample_result(), made_by=None, at=NOON)


@pytest.mark.django_db
def test_drafts_of_an_order_are_numbered_from_one():
    first, second = keep(), keep(client="Wilhelmina")
    assert [first.number, second.number] == [1, 2]
    assert keep(order="S-015").number == 1
    assert list(KeptDraft.objects.of_order("S-014")) == [first, second]


@pytest.mark.django_db
def test_the_same_draft_again_is_not_kept_twice():
    assert keep() == keep()
    assert KeptDraft.objects.count() == 1


@pytest.mark.django_db
def test_a_draft_that_returns_after_another_is_kept_anew():
    keep()
    keep(client="Wilhelmina")
    assert keep().number == 3


@pytest.mark.django_db
def test_saving_a_changed_draft_is_refused_by_the_database():
    draft = keep()
    draft.order_ref = "S-099"
    with pytest.raises(IntegrityError, match="never changed"), transaction.atomic():
        draft.save()
    draft.refresh_from_db()
    assert draft.order_ref == "S-014"


@pytest.mark.django_db
def test_an_update_of_many_drafts_is_refused_by_the_database():
    keep()
    with pytest.raises(IntegrityError, match="never changed"), transaction.atomic():
        KeptDraft.objects.update(number=7)


@pytest.mark.django_db
def test_the_guard_is_there_after_all_migrations():
    with connection.cursor() as cursor:
        cursor.execute("SELECT name FROM sqlite_master WHERE type = 'trigger' AND tbl_name = 'drafting_keptdraft'")
        assert cursor.fetchall() == [("drafting_keptdraft_never_changes",)]


@pytest.mark.django_db
@pytest.mark.parametrize(
    ("changes", "name"),
    [
        ({"number": 1}, "UNIQUE"),
        ({"number": 0}, "drafts_are_numbered_from_one"),
        ({"order_ref": ""}, "a_draft_belongs_to_an_order"),
    ],
)
def test_the_database_refuses_what_can_be_no_draft(changes, name):
    keep()
    fields = {"order_ref": "S-014", "number": 2, "made_at": NOON, "order_file": {}, "result": {}, "digest": ""} | changes
    with pytest.raises(IntegrityError, match=name), transaction.atomic():
        KeptDraft.objects.create(**fields)


@pytest.mark.django_db
def test_what_comes_out_of_the_database_has_the_digest_that_went_in():
    draft = KeptDraft.objects.get(pk=keep().pk)
    assert draft.is_unchanged
    draft.result["pieces"][0]["net"][0][0] += 0.001
    assert not draft.is_unchanged


def test_the_digest_does_not_depend_on_the_order_of_keys():
    order, result = sample_order(), sample_result()
    turned = dict(reversed(order.items()))
    assert list(turned) != list(order)
    assert digest_of(order, result) == digest_of(turned, result)


def test_the_digest_changes_with_a_sixteenth():
    order, result = sample_order(), sample_result()
    assert digest_of(order, result) != digest_of(sample_order(notes=[]), result)


@pytest.mark.django_db
def test_a_draft_is_for_cutting_only_when_every_check_passes():
    good, result = keep(), sample_result()
    assert good.for_cutting
    result["checks"][0]["pass"] = False
    assert not KeptDraft.keep(order_file=sample_order(), result=result, made_by=None, at=NOON).for_cutting


@pytest.mark.django_db
def test_a_list_of_drafts_leaves_the_drawings_in_the_database(django_assert_num_queries):
    keep()
    with django_assert_num_queries(1) as seen:
        list(KeptDraft.objects.of_order("S-014").without_drawing())
    assert '"result"' not in seen.captured_queries[0]["sql"]
