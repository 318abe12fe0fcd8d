"""The people a workshop sews for, and the tape measures taken of them."""

from __future__ import annotations

import uuid
from collections.abc import Iterable, Mapping
from datetime import date
from decimal import Decimal

from django.conf import settings
from django.db import models, transaction
from django.db.models import F, Q
from django.urls import reverse
from django.utils import timezone

from clients.folding import DigitsField, FoldedField
from clients.held import OfReadings
from clients.measures import BY_KEY
from clients.querysets import ClientQuerySet, MeasuringQuerySet, ReadingQuerySet, ReadingStands
from clients.standing import Stands
from workshop.asked_often import AskedOften
from workshop.length import UnreadableLength, parse_length
from workshop.read_quickly import ReadQuickly

#: Nothing is measured on a body that is longer than this: thirteen feet.
LONGEST_MM = Decimal(4000)

#: The reason kept when the tape is read again while the same measuring goes on.
READ_AGAIN = "Read again at the same measuring."


class UnreadableMeasures(ValueError):
    """One or more measures that can't be read; `by_key` says which, each with its own sentence."""

    def __init__(self, by_key: dict[str, UnreadableLength]):
        self.by_key = by_key
        super().__init__(" ".join(f"{BY_KEY[key].name}: {error}" for key, error in by_key.items()))


class AlreadyReplaced(ValueError):
    """The reading to be corrected has been corrected meanwhile, by `later`."""

    def __init__(self, later: Reading):
        self.later = later
        super().__init__("This reading was put right meanwhile.")


def today() -> date:
    return timezone.localdate()


class Client(ReadQuickly):
    """A person the workshop sews for. A name is enough to start."""

    name = models.CharField(max_length=120)
    phone = models.CharField(max_length=40, blank=True)
    note = models.TextField(max_length=2000, blank=True)
    consent_on = models.DateField(null=True, blank=True)
    #: Asked of those who are still growing.
    born_on = models.DateField(null=True, blank=True)
    #: What their garments have left to let down or out: tucks and deep hems of those who grow.
    to_let_down = models.CharField(max_length=300, blank=True)
    #: The fit notes that are on, as an order file writes them: an order's page has them without asking.
    alterations = models.JSONField(default=list, editable=False)
    since = models.DateField(default=today)
    name_folded = FoldedField(source="name", max_length=240, db_index=True)
    phone_digits = DigitsField(source="phone", max_length=40)

    objects = ClientQuerySet.as_manager()

    class Meta:
        ordering = ["name_folded", "pk"]
        constraints = [
            models.CheckConstraint(
                condition=~Q(name=""), name="client_has_a_name", violation_error_message="Write the client's name."
            ),
        ]

    def __str__(self) -> str:
        return self.name

    def get_absolute_url(self) -> str:
        return reverse("clients:show", args=[self.pk])

    @property
    def first_name(self) -> str:
        return first_of(self.name)


def first_of(name: str) -> str:
    return next(iter(name.split()), "")


class Measuring(OfReadings, ReadQuickly):
    """One time a client was measured: when, by whom, in what, standing how."""

    client = models.ForeignKey(Client, on_delete=models.PROTECT, related_name="measurings")
    taken_on = models.DateField(default=today)
    taken_by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    worn = models.CharField(max_length=120, blank=True)
    shoes = models.CharField(max_length=120, blank=True)
    posture = models.CharField(max_length=200, blank=True)
    note = models.TextField(max_length=1000, blank=True)
    #: Weeks of pregnancy on that day.
    weeks = models.PositiveSmallIntegerField(null=True, blank=True)
    begun_at = models.DateTimeField(default=timezone.now, editable=False)
    #: Chosen by the page that began it, so that a page sent twice writes one measuring.
    token = models.UUIDField(default=uuid.uuid4, unique=True, editable=False)

    objects = MeasuringQuerySet.as_manager()

    class Meta:
        indexes = [models.Index("client", F("taken_on").desc(), name="measuring_newest")]

    def __str__(self) -> str:
        return f"{self.client_id}, {self.taken_on}"

    def get_absolute_url(self) -> str:
        return reverse("clients:show", args=[self.client_id])

    @property
    def all_readings(self) -> list[Reading]:
        """As `held_readings`, where whoever asked for it brought them along in the order in which they were written."""
        held = self.__dict__.get("held_readings")
        return sorted(self.readings.all(), key=lambda each: each.pk) if held is None else held

    def order_file_measures(self) -> dict[str, str]:
        """The measures as an order file writes them, exact: ``{"bust": "927.1mm"}``; of an arm, the right one."""
        return {key: f"{mm.normalize():f}mm" for key, mm in self.lengths().items() if not BY_KEY[key].right}

    def order_file_left(self) -> dict[str, str]:
        """Those of the left arm, under the names of the right, where they were taken of both and differ."""
        lengths = self.lengths()
        taken = ((BY_KEY[key].right, mm) for key, mm in lengths.items() if BY_KEY[key].right)
        return {right: f"{mm.normalize():f}mm" for right, mm in taken if lengths.get(right, mm) != mm}

    def write_down(self, written: Mapping[str, str], unit: str, *, by, why: str = READ_AGAIN, begun: bool = False) -> list[Reading]:
        """Keep what was read off the tape, by measure; answers the readings that are new.

        A measure that already has another length gets a correction, with `why`; a measuring that is just `begun` has none.
        Nothing is written if anything can't be read: raises UnreadableMeasures. KeyError for a measure nobody knows.
        """
        lengths = read_lengths(written, unit)
        known = [] if begun else self.readings.filter(key__in=lengths).order_by("pk")
        latest = {reading.key: reading for reading in known}
        new = [
            Reading(
                measuring=self, key=key, written=written[key].strip(), mm=mm, written_by=by,
                replaces=latest.get(key), why=why if key in latest else "",
            )
            for key, mm in lengths.items()
            if key not in latest or latest[key].mm != mm
        ]  # fmt: skip
        return Reading.objects.bulk_create(new)

    @transaction.atomic
    def confirm(self, keys: Iterable[str], *, by) -> None:
        """Note that these measures were looked at a second time and are right: nothing odd is said of them again."""
        current = Measuring.objects.with_readings().get(pk=self.pk).current()
        for key in keys:
            if key in current:
                Confirmed.objects.update_or_create(reading=current[key], defaults={"by": by, "at": timezone.now()})


def rows_to_hold(client: Client) -> tuple[tuple, ...]:
    """All of a client's measurings and readings, as `held.hold` puts them together: one query."""
    return tuple(_rows_to_hold(client.pk))


_rows_to_hold = AskedOften(lambda client: Measuring.objects.filter(client=client).to_hold())


class Reading(ReadQuickly):
    """One measure as it was read off the tape. It stands for good: a correction is another reading.

    `mm` is None only in a correction that takes a measure out, because it had not been taken.
    """

    measuring = models.ForeignKey(Measuring, on_delete=models.PROTECT, related_name="readings")
    key = models.CharField(max_length=32)
    written = models.CharField(max_length=60, blank=True)
    mm = models.DecimalField(max_digits=9, decimal_places=4, null=True)
    replaces = models.ForeignKey(
        "self", on_delete=models.PROTECT, null=True, blank=True, related_name="replaced_by", db_index=False
    )
    why = models.CharField(max_length=200, blank=True)
    written_by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    written_at = models.DateTimeField(default=timezone.now, editable=False)

    objects = ReadingQuerySet.as_manager()

    class Meta:
        constraints = [
            Stands(name="reading_stands", violation_error_message="A reading stands as it was written."),
            models.UniqueConstraint(
                fields=["measuring", "key"], condition=Q(replaces=None), name="reading_first_of_its_measure",
                violation_error_message="This measure has been written down already: put that reading right.",
            ),
            models.UniqueConstraint(
                fields=["replaces"], name="reading_replaced_once",
                violation_error_message="This reading was put right meanwhile.",
            ),
            models.CheckConstraint(
                condition=Q(replaces=None, why="") | (Q(replaces__isnull=False) & ~Q(why="")),
                name="reading_correction_says_why", violation_error_message="Say why it is put right.",
            ),
            models.CheckConstraint(
                condition=Q(Q(mm__gt=0, mm__isnull=False) & ~Q(written=""))
                | Q(mm=None, written="", replaces__isnull=False),
                name="reading_holds_a_length", violation_error_message="A reading holds a length.",
            ),
        ]  # fmt: skip

    def __str__(self) -> str:
        return f"{self.measure.name} {self.written or 'taken out'}"

    @property
    def measure(self):
        return BY_KEY[self.key]

    def save(self, *args, **kwargs):
        """Add the reading. One that stands already is not saved again: ReadingStands."""
        if not self._state.adding:
            raise ReadingStands
        super().save(*args, **kwargs)

    def delete(self, *args, **kwargs):
        raise ReadingStands

    def correct(self, written: str, unit: str, *, by, why: str) -> Reading:
        """Put another length in its place, saying why. UnreadableLength, AlreadyReplaced."""
        return self._followed_by(written=written.strip(), mm=read_length(written, unit), by=by, why=why)

    def take_out(self, *, by, why: str) -> Reading:
        """Say that this measure had not been taken at all. AlreadyReplaced."""
        return self._followed_by(written="", mm=None, by=by, why=why)

    @transaction.atomic
    def _followed_by(self, *, written: str, mm: Decimal | None, by, why: str) -> Reading:
        later = Reading.objects.filter(replaces=self).first()
        if later is not None:
            raise AlreadyReplaced(later)
        return Reading.objects.create(
            measuring=self.measuring, key=self.key, written=written, mm=mm, replaces=self, why=why, written_by=by
        )


class Confirmed(models.Model):
    """Somebody read the tape a second time, and the reading is right as odd as it looks."""

    reading = models.OneToOneField(Reading, on_delete=models.CASCADE, related_name="confirmed")
    by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+", db_index=False)
    at = models.DateTimeField(default=timezone.now)

    def __str__(self) -> str:
        return f"{self.reading} is right"


class Sent(models.Model):
    """What a phone sent, under the key that it gave it, and what it was answered: a repeat gets the same answer."""

    key = models.UUIDField(unique=True)
    person = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.CASCADE, related_name="+", db_index=False)
    digest = models.CharField(max_length=64)
    answer = models.JSONField()
    at = models.DateTimeField(default=timezone.now, db_index=True)

    def __str__(self) -> str:
        return str(self.key)


def read_lengths(written: Mapping[str, str], unit: str) -> dict[str, Decimal]:
    """Exact millimetres by measure. UnreadableMeasures names all that can't be read, not the first alone."""
    lengths, refused = {}, {}
    for key, text in written.items():
        try:
            lengths[BY_KEY[key].key] = read_length(text, unit)
        except UnreadableLength as error:
            refused[key] = error
    if refused:
        raise UnreadableMeasures(refused)
    return lengths


def read_length(text: str, unit: str) -> Decimal:
    """Exact millimetres of a measure on a body. UnreadableLength says what was read and what to do."""
    mm = parse_length(text, unit)
    read = text.strip()
    if mm <= 0:
        advice = "Write what the tape says."
        raise UnreadableLength(read, advice, sentence=f"“{read}” is no length. {advice}")
    if mm > LONGEST_MM:
        advice = "Write it again."
        raise UnreadableLength(read, advice, sentence=f"“{read}” is longer than anybody. {advice}")
    return mm
