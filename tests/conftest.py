"""What every test may use: a real Chromium on the live pages, and the same made-up examples at every run.

A browser test takes `phone`, `desk`, `phone_dark` or `desk_dark` (pages with the live server's address), is marked
`@pytest.mark.browser`, and fails at its end if a page broke a script or the content security policy on the way.
"""

import os
import signal
from collections.abc import Callable, Iterator

import hypothesis
import pytest

from tests.accessible import accessible  # noqa: F401
from tests.cast import *  # noqa: F403
from tests.database import django_db_setup  # noqa: F401
from tests.made_once import made_anew, made_once, pressed_once  # noqa: F401
from tests.outside.sample import SAMPLE
from workshop import machine

PHONE = {"width": 390, "height": 844}
DESK = {"width": 1280, "height": 900}
#: How long a browser test waits for what must come: a busy machine of two cores takes its time, and a wait costs nothing when it comes.
PATIENCE_MS = 60_000
NO_CHROMIUM = "no Chromium on this machine"
#: Begun first, so that at the end of a run no process waits for one long file of another's; the shorter files fill the gaps.
LONGEST = (
    "browser/test_order_flow.py", "browser/test_measuring.py::test_the_measure_book", "browser/test_dates_looked_at.py",
    "outside/test_many_bodies.py", "workshop/test_bootstrap.py", "orders/demo/", "paper/test_full_size.py", "orders/paper/", "outside/",
    "paper/", "engine/test_making.py", "engine/lay/", "drafting/",
)  # fmt: skip
#: Until the page has drawn what it was told, and our own scripts have heard of it.
DRAWN = "() => new Promise((resolve) => requestAnimationFrame(() => requestAnimationFrame(resolve)))"

hypothesis.settings.register_profile("same-every-time", derandomize=True, deadline=None, database=None)
hypothesis.settings.load_profile("same-every-time")


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption("--browser-required", action="store_true", help="fail browser tests where there is no Chromium")
    parser.addoption("--all-bodies", action="store_true", help="all 2,260 bodies of tests/outside, not every eightieth, and the contrast of every text")


def pytest_configure(config: pytest.Config) -> None:
    if signal.getsignal(signal.SIGINT) is signal.SIG_IGN:  # begun in the background; the servers that tests begin are ended by Ctrl-C
        signal.signal(signal.SIGINT, signal.default_int_handler)
    SAMPLE.everything = config.getoption("--all-bodies")


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    def turn(item: pytest.Item) -> int:
        return next((place for place, long in enumerate(LONGEST) if item.nodeid.startswith(f"tests/{long}")), len(LONGEST))

    items.sort(key=turn)


@pytest.hookimpl(tryfirst=True)
def pytest_runtest_setup(item: pytest.Item) -> None:
    if item.get_closest_marker("browser") and machine.find_chromium() is None:
        if item.config.getoption("--browser-required"):
            pytest.fail(f"{NO_CHROMIUM}, and --browser-required was given. {machine.browser_advice()}", pytrace=False)
        pytest.skip(NO_CHROMIUM)


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    skipped = [report for report in terminalreporter.stats.get("skipped", []) if NO_CHROMIUM in str(report.longrepr)]
    if skipped:
        terminalreporter.write_line(f"Browser tests skipped: {len(skipped)}, {NO_CHROMIUM}. {machine.browser_advice()}")


@pytest.fixture(scope="session")
def chromium() -> Iterator:
    """One Chromium for the whole run."""
    from playwright.sync_api import expect, sync_playwright

    expect.set_options(timeout=PATIENCE_MS)
    # Playwright keeps an event loop in this thread; the tests' own queries beside it are plain blocking ones.
    os.environ["DJANGO_ALLOW_ASYNC_UNSAFE"] = "true"
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(
            executable_path=machine.find_chromium(),
            args=["--no-sandbox"] if os.name == "posix" and os.geteuid() == 0 else [],
        )
        yield browser
        browser.close()


@pytest.fixture
def open_page(chromium, live_server) -> Iterator[Callable]:
    """`open_page(PHONE, dark=True)`: a fresh page, in a browser window of its own that knows nobody yet."""
    contexts, complaints = [], []

    def note(message) -> None:
        if message.type == "error" and "content security policy" in message.text.lower():
            complaints.append(message.text)

    def fresh(viewport: dict[str, int], *, dark: bool = False, **options):
        context = chromium.new_context(
            base_url=live_server.url,
            viewport=viewport,
            color_scheme="dark" if dark else "light",
            locale="en-GB",
            **options,
        )
        context.set_default_timeout(PATIENCE_MS)
        contexts.append(context)
        page = context.new_page()
        page.on("pageerror", lambda error: complaints.append(str(error)))
        page.on("console", note)
        return page

    yield fresh
    for context in contexts:
        context.close()
    assert not complaints, "\n".join(complaints)


@pytest.fixture
def phone(open_page):
    return open_page(PHONE, has_touch=True, is_mobile=True)


@pytest.fixture
def desk(open_page):
    return open_page(DESK)


@pytest.fixture
def phone_dark(open_page):
    return open_page(PHONE, dark=True, has_touch=True, is_mobile=True)


@pytest.fixture
def desk_dark(open_page):
    return open_page(DESK, dark=True)


def four_ways(page) -> Iterator[str]:
    """The open page as on a phone and at a desk, light and dark, one after the other: turned about in place, not loaded anew."""
    for size, viewport in (("phone", PHONE), ("desk", DESK)):
        page.set_viewport_size(viewport)
        for scheme in ("light", "dark"):
            page.emulate_media(color_scheme=scheme)
            page.evaluate(DRAWN)
            yield f"{size}, {scheme}"


def two_ways(page, turn: int) -> Iterator[str]:
    """The open page on a phone and at a desk, one light and the other dark; at every second `turn` the other way about.

    For rows of pages, which have their frame and their colours in common: over two of them these are looked at in all four ways, and that
    each pair of colours has its contrast, by day and by night, is asked of the tokens (tests/workshop/test_tokens.py).
    """
    schemes = ("light", "dark") if turn % 2 == 0 else ("dark", "light")
    for (size, viewport), scheme in zip((("phone", PHONE), ("desk", DESK)), schemes, strict=True):
        page.set_viewport_size(viewport)
        page.emulate_media(color_scheme=scheme)
        page.evaluate(DRAWN)
        yield f"{size}, {scheme}"


def sticks_out(page, width: int | None = None) -> int:
    """By how many pixels the page is wider than its window; with `width`, of a window that wide (WCAG 2.2, 1.4.10 asks for 320)."""
    if width:
        page.set_viewport_size({"width": width, "height": 640})
        page.evaluate(DRAWN)
    return page.evaluate("document.documentElement.scrollWidth - document.documentElement.clientWidth")


@pytest.fixture
def let_in(client, settings, live_server) -> Callable:
    """`let_in(page, person)`: the person is signed in on that page; the sign-in page itself has its own tests."""

    def sign_in(page, person):
        client.force_login(person)
        cookie = client.cookies[settings.SESSION_COOKIE_NAME]
        page.context.add_cookies(
            [{"name": cookie.key, "value": cookie.value, "url": live_server.url, "httpOnly": True, "sameSite": "Lax"}]
        )
        return page

    return sign_in
