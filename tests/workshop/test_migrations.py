"""The tables are those of the models; tests/database.py makes them, once for all tests."""

import pytest
from django.core.management import call_command
from django.db import connection
from django.db.migrations.executor import MigrationExecutor

from tests import database


@pytest.mark.django_db
def test_no_migration_is_missing():
    call_command("makemigrations", "--check", "--dry-run", verbosity=0)


@pytest.mark.django_db
def test_every_migration_was_run_on_the_tests_own_tables():
    executor = MigrationExecutor(connection)
    assert executor.migration_plan(executor.loader.graph.leaf_nodes()) == []


def test_a_changed_migration_makes_the_tables_anew(tmp_path, monkeypatch):
    (tmp_path / "clients" / "migrations").mkdir(parents=True)
    monkeypatch.setattr(database.env, "ROOT", tmp_path)
    found = set()
    for text in ("first", "second"):
        (tmp_path / "clients" / "migrations" / "0001_initial.py").write_text(text)
        found.add(database.edition())
    assert len(found) == 2
