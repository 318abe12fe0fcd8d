"""A copy of the database that is known to be whole."""

import os
import sqlite3
import subprocess
from datetime import datetime
from pathlib import Path

from django.conf import settings
from django.db import connection


class BackupFailed(Exception):
    """No copy was kept; the text says why and what to do."""


def back_up(reason: str, now: datetime) -> Path:
    """Copy the database into the folder `backups`, check the copy, and only then give it its name.

    `VACUUM INTO` reads one moment of the database, whoever else is writing. The copy is on the same disk:
    it helps against a mistake, not against a lost disk.
    """
    folder = Path(settings.DATA) / "backups"
    on_server = connection.vendor == "postgresql"
    kept = folder / f"{now:%Y-%m-%d-%H%M%S}-{reason}.{'pgdump' if on_server else 'sqlite3'}"
    draft = kept.with_suffix(f".{os.getpid()}.part")
    try:
        folder.mkdir(mode=0o700, exist_ok=True)
        if on_server:
            dump(draft)
        else:
            with connection.cursor() as cursor:
                cursor.execute("VACUUM INTO %s", [str(draft)])
            check(draft)
        os.chmod(draft, 0o600)
        with draft.open("rb") as file:
            os.fsync(file.fileno())
        draft.replace(kept)
    except (OSError, sqlite3.Error, subprocess.CalledProcessError, connection.Database.Error) as problem:
        raise BackupFailed(
            f"No backup could be made in {folder}: {problem}. Nothing was changed. "
            "Make room on the disk, or make the folder writable, and start again."
        ) from problem
    finally:
        if draft.exists():
            draft.unlink()
    return kept


def dump(copy: Path) -> None:
    """A PostgreSQL's content by its own `pg_dump`, read back by `pg_restore`: OSError where they are missing, CalledProcessError."""
    named = connection.settings_dict
    given = {"PGHOST": named["HOST"], "PGPORT": named["PORT"], "PGUSER": named["USER"], "PGPASSWORD": named["PASSWORD"]}
    surroundings = os.environ | {name: value for name, value in given.items() if value}
    subprocess.run(["pg_dump", "--format=custom", f"--file={copy}", named["NAME"]], env=surroundings, check=True)
    subprocess.run(["pg_restore", "--list", str(copy)], stdout=subprocess.DEVNULL, check=True)


def check(copy: Path) -> None:
    """Raise sqlite3.DatabaseError unless the copy is whole and no row points to a missing one."""
    with sqlite3.connect(f"{copy.as_uri()}?mode=ro", uri=True) as database:
        (verdict,) = database.execute("PRAGMA integrity_check").fetchone()
        if verdict != "ok":
            raise sqlite3.DatabaseError(f"the copy is damaged ({verdict})")
        lost = database.execute("PRAGMA foreign_key_check").fetchone()
        if lost:
            raise sqlite3.DatabaseError(f"a row of the table {lost[0]} points to one that is not there")
    database.close()
