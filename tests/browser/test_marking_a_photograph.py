"""Drawing on a photograph of a fitting, by mouse and by the keyboard alone, in a real Chromium."""

import pytest
from playwright.sync_api import expect

from clients.fit_notes import FitPhoto
from tests.clients.book import fit_note, jpeg, make_client

pytestmark = [pytest.mark.browser, pytest.mark.django_db(transaction=True)]


@pytest.fixture
def note(salt_lane, dunya):
    return fit_note(make_client(), dunya, photo=jpeg())


def marks_of(note) -> list:
    return FitPhoto.objects.values_list("marks", flat=True).get(note=note)


def drag(page, *places: tuple[float, float]) -> None:
    """Over the photograph, in shares of its width and height as it is shown."""
    box = page.locator("[data-picture] image").bounding_box()
    at = [(box["x"] + x * box["width"], box["y"] + y * box["height"]) for x, y in places]
    page.mouse.move(*at[0])
    page.mouse.down()
    for each in at[1:]:
        page.mouse.move(*each, steps=4)
    page.mouse.up()


def test_a_ring_an_arrow_and_a_line_are_drawn_and_kept(desk, note, dunya, let_in, accessible):
    let_in(desk, dunya).goto(f"/clients/fit/{note.pk}/marks/")
    expect(desk.get_by_role("button", name="Keep what is drawn")).to_be_hidden()
    drag(desk, (0.5, 0.5))
    desk.get_by_role("button", name="Arrow").click()
    drag(desk, (0.1, 0.1), (0.4, 0.4))
    desk.get_by_role("button", name="Line", exact=True).click()
    drag(desk, (0.2, 0.8), (0.5, 0.9), (0.8, 0.8))
    drag(desk, (0.1, 0.8), (0.1, 0.9))
    desk.get_by_role("button", name="Rub out the last stroke").click()
    expect(desk.locator("[data-new] .mark")).to_have_count(3)
    desk.get_by_role("button", name="Keep what is drawn").click()
    expect(desk.locator("[data-kept] .mark")).to_have_count(3)
    ring, arrow, line = marks_of(note)
    assert ring["kind"] == "ring"
    assert ring["at"][0] == pytest.approx([500, 667], abs=4)
    assert arrow["at"] == [pytest.approx([100, 133], abs=4), pytest.approx([400, 533], abs=4)]
    assert (line["kind"], len(line["at"]) > 4) == ("line", True)
    accessible(desk)


def test_a_mark_is_put_by_the_keyboard_alone(phone, note, dunya, let_in):
    let_in(phone, dunya).goto(f"/clients/fit/{note.pk}/marks/")
    phone.get_by_label("What").focus()
    phone.keyboard.type("an arrow from the r")
    phone.keyboard.press("Tab")
    phone.keyboard.type("C")
    phone.keyboard.press("Tab")
    phone.keyboard.type("7")
    phone.keyboard.press("Tab")
    expect(phone.get_by_role("button", name="Put it there")).to_be_focused()
    phone.keyboard.press("Enter")
    expect(phone.get_by_role("img", name="an arrow to C7")).to_be_visible()
    assert marks_of(note) == [{"kind": "arrow", "at": [[420, 866], [250, 866]]}]
