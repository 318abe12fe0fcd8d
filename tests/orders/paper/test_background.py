"""Work in the background, in its real process: looking for a shorter lay, and a day's pack."""

import itertools
import os
import re
import shutil
import signal
import subprocess
import time

import pytest
from django.urls import reverse
from django.utils import timezone

from orders.cloth import looking
from orders.models import KeptLay, Order
from orders.paper import pack, printing
from tests.orders.book import drafted_order, signed_order
from tests.pdf_text import words_of_pages
from workshop import ringing
from workshop.jobs import Job

pytestmark = pytest.mark.usefixtures("pressed_once")
HTMX = {"HTTP_HX_REQUEST": "true"}
PATIENCE = 240


def url(name: str, *args) -> str:
    return reverse(f"orders:{name}", args=args)


def text(answer) -> str:
    return answer.content.decode()


def until(met, what: str):
    """Wait for it; a busy machine of two cores takes its time."""
    end = time.monotonic() + PATIENCE
    while time.monotonic() < end:
        if found := met():
            return found
        time.sleep(0.1)
    raise AssertionError(f"{what} did not come in {PATIENCE} seconds")


def standing(job: Job) -> Job:
    return Job.newest(job.kind, job.about)


class Quiet:
    """A job's way to say how far it is, kept for the test to read; `stop_after` looks it is to end."""

    def __init__(self, stop_after: int = 10**9):
        self.left, self.done, self.told, self.steps = stop_after, 0.0, {}, []

    def so_far(self, done, **told):
        self.done, self.told = done, self.told | told
        self.steps.append((done, dict(self.told)))

    def is_to_end(self) -> bool:
        self.left -= 1
        return self.left < 0


@pytest.fixture(scope="module")
def papers(tmp_path_factory):
    """The sheets are the same in every test, and are taken as they were kept; only the pack is made anew."""
    return tmp_path_factory.mktemp("papers")


@pytest.fixture(autouse=True)
def own_folder(settings, tmp_path, papers):
    settings.DATA = tmp_path
    shutil.rmtree(papers / "packs", ignore_errors=True)
    (tmp_path / "papers").symlink_to(papers)


@pytest.mark.django_db(transaction=True)
def test_a_look_runs_in_its_own_process_and_is_kept_with_the_draft(as_seamstress, dunya):
    order = drafted_order(dunya)
    cloth = order.cloths.first()
    page = url("lays", order.number)
    as_seamstress.get(page)
    first = KeptLay.objects.get(lay__cloth=cloth.name, lay__layout="folded")
    job = looking.ask(cloth, seconds=2, by=dunya)
    assert job.is_open
    until(lambda: not standing(job).is_open, "the end of the look")
    job = standing(job)
    assert job.state == "done" and job.done == 2
    kept = KeptLay.objects.get(pk=first.pk)
    assert kept.seconds >= 1.5 and kept.lay["length"] <= first.lay["length"]
    assert "Looked 2 of 2 seconds" in text(as_seamstress.get(page))


@pytest.mark.django_db(transaction=True)
@pytest.mark.skipif(os.name != "posix", reason="kill -9 is of Unix")
def test_a_look_whose_process_is_killed_is_seen_as_broken_off_and_begins_again(as_seamstress, dunya):
    order = drafted_order(dunya)
    cloth = order.cloths.first()
    job = looking.ask(cloth, seconds=looking.LONG, by=dunya)
    until(lambda: standing(job).done > 0, "the look's first word")
    [process] = [each for each in ringing._started if each.poll() is None]
    page = text(as_seamstress.get(url("lays", order.number)))
    assert "Stop, and keep what is found" in page and '<noscript><meta http-equiv="refresh"' in page
    process.send_signal(signal.SIGKILL)
    process.wait()
    page = text(as_seamstress.get(url("lays", order.number)))
    assert "broken off" in page and "Look for a shorter lay" in page and "http-equiv" not in page
    as_seamstress.post(url("look", order.number, cloth.pk))
    again = standing(job)
    assert again.pk != job.pk
    until(lambda: standing(again).state == "running", "the second look")
    as_seamstress.post(url("stop-looking", order.number, cloth.pk))
    until(lambda: not standing(again).is_open, "its end")
    assert standing(again).is_stopped


@pytest.mark.django_db(transaction=True)
def test_a_process_whose_program_ends_ends_with_it(dunya):
    order = drafted_order(dunya)
    job = looking.ask(order.cloths.first(), seconds=looking.LONG, by=dunya)
    until(lambda: standing(job).done > 0, "the look's first word")
    [process] = [each for each in ringing._started if each.poll() is None]
    process.stdin.close()  # as when the program that holds the other end is gone
    process.wait(timeout=PATIENCE)
    assert standing(job).is_broken


def test_stopping_a_look_keeps_the_lay_found_so_far(hester):
    order = drafted_order(hester)
    cloth = order.cloths.first()
    heard = Quiet(stop_after=400)
    came = looking.work({"cloth": cloth.pk, "seconds": 60}, heard)
    assert came["now"] <= came["first"]
    lengths = [told["now"] for _, told in heard.steps]
    assert lengths[0] == came["first"]
    assert all(later <= earlier + 0.01 for earlier, later in itertools.pairwise(lengths))
    kept = KeptLay.objects.get(lay__cloth=cloth.name)
    assert kept.seconds > 0 and kept.lay["length"] == pytest.approx(came["now"])


def test_a_look_asked_for_on_the_page_is_told_there(as_seamstress, as_apprentice, hester):
    order = drafted_order(hester)
    cloth = order.cloths.first()
    assert as_apprentice.post(url("look", order.number, cloth.pk)).status_code == 403
    assert as_seamstress.post(url("look", order.number, cloth.pk)).url.endswith(f"#cloth-{cloth.pk}")
    page = text(as_seamstress.get(url("lays", order.number)))
    assert "Waiting for another job to end." in page and 'hx-trigger="every 1s"' in page
    part = as_seamstress.get(url("looked", order.number, cloth.pk), **HTMX)
    assert text(part).startswith('<div class="job"') and "style=" not in text(part)
    as_seamstress.post(url("stop-looking", order.number, cloth.pk))
    ended = as_seamstress.get(url("looked", order.number, cloth.pk), **HTMX)
    assert ended.headers["HX-Refresh"] == "true"


def test_an_order_that_has_no_draft_any_more_is_no_trouble(hester):
    from tests.orders.book import make_order

    cloth = make_order(hester).cloths.first()
    assert looking.work({"cloth": cloth.pk, "seconds": 1}, Quiet()) == {}
    assert looking.work({"cloth": 10**6, "seconds": 1}, Quiet()) == {}


@pytest.fixture
def four_to_cut(hester):
    return [signed_order(hester, cut_on=timezone.localdate(), deposit=None) for _ in range(4)]


def test_the_pack_tells_its_progress_by_count(four_to_cut):
    heard = Quiet()
    today = timezone.localdate()
    came = pack.work({"day": today.isoformat(), "full_size": False}, heard)
    assert [done for done, _ in heard.steps] == [0, 1, 2, 3, 4]
    assert [told["now"] for _, told in heard.steps][:4] == ["S-001", "S-002", "S-003", "S-004"]
    assert (came["failed"], came["sheets"], came["none"]) == ([], 4, [])
    assert came["pages"] == len(words_of_pages(pack.file_of(today, False).read_bytes()))


def test_a_pack_says_how_many_sheets_it_holds_and_whose_are_lacking(hester):
    ended = Job(kind=pack.KIND, state="done", done=6, total=6, ended_at=timezone.now(), came={"pages": 103, "failed": [], "sheets": 2, "none": ["S-003", "S-005"]})
    said = pack.words(ended, is_there=True)
    assert "2 job sheets for 6 orders, 103 pages." in said and "without a sheet: S-003, S-005." in said


def test_a_stopped_pack_leaves_no_file(four_to_cut):
    today = timezone.localdate()
    assert pack.work({"day": today.isoformat(), "full_size": False}, Quiet(stop_after=2)) == {}
    assert not pack.file_of(today, False).exists()


def test_a_sheet_that_fails_is_named_on_the_first_page_and_the_others_are_there(four_to_cut, monkeypatch):
    real = printing.garment_sheet

    def torn(order, garment, **more):
        if order.number == "S-002":
            raise RuntimeError("a drawing that can’t be set")
        return real(order, garment, **more)

    monkeypatch.setattr(printing, "garment_sheet", torn)
    today = timezone.localdate()
    came = pack.work({"day": today.isoformat(), "full_size": False}, Quiet())
    assert (came["failed"], came["sheets"]) == (["S-002"], 3)
    pages = words_of_pages(pack.file_of(today, False).read_bytes())
    assert re.search("S-002.*could not be made", pages[0])
    whole = " ".join(pages[1:])
    assert all(number in whole for number in ("S-001", "S-003", "S-004")) and "S-002" not in whole


@pytest.mark.django_db(transaction=True)
def test_the_days_pack_is_made_shown_and_marked_when_an_order_changes(as_apprentice, hester):
    orders = [signed_order(hester, cut_on=timezone.localdate(), deposit=None) for _ in range(4)]
    today = timezone.localdate()
    written = today.isoformat()
    assert f'action="{url("pack", written)}"' in text(as_apprentice.get(reverse("today")))
    assert as_apprentice.post(url("pack", written)).url == url("pack", written)
    until(lambda: not pack.pack_of(today, full_size=False).job.is_open, "the pack")
    page = text(as_apprentice.get(url("pack", written)))
    assert "4 job sheets for 4 orders" in page and "Open the pack" in page and "Something was changed" not in page
    got = as_apprentice.get(url("pack-file", written))
    assert got.headers["Content-Type"] == "application/pdf" and b"".join(got.streaming_content).startswith(b"%PDF")
    Order.objects.filter(pk=orders[0].pk).update(changed_at=timezone.now())
    assert "Something was changed since" in text(as_apprentice.get(url("pack", written)))


@pytest.mark.parametrize(("host", "codes"), [("192.168.1.20:8000", ["http://192.168.1.20:8000/orders/S-001/"]), ("127.0.0.1:8000", [])])
def test_sheet_and_pattern_of_a_pack_open_the_orders_page(as_apprentice, hester, settings, host, codes):
    import pypdfium2
    import zxingcpp

    settings.ALLOWED_HOSTS = ["*"]
    signed_order(hester, cut_on=timezone.localdate(), deposit=None)
    today = timezone.localdate()
    as_apprentice.post(url("pack", today.isoformat()), {"with": "patterns"}, headers={"host": host})
    pack.work(Job.newest(pack.KIND, pack.name_of(today, True)).asked, Quiet())
    data = pack.file_of(today, True).read_bytes()
    cover = next(place for place, page in enumerate(words_of_pages(data)) if "Full size on" in page)
    for page in (0, cover):
        image = pypdfium2.PdfDocument(data)[page].render(scale=3).to_pil()
        assert [code.text for code in zxingcpp.read_barcodes(image)] == codes


def test_where_no_process_can_be_started_the_job_waits(monkeypatch, hester):
    def none_left(*_, **__):
        raise BlockingIOError("no more processes")

    monkeypatch.setattr(subprocess, "Popen", none_left)
    ringing.ring()
    assert pack.ask(timezone.localdate(), full_size=False, by=hester).is_waiting
