"""Looking longer for a shorter lay of one cloth, in the background; the shortest found is the one that is kept."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from drafting.engine.lay import cpu_seconds
from orders.cloth.laying import answer, drafts_of, entry_of, found, keep_shorter
from orders.models import Cloth
from workshop.jobs import Job
from workshop.length import print_length
from workshop.models import Workshop
from workshop.working import Telling

KIND = "shorter-lay"
SHORT, LONG = 20, 120
"""Seconds of CPU that may be asked for. On the demo's gowns most of what is to be had comes in the first twenty."""

ROUND = 20.0
"""Seconds of one search, each from another beginning; what it brought is kept before the next begins."""

HAIR_MM = 1.6


@dataclass(frozen=True)
class Looking:
    """A look for a shorter lay as its cloth's page shows it. `said` is one sentence."""

    job: Job
    said: str

    @property
    def is_open(self) -> bool:
        return self.job.is_open


def about(cloth: Cloth) -> str:
    return f"cloth {cloth.pk}"


def ask(cloth: Cloth, *, seconds: int, by) -> Job:
    return Job.ask(KIND, about(cloth), asked={"cloth": cloth.pk, "seconds": seconds}, total=seconds, by=by)


def looking_for(cloth: Cloth) -> Looking | None:
    """The last look for this cloth, and what is to be said of it now."""
    return looking_for_each([cloth]).get(cloth.pk)


def looking_for_each(cloths: Iterable[Cloth]) -> dict[int, Looking]:
    """The same for several cloths, by their keys."""
    keys = {about(cloth): cloth.pk for cloth in cloths}
    return {keys[name]: Looking(job, words(job)) for name, job in Job.newest_of(KIND, keys).items()}


def words(job: Job) -> str:
    told = job.told
    if job.is_waiting:
        return "Waiting for another job to end."
    if job.is_failed:
        return "The look for a shorter lay broke. The lay above stands."
    spent = f"{job.done:.0f} of {job.total:.0f} seconds"
    if not told.get("first"):
        return "Beginning." if job.is_open else "It ended before anything was found. The lay above stands."
    unit, shorter = Workshop.current().unit, told["first"] - told["now"]
    long = print_length(told["now"], unit, with_unit=True)
    by = f"{print_length(shorter, unit, with_unit=True)} shorter" if shorter >= HAIR_MM else "none shorter yet"
    if job.is_open:
        return f"Looked {spent}: {long} long so far, {by}."
    by = by.removesuffix(" yet")
    if job.is_broken:
        return f"The look was broken off after {spent}, when the program ended. What it had found by then is kept."
    return f"Looked {spent}{', then stopped' if job.is_stopped else ''}: {long} long, {by}."


def work(asked: Mapping[str, Any], telling: Telling) -> dict:
    """Do the job: round by round, over all garments that are cut from the cloth. Nothing here runs in a transaction."""
    cloth = Cloth.objects.filter(pk=asked["cloth"]).select_related("order").first()
    drafts = drafts_of(cloth.order.garments.select_related("draft", "cut_draft")) if cloth else []
    if not drafts:
        return {}
    [before] = answer(drafts, [cloth])
    by_key = {draft.pk: draft for draft in drafts}
    if not before.kept or before.refused:
        return {}
    lengths = {kept.pk: kept.lay["length"] for kept in before.kept}
    first, begun, left = sum(lengths.values()), cpu_seconds(), float(asked["seconds"])
    telling.so_far(0.0, first=first, now=first)
    while left > 0 and not telling.is_to_end():
        for kept in before.kept:
            seconds = min(ROUND, left) / len(before.kept)

            def found_one(_cloth: str, _tries: int, length: float, key: int = kept.pk) -> None:
                now = sum(lengths.values()) - max(lengths[key] - length, 0)
                telling.so_far(cpu_seconds() - begun, now=min(now, telling.told["now"]))

            beginning = 2 + int(kept.seconds)
            how = {"seconds": seconds, "seed": beginning, "wall": False, "progress": found_one, "stop": telling.is_to_end}
            started = cpu_seconds()
            lay, _ = found(by_key[kept.draft_id], entry_of(cloth), **how)
            kept = keep_shorter(kept, lay, cpu_seconds() - started)
            lengths[kept.pk] = kept.lay["length"]
            telling.so_far(cpu_seconds() - begun, now=sum(lengths.values()))
            if telling.is_to_end():
                break
        left -= ROUND
    answer(drafts, [cloth])
    if not telling.is_to_end():
        telling.so_far(float(asked["seconds"]))
    return {"first": first, "now": sum(lengths.values())}
