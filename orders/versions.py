"""Two people may write at once: whoever saves second is told, and nothing typed is lost."""

from django.conf import settings
from django.db import models
from django.utils import timezone


class ChangedMeanwhile(Exception):
    """Somebody saved this row after it was read; `.row` is the row that was about to be written."""

    def __init__(self, row: "Versioned"):
        super().__init__(f"{row} was changed meanwhile")
        self.row = row


class Versioned(models.Model):
    version = models.PositiveIntegerField(default=1)
    changed_at = models.DateTimeField(default=timezone.now)
    changed_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, on_delete=models.SET_NULL, null=True, blank=True, related_name="+"
    )

    class Meta:
        abstract = True

    def keep(self, *fields: str, by) -> None:
        """Write the named fields, if nobody has written this row since it was read; else raise ChangedMeanwhile."""
        now = timezone.now()
        values = {name: getattr(self, name) for name in fields}
        written = (
            type(self)
            .objects.filter(pk=self.pk, version=self.version)
            .update(**values, version=self.version + 1, changed_at=now, changed_by=by)
        )
        if not written:
            raise ChangedMeanwhile(self)
        self.version += 1
        self.changed_at, self.changed_by = now, by
