"""A reason says something: without a letter or a figure it counts as left empty."""

from functools import partial

import pytest

from clients.forms import CorrectionForm
from orders.forms import CallOffForm
from orders.money.forms import ReverseForm
from workshop.forms import ReasonField


@pytest.mark.parametrize("written", ["\ufffd", "\ufffd \ufffd", "\u200b", "\u202e", "...", "–", "   "])
@pytest.mark.parametrize("form", [ReverseForm, partial(CallOffForm, settles=False)], ids=["reverse", "call-off"])
def test_a_reason_without_a_word_is_empty(form, written):
    sent = form({"why": written})
    assert not sent.is_valid()
    assert "is empty" in sent.errors["why"][0]


@pytest.mark.parametrize("written", ["read 28 for 23", "é", "測り間違い", "7"])
def test_a_few_words_in_any_writing_are_enough(written):
    sent = ReverseForm({"why": written})
    assert sent.is_valid() and sent.cleaned_data["why"] == written


def test_a_correction_asks_for_one_too():
    assert isinstance(CorrectionForm.base_fields["why"], ReasonField)
