"""How quick the measure book is with 10,000 clients and 500,000 readings; prints figures, asserts nothing.

    python tests/benchmarks/measure_book.py [folder]

Makes (or finds) its own database in the folder. Times are of the whole way through the middleware, in this process.
The first line says what the machine is worth now: a million additions in a loop, about 30 ms on an idle core of 3 GHz.
"""

import gzip
import json
import os
import statistics
import sys
import threading
import time
from collections.abc import Iterator
from datetime import timedelta
from decimal import Decimal
from pathlib import Path
from uuid import uuid4

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))
os.environ["CHALK_DATA"] = sys.argv[1] if len(sys.argv) > 1 else "/tmp/measure-book"
os.environ["DJANGO_SETTINGS_MODULE"] = "workshop.settings"

import django  # noqa: E402

django.setup()

from django.conf import settings  # noqa: E402
from django.core.management import call_command  # noqa: E402
from django.db import connection  # noqa: E402
from django.db.models import Count  # noqa: E402
from django.test import Client as Browser  # noqa: E402
from django.utils import timezone  # noqa: E402

from clients.models import Client, Measuring, Reading  # noqa: E402
from tests.cast import make_person, make_workshop  # noqa: E402
from workshop.models import Person, Workshop  # noqa: E402

CLIENTS, SETS = 10_000, 25_000
#: Twenty measures of one body, in inches.
BODY = {
    "bust": 36, "high_bust": 34, "under_bust": 31, "waist": 28, "hip": 38, "neck": 14, "upper_arm": 11, "elbow": 10, "wrist": 6,
    "thigh": 22, "knee": 14, "shoulder": 15, "across_front": 14, "across_back": 14, "bust_span": 7, "shoulder_to_bust": 10,
    "shoulder_to_under_bust": 13, "shoulder_to_waist": 17, "nape_to_waist": 16, "armhole_depth": 6,
}  # fmt: skip
settings.ALLOWED_HOSTS.append("testserver")


def filled() -> Person:
    call_command("migrate", verbosity=0)
    call_command("collectstatic", interactive=False, verbosity=0)
    if Client.objects.count() >= CLIENTS:
        return Person.objects.get(username="dunya")
    if Workshop.current() is None:
        make_workshop()
    dunya = make_person("dunya")
    today = timezone.localdate()
    Client.objects.bulk_create([Client(name=f"Client {n} of Salt Lane", phone=f"07700 9{n:05d}") for n in range(CLIENTS)], batch_size=2000)
    clients = list(Client.objects.values_list("pk", flat=True))
    # The first hundred have twelve measurings each; the rest share what is left.
    owners = [pk for pk in clients[:100] for _ in range(12)] + [clients[100 + n % (CLIENTS - 100)] for n in range(SETS - 1200)]
    Measuring.objects.bulk_create([Measuring(client_id=pk, taken_by=dunya, taken_on=today - timedelta(days=30 + n % 900)) for n, pk in enumerate(owners)], batch_size=2000)
    for start in range(0, SETS, 1000):
        sets = Measuring.objects.order_by("pk").values_list("pk", flat=True)[start : start + 1000]
        Reading.objects.bulk_create([read for n, pk in enumerate(sets) for read in readings(pk, n, dunya)], batch_size=2000)
    return dunya


def readings(measuring: int, nth: int, by: Person) -> Iterator[Reading]:
    """A body's own measures, most of them an eighth or two off what they were last time, as a tape tells them."""
    for place, (key, inches) in enumerate(BODY.items()):
        eighths = inches * 8 + (nth * (place + 3)) % 4
        yield Reading(measuring_id=measuring, key=key, written=f"{eighths / 8:g}", mm=Decimal(eighths) * Decimal("3.175"), written_by=by)


def told(name: str, took: list[tuple[float, float]], extra: str = "") -> None:
    wall, own = (sorted(each * 1000 for each in column) for column in zip(*took, strict=True))
    figures = "  ".join(f"{kind} p50 {statistics.median(times):5.1f} p95 {times[int(len(times) * 0.95)]:5.1f}" for kind, times in (("wall", wall), ("cpu", own)))
    print(f"{name:24} {figures} ms {extra}")


def timed(act, times: int = 200) -> list[tuple[float, float]]:
    """Wall and processor seconds of each call: neighbours on the machine spoil the first, not the second."""
    act()
    took = []
    for _ in range(times):
        begun, used = time.perf_counter(), time.process_time()
        act()
        took.append((time.perf_counter() - begun, time.process_time() - used))
    return took


def additions() -> None:
    total = 0
    for number in range(1_000_000):
        total += number


def sending(keys) -> dict:
    return {"token": str(uuid4()), "taken_on": timezone.localdate().isoformat(), "unit": "in", "written": {key: "28 1/2" for key in keys}}


def main() -> None:
    dunya = filled()
    print(f"{Client.objects.count()} clients, {Reading.objects.count()} readings")
    told("a million additions", timed(additions, 20))
    browser = Browser()
    browser.force_login(dunya)
    pk = Client.objects.order_by("pk").first().pk  # the first eight are written to
    twelve = Measuring.objects.values("client").annotate(times=Count("pk")).filter(times=12).order_by("client").first()["client"]
    for name, url in (("client, 12 measurings", f"/clients/{twelve}/"), ("measuring card", f"/clients/{twelve}/measure/"), ("list", "/clients/"), ("search", "/clients/?q=client+77")):
        size = len(gzip.compress(browser.get(url).content, 6))
        told(name, timed(lambda url=url: browser.get(url)), f"{size / 1000:.1f} kB compressed")
    keys = list(BODY)
    browser.post(f"/clients/{pk}/take/", json.dumps(sending(keys)), "application/json", headers={"Idempotency-Key": str(uuid4())})
    told("save of 20 readings", timed(lambda: browser.post(f"/clients/{pk}/take/", json.dumps(sending(keys)), "application/json", headers={"Idempotency-Key": str(uuid4())})))

    statuses, lock, until = [], threading.Lock(), time.monotonic() + 5

    def write(number: int) -> None:
        own = Browser()
        own.force_login(dunya)
        while time.monotonic() < until:
            answer = own.post(f"/clients/{pk + number}/take/", json.dumps(sending(keys[:1])), "application/json", headers={"Idempotency-Key": str(uuid4())})
            with lock:
                statuses.append(answer.status_code)
        connection.close()

    threads = [threading.Thread(target=write, args=(n,)) for n in range(8)]
    begun = time.monotonic()
    for each in threads:
        each.start()
    for each in threads:
        each.join()
    print(f"8 writers: {len(statuses) / (time.monotonic() - begun):.0f} saves a second, {sum(code != 200 for code in statuses)} refused of {len(statuses)}")


if __name__ == "__main__":
    main()
