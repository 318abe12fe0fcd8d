"""Tags and the bag's label."""

import io

import pypdf
import pytest

from drafting.paper.about import About
from drafting.paper.tags import bundle_of, tags_pdf
from tests.paper.drafts import gown
from tests.pdf_text import words_of_pages

ABOUT = About("Salt Lane Sewing Room", 4, "3f9a2c1b77aa")
ORDER, RESULT = gown()


def text_of(**more):
    data = tags_pdf(ORDER, more.pop("result", RESULT), about=ABOUT, **more)
    return words_of_pages(data)


def test_there_is_a_tag_for_each_piece_of_each_cloth_numbered_through():
    bundle = bundle_of(ORDER, RESULT)
    assert len(bundle.tags) == sum(len(piece["cut"]) for piece in RESULT["pieces"])
    assert [tag.place for tag in bundle.tags] == list(range(1, len(bundle.tags) + 1))
    text = " ".join(text_of())
    for tag in bundle.tags:
        assert f"{tag.place} of {len(bundle.tags)}" in text
        assert f"{tag.cloth.capitalize()}: {tag.count}" in text


def test_the_bags_label_counts_what_is_in_it():
    counts = [cut["count"] for piece in RESULT["pieces"] for cut in piece["cut"]]
    assert bundle_of(ORDER, RESULT).pieces == sum(counts)
    assert f"In this bag: {sum(counts)} cut pieces with {len(counts)} tags." in text_of()[0]


def test_same_cloth_lies_together_in_the_orders_own_order():
    cloths = list(dict.fromkeys(tag.cloth.split(",")[0] for tag in bundle_of(ORDER, RESULT).tags))
    assert cloths == ["brocade", "lawn", "woven fusible", "cotton batting"]


@pytest.mark.parametrize(("paper", "size"), [("A4", (595.28, 841.89)), ("Letter", (612, 792))])
def test_it_prints_on_the_workshops_paper(paper, size):
    page = pypdf.PdfReader(io.BytesIO(tags_pdf(ORDER, RESULT, paper=paper, about=ABOUT))).pages[0]
    assert (float(page.mediabox.width), float(page.mediabox.height)) == pytest.approx(size, abs=0.01)


def test_another_paper_is_refused():
    with pytest.raises(ValueError, match="A4, Letter, not 'A3'"):
        tags_pdf(ORDER, RESULT, paper="A3")


def test_a_failed_draft_is_marked_on_the_bag_and_on_every_tag():
    text = " ".join(text_of(result=RESULT | {"not_for_cutting": True}))
    assert text.count("NOT FOR CUTTING") == len(bundle_of(ORDER, RESULT).tags) + 1
