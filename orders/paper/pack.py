"""The pack of a day's papers, made in the background: its job, where the file lies, and what is said of it."""

import os
import tempfile
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Any

from django.conf import settings
from django.utils import timezone

from orders.cloth.laying import draft_keys
from orders.models import Cloth, Fitting, Garment, Order
from orders.paper.day_contents import count_pages
from orders.paper.printing import CannotPrint, Stopped, day_pack
from workshop.jobs import Job
from workshop.templatetags.workshop_tags import clock
from workshop.working import Telling

KIND = "day-pack"

@dataclass(frozen=True)
class Pack:
    """One of a day's packs as its page shows it: the sheets, or the sheets with their patterns at full size."""

    full_size: bool
    job: Job | None
    said: str
    is_there: bool
    is_behind: bool = False


def to_cut(day: date):
    """The orders to be cut on that day, with all that their papers need; for today, with those past it."""
    found = Order.objects.select_related("client").with_work().prefetch_related("cloths").to_cut(day)
    if day != timezone.localdate():
        found = found.filter(cut_on=day)
    return found.order_by("cut_on", "serial")


def ask(day: date, *, full_size: bool, site: str = "", by) -> Job:
    """Ask for the pack; `site` is where its pages were asked for, which the process that makes it can't know."""
    asked = {"day": day.isoformat(), "full_size": full_size, "site": site}
    return Job.ask(KIND, name_of(day, full_size), asked=asked, total=to_cut(day).count(), by=by)


def pack_of(day: date, *, full_size: bool) -> Pack:
    job = Job.newest(KIND, name_of(day, full_size))
    if job is None:
        return Pack(full_size, None, "", is_there=False)
    is_there = not job.is_open and bool(job.came.get("pages")) and file_of(day, full_size).exists()
    return Pack(full_size, job, words(job, is_there), is_there, is_there and is_behind(job, day))


def words(job: Job, is_there: bool) -> str:
    counted, came = f"{job.done:.0f} of {job.total:.0f} orders", job.came
    if job.is_waiting:
        return "Waiting for another job to end."
    if job.is_open:
        now = job.told.get("now", "")
        return f"Made: {counted}.{f' Now {now}.' if now else ''}"
    if is_there:
        failed = came.get("failed", ())
        lacks = f" No sheet of {', '.join(failed)}: the first page says why." if failed else ""
        sheets = came.get("sheets")
        held = counted if sheets is None else f"{sheets} job sheet{'' if sheets == 1 else 's'} for {job.total:.0f} order{'' if job.total == 1 else 's'}"
        return f"Made at {clock(timezone.localtime(job.ended_at))}: {held}, {came['pages']} pages.{lacks}{none_words(came.get('none', ()))}"
    if job.is_stopped:
        return f"Stopped after {counted}. Those are kept, and quick to make again."
    if job.is_broken:
        return f"Broken off after {counted}, when the program ended. Those are kept, and quick to make again."
    return came.get("why") or ("The pack broke while it was made. Make it again." if job.is_failed else "It is no longer kept.")


def none_words(numbers: Sequence[str]) -> str:
    return f" Not measured or drafted yet, so without a sheet: {', '.join(numbers)}." if numbers else ""


def is_behind(job: Job, day: date) -> bool:
    """Whether an order of that day was changed after its pack was begun."""
    orders = list(to_cut(day).values_list("pk", flat=True))
    if len(orders) != job.total:
        return True
    changed = (
        Order.objects.filter(pk__in=orders, changed_at__gt=job.asked_at),
        *(model.objects.filter(order__in=orders, changed_at__gt=job.asked_at) for model in (Cloth, Fitting, Garment)),
    )
    return any(rows.exists() for rows in changed)


def work(asked: Mapping[str, Any], telling: Telling) -> dict:
    """Do the job: sheet by sheet; what is made is kept, so that a pack broken off is soon made again."""
    day, full_size = date.fromisoformat(asked["day"]), asked["full_size"]

    def before(done: int, order: Order) -> bool:
        telling.so_far(done, now=order.number)
        return not telling.is_to_end()

    failed: list[str] = []
    orders = list(to_cut(day))
    try:
        paper = day_pack(orders, day, full_size=full_size, site=asked.get("site", ""), before_each=before, failed=failed)
    except Stopped:
        return {}
    except CannotPrint as refused:
        return {"why": str(refused)}
    telling.so_far(len(orders), now="")
    write(file_of(day, full_size), paper)
    drafted = {order.number: len(draft_keys(order.all_garments)) for order in orders}
    none = [number for number, sheets in drafted.items() if not sheets]
    return {"pages": count_pages(paper), "failed": failed, "sheets": sum(drafted.values()) - len(failed), "none": none}


def name_of(day: date, full_size: bool) -> str:
    return f"{day.isoformat()}{' with patterns' if full_size else ''}"


def file_of(day: date, full_size: bool) -> Path:
    return Path(settings.DATA) / "papers" / "packs" / f"{name_of(day, full_size).replace(' ', '-')}.pdf"


def write(path: Path, content: bytes) -> None:
    """Whole or not at all: aside first, then in its place."""
    path.parent.mkdir(parents=True, exist_ok=True, mode=0o700)
    handle, aside = tempfile.mkstemp(dir=path.parent, prefix="aside-")
    with os.fdopen(handle, "wb") as file:
        file.write(content)
    os.replace(aside, path)
