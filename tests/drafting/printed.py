"""Job sheets of the sample gown, and how tests read them back."""

import logging
import unicodedata
from functools import cache

import pytest

from drafting.sheets import job_sheet
from tests.drafting.sample_result import sample_order, sample_result
from tests.pdf_text import words_of_pages


@pytest.fixture(autouse=True)
def warned():
    """Fail where WeasyPrint warns: a missing letter, an unknown rule, an address that it was kept from."""
    seen = []
    handler = logging.Handler(logging.WARNING)
    handler.emit = seen.append
    logger = logging.getLogger("weasyprint")
    logger.addHandler(handler)
    yield seen
    logger.removeHandler(handler)
    assert not [record.getMessage() for record in seen]


def sheet(order=None, result=None, **more):
    more = {"workshop_name": "Salt Lane Sewing Room", "draft_number": 4, **more}
    return job_sheet(order or sample_order(), result or sample_result(), **more)


@cache
def plain_on(paper: str) -> bytes:
    """The sample's sheet on that paper, pressed once for all that ask what stands on it."""
    return sheet(paper=paper)


def whole_text(data):
    return unicodedata.normalize("NFC", "\n".join(words_of_pages(data)))
