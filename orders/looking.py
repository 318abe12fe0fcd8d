"""Looking longer for a shorter lay of one cloth; the shortest found is the one that is kept."""

from decimal import Decimal

from drafting.models import KeptDraft
from orders.laying import answer, entry_of, found, keep_shorter
from orders.models import Cloth
from workshop.length import print_length
from workshop.models import Workshop

LOOK_SECONDS = 5


def look_longer(drafts: list[KeptDraft], cloth: Cloth, *, seconds: float) -> str:
    """Look `seconds` of CPU longer, each time from another beginning; says in a sentence what came of it."""
    if not drafts:
        return "No draft yet. A lay is made of the draft’s pieces."
    [before] = answer(drafts, [cloth])
    took = before.needs
    for kept in before.kept:
        draft = next(each for each in drafts if each.pk == kept.draft_id)
        beginning = 2 + int(kept.seconds)
        lay, _ = found(draft, entry_of(cloth), seconds=seconds / len(before.kept), seed=beginning)
        keep_shorter(kept, lay, seconds / len(before.kept))
    [after] = answer(drafts, [cloth])
    if after.needs is None:
        return f"{cloth.name} can’t be laid so, however long one looks."
    shorter = (took or after.needs) - after.needs
    if shorter < Decimal("1.6"):
        return f"{cloth.name}: no shorter lay in {seconds} seconds."
    return f"{cloth.name}: {print_length(shorter, Workshop.current().unit, with_unit=True)} shorter."
