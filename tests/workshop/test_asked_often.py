"""Questions put into SQL once and asked for one after the other."""

import pytest

from clients.models import Client
from tests.clients.book import make_client
from workshop.asked_often import AskedOften


def test_each_gets_an_answer_of_their_own(db):
    names = AskedOften(lambda pk: Client.objects.filter(pk=pk).values_list("name"))
    ines, marit = make_client(), make_client("Marit Solheim")
    assert (names(ines.pk), names(marit.pk), names(0)) == ([(ines.name,)], [("Marit Solheim",)], [])


def test_a_question_that_names_something_else_last_is_refused(db):
    with pytest.raises(ValueError, match="last value"):
        AskedOften(lambda pk: Client.objects.filter(pk=pk).exclude(name="nobody").values_list("name"))(1)
