"""Work in the background: what is to be done and how far it is. One job at a time, in a process of its own (working.py).

A job's row is all that there is: it outlives the program. A job that was running when its process ended is seen as broken
off, for whoever does jobs holds a lock as long as it lives.
"""

from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import Any, Self

from django.conf import settings
from django.db import connection, models, transaction
from django.utils import timezone

from workshop.locks import if_free
from workshop.ringing import ring_later

KEPT_ENDED = 200
"""Jobs that have ended are kept for what they brought; the oldest beyond these go."""


class Job(models.Model):
    """One piece of work: `kind` says which, `about` on what, `asked` with which figures; `told` and `came` are its words."""

    class State(models.TextChoices):
        WAITING = "waiting"
        RUNNING = "running"
        DONE = "done"
        STOPPED = "stopped"
        BROKEN = "broken"
        FAILED = "failed"

    OPEN = (State.WAITING, State.RUNNING)

    kind = models.SlugField(max_length=20)
    about = models.CharField(max_length=80)
    asked = models.JSONField(default=dict)
    state = models.CharField(max_length=8, choices=State.choices, default=State.WAITING)
    stop_asked = models.BooleanField(default=False)
    done = models.FloatField(default=0)
    total = models.FloatField(default=0)
    told = models.JSONField(default=dict)
    came = models.JSONField(default=dict)
    asked_by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.SET_NULL, null=True, related_name="+")
    asked_at = models.DateTimeField()
    ended_at = models.DateTimeField(null=True)

    class Meta:
        ordering = ("pk",)
        constraints = [
            models.UniqueConstraint(
                fields=["kind", "about"],
                condition=models.Q(state__in=("waiting", "running")),
                name="one_open_job_of_a_kind_on_a_thing",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.kind} of {self.about}"

    @property
    def is_open(self) -> bool:
        return self.state in self.OPEN

    @property
    def is_waiting(self) -> bool:
        return self.state == self.State.WAITING

    @property
    def is_broken(self) -> bool:
        return self.state == self.State.BROKEN

    @property
    def is_stopped(self) -> bool:
        return self.state == self.State.STOPPED

    @property
    def is_failed(self) -> bool:
        return self.state == self.State.FAILED

    @classmethod
    def newest(cls, kind: str, about: str) -> Self | None:
        """The last job of this kind on this thing, as it stands now."""
        return cls.newest_of(kind, [about]).get(about)

    @classmethod
    def newest_of(cls, kind: str, abouts: Iterable[str]) -> dict[str, Self]:
        """The last job on each of these things, as it stands now: what nobody works at any more is broken off."""
        found = {job.about: job for job in cls.objects.filter(kind=kind, about__in=abouts)}
        is_open = [job for job in found.values() if job.is_open]
        if is_open and not is_worked_at():
            if any(not job.is_waiting for job in is_open):
                break_off()
            for job in is_open:
                job.refresh_from_db()
            if any(job.is_waiting for job in is_open):
                ring_later()
        return found

    @classmethod
    def ask(cls, kind: str, about: str, *, asked: Mapping[str, Any], total: float, by) -> Self:
        """Put a job down to be done; the one that is open already, where there is one."""
        if (there := cls.newest(kind, about)) and there.is_open:
            return there
        with transaction.atomic():
            job, is_new = cls.objects.get_or_create(
                kind=kind,
                about=about,
                state=cls.State.WAITING,
                defaults={"asked": asked, "total": total, "asked_by": by, "asked_at": timezone.now()},
            )
            if is_new:
                forget_oldest()
            ring_later()
        return job

    def ask_to_stop(self) -> None:
        """A job that runs ends within a second; one that waits is never begun."""
        now = timezone.now()
        mine = Job.objects.filter(pk=self.pk)
        if not mine.filter(state=self.State.WAITING).update(state=self.State.STOPPED, stop_asked=True, ended_at=now):
            mine.filter(state=self.State.RUNNING).update(stop_asked=True)

    @classmethod
    def claim(cls) -> Self | None:
        """The job that has waited longest, now running; None where nothing waits."""
        while job := cls.objects.filter(state=cls.State.WAITING).first():
            if cls.objects.filter(pk=job.pk, state=cls.State.WAITING).update(state=cls.State.RUNNING):
                job.state = cls.State.RUNNING
                return job
        return None


def forget_oldest() -> None:
    ended = Job.objects.exclude(state__in=Job.OPEN).order_by("-pk").values_list("pk", flat=True)
    if old := list(ended[KEPT_ENDED:]):
        Job.objects.filter(pk__in=old).delete()


def lock_file() -> Path:
    """Beside the book that the jobs stand in: whoever does its jobs holds the lock of this file."""
    book = Path(connection.settings_dict["NAME"])  # of a PostgreSQL only a name: its lock lies in the data folder
    return (book if book.is_absolute() else Path(settings.DATA) / book.name).with_name(book.name + ".jobs")


def is_worked_at() -> bool:
    with if_free(lock_file()) as free:
        return not free


def break_off() -> None:
    """Only for whoever knows that nobody does jobs now."""
    Job.objects.filter(state=Job.State.RUNNING).update(state=Job.State.BROKEN, ended_at=timezone.now())
