"""python3 manage.py demo, run for real on a data folder of its own."""

import contextlib
import os
import re
import signal
import socket
import sqlite3
import subprocess
import sys
import threading
import time
import urllib.parse
import urllib.request
from collections.abc import Callable
from http.cookiejar import CookieJar
from pathlib import Path
from types import SimpleNamespace

import pytest
from django.db.migrations.loader import MigrationLoader
from django.utils import timezone

from clients.models import Client
from orders.demo.book import DEMO_SIGN_INS, load
from orders.models import Order
from tests.pdf_text import words_of_pages

ROOT = Path(__file__).resolve().parents[3]


PREPARE = "from orders.demo import folder; folder.prepare(datetime.date.today() + datetime.timedelta({}), may_replace={}, say=print); "
PATIENCE = 300
"""Seconds; a machine with much else to do takes its time, and a wait costs nothing when it comes."""
ALL_MIGRATIONS = len(MigrationLoader(None).disk_migrations)


def on(folder: Path) -> dict[str, str]:
    own = {"CHALK_DATA": str(folder), "CHALK_DEMO": "1", "PYTHONUNBUFFERED": "1"}
    return os.environ | own | {"DJANGO_SETTINGS_MODULE": "workshop.settings"}


@pytest.fixture(scope="module")
def made(tmp_path_factory) -> SimpleNamespace:
    """The demo's data, made once for this file, and made the hard way: over that of another version, and killed twice on the way."""
    folder = tmp_path_factory.mktemp("demo")
    own, (book, mark) = on(folder), (folder / "demo.sqlite3", folder / ".loaded")
    with contextlib.closing(sqlite3.connect(book)) as other_version:
        other_version.execute("CREATE TABLE tried_out (anything)")
    mark.write_text("another\n2020-02-29")
    before = book.read_bytes()
    told = [python(own, PREPARE.format(0, False))]
    left_alone = book.read_bytes() == before and mark.read_text().startswith("another")
    marked = []
    for moment in (lambda: tables(folder) > 5, lambda: tables(folder) >= ALL_MIGRATIONS):
        told.append(killed(own, moment))
        marked.append(mark.exists())
    told.append(python(own, PREPARE.format(0, True)))
    return SimpleNamespace(folder=folder, surroundings=own, told=told, left_alone=left_alone, marked=marked)


@pytest.fixture
def surroundings(made) -> dict[str, str]:
    return made.surroundings


def killed(own: dict[str, str], moment: Callable[[], bool]) -> str:
    """Run the demo and kill it at that moment; what it had said till then."""
    command = [sys.executable, "manage.py", "demo", "--no-serve"]
    process = subprocess.Popen(command, cwd=ROOT, env=own, stdout=subprocess.PIPE, text=True, start_new_session=True)
    end = time.monotonic() + PATIENCE
    while not moment():
        assert process.poll() is None and time.monotonic() < end
        time.sleep(0.01)
    os.killpg(process.pid, signal.SIGKILL) if os.name == "posix" else process.kill()
    return process.communicate()[0]


def demo(surroundings, *options) -> subprocess.CompletedProcess:
    command = [sys.executable, "manage.py", "demo", *options]
    return subprocess.run(
        command, cwd=ROOT, env=surroundings, capture_output=True, text=True, timeout=PATIENCE, check=False
    )


def python(surroundings, script: str) -> str:
    start = "import datetime, django; django.setup(); "
    command = [sys.executable, "-c", start + script]
    done = subprocess.run(command, cwd=ROOT, env=surroundings, capture_output=True, text=True, timeout=PATIENCE, check=False)
    assert done.returncode == 0, done.stderr
    return done.stdout.strip()


def free_port() -> int:
    with socket.create_server(("127.0.0.1", 0)) as probe:
        return probe.getsockname()[1]


def test_it_prints_the_days_sheets_and_where_they_lie(surroundings):
    done = demo(surroundings, "--no-serve")
    assert done.returncode == 0, done.stderr
    count, folder = re.match(r"(\d+) job sheets for today lie in (.+):\n", done.stdout).groups()
    papers = sorted(Path(folder).iterdir())
    assert len(papers) == int(count) >= 1
    for paper in papers:
        assert paper.suffix == ".pdf"
        assert f"  {paper.name}\n" in done.stdout
        assert paper.stem in words_of_pages(paper.read_bytes())[0]


def test_a_demo_of_another_version_is_made_anew_unless_it_is_open_elsewhere(made):
    while_open, over_it, *later = made.told
    assert while_open.startswith("The demo is open in another window")
    assert made.left_alone
    assert over_it.startswith("The demo is made anew")
    assert later == ["", ""]
    with contextlib.closing(sqlite3.connect(made.folder / "demo.sqlite3")) as book:
        assert not book.execute("SELECT * FROM sqlite_master WHERE name = 'tried_out'").fetchall()


@pytest.mark.django_db
def test_killed_while_it_makes_its_tables_and_while_it_loads_it_begins_from_the_start_the_next_time(made):
    assert made.marked == [False, False]
    load(timezone.localdate())
    asked = "from orders.models import Order; from clients.models import Client; print(Order.objects.count(), Client.objects.count())"
    assert python(made.surroundings, asked) == f"{Order.objects.count()} {Client.objects.count()}"


def tables(folder: Path) -> int:
    """How many migrations the demo's database has been through."""
    [*found] = folder.glob("*.sqlite3")
    try:
        with contextlib.closing(sqlite3.connect(f"file:{found[0]}?mode=ro", uri=True)) as book:
            return book.execute("SELECT count(*) FROM django_migrations").fetchone()[0]
    except (IndexError, sqlite3.OperationalError):  # not there yet, or being written
        return 0


def test_it_serves_says_how_to_sign_in_and_that_is_true(surroundings):
    port = free_port()
    command = [sys.executable, "manage.py", "demo", "--port", str(port)]
    process = subprocess.Popen(command, cwd=ROOT, env=surroundings, stdout=subprocess.PIPE, text=True)
    too_long = threading.Timer(PATIENCE, process.kill)  # what it does not say is waited for no longer
    too_long.start()
    try:
        told = ""
        while "Ctrl-C stops it." not in told:
            line = process.stdout.readline()
            assert line, told
            told += line
        address = re.search(r"http://127\.0\.0\.1:\d+/", told)[0]
        assert address == f"http://127.0.0.1:{port}/"
        urllib.request.urlopen(address, timeout=PATIENCE).read()
        for name, password, shown, role in DEMO_SIGN_INS:
            assert re.search(f"{role}: +sign in as {name} with the password “{password}”", told)
            assert shown in signed_in(address, name, password)
        again = demo(surroundings, "--port", str(port))
        assert again.returncode == 1
        assert f"Port {port} is taken" in again.stderr
        told = process.stdout.readline()
        while told and "job sheets for today lie in" not in told:
            told = process.stdout.readline()
        assert told and int(told.split()[0]) >= 1
    finally:
        too_long.cancel()
        process.send_signal(signal.SIGINT if os.name == "posix" else signal.SIGTERM)
        process.communicate(timeout=PATIENCE)


def signed_in(address: str, name: str, password: str) -> str:
    """The page that a person sees who signs in as the terminal says."""
    browser = urllib.request.build_opener(urllib.request.HTTPCookieProcessor(CookieJar()))
    page = browser.open(address, timeout=PATIENCE)
    token = re.search(r'name="csrfmiddlewaretoken" value="([^"]+)"', page.read().decode())[1]
    form = {"csrfmiddlewaretoken": token, "name": name, "password": password}
    answer = browser.open(page.url, urllib.parse.urlencode(form).encode(), timeout=PATIENCE)
    assert "/sign-in/" not in answer.url
    return answer.read().decode()


# Last: it leaves the demo on another day.
def test_the_next_day_its_dates_are_moved_and_what_was_tried_is_kept(surroundings):
    python(surroundings, "from workshop.models import Workshop; Workshop.objects.update(town='Tried out')")
    asked = (
        "from workshop.models import Workshop; from orders.models import Order; "
        "print(Workshop.objects.get().town, *(day.toordinal() for day in Order.objects.order_by('serial')"
        ".exclude(collect_on=None).values_list('collect_on', flat=True)))"
    )
    before = python(surroundings, asked).rsplit()
    assert python(surroundings, PREPARE.format(0, True) + asked).rsplit() == before
    after = python(surroundings, PREPARE.format(3, False) + asked).rsplit()
    assert after[:2] == before[:2] == ["Tried", "out"]
    assert [int(day) - 3 for day in after[2:]] == [int(day) for day in before[2:]]
