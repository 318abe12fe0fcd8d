"""The pattern as printed, read back from the PDF by other programs than those that wrote it."""

import io
import math
import unicodedata
from functools import cache

import pdfplumber
import pypdf
import pypdfium2
import pytest
from PIL import Image, ImageChops
from shapely import Polygon

from drafting.paper import full_size as module
from drafting.paper.about import About
from drafting.paper.choice import Choice
from drafting.paper.full_size import full_size
from drafting.paper.papers import PAPERS, paper_of
from drafting.paper.tiles import kept_tiles
from tests.paper.drafts import gown
from tests.paper.pressed import ABOUT, TOP, kept, made, rings_of, warned  # noqa: F401 - a fixture of every test here
from tests.pdf_text import letters_of_pages, words_of_pages

MM = 72 / 25.4


@pytest.fixture(scope="module")
def a4():
    return kept()


@pytest.mark.parametrize(
    ("paper", "points"),
    # ISO 216 and ANSI/ASME Y14.1, in points of 1/72 in.
    [("a4", (210 * MM, 297 * MM)), ("letter", (612, 792)), ("a3", (297 * MM, 420 * MM)), ("legal", (612, 1008)), ("a0", (841 * MM, 1189 * MM))],
)
def test_every_page_is_exactly_as_large_as_its_paper(paper, points):
    for page in pypdf.PdfReader(io.BytesIO(kept(paper, choice=Choice(pieces=TOP)))).pages:
        assert (float(page.mediabox.width), float(page.mediabox.height)) == pytest.approx(points, abs=0.01)


def test_a_roll_is_as_wide_as_it_is_called_and_never_longer_than_5_m():
    for page in pypdf.PdfReader(io.BytesIO(kept("roll:914mm"))).pages:
        assert float(page.mediabox.width) == pytest.approx(914 * MM, abs=0.01)
        assert float(page.mediabox.height) <= 5000 * MM + 0.01  # PDF 32000: 14,400 units are the limit


def test_a_long_roll_is_split(monkeypatch):
    long = PAPERS["a0"].__class__("roll:600mm", "Roll of 600 mm", 600.0, 1500.0, is_roll=True)
    order, result = gown()
    pages = pypdf.PdfReader(io.BytesIO(full_size(order, result, paper=long, about=ABOUT))).pages
    assert len(pages) >= 3
    assert all(float(page.mediabox.height) <= 1500 * MM + 0.01 for page in pages)


@cache
def sheet_and_tiles(choice):
    """Return the sheet's own page and the joined pages, both of the same spread; frames, names and stamps left out."""
    caught = {}
    real = module.on_pages

    def catch(pressed, tiles, grid):
        first, _, letters, sheet = pypdf.PdfReader(io.BytesIO(pressed)).pages
        caught.update(sheet=of_pages(sheet), tiles=tiles, grid=grid)
        return real(of_pages(first, None, letters, sheet), tiles, grid)

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(module, "on_pages", catch)
        patch.setattr("drafting.paper.tiling._frame", lambda tile, grid: [])
        patch.setattr("drafting.paper.tiling._names", lambda *about: [])
        joined = made(choice=choice)
    return caught["sheet"], joined, caught["tiles"], caught["grid"]


def of_pages(*pages):
    """Return a PDF of these pages, a blank one for None."""
    writer, out = pypdf.PdfWriter(), io.BytesIO()
    for page in pages:
        writer.add_page(page) if page else writer.add_blank_page(210 * MM, 297 * MM)
    writer.write(out)
    return out.getvalue()


def test_pages_laid_together_are_the_sheet_but_for_a_handful_of_dots():
    """Drawn by pypdfium2 at 5 dots a millimetre, so that pages step by whole dots; darkest dot wins in the overlap."""
    sheet, joined, tiles, grid = sheet_and_tiles(Choice(pieces=TOP))
    dots = 5
    scale = dots / MM * (1 - 1e-7)  # a page of whole millimetres then has whole dots, and is not fitted to one more
    large = pypdfium2.PdfDocument(sheet)[0]
    wide, high = (math.ceil(side / MM) for side in large.get_size())
    large.set_mediabox(0, large.get_height() - high * MM, wide * MM, large.get_height())
    whole = large.render(scale=scale, grayscale=True).to_pil().convert("L")
    assert whole.size == (wide * dots, high * dots)
    together = Image.new("L", whole.size, 255)
    pages = pypdfium2.PdfDocument(joined)
    assert len(pages) == len(tiles) + 1
    for page, tile in zip(list(pages)[1:], tiles, strict=True):
        drawn = page.render(scale=scale, grayscale=True).to_pil().convert("L")
        assert drawn.size == (210 * dots, 297 * dots)
        window = drawn.crop((10 * dots, 10 * dots, 200 * dots, 287 * dots))
        spot = (round(tile.left * dots), round(tile.top * dots))
        under = together.crop((*spot, spot[0] + window.width, spot[1] + window.height))
        together.paste(ImageChops.darker(window, under), spot)
    differing = sum(ImageChops.difference(whole, together).point(lambda v: 255 if v > 128 else 0).histogram()[255:])
    ink = sum(whole.histogram()[:128])
    assert ink > 20_000
    assert differing < 60, f"{differing} of {ink} dots"


def test_every_corner_of_every_piece_is_where_it_was_drafted_within_0_02_mm():
    """pdfplumber follows the shared form: the cutting lines on the pages, moved back, are the draft's own rings."""
    sheet, joined, tiles, grid = sheet_and_tiles(Choice(pieces=TOP))
    found = []
    with pdfplumber.open(io.BytesIO(joined)) as opened:
        for page, tile in zip(opened.pages[1:], tiles, strict=True):
            for curve in page.curves + page.lines:
                if abs(curve["linewidth"] - 0.5 * MM) < 0.01:
                    found.append([(x / MM - 10 + tile.left, y / MM - 10 + tile.top) for x, y in curve["pts"]])
    assert len(found) > 10
    _, result = gown()
    order = gown()[0]
    spread = module.spread_of(order, result, paper_of("a4"), Choice(pieces=TOP), module.heading(order, result, ABOUT), str)
    truth = {tuple(round(c, 3) for c in point) for piece in spread.pieces for line in piece.lines.cut for point in line}
    strokes = {tuple(round(c, 3) for c in p) for piece in spread.pieces for n in piece.lines.notches for s in n.strokes for p in s}
    from scipy.spatial import cKDTree

    tree = cKDTree(sorted(truth | strokes))
    worst = max(tree.query(line)[0].max() for line in found)
    assert worst < 0.02
    for piece in spread.pieces:  # slid or turned only: the ring's area and length are the draft's
        drafted = [Polygon(ring).area for ring in rings_of(result, piece.lines.name)]
        assert Polygon(piece.lines.outline).area in [pytest.approx(area, rel=1e-9) for area in drafted]


def test_the_test_square_is_10_cm_and_4_in(a4):
    for data in (a4, made("roll:36in", choice=Choice(pieces=TOP))):
        with pdfplumber.open(io.BytesIO(data)) as opened:
            sides = {(round(r["width"] / MM, 2), round(r["height"] / MM, 2)) for r in opened.pages[0].rects}
        assert (100.0, 100.0) in sides
        assert (101.6, 101.6) in sides


def test_every_page_says_whose_it_is_from_which_draft_and_measures(a4):
    for text in words_of_pages(a4) + words_of_pages(kept("a0")) + words_of_pages(kept("roll:914mm")):
        assert "S-014 Strapless bustier gown, draft 4 (3f9a2c1b), measures of 2 March 2026" in text


def test_each_page_has_its_name_and_its_neighbours(a4):
    order, result = gown()
    spread = module.spread_of(order, result, paper_of("a4"), Choice(), module.heading(order, result, ABOUT), str)
    tiles = kept_tiles(spread.grid, [Polygon(piece.lines.outline) for piece in spread.pieces])
    for page, tile in zip(words_of_pages(a4)[1:], tiles, strict=True):
        assert {tile.name, *filter(None, (tile.above, tile.below, tile.before, tile.after))} <= set(page.split())


def test_each_piece_says_what_it_is_how_many_from_which_cloth_and_whom_it_meets():
    # In DPI-free words: what a cutter reads on the one-sheet paper.
    text = words_of_pages(kept("roll:914mm"))[0]
    for words in ("2 Side cup", "Brocade: 1 pair, mirrored", "Woven fusible (stay): 1 pair, mirrored", "Lawn (lining): 1 on the fold",
                  "Allowance, in: ½; side (let-out) 1¼", "cup seam, to Centre cup", "under-bust, to Band", "on the fold"):  # fmt: skip
        assert words in text, words


def test_a_failed_check_is_written_across_every_page():
    order, result = gown()
    spoiled = result | {"checks": [*result["checks"], {"check": "x", "pass": False, "figure": 1, "limit": 0, "unit": "mm"}]}
    for paper in ("a4", "a0"):
        pages = words_of_pages(full_size(order, spoiled, paper=paper_of(paper), choice=Choice(pieces=TOP), about=ABOUT))
        assert all("NOT FOR CUTTING" in text for text in pages)
    assert not any("NOT FOR CUTTING" in text for text in words_of_pages(kept(choice=Choice(pieces=TOP))))


def test_a_newer_draft_is_told_on_every_page():
    about = About("Salt Lane Sewing Room", 4, "3f9a2c1b", newer=6)
    assert all("draft 6 is newer" in text for text in words_of_pages(made(choice=Choice(pieces=TOP), about=about)))


def test_the_print_dialogue_is_asked_not_to_fit_the_page(a4):
    for data in (a4, kept("a0"), kept("roll:914mm")):
        assert pypdf.PdfReader(io.BytesIO(data)).root_object["/ViewerPreferences"]["/PrintScaling"] == "/None"


def test_the_sheet_is_stored_once(a4):
    reader = pypdf.PdfReader(io.BytesIO(a4))
    forms = {page["/Resources"]["/XObject"].raw_get("/Sheet").idnum for page in reader.pages[1:]}
    assert len(forms) == 1
    assert len(a4) < 180 * 1024


def test_fonts_are_embedded(a4):
    seen = 0
    for data in (a4, kept("a0", choice=Choice(pieces=TOP))):
        reader = pypdf.PdfReader(io.BytesIO(data))
        for page in reader.pages:
            inner = [page["/Resources"]] + [x["/Resources"] for x in page["/Resources"].get("/XObject", {}).values() if "/Resources" in x]
            for resources in inner:
                for font in resources.get("/Font", {}).values():
                    described = font.get_object()["/DescendantFonts"][0].get_object()["/FontDescriptor"]
                    assert "/FontFile2" in described or "/FontFile3" in described
                    seen += 1
    assert seen > 10


@pytest.mark.parametrize("name", ["Ẹ̀bùn Ọ̀ṣun", "Nguyễn Thị Diệu Hằng", "Éloïse Lœuvre-Çağlar"])
def test_names_and_cloths_of_many_languages_can_be_read_back_unbroken(name):
    order, result = gown()
    renamed = [piece | {"cut": [cut | {"cloth": name} for cut in piece["cut"]]} for piece in result["pieces"]]
    for form in ("NFC", "NFD"):
        given = order | {"client": unicodedata.normalize(form, name)}
        data = full_size(given, result | {"pieces": renamed}, paper=paper_of("a3"), choice=Choice(pieces=TOP), about=ABOUT)
        first, *rest = (unicodedata.normalize("NFC", text) for text in letters_of_pages(data))
        assert f"For {unicodedata.normalize('NFC', name)}." in first
        assert any(unicodedata.normalize("NFC", name) in text.replace("\n", " ") for text in rest)


@pytest.mark.parametrize("name", ["<img src=file:///etc/passwd>", '<a rel=attachment href="file:///etc/passwd">x</a>', "</p><style>@import url(file:///etc/passwd)</style>", "Ann\x00\x1b[31m"])
def test_a_hostile_name_fetches_and_embeds_nothing(name):
    order, result = gown()
    pieces = [piece | {"title": name, "cut": [cut | {"cloth": name} for cut in piece["cut"]]} for piece in result["pieces"]]
    about = About(name, 4, "3f9a")
    for paper in ("a4", "roll:914mm"):
        data = full_size(order | {"client": name, "order": "S-1"}, result | {"pieces": pieces}, paper=paper_of(paper), choice=Choice(pieces=TOP), about=about)
        reader = pypdf.PdfReader(io.BytesIO(data))
        assert not reader.attachments
        assert b"/EmbeddedFile" not in data
        assert not any(page.get("/Annots") for page in reader.pages)
        said = " ".join(words_of_pages(data))
        assert "root:" not in said
        assert name.split("\x00")[0][:5] in said


def test_the_code_opens_the_orders_page():
    """Read back from the printed page by zxing-cpp, a decoder that has nothing to do with the encoder."""
    import zxingcpp

    address = "http://192.168.1.20:8000/orders/S-014/"
    about = About("Salt Lane Sewing Room", 4, "3f9a2c1b", address=address)
    for paper in ("a4", "roll:914mm"):
        page = pypdfium2.PdfDocument(made(paper, choice=Choice(pieces=TOP), about=about))[0]
        found = zxingcpp.read_barcodes(page.render(scale=200 / 72).to_pil().crop((0, 0, 1700, 1300)))
        assert [code.text for code in found] == [address]


def test_without_an_address_there_is_no_code(a4):
    import zxingcpp

    assert not zxingcpp.read_barcodes(pypdfium2.PdfDocument(a4)[0].render(scale=2).to_pil())
