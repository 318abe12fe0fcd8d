"""Taking measures: what is read off the tape goes into the book, at once or card by card."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from uuid import UUID

from django.db import transaction

from clients.models import Client, Measuring, Reading


@transaction.atomic
def keep_measures(
    *, client: Client, token: UUID, by, written: Mapping[str, str], unit: str, about: Mapping[str, object],
    sure: Iterable[str] = (),
) -> Measuring | None:  # fmt: skip
    """Write readings into the measuring that `token` names, beginning it with its first reading.

    `about` is what was worn, the posture, the day; `sure` names those that look odd and are right. Sent twice, it is written once. Answers None when
    there is neither a measuring yet nor anything to begin one with. Raises UnreadableMeasures, and
    then nothing at all has been kept.
    """
    measuring = Measuring.objects.filter(client=client, token=token).first()
    if measuring is None and not written:
        return None
    begun = measuring is None
    measuring = begin(client, token, by, about) if begun else tell(measuring, about)
    add(measuring, written, unit, by=by, sure=sure, begun=begun)
    return measuring


def begin(client: Client, token: UUID, by, about: Mapping[str, object]) -> Measuring:
    return Measuring.objects.create(client=client, token=token, taken_by=by, **about)


def tell(measuring: Measuring, about: Mapping[str, object]) -> Measuring:
    """Write what was worn, the posture, the day, where that is something else than stands."""
    changed = [name for name, value in about.items() if getattr(measuring, name) != value]
    for name in changed:
        setattr(measuring, name, about[name])
    if changed:
        measuring.save(update_fields=changed)
    return measuring


def add(
    measuring: Measuring, written: Mapping[str, str], unit: str, *, by, sure: Iterable[str] = (), begun: bool = False
) -> list[Reading]:
    """The readings that are new; a measuring just `begun` is not asked for older ones."""
    new = measuring.write_down(written, unit, by=by, begun=begun)
    if sure:
        measuring.confirm(sure, by=by)
    return new
