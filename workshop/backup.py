"""A copy of the database that is known to be whole."""

import os
import sqlite3
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
    kept = folder / f"{now:%Y-%m-%d-%H%M%S}-{reason}.sqlite3"
    draft = kept.with_suffix(f".{os.getpid()}.part")
    try:
        folder.mkdir(mode=0o700, exist_ok=True)
        with connection.cursor() as cursor:
            cursor.execute("VACUUM INTO %s", [str(draft)])
        os.chmod(draft, 0o600)
        check(draft)
        with draft.open("rb") as file:
            os.fsync(file.fileno())
        draft.replace(kept)
    except (OSError, sqlite3.Error, connection.Database.Error) as problem:
        raise BackupFailed(
            f"No backup could be made in {folder}: {problem}. Nothing was changed. "
            "Make room on the disk, or make the folder writable, and start again."
        ) from problem
    finally:
        if draft.exists():
            draft.unlink()
    return kept


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
