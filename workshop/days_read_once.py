"""Days that SQLite's driver keeps once it has read them: a list has a thousand, and they are of the same few months."""

import sqlite3
from functools import lru_cache

import django.db.backends.sqlite3.base  # noqa: F401  (which names Django's own way of reading them)
from django.utils.dateparse import parse_date


def begin() -> None:
    sqlite3.register_converter("date", lru_cache(maxsize=4096)(lambda told: parse_date(told.decode())))
