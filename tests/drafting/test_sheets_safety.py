"""What people typed stays text: a sheet fetches and embeds nothing, and says so when it can't be printed at all."""

import builtins
import io

import pdfplumber
import pypdf
import pypdfium2
import pytest

from drafting import pdf as press_module
from drafting.sheets import CannotPrint, SheetExtra
from tests.drafting.printed import sheet, warned, whole_text  # noqa: F401
from tests.drafting.sample_result import sample_order, sample_result

HOSTILE = [
    "<img src=file:///etc/passwd>",
    '<a rel=attachment href="file:///etc/passwd">x</a>',
    "<link rel=attachment href=file:///etc/passwd>",
    "<style>@import url(file:///etc/passwd);</style>",
    "</style><svg><image href='file:///etc/passwd'/></svg>",
    "Ann\x00\x07\x1b[31m\x7f Bell",
    "{{ page.order }}{% include 'x' %}",
]


@pytest.mark.parametrize("name", HOSTILE)
def test_a_hostile_text_is_printed_as_it_is_and_fetches_and_embeds_nothing(name):
    order = sample_order(client=name, notes=[name], fit_notes=[{"place": name, "side": "left", "amount": "1/4"}])
    result = sample_result()
    result["pieces"][0]["title"] = result["pieces"][0]["remarks"][0] = result["making"][0]["text"] = name
    result["garment"]["summary"] = result["materials"][0]["item"] = result["cautions"][0] = name
    data = sheet(order, result, workshop_name=name, extra=SheetExtra(taken_by=name, signed_off_by=name))
    reader = pypdf.PdfReader(io.BytesIO(data))
    assert not reader.attachments
    assert b"/EmbeddedFile" not in data
    assert not any(page.get("/Annots") for page in reader.pages)
    assert not any(list(page.get_objects(filter=[pypdfium2.raw.FPDF_PAGEOBJ_IMAGE])) for page in pypdfium2.PdfDocument(data))
    text = whole_text(data)
    assert "root:" not in text
    assert name.split("\x00")[0][:6] in text


@pytest.mark.parametrize(
    "markup",
    [
        "<img src=file:///etc/passwd>",
        "<a rel=attachment href=file:///etc/passwd>x</a>",
        "<link rel=stylesheet href=file:///etc/passwd>",
        "<link rel=attachment href=file:///etc/passwd>",
        "<svg><image href=file:///etc/passwd /></svg>",
        "<img src=http://127.0.0.1:9/x>",
    ],
)
def test_even_markup_that_slipped_through_could_fetch_nothing(markup, warned):  # noqa: F811
    data = press_module.press(f"<p>here</p>{markup}", paper="A4")
    assert not pypdf.PdfReader(io.BytesIO(data)).attachments
    assert b"root:" not in data
    assert any("protocol" in record.getMessage().lower() for record in warned)
    warned.clear()


def test_without_pango_printing_says_what_to_install(monkeypatch):
    real = builtins.__import__

    def without_pango(name, *args, **kwargs):
        if name == "weasyprint":
            raise OSError("cannot load library 'libpangoft2-1.0-0'")
        return real(name, *args, **kwargs)

    press_module._weasyprint.cache_clear()
    monkeypatch.setattr(builtins, "__import__", without_pango)
    with pytest.raises(CannotPrint, match="Pango is missing.*libpango|pango"):
        sheet()
    monkeypatch.undo()
    press_module._weasyprint.cache_clear()
    assert sheet().startswith(b"%PDF")


@pytest.mark.parametrize("name", ["Ann" * 60, "A very long name of many words " * 8])
def test_a_very_long_text_stays_on_the_paper(name):
    order = sample_order(client=name, notes=[name])
    order["cloths"][0]["name"] = name
    result = sample_result()
    for piece in result["pieces"]:
        for cut in piece["cut"]:
            cut["cloth"] = name if cut["cloth"] == "brocade" else cut["cloth"]
    with pdfplumber.open(io.BytesIO(sheet(order, result, workshop_name=name[:120]))) as opened:
        for page in opened.pages:
            assert max(c["x1"] for c in page.chars) < page.width - 12 / 25.4 * 72
