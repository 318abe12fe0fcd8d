"""What tests of measuring without a network do with a phone, and what they ask of the book."""

from django.utils import timezone

from clients.models import Measuring, Reading

EIGHTHS = {"1/8": "⅛", "1/4": "¼", "3/8": "⅜", "1/2": "½", "5/8": "⅝", "3/4": "¾", "7/8": "⅞"}
#: How long a loaded machine may take to send what a phone holds, in milliseconds.
SENDING = 60_000


def at_hand(page) -> None:
    """Wait until the phone answers for us and has kept the page that it shows."""
    page.evaluate("""async () => {
      await navigator.serviceWorker.ready;
      for (let n = 0; n < 600; n += 1) {
        const name = (await caches.keys()).find((each) => each.startsWith('pages-'));
        if (name && (await (await caches.open(name)).match(location.pathname)) && sessionStorage.getItem('chalk-ahead')) return;
        await new Promise((resolve) => setTimeout(resolve, 50));
      }
      throw new Error('the phone did not keep the page');
    }""")


def tap(page, text: str) -> None:
    whole, fraction = (text.split(" ") + [""])[:2]
    for digit in whole:
        page.tap(f"[data-digit='{digit}']")
    if fraction:
        page.tap(f"[data-part='{EIGHTHS[fraction]}']")
    page.tap("[data-next]")


def tray(page):
    return page.locator("[data-one] [data-tray]")


def in_the_book() -> dict[str, str]:
    """The newest measures, as written."""
    return {key: reading.written for key, reading in Measuring.objects.newest_first().with_readings().first().current().items()}


def new_readings() -> int:
    """Readings of today: those of ten days ago are not counted."""
    return Reading.objects.filter(measuring__taken_on=timezone.localdate()).count()


def until(page, holds) -> None:
    """Wait for something in the book, or on the wire, that no page shows."""
    for _ in range(SENDING // 100):
        if holds():
            return
        page.wait_for_timeout(100)
    raise AssertionError("it did not come about")


def kept_pages(page) -> int:
    return page.evaluate("async () => (await caches.keys()).filter((name) => name.startsWith('pages-')).length")
