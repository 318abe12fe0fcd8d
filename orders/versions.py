"""Two people may write at once: whoever saves second is told, and nothing typed is lost."""

from django.conf import settings
from django.db import models, transaction
from django.utils import timezone

from orders.noting import differences
from workshop.read_quickly import ReadQuickly

#: What the second of two writers is told, where nothing more can be said of what the first one wrote.
MEANWHILE = "Somebody else changed this at the same moment. Look at it, then write again."
ORDER_MEANWHILE = "Somebody else changed this order at the same moment. Look at it, then write again."
PRESS_AGAIN = "Somebody else changed this order at the same moment. Look at it, then press again."


class ChangedMeanwhile(Exception):
    """Somebody saved this row after it was read; `.row` is the row that was about to be written."""

    def __init__(self, row: "Versioned"):
        super().__init__(f"{row} was changed meanwhile")
        self.row = row


class Versioned(ReadQuickly):
    version = models.PositiveIntegerField(default=1)
    changed_at = models.DateTimeField(default=timezone.now)
    changed_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, on_delete=models.SET_NULL, null=True, blank=True, related_name="+"
    )

    #: Which fields the order's history tells of, by what it calls them.
    told_as: dict[str, str] = {}

    class Meta:
        abstract = True

    @property
    def thing(self) -> str:
        """What of an order this row is, in its history; nothing for the order itself."""
        return ""

    @property
    def of_order(self) -> int:
        """The order whose history tells of this row."""
        raise NotImplementedError

    @transaction.atomic
    def keep(self, *fields: str, by, why: str = "") -> None:
        """Write the named fields, if nobody has written this row since it was read; else raise ChangedMeanwhile.

        The order's history gets each field that changed, and `why`.
        """
        now = timezone.now()
        values = {name: getattr(self, name) for name in fields}
        telling = [name for name in fields if name in self.told_as]
        rows = type(self)._base_manager.filter(pk=self.pk, version=self.version)
        before = rows.values(*telling).first() if telling else {}
        written = rows.update(**values, version=self.version + 1, changed_at=now, changed_by=by)
        if not written:
            raise ChangedMeanwhile(self)
        self.version += 1
        self.changed_at, self.changed_by = now, by
        self.note_changes(differences(self.told_as, before, {name: values[name] for name in telling}), by=by, why=why)

    def note_changes(self, told: list[dict], *, by, why: str = "") -> None:
        """Add to the order's history; each entry says field, label, before and after."""
        changes = self._meta.apps.get_model("orders", "Change").objects
        for each in told:
            changes.create(order_id=self.of_order, by=by, thing=self.thing, why=why[:200], **each)
