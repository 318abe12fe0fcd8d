"""What phones send, perhaps hours later and perhaps twice: each thing is written once and answered the same."""

from __future__ import annotations

import hashlib
from collections.abc import Callable
from datetime import datetime, timedelta
from threading import Lock
from uuid import UUID

from django.db import transaction
from django.http import HttpRequest, JsonResponse

from clients.models import Sent

#: A phone that was away for longer than this sends as if for the first time. Thirty days is what was asked for.
KEPT_FOR = timedelta(days=90)


#: SQLite lets one write at a time. Others sleep and look again, up to a tenth of a second each: in one process they wait here.
_in_turn = Lock()


class Refused(ValueError):
    """What was sent can't be kept as it is; str() says what was read and what to do."""


class OtherBody(Refused):
    """The same key came with something else in it, or from somebody else. Nothing was written."""

    def __init__(self):
        super().__init__("This was sent before with something else in it. Write it once more.")


def once(*, key: UUID, person, body: bytes, act: Callable[[], dict]) -> dict:
    """Do `act` and keep its answer under `key`, in one transaction; for a key known already, only its answer.

    Raises OtherBody. Whatever `act` raises undoes all, so that the phone may send the same again.
    """
    digest = hashlib.sha256(body).hexdigest()
    with _in_turn, transaction.atomic():
        sent = Sent.objects.filter(key=key).first()
        if sent is None:
            return Sent.objects.create(key=key, person=person, digest=digest, answer=act()).answer
    if (sent.person_id, sent.digest) != (person.pk, digest):
        raise OtherBody
    return sent.answer


def answer(request: HttpRequest, act: Callable[[bytes, UUID], dict], *, longest: int, too_long: str) -> JsonResponse:
    """What the phone is told: the answer of `act` to the body and its `Idempotency-Key`, or a sentence.

    422 takes the thing off the queue and shows it, with the sentence that says why: what `act` refuses, and more than `longest` bytes.
    """
    try:
        key = UUID(request.headers.get("Idempotency-Key", ""))
    except ValueError:
        return JsonResponse({"refused": "I can't read under which key this was sent."}, status=400)
    try:
        if len(request.body) > longest:
            raise Refused(too_long)
        kept = once(key=key, person=request.user, body=request.body, act=lambda: act(request.body, key))
    except Refused as refused:
        return JsonResponse({"refused": str(refused)}, status=422)
    return JsonResponse(kept)


def forget_old(now: datetime) -> int:
    """Drop the answers that no phone will ask for again."""
    return Sent.objects.filter(at__lt=now - KEPT_FOR).delete()[0]
