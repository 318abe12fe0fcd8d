"""The pages of lays: drawn, told in words, changed without scripts, and free of money for the apprentice."""

import re

import pytest
from django.urls import reverse

from orders.models import Cloth, KeptLay
from tests.orders.book import cut_order, drafted_order, make_order

HTMX = {"HTTP_HX_REQUEST": "true"}


@pytest.fixture
def order(hester):
    return drafted_order(hester)


def url(name: str, *args) -> str:
    return reverse(f"orders:{name}", args=args)


def text(answer) -> str:
    return answer.content.decode()


def sent(cloth: Cloth, **changes) -> dict:
    given = {"name": cloth.name, "used_for": cloth.used_for, "width": cloth.width_written, "whose": cloth.whose, "version": cloth.version}
    return given | {"on_hand": "3 yd", "layout": "", "shrink_percent": ""} | changes


def test_the_order_page_asks_for_what_is_not_known_and_then_shows_it(as_owner, order):
    page = text(as_owner.get(order.get_absolute_url()))
    assert f'hx-get="{url("needs", order.number)}"' in page
    assert "Work out what is needed" in page
    rows = text(as_owner.get(url("needs", order.number), **HTMX))
    assert rows.lstrip().startswith("<section") and "hx-get" not in rows
    assert len(re.findall(r"<td>[^<]*yd</td>", rows)) == 4


def test_without_scripts_the_link_leads_back_to_the_order_with_its_answer(as_owner, order):
    answer = as_owner.get(url("needs", order.number))
    assert answer.url == order.get_absolute_url()
    assert "Work out what is needed" not in text(as_owner.get(answer.url))


@pytest.mark.parametrize("change", [{"width": "60"}, {"layout": "open"}, {"one_way": "on"}, {"on_hand": "1 yd"}])
def test_changing_a_cloth_answers_at_once_without_scripts(as_owner, order, change):
    as_owner.get(url("needs", order.number))
    cloth = order.cloths.first()
    assert as_owner.post(url("cloth", order.number, cloth.pk), sent(cloth, **change)).status_code == 302
    page = text(as_owner.get(order.get_absolute_url()))
    assert "Work out what is needed" not in page
    assert ("</svg>short " in page) == ("on_hand" in change)


def test_the_form_tells_the_answer_before_it_is_saved(as_owner, order):
    cloth = order.cloths.first()
    told = text(as_owner.get(url("try-cloth", order.number, cloth.pk), sent(cloth, on_hand="1 yd"), **HTMX))
    assert "So it needs" in told and "short" in told
    cloth.refresh_from_db()
    assert cloth.on_hand_mm is None and cloth.laid_for == ""


def test_the_form_says_nothing_of_what_cannot_be_read(as_owner, order):
    cloth = order.cloths.first()
    assert "needs" not in text(as_owner.get(url("try-cloth", order.number, cloth.pk), sent(cloth, width="5 3/7"), **HTMX))


def test_each_lay_is_drawn_with_its_pieces_named_and_its_length_marked(as_owner, order):
    page = text(as_owner.get(url("lays", order.number)))
    assert page.count('class="lay-drawing"') == 4
    assert "&lt;svg" not in page and "style=" not in page
    for kept in KeptLay.objects.filter(lay__cloth="outside cloth", lay__layout="folded"):
        assert all(placed["piece"] in page for placed in kept.lay["placed"])
    assert "At least" in page or "none folded takes less" in page
    assert "Laid open" in page
    assert re.search(r'class="lay-name"[^>]*>[^<]+\u00a0in</text>', page)


def test_a_lay_not_found_is_not_called_impossible(as_owner, order):
    as_owner.get(url("needs", order.number))
    cloth = order.cloths.first()
    for there, said, not_said in (
        ((cloth.needs_mm + cloth.at_least_mm) / 2, "No lay found within", "Cannot fit"),
        (cloth.at_least_mm / 2, "Cannot fit folded", "No lay found within"),
    ):
        Cloth.objects.filter(pk=cloth.pk).update(on_hand_mm=there, on_hand_written=f"{there:.2f} mm")
        page = text(as_owner.get(url("lays", order.number)))
        assert said in page and not_said not in page
        assert "What would help" in page


def test_what_would_help_is_worked_out_on_request(as_owner, order):
    cloth = order.cloths.first()
    page = text(as_owner.get(url("lays", order.number), {"help": cloth.pk}))
    assert "Lay it open, in one layer" in page and "Cloth 60\u00a0in wide" in page
    assert "Cloth 60" not in text(as_owner.get(url("lays", order.number), {"help": "9" * 30}))


def test_the_apprentice_sees_the_lays_and_no_money(as_apprentice, order):
    page = text(as_apprentice.get(url("lays", order.number)))
    assert page.count('class="lay-drawing"') == 4
    assert "£" not in page and "Look for" not in page and "Change the cloth" not in page


def test_an_order_without_a_draft_says_so(as_owner, hester):
    order = make_order(hester)
    assert "No draft yet" in text(as_owner.get(url("lays", order.number)))


def test_a_cut_order_shows_its_lays_and_calls_nothing_short(as_owner, hester):
    order = cut_order(hester)
    order.cloths.update(on_hand_mm=100, on_hand_written="100 mm")
    page = text(as_owner.get(url("lays", order.number)))
    assert page.count('class="lay-drawing"') == 4
    assert "</svg>short " not in page and "Cannot fit" not in page and "No lay found" not in page
