"""Secret links under which somebody's phone reads the calendar. Only a digest is kept: a link is shown once."""

import hashlib
import secrets
from datetime import date

from django.conf import settings
from django.db import models
from django.utils import timezone

#: Bytes of a link's secret: nobody guesses it.
SECRET_BYTES = 32


def digest_of(secret: str) -> str:
    return hashlib.sha256(secret.encode()).hexdigest()


class CalendarLink(models.Model):
    person = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.CASCADE, related_name="calendar_links")
    name = models.CharField(max_length=40)
    digest = models.CharField(max_length=64, unique=True, editable=False)
    #: Only the fittings of this person and those that nobody has taken yet, instead of all that is set.
    only_own = models.BooleanField(default=False)
    made_at = models.DateTimeField(default=timezone.now)
    read_on = models.DateField(null=True, blank=True)

    class Meta:
        ordering = ("pk",)

    def __str__(self):
        return f"{self.name} of {self.person}"

    @classmethod
    def make(cls, *, person, name: str, only_own: bool) -> tuple["CalendarLink", str]:
        """The link and its secret, which is nowhere else."""
        secret = secrets.token_urlsafe(SECRET_BYTES)
        return cls.objects.create(person=person, name=name, only_own=only_own, digest=digest_of(secret)), secret

    @classmethod
    def behind(cls, secret: str) -> "CalendarLink | None":
        """The link that this is the secret of, while its person may sign in."""
        return cls.objects.select_related("person").filter(digest=digest_of(secret), person__is_active=True).first()

    def note_read(self, today: date) -> None:
        if self.read_on != today:
            self.read_on = today
            self.save(update_fields=["read_on"])
