"""The Draft page and its sheets."""

import re
from datetime import UTC, datetime

import pytest
from django.urls import reverse

from drafting.models import KeptDraft
from tests.drafting.sample_result import sample_order, sample_result
from tests.pdf_text import words_of_pages

pytestmark = pytest.mark.usefixtures("pressed_once")
NOON = datetime(2026, 3, 9, 12, 0, tzinfo=UTC)


def keep(made_by=None, *, spoil=None, **changes) -> KeptDraft:
    result = sample_result()
    if spoil:
        spoil(result)
    return KeptDraft.keep(order_file=sample_order(**changes), result=result, made_by=made_by, at=NOON)


def words(response) -> str:
    text = re.sub(r"<svg.*?</svg>|<[^>]+>", " ", response.content.decode(), flags=re.DOTALL)
    return " ".join(text.split())


@pytest.fixture
def draft(hester) -> KeptDraft:
    return keep(hester)


def test_it_says_which_draft_of_which_measures_by_whom(as_owner, draft):
    said = words(as_owner.get(draft.get_absolute_url()))
    assert "Draft 1" in said and "S-014" in said
    assert "Ines, measures of 2 March" in said and "by Hester" in said


def test_the_draft_and_its_papers_lead_back_to_the_order(as_owner, draft):
    for page in (draft.get_absolute_url(), reverse("drafting:papers", args=[draft.pk])):
        assert f'href="{reverse("orders:show", args=["S-014"])}"' in as_owner.get(page).content.decode()


def test_girths_stand_with_body_ease_and_finished(as_owner, draft):
    said = words(as_owner.get(draft.get_absolute_url()))
    assert "Bust ⅜ of the ease is for wadding 38½ ⅜ 38⅞" in said
    assert "Hip 41 2 43" in said


def test_seams_stand_with_both_lengths(as_owner, draft):
    said = words(as_owner.get(draft.get_absolute_url()))
    assert "all seams meet" in said
    assert "Cup seam 6⅛ 6⅛ 0" in said


def test_a_seam_that_does_not_meet_says_by_how_much(as_owner, hester):
    def spoil(result):
        result["seams"][0]["length_a"] += 6.35

    said = words(as_owner.get(keep(hester, spoil=spoil).get_absolute_url()))
    assert "differs +¼" in said
    assert "all seams meet" not in said


@pytest.mark.parametrize(("ease", "said"), [(6.35, "one side is ¼ longer, eased in"), (-6.35, "the other is ¼ longer, eased in")])
def test_a_seam_with_ease_names_the_side_that_is_longer(as_owner, hester, ease, said):
    def eased(result):
        result["seams"][0]["ease"] = ease
        result["seams"][0]["length_a"] = result["seams"][0]["length_b"] + ease

    assert said in words(as_owner.get(keep(hester, spoil=eased).get_absolute_url()))


def test_the_first_group_of_pieces_is_shown_and_the_others_are_links(as_owner, draft):
    page = as_owner.get(draft.get_absolute_url()).content.decode()
    assert page.count('class="piece-drawing"') == len(re.findall(r'<li class="draft-piece">', page)) > 0
    assert "Centre cup" in page and "5 Skirt front" not in page
    assert 'href="?pieces=skirt"' in page


@pytest.mark.parametrize(("group", "title"), [("skirt", "Skirt front"), ("lining", "lining"), ("stay", "Centre cup"), ("all", "Band")])
def test_a_group_link_shows_its_pieces(as_owner, draft, group, title):
    page = as_owner.get(draft.get_absolute_url(), {"pieces": group}).content.decode()
    shown = "".join(re.findall(r'<li class="draft-piece">.*?</li>', page, flags=re.DOTALL))
    assert title in shown
    assert 'aria-current="true"' in page


@pytest.mark.parametrize("group", ["", "sleeves", "<script>", "top\x00"])
def test_a_group_that_there_is_not_shows_the_first(as_owner, draft, group):
    page = as_owner.get(draft.get_absolute_url(), {"pieces": group})
    assert page.status_code == 200
    assert "Centre cup" in page.content.decode()


def test_all_pieces_are_drawn_at_one_scale(as_owner, draft):
    page = as_owner.get(draft.get_absolute_url(), {"pieces": "all"}).content.decode()
    drawn = re.findall(r'<svg xmlns[^>]*width="([\d.]+)em" height="[\d.]+em"[^>]*viewBox="\S+ \S+ ([\d.]+) ', page)
    assert len(drawn) >= 5
    for em, mm in drawn:
        assert float(em) == pytest.approx(float(mm) / 25.4, rel=1e-3)


def test_every_line_of_the_drawing_can_be_reached_and_has_its_length(as_owner, draft):
    page = as_owner.get(draft.get_absolute_url()).content.decode()
    touched = re.findall(r'<path class="touch" tabindex="0"[^>]*aria-label="([^"]+)"', page)
    assert any(label.startswith("Cup seam, 6") for label in touched)


def test_by_hand_steps_hold_the_clients_figures(as_owner, draft):
    said = words(as_owner.get(draft.get_absolute_url()))
    assert "Ines’s own figures" in said
    assert sample_result()["steps"][0]["text"] in said


def test_a_failed_check_writes_not_for_cutting_across_the_top(as_owner, hester):
    def spoil(result):
        result["checks"][0] |= {"pass": False, "figure": 6.35}

    page = as_owner.get(keep(hester, spoil=spoil).get_absolute_url())
    text = page.content.decode()
    assert text.index("NOT FOR CUTTING") < text.index("<h1>")
    assert 'role="alert"' in text
    assert "differs ¼" in words(page)


def test_a_good_draft_does_not_say_not_for_cutting(as_owner, draft):
    assert "NOT FOR CUTTING" not in as_owner.get(draft.get_absolute_url()).content.decode()


def test_an_estimated_back_says_toile_only(as_owner, hester):
    page = as_owner.get(keep(hester, spoil=lambda result: result.update(toile_only=True)).get_absolute_url())
    assert "Toile only." in words(page)


def test_warnings_and_cautions_are_read_out(as_owner, draft):
    said = words(as_owner.get(draft.get_absolute_url()))
    assert "Neck and across back are estimated" in said
    assert sample_result()["cautions"][0] in said


def test_figures_are_in_the_orders_unit(as_owner, hester):
    said = words(as_owner.get(keep(hester, units="cm").get_absolute_url()))
    assert "104.1" in said and "10 centimetres" in said


def test_names_that_look_like_markup_are_shown_as_text(as_owner, hester):
    def spoil(result):
        result["warnings"][0]["text"] = "<b>bold</b>"
        result["pieces"][0]["title"] = "<script>x</script>"

    page = as_owner.get(keep(hester, spoil=spoil, client="<i>Ines</i>").get_absolute_url()).content.decode()
    assert "<i>Ines" not in page and "<b>bold" not in page and "<script>x" not in page


def test_the_page_asks_the_database_a_fixed_few_times(as_owner, draft, django_assert_max_num_queries):
    with django_assert_max_num_queries(5):
        as_owner.get(draft.get_absolute_url(), {"pieces": "all"})


@pytest.mark.parametrize("address", ["", "sheet.pdf"])
def test_a_draft_that_there_is_not_is_not_found(as_owner, draft, address):
    assert as_owner.get(f"/drafts/{draft.pk + 1}/{address}").status_code == 404


def test_it_refuses_strangers(as_nobody, draft):
    assert as_nobody.get(draft.get_absolute_url()).status_code == 302


@pytest.mark.parametrize("address", ["", "sheet.pdf"])
def test_it_refuses_post(as_owner, draft, address):
    assert as_owner.post(f"{draft.get_absolute_url()}{address}").status_code == 405


def pdf_pages(response) -> list[str]:
    assert response.headers["Content-Type"] == "application/pdf"
    return words_of_pages(response.content)


def test_the_sheet_is_the_drafts_own(as_apprentice, draft):
    response = as_apprentice.get(f"{draft.get_absolute_url()}sheet.pdf")
    assert response.headers["Content-Disposition"] == 'inline; filename="S-014 draft 1.pdf"'
    assert "S-014" in pdf_pages(response)[0]


def test_a_file_name_keeps_to_plain_letters(as_owner, hester):
    response = as_owner.get(f'{keep(hester, order="Über; 1").get_absolute_url()}sheet.pdf')
    assert response.headers["Content-Disposition"] == 'inline; filename="_ber_ 1 draft 1.pdf"'


def test_the_days_sheets_are_one_file_in_the_order_asked_for(as_owner, hester):
    first, second = keep(hester), keep(hester, order="S-015", client="Wilhelmina")
    single = len(pdf_pages(as_owner.get(f"{first.get_absolute_url()}sheet.pdf")))
    pages = pdf_pages(as_owner.get("/drafts/day-sheets.pdf", {"draft": [second.pk, first.pk, second.pk]}))
    assert len(pages) == 2 * single
    assert "S-015" in pages[0] and "S-014" in pages[single]


@pytest.mark.parametrize("query", ["", "?draft=", "?draft=none", "?draft=99999", "?draft=²", "?draft=-1"])
def test_no_draft_named_prints_nothing_and_says_so(as_owner, query):
    response = as_owner.get(f"/drafts/day-sheets.pdf{query}")
    assert response.status_code == 404
    assert "nothing to print" in words(response)
