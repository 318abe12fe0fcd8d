"""python3 manage.py demo, run for real on a data folder of its own."""

import os
import re
import signal
import socket
import subprocess
import sys
import time
import urllib.parse
import urllib.request
from http.cookiejar import CookieJar
from pathlib import Path

import pypdf
import pytest

from orders.demo.book import DEMO_SIGN_INS

ROOT = Path(__file__).resolve().parents[3]


@pytest.fixture(scope="module")
def surroundings(tmp_path_factory) -> dict[str, str]:
    """The demo's data, made once for this file: loading it takes seconds."""
    own = {"CHALK_DATA": str(tmp_path_factory.mktemp("demo")), "CHALK_DEMO": "1", "PYTHONUNBUFFERED": "1"}
    return os.environ | own | {"DJANGO_SETTINGS_MODULE": "workshop.settings"}


def demo(surroundings, *options) -> subprocess.CompletedProcess:
    command = [sys.executable, "manage.py", "demo", *options]
    return subprocess.run(
        command, cwd=ROOT, env=surroundings, capture_output=True, text=True, timeout=120, check=False
    )


def python(surroundings, script: str) -> str:
    start = "import datetime, django; django.setup(); "
    command = [sys.executable, "-c", start + script]
    done = subprocess.run(command, cwd=ROOT, env=surroundings, capture_output=True, text=True, timeout=120, check=False)
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
        assert paper.stem in pypdf.PdfReader(paper).pages[0].extract_text()


def test_the_next_day_its_dates_are_moved_and_what_was_tried_is_kept(surroundings):
    demo(surroundings, "--no-serve")
    python(surroundings, "from workshop.models import Workshop; Workshop.objects.update(town='Tried out')")
    asked = (
        "from workshop.models import Workshop; from orders.models import Order; "
        "print(Workshop.objects.get().town, *(day.toordinal() for day in Order.objects.order_by('serial')"
        ".exclude(collect_on=None).values_list('collect_on', flat=True)))"
    )
    before = python(surroundings, asked).rsplit()
    assert demo(surroundings, "--no-serve").returncode == 0
    assert python(surroundings, asked).rsplit() == before
    prepare = "from orders.demo import folder; folder.prepare(datetime.date.today() + datetime.timedelta({}), {}); "
    after = python(surroundings, prepare.format(3, "may_replace=False, say=print") + asked).rsplit()
    assert after[:2] == before[:2] == ["Tried", "out"]
    assert [int(day) - 3 for day in after[2:]] == [int(day) for day in before[2:]]


def test_a_demo_of_another_version_is_made_anew_unless_it_is_open_elsewhere(surroundings):
    demo(surroundings, "--no-serve")
    python(surroundings, "from workshop.models import Workshop; Workshop.objects.update(town='Tried out')")
    mark = Path(surroundings["CHALK_DATA"]) / ".loaded"
    mark.write_text("another\n" + mark.read_text().split()[1])
    asked = "from workshop.models import Workshop; print(Workshop.objects.get().town)"
    prepare = "from orders.demo import folder; folder.prepare(datetime.date.today(), may_replace={}, say=print); "
    told = python(surroundings, prepare.format(False) + asked)
    assert told.startswith("The demo is open in another window")
    assert told.endswith("Tried out")
    told = python(surroundings, prepare.format(True) + asked)
    assert told.startswith("The demo is made anew")
    assert not told.endswith("Tried out")


@pytest.mark.skipif(os.name != "posix", reason="process groups are POSIX's")
@pytest.mark.parametrize("seconds", [1.0, 2.0])
def test_killed_while_it_loads_it_loads_from_the_start_the_next_time(surroundings, tmp_path, seconds):
    own = surroundings | {"CHALK_DATA": str(tmp_path)}
    command = [sys.executable, "manage.py", "demo", "--no-serve"]
    process = subprocess.Popen(command, cwd=ROOT, env=own, stdout=subprocess.DEVNULL, start_new_session=True)
    time.sleep(seconds)
    os.killpg(process.pid, signal.SIGKILL)
    process.wait()
    counted = "from orders.models import Order; from clients.models import Client; print(Order.objects.count(), Client.objects.count())"
    assert demo(own, "--no-serve").returncode == 0
    demo(surroundings, "--no-serve")
    assert python(own, counted) == python(surroundings, counted)


def test_it_serves_says_how_to_sign_in_and_that_is_true(surroundings):
    port = free_port()
    command = [sys.executable, "manage.py", "demo", "--port", str(port)]
    process = subprocess.Popen(command, cwd=ROOT, env=surroundings, stdout=subprocess.PIPE, text=True)
    try:
        told = ""
        while "Ctrl-C stops it." not in told:
            line = process.stdout.readline()
            assert line, told
            told += line
        address = re.search(r"http://127\.0\.0\.1:\d+/", told)[0]
        assert address == f"http://127.0.0.1:{port}/"
        asked = time.monotonic()
        urllib.request.urlopen(address, timeout=10).read()
        assert time.monotonic() - asked < 10  # a second of it on a quiet machine, but other tests run beside this one
        for name, password, shown, role in DEMO_SIGN_INS:
            assert re.search(f"{role}: +sign in as {name} with the password “{password}”", told)
            assert shown in signed_in(address, name, password)
        again = demo(surroundings, "--port", str(port))
        assert again.returncode == 1
        assert f"Port {port} is taken" in again.stderr
        assert "job sheets for today lie in" in process.stdout.readline() + process.stdout.readline()
    finally:
        process.send_signal(signal.SIGINT if os.name == "posix" else signal.SIGTERM)
        process.communicate(timeout=20)


def signed_in(address: str, name: str, password: str) -> str:
    """The page that a person sees who signs in as the terminal says."""
    browser = urllib.request.build_opener(urllib.request.HTTPCookieProcessor(CookieJar()))
    page = browser.open(address, timeout=10)
    token = re.search(r'name="csrfmiddlewaretoken" value="([^"]+)"', page.read().decode())[1]
    form = {"csrfmiddlewaretoken": token, "name": name, "password": password}
    answer = browser.open(page.url, urllib.parse.urlencode(form).encode(), timeout=10)
    assert "/sign-in/" not in answer.url
    return answer.read().decode()
