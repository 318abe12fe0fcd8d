"""Copies of the database, and the upgrade that makes one first."""

import sqlite3
from datetime import datetime

import pytest
from django.core.management import CommandError
from django.db import connection

from workshop import backup, upgrading

NOW = datetime(2026, 3, 12, 9, 30, 0)


@pytest.fixture
def data(settings, tmp_path):
    settings.DATA = tmp_path
    return tmp_path


@pytest.mark.django_db(transaction=True)
def test_a_backup_holds_every_table_and_row_and_is_whole(data):
    with connection.cursor() as cursor:
        cursor.execute("INSERT INTO django_session VALUES ('one', 'kept', '2026-03-12')")
    kept = backup.back_up("before-upgrade", NOW)
    assert kept == data / "backups" / "2026-03-12-093000-before-upgrade.sqlite3"
    assert [path.name for path in kept.parent.iterdir()] == [kept.name]
    copy = sqlite3.connect(kept)
    assert copy.execute("SELECT session_data FROM django_session").fetchall() == [("kept",)]
    tables = {name for (name,) in copy.execute("SELECT name FROM sqlite_master WHERE type = 'table'")}
    copy.close()
    assert set(connection.introspection.table_names()) <= tables
    assert kept.stat().st_mode & 0o077 == 0


def test_a_damaged_copy_is_not_taken_for_a_backup(tmp_path):
    copy = tmp_path / "copy.sqlite3"
    database = sqlite3.connect(copy)
    database.executescript("CREATE TABLE t (a); CREATE INDEX i ON t (a);")
    database.executemany("INSERT INTO t VALUES (?)", [("x" * 500,)] * 200)
    database.commit()
    database.close()
    backup.check(copy)
    with copy.open("r+b") as file:
        file.seek(4096 * 3)
        file.write(b"\xff" * 4096)
    with pytest.raises(sqlite3.DatabaseError):
        backup.check(copy)


def test_a_copy_with_a_row_that_points_nowhere_is_not_taken_for_a_backup(tmp_path):
    copy = tmp_path / "copy.sqlite3"
    database = sqlite3.connect(copy)
    database.executescript("CREATE TABLE a (id INTEGER PRIMARY KEY); CREATE TABLE b (a REFERENCES a(id));")
    database.execute("INSERT INTO b VALUES (7)")
    database.commit()
    database.close()
    with pytest.raises(sqlite3.DatabaseError, match="table b points to one that is not there"):
        backup.check(copy)


@pytest.mark.django_db(transaction=True)
def test_where_no_backup_can_be_made_nothing_is_upgraded(data, monkeypatch):
    (data / "backups").write_text("a file in the way")
    monkeypatch.setattr(upgrading, "pending", lambda: ["orders.0002_more"])
    with pytest.raises(CommandError, match="No backup could be made in .*Nothing was changed"):
        upgrading.bring_up_to_date(print)


@pytest.mark.django_db(transaction=True)
def test_an_upgrade_makes_a_backup_first_and_says_where(data, monkeypatch):
    said, order = [], []
    monkeypatch.setattr(upgrading, "pending", lambda: ["orders.0002_more"])
    monkeypatch.setattr(upgrading, "call_command", lambda *names, **options: order.append(list(data.glob("backups/*"))))
    upgrading.bring_up_to_date(said.append)
    ((kept,),) = order  # the copy was there when the changes began
    assert said == [f"Backup before the upgrade: {kept}"]


@pytest.mark.django_db(transaction=True)
def test_with_nothing_to_change_no_backup_is_made(data):
    upgrading.bring_up_to_date(print)
    assert list(data.iterdir()) == []
