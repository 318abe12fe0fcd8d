"""What a scrap of a cloth told of needle and iron, as it is kept: the last test stands, the history has those before it."""

from datetime import date

from django.db import transaction

from orders.models import Cloth, ClothTest


@transaction.atomic
def write_down(*, cloth: Cloth, values: dict, by, today: date) -> ClothTest:
    """Raises ChangedMeanwhile where somebody wrote another test since it was read."""
    kept = getattr(cloth, "test", None)
    if kept is None:
        kept = ClothTest.objects.create(cloth=cloth, by=by, tested_on=today, changed_by=by, **values)
        kept.note_changes([{"field": "test", "label": "needle and iron", "before": "", "after": kept.in_words[:300]}], by=by)
        return kept
    for name, value in (values | {"by": by, "tested_on": today}).items():
        setattr(kept, name, value)
    kept.keep(*values, "by", "tested_on", by=by)
    return kept
