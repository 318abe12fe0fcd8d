"""A gown's pattern at full size, made for a test; no test may make the printer warn."""

import logging
from functools import cache

import pytest

from drafting.paper.about import About
from drafting.paper.full_size import full_size
from drafting.paper.papers import paper_of
from tests.paper.drafts import gown

ABOUT = About("Salt Lane Sewing Room", 4, "3f9a2c1b77aa")
TOP = frozenset({"centre cup", "side cup", "band", "modesty panel"})


@pytest.fixture(autouse=True)
def warned():
    """Fail where WeasyPrint warns: a missing letter, an unknown rule, an address that it was kept from."""
    seen = []
    handler = logging.Handler(logging.WARNING)
    handler.emit = seen.append
    logger = logging.getLogger("weasyprint")
    logger.addHandler(handler)
    yield
    logger.removeHandler(handler)
    assert not [record.getMessage() for record in seen]


def made(paper="a4", *, choice=None, about=ABOUT, **changes):
    order, result = gown()
    return full_size(changes.pop("order", order), changes.pop("result", result), paper=paper_of(paper), choice=choice, about=about)


#: The same for tests that only read what was made: each pattern is made once.
kept = cache(made)


def rings_of(result, name):
    """The cutting lines of a piece: its own, and one more for each layer that is cut by an allowance of its own, as wadding is."""
    piece = next(p for p in result["pieces"] if p["name"] == name)
    return [piece["cut_line"], *(cut["cut_line"] for cut in piece["cut"] if cut.get("allowance"))]
