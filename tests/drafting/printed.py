"""Job sheets of the sample gown, and how tests read them back."""

import io
import logging
import unicodedata

import pypdf
import pytest

from drafting.sheets import job_sheet
from tests.drafting.sample_result import sample_order, sample_result


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


def pages(data):
    """Return the text of each page, unbroken."""
    return [page.extract_text() for page in pypdf.PdfReader(io.BytesIO(data)).pages]


def whole_text(data):
    return unicodedata.normalize("NFC", "\n".join(pages(data)))
