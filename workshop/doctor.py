"""What the machine and the data are like, as lines to read or to send with a report."""

import os
import platform
import shutil
import sqlite3
import sys
from importlib.metadata import PackageNotFoundError, version
from pathlib import Path

from django.conf import settings
from django.db import DatabaseError, connection
from django.utils.module_loading import import_string

from workshop import env, machine
from workshop.upgrading import pending

PACKAGES = ("Django", "django-htmx", "weasyprint", "pillow", "shapely", "argon2-cffi", "pikepdf", "ezdxf", "segno", "waitress", "whitenoise")
ROOM_WANTED_MB = 200


def findings() -> list[tuple[str, str, bool]]:
    """(name, what was found, whether it is in order), in the order to read them."""
    return [
        ("Python", f"{platform.python_version()} at {sys.executable}", sys.version_info >= (3, 11)),
        ("System", f"{platform.system()} {platform.release()} {platform.machine()}", True),
        ("Packages", ", ".join(f"{name} {package(name)}" for name in PACKAGES), all(map(package, PACKAGES))),
        sqlite(),
        printing(),
        browser(),
        data_folder(),
        room(),
        database(),
        *in_the_book(),
    ]


def in_the_book() -> list[tuple[str, str, bool]]:
    """What the other parts find in a database that is there, whole and upgraded: settings.FINDINGS names their functions."""
    try:
        is_ready = connection.vendor == "postgresql" or Path(settings.DATABASES["default"]["NAME"]).exists()
        return [import_string(name)() for name in settings.FINDINGS] if is_ready and not pending() else []
    except DatabaseError:
        return []


def package(name: str) -> str:
    try:
        return version(name)
    except PackageNotFoundError:
        return ""


def sqlite() -> tuple[str, str, bool]:
    chosen = env.journal_mode(sqlite3.sqlite_version_info)
    why = "free of the WAL-reset defect" if chosen == "WAL" else "in the range of the WAL-reset defect"
    return "SQLite", f"{sqlite3.sqlite_version}, {why}: journal {chosen}", True


def printing() -> tuple[str, str, bool]:
    if machine.can_print():
        return "Printing", "sheets can be printed", True
    return "Printing", f"off: the library Pango is missing. {machine.printing_advice()}", False


def browser() -> tuple[str, str, bool]:
    found = machine.find_chromium()
    return "Chromium", found or f"none; only the browser tests need it. {machine.browser_advice()}", True


def data_folder() -> tuple[str, str, bool]:
    writable = os.access(settings.DATA, os.W_OK)
    kind = "demo" if settings.DEMO else "workshop"
    return "Data folder", f"{settings.DATA} ({kind})" + ("" if writable else ": not writable"), writable


def room() -> tuple[str, str, bool]:
    free = shutil.disk_usage(settings.DATA).free // 1_000_000
    enough = free >= ROOM_WANTED_MB
    return "Room on disk", f"{free} MB free" + ("" if enough else f": less than {ROOM_WANTED_MB} MB, make room"), enough


def postgresql() -> tuple[str, str, bool]:
    try:
        with connection.cursor() as cursor:
            cursor.execute("SHOW server_version")
            (version,) = cursor.fetchone()
        waiting = len(pending())
    except DatabaseError as problem:
        return "Database", f"PostgreSQL can't be reached: {' '.join(str(problem).split())}", False
    late = f"; {waiting} changes wait for the next start, which makes a backup first" if waiting else ""
    return "Database", f"{connection.settings_dict['NAME']} in PostgreSQL {version}{late}", True


def database() -> tuple[str, str, bool]:
    if connection.vendor == "postgresql":
        return postgresql()
    path = Path(settings.DATABASES["default"]["NAME"])
    if not path.exists():
        return "Database", "none yet: the first start makes it", True
    try:
        with connection.cursor() as cursor:
            journal = cursor.execute("PRAGMA journal_mode").fetchone()[0].upper()
            verdict = cursor.execute("PRAGMA quick_check(1)").fetchone()[0]
        waiting = pending()
    except DatabaseError as problem:
        return "Database", f"{path.name} can't be read: {problem}", False
    size = path.stat().st_size / 1_000_000
    state = f"{path.name}, {size:.1f} MB, journal {journal}, check {verdict}"
    if waiting:
        state += f"; {len(waiting)} changes wait for the next start, which makes a backup first"
    return "Database", state, verdict == "ok"
