"""What the page of old over new shows: the answer, each piece drawn, and the largest difference along each edge."""

from dataclasses import dataclass
from functools import partial

from django.utils.safestring import SafeString

from clients.models import Measuring
from drafting.engine.compare import Comparison, PieceChange, compare
from drafting.engine.tolerance import SEAM
from drafting.models import KeptDraft
from drafting.over_each_other import over_svg
from orders.garment.comparing import (
    Moved,
    answer_in_words,
    drawn_and_compared,
    file_now,
    moved_measures,
    piece_in_words,
)
from orders.models import Garment
from workshop.house_rules import in_force
from workshop.length import print_length
from workshop.models import Workshop

STATES = {"new": "a new piece", "lost": "not in the new draft", "same": "as it was"}


@dataclass(frozen=True)
class EdgeRow:
    name: str
    amount: str
    way: str


@dataclass(frozen=True)
class PieceOver:
    heading: str
    state: str
    room: str
    is_enough: bool
    edges: list[EdgeRow]
    still: str  # edges that are as they were
    drawn: SafeString


@dataclass(frozen=True)
class ComparisonPage:
    garment: Garment
    is_cut: bool
    old: KeptDraft
    new: KeptDraft | None  # None: made now, to be compared
    newest: Measuring | None
    moved: list[Moved]
    answer: str
    sentence: str
    pieces: list[PieceOver]
    same: str
    drafts: list[KeptDraft]


def draft_numbered(garment: Garment, written: str) -> KeptDraft | None:
    """The order's kept draft of that number; None for no number, or one that there is not."""
    if not (written.isascii() and written.isdigit() and len(written) < 6):
        return None
    return KeptDraft.objects.of_order(garment.order.number).filter(number=int(written)).first()


def comparison_page(garment: Garment, newest, *, old: str = "", new: str = "") -> ComparisonPage:
    """Two of the order's drafts by their numbers; without, what was cut (or drafted) against a draft made now. Raises NotDrafted."""
    before, after = draft_numbered(garment, old) or garment.sheet_draft, draft_numbered(garment, new)
    least = float(in_force("least_allowance", Workshop.current()))
    later = newest if after is None and garment.measuring_id not in (None, newest and newest.pk) else None
    if after is not None:
        result, comparison = after.result, compare(before.result, after.result, least=least)
    else:
        result, comparison = drawn_and_compared(before, file_now(garment, later))
    return ComparisonPage(
        garment=garment,
        is_cut=before.pk == garment.cut_draft_id,
        old=before,
        new=after,
        newest=later,
        moved=moved_measures(garment, later) if later else [],
        answer=comparison.answer,
        sentence=answer_in_words(comparison) if before.pk == garment.cut_draft_id else if_it_were_cut(comparison),
        pieces=[piece_over(change, before.result, result) for change in comparison.changed],
        same=", ".join(piece_in_words(change) for change in comparison.pieces if change.state == "same"),
        drafts=list(KeptDraft.objects.of_order(garment.order.number).without_drawing()),
    )


def if_it_were_cut(comparison: Comparison) -> str:
    many = len(comparison.changed)
    return f"{many} piece{'s' if many != 1 else ''} changed." if many else "No piece changes by more than a chalk line."


def piece_over(change: PieceChange, old: dict, new: dict) -> PieceOver:
    told = partial(print_length, unit=Workshop.current().unit, step=16)
    unread = (abs(edge.amount) for edge in change.edges if told(abs(edge.amount)) == "0")
    least = max(SEAM, max(unread, default=SEAM))  # what reads as 0 has not moved
    before = next((piece for piece in old["pieces"] if piece["name"] == (change.was or change.name)), None) if change.state != "new" else None
    after = next((piece for piece in new["pieces"] if piece["name"] == change.name), None) if change.state != "lost" else None
    return PieceOver(
        heading=f"{change.number} {change.title}" if change.number else change.title,
        state=STATES.get(change.state, ""),
        room=room_in_words(change),
        is_enough=change.enough,
        edges=[EdgeRow(edge.name, told(abs(edge.amount)), way(edge)) for edge in change.edges if abs(edge.amount) > least],
        still=", ".join(edge.name for edge in change.edges if abs(edge.amount) <= least),
        drawn=SafeString(over_svg(before, after, change)),  # whole, escaped SVG: over_each_other.py escapes every text
    )


def way(edge) -> str:
    if edge.name == "darts":
        return "moved"
    return "out" if edge.amount > 0 else "in"


def room_in_words(change: PieceChange) -> str:
    """How much allowance is left, and how the new pattern is laid on the cut piece."""
    if change.left is None:
        return ""
    told = partial(print_length, unit=Workshop.current().unit, step=16, with_unit=True)
    if change.left < 0:
        text = f"The cloth ends {told(-change.left)} short of the new line, at the {change.tightest}."
    else:
        text = f"{told(change.left)} stays beyond the new line, at the {change.tightest}."
    across, down = change.slide
    moves = [f"{told(abs(by))} {words[by > 0]}" for by, words in ((across, ("toward the centre", "away from the centre")), (down, ("up", "down"))) if abs(by) > SEAM]
    slid = f" Lay the new pattern {' and '.join(moves)}." if moves and change.enough else ""
    kept = f" The seam with the {change.kept} stays." if change.kept else ""
    return f"{text}{slid}{kept}"
