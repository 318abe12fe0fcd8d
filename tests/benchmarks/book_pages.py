"""How long the pages of a thick book take: `CHALK_DATA=<a filled folder> python -m tests.benchmarks.book_pages`.

Fill a folder first: `CHALK_DATA=<folder> python3 manage.py fill --clients 10000`. Each page is asked for in this
process, through the whole middleware, signed in as the owner; wall and processor time are both told, because
neighbours on a machine cost wall time only.
"""

import os
import statistics
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
from workshop.models import Person  # noqa: E402

CALLS = 40
#: page -> milliseconds that it may take at the 95th of a hundred calls
BUDGETS = {"today": 35, "orders": 20, "search": 20, "order": 12, "calendar week": 40, "calendar month": 40, "clients": 20}


def pages() -> dict[str, str]:
    today = timezone.localdate()
    newest = Order.objects.in_hand().order_by("-serial").first()
    return {
        "today": "/",
        "orders": "/orders/",
        "search": "/orders/?q=ines+skirt",
        "order": newest.get_absolute_url(),
        "calendar week": "/orders/calendar/",
        "calendar month": f"/orders/calendar/month/{today:%Y-%m}/",
        "clients": "/clients/",
    }


def main() -> None:
    settings.ALLOWED_HOSTS.append("testserver")
    call_command("migrate", interactive=False, verbosity=0)
    call_command("collectstatic", interactive=False, verbosity=0)
    browser = Browser()
    browser.force_login(Person.objects.filter(role="owner").first())
    print(f"{'page':16}{'p50':>8}{'p95':>8}{'cpu p50':>9}{'cpu p95':>9}{'budget':>8}{'queries':>9}{'kB':>7}")
    for name, address in pages().items():
        answer = browser.get(address)
        assert answer.status_code == 200, address
        with CaptureQueriesContext(connection) as asked:
            browser.get(address)
        queries = len(asked)
        wall, cpu = [], []
        for _ in range(CALLS):
            begun, worked = time.perf_counter(), time.process_time()
            browser.get(address)
            wall.append((time.perf_counter() - begun) * 1000)
            cpu.append((time.process_time() - worked) * 1000)
        told = [each(found) for found in (wall, cpu) for each in (statistics.median, p95)]
        print(f"{name:16}{told[0]:8.1f}{told[1]:8.1f}{told[2]:9.1f}{told[3]:9.1f}{BUDGETS[name]:8}{queries:9}{len(answer.content) / 1024:7.0f}")


def p95(times: list[float]) -> float:
    return sorted(times)[int(len(times) * 0.95)]


if __name__ == "__main__":
    main()
