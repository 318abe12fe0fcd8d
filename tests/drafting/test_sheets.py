"""The job sheet as printed: read back from the PDF, not from our own templates."""

import io
import re
import unicodedata
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pdfplumber
import pypdf
import pytest
from django.conf import settings
from fontTools.ttLib import TTFont
from shapely import STRtree, box

from drafting.sheet_tables import material_rows
from drafting.sheets import SheetExtra, day_sheets
from tests.drafting.printed import plain_on, sheet, warned, whole_text  # noqa: F401
from tests.drafting.sample_result import sample_order, sample_result
from tests.pdf_text import letters_of_pages, words_of_pages

MM = 72 / 25.4
FONTS = Path(settings.BASE_DIR) / "static" / "fonts"
BUNDLED = {
    "Sheet-Sans": "NotoSans-Regular.ttf",
    "Sheet-Sans-Bold": "NotoSans-Bold.ttf",
    "Sheet-Head-Semi-Bold": "Besley-SemiBold.ttf",
}


@pytest.fixture(scope="module")
def plain():
    return plain_on("A4")


@pytest.mark.parametrize(("paper", "size"), [("A4", (210 * MM, 297 * MM)), ("Letter", (612, 792))])
def test_the_paper_is_exactly_as_large_as_it_is_called(paper, size):
    # ISO 216: A4 is 210 × 297 mm; ANSI/ASME Y14.1: Letter is 8.5 × 11 in.
    for page in pypdf.PdfReader(io.BytesIO(plain_on(paper))).pages:
        assert (float(page.mediabox.width), float(page.mediabox.height)) == pytest.approx(size, abs=0.01)


@pytest.mark.parametrize(("amount", "said"), [(1, "1 reel"), (2, "2 reels")])
def test_one_reel_is_one_reel(amount, said):
    laid_ready = {"materials": [{"item": "thread", "amount": amount, "unit": "reels", "count": 1}]}
    assert [(row.item, row.amount) for row in material_rows(laid_ready, "in")] == [("Thread", said)]


def test_an_unknown_paper_is_refused_by_name():
    with pytest.raises(ValueError, match="A4, Letter, not 'A3'"):
        sheet(paper="A3")


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_the_lines_to_check_by_are_100_mm_and_4_in_on_paper(paper):
    with pdfplumber.open(io.BytesIO(plain_on(paper))) as opened:
        widths = [line["width"] / MM for page in opened.pages for line in page.lines]
    assert min(abs(width - 100) for width in widths) < 0.05
    assert min(abs(width - 101.6) for width in widths) < 0.05


def test_a_piece_is_drawn_at_an_eighth(plain):
    # The modesty panel's fold: 7.2 in on the sewing line and ½ in of allowance at each end, at ⅛.
    with pdfplumber.open(io.BytesIO(plain)) as opened:
        heights = [line["height"] / MM for page in opened.pages for line in page.lines if line["width"] < 0.01]
    assert min(abs(height - 8.2 * 25.4 / 8) for height in heights) < 0.05


def test_the_print_dialogue_is_asked_not_to_fit_the_page(plain):
    assert pypdf.PdfReader(io.BytesIO(plain)).root_object["/ViewerPreferences"]["/PrintScaling"] == "/None"


def test_every_page_carries_order_draft_date_of_the_measures_and_its_number(plain):
    texts = words_of_pages(plain)
    for number, text in enumerate(texts, 1):
        assert "Salt Lane Sewing Room, S-014 Strapless gown, draft 4, measures of 2 March 2026" in text
        assert f"page {number} of {len(texts)}" in text


def test_a_failed_check_marks_every_page_and_is_named():
    result = sample_result()
    result["checks"].append({"check": "cups with band", "pass": False, "figure": 3.2, "limit": 0.5, "unit": "mm"})
    texts = words_of_pages(sheet(result=result))
    assert len(texts) > 1
    assert all("NOT FOR CUTTING" in text for text in texts)
    assert "cups with band comes to 3.2 mm (⅛ in), and at most 0.5 mm is right" in " ".join(texts[0].split())


def test_a_draft_that_passed_is_not_marked(plain):
    text = whole_text(plain)
    assert "NOT FOR CUTTING" not in text
    assert "TOILE ONLY" not in text
    assert "All 2 of the draft’s own checks passed" in text


def test_toile_only_marks_every_page():
    assert all("TOILE ONLY" in text for text in words_of_pages(sheet(result=sample_result() | {"toile_only": True})))


@pytest.mark.parametrize("form", ["NFC", "NFD"])
def test_names_of_many_languages_can_be_read_back_unbroken(form):
    names = ("Ọlábísí Adéṣọlá", "Ẹ̀bùn Ọ̀ṣun", "Nguyễn Thị Diệu Hằng", "Éloïse Lœuvre-Çağlar", "Ƙasimu Ɗanladi", "João Conceição")
    read = letters_of_pages(sheet(sample_order(client=unicodedata.normalize(form, " and ".join(names)))))
    for name in names:
        assert unicodedata.normalize("NFC", name) in unicodedata.normalize("NFC", read[0])


def test_eighths_and_sixteenths_can_be_read_back(plain):
    text = whole_text(plain)
    assert "16⅜" in text
    assert "38⅞" in text
    assert "⁷⁄₁₆" in text


def test_every_letter_is_drawn_as_the_bundled_font_draws_it():
    """The text of a PDF can read well while its shapes are another font's: compare the shapes themselves."""
    order = sample_order(client="Ẹ̀bùn −¼ Nguyễn ½", notes=["−¼ −⅜ ⅛ ¼ ⅜ ½ ⅝ ¾ ⅞ 3⁷⁄₁₆ − –"])
    reader = pypdf.PdfReader(io.BytesIO(sheet(order, extra=SheetExtra(changed=frozenset({"bust"})))))
    fonts = {}
    for page in reader.pages:
        for font in page["/Resources"]["/Font"].values():
            font = font.get_object()
            fonts[font["/BaseFont"].split("+")[1]] = font
    assert set(fonts) == set(BUNDLED)
    for name, font in fonts.items():
        ours = TTFont(FONTS / BUNDLED[name])
        told, compared = ours.getBestCmap(), 0
        embedded = TTFont(
            io.BytesIO(font["/DescendantFonts"][0].get_object()["/FontDescriptor"]["/FontFile2"].get_data())
        )
        for code, text in re.findall(
            r"<([0-9a-f]{4})> *<([0-9a-f]{4})>\n", font["/ToUnicode"].get_data().decode().lower()
        ):
            glyph = told.get(int(text, 16))
            if glyph:
                shape = embedded["glyf"][embedded.getGlyphName(int(code, 16))]
                meant = ours["glyf"][glyph]
                assert box_of(shape) == box_of(meant), f"{name}: {chr(int(text, 16))!r}"
                compared += 1
        assert compared > 10, name


def box_of(glyph):
    return tuple(getattr(glyph, side, 0) for side in ("xMin", "yMin", "xMax", "yMax"))


def test_measures_are_printed_with_estimated_and_changed_ones_marked():
    text = whole_text(sheet(extra=SheetExtra(changed=frozenset({"waist"}), taken_by="Dunya")))
    assert "taken 2 March 2026 by Dunya; changed; est. is worked out by a rule" in text
    assert "Neck est." in text
    assert "Bust est." not in text


def test_the_cut_list_names_every_piece_of_every_cloth_with_its_count(plain):
    text = whole_text(plain)
    listed = text[text.index("Cut list") : text.index("Pieces to scale")]
    for cloth, rows in {"Brocade": 7, "Lawn": 7, "Woven fusible": 3, "Cotton batting": 2}.items():
        part = listed[listed.index(cloth) :].split("in wide", 1)[1]
        following = min(
            (part.find(other) for other in ("Lawn", "Woven fusible", "Cotton batting") if other in part), default=None
        )
        part = part[:following]
        assert part.count("1 pair, mirrored") + part.count("on the fold") + part.count("2 pairs, mirrored") == rows, (
            cloth
        )
    assert "none: cut on the sewing line" in listed
    assert "for the outside and the lining" in listed


def test_by_hand_steps_tell_the_check_and_the_reason(plain):
    text = " ".join(whole_text(plain).split())
    assert "both legs are now 6⅛. Legs that differ pucker the cup. Check: lay the tape along both." in text


def test_a_seam_that_differs_is_told_in_words():
    result = sample_result()
    result["seams"][1]["length_a"] += 6.35
    text = whole_text(sheet(result=result))
    assert "differs ¼" in text.replace("\u00a0", " ")
    assert "all seams meet" not in text


def test_a_metric_workshop_reads_centimetres_and_one_to_ten():
    order = sample_order(units="cm", measured_on="2026-03-02")
    order["cloths"] = [cloth | {"width": "140cm"} for cloth in order["cloths"]]
    drawn = sample_result() | {"fit_notes": [{"place": "side waist", "side": "left", "amount": -6.0, "drawn": True}]}
    text = whole_text(sheet(order, drawn))
    assert "Measures, centimetres" in text
    assert "97.8" in text  # 38½ in is 97.79 cm
    assert "1 : 10, 1 mm on paper is 1 cm of cloth" in text
    assert "140 cm wide" in text.replace("\u00a0", " ")
    assert "Drawn in, from the fitting: take in 0.6 at the side waist, left." in text


def test_an_order_with_nothing_optional_prints():
    order = sample_order()
    for key in ("dates", "notes", "fit_notes"):
        del order[key]
    result = sample_result() | {
        "bones": [],
        "materials": [],
        "steps": [],
        "warnings": [],
        "making": [],
        "cautions": [],
        "seams": [],
    }
    texts = words_of_pages(sheet(order, result, workshop_name="", draft_number=None))
    assert all("S-014 Strapless gown, draft not kept, measures of 2 March 2026" in text for text in texts)


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_no_letter_lies_on_another_and_none_leaves_the_paper(paper):
    with pdfplumber.open(io.BytesIO(plain_on(paper))) as opened:
        for page in opened.pages:
            letters = [c for c in page.chars if c["text"].strip()]
            boxes = []
            for c in letters:
                assert 10 * MM < c["x0"] and c["x1"] < page.width - 10 * MM
                assert 8 * MM < c["top"] and c["bottom"] < page.height - 5 * MM
                pad = (c["bottom"] - c["top"]) * 0.28 if c["upright"] else 0
                side = (c["x1"] - c["x0"]) * 0.28 if not c["upright"] else 0
                boxes.append(
                    box(
                        c["x0"] + side + 0.2,
                        c["top"] + pad,
                        max(c["x1"] - side - 0.2, c["x0"] + side + 0.3),
                        c["bottom"] - pad,
                    )
                )
            hits = STRtree(boxes).query(boxes, predicate="overlaps")
            clashing = {
                (letters[a]["text"], letters[b]["text"], round(letters[a]["x0"]), round(letters[a]["top"]))
                for a, b in hits.T
                if b > a + 1  # neighbours may be kerned
                and boxes[a].intersection(boxes[b]).area > 0.15 * min(boxes[a].area, boxes[b].area)
            }
            assert not clashing, f"page {page.page_number}"


def test_several_sheets_become_one_file_each_with_its_own_numbers(plain):
    other = sheet(sample_order(order="S-015", client="Ada"))
    joined = day_sheets([plain, other])
    texts = words_of_pages(joined)
    half = len(words_of_pages(plain))
    assert len(texts) == 2 * half
    assert f"page 1 of {half}" in texts[0]
    assert f"page 1 of {half}" in texts[half]
    assert "S-015" in texts[half]
    assert pypdf.PdfReader(io.BytesIO(joined)).root_object["/ViewerPreferences"]["/PrintScaling"] == "/None"


def test_no_sheets_to_join_is_said():
    with pytest.raises(ValueError, match="no sheets"):
        day_sheets([])


def test_two_people_may_print_at_once(plain):
    with ThreadPoolExecutor(4) as printing:
        made = list(printing.map(lambda _: sheet(), range(4)))
    assert [words_of_pages(data) for data in made] == [words_of_pages(plain)] * 4
