"""Drafts and first lays come out the same each time (tests/engine and tests/drafting ask that), so each order of a test makes them only once.

A test whose subject is that they come out the same takes `made_anew`. Papers are made once only in the files that ask for `pressed_once`,
whose subject is who gets which paper and when, not what stands on it.
"""

import functools
import hashlib
import json
import pickle

import pytest
from django.utils import timezone

from drafting import pdf
from orders.cloth import laying
from orders.garment import making_draft

KNOWN: dict[str, bytes] = {}


def once(work, told):
    """`work`, but what it gave for the same before (as `told` writes its arguments down) is given again, as a copy."""

    @functools.wraps(work)
    def remembered(*given, **how):
        asked = [work.__qualname__, timezone.localdate().isoformat(), told(*given), how]
        key = hashlib.sha256(json.dumps(asked, sort_keys=True, default=str).encode()).hexdigest()
        if key not in KNOWN:
            KNOWN[key] = pickle.dumps(work(*given, **how))
        return pickle.loads(KNOWN[key])

    return remembered


draw = once(making_draft.draw, lambda brief: brief.as_order_file())
lays_and_warnings = once(laying.lays_and_warnings, lambda order_file, result: [order_file, result])


def lay(order_file, result, *, tries=None, **how):
    """Only a lay that ends by count is the same each time; one that looks as long as it may is looked for."""
    return (lays_and_warnings if tries else laid_anew)(order_file, result, tries=tries, **how)


laid_anew = laying.lays_and_warnings
press_sized = once(pdf.press_sized, lambda html: html)


@pytest.fixture(autouse=True)
def made_once(request, monkeypatch):
    if "made_anew" not in request.fixturenames:
        monkeypatch.setattr(making_draft, "draw", draw)
        monkeypatch.setattr(laying, "lays_and_warnings", lay)


@pytest.fixture
def pressed_once(request, monkeypatch):
    if "made_anew" not in request.fixturenames:
        monkeypatch.setattr(pdf, "press_sized", press_sized)


@pytest.fixture
def made_anew():
    """For a test that asks whether the same comes out again."""
