"""The Papers page and its files."""

import io
import re
from datetime import timedelta

import pypdf
import pytest

from drafting.paper.making import OFFERS
from tests.paper.drafts import NOON, keep
from tests.pdf_text import words_of


@pytest.fixture(autouse=True)
def own_folder(settings, tmp_path):
    """Papers kept by one test are not another's: the page tells which were made."""
    settings.DATA = tmp_path


@pytest.fixture
def draft(hester):
    return keep(hester)


def address(draft, name=""):
    return f"/drafts/{draft.pk}/papers/{name}"


def words(response):
    return " ".join(re.sub(r"<svg.*?</svg>|<[^>]+>", " ", response.content.decode(), flags=re.DOTALL).split())


def text_of(response):
    return words_of(response.content)


def test_every_paper_on_offer_can_be_had(as_apprentice, draft):
    page = as_apprentice.get(address(draft)).content.decode()
    for offer in OFFERS:
        assert address(draft, offer.file) in page
        answer = as_apprentice.get(address(draft, offer.file))
        assert answer.status_code == 200, offer.file
        assert answer.headers["Content-Disposition"].endswith(f'filename="S-014 draft 1 {offer.file}"')
        assert answer.headers["Content-Type"].split("/")[0] in ("application", "image", "text")


def test_a_paper_that_was_made_shows_its_pages_size_and_when(as_owner, draft):
    assert "kB" not in words(as_owner.get(address(draft)))
    made = as_owner.get(address(draft, "pattern-a3.pdf"))
    said = words(as_owner.get(address(draft)))
    pages = len(pypdf.PdfReader(io.BytesIO(made.content)).pages)
    size = round(len(made.content) / 1000)
    assert re.search(rf"Pattern on A3 full size, pages to join {pages} pages, {size} kB, made [^P]*? {pages} {size} kB", said)


def test_papers_of_an_earlier_draft_are_marked_out_of_date(as_owner, hester, draft):
    as_owner.get(address(draft, "tags.pdf"))
    newer = keep(hester, at=NOON + timedelta(days=1), client="Ines Quay")
    assert newer.number == 2
    said = words(as_owner.get(address(newer)))
    assert "Tags, PDF" in said and "draft 1 out of date" in said
    assert "Draft 2 is newer." in words(as_owner.get(address(draft)))


def test_a_paper_printed_again_says_that_a_newer_draft_exists(as_owner, hester, draft):
    assert "is newer" not in text_of(as_owner.get(address(draft, "tags.pdf")))
    keep(hester, at=NOON + timedelta(days=1), client="Ines Quay")
    assert "Draft 2 is newer than this one" in text_of(as_owner.get(address(draft, "tags.pdf")))


def test_a_choice_is_carried_to_the_papers(as_owner, draft):
    page = as_owner.get(address(draft), {"layer": "lining", "opened": "on"}).content.decode()
    assert f"{address(draft, 'pattern-a4.pdf')}?layer=lining&amp;opened=on" in page
    assert f'{address(draft, "tags.pdf")}"' in page
    text = text_of(as_owner.get(address(draft, "pattern-a0.pdf"), {"layer": "lining", "opened": "on"}))
    assert "Lining only; halves opened out" in text
    assert "Brocade" not in text
    assert "Pattern on A0, lining, opened out" in words(as_owner.get(address(draft)))


@pytest.mark.parametrize("query", [{"layer": "sleeves"}, {"pieces": "no such"}, {"pieces": "<script>"}])
def test_a_choice_that_there_is_not_is_refused(as_owner, draft, query):
    assert as_owner.get(address(draft), query).status_code == 422
    assert as_owner.get(address(draft, "pattern-a4.pdf"), query).status_code == 422


def test_a_choice_that_leaves_no_piece_says_which_there_are(as_owner, draft):
    answer = as_owner.get(address(draft, "pattern-a4.pdf"), {"layer": "wadding", "pieces": "band"})
    assert answer.status_code == 422
    assert "The pieces are centre cup" in words(answer)


@pytest.mark.parametrize("name", ["x.pdf", "pattern-a7.pdf", "pattern-.pdf", "pattern-roll-9mm.pdf", "pattern.exe", "..", "result.json.pdf"])
def test_a_paper_that_there_is_not_is_not_found(as_owner, draft, name):
    answer = as_owner.get(address(draft, name))
    assert answer.status_code == 404


def test_a_roll_of_another_width_can_be_asked_for(as_owner, draft):
    answer = as_owner.get(address(draft, "pattern-roll-600mm.pdf"))
    assert float(pypdf.PdfReader(io.BytesIO(answer.content)).pages[0].mediabox.width) == pytest.approx(600 * 72 / 25.4, abs=0.01)


@pytest.mark.parametrize(("written", "said"), [("3 7/8", "Set the scale to 103.2 %"), ("soup", "read “soup”. Write inches as"), ("40", "Measure it once more")])
def test_the_square_is_answered(as_owner, draft, written, said):
    assert said in words(as_owner.get(address(draft), {"square": written}))


def test_a_failed_draft_says_so_on_top(as_owner, hester):
    from drafting.models import KeptDraft
    from tests.paper.drafts import gown

    order, result = gown()
    check = {"check": "seam: x", "pass": False, "figure": 3, "limit": 1, "unit": "mm"}
    draft = KeptDraft.keep(order_file=order, result=result | {"checks": [check], "not_for_cutting": True}, made_by=hester, at=NOON)
    assert "NOT FOR CUTTING." in words(as_owner.get(address(draft)))
    assert "NOT FOR CUTTING" in text_of(as_owner.get(address(draft, "tags.pdf")))


def test_on_a_name_that_a_phone_can_reach_the_paper_has_a_code_for_the_order(as_owner, draft, settings):
    import pypdfium2
    import zxingcpp

    settings.ALLOWED_HOSTS = ["*"]
    for host, expected in (("192.168.1.20:8000", ["http://192.168.1.20:8000/orders/S-014/"]), ("127.0.0.1:8000", []), ("[::1]:8000", [])):
        data = as_owner.get(address(draft, "tags.pdf"), headers={"host": host}).content
        image = pypdfium2.PdfDocument(data)[0].render(scale=3).to_pil()
        assert [code.text for code in zxingcpp.read_barcodes(image)] == expected


def test_the_page_asks_the_database_a_fixed_few_times(as_owner, hester, draft, django_assert_max_num_queries):
    for day in range(1, 5):
        keep(hester, at=NOON + timedelta(days=day), client=f"Ines {day}")
    with django_assert_max_num_queries(6):
        as_owner.get(address(draft))


@pytest.mark.parametrize("name", ["", "pattern-a4.pdf"])
def test_strangers_are_sent_to_sign_in_and_post_is_refused(as_nobody, as_owner, draft, name):
    assert as_nobody.get(address(draft, name)).status_code == 302
    assert as_owner.post(address(draft, name)).status_code == 405


def test_the_draft_page_leads_here(as_owner, draft):
    assert address(draft) in as_owner.get(draft.get_absolute_url()).content.decode()
