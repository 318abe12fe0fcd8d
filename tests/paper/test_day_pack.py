"""The day's pack: its contents page, its order, and that what was printed before is taken as it was kept."""

import os
import re

import pytest
from django.utils import timezone

from orders.models import Order
from orders.paper import printing
from tests.orders.book import signed_order
from tests.pdf_text import words_of_pages

pytestmark = pytest.mark.usefixtures("pressed_once")


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    """One for this file: every test's three orders are the same, and a sheet that was printed for one is taken as it was kept."""
    return tmp_path_factory.mktemp("packs")


@pytest.fixture(autouse=True)
def own_folder(settings, folder):
    settings.DATA = folder


@pytest.fixture
def three_to_cut(hester):
    """Two from one cloth with one from another between them."""
    today = timezone.localdate()
    made = []
    for cloth in ("brocade", "duchess satin", "brocade"):
        order = signed_order(hester, cut_on=today, deposit=None)
        made.append((order, cloth))
    return made


def orders():
    return Order.objects.select_related("client").with_work().order_by("serial")


def with_cloths(monkeypatch, made):
    """Let each order's draft name its own outside cloth."""
    from drafting.paper.tags import BagCloth

    real, cloth_of = printing.entry_of, {order.number: cloth for order, cloth in made}

    def entry(order, garment, draft, papers):
        from dataclasses import replace

        found = real(order, garment, draft, papers)
        return replace(found, cloths=(BagCloth(cloth_of[order.number], 9, 9), *found.cloths[1:]))

    monkeypatch.setattr(printing, "entry_of", entry)


def test_the_contents_tell_what_to_cut_from_which_cloth_and_on_which_page(three_to_cut, monkeypatch):
    with_cloths(monkeypatch, three_to_cut)
    paper = printing.day_pack(orders(), timezone.localdate())
    if os.environ.get("SHOTS"):
        with open(f"{os.environ['SHOTS']}/pack.pdf", "wb") as file:
            file.write(paper)
    first, *rest = words_of_pages(paper)
    contents = first.split("To cut, in this order")[1]
    assert contents.index("Brocade") < contents.index("S-001") < contents.index("S-003") < contents.index("Duchess satin") < contents.index("S-002")
    pages = [first, *rest]
    for number in ("S-001", "S-003", "S-002"):
        begins = int(re.search(rf"{number} .*? (\d+)(?= ☐| Duchess| After)", contents)[1])
        assert number in pages[begins - 1] and "page 1 of" in pages[begins - 1]


def test_a_second_printing_takes_what_is_kept(three_to_cut, monkeypatch):
    first = printing.day_pack(orders(), timezone.localdate())

    def never(*_, **__):
        raise AssertionError("made anew")

    monkeypatch.setattr(printing, "job_sheet", never)
    assert words_of_pages(printing.day_pack(orders(), timezone.localdate())) == words_of_pages(first)


def test_a_changed_order_is_made_anew(three_to_cut, hester):
    printing.day_pack(orders(), timezone.localdate())
    order = three_to_cut[0][0]
    order.note = "Waist seam on the belt mark"
    order.keep("note", by=hester)
    assert any("Waist seam on the belt mark" in text for text in words_of_pages(printing.day_pack(orders(), timezone.localdate())))


def test_patterns_follow_their_sheets_where_they_are_asked_for(as_apprentice, hester):
    signed_order(hester, cut_on=timezone.localdate(), deposit=None)
    answer = as_apprentice.get(f"/orders/day/{timezone.localdate().isoformat()}/sheets.pdf", {"with": "patterns"})
    pages = words_of_pages(answer.content)
    cover = next(number for number, text in enumerate(pages) if "Full size on" in text)
    assert "page 1 of" in pages[0] and "S-001" in pages[0]
    count = int(re.search(r"Full size on (\d+) pages A4", pages[cover])[1])
    assert len(pages) == cover + 1 + count
    assert all("measures of" in text for text in pages[cover:])
