"""Sheets on paper: one order's, the day's pack, and what is said where nothing can be printed."""

import pytest
from django.urls import reverse
from django.utils import timezone

from drafting import pdf
from orders.models import Cloth, Order
from orders.paper import printing
from tests.clients.book import make_client
from tests.orders.book import cut_order, days, drafted_order, fresh, garment_of, make_order, signed_order
from tests.pdf_text import words_of_pages

pytestmark = pytest.mark.usefixtures("pressed_once")


@pytest.fixture(autouse=True)
def own_folder(settings, tmp_path):
    """Papers kept by one test are not another's."""
    settings.DATA = tmp_path


def sheet(browser, order) -> list[str]:
    answer = browser.get(reverse("orders:sheet", args=[order.number]))
    assert answer.headers["Content-Type"] == "application/pdf"
    assert answer.headers["Content-Disposition"] == f'inline; filename="{order.number} job sheet.pdf"'
    return words_of_pages(answer.content)


def test_the_sheet_is_of_the_kept_draft_with_the_days_as_they_stand(as_apprentice, hester):
    order = signed_order(hester, booked_on=timezone.localdate() - days(5))
    order.collect_on = timezone.localdate() + days(30)
    order.note = "Waist seam on the belt mark"
    order.keep("collect_on", "note", by=hester)
    text = "\n".join(sheet(as_apprentice, order))
    assert "S-001" in text
    assert "Ines" in text
    assert f"{order.collect_on.day} {order.collect_on:%b}" in text
    assert "Waist seam on the belt mark" in text
    assert "Hester" in text


def test_a_cut_orders_sheet_stays_that_of_the_cut(as_owner, hester):
    order = cut_order(hester)
    garment = garment_of(order)
    assert garment.sheet_draft == garment.cut_draft
    assert "S-001" in "\n".join(sheet(as_owner, order))


def test_an_order_without_a_draft_says_so(as_owner, hester):
    answer = as_owner.get(reverse("orders:sheet", args=[make_order(hester).number]))
    assert answer.status_code == 409
    assert "S-001 has no draft yet. Draft it, then print its sheet." in answer.content.decode()


@pytest.fixture
def a_busy_day(hester):
    """Three to cut today: one signed off, one not, one not even measured."""
    today = timezone.localdate()
    signed = signed_order(hester, cut_on=today, deposit=None)
    drafted = drafted_order(hester, cut_on=today)
    unmeasured = make_order(hester, make_client("Wren Achterby"), cut_on=today)
    return signed, drafted, unmeasured


def test_one_that_cannot_be_drafted_does_not_sink_the_pack(as_apprentice, a_busy_day):
    answer = as_apprentice.get(reverse("orders:day-sheets", args=[timezone.localdate().isoformat()]))
    first, *rest = words_of_pages(answer.content)
    assert "Look at this first" in first
    assert "With this page: 2 job sheets." in first
    assert "S-003" in first
    assert "Not measured yet, so there is no sheet." in first
    assert "Not signed off yet." in first
    looked_at, contents = first.split("To cut, in this order")
    assert "S-001" not in looked_at
    assert "S-001" in contents and "S-002" in contents and "S-003" not in contents
    assert {number for page in rest for number in ("S-001", "S-002", "S-003") if number in page} == {"S-001", "S-002"}


def test_a_sheet_that_breaks_is_named_and_the_others_are_printed(hester, a_busy_day, monkeypatch):
    real = printing.job_sheet

    def breaks(file, *args, **kwargs):
        if file["order"] == "S-002":
            raise KeyError("girths")
        return real(file, *args, **kwargs)

    monkeypatch.setattr(printing, "job_sheet", breaks)
    orders = Order.objects.select_related("client").with_work().order_by("serial")
    first, *rest = words_of_pages(printing.day_pack(orders, timezone.localdate()))
    assert "Its sheet could not be made" in first
    assert rest
    assert not any("S-002" in page for page in rest)


def test_the_first_page_names_cloth_that_is_short(hester):
    order = signed_order(hester, deposit=None)
    outside = order.cloths.get(name="outside cloth")
    held = {"needs_mm": 2000, "at_least_mm": 1900, "laid_for": outside.laid_key([garment_of(order).draft_id])}
    Cloth.objects.filter(pk=outside.pk).update(on_hand_mm=1500, on_hand_written="1500 mm", **held)
    [said] = printing.spoken_against(Order.objects.with_work().get())
    assert said.startswith("Outside cloth short ⅝\u00a0yd. This draft takes 2¼\u00a0yd, ")


def test_a_pack_with_nothing_against_it_has_no_first_page(hester):
    signed_order(hester, cut_on=timezone.localdate(), deposit=None)
    pages = words_of_pages(printing.day_pack(Order.objects.with_work(), timezone.localdate()))
    assert "Look at this first" not in pages[0]
    assert "S-001" in pages[0]


def test_a_day_with_nothing_to_cut_says_so(as_owner, hester):
    answer = as_owner.get(reverse("orders:day-sheets", args=["2030-01-01"]))
    assert answer.status_code == 409
    assert "Nothing is to be cut on this day" in answer.content.decode()


def test_without_pango_the_page_says_what_to_install(as_owner, hester, made_anew, monkeypatch):
    order = drafted_order(hester)

    def missing():
        raise pdf.CannotPrint(f"The library Pango is missing. Put it in with: {pdf.install_line()}")

    monkeypatch.setattr(pdf, "_weasyprint", missing)
    answer = as_owner.get(reverse("orders:sheet", args=[order.number]))
    assert answer.status_code == 503
    assert pdf.install_line() in answer.content.decode().replace("&amp;", "&")
    assert fresh(order).stage == "measured"
