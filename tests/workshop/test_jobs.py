"""The table of background jobs: one at a time, stoppable, and one that was broken off is seen as such."""

import threading
import time

import pytest
from django.utils import timezone

from workshop import jobs, working
from workshop.jobs import Job
from workshop.locks import if_free

pytestmark = pytest.mark.django_db
SEEN: list = []


@pytest.fixture(autouse=True)
def kinds(settings):
    settings.JOBS = {"count": f"{__name__}.count", "break": f"{__name__}.break_down"}
    SEEN.clear()


def count(asked, telling):
    """Count to the number asked for, or until told to stop."""
    for number in range(asked["to"]):
        if telling.is_to_end():
            break
        telling.so_far(number + 1, word=f"at {number + 1}")
        SEEN.append(number + 1)
        if asked.get("stop_at") == number + 1:
            Job.objects.update(stop_asked=True)
            time.sleep(working.WRITES_APART)
    return {"counted": len(SEEN)}


def break_down(asked, telling):
    telling.so_far(1)
    raise RuntimeError("the thread tore")


def ask(kind="count", about="buttons", **asked) -> Job:
    return Job.ask(kind, about, asked={"to": 3} | asked, total=3, by=None)


def work() -> int:
    return working.work_until_none_waits(threading.Event())


@pytest.fixture(autouse=True)
def not_nicer(monkeypatch):
    """The tests themselves stay as quick as they were."""
    monkeypatch.setattr("os.nice", lambda by: by, raising=False)


def test_a_job_is_done_and_tells_what_came_of_it():
    job = ask()
    assert job.is_waiting and work() == 1
    job.refresh_from_db()
    assert (job.state, job.done, job.came, job.told) == ("done", 3, {"counted": 3}, {"word": "at 3"})
    assert job.ended_at is not None


def test_the_same_is_not_asked_for_twice_while_it_is_open():
    assert ask().pk == ask().pk
    assert ask(about="hooks").pk != ask().pk
    assert work() == 2
    assert ask().is_waiting


def test_jobs_are_done_in_the_order_in_which_they_were_asked_for():
    first, second = ask(about="one"), ask(about="two")
    assert Job.claim().pk == first.pk
    assert Job.claim().pk == second.pk
    assert Job.claim() is None


def test_a_job_that_waits_can_be_stopped_before_it_begins():
    job = ask()
    job.ask_to_stop()
    assert work() == 0
    assert Job.newest("count", "buttons").is_stopped


def test_a_job_that_runs_stops_within_a_second_and_keeps_what_it_has():
    job = ask(to=1000, stop_at=2)
    work()
    job.refresh_from_db()
    assert job.is_stopped and job.came == {"counted": 2}


def test_a_job_that_breaks_is_told_as_failed_and_the_next_one_is_done():
    broken, whole = ask("break"), ask()
    assert work() == 2
    broken.refresh_from_db(), whole.refresh_from_db()
    assert broken.is_failed and whole.state == "done"


def test_a_job_that_nobody_works_at_any_more_is_broken_off_and_can_begin_again():
    Job.objects.filter(pk=ask().pk).update(state="running")
    found = Job.newest("count", "buttons")
    assert found.is_broken and found.ended_at
    assert ask().is_waiting


def test_a_job_that_somebody_works_at_is_running():
    Job.objects.filter(pk=ask().pk).update(state="running")
    with if_free(jobs.lock_file()) as mine:
        assert mine
        assert Job.newest("count", "buttons").state == "running"


def test_only_one_process_does_jobs_at_a_time(monkeypatch):
    monkeypatch.setattr(working, "LONGEST_WAIT_FOR_LOCK", 0.1)
    ask()
    with if_free(jobs.lock_file()):
        assert work() == 0
    assert work() == 1


def test_when_the_program_is_gone_the_job_ends_and_is_told_as_broken_off():
    gone = threading.Event()
    gone.set()
    job = ask()
    job.state = Job.State.RUNNING
    working.do(job, gone)
    job.refresh_from_db()
    assert job.is_broken and SEEN == []
    assert working.work_until_none_waits(gone) == 0


def test_old_jobs_are_forgotten_and_open_ones_never(monkeypatch):
    monkeypatch.setattr(jobs, "KEPT_ENDED", 2)
    waiting = ask(about="waits")
    for number in range(4):
        Job.objects.create(kind="count", about=str(number), state="done", asked_at=timezone.now())
    ask(about="last")
    assert set(Job.objects.values_list("about", flat=True)) == {"waits", "2", "3", "last"}
    assert Job.objects.get(pk=waiting.pk).is_waiting
