"""Who may open the drafts' addresses."""

from django.utils import timezone

from drafting.models import KeptDraft
from tests.drafting.sample_result import sample_order, sample_result
from tests.workshop.url_table import row


def kept_sample() -> KeptDraft:
    return KeptDraft.keep(order_file=sample_order(), result=sample_result(), made_by=None, at=timezone.now())


def _draft(cast) -> list:
    return [cast.once("draft", kept_sample).pk]


TABLE = {
    "drafting:show": row("o s a", "", _draft),
    "drafting:sheet": row("o s a", "", _draft),
    "drafting:papers": row("o s a", "", _draft),
    "drafting:paper": row("o s a", "", lambda cast: [*_draft(cast), "cut-list.csv"]),
    "drafting:day-sheets": row("o s a", "", query=lambda cast: {"draft": _draft(cast)[0]}),
}
