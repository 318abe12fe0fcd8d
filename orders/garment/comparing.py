"""Old over new: a garment's draft against another of its drafts, or against one that was made now from what is known today."""

import json
from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from functools import partial
from typing import Any

from clients.measures import BY_KEY, GIRTH, LEFT
from drafting.engine.compare import Comparison, compare
from drafting.engine.garments import KINDS
from drafting.models import KeptDraft
from orders.garment.making_draft import NotDrafted, drawn
from orders.garment.order_file import left_arm
from orders.models import Garment
from orders.stages import NotNow
from workshop.few_kept import FewKept
from workshop.house_rules import in_force
from workshop.length import print_length
from workshop.models import Workshop

_compared: FewKept[tuple[dict, Comparison]] = FewKept(64)
"""Drafts made only to be compared, with what came of it: by the old draft's digest and the new order file."""

NUMBERS = ("none", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine")


@dataclass(frozen=True)
class Moved:
    """A measure that is not what it was."""

    name: str
    used: Decimal
    now: Decimal
    beyond_noise: bool

    @property
    def change(self) -> Decimal:
        return self.now - self.used


@dataclass(frozen=True)
class Since:
    """What the client's newest measures mean for a garment. `refused` says why no draft can be made of them."""

    measuring: object
    moved: list[Moved]
    comparison: Comparison | None
    sentence: str
    refused: str = ""

    @property
    def told(self) -> list[Moved]:
        return [each for each in self.moved if each.beyond_noise]

    @property
    def is_worth_saying(self) -> bool:
        """More than the tape's noise, or more than the let-out holds."""
        return bool(self.told) or self.is_outgrown

    @property
    def is_outgrown(self) -> bool:
        return bool(self.refused) or self.comparison is not None and self.comparison.answer == "again"


def moved_measures(garment: Garment, newest) -> list[Moved]:
    """The measures of this kind of garment that the client's newest measuring has otherwise."""
    kind, rule = KINDS[garment.kind], in_force("tape_noise", Workshop.current())
    wanted = {*kind.measures, *kind.optional_measures}
    wanted |= {each.key for each in LEFT if each.right in wanted}
    used, now = garment.measuring.lengths(), newest.lengths()
    used = {each.key: used[each.right] for each in LEFT if each.right in used} | used  # not taken apart, it was drafted as the right
    both = [key for key in BY_KEY if key in wanted and key in used and key in now and used[key] != now[key]]
    noise = {key: rule if BY_KEY[key].kind == GIRTH else rule / 2 for key in both}
    return [Moved(BY_KEY[key].name, used[key], now[key], abs(now[key] - used[key]) > noise[key]) for key in both]


def file_now(garment: Garment, newest=None) -> dict[str, Any]:
    """The order file of the garment's draft, as it would be with the client's newest measures and fit notes."""
    then = garment.sheet_draft.order_file
    now = {key: value for key, value in then.items() if key != "fit_notes"}
    if newest is not None:
        taken = newest.order_file_measures()
        if garment.options.get("skirt.length"):
            taken.pop("skirt_length", None)
        now["measures"], now["measured_on"] = {**then["measures"], **taken}, newest.taken_on.isoformat()
        stands = {key: length for key, length in then.get("measures_left", {}).items() if key not in taken}
        now["measures_left"] = stands | left_arm(garment, newest)
        if not now["measures_left"]:
            del now["measures_left"]
    if garment.order.client.alterations:
        now["fit_notes"] = garment.order.client.alterations
    return now


def drawn_and_compared(old: KeptDraft, file: Mapping[str, Any]) -> tuple[dict, Comparison]:
    """The draft that the file gives, held against `old`; kept in memory, for neither ever changes. Raises NotDrafted."""
    least = float(in_force("least_allowance", Workshop.current()))
    key = f"{old.digest} {least} {json.dumps(file, sort_keys=True)}"

    def made() -> tuple[dict, Comparison]:
        result = drawn(dict(file))
        return result, compare(old.result, result, least=least)

    return _compared(key, made)


def since_cut(garment: Garment, newest) -> Since | None:
    """What was measured after a garment was cut, and whether what was cut is enough; None where nothing of it changed, or the owner
    has settled it."""
    if newest is None or not garment.cut_draft_id or garment.measuring_id in (None, newest.pk) or not garment.order.is_open:
        return None
    if garment.kept_past_id == newest.pk:
        return None
    if newest.taken_on < garment.measuring.taken_on or not (moved := moved_measures(garment, newest)):
        return None
    try:
        _, comparison = drawn_and_compared(garment.cut_draft, file_now(garment, newest))
    except NotDrafted as refused:
        return Since(newest, moved, None, "", " ".join(refused.texts))
    return Since(newest, moved, comparison, answer_in_words(comparison))


def worth_saying(garment: Garment, newest) -> Since | None:
    """The same, where it is more than the tape's noise or more than the let-out holds."""
    since = since_cut(garment, newest)
    return since if since and since.is_worth_saying else None


def settle(*, garment: Garment, measuring, by) -> None:
    """The owner has seen what these measures mean for the cut garment, and nothing more is to be said of them. Raises NotNow before it
    is cut, ChangedMeanwhile."""
    if garment.cut_draft_id is None:
        raise NotNow(f"{garment.order.number} is not cut yet. Redraft it, or keep the old measures.")
    garment.kept_past = measuring
    garment.keep("kept_past", by=by)


def answer_in_words(comparison: Comparison) -> str:
    """The one sentence that the cutter asked for."""
    told = partial(print_length, unit=Workshop.current().unit, step=16, with_unit=True)
    kept = [piece for piece in comparison.changed if piece.kept]
    keep = f" The seam between {kept[0].was} and {kept[0].kept} stays." if kept else ""
    match comparison.answer:
        case "same":
            return "No piece changes by more than a chalk line."
        case "taken in":
            return f"It is taken in: every new sewing line lies inside what was cut.{keep}"
        case "let out":
            least = min((p for p in comparison.changed if p.left is not None), key=lambda p: p.left)
            return f"The let-out takes it. The least allowance that stays is {told(least.left)}, at the {least.tightest} of the {least.name}.{keep}"
    again = comparison.again
    pieces = sum(piece.count for piece in again)
    many = NUMBERS[pieces] if pieces < len(NUMBERS) else str(pieces)
    these = "this one" if pieces == 1 else f"these {many}"
    return f"Cut {these} again: {', '.join(piece_in_words(piece) for piece in again)}."


def piece_in_words(piece) -> str:
    pair = " (1 pair)" if piece.count == 2 else f" ({piece.count})" if piece.count > 1 else ""
    return f"{piece.title[:1].lower()}{piece.title[1:]}{pair}"
