"""Several orders cut from one cloth: which share one, one lay over all their pieces, and each client's share."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from django.utils.safestring import SafeString

from drafting.engine.lay import LayError, cpu_seconds
from drafting.together import Part, lay_together, name_in, shares_of
from orders.cloth.lay_drawing import lay_drawing, sizes_of
from orders.cloth.laying import entry_of, is_cut_from
from orders.cloth.lays_page import HOW, PlaceRow, across_from, legend_of, places_of
from orders.cloth.rows import STEP_MM
from orders.models import Cloth, Garment
from orders.stages import BEFORE_CUTTING
from workshop.jobs import Job
from workshop.length import print_length
from workshop.models import Workshop
from workshop.templatetags.workshop_tags import cloth as as_bought
from workshop.working import Telling

KIND = "shared-lay"
SECONDS = 20
LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"
MOST_ORDERS = len(LETTERS)


@dataclass(frozen=True)
class SharedCloth:
    """A cloth that stands on several orders under one name and width."""

    name: str
    width_mm: Decimal
    cloths: list[Cloth]


@dataclass(frozen=True)
class Share:
    letter: str
    cloth: Cloth
    takes: str
    alone: str


@dataclass(frozen=True)
class TogetherShown:
    """The lay of the chosen orders as its page shows it; `job` is None before anybody asked."""

    job: Job | None
    said: str
    total: str = ""
    saved: str = ""
    head: str = ""
    drawing: SafeString = SafeString("")
    zoom: str = "far"
    legend: str = ""
    places: tuple[PlaceRow, ...] = ()
    across_from: str = ""
    shares: tuple[Share, ...] = ()
    is_behind: bool = False


def shared_cloths() -> list[SharedCloth]:
    """Every cloth that two orders or more before cutting are to be cut from, by name and width."""
    rows = Cloth.objects.filter(order__is_open=True, order__stage__in=BEFORE_CUTTING).select_related("order__client")
    found: dict[tuple[str, Decimal], list[Cloth]] = {}
    for cloth in rows.order_by("order__collect_on", "order__serial"):
        found.setdefault((cloth.name.casefold(), cloth.width_mm), []).append(cloth)
    return [SharedCloth(cloths[0].name, width, cloths) for (_, width), cloths in sorted(found.items()) if len(cloths) > 1]


def chosen(keys: Iterable[str]) -> list[Cloth]:
    """The cloths of these keys that can be laid together: of one width, on open orders. In the order of the orders."""
    numbers = [int(key) for key in keys if key.isascii() and key.isdigit() and len(key) < 18][: MOST_ORDERS + 1]
    rows = Cloth.objects.filter(pk__in=numbers, order__is_open=True).select_related("order__client").order_by("order__serial")
    return list(rows)[:MOST_ORDERS]


def about(cloths: list[Cloth]) -> str:
    return "cloths " + hashlib.sha256(",".join(str(cloth.pk) for cloth in cloths).encode()).hexdigest()[:32]


def ask(cloths: list[Cloth], *, by) -> Job:
    return Job.ask(KIND, about(cloths), asked={"cloths": [cloth.pk for cloth in cloths]}, total=SECONDS, by=by)


def parts_of(cloths: list[Cloth]) -> list[Part]:
    """Each chosen order's drafts that are cut from its cloth."""
    by_order: dict[int, list[Garment]] = {}
    rows = Garment.objects.filter(order__in=[cloth.order_id for cloth in cloths]).select_related("draft", "cut_draft", "order")
    for garment in rows:
        by_order.setdefault(garment.order_id, []).append(garment)
    parts = []
    for cloth in cloths:
        drafts = [garment.sheet_draft for garment in by_order.get(cloth.order_id, ()) if garment.sheet_draft]
        for number, draft in enumerate(each for each in drafts if is_cut_from(each, cloth.name)):
            label = cloth.order.number + ("abcdefgh"[number] if number else "")
            parts.append(Part(label, cloth.name, draft.order_file | {"cloths": [entry_of(cloth)]}, draft.result))
    return parts


def key_of(parts: list[Part]) -> str:
    """What a lay was made of: the same for the same drafts on the same cloths."""
    told = [(part.label, part.result["pieces"], part.order_file["cloths"]) for part in parts]
    return hashlib.sha256(repr(told).encode()).hexdigest()[:32]


def work(asked: Mapping[str, Any], telling: Telling) -> dict:
    """Do the job: one lay over all pieces."""
    parts = parts_of(chosen([str(key) for key in asked["cloths"]]))
    if not parts:
        return {"why": "None of these orders has a draft that is cut from this cloth."}
    begun = cpu_seconds()

    def found_one(_tries: int, length: float) -> None:
        telling.so_far(cpu_seconds() - begun, now=length)

    try:
        found = lay_together(parts, seconds=SECONDS, wall=False, progress=found_one, stop=telling.is_to_end)
    except LayError as bad:
        unit = Workshop.current().unit
        return {"why": bad.sentence(lambda mm: print_length(mm, unit, with_unit=True))}
    telling.so_far(cpu_seconds() - begun, now=found.lay["length"])
    return {"lay": found.lay, "areas": found.areas, "key": key_of(parts)}


def shown_together(cloths: list[Cloth]) -> TogetherShown:
    job = Job.newest(KIND, about(cloths))
    if job is None or job.is_open or not job.came.get("lay"):
        return TogetherShown(job, words(job))
    unit, lay = Workshop.current().unit, job.came["lay"]
    step = float(STEP_MM[unit])
    steps = round(lay["to_buy"] / step)
    shares = shares_of(steps, job.came["areas"])
    letters = dict(zip((cloth.order.number for cloth in cloths), LETTERS, strict=False))
    alone = [cloth.needs_mm for cloth in cloths]
    parts = parts_of(cloths)
    saved = sum(alone) - Decimal(repr(lay["needs"])) if all(alone) else Decimal(0)
    wide, long = (print_length(lay[key], unit, with_unit=True) for key in ("width", "length"))
    head = f"{HOW[lay['layout']].capitalize()}, {wide} wide, {long} long"
    numbers = numbers_of(parts, letters)
    return TogetherShown(
        job=job,
        said=words(job),
        total=as_bought(Decimal(repr(float(lay["to_buy"])))),
        saved=as_bought(saved) if saved >= Decimal(repr(step)) else "",
        head=head,
        drawing=lay_drawing(lay, numbers, unit, told=f"{cloths[0].name}. {head}."),
        zoom=sizes_of(lay).zoom,
        legend=legend_of(lay, numbers),
        places=tuple(places_of(lay, on_fold_in(parts))),
        across_from=across_from(lay),
        shares=tuple(
            Share(letters[cloth.order.number], cloth, as_bought(Decimal(repr(step * steps_of(shares, cloth)))), needs_words(cloth))
            for cloth in cloths
        ),
        is_behind=job.came["key"] != key_of(parts),
    )


def numbers_of(parts: list[Part], letters: Mapping[str, str]) -> dict[str, str]:
    """What stands on each piece of the drawing: the order's letter and the piece's number."""
    return {
        name_in(part.label, piece["name"]): f"{letters[part.label.rstrip('bcdefgh')]}{piece.get('number') or ''}"
        for part in parts
        for piece in part.result["pieces"]
    }


def on_fold_in(parts: list[Part]) -> set[str]:
    return {name_in(part.label, piece["name"]) for part in parts for piece in part.result["pieces"] if piece["on_fold"]}


def steps_of(shares: Mapping[str, int], cloth: Cloth) -> int:
    return sum(steps for label, steps in shares.items() if label.rstrip("bcdefgh") == cloth.order.number)


def needs_words(cloth: Cloth) -> str:
    return as_bought(cloth.needs_mm) if cloth.needs_mm is not None else ""


def words(job: Job | None) -> str:
    if job is None:
        return ""
    unit, now = Workshop.current().unit, job.told.get("now")
    if job.is_waiting:
        return "Waiting for another job to end."
    if job.is_open:
        so_far = f" {print_length(now, unit, with_unit=True)} long so far." if now else ""
        return f"Laid for {job.done:.0f} of {job.total:.0f} seconds.{so_far}"
    if job.came.get("why"):
        return job.came["why"]
    if job.came.get("lay"):
        return "Stopped: the shortest lay found by then." if job.is_stopped else ""
    return "It was broken off. Lay them again." if job.is_broken else "It came to no lay. Lay them again."
