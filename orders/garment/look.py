"""How a garment would look with choices that are not kept yet: its pieces drawn at once, the lines that moved marked."""

import json
from collections.abc import Sequence
from dataclasses import dataclass, field

from django.http import QueryDict

from drafting.engine.compare import PieceChange, compare
from drafting.engine.outlines import plain_edge
from drafting.engine.tolerance import SEAM
from orders.booking import newest_measuring
from orders.garment.drawn_pieces import PieceGroup, grouped, legend
from orders.garment.form import GarmentForm
from orders.garment.making_draft import NotDrafted, drawn, refuse_unless_measured
from orders.garment.order_file import order_file
from orders.models import Garment
from workshop.few_kept import FewKept
from workshop.length import print_length

_drawn: FewKept[dict] = FewKept(24)  # an order file as text -> its result: a choice taken back is drawn at once
MOST_TOLD = 3


@dataclass
class Look:
    """The pieces as chosen. `refused` says why they can't be drawn, with the last drawing left standing; `looked` are the
    choices that are drawn, as a query, and come back with the next ones."""

    pieces: list[PieceGroup] = field(default_factory=list)
    legend: str = ""
    failed: bool = False
    refused: list[str] = field(default_factory=list)
    moved: list[str] = field(default_factory=list)
    looked: str = ""


def look(garment: Garment, chosen: QueryDict) -> Look:
    """Draw what was chosen against what was drawn before; keeps nothing."""
    before = QueryDict(chosen.get("looked", "")[:20_000])
    kept = garment.draft
    last = _result_of(garment, before) if before else ((kept.order_file, kept.result) if kept else None)
    form = GarmentForm(chosen, garment=garment)
    if not form.is_valid():
        refused = [f"{form[name].label}: {problem}" if name in form.fields else str(problem)
                   for name, problems in form.errors.items() for problem in problems]
        return _standing(last, before, refused)
    try:
        file, result = _drawn_for(garment, form)
    except NotDrafted as why:
        return _standing(last, before, why.texts)
    changed = compare(last[1], result).changed if last else ()
    return Look(
        pieces=grouped(file, result, _moved(changed, result)), legend=legend(result), failed=result["not_for_cutting"],
        moved=_told(changed, file["units"]), looked=_query(form, chosen),
    )


def _standing(last, before: QueryDict, refused: list[str]) -> Look:
    if last is None:
        return Look(refused=refused)
    return Look(pieces=grouped(*last), legend=legend(last[1]), failed=last[1]["not_for_cutting"], refused=refused, looked=before.urlencode())


def _result_of(garment: Garment, choices: QueryDict) -> tuple[dict, dict] | None:
    form = GarmentForm(choices, garment=garment)
    try:
        return _drawn_for(garment, form) if form.is_valid() else None
    except NotDrafted:
        return None


def _drawn_for(garment: Garment, form: GarmentForm) -> tuple[dict, dict]:
    """The order file with these choices, and its result; nothing is saved. Raises NotDrafted."""
    garment.options, garment.rules = form.options(), form.rules()
    garment.measuring = garment.measuring or newest_measuring(garment.order.client)
    refuse_unless_measured(garment)
    file = order_file(garment)
    return file, _drawn(json.dumps(file, sort_keys=True, default=str), lambda: drawn(file))


def _query(form: GarmentForm, chosen: QueryDict) -> str:
    kept = QueryDict(mutable=True)
    for name in form.fields:
        if name in chosen:
            kept.setlist(name, chosen.getlist(name))
    return kept.urlencode()


def _moved(changed: Sequence[PieceChange], new: dict) -> dict[str, set[str]]:
    """The edges that moved, by piece; of a piece that was not there before, all."""
    found: dict[str, set[str]] = {}
    pieces = {piece["name"]: piece for piece in new["pieces"]}
    for change in changed:
        if change.name not in pieces:
            continue
        names = [edge["name"] for edge in pieces[change.name]["edges"] if edge["name"] != "fold"]
        if change.state == "new":
            found[change.name] = set(names)
            continue
        told = {edge.name for edge in change.edges if abs(edge.amount) > SEAM}
        found[change.name] = {name for name in names if plain_edge(name) in told or ("darts" in told and name.startswith("dart"))}
    return found


def _told(changed: Sequence[PieceChange], unit: str) -> list[str]:
    """What moved most, in a few words: “neck of the front, 1½ in”."""
    moves: list[tuple[float, str]] = []
    for change in changed:
        if change.name.endswith("lining"):
            continue
        if change.state in ("new", "lost"):
            moves.append((1e9, f"{change.title.lower()} {'added' if change.state == 'new' else 'gone'}"))
        elif change.largest and abs(change.largest.amount) > SEAM:
            amount = print_length(abs(change.largest.amount), unit, step=8, with_unit=True)
            moves.append((abs(change.largest.amount), f"{change.largest.name} of the {change.name}, {amount}"))
    moves.sort(key=lambda move: -move[0])
    more = [f"and {len(moves) - MOST_TOLD} more"] if len(moves) > MOST_TOLD else []
    return [words for _, words in moves[:MOST_TOLD]] + more

