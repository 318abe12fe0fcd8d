"""Taking measures from the list in a real browser: with our own keys, by keyboard, and without scripts."""

from datetime import timedelta

import pytest
from django.utils import timezone
from playwright.sync_api import expect

from clients.measures import MEASURES
from clients.models import READ_AGAIN, Measuring, Reading
from tests.clients.book import fit_note, make_client, measured
from tests.conftest import PHONE, four_ways, sticks_out, two_ways

pytestmark = [pytest.mark.browser, pytest.mark.django_db(transaction=True)]


@pytest.fixture
def ines(dunya):
    """A client who was measured ten days ago."""
    ines = make_client()
    measured(ines, dunya, timezone.localdate() - timedelta(days=130), waist="27", bust="35")
    measured(ines, dunya, timezone.localdate() - timedelta(days=10))
    fit_note(ines, dunya)
    return ines


@pytest.fixture
def card(ines, dunya, let_in):
    """`card(page)`: that page on her measuring card, all measures in a list, with Dunya signed in."""

    def opened(page):
        page.context.add_init_script("localStorage.setItem('chalk-view', 'list')")
        let_in(page, dunya).goto(f"/clients/{ines.pk}/measure/")
        return page

    return opened


def tap_keys(page, digits: str, part: str = "") -> None:
    for digit in digits:
        page.tap(f"[data-digit='{digit}']")
    if part:
        page.tap(f"[data-part='{part}']")


def in_the_book() -> dict[str, str]:
    measuring = Measuring.objects.newest_first().with_readings().first()
    return {key: reading.written for key, reading in measuring.current().items()}


def said(page, key: str):
    return page.locator(f"#m-{key}-said")


def test_measures_are_taken_with_our_own_keys(phone, card):
    page = card(phone)
    page.tap("#m-bust")
    expect(page.locator("[data-pad]")).to_be_visible()
    tap_keys(page, "36", "½")
    expect(page.locator("#m-bust")).to_have_value("36½")
    expect(page.locator("[data-next]")).to_have_text("Keep, then high bust")
    page.tap("[data-next]")
    expect(said(page, "bust")).to_contain_text("36½ in the book, ¼ more")
    expect(page.locator("#m-high_bust")).to_be_focused()
    tap_keys(page, "34", "½")
    page.tap("[data-next]")
    tap_keys(page, "311")
    page.tap("[data-rub]")
    page.tap("[data-part='⅜']")
    page.tap("[data-part='⅛']")
    page.tap("[data-next]")
    expect(said(page, "under_bust")).to_contain_text("31⅛ in the book")
    expect(page.locator(".in-list [data-taken]")).to_have_text(f"3 of {len(MEASURES)} taken")
    assert in_the_book() == {"bust": "36½", "high_bust": "34½", "under_bust": "31⅛"}
    assert Reading.objects.filter(measuring=Measuring.objects.newest_first().first()).count() == 3


def test_the_keys_never_cover_the_field_they_write_in(phone, card):
    page = card(phone)
    for key in ("bust", "knee", "bust_span", "dress_length"):
        page.locator(f"#m-{key}").focus()
        field, pad = page.locator(f"#m-{key}").bounding_box(), page.locator("[data-pad]").bounding_box()
        assert 0 <= field["y"] and field["y"] + field["height"] <= pad["y"], key


def test_every_key_is_big_enough_for_a_thumb(phone, card):
    page = card(phone)
    page.tap("#m-waist")
    for box in [each.bounding_box() for each in page.locator("[data-pad] button:visible").all()]:
        assert box["width"] >= 44 and box["height"] >= 44, box
    assert page.locator("#m-waist").bounding_box()["height"] >= 44
    assert page.locator("#m-waist").get_attribute("inputmode") == "none"


def test_the_phones_own_keyboard_is_one_touch_away(phone, card):
    page = card(phone)
    page.tap("#m-waist")
    page.tap("[data-letters]")
    expect(page.locator("[data-pad]")).to_be_hidden()
    expect(page.locator("#m-waist")).to_be_focused()
    assert page.locator("#m-waist").get_attribute("inputmode") == "decimal"


def test_a_slip_is_noticed_at_once_and_one_touch_puts_it_right(phone, card):
    page = card(phone)
    page.tap("#m-waist")
    tap_keys(page, "71")
    page.tap("[data-next]")
    expect(said(page, "waist")).to_contain_text("Was it 71 cm, which is 27")
    page.locator("#m-waist-said").get_by_role("button", name="Put 71 cm").tap()
    expect(said(page, "waist")).to_contain_text("27¹⁵⁄₁₆ in the book")
    assert list(Reading.objects.filter(key="waist").order_by("pk").values_list("written", "why"))[2:] == [("71", ""), ("71 cm", READ_AGAIN)]


def test_a_notice_never_blocks(phone, card):
    page = card(phone)
    page.tap("#m-waist")
    tap_keys(page, "32", "½")
    page.tap("[data-next]")
    expect(said(page, "waist")).to_contain_text("Read the tape once more? If it is right, keep it.")
    expect(page.locator("#m-hip")).to_be_focused()
    expect(said(page, "waist")).to_contain_text("32½ in the book")
    assert in_the_book() == {"waist": "32½"}


def test_what_cant_be_read_is_quoted_and_stays_in_its_field(phone, card):
    page = card(phone)
    page.locator("#m-waist").fill("28 5/7")
    page.locator("#m-hip").focus()
    expect(said(page, "waist").get_by_role("alert")).to_contain_text("“28 5/7”")
    expect(page.locator("#m-waist")).to_have_value("28 5/7")
    expect(page.locator("#m-waist")).to_have_attribute("aria-invalid", "true")
    page.locator("#m-waist").fill("28 5/8")
    page.locator("#m-hip").focus()
    expect(said(page, "waist")).to_contain_text("28⅝ in the book")
    expect(page.locator("#m-waist")).not_to_have_attribute("aria-invalid", "true")


def test_a_contradiction_shows_at_both_measures_and_goes_from_both(phone, card):
    page = card(phone)
    for key, text in (("bust", "36"), ("under_bust", "37")):
        page.locator(f"#m-{key}").fill(text)
        page.locator("#m-knee").focus()
    for key in ("bust", "under_bust"):
        expect(said(page, key)).to_contain_text("Under-bust 37 is more than bust 36.")
    page.locator("#m-under_bust").fill("31")
    page.locator("#m-knee").focus()
    for key in ("bust", "under_bust"):
        expect(said(page, key)).not_to_contain_text("Under-bust 37")


def test_a_reload_half_way_loses_nothing(phone, card):
    page = card(phone)
    page.locator("#m-shoes").or_(page.locator("[name=shoes]")).first.fill("2 in heels")
    page.locator("#m-bust").fill("36 1/2")
    page.locator("#m-waist").focus()
    expect(said(page, "bust")).to_contain_text("in the book")
    page.reload()
    expect(page.locator("#m-bust")).to_have_value("36 1/2")
    expect(page.locator("[name=shoes]")).to_have_value("2 in heels")
    expect(page.locator(".in-list [data-taken]")).to_have_text(f"1 of {len(MEASURES)} taken")


def test_keep_it_silences_a_notice_for_good(phone, card):
    page = card(phone)
    page.locator("#m-waist").fill("32 1/2")
    page.locator("#m-hip").focus()
    said(page, "waist").get_by_role("button", name="Keep it").tap()
    expect(said(page, "waist")).not_to_contain_text("Read the tape once more")
    expect(page.locator("body > .tray")).to_be_hidden()
    page.reload()
    expect(said(page, "waist")).to_contain_text("32½ in the book")
    expect(said(page, "waist")).not_to_contain_text("Read the tape once more")


def test_a_left_handed_seamstress_has_keep_on_the_left(phone, card, dunya):
    dunya.left_handed = True
    dunya.save(update_fields=["left_handed"])
    page = card(phone)
    page.tap("#m-waist")
    assert page.locator("[data-next]").bounding_box()["x"] < page.locator("[data-back]").bounding_box()["x"]


def test_the_whole_card_by_keyboard_alone(desk, card, ines):
    page = card(desk)
    page.locator("[name=worn]").focus()
    page.keyboard.type("long-line bra")
    page.locator("#m-bust").focus()
    for text in ("36 1/2", "34.5", "31"):
        page.keyboard.type(text)
        page.keyboard.press("Enter")
    expect(page.locator("#m-waist")).to_be_focused()
    page.keyboard.press("Escape")
    expect(page.locator("#m-under_bust")).to_be_focused()
    expect(said(page, "under_bust")).to_contain_text("31 in the book")
    expect(page.locator("[data-pad]")).to_be_hidden()
    page.get_by_role("button", name="Keep these measures").press("Enter")
    page.wait_for_url(f"**/clients/{ines.pk}/")
    assert in_the_book() == {"bust": "36 1/2", "high_bust": "34.5", "under_bust": "31"}
    assert Measuring.objects.newest_first().first().worn == "long-line bra"
    assert Measuring.objects.count() == 3


def test_what_was_typed_last_is_in_the_book_once_the_page_leads_on(phone, card, ines):
    """Shoes are typed, then the button is touched at once; sends are slow."""
    page = card(phone)
    page.route("**/take/", lambda route: (page.wait_for_timeout(400), route.continue_()))
    page.fill("[name=worn]", "long-line bra")
    page.fill("[name=shoes]", "2 in heels")
    page.fill("#m-bust", "36.5")
    page.fill("[name=posture]", "left shoulder low")
    page.get_by_role("button", name="Keep these measures").tap()
    page.wait_for_url(f"**/clients/{ines.pk}/")
    newest = Measuring.objects.newest_first().first()
    assert (newest.worn, newest.shoes, newest.posture) == ("long-line bra", "2 in heels", "left shoulder low")
    expect(page.locator("main").get_by_text("2 in heels")).to_have_count(1)
    assert in_the_book() == {"bust": "36.5"}
    assert Measuring.objects.count() == 3


def test_without_a_measure_the_page_stays_and_says_so(phone, card, ines):
    page = card(phone)
    page.fill("[name=worn]", "long-line bra")
    page.get_by_role("button", name="Keep these measures").tap()
    expect(page.locator("#not-kept")).to_contain_text("No measure is written yet.")
    expect(page.locator("[name=worn]")).to_have_value("long-line bra")


def test_measures_are_taken_without_scripts(open_page, card, ines):
    page = card(open_page(PHONE, has_touch=True, is_mobile=True, java_script_enabled=False))
    expect(page.locator("[data-pad]")).to_be_hidden()
    assert page.locator("#m-bust").get_attribute("inputmode") == "decimal"
    page.fill("#m-bust", "36.5")
    page.fill("#m-waist", "28 5/7")
    page.fill("[name=worn]", "long-line bra")
    page.get_by_role("button", name="Keep these measures").tap()
    expect(page.get_by_role("alert")).to_contain_text("What you typed is still here.")
    expect(page.locator("#m-waist")).to_be_focused()
    expect(said(page, "waist")).to_contain_text("“28 5/7”")
    expect(page.locator("#m-bust")).to_have_value("36.5")
    assert Measuring.objects.count() == 2
    page.fill("#m-waist", "38")
    page.get_by_role("button", name="Keep these measures").tap()
    page.wait_for_url(f"**/clients/{ines.pk}/")
    assert in_the_book() == {"bust": "36.5", "waist": "38"}
    expect(page.get_by_role("heading", name="Worth a second look")).to_be_visible()
    page.get_by_role("link", name="Put 28", exact=True).tap()
    page.fill("[name=why]", "slip of ten")
    page.get_by_role("button", name="Put it right").tap()
    page.wait_for_url(f"**/clients/{ines.pk}/")
    assert in_the_book()["waist"] == "28"
    expect(page.get_by_text("“slip of ten”")).to_be_visible()


def test_clients_are_found_while_typing(desk, ines, dunya, let_in):
    make_client("Zoë Łukasz", phone="")
    page = let_in(desk, dunya)
    page.goto("/clients/")
    page.locator("#seek").press_sequentially("luk")
    expect(page.get_by_text("1 found for “luk”")).to_be_visible()
    expect(page.get_by_role("link", name="Zoë Łukasz")).to_be_visible()
    expect(page.get_by_role("link", name="Ines Varga")).to_be_hidden()


def test_the_measure_book_is_accessible_and_fits(open_page, card, let_in, dunya, ines, accessible):
    reading = Reading.objects.filter(key="waist").last()
    reading.correct("28 1/2", "in", by=dunya, why="Wrong side of the tape.")
    page = card(open_page(PHONE, has_touch=True))
    page.locator("#m-waist").fill("38 1/2")
    page.locator("#m-knee").fill("28 5/7")
    page.locator("#m-bust").focus()
    expect(said(page, "knee").get_by_role("alert")).to_be_visible()
    fine(page, accessible, four_ways(page))
    later = Reading.objects.get(replaces=reading)
    pages = ("/clients/", "/clients/?q=nobody", "/clients/add/", f"/clients/{ines.pk}/", f"/clients/{ines.pk}/edit/", *(f"/clients/{ines.pk}/{path}/" for path in ("compare", "over-time/waist", "fit", "file", "paper-card")), f"/clients/readings/{later.pk}/correct/")
    for turn, url in enumerate(pages):
        page.goto(url)
        fine(page, accessible, two_ways(page, turn))


def fine(page, accessible, ways) -> None:
    """In all those ways, and 320 px wide: axe has nothing to say, and nothing sticks out sideways; only the table's own box scrolls."""
    for way in ways:
        accessible(page)
        assert sticks_out(page) == 0, (page.url, way)
    assert sticks_out(page, 320) == 0, page.url
