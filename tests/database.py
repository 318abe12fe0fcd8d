"""The test database: all migrations run once for the same migrations, and every process of the tests begins with a copy of what came of it.

That a fresh workshop's tables can be made from nothing is asked by what starts one for real (tests/workshop/test_serving.py, the demo's
command), and here wherever no copy is kept yet, as on a new checkout.
"""

import hashlib
import os
import shutil
from pathlib import Path

import django
import pytest
from django.db import connection
from django.test.utils import setup_databases

from workshop import env
from workshop.locks import only_one

KEPT = env.ROOT / ".pytest_cache" / "database"


def edition() -> str:
    """What the tables depend on."""
    found = hashlib.sha256(django.__version__.encode())
    for path in sorted(env.ROOT.glob("*/migrations/*.py")):
        found.update(path.read_bytes())
    return found.hexdigest()[:16]


def make_it() -> None:
    """Make the test database, or take the copy; the first to come makes it for all, who wait."""
    if connection.vendor != "sqlite":
        setup_databases(verbosity=0, interactive=False, serialized_aliases=set())
        return
    KEPT.mkdir(parents=True, exist_ok=True)
    kept, place = KEPT / f"{edition()}.sqlite3", Path(connection.creation._get_test_db_name())
    with only_one(KEPT / ".lock", "Another process makes the test database; waiting for it …"):
        there = kept.exists()
        if there:
            shutil.copyfile(kept, place)
        setup_databases(verbosity=0, interactive=False, serialized_aliases=set(), keepdb=there)
        if not there:
            for old in KEPT.glob("*.sqlite3"):
                old.unlink()
            keep_a_copy(kept)


def keep_a_copy(path: Path) -> None:
    """Whole or not at all, whatever happens meanwhile."""
    part = path.with_suffix(f".{os.getpid()}")
    with connection.cursor() as cursor:
        cursor.execute("VACUUM INTO %s", [str(part)])
    part.replace(path)


@pytest.fixture(scope="session")
def django_db_setup(django_test_environment, django_db_modify_db_settings, django_db_blocker) -> None:
    """In the place of pytest-django's; the data folder of the run, which goes when it ends, takes the database along."""
    with django_db_blocker.unblock():
        make_it()
