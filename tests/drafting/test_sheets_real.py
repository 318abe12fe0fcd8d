"""Sheets of drafts that the engine really makes: other bodies, other choices, both papers, both systems."""

import io
import logging

import pdfplumber
import pypdf
import pytest
from shapely import STRtree, box

from drafting.brief import read_brief
from drafting.drawing import draw
from drafting.sheets import job_sheet
from tests.drafting.sample_result import sample_order
from tests.pdf_text import words_of

MM = 72 / 25.4
SMALL = {"bust": 32, "under_bust": 28, "waist": 25, "hip": 35, "shoulder": 14.5, "shoulder_to_bust": 9.5,
         "shoulder_to_under_bust": 12.25, "shoulder_to_waist": 15.5, "armhole_depth": 6}  # fmt: skip
LARGE = {"bust": 48, "under_bust": 41, "waist": 40, "hip": 51, "shoulder": 18, "shoulder_to_bust": 13.25,
         "shoulder_to_under_bust": 16.5, "shoulder_to_waist": 19, "armhole_depth": 7.75,
         "high_bust": 45, "neck": 17}  # fmt: skip


def made(*, measures=None, paper="A4", units="in", **garment):
    order = sample_order()
    if measures:
        order["measures"] = measures
    order["measures"].pop("skirt_length", None)
    order["garment"] |= garment
    if units == "cm":
        order["units"] = "cm"
        order["measures"] = {key: f"{value}in" for key, value in order["measures"].items()}
        order["garment"]["skirt"] = {"kind": "a-line", "length": 96.5}
        order["cloths"] = [cloth | {"width": 140} for cloth in order["cloths"]]
        order["fit_notes"] = []
    brief = read_brief(order)
    return job_sheet(
        brief.as_order_file(), draw(brief), workshop_name="Salt Lane Sewing Room", paper=paper, draft_number=1
    )


CASES = {
    "laced A-line": {},
    "small body, Letter": {"measures": SMALL, "paper": "Letter"},
    "large body, zip, straight skirt": {
        "measures": LARGE, "closure": "back-zip", "skirt": {"kind": "straight", "length": 26}, "paper": "Letter",
    },
    "no skirt, unlined": {"skirt": {"kind": "none"}, "lined": False},
    "centimetres": {"units": "cm"},
    "long skirt": {"skirt": {"kind": "a-line", "length": 46}},
}  # fmt: skip


@pytest.fixture(params=CASES, scope="module")
def paper(request):
    warned = []
    handler = logging.Handler(logging.WARNING)
    handler.emit = lambda record: warned.append(record.getMessage())
    logging.getLogger("weasyprint").addHandler(handler)
    data = made(**CASES[request.param])
    logging.getLogger("weasyprint").removeHandler(handler)
    assert not warned
    return data


@pytest.fixture(scope="module")
def pages(paper):
    """The pages as pdfplumber reads them, which takes as long as to make them: read once."""
    with pdfplumber.open(io.BytesIO(paper)) as opened:
        yield opened.pages


def test_it_says_what_an_apprentice_needs(paper):
    text = words_of(paper)
    for heading in ("Before you cut", "Measures, ", "Cut list", "Pieces to scale", "Bones and casing", "Round the body",
                    "Seams that must meet", "Order of making", "Materials", "By hand", "Care", "Cut by"):  # fmt: skip
        assert heading in text
    assert "all seams meet" in text
    assert len(pypdf.PdfReader(io.BytesIO(paper)).pages) <= 5


def test_no_letter_lies_on_another_and_none_leaves_the_paper(pages):
    for page in pages:
        stamps = 40  # the grey words across a page lie behind the text on purpose
        letters = [c for c in page.chars if c["text"].strip() and c["size"] < stamps]
        assert all(10 * MM < c["x0"] and c["x1"] < page.width - 10 * MM for c in letters)
        assert all(4.5 * MM < c["top"] and c["bottom"] < page.height - 5 * MM for c in letters)
        boxes = [heart(c) for c in letters]
        hits = STRtree(boxes).query(boxes, predicate="intersects").T
        clashing = {
            (letters[a]["text"], letters[b]["text"], round(letters[a]["x0"] / MM), round(letters[a]["top"] / MM))
            for a, b in hits
            if b > a + 1 and boxes[a].intersection(boxes[b]).area > 0.15 * min(boxes[a].area, boxes[b].area)
        }
        assert not clashing, f"page {page.page_number}"


def heart(letter):
    """Return the middle of a letter's box: without the room above and below, and without what kerning takes."""
    across = 0.0 if letter["upright"] else 0.28 * (letter["x1"] - letter["x0"])
    down = 0.28 * (letter["bottom"] - letter["top"]) if letter["upright"] else 0.0
    return box(
        letter["x0"] + across + 0.1,
        letter["top"] + down,
        max(letter["x1"] - across - 0.1, letter["x0"] + across + 0.2),
        letter["bottom"] - down,
    )


def test_no_heading_is_left_alone_at_the_foot_of_a_page(pages):
    for page in pages:
        body = [
            c for c in page.chars if c["text"].strip() and c["bottom"] < page.height - 13 * MM and c["size"] < 40
        ]
        lowest = max(c["bottom"] for c in body)
        last_line = {c["fontname"].split("+")[1] for c in body if c["bottom"] > lowest - 1.5}
        assert last_line != {"Sheet-Head-Semi-Bold"}
