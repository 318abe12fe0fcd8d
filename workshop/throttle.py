"""Slows down whoever guesses passwords, and never locks anybody out.

Two counts: one for a name from one address, one for the address alone. After some free tries
each further failure doubles the wait, up to five minutes. A quiet hour starts afresh.

The address's count makes only those names wait that have failed there themselves, from their own last
failure on: everybody else behind that address still has a try, whatever nonsense comes from it meanwhile.
A guesser who goes from name to name so has one guess a name. Whether a name exists decides nothing.
"""

import hashlib
import hmac
from datetime import datetime, timedelta
from math import ceil

from django.conf import settings
from django.db import transaction
from django.http import HttpRequest

from workshop.models import SignInAttempts

FREE_FOR_NAME = 5
FREE_FOR_ADDRESS = 30
LONGEST_WAIT = timedelta(minutes=5)
FORGOTTEN_AFTER = timedelta(hours=1)


def address_of(request: HttpRequest) -> str:
    """Who calls; behind our own proxies, what the outermost of them saw."""
    hops = getattr(settings, "PROXY_HOPS", 0)
    passed = [part.strip() for part in request.headers.get("X-Forwarded-For", "").split(",") if part.strip()]
    if hops and len(passed) >= hops:
        return passed[-hops]
    return request.META.get("REMOTE_ADDR", "")


def seconds_to_wait(*, name: str, address: str, now: datetime) -> int:
    """Whole seconds until this name may be tried again from this address; 0 when it may."""
    buckets = _buckets(name, address)
    counted = {
        row.bucket: row
        for row in SignInAttempts.objects.filter(bucket__in=buckets)
        if now - row.last_failed_at < FORGOTTEN_AFTER
    }
    failed = counted.get(_bucket("name", name, address))
    if failed is None:
        return 0
    over = max(row.failures - buckets[row.bucket] for row in counted.values())
    wait = failed.last_failed_at + _wait(over) - now
    return max(0, ceil(wait.total_seconds()))


@transaction.atomic
def note_failure(*, name: str, address: str, now: datetime) -> None:
    SignInAttempts.objects.filter(last_failed_at__lt=now - FORGOTTEN_AFTER).delete()
    for bucket in _buckets(name, address):
        row, _ = SignInAttempts.objects.get_or_create(bucket=bucket, defaults={"last_failed_at": now})
        row.failures += 1
        row.last_failed_at = now
        row.save(update_fields=["failures", "last_failed_at"])


def note_success(*, name: str, address: str) -> None:
    """The name's count from this address ends; the address keeps its own, so one good name frees no guesser."""
    SignInAttempts.objects.filter(bucket=_bucket("name", name, address)).delete()


def _wait(over: int) -> timedelta:
    """The wait after so many failures beyond the free ones."""
    return timedelta() if over < 0 else min(timedelta(seconds=2 ** min(over + 1, 20)), LONGEST_WAIT)


def _buckets(name: str, address: str) -> dict[str, int]:
    return {_bucket("name", name, address): FREE_FOR_NAME, _bucket("address", address): FREE_FOR_ADDRESS}


def _bucket(*parts: str) -> str:
    """A keyed digest: people type passwords into the name field, and those are not to be kept."""
    return hmac.new(settings.SECRET_KEY.encode(), "\x1f".join(parts).encode(), hashlib.sha256).hexdigest()
