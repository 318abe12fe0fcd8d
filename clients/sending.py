"""What phones send, perhaps hours later and perhaps twice: each thing is written once and answered the same."""

from __future__ import annotations

import hashlib
from collections.abc import Callable
from datetime import datetime, timedelta
from uuid import UUID

from django.db import transaction

from clients.models import Sent

#: A phone that was away for longer than this sends as if for the first time. Thirty days is what was asked for.
KEPT_FOR = timedelta(days=90)


class OtherBody(ValueError):
    """The same key came with something else in it, or from somebody else. Nothing was written."""

    def __init__(self):
        super().__init__("This was sent before with something else in it. Write it once more.")


@transaction.atomic
def once(*, key: UUID, person, body: bytes, act: Callable[[], dict]) -> dict:
    """Do `act` and keep its answer under `key`, in one transaction; for a key known already, only its answer.

    Raises OtherBody. Whatever `act` raises undoes all, so that the phone may send the same again.
    """
    digest = hashlib.sha256(body).hexdigest()
    sent = Sent.objects.filter(key=key).first()
    if sent is None:
        return Sent.objects.create(key=key, person=person, digest=digest, answer=act()).answer
    if (sent.person_id, sent.digest) != (person.pk, digest):
        raise OtherBody
    return sent.answer


def forget_old(now: datetime) -> int:
    """Drop the answers that no phone will ask for again."""
    return Sent.objects.filter(at__lt=now - KEPT_FOR).delete()[0]
