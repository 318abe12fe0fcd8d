"""Ringing for somebody who does the background's jobs: a process of its own, started once and only when there is work."""

import logging
import os
import subprocess
import sys
import threading

from django.conf import settings
from django.db import connection, transaction

log = logging.getLogger(__name__)
_started: list[subprocess.Popen] = []
_one_rings = threading.Lock()


def ring_later() -> None:
    """Have somebody look for jobs, once what was written is in the book."""
    transaction.on_commit(ring)


def ring() -> None:
    """Start a process that looks for jobs, unless one that was started here still lives: it looks before it ends."""
    with _one_rings:
        _ring()


def _ring() -> None:
    for process in [each for each in _started if each.poll() is not None]:
        process.stdin.close()
        _started.remove(process)
    if _started:
        return
    command = [sys.executable, str(settings.BASE_DIR / "manage.py"), "jobs", "--book", str(connection.settings_dict["NAME"])]
    surroundings = os.environ | {"CHALK_DATA": str(settings.DATA), "DJANGO_SETTINGS_MODULE": "workshop.settings"}
    apart = {"start_new_session": True} if os.name == "posix" else {"creationflags": subprocess.CREATE_NEW_PROCESS_GROUP}
    try:
        _started.append(subprocess.Popen(command, stdin=subprocess.PIPE, stdout=subprocess.DEVNULL, env=surroundings, **apart))
    except OSError:
        log.exception("No process could be started for the background jobs")  # whoever looks at the job next rings again
