"""What is said when the disk is full, the book is busy, or too much is sent; and what is written into the log."""

import errno
import logging
import sqlite3
from urllib.parse import urlencode

import pytest
from django.conf import settings
from django.core.exceptions import PermissionDenied
from django.db import OperationalError
from django.utils.module_loading import import_string

from clients.models import Client
from workshop import broken

FULL = OperationalError("database or disk is full")


def broken_by(monkeypatch, error: Exception) -> None:
    def fail(*args, **kwargs):
        raise error

    monkeypatch.setattr(Client, "save", fail)


@pytest.fixture
def as_owner(as_owner):
    as_owner.raise_request_exception = False
    return as_owner


@pytest.mark.parametrize(
    ("error", "said"),
    [
        (FULL, "is full."),
        (OSError(errno.ENOSPC, "No space left on device"), "is full."),
        (OperationalError("database is locked"), "is busy"),
        (OperationalError("attempt to write a readonly database"), "may be written to"),
    ],
)
def test_the_machines_trouble_is_said_with_what_to_do_and_what_was_typed_is_kept(as_owner, monkeypatch, error, said):
    with monkeypatch.context() as during:
        broken_by(during, error)
        answer = as_owner.post("/clients/add/", {"name": "Ines <b>", "phone": "01632 960000"})
    page = answer.content.decode()
    assert answer.status_code == 503 and answer.headers["Retry-After"]
    assert said in page and "What was saved before is safe." in page
    assert 'name="name" value="Ines &lt;b&gt;"' in page and 'value="01632 960000"' in page
    assert 'action="/clients/add/"' in page
    assert as_owner.post("/clients/add/", {"name": "Ines <b>", "phone": "01632 960000"}).status_code == 302


def test_a_fault_of_the_program_is_called_one(as_owner, monkeypatch):
    for error in (OperationalError("no such table: clients_client"), ValueError("a slip")):
        broken_by(monkeypatch, error)
        answer = as_owner.post("/clients/add/", {"name": "Ines"})
        assert answer.status_code == 500 and "The fault is in the program" in answer.content.decode()


def test_a_password_is_not_written_into_the_page(as_nobody, hester, monkeypatch):
    as_nobody.raise_request_exception = False
    monkeypatch.setattr("workshop.views.authenticate", lambda *a, **k: (_ for _ in ()).throw(FULL))
    answer = as_nobody.post("/sign-in/", {"name": "hester", "password": "a secret row"})
    assert answer.status_code == 503 and "a secret row" not in answer.content.decode()


def test_sqlite_says_it_in_these_words(tmp_path):
    one = sqlite3.connect(tmp_path / "book", isolation_level=None)
    one.execute("CREATE TABLE t (x)")
    one.execute(f"PRAGMA max_page_count = {one.execute('PRAGMA page_count').fetchone()[0]}")
    with pytest.raises(sqlite3.OperationalError) as full:
        one.execute("INSERT INTO t VALUES (zeroblob(100000))")
    one.execute("BEGIN IMMEDIATE")
    other = sqlite3.connect(tmp_path / "book", timeout=0, isolation_level=None)
    with pytest.raises(sqlite3.OperationalError) as locked:
        other.execute("BEGIN IMMEDIATE")
    one.close(), other.close()
    said = [broken.why_out_of_order(OperationalError(str(error.value))) for error in (full, locked)]
    assert said == [broken.FULL, broken.BUSY]


@pytest.mark.parametrize("sent", [{"name": "x" * (settings.DATA_UPLOAD_MAX_MEMORY_SIZE + 1)}, {f"n{i}": "" for i in range(1001)}])
def test_too_much_at_once_is_said(as_owner, sent):
    answer = as_owner.post("/clients/add/", urlencode(sent), content_type="application/x-www-form-urlencoded")
    assert answer.status_code == 413
    assert "Too much at once" in answer.content.decode()


def test_a_refused_role_is_one_line_in_the_log_and_a_fault_keeps_its_traceback():
    [filter_] = settings.LOGGING["handlers"]["terminal"]["filters"]
    in_one_line = import_string(settings.LOGGING["filters"][filter_]["()"])()
    logger = logging.getLogger("django.request")
    for error, is_kept in ((PermissionDenied("run_workshop"), False), (ValueError("a slip"), True)):
        record = logger.makeRecord("django.request", logging.WARNING, "", 0, "Forbidden", (), (type(error), error, None))
        assert in_one_line.filter(record)
        assert bool(record.exc_info) is is_kept
        assert ("slip" in logging.Formatter().format(record)) is is_kept
