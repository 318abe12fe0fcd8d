"""How long the pages of a thick book take: `CHALK_DATA=<a filled folder> python -m tests.benchmarks.book_pages [PAGE…]`.

Fill a folder first: `CHALK_DATA=<folder> python3 manage.py fill --clients 10000`. Each page is asked for in this
process, through the whole middleware, signed in as the owner: the same page again and again, "order, new" forty orders of which
none was opened before. Wall and processor time are both told, and the processor
time as it would be where a million additions take `QUIET_MS`: what runs beside it slows both, and the same additions
are timed between the calls. "Anew" is the middle one, in quiet, of calls that find nothing kept in memory: no tape, no answer
of the bench, nothing around the page. "First" is the first call, which also reads the program, templates and questions.
"""

import gc
import os
import statistics
import sys
import time

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "workshop.settings")

import django  # noqa: E402

django.setup()

from django.conf import settings  # noqa: E402
from django.core.management import call_command  # noqa: E402
from django.db import connection  # noqa: E402
from django.test import Client as Browser  # noqa: E402
from django.test.utils import CaptureQueriesContext  # noqa: E402
from django.utils import timezone  # noqa: E402

from orders.models import Order  # noqa: E402
from workshop.few_kept import FewKept  # noqa: E402
from workshop.models import Person  # noqa: E402
from workshop.serving import set_aside  # noqa: E402

CALLS = 40
ANEW = 10
ADDITIONS = 100_000  # timed between two calls
QUIET_MS = 54  # a million of them, on a machine of two cores with nothing beside it
#: page -> milliseconds that it may take at the 95th of a hundred calls
BUDGETS = {
    "today": 35, "orders": 20, "search": 20, "order": 12, "order, new": 12, "calendar week": 40, "calendar month": 40, "clients": 20, "work at hand": 40,
    "money": 30, "price": 14, "market": 40, "year": 2000,
}  # fmt: skip


def pages() -> dict[str, str | list[str]]:
    """Where each page is; or the pages to ask for one after another, each once."""
    today = timezone.localdate()
    newest, *others = Order.objects.in_hand().order_by("-serial")[: CALLS + 3]
    return {
        "today": "/",
        "orders": "/orders/",
        "search": "/orders/?q=ines+skirt",
        "order": newest.get_absolute_url(),
        "order, new": [order.get_absolute_url() for order in others],
        "calendar week": "/orders/calendar/",
        "calendar month": f"/orders/calendar/month/{today:%Y-%m}/",
        "clients": "/clients/",
        "work at hand": "/orders/at-hand/",
        "money": "/money/",
        "price": f"{newest.get_absolute_url()}price/",
        "market": "/orders/market/",
        "year": f"/money/{today.year}/payments.csv",
    }


def main(wanted: list[str]) -> None:
    settings.ALLOWED_HOSTS.append("testserver")
    call_command("migrate", interactive=False, verbosity=0)
    call_command("collectstatic", interactive=False, verbosity=0)
    browser = Browser()
    browser.force_login(Person.objects.filter(role="owner").first())
    print(f"{connection.vendor}; milliseconds; “quiet” is the processor's time where a million additions take {QUIET_MS} ms")
    named = f"{'page':16}{'p50':>8}{'p95':>8}{'cpu p50':>9}{'cpu p95':>9}{'quiet p50':>11}{'quiet p95':>11}{'anew':>7}{'first':>7}"
    print(f"{named}{'budget':>8}{'queries':>9}{'kB':>7}")
    for name, where in pages().items():
        if not wanted or name in wanted:
            timed(browser, name, where)


def timed(browser: Browser, name: str, where: str | list[str]) -> None:
    one, another, *addresses = [where] * (CALLS + 2) if isinstance(where, str) else where
    first = worked(browser, one)
    size = asked(browser, one)
    with CaptureQueriesContext(connection) as seen:
        asked(browser, another)
    queries = len(seen)  # the next request begins to count anew
    gc.unfreeze()  # what was set aside for the page before is not found
    in_memory = [each for each in gc.get_objects() if isinstance(each, FewKept)]
    set_aside()  # as the server does after its first page
    wall, cpu, yard = [], [], []
    for address in addresses:
        yard.append(additions())
        begun = time.perf_counter()
        cpu.append(worked(browser, address))
        wall.append((time.perf_counter() - begun) * 1000)
    scale = QUIET_MS / (statistics.mean(yard) * 1_000_000 / ADDITIONS)
    anew = statistics.median(worked_anew(browser, one, in_memory) for _ in range(ANEW))
    told = "".join(f"{each:{width}.1f}" for each, width in ((statistics.median(wall), 8), (p95(wall), 8), (statistics.median(cpu), 9), (p95(cpu), 9)))
    quiet = f"{statistics.median(cpu) * scale:11.1f}{p95(cpu) * scale:11.1f}{anew:7.1f}{first:7.0f}"
    print(f"{name:16}{told}{quiet}{BUDGETS[name]:8}{queries:9}{size / 1024:7.0f}", flush=True)


def worked(browser: Browser, address: str) -> float:
    """Milliseconds of the processor for the page."""
    begun = time.process_time()
    asked(browser, address)
    return (time.process_time() - begun) * 1000


def worked_anew(browser: Browser, address: str, in_memory: list[FewKept]) -> float:
    """As it would be in quiet, with nothing of what was made before."""
    for kept in in_memory:
        kept.forget()
    scale = QUIET_MS / (additions() * 1_000_000 / ADDITIONS)
    return worked(browser, address) * scale


def asked(browser: Browser, address: str) -> int:
    """Bytes of the whole answer, also of one that is streamed."""
    answer = browser.get(address)
    assert answer.status_code == 200, address
    return len(b"".join(answer))


def additions() -> float:
    """Milliseconds of the processor for a hundred thousand additions."""
    begun, total = time.process_time(), 0
    for number in range(ADDITIONS):
        total += number
    return (time.process_time() - begun) * 1000


def p95(times: list[float]) -> float:
    return sorted(times)[int(len(times) * 0.95)]


if __name__ == "__main__":
    main(sys.argv[1:])
